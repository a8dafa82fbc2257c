"""An aileron half in inches on four hinges, its chordwise shape typed in, written from a starting file; invented.

What it must give is worked by hand here: the load from the outline, the torque from the typed shape, statics.
"""

from pathlib import Path

import numpy as np
import pytest

import surfacecheck

FILES = Path(__file__).parent / "files"
INCH, LBF = 0.0254, 4.4482216152605
PSF = LBF / (12.0 * INCH) ** 2
ROOT, TIP, LONG = 11.0 * INCH, 9.0 * INCH, 54.0 * INCH
PRESSURE = 26.0 * PSF
AREA = 0.5 * (ROOT + TIP) * LONG
# shape 1 to 40 % of the chord, then straight to 0: area 0.7, first moment 0.08 + 0.18 = 0.26 of the chord squared
ARM = (0.08 + 0.6 * 0.5 * (0.4 + 0.2)) / 0.7
CHORD_SQUARED = LONG * (ROOT**2 + ROOT * TIP + TIP**2) / 3.0


@pytest.fixture(scope="module")
def half_filled():
    return surfacecheck.assess(surfacecheck.read(FILES / "aileron_part_b.toml"))


@pytest.fixture(scope="module")
def whole():
    return surfacecheck.assess(surfacecheck.read(FILES / "aileron.toml"))


def typed(assessment):
    return next(i for i, title in enumerate(assessment.case_titles) if "as typed" in title and "control" not in title)


@pytest.mark.parametrize("which", ["half_filled", "whole"])
def test_load_and_torque_of_the_typed_shape(which, request):
    assessment = request.getfixturevalue(which)
    case = typed(assessment)
    force = assessment.rests[case].applied
    assert abs(assessment.beam.reactions[case, :, 2].sum()) == pytest.approx(PRESSURE * AREA, rel=1e-6)
    assert abs(force[0]) == pytest.approx(PRESSURE * CHORD_SQUARED * ARM / (2.6 * INCH), rel=1e-6)  # pull of the rod
    assert max(rest.rest for rest in assessment.rests) < 1e-9 * PRESSURE * AREA


def test_half_filled_gives_pin_loads_and_says_what_the_gaps_hide(half_filled):
    assert [pin.name for pin in half_filled.pins] == ["inner", "second", "third", "outer"]
    assert all(abs(pin.sideways.value) > 1.0 for pin in half_filled.pins)
    hidden = {gap.key: gap.hides for gap in half_filled.gaps}
    assert "flows" in hidden["sheet.spar.thickness"]
    assert half_filled.effects.box is None
    assert half_filled.rows == ()


def test_three_or_more_pins_share_as_a_beam_of_constant_stiffness_before_the_sheet_is_known(half_filled):
    """The same beam by the three-moment equation, for the spanwise load of the typed case."""
    case = typed(half_filled)
    y = np.array([3.0, 19.0, 35.0, 51.0]) * INCH
    w = lambda at: PRESSURE * (ROOT + (TIP - ROOT) * at / LONG)  # noqa: E731
    slope = PRESSURE * (TIP - ROOT) / LONG
    spans = np.diff(y)
    over_in = y[0] ** 2 * (2 * w(0.0) + w(y[0])) / 6
    over_out = (LONG - y[-1]) ** 2 * (2 * w(LONG) + w(y[-1])) / 6
    # L1 M0 + 2 (L1 + L2) M1 + L2 M2 = 6 (S1 + S2), S from a trapezoid of load: L^3 (7 w_far + 8 w_near) / 360
    left = [L**3 * (7 * w(a) + 8 * w(a + L)) / 360 for a, L in zip(y[:-1], spans, strict=True)]
    right = [L**3 * (8 * w(a) + 7 * w(a + L)) / 360 for a, L in zip(y[:-1], spans, strict=True)]
    matrix = np.array([[2 * (spans[0] + spans[1]), spans[1]], [spans[1], 2 * (spans[1] + spans[2])]])
    rhs = np.array([6 * (left[0] + right[1]) - spans[0] * over_in, 6 * (left[1] + right[2]) - spans[2] * over_out])
    inner = np.linalg.solve(matrix, rhs)
    moments = np.array([over_in, *inner, over_out])
    near = [L * (2 * w(a) + w(a + L)) / 6 for a, L in zip(y[:-1], spans, strict=True)]
    far = [L * (w(a) + 2 * w(a + L)) / 6 for a, L in zip(y[:-1], spans, strict=True)]
    change = np.diff(moments) / spans
    hold = np.zeros(4)
    hold[:-1] += np.array(near) - change
    hold[1:] += np.array(far) + change
    hold[0] += y[0] * (w(0.0) + w(y[0])) / 2
    hold[-1] += (LONG - y[-1]) * (w(LONG) + w(y[-1])) / 2
    assert slope < 0.0
    assert hold.sum() == pytest.approx(PRESSURE * AREA)
    assert np.abs(half_filled.beam.reactions[case, :, 2]) == pytest.approx(hold, rel=1e-9)


def test_whole_gives_margins_of_every_kind(whole):
    kinds = {finding.check.place.split(".")[0] for finding in whole.margins}
    assert {"hinge", "horn", "row", "spar", "panel"} <= kinds
    assert all(np.isfinite(finding.margin) for finding in whole.margins)
    assert {"row.top_skin_to_spar", "row.bottom_skin_to_ribs"} <= {f.check.place for f in whole.margins}
