"""Blind rivets in thin sheet by two civil codes: a second opinion beside the aircraft values, never mixed with them.

Their design resistances hold a partial factor of 1.25 and the tilting of a thin single lap; handbook bearing holds
neither. Both forms are from memory: confirm them on the page before anything is built on them.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.provenance import Basis, Source
from surfacecheck.strength._numbers import at_least, floats

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, NDArray

__all__ = [
    "ALUMINIUM_SOURCE",
    "GAMMA",
    "HIGHEST_STRENGTH",
    "STEEL_RANGE",
    "STEEL_SOURCE",
    "aluminium_blind_bearing",
    "aluminium_blind_shear",
    "aluminium_blind_tension",
    "steel_blind_bearing",
]

GAMMA = 1.25
"""Partial factor of both codes on joints, gamma_M2 and gamma_M3 [-]; recommended value, from memory."""
HIGHEST_STRENGTH = 260e6
"""Sheet strength above which the aluminium code counts no more [Pa] (EN 1999-1-4, 8.3.2.1, seen for screws)."""
STEEL_RANGE = (2.6e-3, 6.4e-3)
"""Rivet diameters of the steel code's table [m]; from memory."""

STEEL_SOURCE = Source(Basis.FROM_MEMORY, "EN 1993-1-3:2006, Table 8.1: blind rivets in steel sheet")
ALUMINIUM_SOURCE = Source(
    Basis.FROM_MEMORY,
    "EN 1999-1-4:2007, 8.2: blind rivets in aluminium sheet; the bearing form as seen for screws, eq. 8.9a and b",
)


def _between(ratio: ArrayLike, alike: NDArray[np.float64], thick: NDArray[np.float64]) -> NDArray[np.float64]:
    """Go straight from sheets of one thickness to a support 2.5 times as thick."""
    share = np.clip((floats(ratio) - 1.0) / 1.5, 0.0, 1.0)
    return np.asarray(alike + (thick - alike) * share)


def steel_blind_bearing(
    t: ArrayLike, t_1: ArrayLike, d: ArrayLike, f_u: ArrayLike, e_1: ArrayLike = np.inf
) -> NDArray[np.float64]:
    """Give the design bearing resistance of a blind rivet by the steel code.

    F_b = alpha f_u d t / gamma <= f_u e_1 t / (1.2 gamma); alpha = 3.6 sqrt(t/d) <= 2.1 where t_1 = t, 2.1 from
    t_1 = 2.5 t, straight between

    Parameters
    ----------
    t, t_1 : array_like
        The two sheets, in either order; t is the thinner [m].
    d : array_like
        Nominal rivet diameter; the table holds 2.6 to 6.4 mm [m].
    f_u : array_like
        Tensile strength of the thinner sheet [Pa].
    e_1 : array_like
        Hole centre to the end of the sheet, in the direction of the load [m].

    Returns
    -------
    ndarray
        Design resistance [N].

    Raises
    ------
    SurfaceError
        For a length not above zero.

    References
    ----------
    EN 1993-1-3:2006, Table 8.1, from memory.

    Examples
    --------
    0.8 mm on 0.8 mm, 3.2 mm, 290 MPa: alpha is 1.8

    >>> float(steel_blind_bearing(0.8e-3, 0.8e-3, 3.2e-3, 290e6)).__round__(1)
    1069.1
    """
    thin, thick, d = at_least(0.0, above=True, t=np.minimum(t, t_1), t_1=np.maximum(t, t_1), d=d)
    f_u, e_1 = at_least(0.0, f_u=f_u, e_1=e_1)
    alone = np.minimum(3.6 * np.sqrt(thin / d), 2.1)
    alpha = _between(thick / thin, alone, np.full_like(alone, 2.1))
    return np.asarray(np.minimum(alpha * f_u * d * thin, f_u * e_1 * thin / 1.2) / GAMMA)


def aluminium_blind_bearing(t: ArrayLike, t_sup: ArrayLike, d: ArrayLike, f_u: ArrayLike) -> NDArray[np.float64]:
    """Give the design bearing resistance of a blind rivet by the aluminium code.

    F_b = 2.5 f_u sqrt(t^3 d) / gamma <= 1.5 f_u t d / gamma where t_sup = t, 1.5 f_u t d / gamma from t_sup = 2.5 t

    Parameters
    ----------
    t, t_sup : array_like
        Sheet under the head, and the one behind; a thinner one behind counts as t [m].
    d : array_like
        Nominal rivet diameter [m].
    f_u : array_like
        Tensile strength of the weaker sheet; above 260 MPa no more is counted [Pa].

    Returns
    -------
    ndarray
        Design resistance [N].

    Raises
    ------
    SurfaceError
        For a length not above zero.

    References
    ----------
    EN 1999-1-4:2007, 8.2, from memory; the same form as for screws, eq. 8.9a and b.

    Examples
    --------
    0.8 mm 6061-T6 (290 MPa, 260 counted) on the same, 3.2 mm:

    >>> float(aluminium_blind_bearing(0.8e-3, 0.8e-3, 3.2e-3, 290e6)).__round__(1)
    665.6
    """
    thin, behind, d = at_least(0.0, above=True, t=np.minimum(t, t_sup), t_sup=t_sup, d=d)
    (f_u,) = at_least(0.0, f_u=f_u)
    counted = np.minimum(f_u, HIGHEST_STRENGTH)
    most = 1.5 * counted * thin * d
    alone = np.minimum(2.5 * counted * np.sqrt(thin**3 * d), most)
    return np.asarray(_between(behind / thin, alone, most) / GAMMA)


def aluminium_blind_shear(d: ArrayLike) -> NDArray[np.float64]:
    """Give the design shear resistance of an aluminium blind rivet.

    F_v = 38 N/mm2 d^2 / gamma

    Parameters
    ----------
    d : array_like
        Nominal diameter [m].

    Returns
    -------
    ndarray
        Design resistance [N].

    Raises
    ------
    SurfaceError
        For a length not above zero.

    References
    ----------
    EN 1999-1-4:2007, 8.2, from memory.

    Examples
    --------
    >>> float(aluminium_blind_shear(3.2e-3)).__round__(1)
    311.3
    """
    (d,) = at_least(0.0, above=True, d=d)
    return np.asarray(38e6 * d**2 / GAMMA)


def aluminium_blind_tension(d: ArrayLike) -> NDArray[np.float64]:
    """Give the design tension resistance of an aluminium blind rivet.

    F_t = 47 N/mm2 d^2 / gamma

    Parameters
    ----------
    d : array_like
        Nominal diameter [m].

    Returns
    -------
    ndarray
        Design resistance [N].

    Raises
    ------
    SurfaceError
        For a length not above zero.

    References
    ----------
    EN 1999-1-4:2007, 8.2, from memory.

    Examples
    --------
    >>> float(aluminium_blind_tension(3.2e-3)).__round__(1)
    385.0
    """
    (d,) = at_least(0.0, above=True, d=d)
    return np.asarray(47e6 * d**2 / GAMMA)
