"""A rivet row on its own, against sums done by hand."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from surfacecheck.assessment import shown_formulas
from surfacecheck.errors import SurfaceError
from surfacecheck.library import material
from surfacecheck.studies import headline, row_alone, row_data, row_study_table, row_study_text
from surfacecheck.working import evaluate

MM = 1e-3
ROW = {"diameter": 3.2 * MM, "sheet": 0.5 * MM, "load_per_length": 4800.0}


def test_pitch_up_by_a_fifth():
    """25 to 30 mm: each rivet carries a fifth more, the sheet between rivets buckles at 1/1.44 of the stress."""
    narrow, wide = row_alone((25 * MM, 30 * MM), **ROW, alloy="2024-T3").options
    assert narrow.load == pytest.approx(4.8 * 25.0, rel=1e-12)
    assert wide.load / narrow.load == pytest.approx(1.2, rel=1e-12)
    assert wide.buckling[0] / narrow.buckling[0] == pytest.approx(1.0 / 1.44, rel=1e-12)
    assert wide.strain[1] / narrow.strain[1] == pytest.approx(0.694, abs=5e-4)


def test_one_rivet_by_hand():
    """4.8 N/mm at 25 mm with 1.5 x 1.15 asks 207 N; over 3.2 x 0.5 mm that is 129.4 N/mm2 of bearing."""
    (option,) = row_alone(25 * MM, **ROW).options
    assert option.must_carry == pytest.approx(207.0, rel=1e-12)
    assert option.finding("sheet-crush").required == pytest.approx(207.0 / (3.2 * 0.5) * 1e6, rel=1e-12)
    assert option.finding("sheet-crush-yield").required == pytest.approx(1.15 * 120.0 / (3.2 * 0.5) * 1e6, rel=1e-12)
    assert option.finding("rivet-shear").margin is option.finding("sheet-crush").margin is None


def test_buckling_between_rivets_by_hand():
    """c pi^2/12 (t/p)^2: 0.5 mm at 25 mm gives 658 microstrain for c = 2, half as much again for c = 3."""
    (option,) = row_alone(25 * MM, **ROW).options
    assert option.buckling is None
    assert option.strain[0] == pytest.approx(2.0 * math.pi**2 / 12.0 * (0.5 / 25.0) ** 2, rel=1e-12)
    assert option.strain[1] == pytest.approx(1.5 * option.strain[0], rel=1e-12)


def test_margins_with_a_data_sheet_and_a_metal():
    study = row_alone(25 * MM, **ROW, alloy="2024-T3", shear=1035.0, edge=6.4 * MM)
    (option,) = study.options
    metal = material("2024-T3", 0.5 * MM)
    assert option.finding("rivet-shear").margin == pytest.approx(1035.0 / 207.0 - 1.0, rel=1e-12)
    crush = float(metal.bearing_20.si) * 3.2 * MM * 0.5 * MM / 207.0 - 1.0
    assert option.finding("sheet-crush").margin == pytest.approx(crush, rel=1e-12)
    tear = 2.0 * float(metal.shear.si) * 0.5 * MM * (6.4 - 0.383 * 3.2) * MM / 207.0 - 1.0
    assert option.finding("sheet-tear-out").margin == pytest.approx(tear, rel=1e-12)
    assert option.lowest.margin == min(f.margin for f in option.findings)


def test_a_length_is_divided_evenly():
    """20 to 1080 mm at 30 mm: 35 spaces of 30.3 mm, 36 rivets; at 25 mm 42 spaces, 43 rivets."""
    narrow, wide = row_alone((25 * MM, 30 * MM), **ROW, length=1060 * MM).options
    assert (narrow.count, wide.count) == (43, 36)
    assert wide.pitch == pytest.approx(1060 * MM / 35, rel=1e-12)
    assert narrow.load == pytest.approx(4800.0 * 1.060 / 42, rel=1e-12)


def test_drilled_already_only_leaving_out_is_real():
    """43 holes: all of them, or every second left out, 22 rivets at twice the pitch."""
    every, second = row_alone(30 * MM, **ROW, length=1060 * MM, drilled_at=25 * MM).options
    assert (every.left_out, every.count, second.left_out, second.count) == ("none", 43, "every second", 22)
    assert second.pitch == pytest.approx(2.0 * every.pitch, rel=1e-12)
    assert second.buckling is None
    assert second.strain[0] / every.strain[0] == pytest.approx(0.25, rel=1e-12)


def test_drilled_already_the_ends_stay():
    """Five spaces with every second rivet left out: 1, 3, 5 and the last, one hole on."""
    second = row_alone(50 * MM, **ROW, length=125 * MM, drilled_at=25 * MM).options[1]
    assert (second.count, second.left_out) == (4, "every second, the last space 1 hole wide")


def test_strength_does_not_set_a_pitch_where_margins_are_large():
    strong = row_alone(25 * MM, **ROW, alloy="2024-T3", shear=1035.0)
    assert "Strength does not set this pitch" in headline(strong)
    weak = row_alone(25 * MM, **ROW, alloy="2024-T3", shear=300.0)
    assert "lowest margin +0.45 at 25.0 mm: rivet shears" in headline(weak)
    short = row_alone((25 * MM, 40 * MM), **ROW, alloy="2024-T3", shear=300.0)
    assert "less than required at 40.0 mm" in headline(short)


def test_without_a_strength_it_says_what_must_be_carried():
    said = headline(row_alone((25 * MM, 30 * MM), **ROW))
    assert said.startswith("No rivet strength given: each rivet must carry 207 N or 248 N at ultimate")


@pytest.mark.parametrize("system", ["metric", "inch"])
@pytest.mark.parametrize("more", [{}, {"alloy": "2024-T3", "shear": 900.0, "edge": 6.4 * MM, "inner_sheet": 0.8 * MM}])
def test_the_text_fits_a_terminal(system, more):
    pitches = tuple(p * MM for p in (15, 20, 25, 30, 40, 50))
    text = row_study_text(row_alone(pitches, **ROW, length=1060 * MM, **more), system)
    assert text.isascii()
    assert max(len(line) for line in text.split("\n")) <= 80
    assert "no approval" in text
    assert "factors: 1.5 x 1.15 on ultimate" in text


def test_texts_of_other_fields_are_bands_and_do_not_count():
    table = row_study_table(row_alone(25 * MM, **ROW))
    rows = {row[0]: row[1] for row in table.rows}
    assert rows["band: greatest pitch, sealing"] == "12.0 mm"
    assert rows["sheet for this rivet"].startswith("not covered")
    assert rows["least pitch"] == "meets, 9.60 mm"


@pytest.mark.parametrize("system", ["metric", "inch"])
def test_every_working_can_be_redone(system):
    options = row_alone((25 * MM, 31 * MM), **ROW, alloy="2024-T3", shear=900.0, edge=6.4 * MM, pull_per_length=700.0,
                        pull=800.0).options  # fmt: skip
    shown = [one for option in options for found in option.findings for one in shown_formulas(found, system)]
    assert len(shown) == 10
    for one in shown:
        assert f"{evaluate(one.filled, {}):+.2f}" == one.result


@pytest.mark.parametrize(
    ("wrong", "says"),
    [
        ({"pitch": -25 * MM}, "pitch is -25 mm; it must be above 0"),
        ({"pitch": 2 * MM}, "pitch 2 mm cannot be: holes of 3.2 mm run into each other; give a wider pitch"),
        ({"drilled_at": 3 * MM}, "pitch 3 mm cannot be: holes of 3.2 mm run into each other"),
        ({"diameter": 0.0}, "diameter is 0 mm"),
        ({"sheet": math.nan}, "sheet is nan mm"),
        ({"pitch": 25.0}, r"pitch is 25000 mm; .* Is the unit right\?"),
        ({"load_per_length": 0.0}, "load per length is 0 N/m; it must be above 0"),
        ({"alloy": "2024T3"}, 'Nearest: "2024-T3"'),
        ({"shear": -3.0}, "shear is -3 N"),
    ],
)
def test_what_cannot_be(wrong, says):
    with pytest.raises(SurfaceError, match=says):
        row_alone(**({"pitch": 25 * MM} | ROW | wrong))


@given(st.floats(5e-3, 0.2), st.floats(1.0, 1e5), st.floats(0.3e-3, 3e-3))
def test_load_and_margin_follow_the_pitch(pitch, flow, sheet):
    one, two = row_alone((pitch, 2.0 * pitch), 3.2 * MM, sheet, flow, shear=1000.0).options
    assert two.load == pytest.approx(2.0 * one.load, rel=1e-12)
    ratio = (one.finding("rivet-shear").margin + 1.0) / (two.finding("rivet-shear").margin + 1.0)
    assert ratio == pytest.approx(2.0, rel=1e-12)


def test_margins_over_pitches_for_a_plot():
    pitches = np.linspace(10, 60, 11) * MM
    study = row_alone(pitches, **ROW, shear=900.0)
    margins = study.margins("rivet-shear")
    assert margins == pytest.approx(900.0 / (1.725 * 4800.0 * pitches) - 1.0, rel=1e-12)
    assert study.margins("sheet-crush") is None


def test_data_has_every_digit():
    study = row_alone(25 * MM, **ROW, shear=900.0)
    data = row_data(study)
    assert data["form"] == 1
    assert data["options"][0]["rivet_load"] == study.options[0].load
    checks = {one["name"]: one["margin"] for one in data["options"][0]["checks"]}
    assert checks["row:rivet-shear"] == study.options[0].finding("rivet-shear").margin


def test_it_shows_itself():
    study = row_alone((25 * MM, 30 * MM), **ROW)
    assert str(study) == row_study_text(study)
    shown = study._repr_html_()
    assert "<table>" in shown
    assert "207 N or 248 N" in shown
