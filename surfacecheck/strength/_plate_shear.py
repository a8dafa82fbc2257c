"""Shear buckling coefficients of a rectangle; whichever side is given first, they belong to the short one."""

from __future__ import annotations

from typing import TYPE_CHECKING, Literal

import numpy as np

from surfacecheck.strength._numbers import at_least
from surfacecheck.strength._plates import chosen

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, NDArray

__all__ = ["shear_coefficient", "shear_coefficient_fit"]

Edges = Literal["SSSS", "CCCC"]


# aspect ratio, then k_s for all edges supported and for all edges clamped (Ritz, +-0.05 %); 0 stands for 1/infinity
_SHEAR_RATIO = np.array([1, 1.2, 1.25, 1.4, 1.5, 1.6, 1.8, 2, 2.5, 3, 4, 5, 6, 8, 10])
_SHEAR = {
    "SSSS": np.array(
        [9.325, 7.984, 7.767, 7.287, 7.070, 6.907, 6.688, 6.546, 6.033, 5.840, 5.625, 5.530, 5.479, 5.415, 5.388, 5.34]
    ),
    "CCCC": np.array(
        [
            14.642,
            12.643,
            12.347,
            11.728,
            11.458,
            11.251,
            10.642,
            10.248,
            9.859,
            9.534,
            9.295,
            9.185,
            9.119,
            9.056,
            9.029,
            8.98,
        ]
    ),
}
_SHEAR_X = np.append(1.0 / _SHEAR_RATIO**2, 0.0)[::-1]
_FIT = {"SSSS": (5.34, 4.0), "CCCC": (8.98, 5.6)}


def _long_over_short(a: ArrayLike, b: ArrayLike) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    first, second = at_least(0.0, above=True, a=a, b=b)
    short = np.minimum(first, second)
    return np.maximum(first, second) / short, short


def shear_coefficient(
    a: ArrayLike, b: ArrayLike, edges: Edges = "SSSS"
) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Give the shear buckling coefficient of a rectangle, and the side it belongs to.

    Table of Ritz values against the aspect ratio, straight lines in 1/r^2 between.

    Parameters
    ----------
    a, b : array_like
        The two sides, in either order [m].
    edges : str
        ``"SSSS"`` supported or ``"CCCC"`` clamped.

    Returns
    -------
    k : ndarray
        Coefficient [-].
    short : ndarray
        The short side, the width for :func:`plate_critical` [m].

    References
    ----------
    NACA TN 3781 (1957), shear; values worked out by a Ritz solution within 0.05 %.

    Examples
    --------
    >>> k, short = shear_coefficient(0.3, 0.3)
    >>> float(k), float(short)
    (9.325, 0.3)
    """
    values = chosen(_SHEAR, edges)
    r, short = _long_over_short(a, b)
    return np.asarray(np.interp(1.0 / (r * r), _SHEAR_X, values[::-1])), short


def shear_coefficient_fit(
    a: ArrayLike, b: ArrayLike, edges: Edges = "SSSS"
) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Give the closed-form shear coefficient that texts print, and the short side.

    k = 5.34 + 4/r^2 (supported), 8.98 + 5.6/r^2 (clamped), r = long/short

    Parameters
    ----------
    a, b : array_like
        The two sides, in either order [m].
    edges : str
        ``"SSSS"`` or ``"CCCC"``.

    Returns
    -------
    k : ndarray
        Coefficient; 3.1 % low to 1.8 % high of the exact value [-].
    short : ndarray
        The short side [m].

    References
    ----------
    NACA TN 3781 (1957), shear, closed forms.

    Examples
    --------
    5 by 10, whichever comes first:

    >>> float(shear_coefficient_fit(5.0, 10.0)[0]), float(shear_coefficient_fit(10.0, 5.0)[0])
    (6.34, 6.34)
    """
    level, rise = chosen(_FIT, edges)
    r, short = _long_over_short(a, b)
    return np.asarray(level + rise / (r * r)), short
