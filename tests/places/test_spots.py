"""Places as builders type them, on the demo rudder."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from surfacecheck.errors import SurfaceError
from surfacecheck.places import plan_row, spot_of
from surfacecheck.provenance import UNKNOWN
from surfacecheck.reading import read

DATA = Path(__file__).parents[2] / "data"


@pytest.fixture(scope="module")
def rudder():
    return read(DATA / "rudder.toml")


@pytest.mark.parametrize(
    ("typed", "names"),
    [
        ("hinge middle, bracket rivet 3", ("hinge.middle.bracket.rivet-3",)),
        ("Middle hinge, bracket, rivets 3 and 4", ("hinge.middle.bracket.rivet-3", "hinge.middle.bracket.rivet-4")),
        ("hinge.middle.bracket.rivet-3", ("hinge.middle.bracket.rivet-3",)),
        ("hinge middle, bracket", ("hinge.middle.bracket",)),
        ("the pin top", ("hinge.top",)),
        ("left skin to spar, rivet 12", ("row.left_skin_to_spar.rivet-12",)),
        ("row.left_skin_to_spar.rivet-12", ("row.left_skin_to_spar.rivet-12",)),
        ("left skin to spar, rivets 1 to 3", tuple(f"row.left_skin_to_spar.rivet-{i}" for i in (1, 2, 3))),
        ("left skin to spar, rivets 1, 2 and 40", tuple(f"row.left_skin_to_spar.rivet-{i}" for i in (1, 2, 40))),
        ("left skin to ribs, rib 3, rivet 4", ("row.left_skin_to_ribs.rib-3.rivet-4",)),
        ("row.left_skin_to_ribs.rib-3.rivet-4", ("row.left_skin_to_ribs.rib-3.rivet-4",)),
        ("trailing edge", ("row.trailing_edge",)),
        ("trailing edge, at rib 3", ("trailing_edge.at-325-mm",)),
        ("nose, at hinge top", ("nose.at-1010-mm",)),
        ("rib 3", ("rib-3",)),
        ("spar, at 325 mm", ("spar.at-325-mm",)),
        ("spar flange, between rib 3 and 4", ("spar.flange.at-442-mm",)),
        ("left skin, at 12 in", ("left_skin.at-305-mm",)),
        ("bottom doubler", ("bottom_doubler",)),
        ("horn", ("horn",)),
        ("horn rivet 2", ("horn.rivets.rivet-2",)),
        ("horn.rivets.rivet-2", ("horn.rivets.rivet-2",)),
        ("stop", ("stop",)),
        ("whole surface", ("surface",)),
    ],
)
def test_a_place_is_found_in_words_and_by_its_name(rudder, typed: str, names: tuple[str, ...]) -> None:
    spot = spot_of(rudder, typed)
    assert spot.names == names
    if spot.rivets:
        assert [spot_of(rudder, name).names for name in names] == [(name,) for name in names]


@pytest.mark.parametrize(
    ("typed", "words"),
    [
        ("hinge midle, rivet 3", "Nearest: hinge middle, bracket rivet 3"),
        ("left skim to spar, rivet 1", "Nearest: left skin to spar, rivet 1"),
        ("hinge middle, rivet 9", "there is no rivet 9; there are rivet 1 to rivet 6"),
        ("horn rivet 9", "there is no rivet 9; there are rivet 1 to rivet 8"),
        ("left skin to spar, rivet 44", "there is no rivet 44; there are rivet 1 to rivet 43"),
        ("left skin to spar, rivets 5 to 3", "is no list of rivets"),
        ("left skin to ribs, rivet 3", "this row is on every rib. Write which: left skin to ribs, rib 3, rivet 3"),
        ("left skin to ribs, rib 9, rivet 1", "there is no rib 9; there are rib 1 to rib 7"),
        ("left skin to spar, rib 3, rivet 1", "runs along the pins, not on ribs"),
        ("spar, at 2000 mm", "the surface goes from 0 to 1100 mm"),
        ("rib 8", "there is no rib 8"),
        ("row left skin to spar, rivit 3", "Nearest: left skin to spar, rivet 1"),
    ],
)
def test_a_place_that_is_not_there_says_what_is(rudder, typed: str, words: str) -> None:
    with pytest.raises(SurfaceError) as caught:
        spot_of(rudder, typed)
    assert words in str(caught.value)
    assert "\n" not in str(caught.value)


def test_the_words_of_a_flat_half() -> None:
    elevator = read(DATA / "elevator.toml")
    top = spot_of(elevator, "top skin, at rib 2")
    assert (top.owner, top.words[0].startswith("top skin at rib 2")) == ("left_skin", True)
    name = next(name for name, row in elevator.rows.items() if (plan_row(elevator, row) or row).start is not None)
    assert spot_of(elevator, f"{name}, rivet 2").names == (f"row.{name}.rivet-2",)


def test_a_surface_whose_ends_nobody_measured_takes_any_place(rudder) -> None:
    places = tuple(replace(one, up=UNKNOWN) for one in rudder.outline.places)
    open_ended = replace(rudder, outline=replace(rudder.outline, at=places))
    assert spot_of(open_ended, "spar, at 2000 mm").names == ("spar.at-2000-mm",)
