"""A spar on offset pins with a control rod, against a 3-D frame in Pynite.

The frame: a spar of beam members along its own axis (centroid and shear centre in one), stiff arms from it to the pins
on the hinge line and to the horn, a rod from the horn to the ground. Its axes are X = y, Y = z, Z = x, a turn of ours,
so that right-handed stays right-handed. Members have no shear flexibility; loads are given bay by bay.
"""

from __future__ import annotations

import numpy as np
import pytest

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

Pynite = pytest.importorskip("Pynite", reason="Pynite is the second program of this test: install the test extra")

BREAKS = [0.0, 0.08, 0.3, 0.55, 0.8, 1.02, 1.1]
HINGES = (1, 3, 4, 5)
AXIS = (0.031, 0.006)  # x and z of the spar's axis
HORN = (0.004, -0.085)
ROD = np.array([-0.96, 0.20, 0.10])
EI_1, EI_2 = 900.0 * np.array([1.5, 1.4, 1.2, 1.0, 0.8, 0.7]), 30000.0 * np.array([1.2, 1.1, 1.0, 1.0, 0.9, 0.8])
GJ = 1500.0 * np.array([1.4, 1.3, 1.1, 1.0, 0.9, 0.8])
ARMS = (1.0e10, 1.0e11)  # E A of the arms [N], their E I a hundredth of it [N m2]; more would cost digits
RIB = {2: np.array([15.0, -8.0, 60.0]), 5: np.array([-20.0, 5.0, 35.0])}
RIB_AT = (0.14, -0.01)
SOFT = {1: 4.0e-6, 2: 9.0e-6}  # hinge number: lateral, chordwise give [m/N]
MOVED = (2, 6.0e-4, -3.0e-4)


def load_z(y):
    return 460.0 - 180.0 * y


def load_x(y):
    return 35.0 + 20.0 * y


ALONG = 12.0


def to_frame(v):
    """(x, y, z) of ours in the frame's (X, Y, Z)."""
    return v[..., [1, 2, 0]]


def frame(turned, twist_factor):
    """Return our bending stiffnesses, and reactions, rod force and tip displacement with arms that do not give.

    What the arms give falls as 1/stiffness: two solutions, taken on to rigid arms.
    """
    softer, stiffer = (framed(turned, twist_factor, arm) for arm in ARMS)
    ratio = ARMS[1] / ARMS[0]
    return stiffer[0], *(b + (b - a) / (ratio - 1) for a, b in zip(softer[1:], stiffer[1:], strict=True))


def framed(turned, twist_factor, arm_stiffness):
    """Return bending stiffnesses, reactions (x, y, z) a hinge, force of the rod, (u, w, twist, twist of the root)."""
    model = Pynite.FEModel3D()
    model.add_material("unit", 1.0, 1.0, 0.3, 0.0)
    model.add_section("arm", arm_stiffness, *(arm_stiffness * 1e-2,) * 3)
    model.add_section("rod", 1e7, 1e-6, 1e-6, 1e-6)
    stiffness = []
    for b, y in enumerate(BREAKS):
        model.add_node(f"s{b}", y, AXIS[1], AXIS[0])
    for i in range(len(BREAKS) - 1):
        model.add_section(f"s{i}", 1e9, EI_2[i], EI_1[i], GJ[i] * twist_factor)
        model.add_member(f"m{i}", f"s{i}", f"s{i + 1}", "unit", f"s{i}", rotation=turned)
        local = np.asarray(model.members[f"m{i}"].T(), dtype=float)[:3, :3]
        D = EI_1[i] * np.outer(local[1], local[1]) + EI_2[i] * np.outer(local[2], local[2])  # E integral r r
        stiffness.append((D[1, 1], D[2, 2], D[1, 2]))
        for direction, q in (("FY", load_z), ("FZ", load_x), ("FX", lambda _: ALONG)):
            model.add_member_dist_load(f"m{i}", direction, q(BREAKS[i]), q(BREAKS[i + 1]))
    for b, F in RIB.items():
        arm = np.array([RIB_AT[0] - AXIS[0], 0.0, RIB_AT[1] - AXIS[1]])
        names = (("FX", "FY", "FZ"), to_frame(F)), (("MX", "MY", "MZ"), to_frame(np.cross(arm, F)))
        for directions, values in names:
            for direction, value in zip(directions, values, strict=True):
                model.add_node_load(f"s{b}", direction, value)
    for i, b in enumerate(HINGES):
        model.add_node(f"p{i}", BREAKS[b], 0.0, 0.0)
        model.add_member(f"a{i}", f"p{i}", f"s{b}", "unit", "arm")
        soft_z, soft_x = i == 1, i == 2
        model.def_support(f"p{i}", i == 1, not soft_z, not soft_x)
        if soft_z:
            model.def_support_spring(f"p{i}", "DY", 1 / SOFT[1])
        if soft_x:
            model.def_support_spring(f"p{i}", "DZ", 1 / SOFT[2])
    model.def_node_disp(f"p{MOVED[0]}", "DY", MOVED[1])
    model.def_node_disp(f"p{MOVED[0] + 1}", "DZ", MOVED[2])
    model.add_node("horn", 0.0, HORN[1], HORN[0])
    model.add_member("horn", "horn", "s0", "unit", "arm")
    d = ROD / np.linalg.norm(ROD)
    far = np.array([HORN[0], 0.0, HORN[1]]) + 0.3 * d
    model.add_node("far", *to_frame(far))
    model.add_member("rod", "horn", "far", "unit", "rod")
    model.def_support("far", *(True,) * 6)
    model.def_releases("rod", Ryi=True, Rzi=True, Ryj=True, Rzj=True)
    model.analyze_linear(check_stability=False)
    nodes = model.nodes
    reactions = []
    for i in range(len(HINGES)):
        p = nodes[f"p{i}"]
        z = p.RxnFY["Combo 1"] if i != 1 else -p.DY["Combo 1"] / SOFT[1]
        x = p.RxnFZ["Combo 1"] if i != 2 else -p.DZ["Combo 1"] / SOFT[2]
        reactions.append([x, p.RxnFX["Combo 1"], z])
    far_node = nodes["far"]
    rod = np.array([far_node.RxnFX["Combo 1"], far_node.RxnFY["Combo 1"], far_node.RxnFZ["Combo 1"]])
    last, first = nodes[f"s{len(BREAKS) - 1}"], nodes["s0"]
    tip = np.array([v["Combo 1"] for v in (last.DZ, last.DY, last.RX, first.RX)])
    return np.array(stiffness), np.array(reactions), rod, tip


def ours(stiffness, coupled):
    stations = grid(BREAKS, cells=1)
    y = stations.y
    x_s, z_s = AXIS
    loads = unloaded(
        stations,
        x=load_x(y),
        y=ALONG,
        z=load_z(y),
        torque=z_s * load_x(y) - x_s * load_z(y),
        moment_x=-z_s * ALONG,
        moment_z=x_s * ALONG,
    )
    for b, F in RIB.items():
        loads = loads.plus(b, F, point_force(F, *RIB_AT))
    rod, loads = close_with_rod(stations, loads, 0, HORN, ROD)
    per_point = np.repeat(stiffness, 4, axis=0).T
    section = beam_stiffness(*per_point, torsion=1 / np.repeat(GJ, 4), x_s=x_s, z_s=z_s, x_c=x_s, z_c=z_s)
    n = len(HINGES)
    give, moved = np.zeros((2 * n, 2 * n)), np.zeros((1, n, 2))
    give[1, 1], give[n + 2, n + 2] = SOFT[1], SOFT[2]
    moved[0, MOVED[0], 0], moved[0, MOVED[0] + 1, 1] = MOVED[1], MOVED[2]
    supports = Supports(HINGES, compliance=give, displacement=moved, thrust=np.array([1]))
    return solve(stations, loads, section, supports, coupled), rod


@pytest.mark.parametrize("turned", [0.0, 25.0], ids=["principal axes", "with product of inertia"])
@pytest.mark.parametrize("coupled", [True, False], ids=["coupled", "bending alone"])
def test_reactions_rod_and_tip(turned, coupled):
    """Bending alone is the frame with members that do not twist."""
    stiffness, reactions, rod_ground, (u, w, twist, root_twist) = frame(turned, 1.0 if coupled else 1e7)
    if turned:
        assert np.abs(stiffness[:, 2]).min() > 1000.0
    beam, rod = ours(stiffness, coupled)
    assert beam.reactions[0] == pytest.approx(reactions, abs=2e-6 * np.abs(reactions).max())
    assert to_frame(rod[0] * ROD / np.linalg.norm(ROD)) == pytest.approx(rod_ground, rel=1e-6)
    moved = deflections(beam)
    axis = moved.u[0, -1] + twist * AXIS[1], moved.w[0, -1] - twist * AXIS[0]  # the frame's tip is on the spar's axis
    assert axis == pytest.approx((u, w), abs=1e-9)
    if coupled:
        assert moved.twist[0, -1] == pytest.approx(twist - root_twist, rel=1e-6)


def test_the_two_idealisations_differ_here_so_that_the_agreement_means_something():
    stiffness = frame(25.0, 1.0)[0]
    coupled, alone = ours(stiffness, True)[0].reactions, ours(stiffness, False)[0].reactions
    assert np.abs(coupled - alone).max() > 2.0
