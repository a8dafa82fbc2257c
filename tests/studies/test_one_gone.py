"""One gone at a time: statics by hand, what a mechanism is, what neighbours get, words and numbers."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

from surfacecheck.assessment import assess
from surfacecheck.checks import Outcome, bay_edges
from surfacecheck.model import YesNo
from surfacecheck.reading import read, read_text
from surfacecheck.studies import gone_data, gone_headline, gone_table, one_gone, survey_group
from surfacecheck.studies.losing._gone_parts import hinges_before, without_hinge, without_rib

DATA = Path(__file__).parents[2] / "data"
WORDS = {Outcome.CARRIES, Outcome.LESS, Outcome.OUTSIDE, Outcome.DEPENDS, Outcome.NOT_GIVEN}
FOUR = """
based_on = "rudder.toml"
title = "a fourth hinge"
[hinge.third]
same_as = "middle"
up = "800 mm (tape)"
"""

BARE = """
form = 1
kind = "rudder"
half = "none"
[load]
pressure = "1.2 kPa"
over = "behind pins"
level = "limit"
begins_at = "pins"
fades_aft = ["even"]
[outline]
at = [
  { up = "0 mm", edge_behind = "420 mm" },
  { up = "1100 mm", edge_behind = "300 mm" },
]
[hinge.low]
up = "90 mm"
[hinge.mid]
up = "500 mm"
[hinge.top]
up = "1010 mm"
"""


@pytest.fixture(scope="module")
def rudder():
    return assess(read(DATA / "rudder.toml"))


@pytest.fixture(scope="module")
def gone(rudder):
    return one_gone(rudder)


@pytest.fixture(scope="module")
def flat():
    return one_gone(assess(read(DATA / "elevator.toml")))


def item(found, name):
    return next(one for one in found.items if one.name == name)


def test_everything_is_taken_away_once(gone, flat):
    assert [len(gone.of(kind)) for kind in ("hinge", "rib", "bracket", "horn")] == [3, 7, 18, 8]
    assert [len(flat.of(kind)) for kind in ("hinge", "rib", "bracket", "horn")] == [2, 7, 12, 6]
    for found in (gone, flat):
        names = [one.name for one in found.items]
        assert len(set(names)) == len(names)
        assert {one.outcome for one in found.items} <= WORDS
        assert found.left_out == ()


def test_two_hinges_left_by_statics(rudder):
    """The middle one's load goes to the outer two by the lever rule, in both planes, in every case."""
    left = without_hinge(rudder, "middle")
    assert left.case_titles == rudder.case_titles
    low, middle, high = rudder.span.breaks[list(rudder.span.hinges.values())]
    share = np.array([(high - middle) / (high - low), (middle - low) / (high - low)])
    R = rudder.beam.reactions
    for axis in (0, 2):
        by_hand = R[:, [0, 2], axis] + R[:, [1], axis] * share
        assert left.beam.reactions[..., axis] == pytest.approx(by_hand, abs=1e-8 * np.abs(R).max())


def test_growth_of_a_pin_is_that_of_its_worst_load(rudder, gone):
    one = item(gone, "hinge.middle")
    left = without_hinge(rudder, "middle")
    before, after = (np.sqrt((a.beam.reactions**2).sum(axis=-1)).max(axis=0) for a in (rudder, left))
    assert one.growth.what == "top pin"
    assert (one.growth.before, one.growth.after) == pytest.approx((before[2], after[1]))
    assert one.growth.times == pytest.approx(max(after[0] / before[0], after[1] / before[2]))


def test_opening_and_weight_stay(rudder):
    left = without_hinge(rudder, "middle")
    assert np.array_equal(left.span.nose_closed, rudder.span.nose_closed)
    assert left.masses is rudder.masses
    fewer = assess(replace(left.surface))  # laid out anew: the nose closes where the hinge was
    assert fewer.span.nose_closed.mean() > left.span.nose_closed.mean()


def test_a_mechanism_says_so(flat):
    for name in ("hinge.inner", "hinge.outer"):
        one = item(flat, name)
        assert one.free == "turns: one hinge alone does not hold it, a mechanism"
        assert (one.lowest, one.outcome) == (None, Outcome.OUTSIDE)


def test_the_only_thrust_face_says_so(rudder, gone):
    """Only the bottom hinge stops the surface sliding along the pins; with a second one nothing is free."""
    assert item(gone, "hinge.bottom").free == "slides along the pins: no other hinge stops it"
    assert item(gone, "hinge.middle").free == ""
    hinges = dict(rudder.surface.hinges)
    hinges["top"] = replace(hinges["top"], takes_along=YesNo.YES)
    both = assess(replace(rudder.surface, hinges=hinges))
    assert item(one_gone(both), "hinge.bottom").free == ""


def test_four_hinges_leave_three():
    found = one_gone(assess(read_text(FOUR, "four.toml", DATA)))
    assert len(found.of("hinge")) == 4
    assert all(one.margin is not None for one in found.of("hinge"))
    assert item(found, "hinge.third").growth.times < 3.0


def test_a_fin_given_by_a_matrix_loses_its_line_and_column(rudder):
    text = (DATA / "rudder.toml").read_text(encoding="utf-8")
    cells = [["1.0 mm/kN", "0.5 mm/kN", "0.2 mm/kN"], ["0.5 mm/kN", "2.0 mm/kN", "0.9 mm/kN"],
             ["0.2 mm/kN", "0.9 mm/kN", "3.0 mm/kN"]]  # fmt: skip
    moves = "[" + ", ".join("[" + ", ".join(f'"{v}"' for v in row) + "]" for row in cells) + "]"
    changed = text.replace('bending_stiffness = "?"', f"moves = {moves}")
    left = without_hinge(assess(read_text(changed, "fin.toml", DATA)), "middle")
    kept = left.beam.supports.compliance[:2, :2]
    assert kept == pytest.approx(1e-6 * np.array([[1.0, 0.2], [0.2, 3.0]]))


def test_a_rib_hands_nothing_over_and_its_neighbours_take_it(rudder):
    left = without_rib(rudder, 2)
    before, after = rudder.effects.rib_load, left.effects.rib_load
    assert after.shape[1] == before.shape[1] - 1
    assert after.sum(axis=-1) == pytest.approx(before.sum(axis=-1), abs=1e-9 * np.abs(before).max())
    assert np.abs(after[:, [0, 3, 4, 5]] - before[:, [0, 4, 5, 6]]).max() < 1e-9 * np.abs(before).max()
    by_ribs = rudder.effects.by_ribs
    assert (np.abs(after[by_ribs][:, [1, 2]]) >= np.abs(before[by_ribs][:, [1, 3]]) - 1e-9).all()
    row = next(load for load in left.rows if load.row.name == "left_skin_to_ribs")
    assert row.shear.shape[-1] == 6


def test_the_panels_beside_a_rib_are_one(rudder, gone):
    left = without_rib(rudder, 2)
    low, high = bay_edges(left.effects)
    at = left.effects.span.y == rudder.span.breaks[rudder.span.ribs[2]]
    assert set(zip(low[at], high[at], strict=True)) == {(0.09, 0.56)}
    was, now = (next(f.margin for f in a.statements if f.check.place == "panel.left_skin") for a in (rudder, left))
    assert now < was


def test_a_rib_behind_a_bracket_leaves_the_web_bare(rudder, gone):
    assert [hinges_before(rudder.surface, i) for i in (1, 3, 5, 2)] == [("bottom",), ("middle",), ("top",), ()]
    one = item(gone, "rib-4")
    assert one.here.check.place == "hinge.middle.bracket.web"
    assert one.outcome == Outcome.OUTSIDE
    assert one.notes == ("then no rib stands behind the middle bracket",)


def test_the_horn_rib_has_no_substitute(gone):
    one = item(gone, "rib-1")
    assert [f.name for f in one.lost] == ["horn.path:no-rib"]
    assert one.outcome == Outcome.OUTSIDE


def test_ribs_keep_their_numbers(gone):
    """Rib 7 gone: its neighbour is rib 6, as in the file; rib 1 gone: ribs move up one and are named back."""
    assert "rib 6 at 1010 mm" in item(gone, "rib-7").here.part
    for one in gone.of("rib"):
        for found in (one.lowest, one.here):
            if "rib " in found.part:
                number, place = found.part.split("rib ")[1].split(" at ")
                assert place == item(gone, f"rib-{number}").part.split(" at ")[1]


def test_rivets_are_those_of_the_survey(rudder, gone):
    for name in ("hinge.top.bracket", "horn"):
        survey = {one.out: one for one in survey_group(rudder, name).of(1)}
        for n in range(1, 7):
            one = item(gone, f"{name}.rivet-{n}")
            assert one.here.margin == survey[(n,)].margin
            assert one.lowest.margin == min(survey[(n,)].margin, rudder.margins[0].margin)


def test_nothing_is_better_than_as_drawn_at_the_hinges(rudder, gone):
    for one in gone.of("hinge"):
        assert one.margin < rudder.margins[0].margin


def test_unknown_strengths_are_turned_round(rudder, gone):
    """The small rivets have no strength by the file: what each must be good for grows when a rib is gone."""
    asks = [one.asks for one in gone.of("rib") if one.asks is not None]
    assert {one.what for one in asks} <= {"rivet.small.shear", "rivet.small.pull"}
    assert all(one.after > one.before for one in asks)


def test_half_filled_surfaces_give_half_the_answers():
    text = (DATA / "rudder.toml").read_text(encoding="utf-8")
    no_sheet = one_gone(assess(read_text(text.replace('thickness = "0.80 mm (micrometer)"', 'thickness = "?"'))))
    assert len(no_sheet.of("hinge")) == 3
    assert no_sheet.of("rib") == ()
    assert any("sheet of spar and skins" in one for one in no_sheet.left_out)
    assert item(no_sheet, "hinge.middle").growth is not None
    loaded = read_text(BARE)
    found = one_gone(assess(loaded))
    assert [one.margin for one in found.items] == [None] * 3
    assert all(one.growth.times > 1.0 for one in found.items)
    assert "not given" in str(found) or "No margin" not in str(found)


def test_text_and_data(gone, flat):
    for found in (gone, flat):
        text = str(found)
        assert text.isascii()
        assert max(map(len, text.split("\n"))) <= 80
        assert "No flight on the strength" in text
        assert len(gone_table(found).rows) == len(found.items)
        assert "<table>" in found._repr_html_()
    data = gone_data(gone)
    assert len(data["items"]) == 36
    assert data["items"][1]["lowest"]["margin"] == item(gone, "hinge.middle").margin
    headline = gone_headline(gone)
    assert headline.startswith("36 taken away, one at a time. As drawn: lowest +0.10")
    assert "Less than required without middle hinge; top hinge." in headline
    assert "Not held without bottom hinge." in headline


def test_every_step_is_watched(rudder):
    seen = []

    def watch(steps):
        for step in steps:
            seen.append(step)
            yield step

    found = one_gone(rudder, watch)
    assert len(seen) == 3 + 7 + 3 + 1
    assert len(found.items) == 36
