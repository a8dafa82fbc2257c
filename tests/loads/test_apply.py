"""Cases on a beam: totals, handing over at ribs, what holds the torque, rigging, stacks."""

from __future__ import annotations

import numpy as np
import pytest

from surfacecheck.errors import SurfaceError
from surfacecheck.loads import airload_totals, apply, load_cases, planform_of, rigging
from surfacecheck.masses import weigh
from surfacecheck.model import BalanceMass, Doubler, DrivenBy, Leaves, NoseSkin, Sheet, Side, Skin, Stop, StopAt
from surfacecheck.provenance import UNKNOWN, Value


def on(surface, stations, names, **more):
    cases = {case.name: case for case in load_cases(surface)[0]}
    return apply([cases[name] for name in names], surface, stations.y, stations.breaks, stations.bay, **more)


@pytest.fixture
def slack(rudder, change):
    """The rudder without rigging pull."""
    return change(rudder, {"controls.rigging_pull": Value(None, "none", absent=True)})


FLIGHT = ["side-left-straight", "side-right-straight", "side-left-curved", "side-right-even"]


@pytest.mark.parametrize("through_ribs", [False, True])
def test_totals_are_kept_spread_or_through_ribs(slack, stations, through_ribs):
    loads = on(slack, stations, FLIGHT, through_ribs=through_ribs)
    force, moment = stations.sums(loads)
    cases = {case.name: case for case in load_cases(slack)[0]}
    for i, name in enumerate(FLIGHT):
        total, torque, first = airload_totals(cases[name].air, planform_of(slack))
        np.testing.assert_allclose(force[i], [0.0, 0.0, total], atol=1e-10)
        np.testing.assert_allclose(moment[i], [first, torque, 0.0], atol=1e-10)
    assert loads.z.shape == loads.torque.shape == (4, len(stations.y))
    assert loads.force.shape == loads.moment.shape == (4, len(stations.breaks), 3)


def test_control_case_is_all_of_it_times_its_factor(slack, stations):
    loads = on(slack, stations, ["side-left-even", "control-side-left-even"])
    for name in ("z", "torque"):
        np.testing.assert_allclose(getattr(loads, name)[1], 1.25 * getattr(loads, name)[0], rtol=1e-14)


def test_the_cable_on_the_right_side_pulls_ahead_whichever_way_the_load(rudder, stations):
    """Trap: load reversed, the other cable pulls, again ahead; -T / (z d_x - x d_z) is the pull, never a push."""
    loads = on(rudder, stations, ["side-left-straight", "side-right-straight"])
    left, right = loads.holds
    assert (float(left.z), float(right.z)) == (-0.1, 0.1)
    for hold, torque in ((left, -57.552), (right, 57.552)):
        np.testing.assert_allclose(hold.direction, [-1.0, 0.0, 0.0], atol=0)
        pull = -torque / (hold.z * hold.direction[0] - hold.x * hold.direction[2])
        assert pull == pytest.approx(575.52)
        assert (hold.how, hold.one_way, hold.at_break) == ("line", True, 0)


@pytest.mark.parametrize("ahead", [True, False])
@pytest.mark.parametrize("inward", [0.0, 0.2, -0.3])
@pytest.mark.parametrize("behind", [0.0, 0.03, -0.02])
def test_arm_is_square_to_the_cable(rudder, change, value, stations, ahead, inward, behind):
    horn = {"horn.leaves": Leaves(ahead, value(inward), UNKNOWN), "horn.bolt_behind": value(behind)}
    loads = on(change(rudder, horn), stations, ["side-left-straight", "side-right-straight"])
    for hold, torque in zip(loads.holds, (-57.552, 57.552), strict=True):
        lever = float(hold.z * hold.direction[0] - hold.x * hold.direction[2])
        assert abs(lever) == pytest.approx(0.1, rel=1e-12)
        assert -torque / lever > 0.0
        assert np.linalg.norm(hold.direction) == pytest.approx(1.0, rel=1e-12)
        # inward is towards the line of the pins
        assert hold.direction[2] * hold.z * inward <= 0.0


def test_a_rod_stays_on_its_side_and_works_both_ways(rudder, change, stations):
    rod = change(rudder, {"horn.driven_by": DrivenBy.ROD, "horn.side": Side.LEFT})
    holds = on(rod, stations, ["side-left-straight", "side-right-straight"]).holds
    assert [float(hold.z) for hold in holds] == [0.1, 0.1]
    assert not holds[0].one_way


def test_a_torque_tube_and_a_lock_hold_by_a_couple(rudder, change, stations):
    tube = change(rudder, {"horn.driven_by": DrivenBy.TORQUE_TUBE})
    assert on(tube, stations, ["side-left-straight"]).holds[0].how == "couple"
    locked = change(rudder, {"controls.locked_at": StopAt.SURFACE})
    assert on(locked, stations, ["ground-gust-left-even"]).holds[0].how == "couple"


def test_drive_and_side_that_contradict_are_refused(rudder, change, stations):
    with pytest.raises(SurfaceError, match="two cables take hold on both sides"):
        on(change(rudder, {"horn.side": Side.LEFT}), stations, ["side-left-straight"])


def test_an_unknown_horn_leaves_the_airload_and_says_its_key(rudder, change, stations):
    loads = on(change(rudder, {"horn.arm": UNKNOWN}), stations, ["side-left-straight"])
    assert loads.holds[0].how == "not given"
    assert loads.holds[0].needs == "horn.arm"
    assert np.sum(loads.z[0] * stations.weight) == pytest.approx(475.2)


def test_rigging_pull_is_in_every_case_with_no_torque_and_no_factor(rudder, stations):
    cases = load_cases(rudder)[0]
    loads = apply(cases, rudder, stations.y, stations.breaks, stations.bay)
    total = np.sum(loads.rigging_force, axis=-2)
    np.testing.assert_allclose(total, np.broadcast_to([-240.0, 0.0, 0.0], total.shape), atol=1e-12)
    assert np.all(loads.rigging_moment[..., 1] == 0.0)
    assert not np.any(rigging(rudder, stations.breaks)[1])


def test_both_feet_load_the_horn_along_the_chord(slack, stations):
    loads = on(slack, stations, ["both-feet"])
    force, moment = stations.sums(loads)
    np.testing.assert_allclose(force[0], [-2.0 * 1245.502, 0.0, 0.0], rtol=1e-6)
    np.testing.assert_allclose(moment[0], 0.0, atol=1e-9)
    assert loads.holds[0].how == "nothing"


def test_stop_force_takes_horn_and_air(slack, change, value, stations):
    """F_stop a_stop = F_horn a_horn +- H."""
    stop = Stop(up=value(0.09), arm=value(0.06), side=Side.BOTH)
    stopped = change(slack, {"controls.stopped_at": StopAt.SURFACE, "controls.stop": stop})
    names = ["stop-left", "stop-left-side-left-even", "stop-left-side-right-even", "stop-right"]
    loads = on(stopped, stations, names)
    torque = stations.sums(loads)[1][:, 1]
    horn = 889.644323 * 1.4 * 0.1
    for hold, t, moment in zip(loads.holds, torque, (horn, horn + 86.328, horn - 86.328, horn), strict=True):
        push = -t / (hold.z * hold.direction[0])
        assert push == pytest.approx(moment / 0.06, rel=1e-5)
        assert hold.direction[0] == 1.0
        assert (hold.at_break, hold.one_way) == (1, True)


@pytest.fixture
def sheeted(slack, change, value):
    skin = Skin(value(0.5e-3), "2024-T3")
    sheet = Sheet(
        left_skin=skin, right_skin=skin, nose_skin=NoseSkin(Value(None, "none", absent=True)), ribs=slack.sheet.ribs
    )
    sheet = sheet.__class__(
        left_skin=skin,
        right_skin=skin,
        nose_skin=sheet.nose_skin,
        ribs=sheet.ribs,
        doublers={
            "bottom_doubler": Doubler("spar web", value(0.8e-3), "2024-T3", value(0.03), value(0.2), value(0.05)),
        },
    )
    return change(slack, {"sheet": sheet})


def test_inertia_along_the_pins_is_k_w_at_the_centre_of_gravity(sheeted, stations):
    """Load 24 m g; couple x_cg F about z; nothing else."""
    loads = on(sheeted, stations, ["along-up-bottom", "along-down-bottom"])
    force, moment = stations.sums(loads)
    masses = weigh(sheeted)
    np.testing.assert_allclose(force[0], [0.0, 24.0 * 3.0 * 9.80665, 0.0], rtol=1e-12)
    np.testing.assert_allclose(moment[0], [0.0, 0.0, force[0, 1] * float(masses.x)], rtol=1e-12, atol=1e-12)
    np.testing.assert_array_equal(loads.y[1], -loads.y[0])
    assert not np.any(loads.z)


def test_inertia_is_spread_by_mass(sheeted, stations):
    """The bays with the doubler carry more for their length than the taper alone would give."""
    load = on(sheeted, stations, ["along-up-bottom"]).y[0]
    means = [load[4 * i] for i in range(6)]
    assert means[1] > means[2] > means[3] > means[4] > means[5]


def test_balance_mass_turns_about_the_pins(slack, change, value, stations):
    lead = change(slack, {"balance_mass": BalanceMass(mass=value(1.0), up=value(0.9), ahead=value(0.05))})
    names = ["balance-left", "balance-behind", "balance-up-bottom"]
    force, moment = stations.sums(on(lead, stations, names))
    g = 9.80665
    np.testing.assert_allclose(force, [[0, 0, 24 * g], [12 * g, 0, 0], [0, 12 * g, 0]], atol=1e-9)
    np.testing.assert_allclose(
        moment, [[0.9 * 24 * g, 0.05 * 24 * g, 0.0], [0.0, 0.0, -0.9 * 12 * g], [0.0, 0.0, -0.05 * 12 * g]], atol=1e-9
    )


def test_a_stack_gives_each_variant_to_the_last_bit(sheeted, change, value, stations):
    pressures = np.array([900.0, 1200.0, 1500.0])
    arms = np.array([0.08, 0.1, 0.12])
    names = ["side-left-straight", "control-least-side-right", "along-up-bottom", "wind-at-tie-down-left-even"]

    def loaded(p, arm, **more):
        return on(change(sheeted, {"load.pressure": value(p), "horn.arm": value(arm)}), stations, names, **more)

    for through_ribs in (False, True):
        stack = loaded(pressures, arms, through_ribs=through_ribs)
        for i in range(3):
            alone = loaded(pressures[i], arms[i], through_ribs=through_ribs)
            for name in ("y", "z", "torque", "moment_z", "force", "moment"):
                one = getattr(alone, name)
                whole = np.broadcast_to(getattr(stack, name), (3, *one.shape))
                assert np.array_equal(whole[i], one), name
            for many, one in zip(stack.holds, alone.holds, strict=True):
                assert np.broadcast_to(many.z, (3,))[i] == one.z


def test_outline_stations_must_be_breaks(rudder, stations):
    cases = load_cases(rudder)[0][:1]
    with pytest.raises(SurfaceError, match="must be breaks of the beam"):
        apply(cases, rudder, stations.y * 0.9, stations.breaks * 0.9, stations.bay)


def test_no_case_and_no_ribs_are_refused(rudder, change, stations):
    with pytest.raises(SurfaceError, match="no load case is given"):
        apply([], rudder, stations.y, stations.breaks, stations.bay)
    bare = change(rudder, {"sheet.ribs.up": ()})
    with pytest.raises(SurfaceError, match=r"sheet\.ribs\.up is not given"):
        on(bare, stations, ["side-left-even"], through_ribs=True)


def test_the_beam_may_reach_beyond_the_outline(slack, change, value, stations):
    """A horn 50 mm below the lowest edge: no air there, the total as before."""
    low = change(slack, {"horn.up": value(-0.05)})
    breaks = np.concatenate([[-0.05], stations.breaks])
    cases = [case for case in load_cases(low)[0] if case.name == "side-left-even"]
    y = np.concatenate([[-0.05, -0.04, -0.01, 0.0], stations.y])
    loads = apply(cases, low, y, breaks, np.repeat(np.arange(7), 4))
    assert np.all(loads.z[0, :4] == 0.0)
    assert np.sum(loads.z[0, 4:] * stations.weight) == pytest.approx(475.2)
    assert loads.holds[0].at_break == 0
