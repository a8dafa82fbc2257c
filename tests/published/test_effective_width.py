"""Effective width of buckled sheet.

Th. von Karman, E. E. Sechler, L. H. Donnell, The Strength of Thin Plates in Compression, Trans. ASME 54 (1932);
G. Winter, Strength of Thin Steel Compression Flanges, Trans. ASCE 112 (1947), later form with 0.22. Titles and
coefficients from memory; the values below (in, psi; E 10.1e6) were worked from the formulas apart from the package.
"""

import numpy as np
import pytest

from surfacecheck.errors import SurfaceError
from surfacecheck.sections import edge_width, newell_width, von_karman_width, winter_width

E = 10.1e6


@pytest.mark.parametrize(
    ("width", "t", "printed"),
    [
        (von_karman_width, 0.020, 0.854),
        (newell_width, 0.020, 0.764),
        (edge_width, 0.020, 0.279),
        (von_karman_width, 0.016, 0.683),
        (newell_width, 0.016, 0.611),
        (von_karman_width, 0.025, 1.067),
        (newell_width, 0.025, 0.955),
    ],
)
def test_width_at_20_ksi(width, t, printed):
    assert width(t, E, 20e3) == pytest.approx(printed, abs=5e-4)


def test_von_karman_to_four_digits():
    assert von_karman_width(0.020, E, 20e3) == pytest.approx(0.8539, abs=5e-5)


@pytest.mark.parametrize(
    ("width", "k", "digits"), [(von_karman_width, 4.0, 2), (edge_width, 0.43, 2)], ids=["both edges", "one edge"]
)
def test_coefficients_follow_from_plate_buckling(width, k, digits):
    """sqrt(k pi^2 / (12 (1 - 0.3^2))): 1.901 and 0.623."""
    coefficient = np.sqrt(k * np.pi**2 / (12.0 * (1.0 - 0.3**2)))
    assert width(1.0, 1.0, 1.0) == pytest.approx(coefficient, abs=0.5 * 10.0**-digits)


def test_winter():
    """b 4 in, t 0.020, 20 ksi: buckles at 912.8 psi (nu 0.3), 0.8144 in works."""
    critical = 4.0 * np.pi**2 / (12.0 * (1.0 - 0.3**2)) * E * (0.020 / 4.0) ** 2
    assert critical == pytest.approx(912.8, abs=0.05)
    assert winter_width(4.0, critical, 20e3) == pytest.approx(0.8144, abs=5e-5)


def test_winter_is_full_below_slenderness_0_673():
    """r (1 - 0.22 r) reaches 1 at f = 0.453 F_cr (not at F_cr = 0.4535 f, where it is 0.574), without a jump."""
    assert winter_width(1.0, 1.0, 0.673**2 * 0.999) == 1.0
    assert winter_width(1.0, 1.0, 0.6733**2) == pytest.approx(1.0, abs=1e-4)
    assert winter_width(1.0, 1.0, 0.6733**2) < 1.0
    assert winter_width(1.0, 0.4535, 1.0) == pytest.approx(0.5737, abs=5e-5)
    f = np.linspace(0.3, 5.0, 200)
    assert (np.diff(winter_width(1.0, 1.0, f)) <= 0.0).all()


@pytest.mark.parametrize("f", [0.0, -5.0, np.nan], ids=["zero", "tension", "not a number"])
def test_no_width_without_compression(f):
    with pytest.raises(SurfaceError, match=r"f = .*above zero"):
        von_karman_width(0.020, E, f)
