"""Rules: their words, their figures, the fields they were written for, and no flood of alarms."""

from __future__ import annotations

import math

import pytest

from surfacecheck import rules
from surfacecheck.errors import SurfaceError
from surfacecheck.rules import gathered

MM = 1e-3
IN = 0.0254


def every_kind() -> list[rules.RuleResult]:
    d, t = 3.2 * MM, 0.5 * MM
    return [
        rules.edge_distance(7 * MM, d), rules.edge_distance(5.5 * MM, d), rules.edge_distance(4 * MM, d),
        rules.edge_distance(7 * MM, d, head="countersunk", load_toward_edge=False), rules.least_pitch(9 * MM, d),
        rules.least_pitch(30 * MM, d, lines=2), rules.row_gap(9 * MM, 30 * MM, d), rules.sheet_range(t, d),
        rules.sheet_range(0.8 * MM, d), rules.diameter_for_sheet(d, t), rules.diameter_for_sheet(d, 4 * MM),
        rules.diameter_for_sheet(d, 1.2 * MM), *rules.greatest_pitches(25 * MM, t),
        rules.hole_range(3.3 * MM, 3.3 * MM, 3.4 * MM),
        rules.hole_range(3.6 * MM, 3.3 * MM, 3.4 * MM), rules.hole_range(3.6 * MM, None, None),
        rules.hole_range(3.3 * MM, 3.264 * MM, 3.264 * MM, set="solid"), rules.grip_range(1.8 * MM, 1.2 * MM, 6.3 * MM),
        rules.grip_range(1.0 * MM, None, 6.3 * MM), rules.bend_radius("2024-T3 clad", 0.8 * MM, 2.4 * MM),
        rules.bend_radius("304", 0.8 * MM, 2.4 * MM), rules.bend_clearance(6 * MM, 0.8 * MM, 2.4 * MM, 6.5 * MM),
        rules.repairs_in_row(3, 43, 1),
    ]  # fmt: skip


@pytest.mark.parametrize("one", every_kind(), ids=lambda r: f"{r.name}-{r.outcome}")
def test_every_result_is_whole(one: rules.RuleResult) -> None:
    assert one.outcome in ("meets", "does not meet", "not covered")
    assert math.isfinite(one.found)
    assert math.isfinite(one.asked)
    assert one.source.text
    assert one.field in ("aircraft", "civil", "sealing", "training", "data sheet")
    assert one.sentence
    assert "{" not in one.sentence
    for word in ("safe", "approved", "OK", "passes", "fine"):
        assert word not in one.sentence


def test_sentence_in_other_units() -> None:
    one = rules.edge_distance(0.250 * IN, 0.125 * IN)
    assert one.said(lambda si, quantity: f"{si / IN:.3f} in") == "edge 0.250 in, the text asks 0.250 in (2 D)"
    assert one.sentence.startswith("edge 6.35 mm")


@pytest.mark.parametrize(
    ("edge", "outcome", "words"),
    [
        (6.4, "meets", "2 D"),
        (6.39, "does not meet", "lower bearing value"),
        (4.8, "does not meet", "lower bearing value"),
        (4.7, "does not meet", "no bearing table holds below 1.5 D"),
    ],
)
def test_edge_at_its_limits(edge: float, outcome: str, words: str) -> None:
    one = rules.edge_distance(edge * MM, 3.2 * MM)
    assert one.outcome == outcome
    assert words in one.sentence


def test_edge_says_which_way_the_load_goes() -> None:
    toward, along, unknown = (rules.edge_distance(7 * MM, 3.2 * MM, load_toward_edge=w) for w in (True, False, None))
    assert "toward this edge" in toward.sentence
    assert "along this edge" in along.sentence
    assert "load" not in unknown.sentence


def test_next_size_shortens_the_edge() -> None:
    """A chain: 4.0 mm rivet with 8 mm edge meets 2 D; drilled out for 4.8 mm the same edge is 1.67 D, short of 2."""
    assert rules.edge_distance(8 * MM, 4.0 * MM).outcome == "meets"
    after = rules.edge_distance(8 * MM, 4.8 * MM)
    assert after.outcome == "does not meet"
    assert after.found / (4.8 * MM) == pytest.approx(1.67, abs=5e-3)


@pytest.mark.parametrize(
    ("hole", "least", "most", "outcome"),
    [
        (4.1, 4.1, 4.2, "meets"), (4.2, 4.1, 4.2, "meets"), (4.09, 4.1, 4.2, "does not meet"),
        (4.45, 4.1, 4.2, "does not meet"), (4.45, None, 4.2, "does not meet"), (4.15, None, 4.2, "not covered"),
        (4.15, 4.1, None, "not covered"), (4.0, 4.1, None, "does not meet"),
    ],
)  # fmt: skip
def test_holes(hole: float, least: float | None, most: float | None, outcome: str) -> None:
    low, high = (None if end is None else end * MM for end in (least, most))
    assert rules.hole_range(hole * MM, low, high).outcome == outcome
    assert rules.grip_range(hole * MM, low, high).outcome == outcome


def test_hole_names_the_end_it_misses() -> None:
    assert rules.hole_range(4.45 * MM, 4.1 * MM, 4.2 * MM).asked == 4.2 * MM
    assert rules.hole_range(4.0 * MM, 4.1 * MM, 4.2 * MM).asked == 4.1 * MM


def test_thin_sheet_is_not_covered_rather_than_wrong() -> None:
    """0.4, 0.5, 0.63, 0.8 mm under 3.2 and 4.0 mm rivets: five of eight pairs lie below t/D 0.18."""
    pairs = [rules.sheet_range(t * MM, d * MM) for t in (0.4, 0.5, 0.63, 0.8) for d in (3.2, 4.0)]
    outcomes = [one.outcome for one in pairs]
    assert outcomes.count("not covered") == 5
    assert "does not meet" not in outcomes


def test_texts_of_other_fields_never_count() -> None:
    """24 t calls every skin row of a sound rudder wrong: 9.6, 12, 15.1, 19.2 mm for 0.4, 0.5, 0.63, 0.8 mm sheet."""
    asked = [rules.greatest_pitches(25 * MM, t * MM)[0] for t in (0.4, 0.5, 0.63, 0.8)]
    assert [round(one.asked * 1e3, 1) for one in asked] == [9.6, 12.0, 15.1, 19.2]
    assert all(one.outcome == "does not meet" and not one.counts for one in asked)
    assert not rules.diameter_for_sheet(3.2 * MM, 0.5 * MM).counts


def test_one_remark_a_surface() -> None:
    """Six rows of thin sheet and their pitch texts: one line each; what counts stays row by row."""
    rows = ["left", "right", "nose", "edge", "ribs left", "ribs right"]
    flood = []
    for row in rows:
        flood += [
            rules.sheet_range(0.5 * MM, 3.2 * MM, place=row),
            *rules.greatest_pitches(25 * MM, 0.5 * MM, place=row),
        ]
        flood.append(rules.edge_distance(5 * MM, 3.2 * MM, place=row))
    calm = gathered(flood)
    assert len(flood) == 24
    assert len(calm) == 3 + 6
    sheet = next(one for one in calm if one.outcome == "not covered")
    assert sheet.place.startswith("6 places: left, right")
    assert [one.place for one in calm if one.counts and one.outcome == "does not meet"] == rows


def test_gathered_shows_the_worst() -> None:
    calm = gathered([rules.sheet_range(t * MM, 4.0 * MM, place=str(t)) for t in (0.5, 0.4, 0.63)])
    assert len(calm) == 1
    assert calm[0].found == 0.4 * MM


def test_bend_clearance_adds_up() -> None:
    """a >= t + r + head/2: 0.8 + 2.4 + 3.25 = 6.45 mm."""
    assert rules.bend_clearance(6.45 * MM, 0.8 * MM, 2.4 * MM, 6.5 * MM).outcome == "meets"
    assert rules.bend_clearance(6.44 * MM, 0.8 * MM, 2.4 * MM, 6.5 * MM).outcome == "does not meet"


def test_bend_radius_between_thicknesses() -> None:
    """0.048 in lies halfway between 0.032 (2 t) and 0.064 (3 t) for 2024-T3: 2.5 t."""
    span = rules.bend_radius_range("2024-T3", 0.048 * IN)
    assert span is not None
    assert span[0] == pytest.approx(2.5 * 0.048 * IN)


def test_repairs() -> None:
    assert rules.repairs_in_row(10, 60, 2).outcome == "meets"
    assert rules.repairs_in_row(11, 60, 2).outcome == "does not meet"
    assert rules.repairs_in_row(3, 12, 1).outcome == "does not meet"


@pytest.mark.parametrize(
    ("call", "words"),
    [
        (lambda: rules.edge_distance(0.0, 3.2 * MM), "edge is 0 mm"),
        (lambda: rules.edge_distance(float("nan"), 3.2 * MM), "edge is nan"),
        (lambda: rules.edge_distance(7 * MM, 3.2 * MM, head="brazier"), "brazier.*protruding, countersunk"),
        (lambda: rules.least_pitch(25 * MM, -1.0), "diameter is -1000 mm"),
        (lambda: rules.grip_range(2 * MM, float("nan"), 3 * MM), "least of grip is nan"),
        (lambda: rules.repairs_in_row(5, 4, 1), "5 repaired of 4"),
        (lambda: rules.rivet_count(1, 1e-3, 3e-3, 1e3, "6061-T6"), "6061-T6.*2024-T3, 2024-T3 clad, 5052"),
        (lambda: rules.rivet_count(1, 1e-3, 3e-3, 1e3, "5052", "wing"), "wing.*stringer"),
    ],
)
def test_errors(call, words: str) -> None:
    with pytest.raises(SurfaceError, match=words):
        call()
