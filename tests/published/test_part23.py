"""14 CFR Part 23, Amdt 23-62 (text in force from 2012 to August 2017): check values worked from the rule's formulas.

The rule's own units (lb, ft, s, kt, psf) and the digits of hand working, 0.1 % or the last digit shown.
"""

from __future__ import annotations

import numpy as np
import pytest

from surfacecheck.errors import SurfaceError
from surfacecheck.loads import part23

LB = 0.45359237 * 9.80665
FT = 0.3048
PSF = LB / FT**2
KT = 1852.0 / 3600.0
IN = 0.0254


@pytest.mark.parametrize(
    ("category", "pounds", "up", "down"),
    [
        ("normal", 1600.0, 3.8, -1.52),
        ("normal", 6000.0, 3.6, -1.44),
        ("utility", 1600.0, 4.4, -1.76),
        ("acrobatic", 1600.0, 6.0, -3.0),
    ],
)
def test_23_337_load_factors(category, pounds, up, down):
    got = part23.limit_load_factors(category, pounds * LB)
    assert got[0] == pytest.approx(up, abs=1e-12)
    assert got[1] == pytest.approx(down, abs=1e-12)


def test_23_335_least_speeds_normal_at_12_psf():
    v_c, v_d = part23.least_design_speeds("normal", 12.0 * PSF)
    assert v_c / KT == pytest.approx(114.32, abs=0.005)
    assert v_d / KT == pytest.approx(160.04, abs=0.005)


def test_23_335_factors_fall_to_their_ends_at_100_psf():
    v_c, v_d = part23.least_design_speeds("acrobatic", np.array([20.0, 100.0, 140.0]) * PSF)
    np.testing.assert_allclose(v_c / KT / np.sqrt([20.0, 100.0, 140.0]), [36.0, 28.6, 28.6], rtol=1e-12)
    np.testing.assert_allclose(v_d / v_c, [1.55, 1.35, 1.35], rtol=1e-12)


@pytest.mark.parametrize(("n", "share"), [(2.5, 0.80), (3.8, 0.72), (4.4, 0.66)])
def test_23_427_other_half(n, share):
    assert part23.unsymmetric_share(n) == pytest.approx(share, abs=1e-12)


def test_23_441_fifteen_degrees_at_101_29_knots():
    load = part23.vertical_tail_manoeuvre(101.29 * KT, 12.0 * FT**2, 3.0, np.radians(15.0))
    assert part23.dynamic_pressure(101.29 * KT) / PSF == pytest.approx(34.735, rel=1e-3)
    assert load / LB == pytest.approx(327.4, rel=1e-3)


def test_23_441_overswing_of_fifteen_degrees():
    assert part23.OVERSWING * 15.0 == 22.5


def test_23_443_gust():
    mu, k_gt, load = part23.vertical_tail_gust(
        1600.0 * LB, 12.0 * FT**2, 3.0 * FT, 3.0, 5.0 * FT, 13.0 * FT, 115.0 * KT, 50.0 * FT
    )
    assert mu == pytest.approx(57.314, rel=1e-3)
    assert k_gt == pytest.approx(0.8055, abs=5e-5)
    assert load / LB == pytest.approx(334.8, abs=0.05)


def test_23_443_in_si_is_half_rho_k_u_v_a_s():
    """The rule prints 498 where rho_0/2 with ft/s and knots gives 498.53 (2/(0.0023769 x 1.68781)): 0.11 % high."""
    _, k_gt, load = part23.vertical_tail_gust(7000.0, 1.1, 0.9, 3.0, 1.5, 4.0, 59.0, 15.24)
    assert load == pytest.approx(0.5 * 1.225 * k_gt * 15.24 * 59.0 * 3.0 * 1.1 * 498.53 / 498.0, rel=3e-5)


def test_23_393_elevator_of_9_5_lb():
    assert part23.along_hinge_load("elevator", 9.5 * 0.45359237) / LB == pytest.approx(114.0, rel=1e-12)


def test_23_393_weight_is_mass_times_g():
    """Trap: K W with kilograms for W."""
    assert part23.along_hinge_load("rudder", 2.5) == pytest.approx(588.40, abs=0.005)


def test_23_395_hinge_moment_of_54_ft_lb():
    system = part23.CONTROL_SYSTEM * 54.0
    assert system == 67.5
    assert system / 0.35 == pytest.approx(192.86, abs=0.005)


@pytest.mark.parametrize(("pounds", "greatest"), [(5000.0, 200.0), (8750.0, 218.0), (12500.0, 236.0)])
def test_23_397_rudder_pedals(pounds, greatest):
    got = part23.pilot_force("rudder", "pedals", pounds * LB)
    assert got[0] / LB == pytest.approx(greatest, rel=1e-12)
    assert got[1] / LB == pytest.approx(150.0, rel=1e-12)


@pytest.mark.parametrize(
    ("kind", "by", "greatest", "least"),
    [
        ("aileron", "stick", 67.0, 40.0),
        ("elevator", "stick", 167.0, 100.0),
        ("elevator", "wheel", 200.0, 100.0),
    ],
)
def test_23_397_table(kind, by, greatest, least):
    got = part23.pilot_force(kind, by, 1600.0 * LB)
    assert (got[0] / LB, got[1] / LB) == (pytest.approx(greatest), pytest.approx(least))


def test_23_397_aileron_wheel_couple():
    """50 D in-lb at a 14 in wheel is 700 in-lb; one grip, 7 in from the middle, makes it at 100 lb."""
    greatest, least = part23.pilot_force("aileron", "wheel", 1600.0 * LB)
    assert greatest / LB * 7.0 == pytest.approx(50.0 * 14.0)
    assert least / LB * 7.0 == pytest.approx(40.0 * 14.0)


@pytest.mark.parametrize(("system", "each"), [(200.0, 150.0), (400.0, 300.0), (100.0, 150.0)])
def test_23_399_opposing_pilots(system, each):
    assert part23.dual_control_load(system * LB, 150.0 * LB) / LB == pytest.approx(each)


@pytest.mark.parametrize(
    ("loading", "chord", "area", "speed", "q", "moment"),
    [(12.0, 1.2, 6.0, 65.18, 5.048, 27.26), (30.0, 1.0, 5.0, 88.0, 9.203, 34.51)],
)
def test_23_415_ground_gust(loading, chord, area, speed, q, moment):
    v = part23.ground_gust_speed(loading * PSF)
    pressure = part23.dynamic_pressure(v)
    h = part23.ground_gust_moment(0.75, chord * FT, area * FT**2, pressure)
    assert v / FT == pytest.approx(speed, abs=0.005)
    assert pressure / PSF == pytest.approx(q, rel=3e-4)
    assert h / (LB * FT) == pytest.approx(moment, rel=3e-4)


def test_23_415_in_si():
    """V = 0.643 sqrt(Mg/S) + 4.45 m/s, the rule turned into SI and rounded."""
    assert part23.ground_gust_speed(500.0) == pytest.approx(0.643 * np.sqrt(500.0) + 4.45, rel=1e-3)


def test_23_415_tie_down_wind():
    q = part23.dynamic_pressure(part23.TIEDOWN_WIND)
    assert q == pytest.approx(684.7, rel=3e-4)
    assert q / PSF == pytest.approx(14.30, rel=3e-4)


def test_23_657_hinge_of_100_ksi():
    limit = part23.hinge_bearing_limit(100e3 * LB / IN**2, 0.25 * IN, 0.09 * IN)
    assert limit / LB == pytest.approx(337.33, abs=0.005)
    assert limit / (250.0 * LB) - 1.0 == pytest.approx(0.349, abs=5e-4)


@pytest.mark.parametrize(
    ("direction", "pounds"), [("normal to the surface", 60.0), ("fore and aft", 30.0), ("along the hinge line", 30.0)]
)
def test_23_659_balance_weight_of_2_5_lb(direction, pounds):
    assert part23.balance_mass_load(direction, 2.5 * 0.45359237) / LB == pytest.approx(pounds, rel=1e-12)


def test_cases_outside_the_tables_are_refused_by_name():
    with pytest.raises(SurfaceError, match="'glider' is not known: one of normal, utility, acrobatic"):
        part23.limit_load_factors("glider", 5000.0)
    with pytest.raises(SurfaceError, match=r"rudder moved by 'stick' is not in 23\.397"):
        part23.pilot_force("rudder", "stick", 5000.0)
    with pytest.raises(SurfaceError, match="above 12,500 lb"):
        part23.pilot_force("rudder", "pedals", 60000.0)
    with pytest.raises(SurfaceError, match="'flap' is not in the rule's table"):
        part23.along_hinge_load("flap", 2.0)
