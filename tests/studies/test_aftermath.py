"""After a storm: order, bounds, words; an event of size zero; both halves alike."""

from __future__ import annotations

import json
import math
import re
from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

import surfacecheck
from surfacecheck.assessment import CAUTION, assess
from surfacecheck.errors import SurfaceError
from surfacecheck.loads import stop_moment, swing_energy, wind_cases
from surfacecheck.provenance import UNKNOWN
from surfacecheck.studies import (
    ALSO_LOOK,
    LOCKS,
    NO_ALL_CLEAR,
    aftermath,
    aftermath_data,
    aftermath_lines,
    aftermath_text,
    look_for,
)

DATA = Path(__file__).parents[2] / "data"
KNOT = 1852.0 / 3600.0
DEG = math.pi / 180.0


@pytest.fixture(scope="module")
def rudder():
    return surfacecheck.read(DATA / "rudder.toml")


@pytest.fixture(scope="module")
def held(rudder):
    return aftermath(rudder, 65.0 * KNOT, "held")


@pytest.fixture(scope="module")
def loose(rudder):
    return aftermath(rudder, 65.0 * KNOT, "none")


@pytest.fixture(scope="module")
def storm(rudder):
    return aftermath(rudder, 75.0 * KNOT, "held")


@pytest.fixture(scope="module")
def swung(rudder):
    return aftermath(rudder, 65.0 * KNOT, "let go", 30.0 * DEG, 3.0 * DEG)


def by_place(found):
    return {one.place: one for one in found.parts}


def test_the_wind_of_the_file_loads_no_part_beyond_its_limit(rudder, held):
    """The file holds 65 knots at the tie-down itself: the same wind stands at 1 where that governs, never above."""
    found = held
    ratios = [one.over_limit for one in found.parts if one.over_limit is not None]
    assert max(ratios) == pytest.approx(1.0, abs=1e-9)
    pins = {pin.name: pin for pin in assess(rudder).pins}
    assert pins["top"].sideways.case.startswith("wind at tie-down")
    assert by_place(found)["hinge.top.pin"].over_limit == pytest.approx(1.0, abs=1e-9)


def test_load_grows_with_the_square_of_the_wind_where_nothing_else_acts(rudder, storm):
    """Without rigging pull: (75 / 65)^2 = 1.331 of the load at 65 knots, in every part."""
    slack = replace(rudder, controls=replace(rudder.controls, rigging_pull=replace(UNKNOWN, si=0.0)))
    one, other = (aftermath(slack, speed * KNOT, "held") for speed in (65.0, 75.0))
    before, after = by_place(one), by_place(other)
    for place in ("hinge.top.pin", "hinge.middle.bracket.web", "spar"):
        assert after[place].over_limit == pytest.approx((75.0 / 65.0) ** 2, rel=1e-6), place
    assert after["hinge.top.pin"].used / before["hinge.top.pin"].used == pytest.approx((75.0 / 65.0) ** 2, rel=1e-6)
    assert storm.steady == pytest.approx(one.steady * (75.0 / 65.0) ** 2)


def test_share_of_strength_is_the_margin_of_the_event_alone(rudder, storm):
    worked = assess(rudder, cases=wind_cases(rudder, 75.0 * KNOT))
    lowest = min((f for f in worked.margins if f.check.place == "spar"), key=lambda f: f.margin)
    spar = by_place(storm)["spar"]
    assert spar.used == pytest.approx(1.0 / (1.0 + lowest.margin))
    assert spar.gives == lowest.gives


def test_order_first_what_is_past_its_strength_then_by_load_over_limit(storm, swung):
    past = [one.used for one in swung.parts if one.used is not None and one.used >= 1.0]
    assert past == sorted(past, reverse=True)
    assert len(past) > 3
    assert [one.used or 0.0 for one in swung.parts][: len(past)] == past
    rest = [round(one.over_limit or -1.0, 1) for one in swung.parts[len(past) :]]
    assert rest == sorted(rest, reverse=True)
    assert all((one.used or 0.0) < 1.0 for one in storm.parts)
    assert [round(one.over_limit, 1) for one in storm.parts] == sorted(
        (round(one.over_limit, 1) for one in storm.parts), reverse=True
    )


def test_every_part_once_and_each_with_something_to_look_for(storm):
    places = [one.place for one in storm.parts]
    assert len(places) == len(set(places)) > 25
    assert all(one.look for one in storm.parts)
    assert look_for("something.else") == ""


def test_an_event_of_size_zero_changes_nothing(rudder):
    before = assess(rudder)
    still = aftermath(rudder, 0.0, "held")
    assert (still.steady, still.counted, still.energy, still.blows) == (0.0, 0.0, None, ())
    assert all(one.over_limit is None or one.over_limit < 0.2 for one in still.parts)  # the rigging pull alone
    free = aftermath(rudder, 0.0, "none", 30.0 * DEG, 3.0 * DEG)
    assert (free.energy, free.counted) == (0.0, 0.0)
    assert [one.over_limit for one in free.parts] == [one.over_limit for one in still.parts]
    after = assess(rudder)
    assert [f.margin for f in after.margins] == [f.margin for f in before.margins]


def test_the_lower_bound_counts(rudder, swung):
    (blow,) = swung.blows
    assert blow.by_twist < blow.by_swing
    assert swung.counted == blow.moment == blow.by_twist
    far = aftermath(rudder, 65.0 * KNOT, "let go", 5.0 * DEG, 20.0 * DEG)
    assert far.counted == far.blows[0].by_swing < far.blows[0].by_twist


def test_twist_bound_is_proportional_and_needs_no_wind(rudder, swung):
    one, three = (aftermath(rudder, past_stop=angle * DEG) for angle in (1.0, 3.0))
    assert three.counted == pytest.approx(3.0 * one.counted)
    assert three.counted == pytest.approx(swung.blows[0].by_twist)
    assert three.steady is None
    assert three.energy is None


def test_twist_bound_turns_the_far_end_by_that_angle(rudder):
    """Back through the chain: the wind's load grown to that moment twists the tip by at least the angle."""
    found = aftermath(rudder, past_stop=2.0 * DEG)
    slack = replace(rudder, controls=replace(rudder.controls, rigging_pull=replace(UNKNOWN, si=0.0)))
    cases = wind_cases(slack, 20.0)
    moment = aftermath(slack, 20.0, "held").steady
    worked = assess(slack, cases=[replace(case, factor=found.counted / moment) for case in cases])
    tip = abs(worked.deflections.twist[..., -1])
    assert float(tip.min()) == pytest.approx(2.0 * DEG, rel=1e-9)
    assert float(tip.max()) < 1.2 * float(tip.min())


def test_without_a_known_give_three_are_shown_and_the_list_stays_steady(rudder, loose):
    found = loose
    assert found.energy == pytest.approx(found.steady * 50.0 * DEG)  # 25 deg each way in the file
    assert [round(blow.give / DEG) for blow in found.blows] == [1, 3, 10]
    assert found.counted == found.steady
    assert "Nobody knows by how much the stop gave" in " ".join(aftermath_lines(found))
    outline = replace(rudder.outline, swings_left=UNKNOWN)
    blind = aftermath(replace(rudder, outline=outline), 65.0 * KNOT, "none")
    assert blind.energy is None
    assert "swings_left" in blind.missing


@given(st.floats(0.0, 500.0), st.floats(0.01, 2.0), st.floats(0.005, 0.5))
def test_a_blow_is_never_less_than_twice_the_steady_moment(moment, swing, give_):
    energy = swing_energy(moment, swing)
    blow = stop_moment(energy, give_, moment)
    assert blow >= 2.0 * moment
    assert 0.5 * blow * give_ == pytest.approx(moment * (swing + give_))
    assert stop_moment(energy, 2.0 * give_, moment) <= blow


def test_left_and_right_half_are_looked_at_in_the_same_order():
    text = (DATA / "elevator.toml").read_text(encoding="utf-8")
    halves = [
        aftermath(surfacecheck.read_text(text.replace('half = "left"', f'half = "{half}"')), 65.0 * KNOT, "held")
        for half in ("left", "right")
    ]
    left, right = (by_place(one) for one in halves)
    assert left.keys() == right.keys()
    for place, one in left.items():
        assert one.over_limit == pytest.approx(right[place].over_limit, rel=1e-6), place


def test_an_outline_and_hinges_alone_give_a_short_list(rudder):
    bare = surfacecheck.read_text(
        'kind = "rudder"\nhalf = "none"\n[outline]\nat = [{ up = "0 mm", edge_behind = "420 mm" }, '
        '{ up = "1100 mm", edge_behind = "300 mm" }]\n[hinge.a]\nup = "90 mm"\n[hinge.b]\nup = "1010 mm"\n'
    )
    found = aftermath(bare, 65.0 * KNOT, "held")
    assert found.limit is None
    assert found.steady == pytest.approx(73.23, abs=0.01)
    assert all(one.over_limit is None for one in found.parts)
    assert "no load to hold it against" in " ".join(aftermath_lines(found))
    with pytest.raises(SurfaceError, match="only where the sheet is known"):
        aftermath(bare, past_stop=3.0 * DEG)


@pytest.mark.parametrize(
    ("event", "message"),
    [
        ({}, "say what happened"),
        ({"wind": 30.0}, r"lock: what the lock did: not said. Allowed: held, let go, none"),
        ({"wind": 30.0, "lock": "gone"}, '"gone". Allowed'),
        ({"wind": 300.0, "lock": "held"}, r"wind: 300 m/s \(583 knots\).*Is the unit right"),
        ({"wind": -1.0, "lock": "held"}, "0 to 100 m/s is allowed"),
        ({"past_stop": 0.0}, "past-stop: 0 deg: above 0"),
        ({"past_stop": 1.6}, "up to 45 deg"),
        ({"wind": 30.0, "lock": "none", "swing": 3.0}, "swing: 172 deg|swing: 171.887 deg"),
    ],
)
def test_what_cannot_be_is_one_clear_line(rudder, event, message):
    with pytest.raises(SurfaceError, match=message) as caught:
        aftermath(rudder, **event)
    assert len(caught.value.faults) == 1


def test_a_stop_that_gives_nothing_is_refused():
    with pytest.raises(SurfaceError, match="say by how many degrees"):
        stop_moment(38.0, 0.0)


@pytest.mark.parametrize("system", ["metric", "inch"])
def test_text_is_a_list_and_no_all_clear(swung, system):
    text = aftermath_text(swung, system)
    assert text.isascii()
    assert max(len(line) for line in text.split("\n")) <= 80
    flat = " ".join(text.split())
    for wanted in (NO_ALL_CLEAR, CAUTION, "Do not fly on a calculation", "at most 38 J", "Orders of magnitude"):
        assert wanted in flat
    assert not re.search(r"(?i)\b(safe|approved|ok|fine|passes|undamaged|cleared|recommend)\b", flat)
    assert all(one in flat for one in ALSO_LOOK)
    other = r"\d N m\b|\d mm\b|\d m/s" if system == "inch" else r"\d lbf|\d in\b"
    assert re.findall(other, flat) == []


def test_plain_data(swung):
    data = json.loads(json.dumps(aftermath_data(swung), allow_nan=False))
    assert data["event"] == {"wind": 65.0 * KNOT, "lock": "let go", "swing": 30.0 * DEG, "past_stop": 3.0 * DEG}
    assert [one["place"] for one in data["parts"]] == [one.place for one in swung.parts]
    assert data["not_an_all_clear"] == NO_ALL_CLEAR
    assert set(LOCKS) == {"held", "let go", "none"}


def test_a_surface_that_swung_stands_on_the_stop_of_the_file(loose):
    """With its own stop the torque is taken there, not at the horn: the horn's rivets are out of it."""
    text = (DATA / "rudder.toml").read_text(encoding="utf-8")
    line = 'stopped_at = "surface"\nstop = { up = "90 mm", arm = "60 mm", side = "both" }'
    stopped = surfacecheck.read_text(text.replace('stopped_at = "pedals"', line, 1))
    here, there = by_place(aftermath(stopped, 65.0 * KNOT, "let go")), by_place(loose)
    assert here["horn.rivets"].used < 0.5 * there["horn.rivets"].used
    held = by_place(aftermath(stopped, 65.0 * KNOT, "held"))
    assert held["horn.rivets"].used == pytest.approx(there["horn.rivets"].used)
