"""Planform, shapes and ribs: errors, and what the examples do not show."""

from __future__ import annotations

import numpy as np
import pytest

from surfacecheck.errors import SurfaceError
from surfacecheck.loads import STRAIGHT, Planform, Shape, at_ribs
from surfacecheck.provenance import Basis, Source


@pytest.mark.parametrize(
    ("lines", "says"),
    [
        ({"y": [0.0], "edge": [0.3]}, "one station makes no surface"),
        ({"y": [0.0, 0.0], "edge": [0.3, 0.3]}, "do not rise"),
        ({"y": [0.0, 1.0], "edge": [0.3, np.nan]}, "no number"),
        ({"y": [0.0, 1.0], "edge": [0.3, 0.3], "web": 0.4}, "must lie behind web_behind"),
        ({"y": [0.0, 1.0], "edge": [0.3, 0.3], "nose": -0.1}, "nose_ahead"),
        ({"y": [0.0, 1.0], "edge": [0.3, 0.3], "fin": -0.1}, "fin_ahead"),
    ],
)
def test_a_bad_outline_says_what_is_allowed(lines, says):
    with pytest.raises(SurfaceError, match=says):
        Planform.of(**lines)


def test_the_fixed_part_is_asked_for_by_name():
    with pytest.raises(SurfaceError, match="fin_ahead is not given"):
        Planform.of([0.0, 1.0], [0.3, 0.3]).chord("fin")


def test_a_kink_has_its_side_by_the_bay_not_by_the_coordinate():
    plan = Planform.of([0.0, 0.5, 1.0], [0.4, 0.4, 0.2])
    y = np.array([0.5, 0.5, 0.75])
    np.testing.assert_allclose(plan.at(plan.edge, y, np.array([0, 1, 1])), [0.4, 0.4, 0.3], rtol=1e-14)
    assert list(plan.bays(np.array([0.2, 0.7]))) == [0, 1]


def test_a_stack_of_outlines_has_its_own_bays():
    plan = Planform.of([[0.0, 0.5, 1.0], [0.0, 0.8, 1.0]], [[0.4, 0.3, 0.2], [0.4, 0.3, 0.2]])
    y = np.array([[0.6], [0.6]])
    bay = plan.bays(y)
    assert bay.tolist() == [[1], [0]]
    np.testing.assert_allclose(plan.at(plan.edge, y, bay), [[0.28], [0.325]], rtol=1e-14)


@pytest.mark.parametrize(
    "points",
    [[(0.0, 1.0)], [(0.0, 1.0), (0.9, 0.0)], [(0.0, 1.0), (0.0, 2.0), (1.0, 0.0)], [(0.0, 1.0), (1.0, np.nan)]],
)
def test_a_typed_shape_runs_from_0_to_1(points):
    with pytest.raises(SurfaceError, match="must rise from 0 to 1"):
        Shape.from_points("typed", points, Source(Basis.AS_SAID))


def test_a_typed_shape_needs_a_mean():
    with pytest.raises(SurfaceError, match="its mean is 0"):
        Shape.from_points("typed", [(0.0, 1.0), (1.0, -1.0)], Source(Basis.AS_SAID))


def test_trapezoid_of_two_to_one():
    shape = Shape.from_points("trapezoid", [(0.0, 2.0), (1.0, 1.0)], Source(Basis.AS_SAID))
    np.testing.assert_allclose(shape.pressure(np.array([0.0, 1.0])), [4.0 / 3.0, 2.0 / 3.0], rtol=1e-14)
    assert shape.arm == pytest.approx(4.0 / 9.0, rel=1e-14)


def test_no_pressure_off_the_chord():
    assert STRAIGHT.pressure(np.array([-0.01, 1.01])).tolist() == [0.0, 0.0]


def test_an_overhang_lifts_the_second_rib():
    """100 N/m on 0.2 m below ribs at 0.2 and 0.6 of a load that ends there: 25 N more below, 5 N less above."""
    stations = np.array([0.0, 0.2, 0.6])
    load = at_ribs(stations, np.array([0.2, 0.6]), lambda y, bay: np.where(bay == 0, 100.0, 0.0))
    np.testing.assert_allclose(load, [25.0, -5.0], rtol=1e-12)


@pytest.mark.parametrize(
    ("ribs", "says"), [([0.5], "at least two"), ([0.5, 0.5], "do not rise"), ([0.0, 1.2], "within the outline")]
)
def test_ribs_that_cannot_be(ribs, says):
    with pytest.raises(SurfaceError, match=says):
        at_ribs(np.array([0.0, 1.0]), np.array(ribs), lambda y, bay: y)
