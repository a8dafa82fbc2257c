"""Fastener flexibility of five joints, the sources' units: mm/N from N and mm, in/lb from psi and inches.

References
----------
Huth, LBF FB-172 (1984) and ASTM STP 927 (1986); Swift, ASTM STP 486 (1971); Tate and Rosenfeld, NACA TN 1051 (1946), by
way of NASA CR-3710 (double shear) and a congress paper of 2018 (single shear); an empirical form in the square of the
grip by way of a Swedish report of 1983. All read as quoted in secondary text. Cases A to C are a public tutorial's
worked numbers; D and E (and the single-shear form in A) were worked out apart from this code from the stated formulas:
they check it against another writing of the same formula, not against print.
"""

from __future__ import annotations

import pytest

from surfacecheck.errors import SurfaceError
from surfacecheck.provenance import Basis
from surfacecheck.strength.flexibility import (
    FLEXIBILITY_SOURCES,
    flexibility_spread,
    huth,
    quadratic_grip,
    swift,
    tate_rosenfeld_double,
    tate_rosenfeld_single,
)

A = (3.0, 4.0, 6.35, 72e3, 72e3, 200e3)
B = (6.0, 3.0, 8.0, 72e3, 72e3, 200e3)
C = (0.063, 0.063, 0.156, 10.5e6, 10.5e6, 10.3e6)
D = (0.020, 0.032, 0.125, 9.9e6, 9.9e6, 10.0e6)
E = (0.032, 0.040, 0.15625, 9.9e6, 9.9e6, 10.0e6)


def printed(value: float, digits: int = 4) -> float:
    """Round to the digits that the source prints."""
    return float(f"{float(value):.{digits - 1}e}")


def test_case_a_single_shear_bolt():
    """51.9, 96.0 and 32.2 kN/mm: three times between two published formulas."""
    assert printed(huth(*A, riveted=False)) == 1.928e-5
    assert printed(swift(*A)) == 1.042e-5
    assert printed(quadratic_grip(*A)) == 3.110e-5
    assert printed(tate_rosenfeld_single(*A, 0.3)) == 1.310e-5
    stiffness = [1e-3 / f for f in (huth(*A, riveted=False), swift(*A), quadratic_grip(*A))]
    assert stiffness == pytest.approx([51.9, 96.0, 32.2], abs=0.05)


def test_case_b_double_shear_bolt():
    """Totals over both planes: 179 and 86.3 kN/mm."""
    assert printed(huth(*B, 2, riveted=False)) == 5.584e-6
    assert printed(tate_rosenfeld_double(*B, 0.3)) == 1.159e-5
    assert 1e-3 / huth(*B, 2, riveted=False) == pytest.approx(179.0, abs=0.5)
    assert 1e-3 / tate_rosenfeld_double(*B, 0.3) == pytest.approx(86.3, abs=0.05)


def test_case_c_rivet():
    assert printed(huth(*C)) == 6.987e-6
    assert 1.0 / huth(*C) == pytest.approx(143100, abs=50)
    assert printed(huth(*C) * 25.4 / 4.4482216) == 3.990e-5


def test_case_d_rivet_in_thin_sheet():
    assert printed(huth(*D)) == 1.440e-5
    assert printed(swift(*D)) == 1.057e-5
    assert printed(quadratic_grip(*D)) == 3.067e-5
    assert printed(tate_rosenfeld_single(*D, 0.33)) == 1.688e-5
    stiffness = [1.0 / f for f in (huth(*D), swift(*D), quadratic_grip(*D))]
    assert stiffness == pytest.approx([69430, 94650, 32610], abs=5)


def test_case_e_rivet():
    assert printed(huth(*E)) == 1.039e-5
    assert printed(swift(*E)) == 7.745e-6  # exactly 7.74545...; 7.746e-6 had been noted, a slip of rounding
    assert printed(quadratic_grip(*E)) == 2.127e-5
    assert printed(tate_rosenfeld_single(*E, 0.33)) == 1.180e-5
    stiffness = [1.0 / f for f in (huth(*E), swift(*E), quadratic_grip(*E))]
    assert stiffness == pytest.approx([96260, 129100, 47010], abs=10)


@pytest.mark.parametrize("formula", [huth, swift, quadratic_grip, tate_rosenfeld_single])
def test_single_shear_does_not_know_which_sheet_is_first(formula):
    t_1, t_2, d, E_1, _, E_f = A
    assert formula(t_1, t_2, d, E_1, 45e3, E_f) == pytest.approx(formula(t_2, t_1, d, 45e3, E_1, E_f), rel=1e-14)


def test_the_misprint_shows_in_single_shear_only():
    """1/(n t_1 E_f) for 1/(2 t_1 E_f): the same for n = 2, 8 % more at n = 1."""

    def misprinted(t_1, t_2, d, E_1, E_2, E_f, n):
        sheets = 1 / (t_1 * E_1) + 1 / (n * t_2 * E_2) + 1 / (n * t_1 * E_f) + 1 / (2 * n * t_2 * E_f)
        return ((t_1 + t_2) / (2 * d)) ** (2 / 3) * 3.0 / n * sheets

    assert misprinted(*B, 2) == pytest.approx(float(huth(*B, 2, riveted=False)), rel=1e-14)
    assert misprinted(*A, 1) / huth(*A, riveted=False) == pytest.approx(1.087, abs=5e-4)


def test_spread_of_published_formulas():
    """Two to three times for one joint, the stiffest by Swift and the softest by the square of the grip."""
    for case in (A, D, E):
        spread = flexibility_spread(*case, riveted=case is not A)
        assert 2.0 < float(spread.ratio) < 3.0
        assert spread.names[int(spread.values.argmin())] == "swift"
        assert spread.names[int(spread.values.argmax())] == "quadratic_grip"
        assert float(spread.largest / spread.least) == float(spread.ratio)


def test_sources_say_that_they_were_read_second_hand():
    assert set(flexibility_spread(*D).names) == set(FLEXIBILITY_SOURCES)
    for source in FLEXIBILITY_SOURCES.values():
        assert source.basis is Basis.PUBLISHED
        assert "as quoted in secondary text" in source.text


@pytest.mark.parametrize("bad", [0.0, -1.0, float("nan")])
@pytest.mark.parametrize("place", range(6))
def test_no_size_is_zero(bad, place):
    case = [*A]
    case[place] = bad
    for formula in (huth, swift, quadratic_grip, tate_rosenfeld_single, tate_rosenfeld_double, flexibility_spread):
        with pytest.raises(SurfaceError, match="must be above 0"):
            formula(*case)


def test_planes_are_one_or_two():
    with pytest.raises(SurfaceError, match="planes is 3"):
        huth(*A, 3)
