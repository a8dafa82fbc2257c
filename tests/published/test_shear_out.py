"""Shear-out on two 40-degree planes, common practice of stress texts, against MIL-HDBK-5J bearing of 6061-T6. ksi."""

from __future__ import annotations

import pytest

from surfacecheck.strength import shear_out


@pytest.mark.parametrize(("e_over_D", "times", "ksi"), [(1.5, 2.234, 60.3), (2.0, 3.234, 87.3), (2.5, 4.234, 114.3)])
def test_equal_bearing_stress(e_over_D: float, times: float, ksi: float) -> None:
    """P/(D t) over F_su, and for 27 ksi."""
    assert float(shear_out(1.0, e_over_D, 1.0, 1.0)) == pytest.approx(times, abs=5e-4)
    assert float(shear_out(27.0, e_over_D, 1.0, 1.0)) == pytest.approx(ksi, abs=0.05)


def test_it_meets_the_handbook_at_two_diameters() -> None:
    """Handbook 88 ksi at e/D 2: within 1 %; 67 ksi at 1.5: 10 % below, on the low side."""
    assert float(shear_out(27.0, 2.0, 1.0, 1.0)) / 88.0 == pytest.approx(1.0, abs=0.01)
    assert float(shear_out(27.0, 1.5, 1.0, 1.0)) / 67.0 == pytest.approx(0.90, abs=0.005)


def test_edge_is_from_the_hole_centre() -> None:
    """A text with e + 0.383 D counts the edge from the rim; from the centre it is e - 0.383 D."""
    assert float(shear_out(1.0, 2.0, 1.0, 1.0)) < 2.0 * 2.0
