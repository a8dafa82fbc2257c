"""The query sheet: what stands on it, what goes first, what is new on a later one, the same numbers as everywhere."""

from __future__ import annotations

import re
from dataclasses import replace
from pathlib import Path

import pytest

from surfacecheck.errors import SurfaceError
from surfacecheck.reading import read, read_text
from surfacecheck.studies import (
    DROPS,
    deviation,
    fitted,
    kept_data,
    kept_from,
    log_text,
    query,
    query_text,
    rows_of,
)
from surfacecheck.studies.deviating._query_fit import PAGE, height
from surfacecheck.studies.deviating._query_kept import kept_of, since_words

DATA = Path(__file__).parents[2] / "data"
CHANGE = (DATA / "rudder_oversize_hole.toml").read_text(encoding="utf-8")
NAME = ("Rudder, invented two-seater", "rudder", "none")


@pytest.fixture(scope="module")
def found():
    return deviation(read(DATA / "rudder.toml", DATA / "rudder_oversize_hole.toml"))


@pytest.fixture(scope="module")
def whole(found):
    return query(found)


def one_line(text):
    return " ".join(text.split())


def test_it_fits_an_e_mail(whole):
    for sheet in (whole, fitted(whole)):
        text = query_text(sheet)
        assert text.isascii()
        assert max(map(len, text.split("\n"))) <= 64
        assert not re.search(r"\S {3,}\S", text.replace("Name, date:", "")), "nothing must line up"
    assert max(map(len, log_text(whole).split("\n"))) <= 64


def test_the_question_stands_first_and_can_be_answered_by_a_number(whole, found):
    first, question, *_ = query_text(whole).split("\n")
    assert first == f"QUERY {found.surface.sha256[:4].upper()}-1  Rudder, invented two-seater, drawing R-10 issue B."
    assert question == "May rivet 3 of the middle hinge bracket stay as it is? Reply at"
    assert "1 yes  2 yes, if ...  3 no, do ...  4 send the part, or photos" in query_text(whole)


def test_every_block_is_there_in_order(whole):
    text = one_line(query_text(whole))
    heads = ("1 WHAT HAPPENED", "2 WHERE IT SITS", "3 NUMBERS", "4 WHAT I ASSUMED", "5 MAY IT STAY")
    places = [text.index(word) for word in ("Decides: designer", *heads, "No flight on the strength")]
    assert places == sorted(places)


def test_drawing_and_measurement_each_with_how_it_is_known(whole):
    text = one_line(query_text(whole))
    assert "Drawing says: hole 4.1 mm (drill); edge 8.0 mm in the bracket (ruler)." in text
    assert "smallest 4.45 mm (drill shank, 3 tries, +-0.05 mm)" in text
    assert "largest 4.60 mm (caliper, once, +-0.05 mm)" in text
    assert "edge 8.0 mm (caliper, 2 tries, +-0.05 mm); the largest points up." in text
    assert "Rivet still in: no. Done since: nothing. Reached from: both sides." in text


def test_the_numbers_are_those_of_the_table(whole, found):
    text = one_line(query_text(whole))
    row = next(row for row in rows_of(found, "place") if row.name == "middle hinge, bracket")
    drawn, now, option, _ = row.cells
    fully, nothing = now.split(" / ")
    both = f"{fully} if it holds fully, {nothing} if it holds nothing"
    assert (
        f"Lowest margin here, middle hinge, bracket: as drawn {drawn}; as it is {both}; next size 4.8 mm {option}"
        in text
    )
    anywhere = rows_of(found, "anywhere")[0].cells
    assert len(set(anywhere)) == 1
    assert f"Lowest anywhere: {anywhere[0]}, in all" in text


def test_the_working_gives_the_margin(whole, found):
    """Each shown working, evaluated as it stands, gives the margin beside it; a reader can type it in."""
    text = one_line(query_text(whole))
    shown = re.findall(r"margin = (1 / \([^=]*?\) - 1) = ([+-]\d+\.\d\d)", text)
    assert len(shown) == 2
    for formula, result in shown:
        assert f"{eval(formula, {'sqrt': lambda x: x**0.5}):+.2f}" == result  # noqa: S307 - our own text
    here = found.now.here(found.places)
    assert [result for _, result in shown] == [f"{f.margin:+.2f}" for f in here]


def test_another_option_or_none(found):
    assert "next size" not in one_line(query_text(query(found, option=2)))
    assert "rivet not there" in one_line(query_text(query(found, option=2)))
    none = query_text(query(found, option=0))
    assert "next size" not in none
    assert "rivet not there" not in none
    with pytest.raises(SurfaceError, match=r"option 7 is not there.*1 next size 4\.8 mm; 2 rivet"):
        query(found, option=7)


def test_it_drops_in_the_stated_order_and_names_what_went(whole):
    sheet = whole
    for drop in range(1, len(DROPS) + 1):
        before = height(sheet)
        sheet = sheet.without(drop)
        assert height(sheet) <= before + 10.0  # naming what went may take a line or two
        assert all(line.drop == 0 or line.drop > drop for block in sheet.blocks for line in block.lines)
    assert list(sheet.dropped) == [one for one in DROPS if one in sheet.dropped]
    text = one_line(query_text(sheet))
    for stays in ("Drawing says", "I have", "At limit rivet 3", "Lowest margin here", "Lowest anywhere", "Outcome here",
                  "Load: 1.20 kPa limit", "Not looked at: fatigue"):  # fmt: skip
        assert stays in text
    assert f"Left out to fit one page: {', '.join(sheet.dropped)}." in text


def test_only_as_much_goes_as_must(whole):
    sheet = fitted(whole)
    assert height(sheet) <= PAGE
    last = DROPS.index(sheet.dropped[-1]) + 1
    fuller = whole
    for drop in range(1, last):
        fuller = fuller.without(drop)
    assert height(fuller) > PAGE
    gone = [DROPS.index(one) + 1 for one in sheet.dropped]
    for back in gone:
        fuller = whole
        for drop in gone:
            fuller = fuller.without(drop) if drop != back else fuller
        assert height(fuller) > PAGE
    assert fitted(whole, picture=False).dropped != sheet.dropped


EVENT = """[[happened]]
where = "hinge %s, bracket rivet %d"
what = "short edge"
layers = ["bracket"]
edge = "6 mm (caliper)"
"""


def chain(count, note=""):
    spots = [(hinge, rivet) for hinge in ("middle", "bottom", "top") for rivet in range(1, 7)][:: 18 // count][:count]
    text = 'based_on = "rudder.toml"\ntitle = "many"\n' + "".join(EVENT % spot + note for spot in spots)
    return query(deviation(read_text(text, "c.toml", DATA)))


def test_a_long_chain_keeps_every_event_and_its_lowest_margins():
    """What was measured of the fourth and later goes; that they happened stays, and so do the two lowest margins."""
    whole = chain(6)
    sheet = fitted(whole)
    assert "measurements after the third event" in sheet.dropped
    text = one_line(query_text(sheet))
    assert text.count("short edge.") == 6
    assert text.count("I have") < one_line(query_text(whole)).count("I have") == 6
    assert 1 <= text.count("Lowest margin here") <= 2
    lowest = min(f.margin for f in whole.deviation.now.here(whole.deviation.places))
    assert f"{lowest:+.2f}" in text


def test_more_than_a_page_holds_is_refused():
    note = f'note = "{"a long story, " * 60}"\n'
    with pytest.raises(SurfaceError, match="6 events do not fit one sheet: put those that need"):
        fitted(chain(6, note))
    assert "picture" in fitted(chain(18)).dropped


def test_nothing_goes_from_a_sheet_with_room(found):
    blocks = tuple(replace(block, lines=block.lines[:2]) for block in query(found).blocks)
    assert fitted(replace(query(found), blocks=blocks)).dropped == ()


def test_what_is_new_since_the_last_sheet(found):
    later = deviation(read_text(CHANGE.replace("4.60 mm (caliper)", "4.70 mm (caliper, 2 tries)"), "c.toml", DATA))
    before = query(found, "BC81-1").kept
    told = since_words(query(later, "BC81-2").kept, before)
    assert told == "largest 4.70 mm (caliper, 2 tries) (was 4.60 mm (caliper))"
    assert since_words(before, before) == "nothing"
    text = one_line(query_text(query(later, "BC81-2", before)))
    assert text.startswith("QUERY BC81-2 ")
    assert f"New since BC81-1: {told}." in text


def test_what_a_sheet_keeps_comes_back(found):
    kept = kept_of(found, "BC81-1")
    assert kept_from(kept_data(kept), NAME) == kept


@pytest.mark.parametrize(
    ("spoil", "says"),
    [
        (lambda data: data | {"form": 2}, "newer surfacecheck"),
        (lambda data: data | {"given": ["x"]}, "damaged"),
        (lambda data: {key: one for key, one in data.items() if key != "number"}, "damaged"),
        (lambda data: data | {"surface": ["Another", "rudder", "none"]}, 'sheet of "Another"'),
    ],
)
def test_a_sheet_that_is_none_of_this_surface(found, spoil, says):
    with pytest.raises(SurfaceError, match=says):
        kept_from(spoil(kept_data(kept_of(found, "BC81-1"))), NAME)


def test_no_personal_data_is_asked_for(whole):
    """A name may be written on the printed sheet; none is a key of any file."""
    text = query_text(whole)
    assert text.count("Name, date:") == 1
    assert not re.search(r"(?i)address|telephone|birth|e-mail:", text)


def test_the_log_entry_has_the_question_and_room_for_the_answer(whole):
    text = one_line(log_text(whole))
    assert text.startswith("LOG deviation ")
    assert "Asked: May rivet 3 of the middle hinge bracket stay as it is?" in text
    assert "Reply (1 to 4), by whom, date:" in text
