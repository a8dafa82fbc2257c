"""What must hold for any outline and any load: closure, totals, mirror, units."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from surfacecheck.loads import (
    CURVED,
    EVEN,
    STRAIGHT,
    AirLoad,
    FigureA7Load,
    Planform,
    Shape,
    airload,
    airload_totals,
    appendix_a,
    at_ribs,
    ground_gust_pressure,
    part23,
)
from surfacecheck.provenance import Basis, Source

SHAPES = st.sampled_from([EVEN, STRAIGHT, CURVED])


@st.composite
def planforms(draw):
    k = draw(st.integers(2, 5))
    steps = draw(st.lists(st.floats(0.05, 0.6), min_size=k - 1, max_size=k - 1))
    lengths = {
        name: draw(st.lists(st.floats(low, high), min_size=k, max_size=k))
        for name, low, high in (("edge", 0.15, 0.6), ("web", 0.0, 0.06), ("nose", 0.0, 0.08), ("fin", 0.1, 0.6))
    }
    return Planform.of(np.concatenate([[0.0], np.cumsum(steps)]), **lengths)


def by_midpoints(function, planform, n=4000):
    """Sum over the span by midpoints of n strips a bay: slow, and knows nothing of Gauss points."""
    u = (np.arange(n) + 0.5) / n
    length = np.diff(planform.y)
    y = (planform.y[:-1, None] + length[:, None] * u).reshape(-1)
    bay = np.repeat(np.arange(len(length)), n)
    return np.sum(function(y, bay) * np.repeat(length / n, n), axis=-1)


@given(st.floats(0.2, 0.6), st.floats(0.0, 0.5), st.floats(10.0, 3000.0))
def test_figure_a7_closes(share, d, w):
    """Total w, centre d', integrated along the chord by Simpson's rule, exact for both straight pieces."""
    p1, p2 = appendix_a.figure_a7(w, share, d)
    fore = 1.0 - share
    total = (p1 + p2) / 2.0 * fore + p2 / 2.0 * share
    moment = fore**2 * (p1 + 2.0 * p2) / 6.0 + p2 / 2.0 * share * (fore + share / 3.0)
    assert total == pytest.approx(w, rel=1e-12)
    assert moment == pytest.approx(w * d, rel=1e-9, abs=1e-9 * w)


@given(st.floats(0.2, 0.6))
def test_governing_ratios_of_figure_a7_and_parabola(share):
    """Load 0.5 + E, hinge moment (2/3)(1 + 2E), at d' = 0.5."""
    plan = Planform.of([0.0, 1.0], [share, share], fin=[1.0 - share, 1.0 - share])
    a7 = airload_totals(FigureA7Load(np.asarray(1000.0), 0.5), plan)
    parabola = airload_totals(AirLoad(np.asarray(1000.0), "pins", "pins", CURVED), plan)
    assert a7[0] / parabola[0] == pytest.approx(0.5 + share, rel=1e-12)
    assert a7[1] / parabola[1] == pytest.approx(2.0 / 3.0 * (1.0 + 2.0 * share), rel=1e-12)


@given(SHAPES)
def test_shapes_have_mean_one_and_their_arm(shape):
    s = (np.arange(20000) + 0.5) / 20000
    assert np.mean(shape.pressure(s)) == pytest.approx(1.0, rel=1e-8)
    assert np.mean(shape.pressure(s) * s) == pytest.approx(shape.arm, rel=1e-8)


@given(st.lists(st.floats(0.1, 3.0), min_size=2, max_size=6), st.floats(0.0, 1.0))
def test_typed_shapes_share_the_load(pressures, cut):
    shape = Shape.from_points(
        "typed", list(zip(np.linspace(0.0, 1.0, len(pressures)), pressures, strict=True)), Source(Basis.AS_SAID)
    )
    s = (np.arange(20000) + 0.5) / 20000 * cut
    force, moment = shape.share(np.array([cut]))
    assert force[0] == pytest.approx(np.mean(shape.pressure(s)) * cut, abs=1e-7)
    assert moment[0] == pytest.approx(np.mean(shape.pressure(s) * s) * cut, abs=1e-7)
    assert shape.share(np.array([1.0]))[0][0] == pytest.approx(1.0, rel=1e-12)


@given(planforms(), SHAPES, st.sampled_from(["pins", "web", "nose", "fin"]), st.sampled_from(["pins", "web", "nose"]))
def test_totals_are_pressure_times_area_whatever_the_start(plan, shape, over, start):
    air = AirLoad(np.asarray(1200.0), over, start, shape)
    force, torque, moment = airload_totals(air, plan)
    assert force == pytest.approx(1200.0 * plan.area(over), rel=1e-12)
    assert moment == pytest.approx(1200.0 * plan.spanwise_moment(over), rel=1e-12)
    assert torque == pytest.approx(by_midpoints(lambda y, b: airload(air, plan, y, b)[1], plan), rel=1e-6, abs=1e-6)


@given(planforms(), st.floats(0.0, 0.5))
def test_figure_a7_totals(plan, d):
    air = FigureA7Load(np.asarray(1200.0), d)
    force, torque, _ = airload_totals(air, plan)
    slow = [by_midpoints(lambda y, b, i=i: airload(air, plan, y, b)[i], plan) for i in (0, 1)]
    assert force == pytest.approx(slow[0], rel=1e-6, abs=1e-4)
    assert torque == pytest.approx(slow[1], rel=1e-6, abs=1e-4)


@given(planforms())
def test_torque_is_negative_aft_and_what_lies_ahead_takes_away(plan):
    """Trap: +z pressure aft of the hinge turns about -y; even on the whole chord it gives minus the first moment."""
    air = AirLoad(np.asarray(1.0), "nose", "nose", EVEN)
    assert airload_totals(air, plan)[1] == pytest.approx(-plan.chordwise_moment("nose"), rel=1e-12)
    aft = AirLoad(np.asarray(1.0), "pins", "pins", EVEN)
    assert airload_totals(aft, plan)[1] == pytest.approx(-plan.chord_squared("pins") / 2.0, rel=1e-12)
    assert airload_totals(aft, plan)[1] < 0.0


@given(planforms(), SHAPES, st.lists(st.floats(0.0, 1.0), min_size=2, max_size=9, unique=True))
def test_ribs_keep_force_moment_and_torque(plan, shape, fractions):
    ribs = plan.y[0] + (plan.y[-1] - plan.y[0]) * np.sort(np.array(fractions))
    if np.min(np.diff(ribs)) < 1e-3:
        return
    air = AirLoad(np.asarray(900.0), "pins", "web", shape)
    force = at_ribs(plan.y, ribs, lambda y, b: airload(air, plan, y, b)[0])
    torque = at_ribs(plan.y, ribs, lambda y, b: airload(air, plan, y, b)[1])
    whole = airload_totals(air, plan)
    scale = float(np.max(np.abs(force))) + 1.0
    assert np.sum(force) == pytest.approx(float(whole[0]), abs=1e-11 * scale)
    assert np.sum(force * ribs) == pytest.approx(float(whole[2]), abs=1e-11 * scale)
    assert np.sum(torque) == pytest.approx(float(whole[1]), abs=1e-11 * scale)


@given(planforms(), SHAPES, st.floats(50.0, 900.0))
def test_ground_gust_moment_is_exact_on_a_taper(plan, shape, q):
    p = ground_gust_pressure(plan, 0.75, np.asarray(q), shape)
    torque = airload_totals(AirLoad(p, "pins", "pins", shape), plan)[1]
    area = plan.area("pins")
    assert -torque == pytest.approx(0.75 * area / plan.span * area * q, rel=1e-12)


@given(planforms(), SHAPES)
def test_mirror(plan, shape):
    left = airload_totals(AirLoad(np.asarray(700.0), "pins", "nose", shape), plan)
    right = airload_totals(AirLoad(np.asarray(-700.0), "pins", "nose", shape), plan)
    assert all(a == -b for a, b in zip(left, right, strict=True))


@given(planforms(), SHAPES, st.floats(0.1, 10.0))
def test_a_larger_surface_of_the_same_form(plan, shape, scale):
    """Lengths times k: forces times k^2, moments times k^3, pressures as they were."""
    large = Planform.of(plan.y * scale, plan.edge * scale, plan.web * scale, plan.nose * scale)
    air = AirLoad(np.asarray(1000.0), "nose", "nose", shape)
    small, big = airload_totals(air, plan), airload_totals(air, large)
    assert big[0] == pytest.approx(small[0] * scale**2, rel=1e-10)
    assert big[1] == pytest.approx(small[1] * scale**3, rel=1e-9, abs=1e-9 * scale**3)


@given(st.floats(0.5, 2.0))
def test_rules_in_pounds_and_feet_are_continuous_in_si(k):
    """A rule that mixes its units up would not scale: q V^2, H c S, gust load linear in U."""
    assert part23.dynamic_pressure(k * 30.0) == pytest.approx(k * k * part23.dynamic_pressure(30.0))
    one = part23.vertical_tail_gust(6000.0, 1.1, 0.9, 3.0, 1.5, 4.0, 60.0, 15.24)[2]
    two = part23.vertical_tail_gust(6000.0, 1.1, 0.9, 3.0, 1.5, 4.0, 60.0, 15.24 * k)[2]
    assert two == pytest.approx(k * one, rel=1e-12)


@given(st.integers(1, 6))
def test_a_stack_gives_each_variant_to_the_last_bit(n):
    edges = np.linspace(0.3, 0.5, n)[:, None] * np.array([1.0, 0.8])
    y = np.array([0.0, 1.1])
    stack = airload_totals(AirLoad(np.full(n, 1200.0), "pins", "web", CURVED), Planform.of(y, edges, 0.02, 0.03))
    for i in range(n):
        alone = airload_totals(AirLoad(np.asarray(1200.0), "pins", "web", CURVED), Planform.of(y, edges[i], 0.02, 0.03))
        assert all(a[i] == b for a, b in zip(stack, alone, strict=True))
