"""A seam without rivets for more than three pitches is outside the method, and no rivet is read where none is."""

from __future__ import annotations

import re

import numpy as np
import pytest

import surfacecheck
from surfacecheck.assessment import assess_stack
from surfacecheck.checks._stretch import stretch_of
from surfacecheck.places import bare_stretches, reach, unheld
from surfacecheck.stacks import stacked

SEAM = frozenset(("left_skin", "spar"))
EDGE = "edge = { left_skin = '7.0 mm', nose_skin = '7.0 mm', spar = '7.0 mm' }"
REST = f"""
[row.lower]
joins = ["left_skin", "nose_skin", "spar"]
rivet = "small"
from = "20 mm"
to = "TO"
pitch = "25 mm"
lines = 1
{EDGE}
"""


def surface_of(root, text):
    return surfacecheck.read_text('based_on = "rudder.toml"\ntitle = "bare"\n' + text, folder=root / "data")


@pytest.fixture(scope="module")
def bare(request):
    """The rudder, its left spar seam riveted from 600 mm on alone; 480 mm in 19 spaces of 25.3 mm."""
    text = 'row.left_skin_to_spar.from = "600 mm (ruler)"\n'
    return surfacecheck.assess(surface_of(request.config.rootpath, text))


def outside(assessment):
    return {f.name: f for f in assessment.outside}


def test_a_bare_seam_is_outside_the_method(bare):
    """600 mm without a rivet, 25 pitches: of the skin and of the nose that this row holds."""
    names = {f"row.left_skin_to_spar.at-0-mm-to-at-600-mm:{mode}" for mode in ("bare", "bare-nose")}
    assert set(outside(bare)) == names
    for finding in outside(bare).values():
        assert (finding.outcome, finding.margin) == ("outside the method: ask", None)
    said = "left skin to spar, at 0 mm to at 600 mm: no rivets there: the box is taken as closed all the same"
    assert f"{said}; outside the method: ask" in bare.remarks


def test_the_flow_that_would_cross_it_stands_there(bare):
    found = outside(bare)["row.left_skin_to_spar.at-0-mm-to-at-600-mm:bare"]
    effects = bare.effects.whole
    assert found.required == np.abs(effects.mean("skin_plus"))[:, effects.span.y <= 0.6].max()


def test_rivets_are_read_where_they_are(bare):
    """From the station below the first rivet on, at 600 mm: no more than 25 mm before it."""
    load = next(one for one in bare.rows if one.row.name == "left_skin_to_spar")
    read = bare.effects.span.y[load.shear.any(axis=0)]
    assert 0.575 < read.min() <= 0.600
    assert load.plan.start == pytest.approx(0.600)
    places = [int(at[1]) for f in bare.findings if (at := re.match(r"row\.left_skin_to_spar\.at-(\d+)-mm:", f.name))]
    assert places
    assert min(places) >= 575


@pytest.mark.parametrize("name", ["rudder", "elevator", "rudder_pitch_30", "elevator_open_edge"])
def test_no_seam_of_the_demo_is_bare(name, request):
    found = surfacecheck.assess(surfacecheck.read(request.config.rootpath / "data" / f"{name}.toml"))
    assert not outside(found)
    along = [load for load in found.rows if load.kind in {"spar", "edge"}]
    assert along
    for load in along:
        below, above = unheld(found.surface, load.row)
        assert not below.bare
        assert not above.bare
        assert stretch_of(load.effects, load.row).all()


@pytest.mark.parametrize(("to", "found"), [("580 mm", []), ("526 mm", []), ("520 mm", [(0.520, 0.600)])])
def test_rows_one_after_the_other_hold_a_seam_together(to, found, request):
    """Three pitches of the upper row, 25.3 mm, are 75.8 mm: the 74 mm from 526 mm on are held, 80 mm are not."""
    text = 'row.left_skin_to_spar.from = "600 mm (ruler)"\n' + REST.replace("TO", to)
    surface = surface_of(request.config.rootpath, text)
    upper, lower = surface.rows["left_skin_to_spar"], surface.rows["lower"]
    stretches = [*bare_stretches(surface, upper, SEAM), *bare_stretches(surface, lower, SEAM)]
    assert [(float(one.start), float(one.end)) for one in stretches] == [pytest.approx(one) for one in found]
    half_way = 0.5 * (float(to.split()[0]) * 1e-3 + 0.6)
    assert reach(surface, upper)[0] == reach(surface, lower)[1] == pytest.approx(half_way)


def test_a_row_of_fewer_sheets_holds_the_skin_but_not_the_nose(request):
    text = 'row.left_skin_to_spar.from = "600 mm (ruler)"\n' + REST.replace("TO", "580 mm").replace('"nose_skin", ', "")
    text = text.replace(" nose_skin = '7.0 mm',", "")
    found = outside(surfacecheck.assess(surface_of(request.config.rootpath, text)))
    assert list(found) == ["row.left_skin_to_spar.at-0-mm-to-at-600-mm:bare-nose"]


def test_in_a_stack_only_the_variant_that_has_it_is_told(request):
    """Two starts of the row: 180 mm is more than three pitches of 25 mm, 20 mm is not."""
    both = [
        surface_of(request.config.rootpath, f'row.trailing_edge.from = "{start} mm (ruler)"\n') for start in (20, 180)
    ]
    together = assess_stack(stacked(both), 2).findings
    for v, surface in enumerate(both):
        alone = {f.name: (f.margin, f.required, f.outcome) for f in surfacecheck.assess(surface).findings}
        assert {f.name: (f.margin, f.required, f.outcome) for f in together.of(v)} == alone
        assert ("row.trailing_edge.at-0-mm-to-at-180-mm:bare" in alone) is (v == 1)
