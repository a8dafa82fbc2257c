"""What must hold whatever the numbers: monotone, bounded, zero where nothing is, infinite where nothing acts."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as some

import surfacecheck.strength as st
from surfacecheck.errors import SurfaceError

share = some.floats(0.0, 3.0)
above = some.floats(1e-3, 3.0)
load = some.floats(1e-3, 1e4)


@given(R_s=above, R_t=share, ratio=some.floats(0.0, 200.0), factor=some.floats(1.0, 7.0))
def test_wrinkled_margin_exhausts_the_rivet(R_s: float, R_t: float, ratio: float, factor: float) -> None:
    """Effects at (1 + margin), with k of that load, leave nothing: to 1e-12."""
    m = factor * (1.0 + float(st.wrinkled_row_margin(R_s, R_t, ratio, factor)))
    k = st.diagonal_tension_factor(m * ratio, 1.0)
    used = float(st.interaction_sum(m * R_s * st.row_factor(k), m * R_t))
    assert used == pytest.approx(1.0, abs=1e-12)


@given(R_s=above, R_t=share, ratio=some.floats(0.0, 200.0))
def test_wrinkled_margin_lies_between_its_bounds(R_s: float, R_t: float, ratio: float) -> None:
    """Not above the flat sheet, not below one wrinkled through and through."""
    got = float(st.wrinkled_row_margin(R_s, R_t, ratio, 1.5))
    flat = float(st.interaction_margin(1.5 * R_s, 1.5 * R_t))
    worst = float(st.interaction_margin(1.5 * R_s * 1.414, 1.5 * R_t))
    assert worst - 1e-12 <= got <= flat + 1e-12


@given(R_s=above, R_t=share, ratio=some.floats(0.01, 100.0), more=some.floats(1.0, 3.0))
def test_wrinkled_margin_falls_with_every_effect(R_s: float, R_t: float, ratio: float, more: float) -> None:
    base = float(st.wrinkled_row_margin(R_s, R_t, ratio, 1.5))
    for worse in ((R_s * more, R_t, ratio), (R_s, R_t * more, ratio), (R_s, R_t, ratio * more)):
        assert float(st.wrinkled_row_margin(*worse, 1.5)) <= base + 1e-12


@given(R_s=above, R_t=share, ratio=some.floats(0.01, 100.0))
def test_generic_search_finds_the_same(R_s: float, R_t: float, ratio: float) -> None:
    """Two ways to one multiplier: steps that close in, and halving."""

    def used(x: np.ndarray) -> np.ndarray:
        k = st.diagonal_tension_factor(1.5 * x * ratio, 1.0)
        return st.interaction_sum(1.5 * x * R_s * st.row_factor(k), 1.5 * x * R_t)

    halved = float(st.load_multiplier(used)) - 1.0
    assert halved == pytest.approx(float(st.wrinkled_row_margin(R_s, R_t, ratio, 1.5)), abs=1e-11)


@given(R_s=share, R_t=share)
def test_margins_are_multipliers(R_s: float, R_t: float) -> None:
    for function in (
        st.interaction_margin,
        st.lug_oblique_margin,
        st.bending_shear_margin,
        st.compression_shear_margin,
    ):
        m = float(function(R_s, R_t))
        if R_s + R_t < 1e-9:
            continue
        assert float(function(R_s * (1 + m), R_t * (1 + m))) == pytest.approx(0.0, abs=1e-9)


def test_nothing_acting_is_an_infinite_margin() -> None:
    for function in (
        st.interaction_margin,
        st.lug_oblique_margin,
        st.bending_shear_margin,
        st.compression_shear_margin,
    ):
        assert float(function(0.0, 0.0)) == np.inf
    assert float(st.wrinkled_row_margin(0.0, 0.0, 3.0, 1.5)) == np.inf
    assert float(st.margin(0.0, 0.0)) == np.inf
    assert float(st.margin(0.0, 1.0)) == -1.0


def test_no_strength_is_minus_one() -> None:
    """A rivet that holds nothing: infinite ratio, margin -1."""
    R = st.ratio(10.0, 0.0)
    assert float(st.interaction_margin(R, 0.0)) == -1.0
    assert float(st.wrinkled_row_margin(R, 0.0, 2.0, 1.5)) == -1.0
    assert float(st.wrinkled_row_margin(0.1, R, 2.0, 1.5)) == -1.0


def test_far_ends_of_wrinkling() -> None:
    """A sheet that wrinkles under nothing is wrinkled through and through; tiny effects leave a huge margin."""
    through = float(st.wrinkled_row_margin(0.2, 0.1, np.inf, 1.5))
    assert through == pytest.approx(float(st.interaction_margin(1.5 * 0.2 * 1.414, 1.5 * 0.1)), rel=1e-12)
    assert float(st.wrinkled_row_margin(1e-99, 0.0, 2.0, 1.5)) > 1e98
    assert float(st.wrinkled_row_margin(1e-300, 1e-300, 2.0, 1.5)) == np.inf


def test_sheet_that_never_buckles_is_flat() -> None:
    assert float(st.diagonal_tension_factor(1e9, np.inf)) == 0.0
    got = float(st.wrinkled_row_margin(0.2, 0.0, 0.0, 1.5))
    assert got == pytest.approx(1 / 0.3 - 1, rel=1e-12)


def test_tension_gives_no_credit_against_shear_buckling() -> None:
    assert float(st.compression_shear_margin(-0.9, 0.5)) == float(st.compression_shear_margin(0.0, 0.5)) == 1.0


@given(e=some.floats(0.0, 4.0), more=some.floats(0.0, 2.0))
def test_more_edge_never_hurts(e: float, more: float) -> None:
    assert float(st.bearing_stress(e + more, 67.0, 88.0)) >= float(st.bearing_stress(e, 67.0, 88.0))
    assert float(st.shear_out(27.0, e + more, 1.0, 1.0)) >= float(st.shear_out(27.0, e, 1.0, 1.0))


@given(d=some.floats(1e-3, 1e-2), t=some.floats(1e-4, 5e-3), more=some.floats(1.0, 3.0))
def test_thicker_sheet_never_hurts_a_rivet(d: float, t: float, more: float) -> None:
    for function in (st.thin_sheet_single, st.thin_sheet_double):
        assert 0.0 <= float(function(d, t)) <= float(function(d, t * more)) <= 1.0


@given(a=some.floats(0.01, 2.0), b=some.floats(0.01, 2.0))
def test_shear_coefficient_does_not_know_which_side_came_first(a: float, b: float) -> None:
    for edges in ("SSSS", "CCCC"):
        k, short = st.shear_coefficient(a, b, edges)
        assert (float(k), float(short)) == tuple(float(v) for v in st.shear_coefficient(b, a, edges))
        assert (5.34 if edges == "SSSS" else 8.98) - 1e-12 <= float(k) <= 14.642


@given(r=some.floats(1.0, 20.0))
def test_table_and_closed_form_of_shear_agree(r: float) -> None:
    """The closed form is 3.1 % low to 1.8 % high of the exact values; straight lines add 0.7 % at most."""
    for edges in ("SSSS", "CCCC"):
        exact, fit = float(st.shear_coefficient(r, 1.0, edges)[0]), float(st.shear_coefficient_fit(r, 1.0, edges)[0])
        assert 0.965 < fit / exact < 1.025
        assert exact <= float(st.shear_coefficient(1.0, 1.0, edges)[0])


@given(r=some.floats(0.05, 50.0))
def test_whole_waves_are_the_best_of_all(r: float) -> None:
    best = min((m / r + r / m) ** 2 for m in range(1, 60))
    assert float(st.compression_coefficient(r)) == pytest.approx(best, rel=1e-12)
    clamped = min(2.366 + 5.3 * (r / m) ** 2 + (m / r) ** 2 for m in range(1, 120))
    assert float(st.compression_coefficient(r, "sides clamped")) == pytest.approx(clamped, rel=1e-12)


@given(r=some.floats(0.5, 20.0))
def test_more_hold_never_lowers_a_coefficient(r: float) -> None:
    k = {
        e: float(st.compression_coefficient(r, e))
        for e in ("one side free", "all supported", "ends clamped", "all clamped")
    }
    assert k["one side free"] < k["all supported"] * (1 + 1e-12)
    assert k["ends clamped"] <= k["all clamped"]


@given(strength=load, effect=load, set_in=some.floats(-1e4, 1e4), sign=some.sampled_from([-1.0, 1.0]))
def test_set_in_part_does_not_scale(strength: float, effect: float, set_in: float, sign: float) -> None:
    """Factor x (1 + margin) x effect and the set-in part once make the strength, in the effect's direction."""
    m = float(st.set_in_margin(strength, sign * effect, set_in, 1.5))
    if abs(set_in) > strength:
        assert m == -1.0
        return
    total = 1.5 * (1 + m) * sign * effect + set_in
    assert total == pytest.approx(sign * strength, rel=1e-9, abs=1e-6)


def test_set_in_part_of_a_hinge_off_line() -> None:
    """Hand example: load x 1.5 with 1 mm set in gives 1.5 x (-233.55) + 48.975 = -301.35 N, not -276.86 N."""
    assert float(st.set_in_margin(301.35, -233.55, 48.975, 1.5)) == pytest.approx(0.0, abs=1e-6)


def test_multiplier_at_its_ends() -> None:
    assert float(st.load_multiplier(lambda x: 1.5 + x)) == 0.0
    assert float(st.load_multiplier(lambda x: 0.0 * x + 0.3)) == np.inf
    assert float(st.load_multiplier(lambda x: x / 1e-6)) == pytest.approx(1e-6, rel=1e-9)
    assert float(st.load_multiplier(lambda x: x / 1e9)) == pytest.approx(1e9, rel=1e-12)


@given(
    forces=some.lists(some.floats(-500, 500), min_size=3, max_size=3),
    places=some.lists(some.floats(0.0, 0.06), min_size=3, max_size=3),
)
def test_strip_moments_against_a_fine_scan(forces: list[float], places: list[float]) -> None:
    """The moment between line loads is straight, so the largest is under one of them or at an end."""
    f, a, L = np.array(forces), np.array(places), 0.06
    x = np.sort(np.concatenate([np.linspace(0, L, 601), a]))
    near = np.sum(f * (L - a) / L)
    hanging = np.sum(f * np.maximum(x[:, None] - a, 0.0), axis=1)
    supported = near * x - hanging
    assert float(st.strip_moment_supported(f, a, L)) == pytest.approx(np.abs(supported).max(), abs=1e-9)
    first, last = np.sum(f * a * (L - a) ** 2) / L**2, np.sum(f * a * a * (L - a)) / L**2
    clamped = supported - first - (last - first) * x / L
    assert float(st.strip_moment_clamped(f, a, L)) == pytest.approx(np.abs(clamped).max(), abs=1e-9)


def test_clamped_strip_against_the_middle_load_of_the_tables() -> None:
    """One load in the middle: F L/8 clamped, F L/4 supported."""
    assert float(st.strip_moment_clamped([80.0], [0.5], 1.0)) == pytest.approx(10.0)
    assert float(st.strip_moment_supported([80.0], [0.5], 1.0)) == pytest.approx(20.0)


def test_net_width_of_staggered_holes() -> None:
    """s^2/(4 g) a gap; never more than a straight cut through one hole."""
    straight = float(st.net_width(0.050, 0.004, 2))
    assert straight == pytest.approx(0.042)
    assert float(st.net_width(0.050, 0.004, 2, 0.010, 0.015)) == pytest.approx(0.042 + 0.010**2 / 0.060)
    assert float(st.net_width(0.050, 0.004, 2, 0.100, 0.015)) == pytest.approx(0.046)
    assert float(st.net_width(0.050, 0.004, 20)) == 0.0


@pytest.mark.parametrize(
    ("call", "words"),
    [
        (lambda: st.hole_area(-0.001), "hole is -0.001"),
        (lambda: st.thin_sheet_single(0.003, 0.0), "thickness is 0 .*above 0"),
        (lambda: st.solid_shear(0.003, [1.0, np.nan]), "F_su is nan"),
        (lambda: st.interaction_margin(-0.1, 0.0), "R_s is -0.1 .*at least 0"),
        (lambda: st.plate_critical(4.0, 7e10, 0.33, 0.001, 0.0), "width is 0"),
        (lambda: st.shear_coefficient(1.0, 1.0, "SCSC"), "SCSC.*SSSS, CCCC"),
        (lambda: st.compression_coefficient(1.0, "free"), '"free".*all supported.*one side free'),
        (lambda: st.strip_moment_supported([1.0], [0.05], 0.04), "places_from_far_end is -0.01"),
        (lambda: st.turning_bearing("ball"), '"ball".*hinge, push-pull joint, cable joint'),
        (lambda: st.fitting(casting=0.9), "casting factor is 0.9"),
        (lambda: st.wrinkled_row_margin(0.1, 0.1, 1.0, 0.0), "factor is 0"),
    ],
)
def test_errors_name_value_and_range(call, words: str) -> None:
    with pytest.raises(SurfaceError, match=words):
        call()


def test_lines_of_factors() -> None:
    """One line a row: which, why, on yield or ultimate; the switch at yield changes the line."""
    assert "1.5 on ultimate" in st.member().line
    assert "no fitting factor" in st.joint_by_test().line
    assert st.fitting(at_yield=False).yield_ == 1.0
    assert st.fitting().line != st.fitting(at_yield=False).line
    assert st.fitting(two_hinges=True).ultimate == pytest.approx(1.5 * 1.725)
    assert "two hinges" in st.fitting(two_hinges=True).line
    for one in (st.member(), st.joint_by_test(), st.fitting(), st.turning_bearing()):
        assert one.source.text
