"""FAA AC 43.13-1B, chapter 4, paragraph 4-57, on holes that came out too large.

An enlarged hole may have the next larger rivet, provided that its edge distance and the spacing of its rivets are not
less than the least ones: 2 diameters to the edge from the middle of the hole, 3 diameters from rivet to rivet; both in
diameters of the rivet that is set. Blind rivet holes: the ranges of a trade table (#30 for 1/8 in, 0.129 to 0.133 in).
Inches, as printed.
"""

from __future__ import annotations

from dataclasses import replace

import pytest

from surfacecheck.assessment import assess
from surfacecheck.changes import columns_of

PACKETS = """
[rivet.eighth]
set = "solid"
alloy = "AD"
diameter = "0.125 in"
hole = "0.1285 in"
[rivet.larger]
set = "solid"
alloy = "AD"
diameter = "0.15625 in"
hole = "0.159 in"
[row.left_skin_to_spar]
rivet = "eighth"
pitch = "{pitch}"
edge = {{ left_skin = "{edge}", nose_skin = "1 in", spar = "1 in" }}
"""
HOLE = (
    'where = "left skin to spar, rivet 12"\nwhat = "hole too large"\nlayers = ["left_skin"]\n'
    'smallest = "0.140 in"\nrivet_in = "no"\ntry = ["next size"]'
)
PLACE = "row.left_skin_to_spar.rivet-12"


@pytest.mark.parametrize(
    ("edge", "pitch", "edge_rule", "pitch_rule"),
    [
        ("0.3125 in", "0.6 in", "meets", "meets"),  # just 2 D of the larger rivet
        ("0.30 in", "0.6 in", "does not meet", "meets"),  # was 2.4 D, is 1.92 D
        ("0.25 in", "0.6 in", "does not meet", "meets"),  # was 2 D, is 1.6 D
        ("0.40 in", "0.44 in", "meets", "does not meet"),  # was 3.5 D, is 2.8 D
    ],
)
def test_the_next_size_needs_the_edge_and_the_spacing(edge, pitch, edge_rule, pitch_rule, told) -> None:
    surface = told(HOLE, more=PACKETS.format(edge=edge, pitch=pitch))
    found = columns_of(replace(surface, drawn=None))  # the other lines are the drawing here
    drawn, size = (assess(found[i].fully) for i in (0, 2))
    rules = {r.place: r.outcome for r in size.rules}
    assert rules[f"{PLACE}.edge.left_skin"] == edge_rule
    assert rules[f"{PLACE}.pitch"] == pitch_rule
    assert rules[f"{PLACE}.hole.left_skin"] != "does not meet"
    assert {r.outcome for r in drawn.rules if r.place.startswith(PLACE)} <= {"meets", "not covered"}


@pytest.mark.parametrize(("drill", "outcome"), [("0.1285 in", "does not meet"), ("0.1405 in", "does not meet")])
def test_a_28_drill_in_a_blind_eighth(drill, outcome, told) -> None:
    """#30 cuts 0.1285 in, under the range; #28 that goes in makes it 0.1405 in: 19.5 % more area, and over it."""
    packet = '[rivet.small]\ndiameter = "0.125 in"\nhole_range = ["0.129 in", "0.133 in"]\nhole = "0.131 in"\n'
    event = f'where = "left skin to spar, rivet 12"\nwhat = "hole too large"\nlayers = ["spar"]\nsmallest = "{drill}"'
    found = columns_of(told(event, more=packet))
    (rule,) = (r for r in assess(found[1].fully).rules if r.place == f"{PLACE}.hole.spar")
    assert rule.outcome == outcome
    assert pytest.approx(0.195, abs=5e-4) == (0.1405 / 0.1285) ** 2 - 1.0
    assert found[1].nothing is not None
