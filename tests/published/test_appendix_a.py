"""14 CFR Part 23, Amdt 23-62, Appendix A (simplified design loads): check values in the rule's units.

The equations of Figures A5 and A6, the dive speed and the 12 psf floor are pictures in the rule; what is tested of
them is marked *from memory* in the test's name. The rest is printed text.
"""

from __future__ import annotations

import numpy as np
import pytest

from surfacecheck.errors import SurfaceError
from surfacecheck.loads import CURVED, Planform, appendix_a

LB = 0.45359237 * 9.80665
FT = 0.3048
PSF = LB / FT**2
KT = 1852.0 / 3600.0


@pytest.mark.parametrize(
    ("speed", "knots"),
    [
        pytest.param("V_A", 101.29, id="V_A"),
        pytest.param("V_C", 114.80, id="V_C"),
        pytest.param("V_F", 74.28, id="V_F"),
        pytest.param("V_D", 162.07, id="V_D-from-memory"),
        pytest.param("V_D_cap", 160.72, id="V_D_cap-from-memory"),
    ],
)
def test_a23_7_least_speeds_at_3_8_and_12_psf(speed, knots):
    assert appendix_a.least_speeds(3.8, 12.0 * PSF)[speed] / KT == pytest.approx(knots, abs=0.005)


def test_a23_7_load_factor_is_not_taken_below_3_8():
    low, least = appendix_a.least_speeds(2.0, 12.0 * PSF), appendix_a.least_speeds(3.8, 12.0 * PSF)
    assert all(low[name] == least[name] for name in least)


@pytest.mark.parametrize(
    ("category", "n1", "n2"), [("normal", 3.8, -1.9), ("utility", 4.4, -2.2), ("acrobatic", 6.0, -3.0)]
)
def test_table_1(category, n1, n2):
    assert appendix_a.LOAD_FACTORS[category] == (n1, n2)


@pytest.mark.parametrize(
    ("kind", "n1_loading", "psf"),
    [
        pytest.param("rudder", 45.6, 24.715, id="vertical-tail-from-memory"),
        pytest.param("elevator", 45.6, 29.150, id="horizontal-tail-from-memory"),
        pytest.param("aileron", 45.6, 21.250, id="aileron-from-memory"),
        pytest.param("rudder", 51.3, 26.214, id="vertical-tail-51.3-from-memory"),
        pytest.param("rudder", 9.0, 12.0, id="floor-from-memory"),
    ],
)
def test_figures_a5_a6(kind, n1_loading, psf):
    assert appendix_a.mean_loading(kind, 3.8, n1_loading / 3.8 * PSF) / PSF == pytest.approx(psf, abs=6e-4)


@pytest.mark.parametrize(
    ("kind", "bites"),
    [
        pytest.param("rudder", 10.75, id="vertical-tail-from-memory"),
        pytest.param("elevator", 13.48, id="horizontal-tail-from-memory"),
        pytest.param("aileron", 25.75, id="aileron-from-memory"),
    ],
)
def test_floor_bites_below(kind, bites):
    at = appendix_a.mean_loading(kind, 1.0, np.array([bites - 0.1, bites + 0.1]) * PSF) / PSF
    assert at[0] == pytest.approx(12.0, rel=1e-12)
    assert at[1] > 12.0 + 1e-6


def test_a23_11_c_1_v_parabola():
    p = appendix_a.parabola(25.0 * PSF, np.array([0.0, 0.6, 1.2]) * FT, 1.2 * FT) / PSF
    np.testing.assert_allclose(p, [75.0, 18.75, 0.0], atol=1e-9)


def test_a23_11_c_1_v_parabola_over_a_span_of_5_ft():
    """Load 150.0 lb and moment 45.0 ft-lb about the front of a 1.2 ft rudder."""
    chord, span = 1.2 * FT, 5.0 * FT
    load = 25.0 * PSF * chord * span
    assert load / LB == pytest.approx(150.0)
    assert load * CURVED.arm * chord / (LB * FT) == pytest.approx(45.0)


def test_a23_11_c_1_i_load_goes_with_the_chord():
    """Chord 1.5 to 1.0 ft on 4 ft at 25 psf: 125.0 lb, centre 1.8667 ft, root moment 233.33 ft-lb."""
    plan = Planform.of(np.array([0.0, 4.0]) * FT, np.array([1.5, 1.0]) * FT)
    load = 25.0 * PSF * plan.area("pins")
    moment = 25.0 * PSF * plan.spanwise_moment("pins")
    assert load / LB == pytest.approx(125.0)
    assert moment / load / FT == pytest.approx(1.8667, abs=5e-5)
    assert moment / (LB * FT) == pytest.approx(233.33, abs=5e-3)


def test_a23_11_c_1_iv_nose_case_keeps_the_total():
    front, rest = appendix_a.nose_case(20.0)
    assert front == pytest.approx(30.0)
    assert rest / 20.0 == pytest.approx(0.94444, abs=5e-6)
    assert 0.1 * front + 0.9 * rest == pytest.approx(20.0, rel=1e-14)


def test_another_kind_is_refused():
    with pytest.raises(SurfaceError, match="'flap' has no curve"):
        appendix_a.mean_loading("flap", 3.8, 500.0)
