"""What an elevator or aileron half is told stands in the words of its own file. Invented."""

from __future__ import annotations

from dataclasses import replace

import pytest

from surfacecheck.assessment import finding_sentence, summary
from surfacecheck.changes import KINDS, columns_of
from surfacecheck.changes._examples import doubler_example, example_of, size_example
from surfacecheck.errors import SurfaceError
from surfacecheck.model import Kind, Surface, Units
from surfacecheck.places import spot_of
from surfacecheck.reading import read, read_text
from surfacecheck.report import surface_map
from surfacecheck.sections.box import box_needs
from surfacecheck.statics.span import layout_of
from surfacecheck.studies import place_names, takeoff, takeoff_headline

from .conftest import DATA, laid

FLAT = "elevator.toml"


@pytest.mark.parametrize(
    ("key", "in_file"),
    [
        ("hinge.inner.up", "hinge.inner.out"),
        ("hinge.left.up", "hinge.left.out"),
        ("sheet.left_skin.thickness", "sheet.top_skin.thickness"),
        ("sheet.ribs.up[2]", "sheet.ribs.out[2]"),
        ("outline.at[1].up", "outline.at[1].out"),
        ("row.left_skin.edge.right_skin", "row.left_skin.edge.bottom_skin"),
        ("sheet.ribs.out", "sheet.ribs.out"),
    ],
)
def test_a_key_as_the_file_has_it(key: str, in_file: str) -> None:
    assert Surface(kind=Kind.ELEVATOR).in_file(key) == in_file
    assert Surface(kind=Kind.RUDDER).in_file(key) == key


def test_rows_of_a_map_join_what_the_surface_has() -> None:
    words = "\n".join(one.what for one in place_names(read(DATA / FLAT)))
    assert "top skin + nose skin + spar" in words
    assert not {"left skin", "right skin"} & set(words.split(" + "))


def test_gaps_of_a_sheet_go_by_its_own_key() -> None:
    one = laid({"sheet.top_skin.thickness": '"?"', "sheet.bottom_skin.thickness": '"?"'}, FLAT)
    hides = {gap.key: gap.hides for gap in one.gaps}
    for key in ("sheet.top_skin.thickness", "sheet.bottom_skin.thickness"):
        assert key in box_needs(one.surface)
        assert "shear flows" in hides[key]
    assert not [key for key in hides if "left_skin" in key or "right_skin" in key]


def test_half_filled_the_words_to_write_are_its_own() -> None:
    empty = Surface(kind=Kind.AILERON)
    for ask in (surface_map, layout_of):
        with pytest.raises(SurfaceError, match='"out"'):
            ask(empty)
    with pytest.raises(SurfaceError, match=r"sheet\.ribs\.out"):
        spot_of(empty, "spar, at rib 2")


def refusal(told: str) -> str:
    lines = f"[[happened]]\n{told}\n"
    with pytest.raises(SurfaceError) as caught:
        columns_of(read_text(f'based_on = "{FLAT}"\ntitle = "tried"\n{lines}', "tried.toml", DATA))
    return caught.value.faults[0].message


@pytest.mark.parametrize(
    ("told", "words"),
    [
        ('where = "hinge inner"\nwhat = "bracket off"', ('"... in out"', '"... in top"', '"... deg top"')),
        ('where = "hinge inner"\nwhat = "hinge off line"', ('"... in top"', '"... in behind"')),
        ('where = "horn"\nwhat = "hinge off line"', ("such as: hinge outer",)),
        ('where = "horn"\nwhat = "row drifted"', ("such as: top skin to spar",)),
        ('what = "rivet missing"', ('where = "hinge outer, bracket rivet 3"',)),
    ],
)
def test_refusals_of_events_write_what_it_accepts(told: str, words: tuple[str, ...]) -> None:
    message = refusal(told)
    assert all(one in message for one in words)


@pytest.mark.parametrize("file", ["rudder.toml", FLAT])
def test_every_example_of_a_place_is_one(file: str) -> None:
    surface = read(DATA / file)
    for kind in KINDS:
        if "doubler" in kind.such and not surface.sheet.doublers:
            continue
        assert spot_of(surface, example_of(surface, kind.such))


def test_a_strength_that_no_sheet_gives_says_where_it_is_from() -> None:
    """The pin of the demo has its shear strength alone: its tension is taken from that by common practice."""
    one = laid({}, FLAT)
    bent = next(finding for finding in one.margins if finding.name == "hinge.outer.pin:bending")
    said = finding_sentence(bent, one)
    assert "(common practice: F_tu taken as F_su / 0.6)" in said
    assert "data sheet" not in said


def test_a_bearing_is_judged_at_limit() -> None:
    """No factor is laid on the load of a rated bearing: it is the limit load that it carries."""
    pin = {"turns_in": '"bearing"', "crushing_strength": '"4000 N (sheet 9)"'}
    one = laid({f"bracket.plate.pin.{key}": value for key, value in pin.items()}, FLAT)
    rated = next(finding for finding in one.margins if finding.check.mode == "bearing-rating")
    said = finding_sentence(rated, one)
    assert "With no factor it must be good for" in said
    assert "at limit; the data sheet says 4000 N" in said
    assert "at ultimate" not in said


TUBE = {"horn": '{ driven_by = "torque tube", turns_other_half = "no", out = "0 mm (tape)" }'}
STOP = {"controls.stopped_at": '"surface"', "controls.stop": '{ out = "0 mm", arm = "60 mm", side = "both" }'}


def test_a_tube_against_a_stop_is_named_among_the_missing_cases() -> None:
    one = laid(TUBE | STOP, FLAT)
    (missing,) = (case for case in one.missing_cases if case.name == "against the stop")
    assert missing.needs == "horn.driven_by"
    assert "torque tube" in missing.reason
    assert not [case for case in one.cases if case.closing == "stop"]


@pytest.mark.parametrize("place", ["horn", "stop"])
def test_a_tube_has_no_arm_that_could_be_another(place: str) -> None:
    lines = "".join(f"{key} = {value}\n" for key, value in (TUBE | STOP).items())
    told = f'[[happened]]\nwhere = "{place}"\nwhat = "{place} arm other"\narm = "55 mm (ruler)"\n'
    with pytest.raises(SurfaceError, match="a torque tube has no horn arm"):
        columns_of(read_text(f'based_on = "{FLAT}"\ntitle = "tried"\n{lines}{told}', "tried.toml", DATA))


def test_a_tube_has_the_torque_of_what_it_holds_itself() -> None:
    """What the lock on the surface holds does not go through the tube."""
    wind = {"load.wind_at_tiedown": '"90 knots (rule)"'}
    free, locked = (laid(TUBE | wind | {"controls.locked_at": f'"{at}"'}, FLAT) for at in ("stick", "surface"))
    assert free.horn_pull is not None
    assert locked.horn_pull is not None
    assert "wind" in free.horn_pull.pull.case
    held = {title: case.closing for title, case in zip(locked.case_titles, locked.cases, strict=False)}
    assert held[locked.horn_pull.pull.case] == "horn"
    assert abs(locked.horn_pull.pull.value) < abs(free.horn_pull.pull.value)


@pytest.mark.parametrize(("first", "says"), [("0 mm (tape)", False), ("40 mm (tape)", True)])
def test_a_tube_without_a_rib_at_it_is_said(first: str, says: bool) -> None:
    ribs = [first, *(f"{one} mm (tape)" for one in (200, 310, 600))]
    listed = "[" + ", ".join(f'"{one}"' for one in ribs) + "]"
    points = "[" + ", ".join(['"out"'] * len(ribs)) + "]"
    one = laid(TUBE | {"sheet.ribs.out": listed, "sheet.ribs.flanges_point": points}, FLAT)
    found = [finding for finding in one.findings if finding.name == "horn.path:no-rib"]
    assert bool(found) == says
    assert all(finding.part == "torque tube" for finding in found)


@pytest.mark.parametrize(
    ("file", "horn", "words"),
    [
        ("rudder.toml", {}, "load in = pins and cable back"),
        (FLAT, {}, "load in = pins and rod back"),
        (FLAT, TUBE, "load in = pins and tube back"),
    ],
)
def test_what_holds_it_beside_the_pins_is_called_what_it_is(file: str, horn: dict[str, str], words: str) -> None:
    assert words in summary(laid(horn, file), "metric", 200)


def in_inches(told: str = "") -> Surface:
    """Lay over the demo rudder so many lines in inches that the file is one in inches."""
    text = f'based_on = "rudder.toml"\ntitle = "tried"\n{told}'
    return replace(read_text(text, "tried.toml", DATA), units=Units.INCH)


@pytest.mark.parametrize(
    ("told", "words"),
    [
        ('where = "left skin to spar"\nwhat = "pitch wrong"', ('pitch = "... in"',)),
        ('where = "hinge middle"\nwhat = "bracket off"', ('"... in up"', '"... in left"')),
        ('where = "horn"\nwhat = "mass added"', ("such as: trailing edge, at 12.8 in",)),
        (
            'where = "hinge middle, bracket rivet 3"\nwhat = "rivet missing"\ntry = ["glue"]',
            ("next size 0.188 in", "doubler 0.032 in, 4 in long, 2 in wide"),
        ),
    ],
)
def test_what_to_write_is_in_the_units_of_the_file(told: str, words: tuple[str, ...]) -> None:
    with pytest.raises(SurfaceError) as caught:
        columns_of(in_inches(f"[[happened]]\n{told}\n"))
    assert all(one in caught.value.faults[0].message for one in words)


def test_the_examples_in_inches_can_be_typed() -> None:
    lines = '[[happened]]\nwhere = "hinge middle, bracket rivet 3"\nwhat = "rivet missing"\n'
    for such in (size_example, doubler_example):
        option = such(in_inches())
        tried = columns_of(in_inches(f'{lines}try = ["{option}"]\n'))
        assert option in [column.title for column in tried]
    with pytest.raises(SurfaceError, match=r"is at 80 in; the surface goes from 0 to 43\.31 in"):
        spot_of(in_inches(), "spar, at 80 in")
    assert takeoff_headline(takeoff(in_inches()), "inch").endswith(" oz")
