"""Balance and its bench: published limits, worked readings and rule loads.

- A reading of 11.2 N rising and 10.8 N sinking, friction below 2.5 % of the greatest moment allowed, scale error not
  above 2.5 %, both readings within the range: form for control surface masses and hinge moments of a powered
  sailplane's maintenance manual (common practice; the arithmetic on it is done here by hand).
- 14 CFR 23.659, Amdt 23-62 (balance weights: 24 g, 12 g, 12 g), with 23.303 (1.5) and 23.625 (1.15).
- 14 CFR 23.629(d), Amdt 23-62: where simplified criteria may be used.
- AC 43.13-1B, paragraph 1-38: no weight aft of the hinge; the sum of a repair by hand.
- A training example of static balance: 8.50 lb at 5 in is 42.5 in-lb, 0.750 lb at 3 in is 2.25 in-lb.
- A sailplane rudder's range of -0.6 to 0 kg cm, as such a manual prints it.
"""

from __future__ import annotations

import numpy as np
import pytest

from surfacecheck.loads import part23
from surfacecheck.masses import (
    FRICTION,
    GRAVITY,
    balance_parameter,
    free_play_share,
    gate_open,
    mean_and_friction,
    read_scales,
)
from surfacecheck.model import Surface, Weighed
from surfacecheck.provenance import Basis, Source, Value
from surfacecheck.rules import DOES_NOT_MEET, MEETS, NOT_COVERED
from surfacecheck.studies.balancing._balance_criteria import bench_rules

POUND, INCH, KNOT = 0.45359237, 0.0254, 1852.0 / 3600.0
READ = Source(Basis.MEASURED, "scale")


def v(si):
    return Value(si, f"{si}", READ)


def test_the_reading_of_the_form():
    """(11.2 + 10.8) / 2 = 11.0 N; (11.2 - 10.8) / 2 = 0.2 N, 1.8 % of it: below 2.5 %."""
    push, friction = mean_and_friction(11.2, 10.8)
    assert push == pytest.approx(11.0)
    assert friction == pytest.approx(0.2)
    assert 100.0 * friction / push == pytest.approx(1.8, abs=0.05)
    assert friction / push < FRICTION


def rules(rising, sinking, arm, allowed=(), step=None):
    weighed = Weighed(
        push_behind=v(arm), rising=(v(rising),), sinking=(v(sinking),), maker_allows=tuple(v(one) for one in allowed),
        **({} if step is None else {"scale_step": v(step)}),
    )  # fmt: skip
    readings = read_scales(weighed)
    return {one.name: one for one in bench_rules(Surface(weighed=weighed), readings, float(readings.moment))}


def test_friction_is_held_against_the_greatest_moment_allowed_and_else_against_the_moment_read():
    """0.2 N at 0.143 m is 0.0286 N m: 1.63 % of 1.75 N m allowed, 1.82 % of the 1.573 N m read."""
    form = rules(11.2, 10.8, 0.143, (1.32, 1.75))
    friction = form["friction of the hinges"]
    assert friction.found == pytest.approx(0.2 * 0.143 / 1.75)
    assert friction.outcome == MEETS
    assert friction.source.basis is Basis.COMMON_PRACTICE
    alone = rules(11.2, 10.8, 0.143)["friction of the hinges"]
    assert alone.found == pytest.approx(0.2 / 11.0)
    assert "not given" in alone.says
    assert rules(11.6, 10.4, 0.143, (1.32, 1.75))["friction of the hinges"].outcome == DOES_NOT_MEET


def test_both_readings_must_lie_within_the_range_of_the_form():
    """9.2 to 12.2 N at 143 mm; 12.1 N mean with 0.2 N of friction rises to 12.3 N."""
    within = rules(11.2, 10.8, 0.143, (9.2 * 0.143, 12.2 * 0.143))
    assert [one.outcome for name, one in within.items() if "moment" in name] == [MEETS, MEETS]
    above = rules(12.3, 11.9, 0.143, (9.2 * 0.143, 12.2 * 0.143))
    assert above["moment, not more tail-heavy than allowed"].outcome == DOES_NOT_MEET
    assert above["moment, not more tail-heavy than allowed"].found == pytest.approx(12.3 * 0.143)
    assert above["moment, not more nose-heavy than allowed"].outcome == MEETS


def test_a_range_that_goes_through_nought():
    """A sailplane rudder, -0.6 to 0 kg cm: level is just within; of a moment of nought no share can be told."""
    kg_cm = 0.01 * GRAVITY
    level = rules(0.0, 0.0, 0.4, (-0.6 * kg_cm, 0.0))
    assert {one.outcome for one in level.values()} == {MEETS}
    assert level["friction of the hinges"].found == 0.0
    assert rules(0.0, 0.0, 0.4)["friction of the hinges"].outcome == NOT_COVERED


def test_half_a_step_of_the_scale_is_held_against_the_push():
    assert rules(11.2, 10.8, 0.143, step=0.5)["step of the scale"].found == pytest.approx(0.25 / 11.0)
    assert rules(11.2, 10.8, 0.143, step=0.6)["step of the scale"].outcome == DOES_NOT_MEET


@pytest.mark.parametrize(
    ("direction", "pounds"), [("normal to the surface", 60.0), ("fore and aft", 30.0), ("along the hinge line", 30.0)]
)
def test_balance_weight_of_two_and_a_half_pounds(direction, pounds):
    """23.659: 24 g, 12 g, 12 g of 2.5 lb."""
    force = part23.balance_mass_load(direction, 2.5 * POUND)
    assert force / (POUND * GRAVITY) == pytest.approx(pounds, rel=1e-12)


def test_balance_weight_at_ultimate_with_the_fitting_factor():
    """60 lb normal: 90 lb by 1.5, 103.5 lb with 1.15."""
    force = part23.balance_mass_load("normal to the surface", 2.5 * POUND) / (POUND * GRAVITY)
    assert force * 1.5 == pytest.approx(90.0)
    assert force * 1.5 * 1.15 == pytest.approx(103.5)


def test_two_and_a_half_kilograms_at_24_g():
    assert part23.balance_mass_load("normal to the surface", 2.5) == pytest.approx(588.40, abs=5e-3)


@pytest.mark.parametrize(("knots", "mach", "open_"), [(259.0, 0.45, True), (260.0, 0.45, False), (200.0, 0.5, False)])
def test_where_simplified_criteria_may_be_used(knots, mach, open_):
    """23.629(d): below 260 knots EAS and below Mach 0.5."""
    assert bool(gate_open(knots * KNOT, mach)) is open_


def test_static_balance_of_the_training_example():
    assert pytest.approx(42.5) == 8.50 * POUND * GRAVITY * 5.0 * INCH / (POUND * GRAVITY * INCH)
    weighed = Weighed(
        push_behind=v(5.0 * INCH), rising=(v(8.50 * POUND * GRAVITY),), sinking=(v(8.50 * POUND * GRAVITY),)
    )
    assert read_scales(weighed).moment / (POUND * GRAVITY * INCH) == pytest.approx(42.5)
    nose = Weighed(push_behind=v(-3.0 * INCH), tail_push=v(0.750 * POUND * GRAVITY))
    assert read_scales(nose).moment / (POUND * GRAVITY * INCH) == pytest.approx(-2.25)


def test_balance_parameter_of_plain_shapes():
    """Flat plate from the hinge, gamma = 1.5 b / c; all mass at the trailing edge, b / c; balanced, nought."""
    c, b, m = 0.36, 0.32, 2.0
    assert balance_parameter(b, m * c / 2.0, m * c**2 / 3.0) == pytest.approx(1.5 * b / c)
    assert balance_parameter(b, m * c, m * c**2) == pytest.approx(b / c)
    assert balance_parameter(b, 0.0, m * c**2) == 0.0
    stack = balance_parameter(b, np.array([0.1, 0.2]), 0.05)
    assert stack[1] == pytest.approx(2.0 * stack[0])


def test_free_play_of_two_and_a_half_per_cent():
    """Report 45, from memory: 5 mm at a chord of 200 mm is just 2.5 %."""
    assert free_play_share(0.005, 0.200) == pytest.approx(0.025)
