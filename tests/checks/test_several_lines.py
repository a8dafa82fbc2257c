"""Two lines of rivets side by side in one row: what halves, what does not, what is lost to the holes."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

import surfacecheck
from surfacecheck.checks import row_load
from surfacecheck.model import Apart
from surfacecheck.provenance import Value
from surfacecheck.reading import read_text
from surfacecheck.studies import missing_row

DATA = Path(__file__).parents[2] / "data"
ROWS = ("left_skin_to_spar", "left_skin_to_ribs", "nose_skin_to_ribs", "ribs_to_spar", "trailing_edge")


def in_lines(**lines):
    """Read the demo rudder with strengths of its rivets, and so many lines in some rows."""
    text = (DATA / "rudder.toml").read_text(encoding="utf-8")
    text = text.replace('shear = "?"              # one rivet', 'shear = "750 N"').replace(
        'pull = "?"', 'pull = "900 N"', 1
    )
    surface = read_text(text, "rudder.toml", DATA)
    rows = {name: replace(row, lines=lines.get(name, row.lines)) for name, row in surface.rows.items()}
    return replace(surface, rows=rows)


@pytest.fixture(scope="module")
def single():
    return surfacecheck.assess(in_lines())


@pytest.fixture(scope="module")
def double():
    return surfacecheck.assess(in_lines(**dict.fromkeys(ROWS, 2)))


def margin(assessment, place, mode):
    return min(f.margin for f in assessment.margins if f.check.place == place and f.check.mode == mode)


def load_of(assessment, row):
    return next(load for load in assessment.rows if load.row.name == row)


@pytest.mark.parametrize(
    ("row", "sheet"), [("left_skin_to_spar", one) for one in ("left_skin", "nose_skin", "spar")]
    + [("trailing_edge", one) for one in ("left_skin", "right_skin")],
)  # fmt: skip
def test_between_the_holes_of_the_first_line_the_whole_flow_passes(single, double, row, sheet):
    place, mode = f"row.{row}", f"{sheet}-between-holes"
    assert margin(double, place, mode) == pytest.approx(margin(single, place, mode), rel=1e-3)  # its rivets weigh more


def test_between_the_holes_by_hand(double):
    """129.091 N a pitch and 1.725: 255.106 MPa of 0.5 mm between holes of 3.3 mm 25.2381 mm apart, 2798.3 N.

    At 10.2836 times limit load the skin hands on 1.2220 times its shear: 10.2836 x 1.2220 x 1.725 x 129.091 = 2798.3 N.
    """
    one = next(
        f for f in double.margins if f.check.place == "row.left_skin_to_spar" and "left_skin-between" in f.check.mode
    )
    assert one.value("S") == pytest.approx(129.091, rel=1e-3)
    lam = one.margin + 1.0
    wrinkled = 1.0 + 0.414 * np.tanh(0.5 * np.log10(lam * 1.725 * one.value("q") / one.value("q_cr")))
    holds = 255.106e6 * 0.5e-3 * (25.2381e-3 - 3.3e-3)
    assert lam * 1.725 * one.value("S") * wrinkled == pytest.approx(holds, rel=1e-4)


@pytest.mark.parametrize("row", ROWS)
def test_every_rivet_of_two_lines_carries_half(single, row):
    one = load_of(single, row)
    two = row_load(single.effects, one.row, replace(one.plan, lines=2))
    assert one.shear.any()
    assert np.array_equal(2.0 * two.shear, one.shear)
    assert np.array_equal(2.0 * two.tension, one.tension)
    for name, force in one.layers.items():
        assert np.array_equal(2.0 * two.layers[name], force)


def test_two_holes_stand_in_one_cross_section_of_the_flange(single, double):
    """406.791 MPa, 1.5 x 12.2048 MPa, flange 17.6 mm: less one hole of 3.3 mm 17.05, less two 12.89."""
    for assessment, holes, wanted in ((single, 1, 17.054), (double, 2, 12.888)):
        by_hand = 406.791e6 * (17.6 - holes * 3.3) / 17.6 / (1.5 * 12.2048e6) - 1.0
        assert by_hand == pytest.approx(wanted, abs=1e-3)
        assert margin(assessment, "spar", "net-section") == pytest.approx(by_hand, rel=1e-4)
    (note,) = next(f.check.notes for f in double.margins if f.name.startswith("spar") and f.check.mode == "net-section")
    assert note.startswith("2 holes across the flange; how the lines of rivets stand to each other is not said")


@pytest.mark.parametrize("number", [12, 55])
def test_a_larger_hole_and_the_one_beside_it_across_the_flange(number):
    """Of 43 places in two lines, rivet 12 and rivet 55 stand side by side: 5.0 + 3.3 mm are gone of 17.6 mm."""
    surface = in_lines(left_skin_to_spar=2)
    key = f"row.left_skin_to_spar.rivet-{number}"
    found = surfacecheck.assess(replace(surface, apart={key: Apart(across={"spar": Value(5.0e-3)})}))
    one = next(f for f in found.margins if f.check.mode == "flange-net")
    stress = one.value("f")
    by_hand = one.value("F_tu") * (17.6 - 5.0 - 3.3) / 17.6 / (1.5 * stress) - 1.0
    assert one.margin == pytest.approx(by_hand, rel=1e-12)


def test_of_two_side_by_side_one_that_is_gone_leaves_the_sheet_its_load():
    """Rivet 12 holds nothing: 55 beside it has all of their place, which is what passes between the holes as before."""
    surface = in_lines(left_skin_to_spar=2)
    none = Value(0.0)
    drawn, gone = (
        surfacecheck.assess(replace(surface, apart={"row.left_skin_to_spar.rivet-12": Apart(holds=holds)}))
        for holds in (Value(1.0), none)
    )
    first, then = (
        next(f for f in one.findings if f.check.mode == "left_skin-between-holes" and "rivet 55" in f.check.spots)
        for one in (drawn, gone)
    )
    at = [list(one.check.spots).index("rivet 55") for one in (first, then)]
    loads = [np.broadcast_to(one.check.terms["S"].values, one.check.margins().shape) for one in (first, then)]
    grown = loads[1][..., at[1]] / loads[0][..., at[0]]
    assert grown.min() >= 1.0 - 1e-12  # the largest within the two pitches beside it counts
    assert np.median(grown) < 1.1


def test_a_row_with_rivets_out_asks_no_more_of_the_sheet_than_passes(double):
    """Without rivet 12 the ligament there has what it had: rivet 55 takes over, and nothing else changes."""
    found = missing_row(double, "left_skin_to_spar", (12,))
    (beside,) = [one for one in found.neighbours if one.number == 55]
    assert beside.bound.growth == pytest.approx(2.0)
    assert beside.bound.gives != "left skin tears between the holes"


def test_the_rules_ask_for_lines_as_many_as_there_are(single, double):
    """Two lines of 3.2 mm: 4 D, 12.8 mm, along each, where one asks for 3 D; 2.5 D, 8.0 mm, between them."""

    def asked(assessment, name, place):
        return [one.asked for one in assessment.rules if one.name == name and one.place == place]

    place = "row.left_skin_to_spar.pitch"
    assert asked(single, "least pitch", place) == pytest.approx([9.6e-3])
    assert asked(double, "least pitch", place) == pytest.approx([12.8e-3])
    assert asked(single, "gap of lines", "row.doubler_to_spar.line_gap") == pytest.approx([8.0e-3])
    assert asked(double, "gap of lines", "row.left_skin_to_spar.line_gap") == []


@pytest.mark.parametrize(("pitch", "outcome"), [(11.0, "does not meet"), (12.8, "meets")])
def test_a_pitch_that_one_line_may_have_and_two_may_not(pitch, outcome):
    surface = in_lines(trailing_edge=2)
    row = replace(surface.rows["trailing_edge"], pitch=Value(pitch * 1e-3), to=Value(0.020 + 80 * pitch * 1e-3))
    rules = surfacecheck.assess(replace(surface, rows={**surface.rows, row.name: row})).rules
    (found,) = [one for one in rules if (one.name, one.place) == ("least pitch", "row.trailing_edge.pitch")]
    assert found.outcome == outcome
