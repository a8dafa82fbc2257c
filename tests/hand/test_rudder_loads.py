"""Loads of two surfaces worked by hand (invented): a rudder on two hinges, and a beam with a tapered chord.

Rudder: span 0.900 m, web at 0.020, trailing edge at 0.320, 1500 Pa on the skin behind the web, straight to zero; horn
at y = 0, cables at z = +-0.090, pulling forward. Five significant digits.
"""

from __future__ import annotations

import numpy as np
import pytest

from surfacecheck.loads import STRAIGHT, AirLoad, Planform, airload, airload_totals, at_ribs, part23

PLAN = Planform.of([0.0, 0.9], [0.320, 0.320], web=0.020)
AIR = AirLoad(np.asarray(1500.0), "web", "web", STRAIGHT)


def test_1_1_running_loads():
    load, torque = airload(AIR, PLAN, np.array([0.0, 0.4, 0.9]), np.zeros(3, dtype=np.intp))
    np.testing.assert_allclose(load, 450.00, rtol=1e-12)
    np.testing.assert_allclose(torque, -54.000, rtol=1e-12)


def test_1_1_totals():
    force, torque, moment = airload_totals(AIR, PLAN)
    assert force == pytest.approx(405.00, rel=1e-12)
    assert moment / force == pytest.approx(0.45, rel=1e-12)
    assert torque == pytest.approx(-48.600, rel=1e-12)


def test_1_1_second_route_along_the_chord():
    s = (np.arange(30000) + 0.5) / 30000 * 0.3
    moment = np.mean(3000.0 * (1.0 - s / 0.3) * (0.020 + s)) * 0.3
    assert moment == pytest.approx(54.000, rel=1e-7)
    ahead_force, ahead_moment = STRAIGHT.share(np.array([0.5]))
    assert 450.0 * ahead_force[0] == pytest.approx(450.0 * 0.75)
    assert 450.0 * 0.3 * (STRAIGHT.share(np.array([1.0]))[1][0] - ahead_moment[0]) == pytest.approx(45.0 - 22.5)


def test_1_10_a_middle_rib_collects_135_newton_0_100_behind_the_web():
    ribs = np.array([0.0, 0.3, 0.6, 0.9])
    force = at_ribs(PLAN.y, ribs, lambda y, bay: airload(AIR, PLAN, y, bay)[0])
    torque = at_ribs(PLAN.y, ribs, lambda y, bay: airload(AIR, PLAN, y, bay)[1])
    np.testing.assert_allclose(force, [67.5, 135.0, 135.0, 67.5], rtol=1e-12)
    assert -torque[1] / force[1] - 0.020 == pytest.approx(0.100, rel=1e-12)


def test_1_13_along_the_hinge_line():
    """2.5 kg, 0.110 m aft, 24 g: 588.40 N and a couple of 64.724 N m, that is 107.87 N on hinges 0.6 m apart."""
    load = part23.along_hinge_load("rudder", 2.5)
    assert load == pytest.approx(588.40, abs=5e-3)
    assert load * 0.110 == pytest.approx(64.724, abs=5e-4)
    assert load * 0.110 / 0.6 == pytest.approx(107.87, abs=5e-3)


TAPER = Planform.of([0.0, 1.2], [0.400, 0.250])


def test_2_running_load_is_480_less_150_y():
    y = np.array([0.0, 0.1, 0.65, 1.1, 1.2])
    load, _ = airload(AirLoad(np.asarray(1200.0), "pins", "pins", STRAIGHT), TAPER, y, np.zeros(5, dtype=np.intp))
    np.testing.assert_allclose(load, 480.0 - 150.0 * y, rtol=1e-12)


def test_2_load_and_its_centre():
    force, _, moment = airload_totals(AirLoad(np.asarray(1200.0), "pins", "pins", STRAIGHT), TAPER)
    assert force == pytest.approx(468.00, rel=1e-12)
    assert moment / force == pytest.approx(0.55385, abs=5e-6)


def test_2_hinge_moment_is_not_mean_chord_times_load():
    """Trap: 51.600 N m by the integral of the chord squared; 50.700, 1.7 % low, by the mean chord."""
    force, torque, _ = airload_totals(AirLoad(np.asarray(1200.0), "pins", "pins", STRAIGHT), TAPER)
    assert TAPER.chord_squared("pins") == pytest.approx(0.12900, abs=5e-6)
    assert -torque == pytest.approx(51.600, abs=5e-4)
    assert force * (TAPER.area("pins") / TAPER.span) / 3.0 == pytest.approx(50.700, abs=5e-4)


@pytest.mark.parametrize(("divisor", "moment"), [(3.0, 52.778), (4.0, 39.583), (2.0, 79.167)])
def test_taper_of_1_5_to_1_0_on_4_at_25(divisor, moment):
    """Any units: 25 on chords 1.5 to 1.0, span 4: int c^2 is 6.3333, not 6.25."""
    plan = Planform.of([0.0, 4.0], [1.5, 1.0])
    assert plan.chord_squared("pins") == pytest.approx(6.3333, abs=5e-5)
    assert 25.0 / divisor * plan.chord_squared("pins") == pytest.approx(moment, abs=5e-4)
