"""A stack of surfaces gives, bit for bit, what each of them gives alone; whatever number is a stack."""

from __future__ import annotations

from dataclasses import fields, is_dataclass, replace
from typing import Any

import numpy as np
import pytest

import surfacecheck
from surfacecheck.assessment import assess_each, assess_stack
from surfacecheck.errors import SurfaceError
from surfacecheck.provenance import Value
from surfacecheck.stacks import one_of, stacked
from surfacecheck.studies import number_places, with_numbers

VARIANTS = 5
FILES = {"rudder": 3e-3, "elevator": 3e-4, "elevator_open_edge": 3e-4, "rudder_pitch_30": 3e-3}
"""By how much each number is shaken; more would take a bay of the elevator over the edge to one cell more."""


def shaken(node: Any, rng: np.random.Generator, by: float) -> Any:
    """Make a stack of every number, each shaken by itself; the same value twice stays the same value."""
    seen: dict[float, np.ndarray] = {}

    def one(value: Any) -> Any:
        if isinstance(value, Value):
            if not isinstance(value.si, float) or value.si == 0.0:
                return value
            if value.si not in seen:
                seen[value.si] = value.si * (1.0 + by * rng.uniform(-1.0, 1.0, VARIANTS))
            return replace(value, si=seen[value.si])
        if is_dataclass(value) and not isinstance(value, type):
            parts = {f.name: one(getattr(value, f.name)) for f in fields(value)}
            return replace(value, **{k: v for k, v in parts.items() if v is not getattr(value, k)})
        if isinstance(value, dict):
            return {key: one(part) for key, part in value.items()}
        return tuple(one(part) for part in value) if isinstance(value, tuple) else value

    return one(node)


@pytest.fixture(scope="module", params=FILES)
def stack(request):
    surface = surfacecheck.read(f"data/{request.param}.toml")
    return shaken(surface, np.random.default_rng(7), FILES[request.param])


@pytest.fixture(scope="module")
def singles(stack):
    return [surfacecheck.assess(one_of(stack, v)) for v in range(VARIANTS)]


def test_every_margin_is_the_one_of_the_surface_alone(stack, singles):
    found = assess_stack(stack, VARIANTS).findings
    for v, alone in enumerate(singles):
        together = found.of(v)
        assert [f.name for f in together] == [f.name for f in alone.findings]
        for one, other in zip(together, alone.findings, strict=True):
            assert (one.margin, one.required, one.available) == (other.margin, other.required, other.available)
            assert (one.part, one.case, one.outcome) == (other.part, other.case, other.outcome.replace(*DEPENDS))


DEPENDS = ("depends on heel and prying of the bracket: ask", "carries what is required, for what was looked at")


ALONE = (
    "load.pressure",
    "outline.at[1].web_behind",
    "outline.at[1].spar_depth",
    "outline.lap",
    "hinge.middle.gives_sideways",
    "sheet.left_skin.thickness",
    "sheet.bottom_doubler.wide",
    "rivet.large.diameter",
    "rivet.large.shear",
    "row.left_skin_to_spar.edge.spar",
    "bracket.plate.leg_off_rivets",
    "bracket.plate.edge.bracket",
    "weighed.paint",
)


@pytest.mark.parametrize("key", ALONE)
def test_one_number_may_be_a_stack_by_itself(key):
    """What does not vary has no axis of variants, and stands beside what does."""
    base = surfacecheck.read("data/rudder.toml")
    si = number_places(base)[key].value.si or 1e-7
    varied = with_numbers(base, {key: np.array([si, 1.003 * si])})
    together = assess_stack(varied, 2).findings.of(1)
    alone = surfacecheck.assess(one_of(varied, 1)).findings
    assert [(f.name, f.margin, f.required) for f in together] == [(f.name, f.margin, f.required) for f in alone]


def test_the_margins_do_differ(stack):
    margins = assess_stack(stack, VARIANTS).findings.margin
    known = np.isfinite(margins).all(axis=-1)
    assert known.sum() > 40
    assert (np.ptp(margins[known], axis=-1) > 0.0).mean() > 0.9


def test_surfaces_assessed_together_say_what_they_say_alone(stack, singles):
    surfaces = [alone.surface for alone in singles]
    for one, alone in zip(assess_each(surfaces), singles, strict=True):
        assert str(one) == str(alone)
        assert one.pins == alone.pins
        assert one.show(1) == alone.show(1)
        assert one.effects.cases == alone.effects.cases


def test_what_was_stacked_comes_out_again(stack):
    singles = [one_of(stack, v) for v in range(VARIANTS)]
    again = stacked(singles)
    assert again is not None
    assert [one_of(again, v).outline for v in range(VARIANTS)] != [singles[0].outline] * VARIANTS
    spar = again.sheet.spar.thickness.si
    assert np.array_equal(spar, [one.sheet.spar.thickness.si for one in singles])


def test_surfaces_of_other_structure_are_no_stack_but_are_assessed(singles):
    base = surfacecheck.read("data/rudder.toml")
    other = replace(base, rows={k: v for k, v in base.rows.items() if k != "trailing_edge"})
    assert stacked([base, other]) is None
    first, second = assess_each([base, other])
    assert str(first) == str(surfacecheck.assess(base))
    assert str(second) == str(surfacecheck.assess(other))


def test_a_stack_whose_places_change_order_says_so():
    base = surfacecheck.read("data/rudder.toml")
    low, high = base.hinges["bottom"], base.sheet.ribs.up[2].si
    moved = replace(low, up=replace(low.up, si=np.array([0.09, high + 0.02])))
    with pytest.raises(SurfaceError, match="share one order"):
        assess_stack(replace(base, hinges={**base.hinges, "bottom": moved}), 2)
