"""AFFDL-TR-69-42, Stress Analysis Manual, chapter 9, lugs: a worked public report that uses it. Pounds, inches, ksi.

D 2.0, w 4.0, e 2.5 in; K values digitised there from the curves.
"""

from __future__ import annotations

import pytest

from surfacecheck.strength import (
    bearing_load,
    lug_axial,
    lug_axial_coefficient,
    lug_net,
    lug_oblique_margin,
    lug_transverse,
    margin,
    shear_out,
)


@pytest.mark.parametrize(
    ("R_a", "R_tr", "printed"),
    [(0.36463, 0.72198, 0.156), (0.3909, 0.7740, 0.078), (0.2437, 0.4899, 0.710), (0.4873, 0.9798, -0.145),
     (0.5, 0.5, 0.297)],
)  # fmt: skip
def test_oblique_margins(R_a: float, R_tr: float, printed: float) -> None:
    assert float(lug_oblique_margin(R_a, R_tr)) == pytest.approx(printed, abs=6e-4)


def test_net_tension_governs() -> None:
    """0.90 x 71 ksi x 3.0 in^2 = 191 700 lb; against 59 552 x 1.15: +1.80, shear-bearing 250 966: +2.66."""
    net = lug_net(71e3, 4.0, 2.0, 1.5, 0.90)
    assert float(net) == pytest.approx(191700)
    assert float(margin(net, 59552, 1.15)) == pytest.approx(1.80, abs=5e-3)
    assert float(margin(250966, 59552, 1.15)) == pytest.approx(2.66, abs=5e-3)


def test_lug_loaded_aslant() -> None:
    """t 2.5 in: 308 750, 259 875, 409 200 lb; reduced by 0.730, loads 71 453 and 119 090 x 1.15: +0.156."""
    along = min(float(lug_net(65e3, 4.0, 2.0, 2.5, 0.950)), float(bearing_load(1.240 * 66e3, 2.0, 2.5)))
    across = float(lug_transverse(0.7875, 66e3, 2.0, 2.5))
    assert (along, across) == pytest.approx((308750, 259875))
    R_a, R_tr = 71453 * 1.15 / (0.730 * along), 119090 * 1.15 / (0.730 * across)
    assert (R_a, R_tr) == pytest.approx((0.3646, 0.7219), abs=1e-4)
    assert float(lug_oblique_margin(R_a, R_tr)) == pytest.approx(0.156, abs=5e-4)


def test_small_bracket_eye() -> None:
    """0.063 in 6061-T6, D 0.1875, W 0.75, e 0.375 in: net (K 1) 1488, bearing 1039.5, tearing out 1031.4 governs."""
    assert float(lug_net(42e3, 0.75, 0.1875, 0.063)) == pytest.approx(1488, abs=0.5)
    assert float(bearing_load(88e3, 0.1875, 0.063)) == pytest.approx(1039.5, abs=0.05)
    assert float(shear_out(27e3, 0.375, 0.1875, 0.063)) == pytest.approx(1031.4, abs=0.05)
    assert float(lug_axial(27e3, 88e3, 0.375, 0.1875, 0.063)) == pytest.approx(1031.4, abs=0.05)


def test_stand_in_lies_below_the_curve() -> None:
    """At e/D 1.25 two digitisings read 1.178 and 1.240; with F_su/F_tu about 0.6 the closed form gives 1.04."""
    assert float(lug_axial_coefficient(1.25, 0.6, 1.0)) < 1.178
