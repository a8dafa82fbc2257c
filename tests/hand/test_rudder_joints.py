"""Margins of an invented rudder on two hinges, worked by hand (SI; invented for the demo).

Span 0.9 m, hinges at y 0.1 and 0.7 m, load 450 N/m at 0.12 m aft of the hinge line; channel spar 40 x 16 x 0.8 mm,
skins 0.6 mm, chord aft of the web 0.300 m, lap boom 14.4 mm^2. Rows 3.2 mm at 25 mm, 750 N shear and 900 N tension;
bracket 4.0 mm, 1250 N and 1500 N; F_tu 290, F_cy 240, F_su 180, F_bru 600, F_bry 380 MPa.
The hand work gives five digits.
"""

from __future__ import annotations

import numpy as np
import pytest

from surfacecheck.strength import (
    bearing_load,
    diagonal_tension_factor,
    fitting,
    interaction_margin,
    joint_by_test,
    margin,
    member,
    pin_bearing,
    pin_shear,
    plate_critical,
    plate_flat_bending,
    row_factor,
    shear_coefficient,
    strip_moment_clamped,
    strip_moment_supported,
    turning_bearing,
    wrinkled_row_margin,
)

E, NU = 68e9, 0.33
T_SKIN, PITCH = 0.6e-3, 0.025
P_SHEAR, P_PULL = 750.0, 900.0
CELL, E_OPEN, H, B, T = 6.0e-3, 5.6471e-3, 0.040, 0.016, 0.8e-3  # enclosed area m^2, channel's shear centre, spar
I_XX = T * (H**3 / 12 + B * H**2 / 2)
BOOM, CHORD = 14.4e-6, 0.300
X_BAR = (204.80 + 4320.0) / 72e3
I_ZZ = 2 * T * B**3 / 3 + BOOM * CHORD**2 - 72e-6 * X_BAR**2


def loads(y: np.ndarray) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """V_z, V_x and the torque about the web, sums of external loads at larger y; at a hinge, its tip side."""
    v_z = 450.0 * (0.9 - y) - 236.25 * (y < 0.7) - 168.75 * (y < 0.1)
    v_x = -90.0 * (y < 0.7) + 630.0 * (y < 0.1)
    return v_z, v_x, -54.0 * (0.9 - y) + 0.020 * v_z


def flows(y: np.ndarray) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """q0, the boom's flow and V_z, by the hand formulas."""
    v_z, v_x, t_web = loads(y)
    return (t_web - E_OPEN * v_z) / (2 * CELL), BOOM * v_x * (CHORD - X_BAR) / (2 * I_ZZ), v_z


def q_critical() -> float:
    k, short = shear_coefficient(0.300, 0.300)
    return float(plate_critical(k, E, NU, T_SKIN, short)) * T_SKIN


def pulls() -> tuple[float, float]:
    """Tension a rivet, upper spar row and trailing edge: 2/3 and 1/3 of 450 N/m."""
    return 300.0 * PITCH, 150.0 * PITCH


def step_margin(q: np.ndarray, pull: float) -> np.ndarray:
    """Strength over effect with k taken at 1.5 x limit: a step, not the margin."""
    k = diagonal_tension_factor(1.5 * q, q_critical())
    shear = 1.5 * np.abs(q) * PITCH * row_factor(k) / P_SHEAR
    return interaction_margin(shear, 1.5 * pull / P_PULL)


def test_where_the_skin_wrinkles() -> None:
    """Critical 2.3410 MPa, 1404.6 N/m; ratios at y 0.05: 3.3898 lower, 2.0948 upper, 2.7423 mean."""
    q0, q_v, _ = flows(np.array(0.05))
    assert q_critical() / T_SKIN / 1e6 == pytest.approx(2.3410, abs=5e-5)
    assert q_critical() == pytest.approx(1404.6, abs=0.05)
    ratios = np.abs([q0 - q_v, q0 + q_v, q0]) / q_critical()
    assert ratios == pytest.approx([3.3898, 2.0948, 2.7423], abs=5.5e-5)


@pytest.mark.parametrize(
    ("sign", "k", "factor"), [(-1.0, 0.33915, 1.1404), (1.0, 0.24362, 1.1009), (0.0, 0.29780, 1.1233)]
)
def test_diagonal_tension_at_ultimate(sign: float, k: float, factor: float) -> None:
    """Lower, upper, trailing edge: k at 1.5 x limit flow."""
    q0, q_v, _ = flows(np.array(0.05))
    got = diagonal_tension_factor(1.5 * (q0 + sign * q_v), q_critical())
    assert float(got) == pytest.approx(k, abs=1.1e-5)
    assert float(row_factor(got)) == pytest.approx(factor, abs=5.5e-5)


@pytest.mark.parametrize(
    ("sign", "pull", "flat", "step"),
    [(-1.0, 0.0, 3.2004, 2.6833), (1.0, 7.5, 5.7727, 5.1561), (0.0, 3.75, 4.1895, 3.6204)],
)
def test_rows_flat_and_one_step(sign: float, pull: float, flat: float, step: float) -> None:
    """At y 0.05: lower, upper, trailing edge; flat skin, and with k at 1.5 x limit."""
    q0, q_v, _ = flows(np.array(0.05))
    q = q0 + sign * q_v
    fs = joint_by_test().ultimate
    assert float(interaction_margin(fs * abs(q) * PITCH / P_SHEAR, fs * pull / P_PULL)) == pytest.approx(flat, abs=1e-4)
    assert float(step_margin(q, pull)) == pytest.approx(step, abs=1e-4)


@pytest.mark.parametrize(("sign", "pull", "printed"), [(-1.0, 0.0, 2.4200), (1.0, 7.5, 4.5217), (0.0, 3.75, 3.2261)])
def test_rows_as_multiplier_of_the_load(sign: float, pull: float, printed: float) -> None:
    """The margin: k grows with the load until the rivet is exhausted."""
    q0, q_v, _ = flows(np.array(0.05))
    q = float(abs(q0 + sign * q_v))
    got = float(wrinkled_row_margin(q * PITCH / P_SHEAR, pull / P_PULL, q / q_critical(), 1.5))
    assert got == pytest.approx(printed, abs=1e-4)
    load = 1.5 * (1.0 + got)
    k = diagonal_tension_factor(load * q, q_critical())
    left = float(interaction_margin(load * q * PITCH * row_factor(k) / P_SHEAR, load * pull / P_PULL))
    assert left == pytest.approx(0.0, abs=1e-12)


@pytest.mark.parametrize(
    ("sign", "pull", "printed", "where"),
    [(-1.0, 0.0, 2.5262, 0.0), (1.0, 7.5, 3.9556, 0.1), (0.0, 3.75, 3.3787, 0.0)],
)
def test_worst_place_of_each_row(sign: float, pull: float, printed: float, where: float) -> None:
    """Least step value over the span: lower row at the root, upper just outboard of hinge A, trailing edge at the root.

    Every kink and both sides of the hinges are in the grid.
    """
    y = np.unique(np.concatenate([np.linspace(0.0, 0.899, 9000), [0.1, np.nextafter(0.1, 0), 0.7]]))
    q0, q_v, _ = flows(y)
    got = step_margin(q0 + sign * q_v, pull)
    assert float(got.min()) == pytest.approx(printed, abs=1e-4)
    assert y[got.argmin()] == pytest.approx(where, abs=1e-9)


def test_worst_place_of_the_web() -> None:
    """Just inboard of hinge B: 6.5861 MPa in the middle of the web, +17.220.

    The hand work stops at the middle. The chordwise force adds a straight part there, so the peak lies 0.55 mm above:
    6.5876 MPa, +17.216. Both are right for what they say; the peak is what a check should take.
    """
    y = np.unique(np.concatenate([np.linspace(0.0, 0.899, 9000), [np.nextafter(0.7, 0)]]))
    q0, _, v_z = flows(y)
    v_x = loads(y)[1]
    z = np.linspace(-H / 2, H / 2, 801)[:, np.newaxis]  # steps of 0.05 mm, the middle among them
    # from the middle-line formulas: even part by V_z, parabola up the web, straight part by V_x
    q = q0 + v_z * T * (B * H / 2 + (H * H / 4 - z * z) / 2) / I_XX + v_x * T * X_BAR * z / I_ZZ
    stress = np.abs(q) / T
    middle = stress[400]
    assert z[400, 0] == pytest.approx(0.0, abs=1e-12)
    assert middle.max() / 1e6 == pytest.approx(6.5861, abs=6e-5)
    assert y[middle.argmax()] == pytest.approx(0.7, abs=1e-9)
    assert float(margin(180e6, middle.max(), member().ultimate)) == pytest.approx(17.220, abs=5e-4)
    peak = np.unravel_index(stress.argmax(), stress.shape)
    assert y[peak[1]] == pytest.approx(0.7, abs=1e-9)
    assert z[peak[0], 0] == pytest.approx(90.0 / 146.25 * X_BAR * I_XX / I_ZZ, abs=2.6e-5)
    assert float(margin(180e6, stress.max(), member().ultimate)) == pytest.approx(17.216, abs=5e-4)


def test_bearing_of_the_skin() -> None:
    """3.3 mm x 0.6 mm: 1188.0 N and 752.40 N against 119.03 N: +5.6535, +5.3208."""
    ultimate, first = bearing_load(600e6, 3.3e-3, 0.6e-3), bearing_load(380e6, 3.3e-3, 0.6e-3)
    assert (float(ultimate), float(first)) == pytest.approx((1188.0, 752.40))
    q0, q_v, _ = flows(np.array(0.05))
    shear = abs(float(q0 - q_v)) * PITCH
    assert shear == pytest.approx(119.03, abs=0.006)
    assert float(margin(ultimate, shear, 1.5)) == pytest.approx(5.6535, abs=1e-4)
    assert float(margin(first, shear, 1.0)) == pytest.approx(5.3208, abs=1e-4)


def test_bracket_rivets() -> None:
    """Rivet 1 in shear 38.160 N: +17.989; rivet 6 in shear 22.081 N and tension 28.3125 N: +21.424."""
    fs = fitting().ultimate
    assert float(margin(1250.0, 38.160, fs)) == pytest.approx(17.989, abs=6e-4)
    ratios = fs * 22.081 / 1250.0, fs * 28.3125 / 1500.0
    assert ratios == pytest.approx((0.030472, 0.032559), abs=1.1e-6)
    assert float(interaction_margin(*ratios)) == pytest.approx(21.424, abs=1e-3)


def test_web_bearing_at_rivet_1() -> None:
    """4.1 mm x 0.8 mm: 1968.0 and 1246.4 N: +28.897 and +27.402 (1.15 at yield too)."""
    f = fitting()
    loads_ = bearing_load([600e6, 380e6], 4.1e-3, 0.8e-3)
    assert loads_ == pytest.approx([1968.0, 1246.4])
    assert f.yield_ is not None
    assert float(margin(loads_[0], 38.160, f.ultimate)) == pytest.approx(28.897, abs=1e-3)
    assert float(margin(loads_[1], 38.160, f.yield_)) == pytest.approx(27.402, abs=1e-3)


def test_spar_and_web() -> None:
    """240/22.170 and 290/(1.5 x 19.006) at y 0.375; 180/(1.5 x 5.9807) at 0.05."""
    m = member()
    assert m.yield_ is not None
    assert float(margin(240.0, 22.170, m.yield_)) == pytest.approx(9.8254, abs=3e-4)
    assert float(margin(290.0, 19.006, m.ultimate)) == pytest.approx(9.1725, abs=3e-4)
    assert float(margin(180.0, 5.9807, m.ultimate)) == pytest.approx(19.065, abs=1e-3)


def test_worst_place_of_the_spar() -> None:
    """Lower corner 22.195 MPa at y 0.366: +9.8131; upper flange tip 19.019 MPa at 0.382: +9.1651."""
    y = np.linspace(0.1001, 0.6999, 60001)
    m_x = 225.0 * (0.9 - y) ** 2 - 236.25 * (0.7 - y)
    m_z = 90.0 * (0.7 - y)
    corner = -m_x * -0.020 / I_XX + m_z * (0.0 - X_BAR) / I_ZZ
    tip = -m_x * 0.020 / I_XX + m_z * (0.016 - X_BAR) / I_ZZ
    assert np.abs(corner).max() / 1e6 == pytest.approx(22.195, abs=6e-4)
    assert y[np.abs(corner).argmax()] == pytest.approx(0.366, abs=6e-4)
    assert np.abs(tip).max() / 1e6 == pytest.approx(19.019, abs=6e-4)
    assert y[np.abs(tip).argmax()] == pytest.approx(0.382, abs=6e-4)
    assert float(margin(240e6, np.abs(corner).max(), 1.0)) == pytest.approx(9.8131, abs=2e-4)
    assert float(margin(290e6, np.abs(tip).max(), 1.5)) == pytest.approx(9.1651, abs=2e-4)


@pytest.mark.parametrize(
    ("x", "z", "two_hinges", "printed"),
    [(630.0, 168.75, False, 0.72405), (90.0, 236.25, False, 3.4477), (787.5, 210.9375, False, 0.37924),
     (630.0, 168.75, True, 0.149)],
)  # fmt: skip
def test_pin_bearing(x: float, z: float, two_hinges: bool, printed: float) -> None:
    """250 MPa x 5 x 6 mm over 6.67 P: hinges A and B, control-system case x 1.25, sailplane rule for two hinges."""
    strength = pin_bearing(250e6, 5e-3, 6e-3)
    got = margin(strength, np.hypot(x, z), turning_bearing(two_hinges=two_hinges).ultimate)
    assert float(strength) == pytest.approx(7500.0)
    assert float(got) == pytest.approx(printed, abs=0.6 * 10.0 ** -(len(f"{printed}".split(".")[1])))


def test_pin_shear_counts_as_fitting() -> None:
    """500 MPa x 19.635 mm^2 over 1.725 x 652.21 N: +7.7262."""
    got = margin(pin_shear(500e6, 5e-3), np.hypot(630.0, 168.75), fitting().ultimate)
    assert float(got) == pytest.approx(7.7262, abs=6e-5)


def test_bare_web_behind_the_bracket() -> None:
    """Rows 350.625, 210, 69.375 N on a strip 40 mm wide: 3780.0 and 2934.0 N mm, 885.94 and 687.66 MPa at limit.

    The couple of 3.375 N m alone, without the force: 158 MPa, bent to both sides of the middle row.
    """
    rows, places = np.array([350.625, 210.0, 69.375]), np.array([0.008, 0.020, 0.032])
    supported = strip_moment_supported(rows, places, H)
    clamped = strip_moment_clamped(rows, places, H)
    assert float(supported) * 1e3 == pytest.approx(3780.0)
    assert float(clamped) * 1e3 == pytest.approx(2934.0, abs=0.05)
    stresses = plate_flat_bending([supported, clamped], 0.040, 0.8e-3) / 1e6
    assert stresses == pytest.approx([885.94, 687.66], abs=6e-3)
    couple = strip_moment_supported(rows - 210.0, places, H)
    assert float(plate_flat_bending(couple, 0.040, 0.8e-3)) / 1e6 == pytest.approx(158.0, abs=0.5)
