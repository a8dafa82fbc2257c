"""Rivets out of a row or a group: bounds, springs, gaps, margins, the survey against single studies."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

from surfacecheck.assessment import assess
from surfacecheck.errors import SurfaceError
from surfacecheck.model import Apart
from surfacecheck.provenance import Value
from surfacecheck.reading import read
from surfacecheck.statics import seam_row, tributary_lengths
from surfacecheck.strength.flexibility import huth, swift
from surfacecheck.studies import (
    group_of,
    missing_data,
    missing_group,
    missing_row,
    neighbour_table,
    survey_group,
    survey_row,
)
from surfacecheck.studies.losing._rivet_group import without

DATA = Path(__file__).parents[2] / "data"


@pytest.fixture(scope="module")
def rudder():
    return assess(read(DATA / "rudder.toml"))


@pytest.fixture(scope="module")
def elevator():
    return assess(read(DATA / "elevator.toml"))


@pytest.fixture(scope="module")
def spar_row(rudder):
    """All singles and pairs of 43 rivets; once, it is a thousand rows solved."""
    return survey_row(rudder, "left_skin_to_spar")


def beside(study, number):
    return next(one for one in study.neighbours if one.number == number)


@pytest.mark.parametrize(
    ("out", "growth"),
    [
        ((20,), {19: 1.5, 21: 1.5}),
        ((20, 21), {19: 2.0, 22: 2.0}),
        ((20, 21, 22), {19: 2.5, 23: 2.5}),
        ((20, 22), {19: 1.5, 21: 2.0, 23: 1.5}),
        ((1,), {2: 2.0}),
        ((43, 42), {41: 3.0}),
    ],
)
def test_bound_halves_every_gap(rudder, out, growth):
    """1 + k/2 beside k rivets; at the end of a row all of the gap goes to one side."""
    study = missing_row(rudder, "trailing_edge", out)
    found = {one.number: one.bound.growth for one in study.neighbours if one.bound.growth > 1.0}
    assert found == pytest.approx(growth, rel=1e-12)


def test_springs_are_those_of_the_formulas(rudder):
    """Two skins of 0.5 mm, 3.2 mm rivets of the same metal, strips one pitch wide: the kernel by hand."""
    study = missing_row(rudder, "row.trailing_edge", [20, 21])
    E = 10.5e6 * 6894.757293168
    assert study.springs.k_A == pytest.approx(E * 0.5e-3, rel=1e-9)
    for one, formula in ((0, huth), (1, swift)):
        C = float(formula(0.5e-3, 0.5e-3, 3.2e-3, E, E, E))
        assert study.springs.C[one] == pytest.approx(C, rel=1e-12)
        k = np.full(43, 1 / C)
        k[[19, 20]] = 0.0
        factor = seam_row(k, E * 0.5e-3, E * 0.5e-3, 1.0, 25e-3).factor
        for number in (19, 22):
            assert beside(study, number).springs[one].growth == pytest.approx(factor[number - 1], rel=1e-9)


def test_springs_stay_below_the_bound_and_differ(rudder):
    study = missing_row(rudder, "left_skin_to_spar", [12])
    for number in (11, 13):
        one = beside(study, number)
        growths = [s.growth for s in one.springs]
        assert len(growths) == 4
        assert 1.1 < min(growths) < max(growths) < one.bound.growth == 1.5


def test_loads_are_flow_times_length(rudder):
    """The load as drawn is the assessment's; by the bound the largest of gap and both ends times 1.5."""
    study = missing_row(rudder, "trailing_edge", [20])
    one = beside(study, 19)
    load = study.line.load
    y, at = load.effects.span.y, 0.02 + np.arange(18, 21) * load.plan.pitch
    flow = np.array([np.interp(at, y, case) for case in load.flow])
    assert one.drawn.shear == pytest.approx(flow[:, 0].max() * load.plan.pitch, rel=2e-3)
    assert one.bound.shear == pytest.approx(1.5 * flow.max() * load.plan.pitch, rel=2e-3)


def test_margin_of_a_rib_row_falls_as_the_load_grows(rudder):
    """Skin on both sides and the sheet is crushed by shear alone: 1 + margin goes as 1 over the load."""
    for one in missing_row(rudder, "left_skin_to_ribs.rib-2", [3]).neighbours:
        assert one.drawn.gives == "left skin crushes"
        for s in one.shared:
            assert (1 + one.drawn.margin) / (1 + s.margin) == pytest.approx(s.growth, rel=1e-12)
            assert s.asks == pytest.approx(1.725 * s.shear, rel=1e-12)


def test_the_rib_where_the_skin_ends_asks_for_its_wrinkles_too(rudder):
    """5054.0 N/m on a skin that wrinkles at 5758.6 N/m, 1.725 times: 1 + 0.414 tanh(0.5 log10 1.51395) = 1.03718."""
    neighbours = missing_row(rudder, "left_skin_to_ribs.rib-1", [3]).neighbours
    assert neighbours
    for one in neighbours:
        for s in one.shared:
            assert s.asks == pytest.approx(1.03718 * 1.725 * s.shear, rel=1e-5)


def test_margins_as_drawn_are_those_of_the_assessment(rudder, elevator, spar_row):
    """The row's lowest, taken at the rivets instead of the stations."""
    surveys = [(rudder, spar_row), (rudder, survey_row(rudder, "ribs_to_spar"))]
    surveys.append((elevator, survey_row(elevator, "top_skin_to_ribs")))
    for assessment, survey in surveys:
        lowest = next(f.margin for f in assessment.margins if f.check.place == survey.place)
        assert survey.drawn == pytest.approx(lowest, rel=0.02)


def test_gap_of_the_sheet(rudder):
    """Free length twice and three times, a quarter and a ninth of the stress; as drawn the number of the assessment."""
    statement = next(f for f in rudder.statements if f.name.startswith("row.left_skin_to_spar"))
    for out, times in (((12,), 2), ((12, 13), 3)):
        (gap,) = missing_row(rudder, "left_skin_to_spar", out).gaps
        assert (gap.before, gap.after) == (11, 11 + times)
        assert gap.length == pytest.approx(times * gap.pitch)
        assert gap.ratio == pytest.approx(1 / times**2)
        assert gap.drawn == pytest.approx(statement.available, rel=1e-12)
        assert gap.buckles == pytest.approx(gap.drawn / times**2, rel=1e-12)
        assert gap.share == pytest.approx(gap.buckles / gap.pressed, rel=1e-12)
    assert 0.0 < gap.pressed <= statement.required * (1 + 1e-12)
    (end,) = missing_row(rudder, "left_skin_to_spar", [1]).gaps
    assert (end.before, end.after, end.buckles) == (None, 2, None)


def test_two_gaps_and_a_rivet_between(rudder):
    study = missing_row(rudder, "trailing_edge", [20, 22])
    assert [(gap.before, gap.after) for gap in study.gaps] == [(19, 21), (21, 23)]


def test_other_path_is_named(rudder):
    (path,) = missing_row(rudder, "left_skin_to_spar", [12]).others
    assert path.rows == ("left_skin_to_ribs", "ribs_to_spar")
    assert path.lowest.check.place in {"row.left_skin_to_ribs", "row.ribs_to_spar"}
    (path,) = missing_row(rudder, "ribs_to_spar.rib-2", [1]).others
    assert {"left_skin_to_ribs", "left_skin_to_spar"} <= set(path.rows)
    assert missing_row(rudder, "trailing_edge", [12]).others == ()


def test_two_of_a_rib_share_its_force(rudder):
    study = missing_row(rudder, "row.ribs_to_spar.rib-2", [1])
    (one,) = study.neighbours
    assert (one.number, one.bound.growth) == (2, 2.0)
    assert study.line.part == "ribs to spar, rib 2 at 90 mm"
    assert study.gaps == ()


def test_one_of_two_side_by_side(rudder):
    """Rivets 3 and 10 stand beside each other: the other one takes all there is at most, no gap opens."""
    study = missing_row(rudder, "doubler_to_spar", [3])
    assert beside(study, 10).bound.growth == 2.0
    assert study.gaps == ()
    assert missing_row(rudder, "doubler_to_spar", [3, 10]).gaps[0].length == pytest.approx(0.06)


def test_survey_of_a_row_is_its_single_studies(rudder, spar_row):
    """Singles and pairs, side by side and apart, against the study that takes them one by one."""
    survey = spar_row
    assert (len(survey.of(1)), len(survey.of(2))) == (43, 43 * 42 // 2)
    by_out = {one.out: one for one in survey.removals}
    for out in ((1,), (2,), (20,), (43,), (1, 2), (3, 5), (12, 13), (7, 30), (42, 43)):
        study, one = missing_row(rudder, "left_skin_to_spar", out), by_out[out]
        every = [s for n in study.neighbours for s in n.shared]
        assert one.margin == pytest.approx(min(s.margin for s in every), rel=1e-9)
        assert one.load == pytest.approx(max(s.shear for s in every), rel=1e-9)
        assert one.asks == pytest.approx(max(s.asks for s in every), rel=1e-9)
        assert one.growth[2] == pytest.approx(max(n.bound.growth for n in study.neighbours), rel=1e-12)
        at = beside(study, one.at)
        assert min(s.margin for s in at.shared) == pytest.approx(one.margin, rel=1e-9)


def test_survey_ranks_the_worst_first(spar_row):
    survey = spar_row
    for size in (1, 2):
        margins = [one.margin for one in survey.of(size)]
        assert margins == sorted(margins)
    assert survey.of(2)[0].margin < survey.of(1)[0].margin < survey.drawn


def test_pairs_of_a_rib_row_stay_on_a_rib(rudder):
    survey = survey_row(rudder, "ribs_to_spar")
    assert len(survey.of(1)) == 14
    assert sorted((one.rib, one.out) for one in survey.of(2)) == [(rib, (1, 2)) for rib in range(1, 8)]
    assert not any(one.holds for one in survey.of(2))
    alone = survey_row(rudder, "ribs_to_spar.rib-3")
    assert (alone.place, alone.rivets, len(alone.removals)) == ("row.ribs_to_spar.rib-3", 2, 3)


def test_group_without_rivets_keeps_its_balance(rudder):
    """What is left passes on the same force and the same couple."""
    group = group_of(rudder, "hinge.middle.bracket")
    load = group.load
    left = without(group, (2, 3))
    assert left.shear[:, [1, 2]].max() == left.pull[:, [1, 2]].max() == 0.0
    assert group.part == "middle hinge, bracket"
    drawn = without(group, ())
    assert np.array_equal(drawn.shear, load.shear)
    assert np.array_equal(drawn.pull, load.tension)
    assert drawn.lowest.margin == next(f.margin for f in rudder.margins if f.check.place == group.place)


def test_survey_of_a_group_is_its_single_studies(elevator):
    survey = survey_group(elevator, "horn")
    assert (len(survey.of(1)), len(survey.of(2))) == (6, 15)
    for one in (survey.of(1)[0], survey.of(2)[0], survey.of(2)[-1]):
        study = missing_group(elevator, "horn", one.out)
        assert study.now.lowest.margin == one.margin
        assert max(r.shear for r in study.rivets) == one.load
        assert survey.capacity(one) == pytest.approx((1 + one.margin) / (1 + survey.drawn))
    assert survey.short


def test_a_rivet_that_holds_nothing_already_is_one_out(rudder):
    """``apart`` says that rivet 2 holds nothing: taking out 3 as well is taking out both."""
    nothing = Apart(holds=Value(0.0, "holds nothing"))
    surface = replace(rudder.surface, apart={"hinge.middle.bracket.rivet-2": nothing})
    changed = replace(rudder, surface=surface, fittings=replace(rudder.fittings, surface=surface))
    group, plain = group_of(changed, "hinge.middle.bracket"), group_of(rudder, "hinge.middle.bracket")
    assert np.array_equal(without(group, (3,)).shear, without(plain, (2, 3)).shear)


def test_elastic_capacity_of_a_group_can_rise(rudder):
    """Two lines close together at 0, 1, 10 (cm), load at 0.5: 364/191; without the far two 2 of each line."""
    group = group_of(rudder, "hinge.middle.bracket")
    a, b = np.array([0.0, 0.01, 0.1] * 2), np.repeat([-1e-7, 1e-7], 3)
    force = np.array([[0.0, 0.0, 1000.0]])
    load = replace(group.load, a=a, b=b, force=force, offset=np.array([0.0, 0.005, 0.0]))
    effects = group.effects.only(np.arange(len(group.effects.cases)) == 0)
    odd = replace(group, load=load, effects=effects)
    drawn, left = without(odd, ()), without(odd, (3, 6))
    rise = drawn.shear.max() / left.shear.max()
    assert rise == pytest.approx(2.0 / (364 / 191), rel=1e-6)
    assert rise > 1.04


def test_what_is_left_in_one_line_holds_no_couple(rudder):
    study = missing_group(rudder, "hinge.middle.bracket", [1, 2, 3])
    assert study.now is None
    assert study.rivets == ()
    assert "outside the method: ask" in str(study)


@pytest.mark.parametrize(
    ("row", "out", "says"),
    [
        ("trailing_edge", [99], "has rivets 1 to 43; there is no rivet 99"),
        ("trailing_edge", [0], "there is no rivet 0"),
        ("trailing_edge", [], "no rivet is named"),
        ("trailing_edge", range(1, 44), "all 43 rivets are out"),
        ("ribs_to_spar.rib-1", [1, 2], "row.ribs_to_spar.rib-1: all 2 rivets are out, so that nothing holds it"),
        ("ribs_to_spar", [1], "lies on 7 ribs, say which: such as row.ribs_to_spar.rib-4"),
        ("ribs_to_spar.rib-9", [1], "there is no rib 9"),
        ("trailing_edge.rib-2", [1], "runs along the pins and not on ribs"),
        ("trailing_egde", [1], 'no row is called "trailing_egde". Nearest: trailing_edge'),
    ],
)
def test_rows_that_cannot_be(rudder, row, out, says):
    with pytest.raises(SurfaceError) as error:
        missing_row(rudder, row, out)
    assert says in str(error.value)
    assert "\n" not in str(error.value)


@pytest.mark.parametrize(
    ("name", "out", "says"),
    [
        ("hinge.midle", [1], "Nearest: hinge.middle.bracket"),
        ("hinge.middle.bracket", [7], "has rivets 1 to 6; there is no rivet 7"),
        ("horn", range(1, 9), "all 8 rivets are out"),
    ],
)
def test_groups_that_cannot_be(rudder, name, out, says):
    with pytest.raises(SurfaceError, match="rivet") as error:
        missing_group(rudder, name, out)
    assert says in str(error.value)


def test_texts_fit_and_data_have_the_numbers(rudder, elevator, spar_row):
    studies = [
        missing_row(rudder, "left_skin_to_spar", [12]),
        missing_row(rudder, "left skin to ribs, rib 3", [7, 8]),
        missing_group(elevator, "horn", [2]),
        spar_row,
        survey_group(rudder, "hinge.top.bracket"),
    ]
    for study in studies:
        for system in ("metric", "inch"):
            text = study.text(system)
            assert text.isascii()
            assert max(map(len, text.split("\n"))) <= 80
            assert "No flight on the strength" in text
        assert "<script" not in study._repr_html_()
    data = missing_data(studies[0])
    assert data["gaps"][0]["share_of_limit"] == studies[0].gaps[0].share
    assert data["neighbours"][0]["number"] == studies[0].neighbours[0].number
    assert len(missing_data(studies[3])["removals"]) == 946
    table = neighbour_table(studies[0])
    assert [row[0].split()[0] for row in table.rows] == [str(one.number) for one in studies[0].neighbours]


def test_bound_by_lengths(rudder):
    """Any rivets out: the bound is what halving every gap gives."""
    out = [4, 5, 9, 30, 31, 32]
    there = ~np.isin(np.arange(1, 44), out)
    expected = tributary_lengths(there, 1.0)
    for one in missing_row(rudder, "trailing_edge", out).neighbours:
        assert one.bound.growth == pytest.approx(expected[one.number - 1], rel=1e-12)
