"""The whole mass: what is left out, the scale's word, balance, stacks."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from surfacecheck.masses import weigh
from surfacecheck.model import (
    BalanceMass,
    FlangesPoint,
    Outline,
    Ribs,
    Skin,
    Spar,
    Surface,
    Weighed,
    YesNo,
)
from surfacecheck.provenance import UNKNOWN

from .conftest import BARE, NONE, G, only, place, v, with_sheet


def test_unknown_parts_are_left_out_by_the_key_that_hides_them(surface):
    half = with_sheet(
        surface, left_skin=Skin(v(0.5e-3), "mine"), right_skin=Skin(UNKNOWN, "mine"), spar=Spar(v(0.8e-3))
    )
    masses = weigh(half)
    left = {gap.name: gap.key for gap in masses.left_out}
    assert left["right_skin"] == "sheet.right_skin.thickness"
    assert left["spar"] == "sheet.spar.alloy"
    assert left["ribs"] == "sheet.ribs.up"
    assert not masses.known
    assert float(masses.mass) == float(only(masses, "left_skin").mass) > 0.0
    nothing = weigh(replace(surface, outline=Outline()))
    assert nothing.left_out[0].key == "outline.at"
    assert float(nothing.mass) == float(nothing.x) == float(nothing.moment) == 0.0


def test_a_metal_nobody_knows_is_a_gap(surface):
    odd = with_sheet(surface, left_skin=Skin(v(0.5e-3), "unobtainium"))
    assert ("left_skin", "sheet.left_skin.alloy") in {(gap.name, gap.key) for gap in weigh(odd).left_out}


@pytest.fixture
def skinned(surface):
    skin = Skin(v(0.5e-3), "mine")
    spar = Spar(v(0.8e-3), "mine", v(0.018), FlangesPoint.BEHIND, NONE, v(2.4e-3), ())
    return with_sheet(
        surface,
        left_skin=skin,
        right_skin=skin,
        spar=spar,
        ribs=Ribs(v(0.5e-3), "mine", (v(0.0), v(1.1)), v(0.015), (), v(1.6e-3), YesNo.NO, ()),
    )


def test_the_scale_overrides_the_sum(skinned):
    sums = weigh(skinned)
    assert sums.known
    weighed = weigh(replace(skinned, weighed=Weighed(mass=v(2.0))))
    assert float(weighed.mass) == 2.0
    assert float(weighed.x) == pytest.approx(float(sums.x), rel=1e-12)
    pushed = weigh(replace(skinned, weighed=Weighed(mass=v(2.0), tail_push=v(8.0), push_behind=v(0.36))))
    assert float(pushed.moment) == pytest.approx(8.0 * 0.36)
    assert float(pushed.x) == pytest.approx(8.0 * 0.36 / (2.0 * G))
    painted = weigh(
        replace(skinned, weighed=Weighed(mass=v(2.0), tail_push=v(8.0), push_behind=v(0.36), paint=v(0.25)))
    )
    assert float(painted.mass) == 2.25
    centre = float(only(painted, "left_skin").x)
    assert float(painted.moment) == pytest.approx(8.0 * 0.36 + 0.25 * centre * G)


def test_a_scale_alone_spreads_its_mass_as_the_area(surface):
    masses = weigh(replace(surface, weighed=Weighed(mass=v(3.0))))
    assert masses.known
    assert (float(masses.mass), float(masses.x)) == (pytest.approx(3.0), pytest.approx(0.1817, abs=5e-5))
    assert masses.between(np.array([0.0, 1.1]))[0].sum() == pytest.approx(3.0)
    assert not weigh(Surface(weighed=Weighed(mass=v(3.0)))).known


@pytest.mark.parametrize("weighed", [Weighed(), Weighed(mass=v(2.0), tail_push=v(8.0), push_behind=v(0.36))])
def test_bays_and_points_give_back_the_whole(skinned, weighed):
    masses = weigh(replace(skinned, weighed=weighed))
    mass, first = masses.between(np.array([0.1, 0.33, 0.34, 1.0]))
    points = masses.points()
    assert mass.sum() + sum(m for _, m, _ in points) == pytest.approx(float(masses.mass), rel=1e-12)
    assert first.sum() + sum(f for _, _, f in points) == pytest.approx(float(masses.first), rel=1e-12)


def test_nose_mass_levels_the_surface(skinned):
    masses = weigh(skinned)
    ahead = np.asarray(0.03)
    lead = BalanceMass(v(float(masses.nose_mass(ahead))), v(1.0), v(0.03))
    assert float(weigh(replace(skinned, balance_mass=lead)).moment) == pytest.approx(0.0, abs=1e-12)
    heavy = BalanceMass(v(100.0), v(1.0), v(0.03))
    assert float(weigh(replace(skinned, balance_mass=heavy)).nose_mass(ahead)) == 0.0


def test_static_balance_of_a_repair():
    """A repair of 0.15 lb at 12 in is 1.8 in-lb and needs 0.60 lb 3 in ahead (worked by hand)."""
    outline = Outline(at=(place(0.0, 0.0, 0.0, 0.4, 0.05), place(1.0, 0.0, 0.0, 0.4, 0.05)))
    pound, inch = 0.45359237, 0.0254
    repair = BalanceMass(v(0.15 * pound), v(0.5), v(-12.0 * inch))
    masses = weigh(Surface(outline=outline, sheet=BARE, balance_mass=repair))
    assert float(masses.moment) / (pound * G * inch) == pytest.approx(1.8, rel=1e-12)
    assert float(masses.nose_mass(np.asarray(3.0 * inch))) / pound == pytest.approx(0.60, rel=1e-12)


def test_a_stack_gives_each_variant_to_the_last_bit(skinned):
    thick = np.array([0.4e-3, 0.5e-3, 0.63e-3])

    def made(t):
        skin = Skin(v(t), "mine")
        return weigh(with_sheet(skinned, left_skin=skin, right_skin=skin))

    stack = made(thick)
    breaks = np.array([0.0, 0.3, 1.1])
    for i, t in enumerate(thick):
        alone = made(t)
        assert stack.mass[i] == alone.mass
        assert stack.moment[i] == alone.moment
        assert np.array_equal(stack.between(breaks)[0][i], alone.between(breaks)[0])


def test_rivets_that_stand_apart_weigh_what_is_there(told) -> None:
    """0.40 g small, 0.65 g large; two out and three more put in make one more; at the web, a flange half-width aft."""
    from surfacecheck.changes import columns_of

    out = 'where = "left skin to spar, rivets 12 and 13"\nwhat = "rivets missing"\ntry = ["extra rivets either side"]'
    drawn, now, more = (weigh(one.fully) for one in columns_of(told(out)))
    assert [1e3 * float(one.mass - drawn.mass) for one in (now, more)] == pytest.approx([-0.8, 0.4])
    assert float(now.first - drawn.first) == pytest.approx(-0.8e-3 * (0.025 + 0.009))
    one = 'where = "hinge middle, bracket rivet 3"\nwhat = "wrong rivet"\nrivet = "small"'
    drawn, now, _ = (weigh(one.fully) for one in columns_of(told(one)))
    assert 1e3 * float(now.mass - drawn.mass) == pytest.approx(-0.25)
    assert 1e3 * float(now.first - drawn.first) == pytest.approx(-0.25 * 0.025)
