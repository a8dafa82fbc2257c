"""Plates, flanges, crippling: NACA TN 3781, 3784 (Gerard, Becker, 1957), Megson's problems, and Ritz values.

The Ritz and finite-strip values were worked out beforehand by separate solvers (a double-series Ritz solution of the
plate, a finite-strip model of the channel), converged to 0.05 %; they are no output of this package. psi, inches.
"""

from __future__ import annotations

import numpy as np
import pytest

from surfacecheck.strength import (
    FLANGE_FREE,
    bending_coefficient,
    bending_shear_margin,
    channel_coefficient,
    compression_coefficient,
    compression_shear_margin,
    crippling_angle,
    crippling_two_corners,
    curved_compression_coefficient,
    gradient_coefficient,
    least_lip,
    lip_stiffness,
    plastic_plate_critical,
    plate_constant,
    plate_critical,
    shear_coefficient,
    shear_coefficient_fit,
)


@pytest.mark.parametrize(("r", "exact", "fit"), [(1.0, 9.325, 9.340), (2.0, 6.546, 6.340), (10.0, 5.388, 5.380)])
def test_shear_supported(r: float, exact: float, fit: float) -> None:
    assert float(shear_coefficient(r, 1.0)[0]) == pytest.approx(exact, rel=5e-4)
    assert float(shear_coefficient_fit(r, 1.0)[0]) == pytest.approx(fit, abs=1e-9)


@pytest.mark.parametrize(("r", "exact", "fit"), [(1.0, 14.642, 14.580), (2.0, 10.248, 10.380), (10.0, 9.029, 9.036)])
def test_shear_clamped(r: float, exact: float, fit: float) -> None:
    assert float(shear_coefficient(r, 1.0, "CCCC")[0]) == pytest.approx(exact, rel=5e-4)
    assert float(shear_coefficient_fit(r, 1.0, "CCCC")[0]) == pytest.approx(fit, abs=1e-9)


def test_sides_in_either_order() -> None:
    """Blunder: a 1 x 2 panel put into 5.34 + 4/r^2 with r 0.5 gives 21.34, 3.4 times too much."""
    for function in (shear_coefficient, shear_coefficient_fit):
        (k, short), (other, same) = function(1.0, 2.0), function(2.0, 1.0)
        assert float(k) == float(other) < 7.0
        assert float(short) == float(same) == 1.0
    wrong = 5.34 + 4 / 0.5**2
    assert wrong == pytest.approx(21.34)
    assert wrong > 3.3 * 6.34


@pytest.mark.parametrize(("r", "k"), [(0.5, 6.25), (1.0, 4.0), (np.sqrt(2.0), 4.5), (1.5, 4.3403), (3.0, 4.0)])
def test_compression_supported(r: float, k: float) -> None:
    """min over m of (m/r + r/m)^2, exact."""
    assert float(compression_coefficient(r)) == pytest.approx(k, abs=5e-5)


@pytest.mark.parametrize(
    ("edges", "r", "k", "rel"),
    [
        ("all clamped", 1.0, 10.074, 1e-3), ("all clamped", 2.0, 7.867, 1e-3), ("ends clamped", 1.0, 6.743, 1e-3),
        ("one side free", 1.0, 1.402, 1e-3), ("one side free", 1e6, 0.425, 5e-3), ("sides clamped", 0.5, 7.691, 3e-3),
        ("sides clamped", 0.75, 7.116, 3e-3), ("sides clamped", 2.0, 6.972, 3e-3), ("sides clamped", 1e4, 6.97, 3e-3),
    ],
)  # fmt: skip
def test_compression_other_edges(edges: str, r: float, k: float, rel: float) -> None:
    """The closed form for clamped sides agrees with the Ritz values to 0.3 %."""
    assert float(compression_coefficient(r, edges)) == pytest.approx(k, rel=rel)


def test_megson_p_9_2() -> None:
    """Ends supported, sides clamped, a/b 2: one-term answer 6 E/(1 - nu^2)(t/b)^2 (k 7.287) lies above."""
    one_term = 6.0 * 12.0 / np.pi**2
    assert one_term == pytest.approx(7.29, abs=0.01)
    assert 0.94 * one_term < float(compression_coefficient(2.0, "sides clamped")) < one_term


def test_megson_p_9_4_has_the_constant_inside() -> None:
    """He prints 3.62 = 4 C(0.3) and 0.385 = 0.425 C(0.3): using K 3.62 and C both is the classic blunder."""
    assert float(4.0 * plate_constant(0.3)) == pytest.approx(3.62, abs=6e-3)
    assert float(0.425 * plate_constant(0.3)) == pytest.approx(0.385, abs=1e-3)
    got = float(plate_critical(4.0, 1.0, 0.3, 1.0, 1.0))
    assert got == pytest.approx(3.615, abs=1e-3)


def test_constant() -> None:
    assert plate_constant([0.30, 0.316, 0.32, 0.33]) == pytest.approx([0.9038, 0.9137, 0.9163, 0.9230], abs=5.1e-5)


@pytest.mark.parametrize(
    ("k", "E", "t", "b", "psi", "half_digit"),
    [
        (4.0, 10.1e6, 0.020, 4.0, 932.2, 0.05),
        (4.0, 10.1e6, 0.016, 4.0, 597, 0.5),
        (6.34, 9.9e6, 0.025, 5.0, 1448.3, 0.05),
        (6.546, 9.9e6, 0.025, 5.0, 1495, 0.5),
        (23.9, 10.1e6, 0.032, 3.0, 25350, 5.0),
        (0.43, 10.1e6, 0.1, 1.0, 40085, 0.5),
    ],
)
def test_worked_stresses(k: float, E: float, t: float, b: float, psi: float, half_digit: float) -> None:
    """nu 0.33 throughout; worked apart from the package, to the digits printed there."""
    assert float(plate_critical(k, E, 0.33, t, b)) == pytest.approx(psi, abs=half_digit)


def test_flange_value_is_that_of_the_charts() -> None:
    """0.43 by the charts; 0.425 exact for nu 0.3."""
    assert float(compression_coefficient(1e6, "one side free")) == pytest.approx(FLANGE_FREE, rel=0.012)


def test_bending_coefficients() -> None:
    assert float(bending_coefficient(2.0)) == pytest.approx(23.88, abs=0.005)
    assert float(bending_coefficient(1e3, "sides clamped")) == pytest.approx(39.6, rel=3e-3)
    assert float(bending_coefficient(1.0, "CCCC")) == pytest.approx(47.75, abs=0.005)


def test_stress_changing_across_the_width() -> None:
    """Ritz: 4.00, 5.319, 7.810, 13.38, 23.88 at psi 1, 0.5, 0, -0.5, -1; the fits agree to 0.6 %."""
    got = gradient_coefficient([1.0, 0.5, 0.0, -0.5, -1.0])
    assert got == pytest.approx([4.00, 5.319, 7.810, 13.38, 23.88], rel=6e-3)


def test_loads_together() -> None:
    """R_c 0.4, R_s 0.5: +0.3541; R_b 0.6, R_s 0.5: +0.280. Blunder: leaving out the square of R_s."""
    assert float(compression_shear_margin(0.4, 0.5)) == pytest.approx(0.3541, abs=5e-5)
    assert float(bending_shear_margin(0.6, 0.5)) == pytest.approx(0.2804, abs=5e-5)
    assert float(compression_shear_margin(0.4, 0.5)) != pytest.approx(1.0 / 0.9 - 1.0, abs=0.05)


def test_margin_of_compression_and_shear_is_a_multiplier() -> None:
    m = 1.0 + float(compression_shear_margin(0.4, 0.5))
    assert 0.4 * m + (0.5 * m) ** 2 == pytest.approx(1.0, abs=1e-12)


@pytest.mark.parametrize(("b_over_t", "psi"), [(30, 33038), (35, 29805), (25, 34914)])
def test_above_the_elastic_range(b_over_t: float, psi: float) -> None:
    """Long supported plate, 6061-T6 with F_0.7 35 ksi and n 31 (from memory): arithmetic of TN 3781's factors.

    The value at b/t 35 is printed as 29 805 psi; 0.3 % is the reading tolerance of the page.
    """
    elastic = plate_critical(4.0, 10.1e6, 0.33, 1.0, float(b_over_t))
    assert float(plastic_plate_critical(elastic, 10.1e6, 0.33, 35e3, 31.0)) == pytest.approx(psi, rel=3e-3)


def test_curved_compression() -> None:
    assert curved_compression_coefficient([0.0, 5.0, 50.0]) == pytest.approx([4.0, 4.770, 35.10], rel=1e-3)


def test_curved_compression_is_the_cylinder_for_large_curvature() -> None:
    """k C(nu) E (t/b)^2 tends to 0.605 E t/R for nu 0.3."""
    b, R, t, nu = 10.0, 5.0, 0.02, 0.3
    Z = b**2 * np.sqrt(1 - nu**2) / (R * t)
    got = plate_critical(curved_compression_coefficient(Z), 1.0, nu, t, b)
    assert float(got) == pytest.approx(0.605 * t / R, rel=1e-3)


@pytest.mark.parametrize(
    ("h", "b", "t", "psi"),
    [(3.0, 0.75, 0.032, 11426), (3.0, 0.75, 0.025, 9473), (1.5, 0.625, 0.025, 13779), (1.5, 0.625, 0.020, 11623),
     (2.0, 0.625, 0.040, 17379)],
)  # fmt: skip
def test_crippling_of_channels(h: float, b: float, t: float, psi: float) -> None:
    """Two corners, E_c 10.1e6, F_cy 35 ksi, area with sharp corners. Blunder: (E/F_cy)^(1/2) instead of ^(1/3)."""
    area = t * ((h - t) + 2 * (b - t / 2))
    got = float(crippling_two_corners(area, t, 10.1e6, 35e3))
    assert got == pytest.approx(psi, rel=1e-4)
    blunder = 3.2 * (t**2 / area * np.sqrt(10.1e6 / 35e3)) ** 0.75 * 35e3
    assert blunder > 1.5 * got


@pytest.mark.parametrize(("leg", "t", "psi"), [(0.75, 0.032, 15184), (0.625, 0.025, 14357)])
def test_crippling_of_angles(leg: float, t: float, psi: float) -> None:
    got = float(crippling_angle(t * (2 * leg - t), t, 10.1e6, 35e3))
    assert got == pytest.approx(psi, rel=1e-4)


@pytest.mark.parametrize(
    ("flange", "t", "inches"),
    [(0.75, 0.032, 0.1639), (0.75, 0.025, 0.139), (0.625, 0.025, 0.131), (0.625, 0.020, 0.1125), (1.0, 0.032, 0.180),
     (0.5, 0.016, 0.090)],
)  # fmt: skip
def test_least_lip(flange: float, t: float, inches: float) -> None:
    """Solves its own condition, and gives the printed widths."""
    lip = least_lip(flange, t)
    assert float(lip) == pytest.approx(inches, abs=6e-4)
    assert float(lip_stiffness(lip, flange, t)) == pytest.approx(5.0, abs=1e-9)


@pytest.mark.parametrize(("lip", "number"), [(0.12, 3.2), (0.16, 7.7)])
def test_lip_numbers_beside_finite_strips(lip: float, number: float) -> None:
    """Flange 0.75, t 0.025 in: by finite strips the lip's mode is below the web's at 0.12 in, above at 0.16 in."""
    assert float(lip_stiffness(lip, 0.75, 0.025)) == pytest.approx(number, abs=0.06)


def test_channel_as_a_whole() -> None:
    assert float(channel_coefficient(0.5)) == pytest.approx(2.91)
    assert float(plate_critical(channel_coefficient(0.5), 10.1e6, 0.3, 0.025, 1.5)) == pytest.approx(7380, rel=3e-3)
