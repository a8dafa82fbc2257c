"""Readings of a scale: against the weight's own lever, forwards, and friction put in by hand."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from surfacecheck.errors import SurfaceError
from surfacecheck.masses import (
    inertia_by_swing,
    level_moment,
    mean_and_friction,
    painted,
    read_scales,
    same_weighing,
    weigh,
    weigh_after,
)
from surfacecheck.model import Added, BalanceMass, Skin, Surface, Tipped, Weighed
from surfacecheck.provenance import UNKNOWN, Basis

from .conftest import G, only, v, with_sheet

ARM = 0.36


def scale(weight, x, z, tilt, friction=0.0):
    """Return what a scale shows, by the two horizontal arms about the pins, lifting and letting down."""
    push = weight * (x * math.cos(tilt) - z * math.sin(tilt)) / (ARM * math.cos(tilt))
    return push + friction, push - friction


def weighing(weight, x, z, first=0.0, second=None, friction=0.0):
    up, down = scale(weight, x, z, first, friction)
    tipped = None
    if second is not None:
        up2, down2 = scale(weight, x, z, second, friction)
        tipped = Tipped(v(second), (v(up2),), (v(down2),))
    return Weighed(push_behind=v(ARM), rising=(v(up),), sinking=(v(down),), edge=v(first), tipped=tipped)


tilts = st.floats(-0.6, 0.6)
weights, places, heights = st.floats(5.0, 60.0), st.floats(0.02, 0.3), st.floats(-0.05, 0.05)


@given(weights, places, heights, tilts, st.floats(0.1, 0.5), st.floats(0.0, 0.5))
def test_two_tilts_give_back_the_weight_as_it_was_put(weight, x, z, first, more, friction):
    found = read_scales(weighing(weight, x, z, first, first + more, friction))
    assert found.moment == pytest.approx(weight * x, rel=1e-9, abs=1e-9)
    assert found.height == pytest.approx(weight * z, rel=1e-6, abs=1e-8)
    assert found.friction == pytest.approx(friction, abs=1e-9)


@given(weights, places, heights, tilts, st.floats(0.1, 0.5))
def test_turned_over_it_lies_as_far_below_as_it_lay_above(weight, x, z, first, more):
    """Mirror: the surface upside down, tilted the other way, has the same moment and the opposite height."""
    one = read_scales(weighing(weight, x, z, first, first + more))
    other = read_scales(weighing(weight, x, -z, -first, -first - more))
    assert other.push == pytest.approx(one.push, rel=1e-12)
    assert other.moment == pytest.approx(one.moment, rel=1e-9)
    assert other.height == pytest.approx(-one.height, rel=1e-9, abs=1e-12)


@given(st.floats(0.5, 40.0), st.floats(0.1, 40.0))
def test_friction_is_zero_when_the_readings_agree_and_grows_with_their_gap(push, gap):
    same = mean_and_friction(push, push)
    assert (same[0], same[1]) == (push, 0.0)
    mean, friction = mean_and_friction(push + gap, push)
    assert friction == pytest.approx(gap / 2.0)
    assert mean == pytest.approx(push + gap / 2.0)


def test_one_tilt_takes_the_weight_to_lie_in_the_chord():
    flat, high = read_scales(weighing(20.0, 0.15, 0.0, 0.2)), read_scales(weighing(20.0, 0.15, 0.02, 0.2))
    assert flat.moment == pytest.approx(3.0)
    assert flat.height is None
    assert high.moment == pytest.approx(3.0 - 20.0 * 0.02 * math.tan(0.2))


def test_several_readings_each_way_count_by_their_mean():
    weighed = Weighed(push_behind=v(ARM), rising=(v(11.1), v(11.3)), sinking=(v(10.7), v(10.8), v(10.9)))
    found = read_scales(weighed)
    assert (found.rising, found.sinking, found.push) == tuple(pytest.approx(one) for one in (11.2, 10.8, 11.0))
    assert found.friction_share == pytest.approx(0.2 / 11.0)
    assert found.friction_moment == pytest.approx(0.2 * ARM)


def test_nothing_is_worked_out_of_half_a_pair():
    assert read_scales(Weighed(push_behind=v(ARM), rising=(v(11.2),))) is None
    assert read_scales(Weighed(rising=(v(11.2),), sinking=(v(10.8),))) is None
    assert read_scales(Weighed()) is None
    level = read_scales(Weighed(push_behind=v(ARM), tail_push=v(11.0)))
    assert (level.moment, level.friction, level.friction_share) == (pytest.approx(3.96), None, None)


def test_a_scale_under_the_nose_says_nose_heavy():
    weighed = Weighed(push_behind=v(-0.03), rising=(v(5.2),), sinking=(v(4.8),))
    found = read_scales(weighed)
    assert found.moment == pytest.approx(-0.15)
    assert found.friction_moment == pytest.approx(0.2 * 0.03)


def test_the_pair_takes_the_place_of_one_level_reading(surface):
    skinned = with_sheet(surface, left_skin=Skin(v(0.5e-3), "mine"))
    both = Weighed(mass=v(2.0), tail_push=v(99.0), push_behind=v(ARM), rising=(v(8.2),), sinking=(v(7.8),))
    masses = weigh(replace(skinned, weighed=both))
    assert float(masses.moment) == pytest.approx(8.0 * ARM)
    assert masses.first_source.basis is Basis.INVENTED


def test_a_stack_of_readings_equals_single_ones():
    ups, downs = np.array([11.2, 12.0, 9.0]), np.array([10.8, 11.0, 9.0])
    every = read_scales(Weighed(push_behind=v(ARM), rising=(v(ups),), sinking=(v(downs),)))
    for i in range(3):
        one = read_scales(Weighed(push_behind=v(ARM), rising=(v(ups[i]),), sinking=(v(downs[i]),)))
        assert (every.moment[i], every.friction[i]) == (one.moment, one.friction)


def test_swing_of_a_rod_hung_from_its_end():
    """Second moment m l^2 / 3, centre at l/2: T = 2 pi sqrt(2 l / 3 g)."""
    mass, length = 0.7, 0.4
    time = 2.0 * math.pi * math.sqrt(2.0 * length / (3.0 * G))
    assert inertia_by_swing(mass * G * length / 2.0, time) == pytest.approx(mass * length**2 / 3.0, rel=1e-12)


def test_second_moment_of_a_flat_skin_is_m_c2_over_3(surface):
    """From the pins, depth next to nothing: rho t int c^3 / 3 dy."""
    skinned = with_sheet(surface, left_skin=Skin(v(0.5e-3), "mine"))
    places = tuple(replace(p, web_behind=v(0.0), spar_depth=v(1e-9)) for p in surface.outline.places)
    flat = weigh(replace(skinned, outline=replace(surface.outline, at=places)))
    u = (np.arange(20000) + 0.5) / 20000
    by_strips = 2700.0 * 0.5e-3 * 1.1 * np.mean((0.42 - 0.12 * u) ** 3) / 3.0
    assert float(flat.second) == pytest.approx(by_strips, rel=1e-8)


# ---- paint and things put on


def test_paint_by_area_lies_on_the_outer_sides(surface):
    """1.10 x (0.395 to 0.275) m behind the web, two sides, along the slope."""
    skin = Skin(v(0.5e-3), "mine")
    skinned = with_sheet(surface, left_skin=skin, right_skin=skin)
    on = painted(skinned)
    bare = weigh(skinned)
    assert on.area == pytest.approx(float(bare.mass) / (2700.0 * 0.5e-3), rel=1e-12)
    assert on.x == pytest.approx(float(bare.x), rel=1e-12)
    coat = weigh(replace(skinned, weighed=Weighed(paint_by_area=v(0.2))))
    assert float(coat.paint) == pytest.approx(0.2 * on.area)
    assert float(coat.moment - bare.moment) == pytest.approx(0.2 * float(on.first) * G)
    one_side = with_sheet(surface, left_skin=skin)
    assert painted(one_side).area == pytest.approx(on.area / 2.0)


def test_paint_by_area_and_more_of_it_as_a_mass_add_up(surface):
    """A file gives one of them; an event may lay the other on top."""
    skin = with_sheet(surface, left_skin=Skin(v(0.5e-3), "mine"))
    one, other, both = (
        weigh(replace(skin, weighed=Weighed(**paint)))
        for paint in (
            {"paint": v(0.1)},
            {"paint_by_area": v(0.2)},
            {"paint": v(0.1), "paint_by_area": v(0.2)},
        )
    )
    assert float(both.paint) == pytest.approx(float(one.paint + other.paint))
    assert float(both.paint_first) == pytest.approx(float(one.paint_first + other.paint_first))


def test_paint_typed_as_a_mass_needs_no_thickness_of_the_skin(surface):
    """Its centre is that of the area where the sheet is not known; it was a metre behind the pins once."""
    unknown = with_sheet(surface, left_skin=Skin(UNKNOWN, "mine"), right_skin=Skin(UNKNOWN, "mine"))
    masses = weigh(replace(unknown, weighed=Weighed(mass=v(2.0), paint=v(0.2))))
    bare = weigh(replace(unknown, weighed=Weighed(mass=v(2.0))))
    assert float(masses.first - bare.first) == pytest.approx(0.2 * float(painted(unknown).x))
    assert 0.19 < painted(unknown).x < 0.20


def test_paint_heavier_than_the_surface_is_refused(surface):
    skinned = with_sheet(surface, left_skin=Skin(v(0.5e-3), "mine"))
    with pytest.raises(SurfaceError, match=r"weighed\.paint: 3 kg of paint on a surface of 2 kg.*Is the unit right"):
        weigh(replace(skinned, weighed=Weighed(mass=v(2.0), paint=v(3.0, "weighed.paint"))))
    stack = Weighed(mass=v(2.0), paint=v(np.array([0.1, 3.0])))
    with pytest.raises(SurfaceError, match="paint on a surface of 2 kg"):
        weigh(replace(skinned, weighed=stack))
    weigh(replace(skinned, weighed=Weighed(paint=v(1.9))))  # parts are missing: nothing to hold it against


def test_what_is_put_on_adds_to_parts_and_to_the_scale_alike(surface):
    skinned = with_sheet(surface, left_skin=Skin(v(0.5e-3), "mine"))
    tab = Added("tab", v(0.12), v(0.40), v(0.3))
    weight = Added("lead", v(0.05), v(-0.03))
    for weighed in (Weighed(), Weighed(mass=v(2.0), tail_push=v(8.0), push_behind=v(ARM))):
        bare = weigh(replace(skinned, weighed=weighed))
        more = weigh(replace(skinned, weighed=replace(weighed, added=(tab, weight))))
        assert float(more.mass - bare.mass) == pytest.approx(0.17)
        assert float(more.moment - bare.moment) == pytest.approx((0.12 * 0.40 - 0.05 * 0.03) * G)
        assert [one.name for one in more.added] == ["tab", "lead"]
    assert float(only(more, "lead").y) == pytest.approx(0.55)
    assert only(more, "lead").source.basis is Basis.ASSUMED


def test_a_thing_of_no_mass_changes_nothing(surface):
    skinned = with_sheet(surface, left_skin=Skin(v(0.5e-3), "mine"))
    bare, same = weigh(skinned), weigh(replace(skinned, weighed=Weighed(added=(Added("air", v(0.0), v(0.4)),))))
    assert (float(same.mass), float(same.first)) == (float(bare.mass), float(bare.first))


def test_a_thing_of_unknown_mass_is_left_out_by_its_key(surface):
    masses = weigh(replace(surface, weighed=Weighed(added=(Added("tab", UNKNOWN, v(0.4)),))))
    assert ("things put on", "weighed.added[1].mass") in {(one.name, one.key) for one in masses.left_out}


def test_balance_by_a_thing_put_on_is_balance_by_a_balance_mass(surface):
    skinned = with_sheet(surface, left_skin=Skin(v(0.5e-3), "mine"))
    lead = weigh(replace(skinned, balance_mass=BalanceMass(v(0.5), v(1.0), v(0.03))))
    put = weigh(replace(skinned, weighed=Weighed(added=(Added("lead", v(0.5), v(-0.03), v(1.0)),))))
    assert float(put.first) == pytest.approx(float(lead.first), rel=1e-12)


def test_nothing_is_painted_without_an_outline():
    with pytest.raises(SurfaceError, match=r"outline\.at: .*no area to paint"):
        painted(Surface())
    assert level_moment(1.0, 0.0, 1.0, 0.5, ARM)[1] == 0.0


# ---- a change that was not weighed again


WEIGHED = Weighed(mass=v(2.0), push_behind=v(ARM), rising=(v(8.2),), sinking=(v(7.8),))


def skinned(surface, thickness=0.5e-3, weighed=WEIGHED):
    return replace(with_sheet(surface, left_skin=Skin(v(thickness), "mine")), weighed=weighed)


def test_parts_that_changed_are_added_to_what_the_scale_said_before(surface):
    before, after = skinned(surface), skinned(surface, 0.6e-3)
    one, other = weigh(before), weigh_after(before, after)
    bare = [weigh(replace(state, weighed=Weighed())) for state in (before, after)]
    assert float(weigh(after).mass) == 2.0  # the scale's word alone would hide the change
    assert float(other.mass - one.mass) == pytest.approx(float(bare[1].mass - bare[0].mass))
    assert float(other.first - one.first) == pytest.approx(float(bare[1].first - bare[0].first))
    assert "before the change" in other.mass_source.text
    spread, points = other.between(np.array([0.0, 0.5, 1.1])), other.points()
    assert spread[0].sum() + sum(m for _, m, _ in points) == pytest.approx(float(other.mass))


def test_no_change_and_no_weighing_change_nothing(surface):
    before = skinned(surface)
    assert float(weigh_after(before, before).first) == pytest.approx(float(weigh(before).first), rel=1e-15)
    loose = skinned(surface, weighed=Weighed())
    assert float(weigh_after(loose, skinned(surface, 0.6e-3, Weighed())).mass) > float(weigh(loose).mass)


def test_a_new_weighing_counts_by_itself(surface):
    again = replace(WEIGHED, mass=v(2.1), rising=(v(8.4),))
    after = skinned(surface, 0.6e-3, again)
    assert not same_weighing(WEIGHED, again)
    assert float(weigh_after(skinned(surface), after).mass) == 2.1
    assert not same_weighing(Weighed(), Weighed())


@pytest.mark.parametrize("weighed", [WEIGHED, Weighed(mass=v(2.0))], ids=["moment too", "mass alone"])
def test_paint_and_things_put_on_are_counted_once(surface, weighed):
    tab = Added("tab", v(0.1), v(0.4), v(0.3))
    before = skinned(surface, weighed=replace(weighed, paint=v(0.2)))
    after = skinned(surface, weighed=replace(weighed, paint=v(0.3), added=(tab,)))
    one, other = weigh(before), weigh_after(before, after)
    assert float(other.mass - one.mass) == pytest.approx(0.1 + 0.1)
    skin = float(only(one, "left_skin").x)
    assert float(other.first - one.first) == pytest.approx(0.1 * skin + 0.1 * 0.4)
    lead = replace(before, balance_mass=BalanceMass(v(0.5), v(1.0), v(0.03)))
    assert float(weigh_after(before, lead).first - one.first) == pytest.approx(-0.5 * 0.03)
