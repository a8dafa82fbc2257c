"""Surfaces whose ends of sheets or lines of the web differ go together through the load path, as each alone."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from surfacecheck.assessment import assess, assess_each
from surfacecheck.changes import columns_of
from surfacecheck.reading import read
from surfacecheck.stacks import alike, stacked
from surfacecheck.studies._values import walk_values, with_value

DATA = Path(__file__).parents[2] / "data"
DEMO = read(DATA / "rudder.toml")


def with_doubler_to(end):
    """Give the demo with another upper end of its doubler: a break of the grid moves, and nothing else."""
    doubler = DEMO.sheet.doublers["bottom_doubler"]
    other = replace(doubler, to=replace(doubler.to, si=end))
    return replace(DEMO, sheet=replace(DEMO.sheet, doublers={"bottom_doubler": other}))


@pytest.mark.parametrize("ends", [(0.15, 0.16), (0.15, 0.152, 0.149), (0.15, 0.16, 0.17, 0.18)])
def test_ends_of_a_doubler(ends):
    """Two at once too: as many as there are kinds of load at a rib, which must not be taken for one another."""
    surfaces = [with_doubler_to(end) for end in ends]
    for together, surface in zip(assess_each(surfaces), surfaces, strict=True):
        assert [f.margin for f in together.margins] == [f.margin for f in assess(surface).margins]


def with_web_behind(by):
    """Give the demo with its web farther behind the pins: sections differ, stations do not."""
    places = tuple(
        replace(one, web_behind=replace(one.web_behind, si=one.web_behind.si + by)) for one in DEMO.outline.places
    )
    return replace(DEMO, outline=replace(DEMO.outline, at=places))


@pytest.mark.parametrize("ways", [(0.0, 1e-3), (0.0, 1e-3, -1e-3), (0.0, 1e-3, -1e-3, 2e-3)])
def test_places_of_the_web(ways):
    """Two at once too: as many as there are states of the nose, which must not be taken for one another."""
    surfaces = [with_web_behind(by) for by in ways]
    for together, surface in zip(assess_each(surfaces), surfaces, strict=True):
        assert [f.margin for f in together.margins] == [f.margin for f in assess(surface).margins]


ALONE = [
    "rivets.small.hole",
    "rivets.large.shear",
    "rows.left_skin_to_spar.edge.spar",
    "rows.doubler_to_spar.line_gap",
    "brackets.plate.leg_off_rivets",
    "brackets.plate.gap_along",
    "outline.lap",
    "sheet.spar.flange",
    "hinges.middle.out_of_line_aft",
    "horn.bolt_behind",
]
"""Numbers that only a part of the chain reads: what is worked beside it lacks the variants until the two meet."""


@pytest.mark.parametrize("name", ALONE)
def test_one_number_alone_varies(name):
    """In twos and threes: as many as there are kinds of load at a rib, states of the nose, or ways of a force."""
    path, value = next((path, v) for path, v in walk_values(DEMO) if ".".join(map(str, path)) == name)
    numbers = [value.si * (1.0 + 0.004 * i) if value.si else 1e-5 * i for i in range(3)]
    surfaces = [with_value(DEMO, path, replace(value, si=si)) for si in numbers]
    alone = [[f.margin for f in assess(surface).margins] for surface in surfaces]
    for count in (2, 3):
        assert [[f.margin for f in one.margins] for one in assess_each(surfaces[:count])] == alone[:count]


HAPPENED = sorted(DATA.glob("happened_*.toml"))


@pytest.mark.parametrize("path", HAPPENED, ids=lambda path: path.stem)
def test_columns_of_a_change(path):
    """Every column of a change has what it has alone: findings with their words, pins, rules, mass and moment."""
    surfaces = [one for column in columns_of(read(path)) for one in (column.fully, column.nothing) if one is not None]
    for together, surface in zip(assess_each(surfaces), surfaces, strict=True):
        alone = assess(surface)
        assert [(f.name, f.margin, f.case, f.outcome) for f in together.findings] == [
            (f.name, f.margin, f.case, f.outcome) for f in alone.findings
        ]
        assert (together.pins, together.horn_pull, together.rules) == (alone.pins, alone.horn_pull, alone.rules)
        assert (together.mass, together.tail_heavy) == (alone.masses.mass, alone.masses.moment)


def with_rivet(name, **numbers):
    """Give the demo with one more kind of rivet, which nothing uses."""
    more = replace(DEMO.rivets["large"], name=name, **numbers)
    return replace(DEMO, rivets=DEMO.rivets | {name: more})


def test_rivets_nobody_uses_keep_no_surfaces_apart():
    """Only a kind of rivet that two of them have with another structure does."""
    wide = with_rivet("other", hole=replace(DEMO.rivets["large"].hole, si=4.5e-3))
    bare = with_rivet("other", hole=replace(DEMO.rivets["large"].hole, si=None))
    assert alike(DEMO, wide)
    assert alike(DEMO, bare)
    assert not alike(wide, bare)
    found = stacked([DEMO, wide, with_rivet("third")])
    assert set(found.rivets) == {"small", "large", "other", "third"}
    assert found.rivets["large"] is DEMO.rivets["large"]
    for together, surface in zip(assess_each([DEMO, wide, bare]), [DEMO, wide, bare], strict=True):
        assert [f.margin for f in together.margins] == [f.margin for f in assess(surface).margins]
