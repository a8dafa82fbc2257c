"""The interview: what it asks, what it takes, what it writes; read back and worked as any change file."""

from __future__ import annotations

from pathlib import Path

import pytest

from surfacecheck.changes import KINDS, Interview, columns_of
from surfacecheck.errors import SurfaceError
from surfacecheck.model import Happened, specs
from surfacecheck.reading import read, read_text

DATA = Path(__file__).parents[2] / "data"
FILE = DATA / "rudder.toml"
HOLE = ("hole too large", "hinge middle, bracket rivet 3", "4.45 mm (drill shank, 3 tries)", "4.60 mm (caliper)", "up",
        "1; 2", "no", "8.0 mm (caliper, 2 tries)", "nothing", "both sides", "", "no", "Too large")  # fmt: skip


@pytest.fixture(scope="module")
def rudder():
    return read(FILE)


def asked(surface, answers, file=FILE):
    interview = Interview(surface, file)
    for one in answers:
        interview = interview.answered(one)
    return interview


def test_what_was_told_is_what_the_file_says(rudder):
    """A round trip: every answer comes back from the file that was written."""
    interview = asked(rudder, HOLE)
    assert interview.question is None
    surface = read_text(interview.text(), "written.toml", DATA)
    (event,) = surface.happened
    assert (event.what, event.where) == HOLE[:2]
    assert (event.smallest.said, str(event.smallest.source)) == ("4.45 mm", "measured: drill shank, 3 tries")
    assert event.largest.si == pytest.approx(4.60e-3)
    assert (str(event.largest_points), str(event.rivet_in)) == ("up", "no")
    assert event.layers == ("bracket", "spar")
    assert event.edge.si == pytest.approx(8.0e-3)
    assert (event.done_since, event.reached_from) == ("nothing", "both sides")
    assert surface.title == "Too large"


def test_the_same_event_typed_by_hand_gives_the_same_columns(rudder):
    """The demo's own change file tells the same event: the same hole and edge as it is now."""
    told = columns_of(read_text(asked(rudder, HOLE).text(), "written.toml", DATA))[1].fully
    drawn = columns_of(read(FILE, DATA / "rudder_oversize_hole.toml"))[1].fully
    place = "hinge.middle.bracket.rivet-3"
    for size in ("across", "along", "edge"):
        mine, own = getattr(told.apart[place], size), getattr(drawn.apart[place], size)
        assert {layer: value.si for layer, value in mine.items()} == {layer: value.si for layer, value in own.items()}


@pytest.mark.parametrize("kind", [one for one in KINDS if one.such != "stop"], ids=lambda kind: kind.words[0])
def test_every_kind_can_be_told_without_a_measurement(rudder, kind):
    """Three measurements at most; all may be "not measured", and then it says what is missing, if anything is."""
    interview, measured = asked(rudder, (kind.words[0], kind.such)), []
    while (question := interview.question) is not None:
        assert question.words[-1] in "?." or question.hint
        if question.key in specs(Happened) and specs(Happened)[question.key][1].kind in {"measure", "count"}:
            measured.append(question.key)
        said = question.choices[0] if question.must and question.choices else "not measured"
        interview = interview.answered("no" if question.key == "more" else said)
    assert len(measured) <= 3
    surface = read_text(interview.text(), "written.toml", DATA)
    assert surface.happened[0].what == kind.words[0]
    if interview.wanted:
        with pytest.raises(SurfaceError) as error:
            columns_of(surface)
        assert interview.wanted == tuple(fault.message for fault in error.value.faults)
        assert " needs " in interview.wanted[0]
    else:
        assert len(columns_of(surface)) >= 2


def test_going_back_asks_the_same_again(rudder):
    there = asked(rudder, HOLE[:3])
    question = there.question
    further = there.answered("4.60 mm (caliper)")
    assert further.question != question
    assert further.back() == there
    assert further.back().question == question
    assert Interview(rudder, FILE).back().question.key == "what"
    assert asked(rudder, HOLE[:2]).back().back().question.key == "what"


@pytest.mark.parametrize(
    ("before", "answer", "match"),
    [
        ((), "", "an answer is needed here"),
        ((), "hole to large", "none of these. Nearest: hole too large. Type its number, 1 to"),
        ((), "99", "none of these"),
        (HOLE[:1], "hinge upper", "no place is called"),
        (HOLE[:1], "left skin, at 325 mm", "cannot be at left skin at 325 mm. Write where, such as: hinge middle"),
        (HOLE[:2], "4.45", "unit"),
        (HOLE[:2], "450 mm", "."),
        (HOLE[:2], "wide", "."),
        (HOLE[:4], "sideways", "none of these"),
        (HOLE[:5], "left skin", "none of these"),
        (HOLE[:6], "perhaps", "none of these"),
        ((*HOLE[:3], "4.20 mm (caliper)"), "up", "."),
    ],
)
def test_what_is_no_answer_is_asked_again(rudder, before, answer, match):
    """One clear line; the interview stands where it was."""
    interview = asked(rudder, before)
    question = interview.question
    if answer == "up":
        interview = interview.answered(answer).answered("1; 2").answered("no")
    with pytest.raises(SurfaceError, match=match) as error:
        interview.answered(answer if answer != "up" else "8 mm")
    assert all(fault.message and "happened.toml" not in fault.message for fault in error.value.faults)
    if answer != "up":
        assert interview.question == question


def test_one_layer_or_all(rudder):
    before = asked(rudder, HOLE[:5])
    assert before.question.choices == ("bracket", "spar", "all of them")
    for said, layers in (("1", ("bracket",)), ("spar", ("spar",)), ("all of them", ("bracket", "spar")), ("?", ())):
        assert read_text(before.answered(said).text(), "w.toml", DATA).happened[0].layers == layers


def test_a_chain_of_events(rudder):
    chain = ("poor rivet", "hinge bottom, bracket rivet 3", "", "", "", "yes",
             "short edge", "hinge bottom, bracket rivet 3", "7.3 mm (caliper, 3 tries)", "bracket", "", "", "", "no",
             "")  # fmt: skip
    interview = asked(rudder, chain)
    assert interview.question is None
    surface = read_text(interview.text(), "w.toml", DATA)
    assert [one.what for one in surface.happened] == ["poor rivet", "short edge"]
    assert surface.title == "poor rivet, hinge bottom, bracket rivet 3; short edge, hinge bottom, bracket rivet 3"
    with pytest.raises(SurfaceError, match="everything was asked"):
        interview.answered("more")


def test_a_flat_half_is_asked_in_its_own_words():
    file = DATA / "elevator.toml"
    elevator = read(file)
    interview = asked(elevator, ("hole too large", "hinge inner, bracket rivet 1", "0.175 in (drill shank)"), file)
    assert "in (caliper" in interview.question.hint
    assert "out" in interview.answered("0.181 in (caliper)").question.choices


@pytest.mark.parametrize("typed", ["top skin", "1", "top_skin"])
def test_layers_of_a_flat_half_have_its_own_words(typed):
    file = DATA / "elevator.toml"
    assert "left" not in asked(read(file), ("row drifted",), file).question.hint
    told = asked(read(file), ("row drifted", "top skin to spar", "", ""), file)
    assert told.question.key == "layers"
    assert told.question.choices[0] == "top skin"
    assert not any("left" in one or "right" in one for one in told.question.choices)
    written = told.answered(typed).text()
    assert 'layers = ["top_skin"]' in written
    assert read_text(written, "written.toml", DATA).happened[0].layers == ("left_skin",)
