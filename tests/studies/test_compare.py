"""Before and after."""

from __future__ import annotations

import json
from pathlib import Path

import numpy as np
import pytest

from surfacecheck.assessment import assess
from surfacecheck.errors import SurfaceError
from surfacecheck.reading import read, read_text
from surfacecheck.studies import (
    compare,
    comparison_data,
    comparison_html,
    comparison_table,
    comparison_text,
    least_twist_stiffness,
    rivet_count,
)

DATA = Path(__file__).parents[2] / "data"


@pytest.fixture(scope="module")
def wider():
    """The demo rudder, and with 30 instead of 25 mm in two rows."""
    change = 'based_on = "rudder.toml"\ntitle = "Pitch 30"\n'
    rows = "".join(f'[row.{side}_skin_to_spar]\npitch = "30 mm"\n' for side in ("left", "right"))
    return compare(assess(read(DATA / "rudder.toml")), assess(read_text(change + rows, "wider.toml", DATA)))


@pytest.fixture(scope="module")
def opened():
    """The demo elevator, and with its trailing edge open."""
    base = DATA / "elevator.toml"
    return compare(assess(read(base)), assess(read(base, DATA / "elevator_open_edge.toml")))


def test_a_wider_pitch_takes_rivets_away(wider):
    """20 to 1080 mm: 43 rivets at 25 mm, 36 at 30; two rows, so 14 fewer."""
    line = next(line for line in wider.of("whole") if line.name == "rivets in rows")
    before, after = line.values
    assert before - after == 14
    assert before == rivet_count(wider.base)


def test_unknown_rivets_must_carry_more_in_proportion(wider):
    """Load per rivet is flow times pitch: 1060/35 over 1060/42 is 1.2; the sheet wrinkles alike."""
    lines = {line.name: line.values for line in wider.of("must carry", moved=True)}
    before, after = lines["left skin to spar: rivet shears"]
    assert after / before == pytest.approx(1.2, rel=1e-6)


def test_only_what_moved_is_shown(wider):
    moved = {line.name for line in wider.of("here", moved=True)}
    assert {"left skin to spar", "right skin to spar"} <= moved
    assert "trailing edge" not in moved
    assert wider.of("pins", moved=True) == ()


def test_an_open_edge_twists_easily(opened):
    line = next(line for line in opened.of("whole") if line.name.startswith("least twist"))
    closed, open_ = line.values
    assert closed / open_ > 100.0
    assert closed == least_twist_stiffness(opened.base)
    assert any(line.values[1] is None for line in opened.of("here", moved=True))


def test_lowest_anywhere(opened):
    expected = [one.margins[0].margin for one in (opened.base, *opened.changed)]
    assert opened.lowest() == pytest.approx(np.array(expected), abs=0.0)


@pytest.mark.parametrize("system", ["metric", "inch"])
@pytest.mark.parametrize("name", ["wider", "opened"])
def test_the_text_fits_a_terminal(request, name, system):
    comparison = request.getfixturevalue(name)
    text = comparison_text(comparison, system)
    assert text.isascii()
    assert max(len(line) for line in text.split("\n")) <= 80
    places = [text.index(word) for word in ("ANYWHERE", "HERE", "RULES", "WHOLE SURFACE", "No flight on")]
    assert places == sorted(places)
    for title in comparison.titles:
        assert title in text


def test_a_surface_beside_itself_has_not_moved(wider):
    same = compare(wider.base, wider.base)
    assert [line.name for line in same.lines if line.moved] == []


def test_three_at_once(wider):
    three = compare(wider.base, *wider.changed, wider.base)
    assert len(comparison_table(three).heads) == 4
    assert all(len(line.values) == 3 for line in three.lines)
    assert max(len(line) for line in comparison_text(three).split("\n")) <= 80


def test_data_and_html(wider):
    data = json.loads(json.dumps(comparison_data(wider), allow_nan=False))
    assert data["form"] == 1
    assert data["assessments"][1]["surface"]["title"] == "Pitch 30"
    assert "<table>" in comparison_html(wider) == wider._repr_html_()
    assert str(wider) == comparison_text(wider)


def test_nothing_to_compare_with(wider):
    with pytest.raises(SurfaceError, match="give at least one change"):
        compare(wider.base)


def test_a_load_case_that_is_not_there_any_more_is_named():
    """The pin that stopped the surface is not said to: its cases go, and with them the load along it."""
    change = 'based_on = "rudder.toml"\n[hinge.bottom]\ntakes_along = "no"\n[hinge.middle]\ntakes_along = "?"\n'
    base, free = assess(read(DATA / "rudder.toml")), assess(read_text(change, "free.toml", DATA))
    found = compare(base, free)
    lost = {case.name for case in base.cases} - {case.name for case in free.cases}
    assert lost
    assert [line.values for line in found.of("cases")] == [("there", "not there")] * len(lost)
    assert all(line.name.startswith(("along", "balance")) for line in found.of("cases"))
    text = comparison_text(found)
    assert "LOAD CASES not in all" in text
    assert "bottom pin along" in text
    assert not compare(base, base).of("cases")
