"""Shear with tension in a fastener: NASA RP-1228, NASA-STD-5020 (from memory), EN 1993-1-8 Table 3.4."""

from __future__ import annotations

import pytest

from surfacecheck.strength import interaction_en1993_1_8, interaction_margin, interaction_sum


def test_forms_at_one_point() -> None:
    """R_s 0.6, R_t 0.5: quadratic 0.61, powers 2.5 and 1.5 0.632, 1.2 and 2 0.792, linear 1.10."""
    got = [float(interaction_sum(0.6, 0.5, a, b)) for a, b in ((2, 2), (2.5, 1.5), (1.2, 2), (1, 1))]
    assert got == pytest.approx([0.61, 0.632, 0.792, 1.10], abs=5e-4)


def test_margin_is_a_multiplier_of_the_load() -> None:
    """+0.280, not 1 - 0.61 = 0.39; effects times (1 + margin) leave no margin."""
    m = float(interaction_margin(0.6, 0.5))
    assert m == pytest.approx(0.280, abs=5e-4)
    assert float(interaction_margin(0.6 * (1 + m), 0.5 * (1 + m))) == pytest.approx(0.0, abs=1e-12)


def test_civil_form() -> None:
    assert float(interaction_en1993_1_8(0.6, 0.5)) == pytest.approx(0.957, abs=5e-4)
