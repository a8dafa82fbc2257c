"""Nicks, holes and thin spots: against the published functions, and sums done here."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest

from surfacecheck.assessment import assess
from surfacecheck.changes import columns_of
from surfacecheck.reading import read
from surfacecheck.strength.concentration import ellipse_concentration, hole_edge_stress

DATA = Path(__file__).parents[2] / "data"


def marked(told, where, what, *lines):
    text = "\n".join((f'where = "{where}"', f'what = "{what}"', *lines))
    return assess(columns_of(told(text))[1].fully)


def one(assessment, name):
    return next(f for f in assessment.findings if f.name == name)


def test_a_nick_of_the_flange(told) -> None:
    """2 of 17.6 mm are gone; its bottom of 5 mm radius begins to yield at 1 + 2 sqrt(2/5) of the stress there."""
    found = marked(told, "spar flange, at 560 mm", "nick", 'depth = "2 mm"', 'radius = "5 mm"')
    net, yields = (one(found, f"spar.flange.at-560-mm:{mode}") for mode in ("net-section", "yields"))
    assert net.available == pytest.approx(net.value("F_tu") * (1.0 - 2.0 / 17.6))
    assert yields.required == pytest.approx(float(ellipse_concentration(2e-3, 5e-3)) * yields.value("f"))
    assert (yields.kind, yields.outcome) == ("statement", "")
    spar = next(f for f in found.findings if f.check.place == "spar" and f.check.mode == "yield")
    assert yields.value("f") <= spar.check.terms["f"].values.max() * (1 + 1e-12)


def test_a_nick_without_its_radius_has_no_statement(told) -> None:
    found = marked(told, "spar flange, at 560 mm", "nick", 'depth = "2 mm"')
    assert [f.check.mode for f in found.findings if f.place == "spar.flange.at-560-mm"] == ["net-section"]


def test_a_hole_in_the_web(told) -> None:
    found = marked(told, "spar web, at 325 mm", "stray hole", 'across = "6 mm"')
    net, yields = (one(found, f"spar.web.at-325-mm:{mode}") for mode in ("net-shear", "yields"))
    depth = 1e-3 * (60.0 - 15.0 * 325.0 / 1100.0) - 0.8e-3  # middle lines
    assert net.value("h") == pytest.approx(depth, rel=1e-6)
    assert net.available == pytest.approx(net.value("F_su") * (1.0 - 6e-3 / depth), rel=1e-6)
    assert yields.required == pytest.approx(float(hole_edge_stress(yields.value("s_1"), yields.value("s_2"))))


def test_a_hole_in_a_skin_sees_four_times_its_shear(told) -> None:
    found = marked(told, "left skin, at 442 mm", "stray hole", 'across = "6 mm"')
    yields = one(found, "left_skin.at-442-mm:yields")
    tau = np.abs(yields.value("s_1"))
    assert yields.value("s_2") == pytest.approx(-tau)
    assert yields.required == pytest.approx(4.0 * tau)


@pytest.mark.parametrize(
    ("where", "name"), [("left skin, at 325 mm", "left_skin"), ("spar web, at 325 mm", "spar.web")]
)
def test_a_thin_spot_carries_what_is_left(where, name, told) -> None:
    full, thin = (marked(told, where, "dent", f'thickness = "{t} mm"') for t in ("0.50", "0.40"))
    before, after = (one(found, f"{name}.at-325-mm:thin") for found in (full, thin))
    assert (after.margin + 1.0) / (before.margin + 1.0) == pytest.approx(0.8)
    assert after.required == before.required


def test_a_larger_lightening_hole_takes_the_place_of_the_one_there(told) -> None:
    drawn = '[sheet.spar]\nholes = [{ up = "300 mm", across = "20 mm" }, { up = "700 mm", across = "20 mm" }]\n'
    text = 'where = "spar web, at 305 mm"\nwhat = "larger lightening hole"\nacross = "26 mm"'
    holes = columns_of(told(text, more=drawn))[1].fully.sheet.spar.holes
    assert [(hole.up.said, hole.across.said) for hole in holes] == [("300 mm", "26 mm"), ("700 mm", "20 mm")]


@pytest.mark.parametrize("path", sorted(DATA.glob("happened_*.toml")), ids=lambda path: path.stem)
def test_demo_events_have_a_column_for_each_option(path) -> None:
    surface = read(path)
    found = columns_of(surface)
    named = [one for event in surface.happened for one in event.options if one != "leave it"]
    assert [one.title for one in found] == ["as drawn", "as it is now (leave it)", *named]
    assert all(said for one in found[1:] for said in one.says)
