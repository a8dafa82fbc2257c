"""Can it be set: walls beside rivets, tools by their dimensions, the side they are pulled from."""

from __future__ import annotations

import math
import re
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from surfacecheck.model import Face, FlangesPoint, RibFlangesPoint, RivetSet, Tool, YesNo
from surfacecheck.provenance import Value
from surfacecheck.reading import read, read_text, starting_file
from surfacecheck.rules import MOST_WEDGE
from surfacecheck.studies import Access, access, tool_needs, unreached
from surfacecheck.studies.bench._access import leaning
from surfacecheck.studies.bench._rib_walls import ELSEWHERE, LATER
from surfacecheck.studies.bench._wall import Wall

DATA = Path(__file__).parents[2] / "data"
MM = 1e-3


def tool(nose: float, long: float, body: float, *tips: float, name: str = "tool") -> Tool:
    values = [Value(one * MM) for one in (nose, long, body)]
    return Tool(*values, tips=tuple(Value(tip * MM, f"{tip} mm") for tip in tips or (3.2, 4.0)), name=name)


STRAIGHT, SLIM = tool(5.0, 12.0, 19.0, name="straight"), tool(4.0, 16.0, 9.0, name="slim")


@pytest.fixture(scope="module")
def rudder():
    return read(DATA / "rudder.toml")


def with_ribs(surface, *ups):
    """The same with its ribs elsewhere, in millimetres; every flange points up but that of the last."""
    every = tuple(Value(up * MM, f"{up} mm") for up in ups)
    points = (*(RibFlangesPoint.UP for _ in every[1:]), RibFlangesPoint.DOWN)
    return replace(
        surface, sheet=replace(surface.sheet, ribs=replace(surface.sheet.ribs, up=every, flanges_point=points))
    )


@pytest.fixture(scope="module")
def apart(rudder):
    """The demo with no rib near a bracket: 40 mm below the middle of each."""
    return with_ribs(rudder, 0, 50, 325, 520, 785, 970, 1100)


def found(surface, place):
    return {(one.side, one.numbers): one for one in access(surface, place)}


def only(surface, place):
    (one,) = access(surface, place)
    return one


def test_the_two_rivets_of_a_bracket_nearest_the_flange_want_a_slim_tool():
    """Common practice: six 4.0 mm rivets on a spar web; the two nearest the flange foul a straight puller.

    Three across by two along, 16 mm apart, off the middle of a web 64 mm deep: 12, 28 and 44 mm from the outer face of
    one flange, 52, 36 and 20 mm from the other; flanges of 18 mm, 0.8 mm thick, bent round 2.4 mm.
    """
    distance = np.array([12.0, 12.0, 28.0, 28.0, 44.0, 44.0]) * MM
    near = Wall("flange of the spar", "left", distance, 0.8 * MM, 2.4 * MM, 17.2 * MM)
    far = Wall("flange of the spar", "right", 64.0 * MM - distance, 0.8 * MM, 2.4 * MM, 17.2 * MM)
    straight, slim = (leaning((near, far), one, 6) for one in (STRAIGHT, SLIM))
    assert (straight > MOST_WEDGE).tolist() == [True, True, False, False, False, False]
    assert (straight[2:] == 0.0).all()
    assert np.isfinite(straight).all()
    assert (slim == 0.0).all()


def test_three_brackets_of_a_tapered_spar_get_three_answers(apart):
    """58.8, 52.1 and 46.0 mm deep at the far rivet, columns 10 mm off the middle: body 19 mm against what is left."""
    answers = [only(apart, f"hinge.{name}.bracket") for name in ("bottom", "middle", "top")]
    assert [one.outcome for one in answers] == [Access.WEDGE, Access.WEDGE, Access.OTHER]
    for one, up in zip(answers, (106.0, 576.0, 1026.0), strict=True):
        away = 0.5 * (60.0 - 15.0 * up / 1100.0) - 10.0
        assert one.distance == pytest.approx(away * MM)
        lean = math.degrees(math.atan((19.0 - (away - 0.8)) / 12.0))
        assert one.tools[0].degrees == math.ceil(lean)
        assert one.tools[1].outcome == Access.CLEAR
    assert answers[1].said == "needs a wedge of 18 degrees (puller); slim puller is clear"
    assert all(one.notes == (ELSEWHERE,) for one in answers)
    assert answers[2].said == "needs another tool: puller would lean 30 degrees; slim puller is clear"


def test_skins_are_pulled_from_outside(rudder):
    for place in ("left_skin_to_spar", "right_skin_to_ribs", "nose_skin_to_ribs", "trailing_edge"):
        one = only(rudder, f"row.{place}")
        assert (one.outcome, one.wall, one.whole) == (Access.CLEAR, "", True)
        assert one.said == "clear: nothing stands beside"
    assert only(rudder, "row.right_skin_to_ribs").side == "from the right"


def test_an_end_rib_that_turns_its_flanges_moves_the_side(rudder):
    """Common practice: rib 7 points down, so its rivets are reached from below; turned, they are with the others."""
    sides = {one.side: one.numbers for one in access(rudder, "row.ribs_to_spar")}
    assert sides == {"from behind, above the rib": tuple(range(1, 13)), "from behind, below the rib": (13, 14)}
    ribs = replace(rudder.sheet.ribs, flanges_point=(RibFlangesPoint.UP,) * 7)
    turned = replace(rudder, sheet=replace(rudder.sheet, ribs=ribs))
    assert only(turned, "row.ribs_to_spar").numbers == tuple(range(1, 15))


def test_a_horn_on_a_rib_is_free_on_the_side_without_flanges(rudder):
    """Rivets 20 mm off the middle of a wedge that is 60 (1 - 20/395) mm deep at the first pair."""
    sides = found(rudder, "horn")
    assert sides["from below", tuple(range(1, 9))].outcome == Access.CLEAR
    near = sides["from above", (1, 2, 3, 4)]
    assert near.distance == pytest.approx((30.0 * (1 - 40.0 / 395.0) - 20.0) * MM)
    assert near.outcome == Access.OTHER
    assert sides["from above", (5, 6, 7, 8)].outcome == Access.NOT_REACHED
    assert unreached(access(rudder, "horn")) == ()
    ways = (RibFlangesPoint.DOWN, *rudder.sheet.ribs.flanges_point[1:])
    turned = replace(rudder, sheet=replace(rudder.sheet, ribs=replace(rudder.sheet.ribs, flanges_point=ways)))
    sides = found(turned, "horn")
    assert sides["from below", (5, 6, 7, 8)].outcome == Access.NOT_REACHED
    assert {one.wall for one in access(turned, "horn") if one.side == "from above"} == {"web of the spar"}


def test_spar_rivets_pulled_from_inside_have_the_web_beside_them(rudder):
    """Heads on the spar: 18 - 7 = 11 mm from the outer face of the web, 0.8 mm thick: 19 - 10.2 over 12 leans 36."""
    row = replace(rudder.rows["left_skin_to_spar"], joins=("spar", "nose_skin", "left_skin"))
    one = only(replace(rudder, rows={"left_skin_to_spar": row}), "row.left_skin_to_spar")
    assert (one.side, one.wall) == ("from inside the spar", "web of the spar")
    assert one.distance == pytest.approx(11 * MM)
    assert [tool.degrees for tool in one.tools] == [37, 0]


def test_rib_rivets_pulled_from_inside_have_its_web_beside_them(rudder):
    row = replace(rudder.rows["left_skin_to_ribs"], joins=("ribs", "left_skin"))
    one = next(iter(access(replace(rudder, rows={"left_skin_to_ribs": row}), "row.left_skin_to_ribs")))
    assert (one.side, one.wall) == ("from inside, above the rib", "web of the rib")
    assert one.distance == pytest.approx(8 * MM)


@pytest.mark.parametrize("heads", [None, Face.AHEAD, Face.BEHIND])
@pytest.mark.parametrize("flanges", list(FlangesPoint))
def test_flanges_stand_where_they_point(apart, heads, flanges):
    plate = replace(apart.brackets["plate"], heads=heads, on_face=Face(flanges))
    spar = replace(apart.sheet.spar, flanges_point=flanges)
    surface = replace(apart, brackets={"plate": plate}, sheet=replace(apart.sheet, spar=spar))
    sides = {one.side: one for one in access(surface, "hinge.top.bracket")}
    assert set(sides) == {f"from {one}" for one in ([heads] if heads else Face)}
    for side, one in sides.items():
        if side == f"from {flanges}":
            assert one.missing == ("bracket.plate.legs_apart",)
        else:
            assert one.said.startswith("clear")
            assert LATER not in one.notes


def test_the_legs_of_a_bracket_are_walls_on_its_own_face(apart):
    """Two legs 48 mm apart, 3.2 mm thick, bent round 6 mm: the outer rivets, 16 mm off the middle, are 11.2 mm from
    the outer face of the next leg; a nose of 5 mm wants 3.2 + 5 + 6 = 14.2 mm."""
    plate = replace(apart.brackets["plate"], heads=Face.AHEAD, legs_apart=Value(48 * MM))
    sides = found(replace(apart, brackets={"plate": plate}), "hinge.top.bracket")
    outer = sides["from ahead", (1, 3, 4, 6)]
    assert outer.wall == "leg of the bracket"
    assert outer.distance == pytest.approx(11.2 * MM)
    assert outer.tools[0].lean == math.inf
    middle = sides["from ahead", (2, 5)]
    assert middle.distance == pytest.approx(27.2 * MM)
    assert middle.outcome == Access.CLEAR
    one_leg = replace(plate, legs=1)
    sides = found(replace(apart, brackets={"plate": one_leg}), "hinge.top.bracket")
    assert min(one.distance for one in sides.values()) == pytest.approx(1.6 * MM)
    outcomes = {one.numbers: one.outcome for one in sides.values()}
    assert outcomes[2, 5] == Access.NOT_REACHED
    assert outcomes[1, 3, 4, 6] == Access.OTHER


def test_a_rib_behind_a_bracket_is_a_wall_beside_its_rivets(rudder):
    """By hand: rivets of the bottom bracket at 74, 90 and 106 mm; rib at 85 mm, 0.5 mm thick, bent round 1.6 mm, up.

    At 74 the rib turns its back: 11 mm to it, 11.5 to its far face, no fillet; the body, 19 mm, leans over 12 mm by
    atan(8/12) = 33.7 degrees, the nose of 5 mm has room. At 90 its flange lies: 5 mm to its outer face, and the nose
    wants 0.5 + 5 + 1.6 = 7.1; the slim one 6.1. At 106: 21 mm away, the body has 20.5 and clears; the flange of the
    spar, 19.3 mm away, wants 3 degrees. Turned down, the rib has its web from 84.5 to 85 mm and its fillet below.
    """
    sides = found(with_ribs(rudder, 0, 85, 1100), "hinge.bottom.bracket")
    below, at, above = (sides["from behind", numbers] for numbers in ((1, 4), (2, 5), (3, 6)))
    assert [one.wall for one in (below, at, above)] == ["web of the rib", "web of the rib", "flange of the spar"]
    assert [one.distance for one in (below, at)] == pytest.approx([11.5 * MM, 5.0 * MM])
    assert math.degrees(below.tools[0].lean) == pytest.approx(math.degrees(math.atan(8.0 / 12.0)))
    assert (below.outcome, at.outcome, above.outcome) == (Access.OTHER, Access.NOT_REACHED, Access.WEDGE)
    assert above.tools[0].degrees == 3
    assert (below.notes, above.notes) == ((LATER,), ())


def test_the_fillet_of_a_rib_is_on_its_flanges_side_alone(rudder):
    """A nose of 5 mm at 6.3 mm from the near face: 1.3 mm of air will do at the back, the fillet of 1.6 mm will not."""
    bottom = "hinge.bottom.bracket"
    behind = found(with_ribs(rudder, 0, 96.3, 1100), bottom)["from behind", (2, 5)]
    assert behind.distance == pytest.approx(6.8 * MM)
    assert math.isfinite(behind.tools[0].lean)
    before = found(with_ribs(rudder, 0, 83.2, 1100), bottom)["from behind", (2, 5)]
    assert before.distance == pytest.approx(6.8 * MM)
    assert before.tools[0].lean == math.inf


def test_a_rib_that_turns_its_flange_down_has_its_web_below_its_face(rudder):
    """The topmost rib points down: its web is from 99.5 to 100 mm, and the rivet at 106 is 6.5 mm from its far face."""
    surface = with_ribs(rudder, 0, 100)
    above = found(surface, "hinge.bottom.bracket")["from behind", (3, 6)]
    assert above.distance == pytest.approx(6.5 * MM)
    assert surface.sheet.ribs.flanges_point[1] is RibFlangesPoint.DOWN


def test_a_rib_at_the_middle_of_the_demos_brackets_stands_on_two_rivets_of_each(rudder):
    """Its ribs are at 90, 560 and 1010 mm, as rivets 2 and 5 are; from ahead nobody knows: legs_apart is not given."""
    expected = tuple(
        f"hinge.{name}.bracket.rivet-{number}" for name in ("bottom", "middle", "top") for number in (2, 5)
    )
    assert unreached(access(rudder)) == expected
    plate = replace(rudder.brackets["plate"], heads=None)
    assert unreached(access(replace(rudder, brackets={"plate": plate}))) == ()


def test_walls_on_either_side_of_a_rivet_between_two_ribs(rudder):
    """Ribs 15 mm below and above: a body of 19 mm would have to lean both ways."""
    between = found(with_ribs(rudder, 0, 75, 105, 1100), "hinge.bottom.bracket")
    assert between["from behind", (2, 5)].tools[0].lean == math.inf
    assert between["from behind", (2, 5)].tools[1].outcome == Access.CLEAR


@pytest.mark.parametrize("key", ["thickness", "bend_inside", "flanges_point", "up"])
def test_what_hides_the_rib_behind_is_named_where_there_is_one(rudder, key):
    unknown = {"flanges_point": (), "up": (*rudder.sheet.ribs.up[:-1], Value(None))}.get(key, Value(None))
    surface = replace(rudder, sheet=replace(rudder.sheet, ribs=replace(rudder.sheet.ribs, **{key: unknown})))
    one = only(surface, "hinge.top.bracket")
    assert one.said == f"not given: sheet.ribs.{key}"
    top = replace(rudder.hinges["top"], rib_behind=YesNo.NO)
    assert only(replace(surface, hinges=rudder.hinges | {"top": top}), "hinge.top.bracket").missing == ()


def test_without_a_tool_nothing_is_told_but_what_stands_free(apart):
    bare = replace(apart, tools={})
    assert only(bare, "hinge.top.bracket").outcome == Access.NOT_GIVEN
    assert "no [tool]" in only(bare, "hinge.top.bracket").said
    assert only(bare, "row.trailing_edge").outcome == Access.CLEAR


def test_the_tip_must_match_the_rivet(apart):
    tools = {"a": tool(5.0, 12.0, 19.0, 3.2, name="a"), "b": tool(4.0, 16.0, 9.0, 4.0, name="b")}
    surface = replace(apart, tools=tools)
    assert [one.tool for one in only(surface, "hinge.top.bracket").tools] == ["b"]
    assert {one.tool for reach in access(surface, "row.ribs_to_spar") for one in reach.tools} == {"a"}
    inch = replace(apart, tools={"b": tool(4.0, 16.0, 9.0, 3.96875, name="b")})
    assert [one.tool for one in only(inch, "hinge.top.bracket").tools] == ["b"]


@pytest.mark.parametrize("key", ["nose_radius", "nose_long", "body_radius", "tips"])
def test_a_tool_without_a_dimension_is_left_out_and_named(apart, key):
    whole = apart.tools["puller"]
    half = replace(whole, **{key: () if key == "tips" else Value(None)})
    assert tool_needs(half) == (f"tool.puller.{key}",)
    surface = replace(apart, tools={"puller": half, "slim_puller": apart.tools["slim_puller"]})
    assert [one.tool for one in only(surface, "hinge.top.bracket").tools] == ["slim_puller"]


def test_what_hides_the_answer_is_named():
    text = (DATA / "rudder.toml").read_text(encoding="utf-8")
    text = text.replace('bend_inside = "2.4 mm (drawing)"', 'bend_inside = "?"')
    one = only(read_text(text), "hinge.top.bracket")
    assert one.said == "not given: sheet.spar.bend_inside"
    shallow = re.sub(r', spar_depth = "[^"]*"', "", (DATA / "rudder.toml").read_text(encoding="utf-8"))
    assert only(read_text(shallow), "hinge.top.bracket").missing == ("outline.at.spar_depth",)


def test_solid_rivets_are_not_looked_at(apart):
    solid = replace(apart, rivets=apart.rivets | {"large": replace(apart.rivets["large"], set=RivetSet.SOLID)})
    one = only(solid, "hinge.top.bracket")
    assert one.outcome == Access.NOT_LOOKED_AT
    assert "driven from both sides" in one.said


def test_walls_on_either_side_leave_no_way_to_lean():
    distance = np.array([12.0]) * MM
    left, right = (Wall("leg", side, distance, 1 * MM, 1 * MM) for side in ("up", "down"))
    other = Wall("web", "ahead", distance, 1 * MM, 1 * MM)
    assert 0.0 < leaning((left,), STRAIGHT, 1)[0] < math.inf
    assert leaning((left, other), STRAIGHT, 1)[0] == leaning((left,), STRAIGHT, 1)[0]
    assert leaning((left, right), STRAIGHT, 1)[0] == math.inf


@given(
    st.lists(st.floats(0.1, 60.0), min_size=1, max_size=8), st.floats(2.0, 15.0), st.floats(5.0, 60.0),
    st.floats(5.0, 40.0),
)  # fmt: skip
def test_a_slimmer_tool_never_leans_more(away, nose, long, body):
    wall = Wall("wall", "left", np.array(away) * MM, 0.8 * MM, 2.0 * MM)
    fat = leaning((wall,), tool(nose, long, body), len(away))
    slim = leaning((wall,), tool(0.8 * nose, long, 0.8 * body), len(away))
    assert (slim <= fat).all()
    assert not np.isnan(fat).any()
    assert ((fat == 0.0) <= (slim == 0.0)).all()


@pytest.mark.parametrize("kind", ["rudder", "aileron"])
def test_half_filled_files(kind):
    empty = read_text(starting_file(kind, "none" if kind == "rudder" else "right"))
    assert access(empty) == ()
    text = (DATA / "rudder.toml").read_text(encoding="utf-8")
    part_a_and_b = read_text(text[: text.index("# ---- C  MICROMETER")])
    assert all(one.outcome in {Access.NOT_GIVEN, Access.CLEAR} for one in access(part_a_and_b))
