"""Masses of parts, each by a second way."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest

from surfacecheck.masses import Spread, channel, half_ellipse, solid_rivet, strip_law, weigh
from surfacecheck.model import (
    Bracket,
    Doubler,
    DrivenBy,
    Fixing,
    FlangesPoint,
    Hinge,
    Horn,
    HornPlate,
    NoseSkin,
    Outline,
    Pin,
    RibHole,
    Ribs,
    Rivet,
    RivetSet,
    Row,
    Side,
    Skin,
    Spar,
    WebHole,
    YesNo,
)
from surfacecheck.provenance import Basis

from .conftest import NONE, RHO, G, only, place, v, with_sheet


def by_strips(function, length=1.1, n=20000):
    y = (np.arange(n) + 0.5) / n * length
    return float(np.mean(function(y / length)) * length)


EDGE = np.array([0.42, 0.30])


def flat_skin(thickness):
    """One flat skin from the pins to the trailing edge."""
    law = strip_law(np.asarray(thickness), RHO)
    return Spread(np.array([0.0, 1.1]), (np.zeros(2), EDGE, np.zeros(2)), law).between(np.array([0.0]), np.array([1.1]))


def test_flat_skin_centre_is_int_c2_over_2_by_int_c():
    """1.10 m, 0.42 to 0.30 m: 0.1817 m aft of the pins."""
    mass, first = flat_skin(0.5e-3)
    assert first[0] / mass[0] == pytest.approx(0.1817, abs=5e-5)
    assert mass[0] == pytest.approx(RHO * 0.5e-3 * 0.396, rel=1e-12)


def test_centre_along_the_pins_is_int_y_c_by_int_c(surface):
    """1.10 m, 0.42 to 0.30 m: L (a + 2 b) / (3 (a + b)) = 1.1 x 1.02 / 2.16 = 0.51944 m, and not the middle, 0.55."""
    law = strip_law(np.asarray(0.5e-3), RHO)
    along = Spread(np.array([0.0, 1.1]), (np.zeros(2), EDGE, np.zeros(2)), law)
    assert along.centre() == pytest.approx(1.1 * 1.02 / 2.16, rel=1e-12)
    # the same in two bays, and as one of a stack
    bays = Spread(
        np.array([0.0, 0.4, 1.1]), (np.zeros(3), np.interp([0.0, 0.4, 1.1], [0.0, 1.1], EDGE), np.zeros(3)), law
    )
    assert bays.centre() == pytest.approx(1.1 * 1.02 / 2.16, rel=1e-12)
    edges = np.array([[0.42, 0.30], [0.30, 0.30]])
    many = Spread(np.array([0.0, 1.1]), (np.zeros(2), edges, np.zeros(2)), law).centre()
    assert many[0] == along.centre()
    assert many[1] == pytest.approx(0.55, rel=1e-12)
    # web at 25 mm and half the depth of 60 to 45 mm: 0.395 to 0.275 m, up the slope
    skin = only(weigh(with_sheet(surface, left_skin=Skin(v(0.5e-3), "mine"))), "left_skin")
    slope = lambda u: np.hypot(0.395 - 0.12 * u, 0.03 - 0.0075 * u)  # noqa: E731
    assert float(skin.y) == pytest.approx(by_strips(lambda u: 1.1 * u * slope(u)) / by_strips(slope), rel=1e-8)
    assert float(skin.y) == pytest.approx(0.517, abs=5e-4)


def test_thicker_skin_is_paid_twice():
    """0.016 to 0.020 in on both sides: 0.217 kg, 0.387 N m, and 0.658 kg at 60 mm to level it again."""
    thin, thick = flat_skin(0.016 * 0.0254), flat_skin(0.020 * 0.0254)
    more, first = 2.0 * (thick[0] - thin[0])[0], 2.0 * (thick[1] - thin[1])[0]
    assert more == pytest.approx(0.217, abs=5e-4)
    assert first * G == pytest.approx(0.387, abs=5e-4)
    assert first / 0.060 == pytest.approx(0.658, abs=5e-4)


def test_skin_runs_from_web_to_edge_along_the_slope(surface):
    masses = weigh(with_sheet(surface, left_skin=Skin(v(0.5e-3), "mine")))
    chord = lambda u: 0.395 - 0.12 * u  # noqa: E731
    slope = lambda u: np.hypot(chord(u), 0.03 - 0.0075 * u)  # noqa: E731
    mass = RHO * 0.5e-3 * by_strips(slope)
    first = RHO * 0.5e-3 * by_strips(lambda u: slope(u) * (0.025 + chord(u) / 2.0))
    assert float(masses.mass) == pytest.approx(mass, rel=1e-8)
    assert float(masses.moment) == pytest.approx(first * G, rel=1e-8)
    assert {gap.name for gap in masses.left_out} == {"spar", "ribs"}


def test_channel_by_areas_of_rectangles_and_rings():
    """80 x 25 x 1 mm, 3 mm inside: flats, and two quarter rings pi/4 (4^2 - 3^2); the lips turn two more."""
    ring = math.pi / 4.0 * (16.0 - 9.0)
    width, _ = channel(*(np.asarray(x * 1e-3) for x in (80.0, 1.0, 25.0, 3.0, 0.0)))
    assert width * 1e3 == pytest.approx(72.0 + 2 * 21.0 + 2 * ring, rel=1e-12)
    lipped, centre = channel(*(np.asarray(x * 1e-3) for x in (80.0, 1.0, 25.0, 3.0, 10.0)))
    assert lipped * 1e3 == pytest.approx(72.0 + 2 * 17.0 + 2 * 6.0 + 4 * ring, rel=1e-12)
    in_ring = 4.0 - 4.0 * (64.0 - 27.0) / (3.0 * math.pi * (16.0 - 9.0))
    by_hand = (72.0 * 0.5 + 2 * 17.0 * 12.5 + 2 * 6.0 * 24.5 + 2 * ring * in_ring + 2 * ring * (25.0 - in_ring)) / (
        72.0 + 34.0 + 12.0 + 4 * ring
    )
    assert centre * 1e3 == pytest.approx(by_hand, rel=1e-12)


def test_half_ellipse_by_short_chords():
    s = np.linspace(0.0, math.pi, 200001)
    x, z = 0.06 * np.sin(s), 0.03 * np.cos(s)
    step = np.hypot(np.diff(x), np.diff(z))
    length, centre = half_ellipse(np.array(0.06), np.array(0.03))
    assert float(length) == pytest.approx(step.sum(), rel=1e-8)
    assert float(centre) == pytest.approx(np.sum(step * (x[1:] + x[:-1]) / 2.0) / step.sum(), rel=1e-8)


def test_nose_takes_the_measured_length_and_loses_its_openings(surface):
    nose = with_sheet(surface, nose_skin=NoseSkin(v(0.5e-3), "mine", v(0.07)))
    hinge = {"bottom": Hinge(up=v(0.55), name="bottom")}
    measured = replace(
        nose,
        outline=Outline(at=(place(0.0, 0.035, 0.025, 0.42, 0.06, 0.145), place(1.1, 0.03, 0.025, 0.30, 0.045, 0.125))),
        hinges=hinge,
    )
    masses = weigh(measured)
    assert float(only(masses, "nose_skin").mass) == pytest.approx(RHO * 0.5e-3 * 1.1 * 0.135, rel=1e-12)
    assert float(only(masses, "nose_skin opening at bottom").mass) == pytest.approx(-RHO * 0.5e-3 * 0.07 * 0.135)
    assert only(weigh(nose), "nose_skin").source.basis is Basis.ASSUMED
    assert float(only(masses, "nose_skin").x) < 0.025


@pytest.mark.parametrize(("point", "way"), [(FlangesPoint.BEHIND, 1.0), (FlangesPoint.AHEAD, -1.0)])
def test_spar_flanges_move_the_centre_their_way(surface, point, way):
    spar = Spar(v(0.8e-3), "mine", v(0.018), point, NONE, v(2.4e-3), (WebHole(v(0.3), v(0.025)),))
    masses = weigh(with_sheet(surface, spar=spar))
    width, centre = channel(np.asarray(0.0525), *(np.asarray(x) for x in (0.8e-3, 0.018, 2.4e-3, 0.0)))
    piece = only(masses, "spar")
    assert float(piece.mass) == pytest.approx(RHO * 0.8e-3 * float(width) * 1.1, rel=1e-12)
    # the centre hardly varies with depth: that of the middle is near
    assert float(piece.x) == pytest.approx(0.025 + way * (float(centre) - 0.4e-3), abs=2e-5)
    assert float(only(masses, "spar hole 1").mass) == pytest.approx(-RHO * 0.8e-3 * math.pi / 4 * 0.025**2)


def test_rib_is_wedge_half_ellipse_and_flanges(surface):
    hole = RibHole(v(0.15), v(0.03))
    ribs = Ribs(v(0.5e-3), "mine", (v(0.0),), v(0.015), (), v(1.6e-3), YesNo.YES, (hole,))
    piece = only(weigh(with_sheet(surface, ribs=ribs)), "rib 1")
    wedge, nose, cut = 0.395 * 0.06 / 2, math.pi / 4 * 0.06 * 0.06, math.pi / 4 * 0.03**2
    sides, around = 2 * math.hypot(0.395, 0.03), math.pi * 0.03 * 1.54197  # a = 2 b: 2 a E(3/4) = 1.54197 pi b
    rim = math.pi / 2 * 1.85e-3 + 0.015 - 2 * 2.1e-3
    assert float(piece.mass) == pytest.approx(RHO * 0.5e-3 * (wedge + nose - cut + rim * (sides + around)), rel=1e-5)
    behind_web = replace(ribs, in_nose=YesNo.NO, holes=())
    short = only(weigh(with_sheet(surface, ribs=behind_web)), "rib 1")
    assert float(short.mass) == pytest.approx(RHO * 0.5e-3 * (wedge + rim * sides), rel=1e-12)
    x = (wedge * (0.025 + 0.395 / 3) + rim * sides * (0.025 + 0.395 / 2)) / (wedge + rim * sides)
    assert float(short.x) == pytest.approx(x, rel=1e-12)


def test_doubler_and_rivets_and_fittings(surface):
    rivets = {"r": Rivet(set=RivetSet.PULLED, diameter=v(4.0e-3), one_weighs=v(0.65e-3), name="r")}
    doubler = Doubler("spar web", v(0.8e-3), "mine", v(0.0), v(0.2), v(0.05), name="d")
    bracket = Bracket(
        thickness=v(2.0e-3), alloy="mine", rivet="r", along=3, gap_along=v(0.016), sideways=2, gap_sideways=v(0.020),
        edge={"bracket": v(0.008)}, legs=1, leg_wide=v(0.028), pin=Pin(edge=v(0.012)), name="plate",
    )  # fmt: skip
    fix = Fixing("r", 3, v(0.02), 2, v(0.03), v(0.045), v(0.008))
    plate = HornPlate(v(2e-3), "mine", v(0.03), v(5e-3), v(0.01))
    horn = Horn(
        driven_by=DrivenBy.TWO_CABLES,
        up=v(0.0),
        arm=v(0.1),
        side=Side.BOTH,
        bolt_behind=v(0.0),
        plate=plate,
        fixed_with=fix,
    )
    whole = replace(
        with_sheet(surface, doublers={"d": doubler}),
        rivets=rivets,
        rows={"te": Row(("left_skin", "right_skin"), "r", v(0.02), v(1.08), pitch=v(0.025), lines=1)},
        hinges={"bottom": Hinge(up=v(0.09), bracket="plate", name="bottom")},
        brackets={"plate": bracket},
        horn=horn,
    )
    masses = weigh(with_sheet(whole, ribs=Ribs(up=())))
    assert float(only(masses, "d").mass) == pytest.approx(RHO * 0.8e-3 * 0.2 * 0.05)
    assert float(only(masses, "row te").mass) == pytest.approx(0.65e-3 * 43)  # 1060/25 + 1, the ends stay
    assert float(only(masses, "rivets of bottom bracket").mass) == pytest.approx(6 * 0.65e-3)
    assert float(only(masses, "bottom bracket").mass) == pytest.approx(RHO * 2e-3 * (0.048 * 0.036 + 0.028 * 0.037))
    assert float(only(masses, "horn").mass) == pytest.approx(RHO * 2e-3 * (0.056 * 0.046 + 2 * 0.03 * 0.11))
    assert float(only(masses, "horn").mass * only(masses, "horn").x) == pytest.approx(
        RHO * 2e-3 * 0.056 * 0.046 * 0.065
    )


def test_solid_rivet_1_8_by_1_4_in_from_memory():
    """Head 0.001401 and shank 0.003068 cubic inches at 0.099 lb/in3: 4.42e-4 lb, 0.201 g, 2260 a pound."""
    pounds = solid_rivet(0.125 * 0.0254, 0.25 * 0.0254, 0.099 * 0.45359237 / 0.0254**3) / 0.45359237
    assert pounds == pytest.approx(4.42e-4, abs=5e-7)
    assert 1.0 / pounds == pytest.approx(2260.0, abs=5.0)


@pytest.mark.parametrize(("d", "grams"), [(3.2e-3, 0.40), (4.0e-3, 0.65), (4.8e-3, 1.1)])
def test_pulled_rivet_by_kind_is_from_memory(surface, d, grams):
    rivets = {"r": Rivet(set=RivetSet.PULLED, diameter=v(d), name="r")}
    rows = {"te": Row(("left_skin", "right_skin"), "r", v(0.0), v(1.0), count=10)}
    piece = only(weigh(replace(surface, rivets=rivets, rows=rows)), "row te")
    assert float(piece.mass) == pytest.approx(10 * grams * 1e-3)
    assert piece.source.basis is Basis.FROM_MEMORY
