"""Least flange for a rivet: head, nose of the puller, edge. Common practice; worked figures of a builders' survey. mm.

Its figures are 12.0 and 13.6 mm for 3.2 mm in 0.63 mm sheet bent round 1.6 mm, by the head and with a nose of 5 mm;
15.0 and 16.8 mm for 4.0 mm in 0.8 mm bent round 2.0 mm. Its formula for the nose, a >= t + R_n + 1 mm, gives 13.0 for
the first: the figures were worked with the bend radius in place of the 1 mm, which is what a flat nose beside a bend
wants. Hence t + R_n + max(r, 1 mm). The last figure then belongs to a nose of 6 mm (with 5 mm it is 15.8).
"""

from __future__ import annotations

import math

import numpy as np
import pytest

from surfacecheck.errors import SurfaceError
from surfacecheck.rules import MOST_WEDGE, bend_clearance, least_flange, nose_room, tail_room, tool_tilt

MM = 1e-3


def width(t: float, r: float, d: float, nose: float | None = None) -> float:
    return float(least_flange(t * MM, r * MM, d * MM, 2.1 * d * MM, None if nose is None else nose * MM)) / MM


@pytest.mark.parametrize(
    ("t", "r", "d", "nose", "mm"),
    [
        (0.63, 1.6, 3.2, None, 12.0),
        (0.63, 1.6, 3.2, 5.0, 13.6),
        (0.8, 2.0, 4.0, None, 15.0),
        (0.8, 2.0, 4.0, 6.0, 16.8),
    ],
)
def test_survey_figures(t: float, r: float, d: float, nose: float | None, mm: float) -> None:
    assert width(t, r, d, nose) == pytest.approx(mm, abs=0.05)


def test_the_formula_beside_the_figures_does_not_give_them() -> None:
    assert pytest.approx(13.03) == 0.63 + 5.0 + 1.0 + 2 * 3.2
    assert width(0.8, 2.0, 4.0, 5.0) == pytest.approx(15.8)
    assert pytest.approx(14.8) == 0.8 + 5.0 + 1.0 + 2 * 4.0


def test_so_16_mm_suits_4_0_and_12_to_13_is_tight_for_3_2() -> None:
    """The survey's own conclusion, by the head and with its usual nose."""
    assert width(0.8, 2.0, 4.0) < 16.0 < width(0.8, 2.0, 4.0, 6.0)
    assert width(0.63, 1.6, 3.2) <= 12.0 < 13.0 < width(0.63, 1.6, 3.2, 5.0)


def test_a_sharp_bend_leaves_the_millimetre() -> None:
    assert float(nose_room(0.8 * MM, 0.0, 5.0 * MM)) == pytest.approx(6.8 * MM)
    assert float(nose_room(0.8 * MM, 1.0 * MM, 5.0 * MM)) == float(nose_room(0.8 * MM, 0.0, 5.0 * MM))


def test_the_head_rule_is_the_same_as_the_bend_rule() -> None:
    """The flange that is just wide enough puts the hole just clear of the bend, and 2 D from the edge."""
    d, t, r = 3.2 * MM, 0.63 * MM, 1.6 * MM
    away = float(least_flange(t, r, d, 2.1 * d)) - 2 * d
    assert bend_clearance(away, t, r, 2.1 * d).outcome == "meets"
    assert bend_clearance(away - 0.01 * MM, t, r, 2.1 * d).outcome == "does not meet"


@pytest.mark.parametrize(
    ("a", "body", "z", "degrees"), [(12.0, 18.0, 22.0, 17.2), (10.0, 15.0, 20.0, 16.2), (13.0, 17.0, 18.0, 14.9)]
)
def test_wedges_of_common_sizes(a: float, body: float, z: float, degrees: float) -> None:
    """theta = atan((R_b - a + t)/z): the survey finds 15 to 18 degrees for common sizes, 10 to 20 in use."""
    got = math.degrees(float(tool_tilt(a * MM, 0.8 * MM, math.inf, body * MM, z * MM)))
    assert got == pytest.approx(degrees, abs=0.05)
    assert got <= math.degrees(MOST_WEDGE)


def test_limits() -> None:
    """A body narrower than the room does not lean; a wall lower than the nose is long does not matter."""
    assert float(tool_tilt(20 * MM, 1 * MM, math.inf, 19 * MM, 10 * MM)) == 0.0
    assert float(tool_tilt(5 * MM, 1 * MM, 9.9 * MM, 19 * MM, 10 * MM)) == 0.0
    assert float(tool_tilt(5 * MM, 1 * MM, 10.1 * MM, 19 * MM, 10 * MM)) > 0.0
    angles = tool_tilt(np.linspace(1, 30, 50) * MM, 1 * MM, math.inf, 19 * MM, 10 * MM)
    assert (np.diff(angles) <= 0.0).all()
    assert angles.min() == 0.0
    assert angles.max() < math.pi / 2


def test_room_behind() -> None:
    assert float(tail_room(8 * MM, 1 * MM)) == pytest.approx(9 * MM)
    assert float(tail_room(2 * MM, 5 * MM)) == pytest.approx(2 * MM)


@pytest.mark.parametrize(
    ("call", "message"),
    [
        (lambda: nose_room(0.8 * MM, 2 * MM, 0.0), "nose radius is 0 mm; it must be above 0"),
        (lambda: nose_room(-1.0 * MM, 2 * MM, 1 * MM), "thickness is -1 mm; it must be 0 or more"),
        (lambda: tool_tilt(5 * MM, 1 * MM, 9 * MM, 0.0, 10 * MM), "body radius is 0 mm"),
        (lambda: tool_tilt(5 * MM, 1 * MM, 9 * MM, 9 * MM, float("nan")), "nose long is nan mm"),
        (lambda: least_flange(1 * MM, 1 * MM, 3 * MM, 6 * MM, kind="round"), 'head "round" has no edge rule'),
    ],
)
def test_bad_input(call, message: str) -> None:
    with pytest.raises(SurfaceError, match=message):
        call()
