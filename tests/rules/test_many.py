"""Rules asked of many figures say of each what the rule itself says of it."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from surfacecheck import rules
from surfacecheck.errors import SurfaceError

MM = 1e-3
LENGTHS = st.lists(st.integers(1, 120).map(lambda n: n * 0.1 * MM), min_size=1, max_size=8)
"""Tenths of a millimetre, so that many of them lie on a limit, to the rounding of a double."""
DIAMETER = st.sampled_from([2.4 * MM, 3.2 * MM, 0.125 * 0.0254, 4.0 * MM])


def outcomes(results):
    return [one.outcome for one in results]


def words(broken, uncovered=False):
    """Turn flags into the words of the rules."""
    broken, uncovered = np.broadcast_arrays(broken, uncovered)
    return [
        rules.NOT_COVERED if u else rules.DOES_NOT_MEET if b else rules.MEETS
        for b, u in zip(broken.tolist(), uncovered.tolist(), strict=True)
    ]


@given(LENGTHS, DIAMETER, st.sampled_from(["protruding", "countersunk"]))
def test_edge_distance(edges, diameter, head):
    assert words(rules.edge_short(edges, diameter, head)) == outcomes(
        rules.edge_distance(edge, diameter, head=head) for edge in edges
    )


@given(LENGTHS, DIAMETER, st.integers(1, 4))
def test_least_pitch(pitches, diameter, lines):
    assert words(rules.pitch_short(pitches, diameter, lines)) == outcomes(
        rules.least_pitch(pitch, diameter, lines=lines) for pitch in pitches
    )


@given(LENGTHS, DIAMETER)
def test_gap_of_lines(gaps, diameter):
    assert words(rules.gap_short(gaps, diameter)) == outcomes(rules.row_gap(gap, 20.0 * MM, diameter) for gap in gaps)


@given(LENGTHS, st.sampled_from([(3.3 * MM, 3.4 * MM), (None, 3.4 * MM), (3.3 * MM, None), (None, None)]))
def test_a_hole_and_a_stack_in_their_range(found, ends):
    broken = rules.outside_range(found, *ends)
    said = words(broken, ~broken if None in ends else False)
    assert said == outcomes(rules.hole_range(one, *ends) for one in found)
    assert said == outcomes(rules.grip_range(one, *ends) for one in found)


@given(LENGTHS, DIAMETER)
def test_a_sheet_for_its_rivet(sheets, diameter):
    thin = rules.sheet_too_thin(sheets, diameter)
    assert words(np.zeros_like(thin), thin) == outcomes(rules.sheet_range(one, diameter) for one in sheets)


@given(LENGTHS, st.sampled_from(["2024-T3 clad", "6061-T6", "304"]), st.sampled_from([0.0, 1.2 * MM, 2.4 * MM]))
def test_a_bend_radius(sheets, alloy, inside):
    said = words(*rules.bend_radius_short(alloy, sheets, inside))
    assert said == outcomes(rules.bend_radius(alloy, one, inside) for one in sheets)


@given(LENGTHS, st.sampled_from([0.4 * MM, 0.8 * MM]), st.sampled_from([1.6 * MM, 2.4 * MM]))
def test_a_head_clear_of_the_bend(from_bend, thickness, inside):
    said = words(rules.bend_clearance_short(from_bend, thickness, inside, 6.5 * MM))
    assert said == outcomes(rules.bend_clearance(one, thickness, inside, 6.5 * MM) for one in from_bend)


def test_a_figure_on_the_limit_meets():
    """2 D of an eighth of an inch, as the reader of inches and millimetres makes it."""
    assert rules.edge_short([0.25 * 0.0254, 6.35 * MM], 0.125 * 0.0254).tolist() == [False, False]
    assert rules.edge_short(6.34 * MM, 0.125 * 0.0254)
    with pytest.raises(SurfaceError, match="no edge rule"):
        rules.edge_short(6.0 * MM, 3.2 * MM, "flat")
