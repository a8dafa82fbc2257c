"""What must hold of every beam on hinges, whatever its numbers."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from surfacecheck.statics import (
    Supports,
    beam_stiffness,
    close_with_rod,
    deflections,
    grid,
    point_force,
    solve,
    unloaded,
)

RUNNING = ("x", "y", "z")


def real(low, high):
    return st.floats(low, high, allow_nan=False, allow_infinity=False)


@st.composite
def surfaces(draw):
    """A surface as a person would type it: linear loads with their centre, forces at places, a rod, a section."""
    hinges = draw(st.integers(2, 6))
    bays = [draw(real(0.02, 0.5)) for _ in range(hinges + 2)]
    pair = st.tuples(real(-500.0, 500.0), real(-500.0, 500.0))
    return {
        "breaks": np.concatenate([[0.0], np.cumsum(bays)]),
        "hinges": tuple(range(1, hinges + 1)),
        "load": {name: draw(pair) for name in RUNNING},
        "centre": (draw(real(-0.1, 0.3)), draw(real(-0.05, 0.05))),
        "push": (draw(st.integers(0, hinges + 2)), np.array([draw(real(-300, 300)) for _ in range(3)])),
        "at": (draw(real(-0.1, 0.3)), draw(real(-0.1, 0.1))),
        "rod": np.array([draw(real(-1.0, -0.5)), draw(real(-0.3, 0.3)), draw(real(-0.3, 0.3))]),
        "horn": (draw(real(-0.02, 0.02)), draw(st.sampled_from([-0.09, 0.07]))),
        "EI": (draw(real(200.0, 5e3)), draw(real(1e3, 1e5)), draw(real(-0.5, 0.5)), draw(real(0.3, 1.0))),
        "section": {
            "s_xx": draw(real(0.0, 1e-5)),
            "s_zz": draw(real(0.0, 1e-5)),
            "torsion": draw(real(1e-5, 1e-2)),
            "x_s": draw(real(-0.03, 0.05)),
            "z_s": draw(real(-0.02, 0.02)),
            "x_c": draw(real(0.0, 0.1)),
            "z_c": draw(real(-0.02, 0.02)),
        },
        "give": [draw(real(0.0, 1e-5)) for _ in range(2 * hinges)],
        "moved": [draw(real(-1e-3, 1e-3)) for _ in range(2 * hinges)],
        "thrust": draw(st.integers(0, hinges - 1)),
        "sheared": draw(real(-0.9, 0.9)),
        "coupled": draw(st.booleans()),
    }


def loads_of(s, stations, factor=1.0):
    (x, z), length = s["centre"], stations.breaks[-1]
    q = {n: factor * (a + (b - a) * stations.y / length) for n, (a, b) in s["load"].items()}
    air = unloaded(stations, **q, torque=z * q["x"] - x * q["z"], moment_x=-z * q["y"], moment_z=x * q["y"])
    b, F = s["push"]
    return close_with_rod(stations, air.plus(b, factor * F, point_force(factor * F, *s["at"])), 0, s["horn"], s["rod"])


def section_of(s, stations):
    first, second, product, taper = s["EI"]
    share = 1.0 + (taper - 1.0) * stations.y / stations.breaks[-1]
    return beam_stiffness(
        first * share**3, second * share, product * share**2 * np.sqrt(first * second), **s["section"]
    )


def supports_of(s, moved=1.0):
    n = len(s["hinges"])
    displacement = moved * np.array(s.get("moved_to", s["moved"])).reshape(1, 2, n).transpose(0, 2, 1)
    return Supports(s["hinges"], np.diag(s["give"]), displacement, np.array([s["thrust"]]))


def solved(s, factor=1.0, moved=1.0, cells=2, **changes):
    s = {**s, **changes}
    stations = grid(s["breaks"], cells)
    _, loads = loads_of(s, stations, factor)
    return solve(stations, loads, section_of(s, stations), supports_of(s, moved), s["coupled"])


def scale_of(beam):
    return 1.0 + np.abs(beam.reactions).max()


@settings(deadline=None, max_examples=60)
@given(surfaces(), st.tuples(real(-2, 2), real(-2, 2), real(-2, 2)))
def test_balance_against_the_load_as_typed_about_any_point(s, point):
    """Forces from trapezia by hand, never from what the program made of them."""
    beam = solved(s)
    L = s["breaks"][-1]
    ends = np.array([[s["load"][n][i] for n in RUNNING] for i in (0, 1)])
    total = L * ends.mean(axis=0)
    by_y = L**2 * (ends[0] / 6 + ends[1] / 3)  # integral of q y dy
    x, z = s["centre"]
    moment = np.array([by_y[2] - z * total[1], z * total[0] - x * total[2], x * total[1] - by_y[0]])
    acting = [(np.zeros(3), total)]
    b, F = s["push"]
    acting.append((np.array([s["at"][0], s["breaks"][b], s["at"][1]]), F))
    stations = grid(s["breaks"], 2)
    P, _ = loads_of(s, stations)
    acting.append((np.array([s["horn"][0], 0.0, s["horn"][1]]), P[0] * s["rod"] / np.linalg.norm(s["rod"])))
    acting += [(np.array([0.0, s["breaks"][h], 0.0]), R) for h, R in zip(s["hinges"], beam.reactions[0], strict=True)]
    about = np.array(point)
    size = sum(np.abs(f).sum() for _, f in acting) + 1.0
    assert sum(f for _, f in acting) == pytest.approx(np.zeros(3), abs=1e-11 * size)
    # the running load's moment about the origin is known as a whole, so that it is carried over to the point apart
    rest = moment - np.cross(about, total) + sum(np.cross(r - about, f) for r, f in acting[1:])
    assert rest == pytest.approx(np.zeros(3), abs=1e-10 * size)


@settings(deadline=None, max_examples=40)
@given(surfaces(), real(-3, 3))
def test_superposition_and_displacements_that_do_not_scale(s, factor):
    """R(k load, d) = k R(load, 0) + R(0, d): the ninth of the classic traps."""
    both, load, moved = solved(s, factor=factor), solved(s, moved=0.0), solved(s, factor=0.0)
    for name in ("reactions", "V_x", "V_z", "M_x", "M_z", "N", "T_0"):
        expected = factor * getattr(load, name) + getattr(moved, name)
        size = np.abs(getattr(load, name)).max() * (1 + abs(factor)) + np.abs(getattr(moved, name)).max() + 1.0
        assert getattr(both, name) == pytest.approx(expected, abs=1e-9 * size)


@settings(deadline=None, max_examples=40)
@given(surfaces())
def test_mirror_about_the_plane_of_the_surface(s):
    """z to -z of places and loads: lateral turns round, chordwise and along stay."""
    first, second, product, taper = s["EI"]
    n = len(s["hinges"])
    mirrored = {
        **s,
        "load": {**s["load"], "z": tuple(-v for v in s["load"]["z"])},
        "centre": (s["centre"][0], -s["centre"][1]),
        "push": (s["push"][0], s["push"][1] * (1, 1, -1)),
        "at": (s["at"][0], -s["at"][1]),
        "rod": s["rod"] * (1, 1, -1),
        "horn": (s["horn"][0], -s["horn"][1]),
        "EI": (first, second, -product, taper),
        "sheared": -s["sheared"],
        "section": {**s["section"], "z_s": -s["section"]["z_s"], "z_c": -s["section"]["z_c"]},
        "moved": [-v for v in s["moved"][:n]] + s["moved"][n:],
    }
    one, other = solved(s), solved(mirrored)
    size = scale_of(one)
    assert other.reactions * (1, 1, -1) == pytest.approx(one.reactions, abs=1e-9 * size)
    assert -other.M_x == pytest.approx(one.M_x, abs=1e-9 * size)
    assert other.M_z == pytest.approx(one.M_z, abs=1e-9 * size)
    assert pytest.approx(one.T_0, abs=1e-9 * size) == -other.T_0


def about_y(angle, x, z):
    c, si = np.cos(angle), np.sin(angle)
    return c * x - si * z, si * x + c * z


def tensor_about_y(angle, xx, xz, zz):
    turn = np.array(about_y(angle, *np.eye(2)))
    out = np.einsum("ij,jk...,lk->il...", turn, np.array([[xx, xz], [xz, zz]]), turn)
    return out[0, 0], out[0, 1], out[1, 1]


@settings(deadline=None, max_examples=40)
@given(surfaces(), real(-3.0, 3.0))
def test_turning_the_axes_about_the_hinge_line_turns_the_answer(s, angle):
    """Loads, section and displacements seen in turned axes: products of inertia and of shear included."""
    s = {**s, "give": s["give"][: len(s["hinges"])] * 2}
    stations = grid(s["breaks"], 2)
    loads, section, supports = loads_of(s, stations)[1], section_of(s, stations), supports_of(s)

    def seen(v):
        x, z = about_y(angle, v[..., 0], v[..., 2])
        return np.stack([x, v[..., 1], z], axis=-1)

    q_x, q_z = about_y(angle, loads.x, loads.z)
    m_x, m_z = about_y(angle, loads.moment_x, loads.moment_z)
    turned_loads = replace(
        loads, x=q_x, z=q_z, moment_x=m_x, moment_z=m_z, force=seen(loads.force), moment=seen(loads.moment)
    )
    b = tensor_about_y(angle, *np.broadcast_arrays(section.b_xx, section.b_xz, section.b_zz))
    sh = tensor_about_y(angle, *np.broadcast_arrays(section.s_xx, section.s_xz, section.s_zz))
    names = ("b_xx", "b_xz", "b_zz", "s_xx", "s_xz", "s_zz", "x_s", "z_s", "x_c", "z_c")
    values = (*b, *sh, *about_y(angle, section.x_s, section.z_s), *about_y(angle, section.x_c, section.z_c))
    turned_section = replace(section, **dict(zip(names, values, strict=True)))
    d_x, d_z = about_y(angle, supports.displacement[..., 1], supports.displacement[..., 0])
    turned_supports = replace(supports, displacement=np.stack([d_z, d_x], axis=-1))
    one = solve(stations, loads, section, supports, s["coupled"])
    other = solve(stations, turned_loads, turned_section, turned_supports, s["coupled"])
    size = scale_of(one)
    assert other.reactions == pytest.approx(seen(one.reactions), abs=1e-8 * size)
    for x, z in (("V_x", "V_z"), ("M_x", "M_z")):
        expected = np.array(about_y(angle, getattr(one, x), getattr(one, z)))
        assert np.array([getattr(other, x), getattr(other, z)]) == pytest.approx(expected, abs=1e-8 * size)
    assert pytest.approx(one.T_0, abs=1e-9 * size) == other.T_0


@settings(deadline=None, max_examples=40)
@given(surfaces())
def test_units_do_not_matter(s):
    """Metres to millimetres, newtons kept: forces the same, moments times 1000."""
    k = 1000.0
    first, second, product, taper = s["EI"]
    powers = {"s_xx": 0, "s_zz": 0, "torsion": -2, "x_s": 1, "z_s": 1, "x_c": 1, "z_c": 1}
    scaled = {
        **s,
        "breaks": s["breaks"] * k,
        "load": {n: tuple(v / k for v in q) for n, q in s["load"].items()},
        "centre": tuple(v * k for v in s["centre"]),
        "at": tuple(v * k for v in s["at"]),
        "horn": tuple(v * k for v in s["horn"]),
        "EI": (first * k**2, second * k**2, product, taper),
        "section": {n: v * k ** powers[n] for n, v in s["section"].items()},
        "give": [v * k for v in s["give"]],
        "moved": [v * k for v in s["moved"]],
    }
    one, other = solved(s), solved(scaled)
    size = scale_of(one)
    assert other.reactions == pytest.approx(one.reactions, abs=1e-9 * size)
    assert other.M_x == pytest.approx(k * one.M_x, abs=1e-6 * size)


@settings(deadline=None, max_examples=40)
@given(surfaces())
def test_a_support_that_gives_is_a_rigid_one_that_has_moved_so_far(s):
    """R(c, d) = R(0, d - c R), and in the limit of a stiff support R(c, d) = R(0, d)."""
    n = len(s["hinges"])
    soft = solved(s).reactions
    moved = np.array(s["moved"]) - np.array(s["give"]) * soft[0][:, [2, 0]].T.ravel()
    # two stiff hinges near to each other feel the rounding of a displacement: 12 EI/l^3 newtons a metre
    nearest = np.diff(s["breaks"])[1:-1].min()
    rounding = 1e-15 * np.abs(moved).max() * 12 * max(s["EI"][:2]) / nearest**3
    size = np.abs(soft).max() + 1.0
    found = solved(s, give=[0.0] * 2 * n, moved_to=moved).reactions
    assert found == pytest.approx(soft, abs=1e-9 * size + 100 * rounding)
    plain = solved(s, give=[0.0] * 2 * n).reactions
    stiff = solved(s, give=[1e-17] * 2 * n).reactions
    assert stiff == pytest.approx(plain, abs=1e-4 * (np.abs(plain).max() + 1.0))


@settings(deadline=None, max_examples=40)
@given(surfaces())
def test_deflections_meet_every_support(s):
    """Compatibility: only the first and last hinge were used to place the beam, the others must be met."""
    beam = solved(s, cells=12)
    R = beam.reactions[0][:, [2, 0]]
    n = len(s["hinges"])
    give = np.array(s["give"]).reshape(2, n).T
    expected = np.array(s["moved"]).reshape(2, n).T - give * R
    moved = deflections(beam)
    found = np.stack([moved.hinge_w[0], moved.hinge_u[0]], axis=-1)
    size = np.abs(moved.w).max() + np.abs(moved.u).max() + np.abs(expected).max()
    assert found == pytest.approx(expected, abs=1e-8 * size + 1e-13)


@settings(deadline=None, max_examples=40)
@given(surfaces(), st.data())
def test_a_station_on_a_hinge_gives_both_values(s, data):
    """The jump is the reaction, and moving the station by a nanometre changes nothing else: the fifth trap."""
    which = data.draw(st.integers(0, len(s["hinges"]) - 1))
    h = s["hinges"][which]
    s = {**s, "push": (0, s["push"][1]), "thrust": which}
    beam = solved(s)
    at = beam.stations
    R = beam.reactions[0, which]
    size = scale_of(beam)
    inboard, outboard = at.before(h), at.after(h)
    jump = np.array([v[0, inboard] - v[0, outboard] for v in (beam.V_x, beam.N, beam.V_z)])
    assert jump == pytest.approx(R, abs=1e-9 * size)
    for v in (beam.M_x, beam.M_z, beam.T_0):
        assert v[0, inboard] == pytest.approx(v[0, outboard], abs=1e-9 * size)

    def extra(shift):
        """Put one more break beside the hinge: exactly on it, outboard of it, or a nanometre off."""
        breaks = np.insert(s["breaks"], h + 1, s["breaks"][h] + shift)
        hinges = tuple(b if b <= h else b + 1 for b in s["hinges"])
        return solved(s, breaks=breaks, hinges=hinges)

    on, off = extra(0.0), extra(1e-9)
    for name in ("reactions", "V_x", "V_z", "N", "M_x", "M_z", "T_0"):
        assert getattr(off, name) == pytest.approx(getattr(on, name), abs=1e-6 * size)
    assert on.reactions == pytest.approx(beam.reactions, abs=1e-9 * size)
    i = on.stations.before(h)
    assert on.V_z[0, i] == pytest.approx(beam.V_z[0, inboard], abs=1e-9 * size)
    assert on.V_z[0, on.stations.after(h + 1)] == pytest.approx(beam.V_z[0, outboard], abs=1e-9 * size)


@settings(deadline=None, max_examples=40)
@given(surfaces(), real(-0.2, 0.2), real(-0.2, 0.2))
def test_torque_about_another_line_differs_by_the_shear_and_steps_by_the_reaction(s, x, z):
    """T_a - T_b = a V_z - b V_x, and so its step at a hinge is x R_z - z R_x: the second trap."""
    s = {**s, "push": (0, s["push"][1])}
    beam = solved(s)
    size = scale_of(beam)
    T = beam.T_0 + x * beam.V_z - z * beam.V_x
    for which, h in enumerate(s["hinges"]):
        i, j = beam.stations.before(h), beam.stations.after(h)
        R = beam.reactions[0, which]
        assert T[0, i] - T[0, j] == pytest.approx(x * R[2] - z * R[0], abs=1e-9 * size)


def test_the_order_of_convergence_on_a_tapered_stiffness_is_six():
    """Halving the cells of a beam with linear depth divides the error of the reactions by about 2^6."""
    breaks, hinges = [0.0, 0.1, 0.5, 0.9, 1.2], (1, 2, 3)

    def reactions(cells):
        stations = grid(breaks, cells)
        EI = 1000.0 * (1.0 - 0.6 * stations.y / 1.2) ** 3
        loads = unloaded(stations, z=480.0 - 150.0 * stations.y)
        return solve(stations, loads, beam_stiffness(EI, EI), Supports(hinges), coupled=False).reactions[0, :, 2]

    exact = reactions(64)
    error = [np.abs(reactions(n) - exact).max() for n in (1, 2, 4)]
    order = np.log2(np.array(error[:-1]) / np.array(error[1:]))
    assert order == pytest.approx([6.0, 6.0], abs=0.6)
    assert error[1] < 1e-5 * np.abs(exact).max()
