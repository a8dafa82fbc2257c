"""What a surface takes: counts, stacks, lengths, holes by station, drills, order; from half-filled files too."""

from __future__ import annotations

import json
import re
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from surfacecheck.checks import plan_row
from surfacecheck.errors import SurfaceError
from surfacecheck.masses import weigh
from surfacecheck.model import Apart, Doubler, RivetSet
from surfacecheck.provenance import UNKNOWN, Value
from surfacecheck.reading import read, read_text, starting_file
from surfacecheck.studies import (
    Spares,
    Work,
    card_data,
    drilling,
    hole_table,
    look_lines,
    part_named,
    rule_cards,
    setting_order,
    shank,
    station_text,
    takeoff,
    takeoff_data,
    takeoff_text,
)

DATA = Path(__file__).parents[2] / "data"
MM = 1e-3


@pytest.fixture(scope="module")
def rudder():
    return read(DATA / "rudder.toml")


@pytest.fixture(scope="module")
def taken(rudder):
    return takeoff(rudder)


def of(taken, place):
    return [row for row in taken.rows if row.stretch.seats.place == place]


def changed(old, new, count=1):
    text = (DATA / "rudder.toml").read_text(encoding="utf-8")
    assert old in text
    return read_text(text.replace(old, new, count))


def test_rows_are_counted_as_the_checks_count_them(rudder, taken):
    for row in rudder.rows.values():
        plan = plan_row(rudder, row)
        assert sum(one.count for one in of(taken, f"row.{row.name}")) == plan.total
        assert max(one.stretch.pitch for one in of(taken, f"row.{row.name}")) == pytest.approx(plan.pitch)


def test_the_whole_by_hand(taken):
    """43 + 43 along the spar, 12 12 11 10 9 8 8 on the ribs twice, 7 x 4 round the nose, 43, 7 x 2, 2 x 7; 3 x 6, 8."""
    ribs = 12 + 12 + 11 + 10 + 9 + 8 + 8
    rows = 43 + 43 + 2 * ribs + 28 + 43 + 14 + 14
    assert taken.count == rows + 18 + 8 == 351
    holes = 3 * 86 + 2 * (2 * ribs + 28 + 43 + 14 + 14) + 4 + 3 * 6 + 2 * 12 + 2 * 8
    assert taken.holes == holes == 798
    assert taken.mass == pytest.approx((rows * 0.40 + 26 * 0.65) * 1e-3)


def test_the_mass_is_that_of_the_balance(rudder, taken):
    """Every row weighs here what it weighs for the balance."""
    weighed = {}
    for piece in weigh(rudder).pieces:
        name = piece.name.split(",")[0]
        if name.startswith("row "):
            weighed[name] = weighed.get(name, 0.0) + float(piece.mass)
    assert len(weighed) == len(rudder.rows)
    for name, mass in weighed.items():
        here = sum(one.mass for one in of(taken, f"row.{name.removeprefix('row ')}"))
        assert here == pytest.approx(mass, rel=1e-6), name


def test_a_row_that_crosses_two_stacks_comes_apart(taken):
    """The doubler on the web ends at 200 mm: ribs 1 and 2 are riveted through it, and the bottom bracket."""
    first, rest = of(taken, "row.ribs_to_spar")
    assert (first.count, rest.count) == (4, 10)
    assert first.stretch.stack.layers == ("ribs", "spar", "bottom_doubler")
    assert [one.stretch.stack.thickness for one in (first, rest)] == pytest.approx([2.1 * MM, 1.3 * MM])
    assert first.stretch.split
    stacks = [of(taken, f"hinge.{name}.bracket")[0].stretch.stack.thickness for name in ("bottom", "middle", "top")]
    assert stacks == pytest.approx([4.8 * MM, 4.0 * MM, 4.0 * MM])
    assert not of(taken, "hinge.bottom.bracket")[0].stretch.split


def test_the_length_follows_the_stack(taken):
    lengths = [of(taken, f"hinge.{name}.bracket")[0].chosen.length for name in ("bottom", "middle", "top")]
    assert lengths == pytest.approx([10 * MM, 8 * MM, 8 * MM])
    assert of(taken, "row.left_skin_to_spar")[0].chosen is None
    lines = {(line.rivet, line.length): line.needed for line in taken.lines if line.length}
    assert lines == {("large", 8 * MM): 20, ("large", 10 * MM): 6}


def test_purchase_lines_hold_every_rivet_once(taken):
    assert sum(line.needed for line in taken.lines) == taken.count
    assert sum(line.mass for line in taken.lines) == pytest.approx(taken.mass)
    assert [size for size, _ in taken.sizes] == pytest.approx([3.2 * MM, 4.0 * MM])
    assert [line for _, lines in taken.sizes for line in lines] == list(taken.lines)
    for line in taken.lines:
        assert line.spare[0] >= 1.1 * line.needed - 1e-9
        assert line.spare[1] <= 1.2 * line.needed + 1


def test_spares_and_minutes_are_inputs(rudder):
    own = takeoff(rudder, Spares((0.0, 0.0), (0, 0)), Work(1.0, 2.0))
    assert all(line.spare == (line.needed, line.needed) for line in own.lines)
    assert own.minutes == pytest.approx(798 * 1.0 + 351 * 2.0)
    assert "invented for the demo" in takeoff_text(takeoff(rudder))


@pytest.mark.parametrize(
    ("make", "message"),
    [(lambda: Spares((0.3, 0.1)), "the least first"), (lambda: Spares(practice=(-1, 5)), "0 to 10000"),
     (lambda: Work(float("nan")), "nan minutes a hole"), (lambda: Work(rivet=-1), "-1 minutes a rivet"),
     (lambda: Spares((float("nan"), 0.2)), "spares nan")],
)  # fmt: skip
def test_bad_inputs(make, message):
    with pytest.raises(SurfaceError, match=message):
        make()


def test_a_grip_outside_the_range_is_one_line_and_the_rest_is_listed():
    thick = changed('thickness = "3.2 mm (caliper)"', 'thickness = "6.0 mm (caliper)"')
    taken = takeoff(thick)
    assert taken.count == 351
    problem = [one for one in taken.problems if one.startswith("middle hinge bracket")]
    assert problem == [
        "middle hinge bracket: rivet.large: no length holds a stack of 6.80 mm; in the packet: "
        "8 mm (1.2 mm to 4.4 mm), 10 mm (3.8 mm to 6.3 mm). Another length, another rivet, or measure again"
    ]
    assert problem[0] in list(look_lines(taken))


def test_without_lengths_the_whole_grip_is_held_against_the_stack():
    text = (DATA / "rudder.toml").read_text(encoding="utf-8")
    bare = re.sub(r"lengths = \[.*?\n\]\n", "", text, flags=re.DOTALL)
    taken = takeoff(read_text(bare.replace('thickness = "3.2 mm (caliper)"', 'thickness = "6.0 mm (caliper)"')))
    assert any("grip (1.2 mm to 6.3 mm) does not hold a stack of 6.80 mm" in one for one in taken.problems)
    assert all(line.length is None for line in taken.lines)


def test_a_rivet_of_unknown_size_still_counts():
    taken = takeoff(changed('diameter = "3.2 mm (packet)"', 'diameter = "?"'))
    assert taken.count == 351
    assert taken.sizes[-1][0] is None


def test_solid_rivets_get_a_length_by_the_rule(rudder):
    solid = replace(rudder, rivets=rudder.rivets | {"small": replace(rudder.rivets["small"], set=RivetSet.SOLID)})
    row = of(takeoff(solid), "row.left_skin_to_spar")[0]
    sixteenths = row.chosen.length / (0.0254 / 16)
    assert sixteenths == pytest.approx(round(sixteenths))
    assert row.chosen.length >= 1.8 * MM + 1.5 * 3.2 * MM


def test_a_rivet_of_another_size_in_a_row_is_bought_apart(rudder):
    place = "row.left_skin_to_spar.rivet-12"
    one = replace(rudder, apart={place: Apart(rivet=rudder.rivets["large"])})
    rows = of(takeoff(one), "row.left_skin_to_spar")
    assert sorted((row.stretch.rivet, row.count) for row in rows) == [("large", 1), ("small", 42)]
    assert next(row for row in rows if row.stretch.rivet == "large").stretch.numbers == (12,)
    assert any("rivet 12 is not as the row says" in line for line in look_lines(takeoff(one)))


def test_what_may_lie_under_a_row_is_said_and_not_decided(rudder):
    skin = Doubler(on="left_skin", thickness=Value(0.5 * MM), start=Value(0.0), to=Value(0.2), name="skin_doubler")
    sheet = replace(rudder.sheet, doublers=rudder.sheet.doublers | {"skin_doubler": skin})
    taken = takeoff(replace(rudder, sheet=sheet))
    first, rest = of(taken, "row.left_skin_to_spar")
    assert first.stretch.stack.thickness == rest.stretch.stack.thickness
    assert first.count == sum(0.02 + i * 1.06 / 42 <= 0.2 for i in range(43))
    assert any("where the skin doubler lies under them too: a stack of 2.30 mm" in line for line in look_lines(taken))
    flange = replace(skin, on="spar flange")
    sheet = replace(rudder.sheet, doublers=rudder.sheet.doublers | {"skin_doubler": flange})
    first, rest = of(takeoff(replace(rudder, sheet=sheet)), "row.left_skin_to_spar")
    assert first.stretch.stack.thickness - rest.stretch.stack.thickness == pytest.approx(0.5 * MM)
    nowhere = replace(flange, start=UNKNOWN)
    sheet = replace(rudder.sheet, doublers=rudder.sheet.doublers | {"skin_doubler": nowhere})
    (row,) = of(takeoff(replace(rudder, sheet=sheet)), "row.left_skin_to_spar")
    assert row.stretch.stack.perhaps == (("skin_doubler", 0.5 * MM),)


def test_the_rib_behind_a_bracket_may_ask_for_another_length(taken):
    note = of(taken, "hinge.top.bracket")[0].notes[0]
    assert note == "where the flange of the rib behind lies under them too: a stack of 4.50 mm, length then 10.0 mm"


def test_a_rivet_too_long_for_the_wedge_is_named(rudder):
    """Rib row: 8 mm of body, 1 mm of stack, 9 mm wanted; the last holes of rib 1 have 60 (1 - x/395) + 0.5 - 1.0 mm."""
    text = (DATA / "rudder.toml").read_text(encoding="utf-8")
    text = text.replace(
        'grip = ["?", "?"]', 'grip = ["?", "?"]\nlengths = [{ length = "8 mm", grip = ["0.5 mm", "3 mm"] }]'
    )
    note = next(one for one in of(takeoff(read_text(text)), "row.left_skin_to_ribs")[0].notes if "nearest" in one)
    count = 0
    for up, many in zip((0, 90, 325, 560, 785, 1010, 1100), (12, 12, 11, 10, 9, 8, 8), strict=True):
        chord, depth = 395 - 120 * up / 1100, 60 - 15 * up / 1100
        places = np.linspace(30, chord - 40, many)
        count += int((depth * (1 - places / chord) - 0.5 < 9.0).sum())
    assert re.match(rf"{count} nearest the trailing edge have down to \d\.\d mm behind the stack", note)


def test_every_hole_is_drilled_in_one_part(rudder, taken):
    parts = drilling(taken)
    assert sum(part.count for part in parts) == taken.holes
    table = hole_table(parts, rudder)
    assert len(table.rows) == taken.holes
    assert [part.words for part in parts][:5] == ["left skin", "right skin", "nose skin", "spar", "rib 1"]


def test_stations_in_both_units_ends_stay(rudder, taken):
    run = part_named(drilling(taken), "left_skin").runs[0]
    assert run.at[0] == pytest.approx(20 * MM)
    assert run.at[-1] == pytest.approx(1080 * MM)
    assert np.diff(run.at) == pytest.approx(np.full(42, 1060 * MM / 42))
    text = station_text(part_named(drilling(taken), "left skin"), rudder)
    assert "  mm  20.0 45.2 70.5" in text
    assert "  in  0.79 1.78 2.77" in text
    assert "real pitch 25.2 mm (0.99 in)" in text
    assert text.isascii()
    assert max(map(len, text.split("\n"))) <= 80


def test_holes_of_a_rib_are_where_its_flange_is(taken):
    """Flange 15 mm, edge 7 mm: 8 mm above the face of the web, below it where the flange points down (rib 7)."""
    runs = {run.line.label: run.line.up for run in part_named(drilling(taken), "left_skin").runs if run.line.label}
    assert runs["rib 3"] == pytest.approx(333 * MM)
    assert runs["rib 7"] == pytest.approx(1092 * MM)


def test_holes_that_crowd_each_other_are_named(taken):
    """Rib 6 at 1018 mm and the top bracket at 1010 and 1026 mm, 10 mm off the middle all of them: 8 mm."""
    words = "ribs to spar and top hinge bracket: holes in the web down to 8.0 mm from each other"
    assert f"{words}; the text asks 12.0 mm (3 D)" in list(look_lines(taken))


@given(st.integers(1, 60))
def test_every_rivet_is_set_once_from_the_middle_outward(count):
    order = setting_order(count)
    assert sorted((*order.open, *order.under_pins)) == list(range(1, count + 1))
    assert set(order.pins) == set(order.under_pins)
    assert {1, count} <= set(order.pins)
    gaps = np.diff(order.pins)
    assert (gaps <= 2).all()
    for line in (order.open, order.under_pins):
        away = [abs(one - 0.5 * (count + 1)) for one in line]
        assert away == sorted(away)


def test_no_line_without_a_rivet():
    with pytest.raises(SurfaceError, match="0 rivets"):
        setting_order(0)


def test_drills_of_the_demo(rudder):
    small, large = (shank(rudder.rivets[name]) for name in ("small", "large"))
    assert (small.metric.name, small.number.name, small.within(small.number)) == ("3.3 mm", "#30", "below it")
    assert small.within(small.metric) == "in the range"
    assert (large.go.name, large.stays_out.name) == ("4.1 mm", "#19")
    assert shank(replace(rudder.rivets["small"], hole=UNKNOWN)) is None
    bare = shank(replace(rudder.rivets["small"], hole_range=()))
    assert (bare.range, bare.go, bare.within(bare.number)) == (None, None, "")


@pytest.mark.parametrize("kind", ["rudder", "elevator"])
def test_a_starting_file_says_what_it_waits_for(kind):
    half = "none" if kind == "rudder" else "left"
    taken = takeoff(read_text(starting_file(kind, half)))
    assert taken.rows == ()
    text = takeoff_text(taken)
    assert "nothing can be listed yet" in text
    assert re.search(r"ribs to spar: not given: count", text)
    assert re.search(r"trailing edge: not given: pitch, from, to", text)
    json.dumps(takeoff_data(taken), allow_nan=False)


@pytest.mark.parametrize(("file", "system"), [("rudder", "metric"), ("elevator", "inch"), ("rudder", "inch")])
def test_text_and_data(file, system):
    taken = takeoff(read(DATA / f"{file}.toml"))
    text = takeoff_text(taken, system)
    assert text.isascii()
    assert max(map(len, text.split("\n"))) <= 80
    assert "No flight on the strength of this page." in text
    data = json.loads(json.dumps(takeoff_data(taken), allow_nan=False))
    assert sum(row["count"] for row in data["rows"]) == data["count"] == taken.count
    assert sum(run_count(part) for part in data["parts"]) == data["holes"]
    assert sum(line["needed"] for line in data["buy"]) == data["count"]


def run_count(part):
    return sum(len(run["rivets"]) for run in part["runs"])


def test_only_a_count_is_known():
    text = (DATA / "rudder.toml").read_text(encoding="utf-8")
    head, tail = text.split("[row.trailing_edge]")
    tail = tail.replace('from = "20 mm (ruler)"\n', "", 1).replace('pitch = "25 mm (drawing)"', "count = 40", 1)
    taken = takeoff(read_text(f"{head}[row.trailing_edge]{tail}"))
    row = of(taken, "row.trailing_edge")[0]
    assert (row.count, row.stretch.pitch) == (40, None)
    assert "where is not known yet" in station_text(part_named(drilling(taken), "left skin"), taken.surface)


def test_what_to_look_at_is_said_in_the_units_asked(taken):
    inch = " ".join(look_lines(taken, "inch"))
    assert "mm" not in inch
    assert "holes in the web down to 0.315 in from each other; the text asks 0.472 in (3 D)" in inch


def test_a_part_nobody_knows(taken):
    with pytest.raises(SurfaceError, match=r'no part with holes is called "wing"\. Here: left skin, right skin'):
        part_named(drilling(taken), "wing")


@pytest.mark.parametrize("file", ["rudder", "elevator"])
def test_one_gap_at_a_time_takes_only_its_own_answers(file):
    """Every fifth value of the file unknown, each alone: lists come, as text of 80 columns and as data."""
    text = (DATA / f"{file}.toml").read_text(encoding="utf-8")
    spots = list(re.finditer(r'"[^"\n]*\d[^"\n]*"|(?<== )\d+(?=[,\s])', text))
    for spot in spots[::5]:
        try:
            surface = read_text(f'{text[: spot.start()]}"?"{text[spot.end() :]}')
        except SurfaceError:  # form and kind are no questions
            continue
        taken = takeoff(surface)
        assert max(map(len, takeoff_text(taken).split("\n"))) <= 80
        json.dumps([takeoff_data(taken), *map(card_data, rule_cards(surface))], allow_nan=False)
