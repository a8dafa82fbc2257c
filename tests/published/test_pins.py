"""Hinge pins: AFFDL-TR-69-42, chapter 9 (bending), and 14 CFR 23.657(b), Amdt 23-62 (bearing)."""

from __future__ import annotations

import pytest

from surfacecheck.strength import (
    ROUND_PLASTIC,
    fitting,
    highest_special,
    margin,
    pin_arm_both_ends,
    pin_bearing,
    pin_bending_moment,
    pin_bending_stress,
    pin_shear,
    turning_bearing,
)


def test_pin_in_a_clevis() -> None:
    """P 617 776 N, lugs 31.75/63.5/31.75 mm, gap 0.762, pin 50.8 mm: bending 780.3 MPa, shear 152.4 MPa."""
    moment = pin_bending_moment(617776.0, pin_arm_both_ends(31.75, 63.5, 0.762), both_ends=True)
    assert float(pin_bending_stress(moment, 50.8)) == pytest.approx(780.3, abs=0.05)
    assert 617776.0 / float(pin_shear(1.0, 50.8, planes=2)) == pytest.approx(152.4, abs=0.05)


def test_plain_hinge_bearing() -> None:
    """100 ksi, 0.25 x 0.09 in: 337.33 lb at limit; at 250 lb +0.349."""
    factor = turning_bearing().ultimate
    assert float(pin_bearing(100e3, 0.25, 0.09)) / factor == pytest.approx(337.33, abs=5e-3)
    assert float(margin(pin_bearing(100e3, 0.25, 0.09), 250.0, factor)) == pytest.approx(0.349, abs=5e-4)


def test_6_67_stands_alone() -> None:
    """Neither 1.5 nor 1.15 is put on top; the other turning joints likewise (23.693)."""
    assert [turning_bearing(k).ultimate for k in ("hinge", "push-pull joint", "cable joint")] == [6.67, 3.33, 2.0]
    assert turning_bearing().yield_ is None


def test_highest_special_factor_only() -> None:
    """23.619: fitting 1.15 with casting 1.25 gives 1.875, not 2.156; fitting alone 1.725."""
    assert highest_special(1.15, 1.25) == pytest.approx(1.875)
    assert fitting(casting=1.25).ultimate == pytest.approx(1.875)
    assert fitting().ultimate == pytest.approx(1.725)


def test_plastic_limit_of_a_round_bar() -> None:
    """Handbooks round 16/(3 pi) to 1.70."""
    assert pytest.approx(1.70, abs=3e-3) == ROUND_PLASTIC
