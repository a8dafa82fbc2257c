"""One rivet: shear, the knock-down in thin sheet, tension, and both together.

Shear of a solid rivet is taken on the area of the listed hole, not of the shank; the diameter in the thin-sheet
factor is the nominal one.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.provenance import Basis, Source
from surfacecheck.strength._numbers import at_least, floats

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, NDArray

__all__ = [
    "LEAST_T_OVER_D",
    "SOLID_SHEAR_SOURCE",
    "blind_shear",
    "hole_area",
    "sheet_covered",
    "solid_shear",
    "thin_sheet_double",
    "thin_sheet_single",
]

LEAST_T_OVER_D = 0.18
"""Thinnest sheet over nominal rivet diameter that the bearing and shear tables cover (MIL-HDBK-5J, 8.1.2.1)."""

SOLID_SHEAR_SOURCE = Source(
    Basis.PUBLISHED, "MIL-HDBK-5J (2003), 8.1.2, shear on the hole area of Table 8.1.2(a), as quoted in secondary text"
)


def hole_area(hole: ArrayLike) -> NDArray[np.float64]:
    """Give the area of the listed hole, on which a solid rivet shears.

    A = pi/4 x d_hole^2

    Parameters
    ----------
    hole : array_like
        Diameter of the hole as listed for that rivet size [m].

    Returns
    -------
    ndarray
        Area [m^2].

    Notes
    -----
    A hole drilled larger than listed does not raise the strength: give the listed value.

    References
    ----------
    MIL-HDBK-5J (2003), 8.1.2 and Table 8.1.2(a).

    Examples
    --------
    >>> float(hole_area(0.1285))  # in^2 for 1/8 in
    0.012969
    """
    (d,) = at_least(0.0, hole=hole)
    return np.asarray(np.pi / 4.0 * d * d)


def solid_shear(
    hole: ArrayLike, F_su: ArrayLike, planes: ArrayLike = 1, factor: ArrayLike = 1.0
) -> NDArray[np.float64]:
    """Give the ultimate shear strength of a driven solid rivet.

    P_s = n_planes x k x F_su x pi/4 x d_hole^2

    Parameters
    ----------
    hole : array_like
        Listed hole diameter [m].
    F_su : array_like
        Ultimate shear stress of the rivet metal [Pa].
    planes : array_like
        Number of shear planes [-].
    factor : array_like
        Thin-sheet factor k [-].

    Returns
    -------
    ndarray
        Strength of one rivet [N].

    References
    ----------
    MIL-HDBK-5J (2003), 8.1.2, Tables 8.1.2(a) and (b).

    Examples
    --------
    A 5/32 in 2117 rivet, 30 ksi on a 0.159 in hole; the table gives 596 lb:

    >>> float(solid_shear(0.159, 30000.0))
    595.7
    """
    (stress,) = at_least(0.0, F_su=F_su)
    return np.asarray(floats(planes) * floats(factor) * stress * hole_area(hole))


def thin_sheet_single(diameter: ArrayLike, thickness: ArrayLike) -> NDArray[np.float64]:
    """Give the factor on rivet shear in thin sheet, single shear.

    k = min(1, 1 - 0.04 (D/t - 3))

    Parameters
    ----------
    diameter : array_like
        Nominal rivet diameter [m].
    thickness : array_like
        Thinner sheet [m].

    Returns
    -------
    ndarray
        Factor, between 0 and 1 [-].

    Notes
    -----
    The table ends at t/D = 0.18 (:func:`sheet_covered`); below that the line is only carried on.

    References
    ----------
    MIL-HDBK-5J (2003), Table 8.1.2.1(b), as quoted in secondary text; closed form from memory, reproduces its entries.

    Examples
    --------
    >>> thin_sheet_single(0.1875, [0.036, 0.040, 0.045, 0.050, 0.063]).round(3).tolist()
    [0.912, 0.932, 0.953, 0.97, 1.0]
    """
    d, t = at_least(0.0, above=True, diameter=diameter, thickness=thickness)
    return np.asarray(np.clip(1.0 - 0.04 * (d / t - 3.0), 0.0, 1.0))


def thin_sheet_double(diameter: ArrayLike, thickness: ArrayLike) -> NDArray[np.float64]:
    """Give the factor on rivet shear in thin sheet, double shear.

    k = min(1, 1 - 0.13 (D/t - 1.5))

    Parameters
    ----------
    diameter : array_like
        Nominal rivet diameter [m].
    thickness : array_like
        Middle sheet [m].

    Returns
    -------
    ndarray
        Factor on the strength of both planes together, between 0 and 1 [-].

    References
    ----------
    MIL-HDBK-5J (2003), Table 8.1.2.1(b), as quoted in secondary text; closed form from memory, reproduces its entries.

    Examples
    --------
    >>> thin_sheet_double(0.09375, [0.025, 0.032, 0.050, 0.063]).tolist()
    [0.7075, 0.8141, 0.9512, 1.0]
    """
    d, t = at_least(0.0, above=True, diameter=diameter, thickness=thickness)
    return np.asarray(np.clip(1.0 - 0.13 * (d / t - 1.5), 0.0, 1.0))


def sheet_covered(diameter: ArrayLike, thickness: ArrayLike) -> NDArray[np.bool_]:
    """Say whether the rivet tables cover a sheet: t/D >= 0.18.

    Parameters
    ----------
    diameter : array_like
        Nominal rivet diameter [m].
    thickness : array_like
        Thinner sheet [m].

    Returns
    -------
    ndarray of bool
        True inside the tables [-].

    References
    ----------
    MIL-HDBK-5J (2003), 8.1.2.1, as quoted in secondary text.

    Examples
    --------
    >>> sheet_covered(0.125, [0.020, 0.025]).tolist()
    [False, True]
    """
    d, t = at_least(0.0, above=True, diameter=diameter, thickness=thickness)
    return np.asarray(t >= LEAST_T_OVER_D * d * (1.0 - 1e-9))


def blind_shear(strength: ArrayLike, planes: ArrayLike = 1) -> NDArray[np.float64]:
    """Give the shear strength of a blind rivet from its data sheet.

    P_s = n_planes x strength on the sheet

    Parameters
    ----------
    strength : array_like
        Shear load of one rivet in one plane, as the data sheet says [N].
    planes : array_like
        Number of shear planes [-].

    Returns
    -------
    ndarray
        Strength of one rivet [N].

    Notes
    -----
    Fastener strength, found in hard, thick fixtures: bearing and pull-over of the sheet are checked apart.
    No blind rivet has a strength without a source, so there is no default.

    References
    ----------
    ISO 14589 (mechanical testing of blind rivets), scope; the value itself is the data sheet's.

    Examples
    --------
    >>> float(blind_shear(750.0))
    750.0
    """
    (p,) = at_least(0.0, strength=strength)
    return np.asarray(floats(planes) * p)
