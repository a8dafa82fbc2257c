"""Load cases that can decide nothing are left out of sweeps: which, and that nothing is decided otherwise."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
import pytest

import surfacecheck
from surfacecheck.assessment import assess, assess_stack
from surfacecheck.checks import StackFindings
from surfacecheck.checks._names import Names, picked
from surfacecheck.loads import AT_REST, AirLoad, LoadCase, leading, load_cases
from surfacecheck.loads import STRAIGHT as SHAPE
from surfacecheck.provenance import WORKED_OUT
from surfacecheck.studies import number_places, sweep, swept, with_numbers

RUDDER = surfacecheck.read("data/rudder.toml")
MANY = 6


def case(name, pressure, **more):
    air = AirLoad(np.asarray(pressure), "pins", "pins", SHAPE)
    return LoadCase(name, name, WORKED_OUT, "flight", air=air, **more)


def kept(*cases, surface=RUDDER):
    return [one.title for one in leading(cases, surface)]


def test_of_loads_alike_the_greatest_stays():
    assert kept(case("small", 300.0), case("great", 500.0), case("middle", 400.0)) == ["great", AT_REST]
    assert kept(case("one", 300.0), case("as it", 300.0)) == ["one", AT_REST]
    assert kept(case("by factor", 300.0, factor=2.0), case("great", 500.0)) == ["by factor", AT_REST]


@pytest.mark.parametrize(
    "other",
    [
        case("other way", -500.0),
        case("for the controls", 500.0, reads="control"),
        case("held by the stop", 500.0, closing="stop", swing=1),
        case("by a hinge", 500.0, thrust="top"),
        case("not to scale", 500.0, scales=False),
        LoadCase("shape", "shape", WORKED_OUT, "flight", air=AirLoad(np.asarray(500.0), "pins", "web", SHAPE)),
    ],
    ids=lambda one: one.title,
)
def test_loads_that_are_not_alike_both_stay(other):
    assert kept(case("small", 300.0), other) == ["small", other.title]


def test_in_a_stack_it_must_be_smaller_in_every_variant():
    assert kept(case("one", [300.0, 500.0]), case("other", [400.0, 400.0])) == ["one", "other"]
    assert kept(case("one", [300.0, 390.0]), case("other", [400.0, 400.0])) == ["other", AT_REST]
    assert kept(case("one", [300.0, 400.0]), case("other", [400.0, 400.0])) == ["one", "other"]


def test_the_fin_must_bend_with_the_load_where_it_bends_at_all():
    unequal = case("small", 300.0, fin=0.0), case("great", 500.0, fin=1.0)
    assert kept(*unequal) == ["great", AT_REST]
    hinge = RUDDER.hinges["middle"]
    bent = replace(hinge, fin_bends=replace(hinge.fin_bends, si=1e-3))
    surface = replace(RUDDER, hinges=RUDDER.hinges | {"middle": bent})
    assert kept(*unequal, surface=surface) == ["small", "great"]
    equal = case("small", 300.0, fin=0.6), case("great", 500.0, fin=1.0)
    assert kept(*equal, surface=surface) == ["great", AT_REST]


def test_the_demo_leaves_out_more_than_a_third():
    cases, _ = load_cases(RUDDER)
    assert len(cases) == 25
    assert len(leading(cases, RUDDER)) == 16


def shaken(surface, by, seed):
    """Numbers of a surface each shaken by itself; those that are the same stay the same."""
    rng = np.random.default_rng(seed)
    given = {p.key: p.value.si for p in number_places(surface).values() if p.value.si and not p.value.absent}
    times = {si: si * (1.0 + by * rng.uniform(-1.0, 1.0, MANY)) for si in dict.fromkeys(given.values())}
    return with_numbers(surface, {key: times[si] for key, si in given.items()})


def with_pull(surface, pull):
    controls = surface.controls
    return replace(surface, controls=replace(controls, rigging_pull=replace(controls.rigging_pull, si=pull)))


SURFACES = {
    "rudder": (RUDDER, 3e-3),
    "rudder, cables slack": (with_pull(RUDDER, 1.0), 3e-3),
    "rudder, cables very tight": (with_pull(RUDDER, 4000.0), 3e-3),
    "elevator": (surfacecheck.read("data/elevator.toml"), 3e-4),
    "elevator, open edge": (surfacecheck.read("data/elevator_open_edge.toml"), 3e-4),
    "painted": (surfacecheck.read("data/rudder_painted.toml"), 3e-3),
}


@pytest.mark.parametrize("name", SURFACES)
@pytest.mark.parametrize("seed", [1, 2, 3])
def test_nothing_is_decided_otherwise(name, seed):
    """Every check of every variant: to the last bit what all cases give, and by the same case where they differ."""
    surface, by = SURFACES[name]
    stack = shaken(surface, by, seed)
    every, few = assess_stack(stack, MANY).findings, assess_stack(stack, MANY, every_case=False).findings
    assert len(every.checks) == len(few.checks)
    for part in ("margin", "required", "available"):
        np.testing.assert_array_equal(getattr(few, part), getattr(every, part))
    for m in range(len(every.checks)):
        for v in range(MANY):
            one, other = every.finding(m, v), few.finding(m, v)
            assert one.case == other.case or one.margin in {None, np.inf}, (one.name, one.case, other.case)


@dataclass
class Stand:
    """Stands for a check: only its cases are asked for."""

    cases: tuple[str, ...]
    spot_cases: Names = ()


def found_of(*checks, index):
    nothing = np.zeros((len(checks), 2))
    return StackFindings(checks, nothing, nothing, nothing, np.array(index))


TITLES = ("gust", AT_REST, AT_REST + ", through the ribs")


def test_where_the_surface_at_rest_decides_it_is_seen():
    """Two variants; case and spot that decide stand in the index, or the case with the spot where it was reduced."""
    plain = Stand(TITLES)
    assert not found_of(plain, index=[[[0, 0], [0, 7]]]).decided_by(AT_REST)
    assert found_of(plain, index=[[[0, 0], [1, 7]]]).decided_by(AT_REST)
    assert found_of(plain, plain, index=[[[0, 0], [0, 0]], [[2, 0], [0, 0]]]).decided_by(AT_REST)
    reduced = Stand(("",), picked(TITLES, np.array([[0, 1, 0], [0, 0, 2]])))
    assert not found_of(reduced, index=[[[0, 0], [0, 1]]]).decided_by(AT_REST)
    assert found_of(reduced, index=[[[0, 1], [0, 1]]]).decided_by(AT_REST)
    assert found_of(reduced, index=[[[0, 0], [0, 2]]]).decided_by(AT_REST)
    one_for_all = Stand(("",), picked(TITLES, np.array([0, 2])))
    assert found_of(one_for_all, index=[[[0, 0], [0, 1]]]).decided_by(AT_REST)


def test_then_every_case_is_looked_at(monkeypatch):
    """Nothing in the demo is decided at rest, so that it is said to be."""
    stack = shaken(RUDDER, 1e-3, 4)
    assert assess_stack(stack, MANY, every_case=False).worked.cases[-1].title == AT_REST
    monkeypatch.setattr(StackFindings, "decided_by", lambda self, case: True)
    assert len(assess_stack(stack, MANY, every_case=False).worked.cases) == 25


def test_the_surface_at_rest_is_never_told_of():
    """A sweep names cases of the file alone."""
    numbers = {"controls.rigging_pull": np.array([20.0, 240.0, 500.0, 2e3])}
    found = swept(sweep(RUDDER, numbers))
    for v, pull in enumerate(numbers["controls.rigging_pull"]):
        alone = assess(with_pull(RUDDER, float(pull)))
        assert (found.lowest[v], found.case[v]) == (alone.margins[0].margin, alone.margins[0].case)
        largest = [(pin.sideways.value, pin.fore_aft.value, pin.along.value) for pin in alone.pins]
        np.testing.assert_array_equal(np.abs(found.pins[v]), np.abs(largest))
