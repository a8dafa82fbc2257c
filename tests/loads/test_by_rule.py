"""14 CFR Part 23, Amdt 23-62, Appendix A, from a surface file to the pins.

The rule's check values were worked for mean pressures of 24 and 25 psf; the file's comes from n1 W/S = 45.6 psf, Figure
A5 (equation from memory): 3.66 sqrt(45.6) = 24.715 psf. Everything is in proportion to it, so the check values are
scaled by 24.715/25 and 24.715/24. Pounds and feet are kept. E = 0.4, chord 3.0 ft, span 5.0 ft, unless said.
"""

from __future__ import annotations

import math
from pathlib import Path

import numpy as np
import pytest

import surfacecheck
from surfacecheck.loads import speed_rows
from surfacecheck.working import evaluate

FILE = Path(__file__).with_name("rudder_by_rule.toml")
TEXT = FILE.read_text(encoding="utf-8")
LB = 0.45359237 * 9.80665
FT = 0.3048
PSF = LB / FT**2
KT = 1852.0 / 3600.0
MEAN = 3.66 * math.sqrt(45.6)
FRONT, MIDDLE, CURVED = "centre of pressure at the leading edge", "centre of pressure at half chord", "curved to zero"


def changed(*pairs):
    text = TEXT
    for old, new in pairs:
        assert old in text
        text = text.replace(old, new)
    return surfacecheck.read_text(text, "my.toml")


@pytest.fixture(scope="module")
def assessment():
    return surfacecheck.assess(surfacecheck.read(FILE))


def at_horn_and_pins(assessment, title):
    """Force of the case sideways [lb], and hinge moment [ft lb], from what pins and cable hold."""
    case = assessment.case_titles.index(title)
    sideways = -assessment.beam.reactions[case, :, 2].sum() - assessment.effects.horn_force[case, :, 2].sum()
    pulls = assessment.effects.horn_force[case, :, 0]
    z = assessment.effects.horn_points[:, 1]
    return sideways / LB, np.sum(z * pulls) / (LB * FT)


SUMS = [
    # check values 16 (d' = 0.5: 135.0 lb, 54.0 ft lb) and 18 (150.0 lb, 45.0 ft lb), for 25 psf
    pytest.param(MIDDLE, 135.0, 54.0, id="figure-A7-half-chord"),
    pytest.param(CURVED, 150.0, 45.0, id="parabola"),
    # d' = 0: P2 = 2 x 25 x (0.4 - 1) = -30 psf; -30 x 1.2/2 x 5 = -90 lb; x 1.2/3 = -36 ft lb
    pytest.param(FRONT, -90.0, -36.0, id="figure-A7-leading-edge"),
]


@pytest.mark.parametrize("side", ["left", "right"])
@pytest.mark.parametrize(("words", "pounds", "foot_pounds"), SUMS)
def test_sums_at_pins_and_horn(assessment, side, words, pounds, foot_pounds):
    way = (1.0 if side == "left" else -1.0) * assessment.surface.left_is * MEAN / 25.0
    got = at_horn_and_pins(assessment, f"Appendix A to the {side}, {words}")
    assert got == pytest.approx([way * pounds, way * foot_pounds], rel=1e-9)


def test_pins_share_by_statics(assessment):
    """The load stands at half span, midway between pins at 1.0 and 4.0 ft; the cable pulls along the chord, at 0 ft.

    H = 54.0 x 24.715/25 ft lb over 0.35 ft: Q = 152.53 lb ahead. Along the chord the lower pin gets 4/3 Q, the upper
    -1/3 Q.
    """
    case = assessment.case_titles.index(f"Appendix A to the left, {MIDDLE}")
    half = assessment.surface.left_is * 0.5 * 135.0 * MEAN / 25.0
    pull = 54.0 * MEAN / 25.0 / 0.35
    assert pull == pytest.approx(152.53, abs=5e-3)
    expected = [[4.0 / 3.0 * pull, 0.0, -half], [-pull / 3.0, 0.0, -half]]
    np.testing.assert_allclose(assessment.beam.reactions[case] / LB, expected, rtol=1e-9, atol=1e-9)


def peak(assessment, title, chord):
    """Pressure at the hinge line of a triangle, from what pins and horn hold [psf]."""
    return at_horn_and_pins(assessment, title)[0] / (0.5 * chord * 5.0)


@pytest.mark.parametrize(
    ("fin", "chord", "d", "psf", "mean"),
    [
        pytest.param("1.8 ft", "1.2 ft", 0.25, 7.500, 25.0, id="check-12"),
        pytest.param("1.5 ft", "1.5 ft", 0.4, 33.60, 24.0, id="check-14"),
    ],
)
def test_peak_between_the_two_ends_of_the_range(fin, chord, d, psf, mean):
    """P2 is a straight line in d': between the cases at 0 and 0.5 lie check values 12 (E 0.4) and 14 (E 0.5)."""
    surface = changed(('fin_ahead = "1.8 ft"', f'fin_ahead = "{fin}"'), ('behind = "1.2 ft"', f'behind = "{chord}"'))
    found = surfacecheck.assess(surface)
    wide = float(chord.split()[0])
    ends = [peak(found, f"Appendix A to the left, {words}", wide) for words in (FRONT, MIDDLE)]
    between = ends[0] + d / 0.5 * (ends[1] - ends[0])
    assert surface.left_is * between == pytest.approx(psf * MEAN / mean, rel=1e-9)


def test_parabola_along_the_chord(assessment):
    """Check value 17, for 25 psf: 75.0 at the front of the rudder, 18.75 half way, 0 at the trailing edge."""
    case = next(c for c in assessment.cases if c.title == f"Appendix A to the left, {CURVED}")
    p = case.air.pressure / PSF * case.air.shape.pressure(np.array([0.0, 0.5, 1.0])) * assessment.surface.left_is
    np.testing.assert_allclose(p, np.array([75.0, 18.75, 0.0]) * MEAN / 25.0, rtol=1e-9, atol=1e-9)


def test_every_case_is_in_equilibrium_and_marked_as_from_memory(assessment):
    flight = [case for case in assessment.cases if case.group == "flight"]
    assert len(flight) == 6
    assert all(case.source.doubtful for case in flight)
    assert all("mean pressure from memory" in " ".join(case.notes) for case in flight)
    assert max(rest.rest for rest in assessment.rests) < 1e-6
    assert not any("airload" in missing.name for missing in assessment.missing_cases)


def test_least_speeds_beside_the_typed_ones():
    """Check values 4 and 5: V_A 101.29, V_C 114.80, V_D 160.72 knots (the cap of 162.07, from memory)."""
    rows = {row.symbol: row for row in speed_rows(surfacecheck.read(FILE))}
    assert [float(row.least) / KT for row in rows.values()] == pytest.approx([101.29, 114.80, 160.72], abs=0.005)
    assert list(rows) == ["V_A", "V_C", "V_D"]
    assert rows["V_A"].remark == ""
    assert "lower than the least" in rows["V_C"].remark
    assert (rows["V_D"].typed, rows["V_D"].remark, rows["V_D"].source.doubtful) == (None, "", True)
    for row in rows.values():
        worked = evaluate(row.working.formula, {one.name: one.si for one in row.working.symbols})
        assert worked == pytest.approx(float(row.least), rel=1e-12)


def test_full_controls_need_not_exceed_the_cruising_speed_used():
    rows = speed_rows(changed(("110 knots", "95 knots"), ("102 knots", "94 knots")))
    assert float(rows[0].least) / KT == pytest.approx(95.0)
    assert rows[0].remark
    assert evaluate(rows[0].working.formula, {one.name: one.si for one in rows[0].working.symbols}) == rows[0].least


def test_a_load_factor_below_3_8_does_not_lower_the_least_speeds():
    low = speed_rows(changed(('category = "normal"', 'category = "?"'), ("3.8 (manual)", "3.0 (manual)")))
    assert [float(row.least) for row in low] == [float(row.least) for row in speed_rows(surfacecheck.read(FILE))]


@pytest.mark.parametrize(
    ("pairs", "needs"),
    [
        ((("1440 lb (manual)", "?"),), "aeroplane.weight"),
        ((("120 ft2 (manual)", "?"),), "aeroplane.wing_area"),
        ((('category = "normal"', 'category = "?"'), ("3.8 (manual)", "?")), "aeroplane.category"),
    ],
    ids=["weight", "wing-area", "load-factor"],
)
def test_what_hides_the_least_speeds(pairs, needs):
    rows = speed_rows(changed(*pairs))
    assert {(row.least, row.needs, row.remark, row.working) for row in rows} == {(None, needs, "", None)}
    assert rows[0].typed.said == "102 knots"


def test_speeds_do_not_enter_the_mean_pressure_and_belong_to_the_rule(assessment):
    fast = surfacecheck.assess(changed(("110 knots", "150 knots"), ("102 knots", "149 knots")))
    assert np.array_equal(fast.beam.reactions, assessment.beam.reactions)
    typed = 'pressure = "1 kPa"\nover = "behind pins"\nlevel = "limit"\nbegins_at = "pins"\nfades_aft = "even"'
    assert speed_rows(changed(('rule = "Part 23 Appendix A"', typed))) == ()


def test_a_stack_of_weights_gives_a_stack_of_least_speeds(value, change):
    surface = surfacecheck.read(FILE)
    weights = np.array([500.0, 600.0, 700.0])
    many = speed_rows(change(surface, {"aeroplane.weight": value(weights)}))
    for i, weight in enumerate(weights):
        alone = speed_rows(change(surface, {"aeroplane.weight": value(float(weight))}))
        assert [float(row.least[i]) for row in many] == [float(row.least) for row in alone]
    assert [row.working for row in many] == [None] * 3
