"""Kuhn, Peterson, Levin, NACA TN 2661 (1952): diagonal tension of plane webs.

k also in T. H. G. Megson, Aircraft Structures, 9.7. Constants of rivet rows and ribs are from memory; what is tested
of them is the arithmetic. Pounds, inches.
"""

from __future__ import annotations

import numpy as np
import pytest

from surfacecheck.strength import (
    diagonal_tension_factor,
    largest_factor,
    plate_critical,
    row_factor,
    shear_coefficient_fit,
    upright_rivet_tension,
)


def test_table_of_k() -> None:
    ratio = [1, 1.2, 1.5, 2, 2.5, 3, 4, 5, 6, 8, 10, 15, 20, 30, 50, 100]
    k = [0, 0.0396, 0.0878, 0.1494, 0.1964, 0.2341, 0.2923, 0.3359, 0.3706, 0.4232, 0.4621, 0.5285, 0.5720, 0.6283,
         0.6908, 0.7616]  # fmt: skip
    assert diagonal_tension_factor(ratio, 1.0) == pytest.approx(k, abs=5.1e-5)


def test_no_diagonal_tension_below_buckling() -> None:
    got = diagonal_tension_factor([0.0, 0.5, 0.9, 1.0, -0.9], 1.0)
    assert got.tolist() == [0.0] * 5


def test_row_factor_at_the_ends() -> None:
    """1 flat, 1.414 fully wrinkled; 1.06, 1.14, 1.24 at ratios 2, 5, 20."""
    got = row_factor(diagonal_tension_factor([2.0, 5.0, 20.0], 1.0))
    assert got == pytest.approx([1.06, 1.14, 1.24], abs=5e-3)
    assert row_factor([0.0, 1.0]).tolist() == [1.0, 1.414]


@pytest.mark.parametrize(
    ("V", "h", "d", "t", "tau", "critical", "k", "row"),
    [
        (500, 4, 6, 0.020, 6250, 1626, 0.2843, 139.7),
        (900, 4, 6, 0.025, 9000, 2541, 0.2680, 250.0),
        (300, 3, 8, 0.016, 6250, 1534, 0.2959, 112.2),
    ],
)
def test_three_webs(V: float, h: float, d: float, t: float, tau: float, critical: float, k: float, row: float) -> None:
    """E 9.9e6, nu 0.33, supported edges, closed-form coefficient: stress, critical stress, k, pounds an inch."""
    coefficient, short = shear_coefficient_fit(d, h)
    cr = plate_critical(coefficient, 9.9e6, 0.33, t, short)
    got = diagonal_tension_factor(V / (h * t), cr)
    assert V / (h * t) == pytest.approx(tau)
    assert float(cr) == pytest.approx(critical, abs=0.6)
    assert float(got) == pytest.approx(k, abs=6e-5)
    assert float(V / h * row_factor(got)) == pytest.approx(row, abs=0.06)


def test_limits_against_lasting_wrinkles() -> None:
    got = largest_factor(np.array([0.016, 0.020, 0.025, 0.032]) * 0.0254)
    assert got == pytest.approx([0.717, 0.691, 0.666, 0.639], abs=5.1e-4)


def test_rivet_tension_of_a_rib() -> None:
    """0.020 in, 42 ksi: 184.8 and 126.0 lb an inch."""
    assert float(upright_rivet_tension(42e3, 0.020)) == pytest.approx(184.8)
    assert float(upright_rivet_tension(42e3, 0.020, both_sides=True)) == pytest.approx(126.0)
