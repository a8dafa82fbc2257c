"""Buckling between rivets: column strip, c from ESDU 02.01.09 and tables quoted in secondary text. psi, inches."""

from __future__ import annotations

import pytest

from surfacecheck.strength import FIXITY, inter_rivet, inter_rivet_pitch

EC = 10.1e6


@pytest.mark.parametrize(
    ("c", "t", "p", "psi"),
    [(3, 0.020, 0.75, 17721), (3, 0.020, 1.0, 9968), (3, 0.016, 1.0, 6380), (1, 0.016, 1.0, 2127),
     (1.5, 0.025, 0.75, 13845), (4, 0.032, 0.75, 60489), (3, 0.032, 0.75, 45367), (3.5, 0.025, 0.75, 32305)],
)  # fmt: skip
def test_stress(c: float, t: float, p: float, psi: float) -> None:
    assert float(inter_rivet(c, EC, t, p)) == pytest.approx(psi, abs=0.6)


@pytest.mark.parametrize(("c", "inches"), [(3, 0.706), (1, 0.408)])
def test_pitch_for_20_ksi(c: float, inches: float) -> None:
    assert float(inter_rivet_pitch(c, EC, 0.020, 20e3)) == pytest.approx(inches, abs=5e-4)


def test_another_text_s_wide_column_is_not_ours() -> None:
    """0.9 c E (t/p)^2 with c 4 gives 25 344 psi; ours with c 3 and the same E 17 371 (E 9.9e6, 0.020 in, 0.75 in)."""
    other = 0.9 * 4 * 9.9e6 * (0.020 / 0.75) ** 2
    assert other == pytest.approx(25344, abs=1)
    assert float(inter_rivet(3, 9.9e6, 0.020, 0.75)) == pytest.approx(17371, abs=1)


def test_countersunk_never_gets_the_fixity_of_a_bolt() -> None:
    assert FIXITY["countersunk"] == 1.0
    assert FIXITY["countersunk"] < FIXITY["blind"] <= FIXITY["protruding"] < 4.0


def test_double_free_length_is_a_quarter_of_the_stress() -> None:
    """A missing rivet: the free length doubles."""
    assert float(inter_rivet(3, EC, 0.020, 1.5) / inter_rivet(3, EC, 0.020, 0.75)) == pytest.approx(0.25, rel=1e-12)
