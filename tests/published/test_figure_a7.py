"""14 CFR Part 23, Amdt 23-62, Appendix A, Figure A7: P1 and P2 over fin and rudder."""

from __future__ import annotations

import numpy as np
import pytest

from surfacecheck.errors import SurfaceError
from surfacecheck.loads import FigureA7Load, Planform, airload_totals, appendix_a

LB = 0.45359237 * 9.80665
FT = 0.3048
PSF = LB / FT**2


@pytest.mark.parametrize(
    ("w", "share", "d", "p1", "p2"), [(25.0, 0.4, 0.25, 70.833, 7.500), (24.0, 0.5, 0.4, 28.80, 33.60)]
)
def test_p1_and_p2(w, share, d, p1, p2):
    got = appendix_a.figure_a7(w, share, d)
    assert got[0] == pytest.approx(p1, abs=5e-4)
    assert got[1] == pytest.approx(p2, abs=1e-9)


def test_rudder_of_1_2_ft_on_a_chord_of_3_ft_and_a_span_of_5_ft():
    """w 25 psf, E 0.4, centre at half chord: P2 = w (1 + 2E) = 45 psf, 135.0 lb, hinge moment 54.0 ft-lb."""
    plan = Planform.of(np.array([0.0, 5.0]) * FT, np.full(2, 1.2 * FT), fin=np.full(2, 1.8 * FT))
    force, torque, _ = airload_totals(FigureA7Load(np.asarray(25.0 * PSF), 0.5), plan)
    assert appendix_a.figure_a7(25.0, 0.4, 0.5)[1] == pytest.approx(45.0)
    assert force / LB == pytest.approx(135.0, rel=1e-12)
    assert -torque / (LB * FT) == pytest.approx(54.0, rel=1e-12)


def test_rudder_is_loaded_the_other_way_when_the_centre_is_far_forward():
    """P2 is negative below d' = (1 - E)/3."""
    p2 = appendix_a.figure_a7(25.0, 0.4, np.array([0.19, 0.2, 0.21]))[1]
    assert p2[0] < 0.0 < p2[2]
    assert p2[1] == pytest.approx(0.0, abs=1e-12)


@pytest.mark.parametrize("share", [0.0, 1.0, -0.2])
def test_a_share_that_is_none_is_refused(share):
    with pytest.raises(SurfaceError, match="must lie between 0 and 1"):
        appendix_a.figure_a7(1.0, share, 0.2)
