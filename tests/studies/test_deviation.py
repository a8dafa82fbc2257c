"""What happened beside the drawing: numbers by hand, words of outcome, the same numbers everywhere."""

from __future__ import annotations

import json
import re
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

from surfacecheck.assessment import CAUTION, assess
from surfacecheck.checks import Outcome
from surfacecheck.errors import SurfaceError
from surfacecheck.reading import read, read_text
from surfacecheck.studies import (
    deviation,
    deviation_data,
    deviation_html,
    deviation_table,
    deviation_text,
    outcome_lines,
    query,
    query_text,
    rows_of,
    title_of,
)
from surfacecheck.studies.deviating._deviation import DEPENDS, judged
from surfacecheck.studies.deviating._here import at_place, in_group

DATA = Path(__file__).parents[2] / "data"
PLACE = "hinge.middle.bracket.rivet-3"
GROUP = "hinge.middle.bracket"


@pytest.fixture(scope="module")
def oversize():
    return deviation(read(DATA / "rudder.toml", DATA / "rudder_oversize_hole.toml"))


def test_first_as_drawn_then_as_it_is_then_each_option(oversize):
    assert [title_of(way) for way in oversize.ways] == [
        "as drawn", "as it is now (leave it)", "next size 4.8 mm", "rivet not there",
    ]  # fmt: skip
    assert oversize.places == (PLACE,)
    assert [len(way.bounds) for way in oversize.ways] == [1, 2, 1, 1]


def test_the_drawing_is_untouched(oversize):
    drawn, alone = oversize.ways[0].fully, assess(read(DATA / "rudder.toml"))
    for finding in alone.margins:
        same = [f for f in drawn.margins if f.check.mode == finding.check.mode and f.place == finding.place]
        assert [f.margin for f in same] == [finding.margin]


def test_holding_nothing_by_hand(oversize):
    """Worked from what the sentence says: the pin brings 297.8 N to the right and 236.2 N ahead, 25 mm ahead.

    Six rivets, three up (16 mm apart) by two across (20 mm). As drawn: shear F_z / 6; pull F_z a / (3 b) + F_x / 6.
    With rivet 3 (upper left) gone, five are left: their middle lies a fifth of its place to the right and below, and
    the pull is a plane through five points, N / 5 and the moments about that middle by their second moments.
    """
    passes = oversize.passing[0]
    ((_, ways, at),) = passes.brought
    aft, side = dict(ways)["ahead"], dict(ways)["to the right"]
    assert dict(at) == {"ahead": pytest.approx(0.025)}
    assert passes.shear == pytest.approx(side / 6, rel=1e-9)
    assert passes.pull == pytest.approx(side * 25 / 20 / 3 + aft / 6, rel=1e-9)
    # right and up, mm, from the middle of all six; rivet 3 left out
    points = np.array([(-10, -16), (-10, 0), (10, -16), (10, 0), (10, 16)], dtype=float)
    middle = points.mean(axis=0)
    a, b = (points - middle).T
    # the pull ahead acts at the middle of all six, the couple of the pin's sideways load turns about the upright
    turned = np.array([-side * 25, 0.0]) - aft * middle
    second = np.array([[a @ a, a @ b], [a @ b, b @ b]])
    pull = aft / 5 + np.linalg.solve(second, turned) @ [a, b]
    # in the plane: a fifth each, and the moment of the force about the new middle
    turn = side * middle[1] / (a @ a + b @ b)
    shear = np.hypot(side / 5 - turn * b, turn * a)
    used = 1.5 * 1.15 * np.hypot(shear / 1250, np.maximum(pull, 0.0) / 1800)
    assert 1 / used.max() - 1 == pytest.approx(oversize.now.here((PLACE,))[1].margin, rel=1e-6)


def test_a_rivet_that_holds_nothing_carries_nothing(oversize):
    at = at_place(oversize.now.nothing, PLACE)
    assert at
    assert all(f.margin is None or np.isinf(f.margin) for f in at if f.kind == "margin" and "crush" not in f.check.mode)
    line = next(row for row in rows_of(oversize, "place") if row.name.endswith("rivet 3"))
    assert line.cells[1] == "+4.85 / none"


def test_the_margin_of_one_rivet_is_that_of_its_spot():
    """Of a check over six rivets at once, the one spot; the lowest of all six is the check's own."""
    drawn = assess(read(DATA / "rudder.toml"))
    each = [at_place(drawn, f"{GROUP}.rivet-{n}") for n in range(1, 7)]
    for finding in in_group(drawn, PLACE):
        same = [f for rivet in each for f in rivet if f.check.mode == finding.check.mode]
        assert len(same) == 6
        known = [f.margin for f in same if f.margin is not None]
        assert min(known, default=None) == finding.margin


def test_words_of_outcome():
    finding = assess(read(DATA / "rudder.toml")).margins[0]
    carries, less = (replace(finding, outcome=word) for word in (Outcome.CARRIES, Outcome.LESS))
    assert judged((carries, carries)) == Outcome.CARRIES
    assert judged((less, less)) == Outcome.LESS
    assert judged((carries, less)) == DEPENDS
    assert DEPENDS.startswith("depends on ")
    assert DEPENDS.endswith(": ask")
    assert judged((carries, replace(finding, outcome=Outcome.OUTSIDE))) == Outcome.OUTSIDE
    assert judged((carries, None)) == Outcome.NOT_GIVEN


def test_a_real_case_that_depends():
    """One rivet of the horn missing and another in doubt: enough if it holds, not if it does not."""
    events = {"horn rivet 1": "rivet missing", "horn rivet 7": "poor rivet"}
    text = "".join(f'[[happened]]\nwhere = "{where}"\nwhat = "{what}"\n' for where, what in events.items())
    found = deviation(read_text(f'based_on = "rudder.toml"\ntitle = "two"\n{text}', "c.toml", DATA))
    fully, nothing = found.now.here(found.places)
    assert fully.margin > 0.0 > nothing.margin
    assert found.outcome(found.now) == DEPENDS
    assert f"as it is now (leave it): here +0.08 / -0.11, {DEPENDS}; rules" in outcome_lines(found)[1]
    assert DEPENDS in " ".join(str(found).split())
    assert f"Outcome here, as it is: {DEPENDS}." in " ".join(query_text(query(found)).split())


def test_outside_the_method_is_said_though_the_lowest_is_inside():
    """An edge below what any bearing table has: the lowest margin is of the rivet, and does not answer that."""
    found = deviation(read(DATA / "rudder.toml", DATA / "happened_short_edge_bracket.toml"))
    assert found.now.here(found.places)[0].outcome == Outcome.CARRIES
    words = [found.outcome(way) for way in found.ways]
    assert words == [Outcome.CARRIES, Outcome.OUTSIDE, Outcome.CARRIES, Outcome.CARRIES]
    assert "outside the method: ask (bracket crushes, bracket is pressed oval, bracket tears" in outcome_lines(found)[1]


def test_a_margin_word_and_a_rule_word_stand_together(oversize):
    for line in outcome_lines(oversize):
        assert Outcome.CARRIES in line
        assert re.search("does not meet|meets, or not covered", line)
    assert "hole of a rivet that does not fill it 4.60 mm" in outcome_lines(oversize)[1]


FORBIDDEN = re.compile(r"\b(safe|OK|pass(es|ed)?|fine|approved|slip|recommend(ed)?)\b", re.IGNORECASE)


@pytest.mark.parametrize("system", ["metric", "inch"])
def test_the_text_fits_a_terminal(oversize, system):
    text = deviation_text(oversize, system, folded=True)
    assert text.isascii()
    assert max(map(len, text.split("\n"))) <= 80
    places = [text.index(word) for word in ("HERE", "ANYWHERE", "RULES", "BALANCE", "MEASURED", "FIVE LOWEST", "PINS")]
    assert places == sorted(places)
    assert " ".join(text.split()).endswith(CAUTION)
    assert FORBIDDEN.search(text) is None


def test_table_data_and_notebook_have_the_same_numbers(oversize):
    data = json.loads(json.dumps(deviation_data(oversize), allow_nan=False))
    assert data["form"] == 1
    assert [way["title"] for way in data["ways"]] == [title_of(way) for way in oversize.ways]
    here = next(line for line in data["lines"] if line["group"] == "place" and line["name"] == "middle hinge, bracket")
    found = [[f.margin for f in way.here((PLACE,))] for way in oversize.ways]
    assert here["values"] == found
    shown = [" / ".join(dict.fromkeys(f"{m:+z.2f}" for m in one)) for one in found]
    table = deviation_table(oversize)
    assert [row for row in table.rows if row[0].startswith("middle hinge, bracket:")] == [
        ("middle hinge, bracket: rivet gives, shear and pull together", *shown)
    ]
    assert data["shown"]["place"][-1][1:] == shown
    for cell in shown:
        assert cell in deviation_text(oversize)
        assert cell in deviation_html(oversize) == oversize._repr_html_()


def test_many_options_come_in_parts():
    text = (DATA / "rudder_oversize_hole.toml").read_text(encoding="utf-8")
    more = '"rivet not there", "rivet 4.8 mm", "no rivet"'
    found = deviation(read_text(text.replace('"rivet not there"', more), "c.toml", DATA))
    shown = str(found)
    assert len(found.ways) == 6
    assert shown.count("as it is now") >= 3
    assert max(map(len, shown.split("\n"))) <= 80


def test_a_surface_to_which_nothing_happened():
    with pytest.raises(SurfaceError, match="nothing happened"):
        deviation(read(DATA / "rudder.toml"))
