"""Which cases a surface gives, what they need, and what they weigh."""

from __future__ import annotations

import numpy as np
import pytest

from surfacecheck.loads import airload_totals, appendix_a, load_cases, planform_of
from surfacecheck.model import (
    BalanceMass,
    DrivenBy,
    FadesAft,
    Half,
    Kind,
    Level,
    Over,
    PilotMoves,
    Rule,
    Side,
    Stop,
    StopAt,
    YesNo,
)
from surfacecheck.provenance import UNKNOWN


def named(surface):
    return {case.name: case for case in load_cases(surface)[0]}


def needs(surface):
    return {missing.needs for missing in load_cases(surface)[1]}


def totals(surface, case):
    return [float(v) for v in airload_totals(case.air, planform_of(surface))]


def test_a_whole_file_lacks_nothing_and_names_each_case_once(rudder):
    cases, missing = load_cases(rudder)
    assert missing == []
    assert len({case.name for case in cases}) == len({case.title for case in cases}) == len(cases)
    assert {case.group for case in cases} == {"flight", "control", "ground", "inertia", "hands"}


@pytest.mark.parametrize(("shape", "torque"), [("straight", -57.552), ("curved", -43.164), ("even", -86.328)])
def test_demo_planform_totals(rudder, shape, torque):
    """1.10 m, 0.42 to 0.30 m, 1200 Pa: 0.396 m2, 475.2 N, centre 0.5194 m, triangle 57.552 and parabola 43.164 N m."""
    cases = named(rudder)
    assert planform_of(rudder).area("pins") == pytest.approx(0.396)
    force, about, moment = totals(rudder, cases[f"side-left-{shape}"])
    assert force == pytest.approx(475.2)
    assert about == pytest.approx(torque, abs=5e-4)
    assert moment / force == pytest.approx(0.5194, abs=5e-5)
    assert totals(rudder, cases[f"side-right-{shape}"]) == [-force, -about, -moment]


def test_a_total_gives_what_its_mean_pressure_gives(rudder, change, value):
    by_total = change(rudder, {"load.pressure": UNKNOWN, "load.total": value(475.2)})
    for name in ("side-left-straight", "side-right-even"):
        assert totals(by_total, named(by_total)[name]) == pytest.approx(totals(rudder, named(rudder)[name]))


def test_ultimate_is_divided_by_1_5_once_and_said(rudder, change):
    high = change(rudder, {"load.level": Level.ULTIMATE})
    case, limit = named(high)["side-left-straight"], named(rudder)["side-left-straight"]
    assert totals(high, case)[0] == pytest.approx(475.2 / 1.5)
    assert case.fin == pytest.approx(1.0 / 1.5)
    assert limit.fin == 1.0
    assert any("1.5" in note for note in case.notes)
    assert not any("1.5" in note for note in limit.notes)


def test_over_another_area_changes_the_total_alone(rudder, change):
    plan = planform_of(rudder)
    whole = change(rudder, {"load.over": Over.WHOLE_SURFACE})
    case = named(whole)["side-left-straight"]
    assert totals(whole, case)[0] == pytest.approx(1200.0 * float(plan.area("nose")))
    assert (case.air.start, case.air.over) == ("pins", "nose")


def test_over_fin_and_rudder_goes_by_figure_a7_and_the_parabola(rudder, change):
    tail = change(rudder, {"load.over": Over.FIN_AND_RUDDER})
    cases = named(tail)
    plan = planform_of(tail)
    assert totals(tail, cases["side-left-curved"])[0] == pytest.approx(1200.0 * float(plan.area("pins")))
    # at d' = 0.5 the rudder's load is w (1 + 2E) r/2; E hardly varies here: compare with the mean E
    share = float(plan.area("pins") / plan.area("fin"))
    assert totals(tail, cases["side-left-middle"])[0] == pytest.approx(475.2 * (0.5 + share), rel=1e-4)
    assert totals(tail, cases["side-left-front"])[0] < 0.0


def test_rule_uses_the_mean_over_fin_and_rudder(rudder, change):
    ruled = change(rudder, {"load.pressure": UNKNOWN, "load.rule": Rule.APPENDIX_A})
    cases = named(ruled)
    mean = appendix_a.mean_loading("rudder", 3.8, 600.0 * 9.80665 / 12.0)
    assert totals(ruled, cases["appendix-a-left-curved"])[0] == pytest.approx(float(mean) * 0.396)
    assert cases["appendix-a-left-curved"].source.doubtful
    assert {"appendix-a-left-front", "appendix-a-right-middle"} <= set(cases)


def test_rule_raises_a_load_factor_below_table_1(rudder, change, value):
    ruled = change(rudder, {"load.pressure": UNKNOWN, "load.rule": Rule.APPENDIX_A})
    low = change(ruled, {"aeroplane.load_factor": value(3.0)})
    name = "appendix-a-left-curved"
    assert totals(low, named(low)[name]) == totals(ruled, named(ruled)[name])
    assert any("raised to 3.8" in note for note in named(low)[name].notes)


def test_aileron_by_rule_asks_for_a_shape(rudder, change):
    flat = {"kind": Kind.AILERON, "half": Half.RIGHT, "controls.pilot_moves": PilotMoves.STICK}
    flat |= {"load.pressure": UNKNOWN, "load.rule": Rule.APPENDIX_A}
    aileron = change(rudder, flat)
    assert "appendix-a-top-straight" in named(aileron)
    assert "load.fades_aft" in needs(change(aileron, {"load.fades_aft": ()}))


@pytest.mark.parametrize(
    ("path", "unknown", "key", "gone"),
    [
        ("load.over", None, "load.over", "side-left-straight"),
        ("load.level", None, "load.level", "side-left-straight"),
        ("load.begins_at", None, "load.begins_at", "side-left-straight"),
        ("load.fades_aft", (), "load.fades_aft", "side-left-straight"),
        ("aeroplane.weight", UNKNOWN, "aeroplane.weight", "ground-gust-left-even"),
        ("load.wind_at_tiedown", UNKNOWN, "load.wind_at_tiedown", "wind-at-tie-down-left-even"),
        ("controls.horn_per_pilot", UNKNOWN, "controls.horn_per_pilot", "both-feet"),
        ("controls.horn_per_pilot", UNKNOWN, "controls.horn_per_pilot", "control-least-side-left"),
        ("controls.stopped_at", None, "controls.stopped_at", "stop-left"),
        ("weighed.mass", UNKNOWN, "sheet.left_skin.thickness", "along-up-bottom"),
    ],
)
def test_one_gap_hides_its_cases_and_nothing_else(rudder, change, path, unknown, key, gone):
    full, less = named(rudder), change(rudder, {path: unknown})
    left = named(less)
    assert key in needs(less)
    assert gone not in left
    kin = gone.split("-")[0]
    hidden = {name for name in set(full) - set(left) if not name.startswith(("control-", "both-feet", kin))}
    assert hidden == set()


def test_hinges_that_do_not_say_whether_they_take_load_along(rudder, change):
    none = change(rudder, {"hinges": {n: h.__class__(up=h.up, name=n) for n, h in rudder.hinges.items()}})
    assert "hinge.bottom.takes_along" in needs(none)
    both = change(
        rudder, {"hinges": {n: h.__class__(up=h.up, takes_along=YesNo.YES, name=n) for n, h in rudder.hinges.items()}}
    )
    thrust = [case.thrust for name, case in named(both).items() if name.startswith("along-")]
    assert thrust == ["bottom", "bottom", "middle", "middle", "top", "top"]
    nowhere = change(
        rudder, {"hinges": {n: h.__class__(up=h.up, takes_along=YesNo.NO, name=n) for n, h in rudder.hinges.items()}}
    )
    assert not any(case.inertia for case in named(nowhere).values())
    assert "hinge.bottom.takes_along" in needs(nowhere)


def test_control_system_is_1_25_and_read_for_the_control_alone(rudder):
    case = named(rudder)["control-side-left-even"]
    assert case.factor == 1.25
    assert (case.reads, case.group, case.fin) == ("control", "control", 1.25)


def test_control_system_cap_needs_the_ratio_and_never_cuts_the_airload(rudder, change, value):
    """Horn 86.328/0.1 = 863.28 N; 200 lb at the pedal, ratio 1.1: 978.6 N, so 1.1336; ratio 0.5 would cut below 1."""
    light = change(rudder, {"controls.horn_per_pilot": value(1.1)})
    assert named(light)["control-side-left-even"].factor == pytest.approx(889.64432 * 1.1 / 863.28, rel=1e-6)
    weak = change(rudder, {"controls.horn_per_pilot": value(0.5)})
    assert named(weak)["control-side-left-even"].factor == 1.0
    unknown = change(rudder, {"controls.horn_per_pilot": UNKNOWN})
    assert named(unknown)["control-side-left-even"].factor == 1.25


def test_least_pilot_force_reaches_the_horn_through_the_ratio(rudder):
    """150 lb x 1.4 = 934.1 N at the horn; 863.28 N by the air: 1.0821."""
    case = named(rudder)["control-least-side-left"]
    assert case.factor == pytest.approx(667.23324 * 1.4 / 863.28, rel=1e-6)


def test_both_feet_pull_both_cables(rudder):
    case = named(rudder)["both-feet"]
    assert case.pilot.pull == pytest.approx(889.64432 * 1.4, rel=1e-6)
    assert (case.pilot.sides, case.closing, case.group, case.source.basis.value) == (
        (1, -1),
        "pedals",
        "hands",
        "common practice",
    )


def test_a_stick_or_a_rod_has_no_both_feet(rudder, change):
    rod = change(rudder, {"horn.driven_by": DrivenBy.ROD, "horn.side": Side.LEFT})
    assert "both-feet" not in named(rod)


def test_stop_on_the_surface(rudder, change, value):
    stop = Stop(up=value(0.09), arm=value(0.06), side=Side.BOTH)
    stopped = change(rudder, {"controls.stopped_at": StopAt.SURFACE, "controls.stop": stop})
    cases = named(stopped)
    assert (cases["stop-left"].swing, cases["stop-right"].swing) == (1, -1)
    # leaving ahead, the left cable swings the edge left
    assert cases["stop-left"].pilot.sides == (1,)
    assert cases["stop-right"].pilot.sides == (-1,)
    assert {"stop-left-side-left-even", "stop-left-side-right-even"} <= set(cases)
    one = change(stopped, {"controls.stop": Stop(up=value(0.09), arm=value(0.06), side=Side.LEFT)})
    assert not any(name.startswith("stop-right") for name in named(one))
    assert "controls.stop" in needs(change(stopped, {"controls.stop": None}))


def test_ground_gust_is_the_rules_moment_and_closes_at_the_lock(rudder, change):
    cases = named(rudder)
    for shape in ("even", "straight"):
        assert totals(rudder, cases[f"wind-at-tie-down-left-{shape}"])[1] == pytest.approx(-73.23, abs=0.01)
        assert cases[f"ground-gust-left-{shape}"].closing == "horn"
    assert totals(rudder, cases["wind-at-tie-down-left-straight"])[0] == pytest.approx(
        1.5 * totals(rudder, cases["wind-at-tie-down-left-even"])[0]
    )
    locked = change(rudder, {"controls.locked_at": StopAt.SURFACE})
    assert named(locked)["ground-gust-left-even"].closing == "surface lock"


def test_balance_mass_each_direction_alone(rudder, change, value):
    lead = change(rudder, {"balance_mass": BalanceMass(mass=value(1.0), up=value(1.01), ahead=value(0.05))})
    cases = [case for case in named(lead).values() if case.group == "balance"]
    assert sorted(case.point.g for case in cases) == sorted(
        [(0.0, 0.0, 24.0), (0.0, 0.0, -24.0), (12.0, 0.0, 0.0), (-12.0, 0.0, 0.0), (0.0, 12.0, 0.0), (0.0, -12.0, 0.0)]
    )
    asked = change(rudder, {"balance_mass": BalanceMass(mass=value(1.0), up=value(1.0))})
    assert "balance_mass.ahead" in needs(asked)
    assert "balance_mass.mass" in needs(change(rudder, {"balance_mass": BalanceMass()}))


def test_words_of_a_left_half_lying_flat(rudder, change):
    """On a left half z points down: a load towards +z pushes to the bottom."""
    half = {"kind": Kind.ELEVATOR, "half": Half.LEFT, "controls.pilot_moves": PilotMoves.STICK}
    left = change(rudder, half)
    case = named(left)["air-bottom-straight"]
    assert totals(left, case)[0] == pytest.approx(475.2)
    assert case.title == "air load to the bottom, straight to zero"


def test_a_stack_of_variants_gives_stacked_factors(rudder, change, value):
    many = change(rudder, {"load.pressure": value(np.array([1000.0, 1200.0, 1400.0]))})
    case = named(many)["control-least-side-left"]
    alone = [
        named(change(rudder, {"load.pressure": value(p)}))["control-least-side-left"] for p in (1000.0, 1200.0, 1400.0)
    ]
    assert np.array_equal(case.factor, [one.factor for one in alone])
    assert case.factor.shape == (3,)


def test_one_shape_alone(rudder, change):
    one = named(change(rudder, {"load.fades_aft": (FadesAft.CURVED,)}))
    assert {name for name, case in one.items() if case.group == "flight"} == {"side-left-curved", "side-right-curved"}
