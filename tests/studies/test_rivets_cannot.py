"""Alternatives for rivets that cannot be, rows that are drilled already, and lists that nobody can have meant."""

from __future__ import annotations

import re
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

import surfacecheck
from surfacecheck.errors import SurfaceError
from surfacecheck.model import HeadKind, YesNo
from surfacecheck.provenance import Value
from surfacecheck.studies import Alternatives, Space, rivets

DATA = Path(__file__).parents[2] / "data"
MM = 1e-3


MANY = tuple(np.linspace(0.005, 0.015, 1000))


def mm(*values):
    return tuple(value * MM for value in values)


@pytest.fixture(scope="module")
def rudder():
    return surfacecheck.assess(surfacecheck.read(DATA / "rudder.toml"))


def test_a_row_that_is_drilled_offers_leaving_rivets_out(rudder):
    found = rivets(rudder, "left_skin_to_spar", Alternatives(pitch=mm(25, 30), rivet=("small", "AD 3/32", "large")),
                   drilled_at=25 * MM)  # fmt: skip
    (table,) = found.rows
    real = 1.060 / 42
    assert found.spaces == (Space(25 * MM), Space(30 * MM), Space(2 * real))
    assert table.total[:3].tolist() == [43, 0, 22]
    assert table.laid.words[table.layout[2]] == "every second"
    assert table.pitch[2] == pytest.approx(2 * real, rel=1e-12)
    reasons = [table.reasons[i] for i in table.why]
    assert "only leaving rivets out is real" in reasons[1]
    assert "its holes of" in reasons[3]
    assert reasons[0] == reasons[2] == reasons[6] == ""
    alone = surfacecheck.assess(found.surface_of(2))
    own = [one.margin for one in alone.margins if one.check.place == "row.left_skin_to_spar"]
    assert table.margin[2] == min(own)


def test_of_a_drilled_row_the_sheet_stays_and_holes_can_only_grow(rudder):
    name = "left_skin_to_spar"
    given = Alternatives(sheet=mm(0.5, 0.8), rivet=("small", "large", "AD 3/32"), head=("protruding", "countersunk"))
    found = rivets(rudder, name, given, drilled_at=25 * MM)
    (table,) = found.rows
    possible = table.possible.reshape(found.shape)[:, :, :, 0, 0, 0]
    assert possible.tolist() == [[[True, True], [True, True], [False, False]], [[False, False]] * 3]
    thicker = np.ravel_multi_index((1, 0, 0, 0, 0, 0), found.shape)
    assert table.reasons[table.why[thicker]] == "its holes are there already: the sheet is what it is"
    said = " ".join(str(found).split())
    assert "a larger one can be, by drilling up, and a sunk head, by sinking the hole" in said
    assert "only leaving rivets out is real." not in said


@pytest.mark.parametrize(("was", "word"), [(HeadKind.COUNTERSUNK, "countersunk"), (HeadKind.DIMPLED, "dimpled")])
def test_a_sunk_hole_takes_no_other_head(rudder, was, word):
    kind = replace(rudder.surface.rivets["small"], head_kind=was)
    surface = replace(rudder.surface, rivets=rudder.surface.rivets | {"small": kind})
    given = Alternatives(head=("protruding", "countersunk", "dimpled"))
    found = rivets(surface, "left_skin_to_spar", given, drilled_at=25 * MM)
    (table,) = found.rows
    heads = dict(zip(given.head, table.why.reshape(found.shape)[0, 0, :, 0, 0, 0].tolist(), strict=True))
    assert [head for head, why in heads.items() if not why] == [word]
    assert table.reasons[heads["protruding"]] == f"its holes are {word} already, no protruding head"


def test_the_file_says_that_a_row_is_drilled():
    surface = surfacecheck.read(DATA / "rudder.toml", DATA / "rudder_pitch_30.toml")
    row = surface.rows["left_skin_to_spar"]
    drilled = replace(surface, rows=surface.rows | {row.name: replace(row, drilled_already=YesNo.YES)})
    assert not rivets(surface, row.name, Alternatives()).drilled
    found = rivets(drilled, row.name, Alternatives())
    assert found.drilled
    assert found.rows[0].total.tolist() == [36, 19]
    with pytest.raises(SurfaceError, match="not evenly spread; no file can say that"):
        found.surface_of(1)


@pytest.mark.parametrize(
    ("given", "says"),
    [
        ({"pitch": mm(1200)}, "a pitch of .* is longer than the row"),
        ({"edge": mm(1.5)}, "runs off it"),
        ({"edge": mm(17.5)}, "whose flange is"),
        ({"pitch": mm(3)}, "their holes of .* run into each other"),
        ({"pitch": mm(5)}, "their heads of .* run into each other"),
        ({"lines": (10,)}, "10 lines hole beside hole have no room on a flange of"),
        ({"diameter": mm(4.8)}, "part D has no pulled rivet of"),
        ({"rivet": ("ISO 15977 H",), "diameter": mm(6)}, "ISO 15977 H is not in the table at"),
        ({"count": (1,)}, "one rivet is no row"),
    ],
)
def test_what_cannot_be_is_a_line_that_says_why(rudder, given, says):
    found = rivets(rudder, "left_skin_to_spar", Alternatives(**given))
    (table,) = found.rows
    assert table.why.all()
    assert np.isnan(found.whole.margin).all()
    assert not found.best.any()
    assert re.search(says, table.reasons[table.why[0]]), table.reasons
    with pytest.raises(SurfaceError, match=r"row\.left_skin_to_spar"):
        found.surface_of(0)


def test_a_grip_that_does_not_hold_the_stack(rudder):
    """The 4.0 mm rivets of the demo grip 1.2 to 6.3 mm; two skins at the trailing edge are 1.0 mm."""
    found = rivets(rudder, "trailing_edge", Alternatives(rivet=("small", "large")))
    assert found.rows[0].why.tolist() == [0, 1]
    assert "outside the grip of large" in found.rows[0].reasons[1]


@pytest.mark.parametrize(
    ("given", "says"),
    [
        ({"pitch": ()}, "pitch: the list is empty"),
        ({"rivet": ("smal",)}, 'no rivet is called "smal". Nearest: "small". In part D: small, large'),
        ({"head": ("round",)}, 'head "round" is no kind of head'),
        ({"pitch": (25.0,)}, r"pitch 25000 mm; .* Is the unit right\?"),
        ({"lines": (0,)}, "lines 0; a whole number from 1 to 10"),
        (
            {"pitch": MANY, "edge": MANY, "diameter": MANY},
            r"1000000000 alternatives \(1000 pitch, 1000 diameter, 1000 edge\); 100000 are worked; at most 5000000 go",
        ),
        ({"pitch": MANY, "edge": MANY}, "1000000 alternatives .* say --most 1000000"),
    ],
)
def test_bad_lists_are_one_clear_line(rudder, given, says):
    with pytest.raises(SurfaceError, match=says) as error:
        rivets(rudder, "left_skin_to_spar", Alternatives(**given))
    assert len(str(error.value).split("\n")) == 1


def test_rows_are_named_in_words_too(rudder):
    found = rivets(rudder, ["left skin to spar", "row.left_skin_to_spar"], Alternatives())
    assert [table.row.name for table in found.rows] == ["left_skin_to_spar"]
    with pytest.raises(SurfaceError, match="Nearest: left_skin_to_spar"):
        rivets(rudder, "left_skin_to_spa", Alternatives())


def test_lines_that_have_no_room_on_the_flange(rudder):
    row = rudder.surface.rows["left_skin_to_spar"]
    wide = replace(rudder.surface, rows=rudder.surface.rows | {row.name: replace(row, line_gap=Value(12 * MM))})
    (table,) = rivets(wide, row.name, Alternatives(lines=(1, 2))).rows
    assert table.why.tolist() == [0, 1]
    assert table.reasons[1].startswith("2 lines {length:0.012} apart have no room on a flange of")


def test_each_edge_is_asked_by_itself(rudder):
    """Two lines 8 mm apart, 3.3 mm holes, an 18 mm flange: 7 + 8 + 1.65 fits, 10 + 8 + 1.65 does not."""
    row = rudder.surface.rows["left_skin_to_spar"]
    near = replace(rudder.surface, rows=rudder.surface.rows | {row.name: replace(row, line_gap=Value(8 * MM))})
    (table,) = rivets(near, row.name, Alternatives(lines=(1, 2), edge=mm(7, 10))).rows
    assert table.possible.tolist() == [True, True, True, False]
    (alone,) = rivets(near, row.name, Alternatives(lines=(2,), edge=mm(10))).rows
    assert alone.reasons[alone.why[0]] == table.reasons[table.why[3]] != ""


def test_rivets_that_reach_beyond_the_web_lap_or_doubler(rudder):
    """20 mm apart, 3.3 mm holes: of the 45 mm at the top two rivets take 23.3 and three 43.3, four 63.3."""
    (table,) = rivets(rudder, "ribs_to_spar", Alternatives(count=(2, 3, 4, 50))).rows
    assert table.possible.tolist() == [True, True, False, False]
    assert table.reasons[table.why[3]] == (
        "50 rivets {length:0.02} apart reach over {length:0.98}; the spar is {length:0.045} deep at a rib"
    )
    (lap,) = rivets(rudder, "trailing_edge", Alternatives(lines=(4, 5))).rows  # of 14 mm, 13.2 and 16.5
    assert lap.possible.tolist() == [True, False]
    (doubler,) = rivets(rudder, "doubler_to_spar", Alternatives(lines=(2, 3))).rows  # of 50 mm, 37.3 and 71.3
    assert doubler.possible.tolist() == [True, False]
