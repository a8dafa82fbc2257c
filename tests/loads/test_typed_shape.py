"""The chordwise shape that the user types, and the two halves on one torque tube."""

from __future__ import annotations

import numpy as np
import pytest

from surfacecheck.errors import SurfaceError
from surfacecheck.loads import airload_totals, load_cases, planform_of, tube_torques
from surfacecheck.model import (
    Category,
    DrivenBy,
    FadesAft,
    Half,
    Kind,
    Over,
    PilotMoves,
    Rule,
    YesNo,
)
from surfacecheck.provenance import UNKNOWN

POINTS = ((0.0, 5.0), (0.4, 5.0), (1.0, 0.0))


def named(surface):
    return {case.name: case for case in load_cases(surface)[0]}


def totals(surface, name):
    return [float(v) for v in airload_totals(named(surface)[name].air, planform_of(surface))]


@pytest.fixture
def typed(rudder, change, value):
    """Even over 0.4 of the chord, then straight to zero; beside it the even one."""
    shape = tuple((value(s), value(p)) for s, p in POINTS)
    return change(rudder, {"load.fades_aft": (FadesAft.AS_TYPED, FadesAft.EVEN), "load.shape": shape})


def test_typed_shape_by_hand(typed):
    """Area 0.4 + 0.6/2 = 0.7; first moment 0.4 x 0.2 + 0.3 x (0.4 + 0.2) = 0.26; arm 0.26/0.7 of the chord.

    The even shape of the same pressure has its arm at 1/2 and, on this planform, 86.328 N m.
    """
    force, torque, _ = totals(typed, "side-left-typed")
    assert force == pytest.approx(475.2)
    assert torque == pytest.approx(-86.328 * (0.26 / 0.7) / 0.5, abs=5e-4)
    assert totals(typed, "side-right-typed")[1] == -torque


def test_only_the_form_of_a_typed_shape_counts(typed, change, value):
    half = tuple((value(s), value(0.5 * p)) for s, p in POINTS)
    assert totals(typed, "side-left-typed") == totals(change(typed, {"load.shape": half}), "side-left-typed")


def test_a_shape_typed_as_straight_is_the_straight_one(rudder, change, value):
    shape = ((value(0.0), value(7.0)), (value(1.0), value(0.0)))
    both = change(rudder, {"load.fades_aft": (FadesAft.AS_TYPED, FadesAft.STRAIGHT), "load.shape": shape})
    assert totals(both, "side-left-typed") == totals(both, "side-left-straight")


def test_a_shape_to_come_hides_its_own_case_alone(typed, change):
    for shape in (None, ((UNKNOWN, UNKNOWN),)):
        cases, missing = load_cases(change(typed, {"load.shape": shape}))
        assert "load.shape" in {one.needs for one in missing}
        names = {case.name for case in cases if case.group == "flight"}
        assert names == {"side-left-even", "side-right-even"}


def test_over_fin_and_rudder_the_typed_shape_lies_behind_the_pins(typed, change):
    tail = change(typed, {"load.over": Over.FIN_AND_RUDDER})
    assert totals(tail, "side-left-typed") == totals(typed, "side-left-typed")


def test_aileron_by_rule_takes_a_typed_shape(typed, change):
    """Mean from Figure A6 (from memory) for both; arms of 0.26/0.7 and 1/2 of the chord."""
    flat = {"kind": Kind.AILERON, "half": Half.RIGHT, "controls.pilot_moves": PilotMoves.STICK}
    aileron = change(typed, flat | {"load.pressure": UNKNOWN, "load.rule": Rule.APPENDIX_A})
    by_shape, even = totals(aileron, "appendix-a-top-typed"), totals(aileron, "appendix-a-top-even")
    assert by_shape[0] == pytest.approx(even[0])
    assert by_shape[1] / even[1] == pytest.approx((0.26 / 0.7) / 0.5)
    assert "load.shape" in {one.needs for one in load_cases(change(aileron, {"load.shape": None}))[1]}


def test_one_stack_has_one_shape(typed, change, value):
    shape = ((value(0.0), value(np.array([1.0, 2.0]))), (value(1.0), value(0.0)))
    with pytest.raises(SurfaceError, match=r"load\.shape differs between variants"):
        load_cases(change(typed, {"load.shape": shape}))


@pytest.fixture
def elevator(rudder, change):
    fields = {"kind": Kind.ELEVATOR, "half": Half.RIGHT, "controls.pilot_moves": PilotMoves.STICK}
    fields |= {"horn.driven_by": DrivenBy.TORQUE_TUBE, "horn.turns_other_half": YesNo.YES}
    return change(rudder, fields)


@pytest.mark.parametrize(
    ("category", "share", "doubtful"),
    [
        pytest.param(Category.NORMAL, 0.65, True, id="normal-from-memory"),
        pytest.param(Category.UTILITY, 0.65, True, id="utility-from-memory"),
        pytest.param(Category.ACROBATIC, 0.5, False, id="acrobatic"),
    ],
)
def test_unsymmetric_load_in_the_torque_tube(elevator, change, category, share, doubtful):
    """Triangle: 57.552 N m from this half; 65 % of it, 37.409, from the other; 50 % of it, 28.776, acrobatic."""
    surface = change(elevator, {"aeroplane.category": category})
    cases = load_cases(surface)[0]
    row = next(one for one in tube_torques(surface, cases) if one.case == "air load to the top, straight to zero")
    assert float(row.own) == pytest.approx(-57.552, abs=5e-4)
    assert float(row.other) == pytest.approx(-37.409 if category is not Category.ACROBATIC else -28.776, abs=5e-4)
    assert float(row.both) == pytest.approx(-115.104, abs=1e-3)
    assert (row.share, row.source.doubtful) == (share, doubtful)
    flight = [case for case in cases if case.group == "flight"]
    assert len(tube_torques(surface, cases)) == len(flight)
    assert all(any(f"{share:.0%} on the other half" in note for note in case.notes) for case in flight)


def test_unsymmetric_load_changes_no_airload_of_this_half(elevator, change):
    alone = change(elevator, {"horn.turns_other_half": YesNo.NO})
    for name, case in named(elevator).items():
        if case.group == "flight":
            assert totals(elevator, name) == totals(alone, name)
    assert tube_torques(alone, load_cases(alone)[0]) == ()
    assert not any("other half" in note for case in named(alone).values() for note in case.notes)


def test_the_share_of_the_other_half_waits_for_the_category(elevator, change):
    surface = change(elevator, {"aeroplane.category": None})
    cases, missing = load_cases(surface)
    assert "aeroplane.category" in {one.needs for one in missing}
    assert tube_torques(surface, cases) == ()


def test_a_rudder_has_no_other_half(rudder, change):
    surface = change(rudder, {"horn.driven_by": DrivenBy.TORQUE_TUBE, "horn.turns_other_half": YesNo.YES})
    assert tube_torques(surface, load_cases(surface)[0]) == ()
