"""An invented small rudder on two hinges, worked by hand: reactions, diagrams, horn, bracket rivets.

Span 0.900 m, hinges A at 0.100 and B at 0.700, web 0.020 m aft of the hinge line; 450 N/m at x = 0.120 m; cable at the
root, at z = -0.090, pulling forward. SI units, five significant digits; a program must agree to 1 in the last digit.
Every number was redone from balance before it was written here; none had to be changed.
"""

from __future__ import annotations

import numpy as np
import pytest

from surfacecheck.statics import (
    Supports,
    beam_stiffness,
    close_with_rod,
    grid,
    heel_bound,
    point_force,
    running,
    share_group,
    share_in_plane,
    shear_and_tension,
    solve,
    unloaded,
)

BREAKS = [0.0, 0.05, 0.1, 0.2, 0.375, 0.4, 0.6, 0.7, 0.8, 0.9]
A, B = 2, 7
WEB = 0.020

ETA = np.array([-10.0, 10.0, -10.0, 10.0, -10.0, 10.0])
ZETA = np.array([-12.0, -12.0, 0.0, 0.0, 12.0, 12.0])
PIN = (-20.0, -6.0, 0.0)


def last_digit(value, digits=5):
    """One in the last of so many significant digits."""
    return {"abs": 10.0 ** (np.floor(np.log10(np.max(np.abs(value)))) - digits + 1)}


def rudder(sign=1.0, coupled=True, extra=None, cable=(0.0, -0.090), pull=(-1.0, 0.0, 0.0)):
    stations = grid(BREAKS, cells=1)
    air = unloaded(stations, z=sign * 450.0, torque=sign * -54.0) if extra is None else extra(stations)
    horn, loads = close_with_rod(stations, air, 0, cable, pull)
    section = beam_stiffness(
        68e9 * 14507e-12, 68e9 * 1.0138e-6, torsion=1 / 3558.2, x_s=0.028609, x_c=0.082844, s_xx=1e-7, s_zz=2e-7
    )
    return horn, solve(stations, loads, section, Supports((A, B)), coupled)


@pytest.fixture(scope="module")
def solved():
    return rudder()


def at(beam, y, side="after"):
    return getattr(beam.stations, side)(BREAKS.index(y))


def test_1_1_total_load_and_hinge_moment(solved):
    stations = grid([0.0, 0.9], cells=1)
    assert running(stations, np.full((1, 4), 450.0))[0, 0] == pytest.approx(405.00, abs=1e-9)
    _, beam = solved
    assert beam.T_0[0, 0] == pytest.approx(-48.600, abs=0.001)


def test_1_1_second_route_for_the_running_torque():
    """Pressure 3000 Pa at the web to 0 at the trailing edge: 9.0000 + 45.000 = 54.000 N m/m."""
    chord = grid([0.0, 0.3], cells=1)
    pressure = 3000.0 * (1.0 - chord.y / 0.3)
    assert (pressure * chord.weight).sum() == pytest.approx(450.00, abs=0.01)
    assert (pressure * 0.020 * chord.weight).sum() == pytest.approx(9.0000, abs=0.0001)
    assert (pressure * chord.y * chord.weight).sum() == pytest.approx(45.000, abs=0.001)


def test_1_2_horn_and_the_other_cable(solved):
    horn, beam = solved
    assert horn[0] == pytest.approx(540.00, abs=0.01)
    assert beam.loads.force[0, 0] == pytest.approx([-540.00, 0.0, 0.0], abs=0.01)
    other, reversed_ = rudder(sign=-1.0, cable=(0.0, 0.090))
    assert other[0] == pytest.approx(540.00, abs=0.01)
    assert reversed_.reactions[0, :, 0] == pytest.approx(beam.reactions[0, :, 0], rel=1e-12)
    assert reversed_.reactions[0, :, 2] == pytest.approx(-beam.reactions[0, :, 2], rel=1e-12)


@pytest.mark.parametrize("coupled", [False, True], ids=["bending alone", "coupled"])
def test_1_3_hinge_reactions_by_balance_whatever_the_stiffness(coupled):
    _, beam = rudder(coupled=coupled)
    R_A, R_B = beam.reactions[0]
    assert [R_A[2], R_B[2]] == pytest.approx([-168.75, -236.25], abs=0.01)
    assert [R_A[0], R_B[0]] == pytest.approx([630.00, -90.000], abs=0.001)
    assert R_A[2] == pytest.approx(-405 * 0.25 / 0.6, rel=1e-12)
    assert R_A[0] == pytest.approx(540 * 0.7 / 0.6, rel=1e-12)
    assert R_A[0] + R_B[0] - 540.0 == pytest.approx(0.0, abs=1e-9)


DIAGRAMS = {
    0.05: (-22.500, 0.56250, 540.00, 27.000, -45.900, -46.350),
    0.20: (78.750, -7.8750, -90.000, 45.000, -37.800, -36.225),
    0.40: (-11.250, -14.625, -90.000, 27.000, -27.000, -27.225),
    0.60: (-101.25, -3.3750, -90.000, 9.0000, -16.200, -18.225),
    0.80: (45.000, 2.2500, 0.0, 0.0, -5.4000, -4.5000),
}


@pytest.mark.parametrize("y", DIAGRAMS)
def test_1_4_diagrams(solved, y):
    _, beam = solved
    i = at(beam, y)
    found = [getattr(beam, n)[0, i] for n in ("V_z", "M_x", "V_x", "M_z", "T_0")]
    found.append(beam.T_0[0, i] + WEB * beam.V_z[0, i])
    for value, hand in zip(found, DIAGRAMS[y], strict=True):
        assert value == pytest.approx(hand, **(last_digit(hand) if hand else {"abs": 1e-9}))


@pytest.mark.parametrize("y", DIAGRAMS)
def test_1_4_second_route_sums_over_smaller_y_with_the_sign_turned(solved, y):
    _, beam = solved
    i = at(beam, y)
    forces = [(0.0, np.array([-540.0, 0.0, 0.0]), -48.6 * -1.0)]
    forces += [(BREAKS[b], R, 0.0) for b, R in zip((A, B), beam.reactions[0], strict=True) if BREAKS[b] < y]
    V_z = sum(F[2] for _, F, _ in forces) + 450.0 * y
    V_x = sum(F[0] for _, F, _ in forces)
    M_x = sum((s - y) * F[2] for s, F, _ in forces) - 450.0 * y * y / 2
    M_z = sum(-(s - y) * F[0] for s, F, _ in forces)
    T_0 = 48.6 - 54.0 * y
    for name, value in {"V_z": V_z, "V_x": V_x, "M_x": M_x, "M_z": M_z, "T_0": T_0}.items():
        assert -value == pytest.approx(getattr(beam, name)[0, i], rel=1e-11, abs=1e-9)


def test_1_4_moments_at_a_and_where_the_shear_is_zero(solved):
    _, beam = solved
    i = at(beam, 0.1)
    assert beam.M_x[0, i] == pytest.approx(2.2500, abs=0.0001)
    assert beam.M_z[0, i] == pytest.approx(54.000, abs=0.001)
    top = at(beam, 0.375)
    assert beam.V_z[0, top] == pytest.approx(0.0, abs=1e-9)
    assert beam.M_x[0, top] == pytest.approx(-14.766, abs=0.001)


@pytest.mark.parametrize(("hinge", "place"), [(0, 0.1), (1, 0.7)])
def test_1_4_the_torque_about_the_web_steps_at_a_hinge_and_that_about_the_hinge_line_does_not(solved, hinge, place):
    """T_w(y-) - T_w(y+) = +0.020 R_z: taking one for the other is the second of the classic traps."""
    _, beam = solved
    inboard, outboard = at(beam, place, "before"), at(beam, place, "after")
    T_w = beam.T_0[0] + WEB * beam.V_z[0]
    R_z = beam.reactions[0, hinge, 2]
    assert T_w[inboard] - T_w[outboard] == pytest.approx(WEB * R_z, rel=1e-9)
    assert beam.T_0[0, inboard] == pytest.approx(beam.T_0[0, outboard], rel=1e-12)


def test_positive_pressure_aft_of_the_hinge_gives_negative_torque_and_the_horn_balances_it(solved):
    """T_0(0+) = -integral of p x dA, and with the horn T_0(0-) = 0: the first of the classic traps."""
    _, beam = solved
    assert beam.T_0[0, 0] == pytest.approx(-450.0 * 0.120 * 0.9, rel=1e-12)
    assert beam.T_0[0, 0] + beam.loads.moment[0, 0, 1] == pytest.approx(0.0, abs=1e-12)


BRACKET = [
    (238.31, 10.332, -36.735, 38.160, 0.0),
    (112.31, 10.332, -19.515, 22.081, 0.0),
    (168.00, 0.0, -36.735, 36.735, 0.0),
    (42.000, 0.0, -19.515, 19.515, 0.0),
    (97.688, -10.332, -36.735, 38.160, 0.0),
    (-28.313, -10.332, -19.515, 22.081, 28.313),
]


@pytest.mark.parametrize("rivet", range(1, 7))
def test_1_11_bracket_at_a(solved, rivet):
    """n is x, a is y (eta), b is z (zeta); millimetres; the bracket lies on the forward face of the web."""
    _, beam = solved
    shares = share_group(ETA, ZETA, beam.reactions[..., :1, :][:, 0], PIN)
    shear, tension = shear_and_tension(shares, side=-1)
    found = [*shares[0, rivet - 1], shear[0, rivet - 1], tension[0, rivet - 1]]
    for value, hand in zip(found, BRACKET[rivet - 1], strict=True):
        assert value == pytest.approx(hand, **(last_digit(hand) if hand else {"abs": 1e-9}))


def test_1_11_sums_return_force_and_couple():
    F = np.array([630.0, 0.0, -168.75])
    shares = share_group(ETA, ZETA, F[None, :], PIN)[0]
    assert shares.sum(axis=0) == pytest.approx(F, rel=1e-12, abs=1e-9)
    places = np.stack([np.zeros(6), ETA, ZETA], axis=-1)
    assert np.cross(places, shares).sum(axis=0) == pytest.approx([1012.5, -3375.0, 3780.0], rel=1e-12)
    assert np.cross(PIN, F) == pytest.approx([1012.5, -3375.0, 3780.0], rel=1e-12)


def test_1_11_second_route_by_the_centre_of_rotation():
    """Centre at eta = 168.75 x 1176/(6 x 1012.5) = 32.667 mm, 0.86097 N per mm; rivet 1 at 44.322 mm: 38.160 N."""
    per_mm = 1012.5 / 1176.0
    centre = 168.75 * 1176.0 / (6 * 1012.5)
    assert [centre, per_mm] == pytest.approx([32.667, 0.86097], abs=0.0005)
    distance = np.hypot(ETA - centre, ZETA)
    assert distance[0] == pytest.approx(44.322, abs=0.001)
    shares = share_in_plane(ETA, ZETA, [[0.0, -168.75]], offset=(-6.0, 0.0))
    assert np.hypot(shares[0, :, 0], shares[0, :, 1]) == pytest.approx(per_mm * distance, rel=1e-12)


def test_1_11_air_load_reversed_moves_the_tension_from_rivet_6_to_rivet_2():
    _, tension = shear_and_tension(share_group(ETA, ZETA, [[630.0, 0.0, 168.75]], PIN), side=-1)
    assert tension[0] == pytest.approx([0, 28.313, 0, 0, 0, 0], abs=0.001)


def test_bracket_turned_to_the_other_face_changes_which_rivets_are_pulled():
    """The group's f_x is not tension by itself: on the aft face the pressing rivets are the pulled ones."""
    shares = share_group(ETA, ZETA, [[630.0, 0.0, -168.75]], PIN)
    _, tension = shear_and_tension(shares, side=1)
    assert tension[0] == pytest.approx([238.31, 112.31, 168.00, 42.000, 97.688, 0.0], abs=0.01)


def test_heel_bound_of_the_same_bracket_balances_the_couple_about_its_edge():
    """Heel on the edge eta = -16 mm: the chordwise load at eta = -6 presses on, nothing lifts; turned round, it lifts.

    Pull 630 N forward at eta = -6: lever 10 mm about that heel, distances 6 and 26 mm: T = 6300 d/(3 (36 + 676)).
    """
    heel, inward = (-16.0, 0.0), (1.0, 0.0)
    pressed, _ = heel_bound(ETA, ZETA, [[630.0, 0.0, 0.0]], PIN, heel, inward, side=-1)
    assert pressed[0] == pytest.approx(np.zeros(6), abs=0)
    pulled, contact = heel_bound(ETA, ZETA, [[-630.0, 0.0, 0.0]], PIN, heel, inward, side=-1)
    expected = 6300.0 * (ETA + 16.0) / (3 * (36.0 + 676.0))
    assert pulled[0] == pytest.approx(expected, rel=1e-12)
    assert contact[0] == pytest.approx(expected.sum() - 630.0, rel=1e-12)


def test_1_13_load_along_the_hinge_line_makes_a_chordwise_pair():
    """2.5 kg, 0.110 m aft, 24 g: 588.40 N on one hinge, 64.724 N m, -107.87 N at A and +107.87 N at B."""
    F = 2.5 * 24 * 9.80665

    def along(stations):
        force = np.array([0.0, F, 0.0])
        return unloaded(stations).plus(5, force, point_force(force, x=0.110))

    for thrust in (0, 1):
        stations = grid(BREAKS, cells=1)
        section = beam_stiffness(1000.0, 1000.0, x_c=0.08)
        supports = Supports((A, B), thrust=np.array([thrust]))
        beam = solve(stations, along(stations), section, supports, coupled=False)
        assert beam.reactions[0, thrust, 1] == pytest.approx(-588.40, abs=0.01)
        assert beam.reactions[0, 1 - thrust, 1] == pytest.approx(0.0, abs=0)
        assert beam.reactions[0, :, 0] == pytest.approx([-107.87, 107.87], abs=0.01)
        assert pytest.approx(64.724, abs=0.001) == F * 0.110


@pytest.mark.parametrize("clamped", [False, True], ids=["simply supported", "clamped"])
def test_1_13_web_strip_behind_bracket_a(clamped):
    """Row forces 350.63, 210.00, 69.375 N on a strip 40 mm long: 3780.0 and 2934.0 N mm, 885.94 and 687.66 MPa at 40 mm
    width and 0.8 mm thickness (elastic bounds).
    """
    f_x = share_group(ETA, ZETA, [[630.0, 0.0, -168.75]], PIN)[0, :, 0]
    rows = f_x.reshape(3, 2).sum(axis=1)
    assert rows == pytest.approx([350.625, 210.0, 69.375], rel=1e-12)
    strip = grid([0.0, 8.0, 20.0, 32.0, 40.0], cells=1)
    loads = unloaded(strip)
    for b, force in zip((1, 2, 3), rows, strict=True):
        loads = loads.plus(b, [0.0, 0.0, force], np.zeros(3))
    held = Supports((0, 4), slopes_held=(0, 4) if clamped else ())
    beam = solve(strip, loads, beam_stiffness(1.0, 1.0), held, coupled=False)
    worst = np.abs(beam.M_x).max()
    assert worst == pytest.approx(2934.0 if clamped else 3780.0, abs=0.1)
    assert 6 * worst / (40.0 * 0.8**2) == pytest.approx(687.66 if clamped else 885.94, abs=0.01)
    if clamped:
        assert np.abs(beam.M_x[0, 0]) == worst
