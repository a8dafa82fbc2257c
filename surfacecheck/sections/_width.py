"""Effective width: how much of a buckled sheet still works beside a stiff member under compression."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.errors import SurfaceError

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, NDArray

__all__ = ["edge_width", "newell_width", "von_karman_width", "winter_width"]

_BOTH_SIDES = 1.90
"""sqrt(k pi^2 / (12 (1 - nu^2))) with k = 4 and nu = 0.3: sheet held along both long edges [-]."""

_ONE_EDGE_FREE = 0.62
"""The same with k = 0.43: sheet held along one long edge [-]."""

_TEST_DESIGN = 1.70
"""Design value drawn from tests of that time, after Newell [-] (from memory)."""

_WINTER_FULL = (1.0 - math.sqrt(1.0 - 4.0 * 0.22)) / (2.0 * 0.22)
"""Where r (1 - 0.22 r) reaches 1: r = 1.485, the slenderness 0.673 of the design codes turned round [-]."""


def _positive(**values: ArrayLike) -> tuple[NDArray[np.float64], ...]:
    arrays = []
    for name, value in values.items():
        array = np.asarray(value, dtype=np.float64)
        right = np.isfinite(array) & (array > 0.0)
        if not right.all():
            message = f"{name} = {array[~right].flat[0]:.6g}: give a number above zero (compression positive)"
            raise SurfaceError(message)
        arrays.append(array)
    return tuple(arrays)


def von_karman_width(t: ArrayLike, E: ArrayLike, f: ArrayLike) -> NDArray[np.float64]:
    """Width of sheet that works with one line of rivets, both sides of the line together.

    ``w = 1.90 t sqrt(E / f)``

    Parameters
    ----------
    t : array_like, shape (...)
        Thickness of the sheet [m].
    E : array_like, shape (...)
        Modulus in compression [Pa].
    f : array_like, shape (...)
        Compression in the stiff member at the line [Pa].

    Returns
    -------
    ndarray, shape (...)
        Width, not limited by the sheet there is [m].

    Raises
    ------
    SurfaceError
        Where a value is not above zero.

    Notes
    -----
    The width depends on f and f on the width: repeat until both agree; f never above what buckles the sheet between
    rivets, and the width never above the pitch of the lines. Where the sheet lies on one side of the line only, half.

    References
    ----------
    Th. von Karman, E. E. Sechler, L. H. Donnell, The Strength of Thin Plates in Compression, Trans. ASME 54 (1932)
    (title from memory; 1.90 follows from k = 4, nu = 0.3).

    Examples
    --------
    >>> f"{float(von_karman_width(0.020, 10.1e6, 20e3)):.3f} in"
    '0.854 in'
    """
    thickness, modulus, stress = _positive(t=t, E=E, f=f)
    return np.asarray(_BOTH_SIDES * thickness * np.sqrt(modulus / stress))


def newell_width(t: ArrayLike, E: ArrayLike, f: ArrayLike) -> NDArray[np.float64]:
    """Narrower width for design, drawn from tests: ``w = 1.70 t sqrt(E / f)``.

    Parameters
    ----------
    t, E, f : array_like, shape (...)
        As in :func:`von_karman_width` [m, Pa, Pa].

    Returns
    -------
    ndarray, shape (...)
        Width, both sides together [m].

    References
    ----------
    Coefficient after Newell, as aircraft handbooks give it (from memory).
    """
    thickness, modulus, stress = _positive(t=t, E=E, f=f)
    return np.asarray(_TEST_DESIGN * thickness * np.sqrt(modulus / stress))


def edge_width(t: ArrayLike, E: ArrayLike, f: ArrayLike) -> NDArray[np.float64]:
    """Width of sheet that works beside a line where its far edge is free.

    ``w = 0.62 t sqrt(E / f)``

    Parameters
    ----------
    t, E, f : array_like, shape (...)
        As in :func:`von_karman_width` [m, Pa, Pa].

    Returns
    -------
    ndarray, shape (...)
        Width on the side of the free edge [m].

    References
    ----------
    As :func:`von_karman_width`, with the buckling coefficient 0.43 of a plate with one free edge (from memory).
    """
    thickness, modulus, stress = _positive(t=t, E=E, f=f)
    return np.asarray(_ONE_EDGE_FREE * thickness * np.sqrt(modulus / stress))


def winter_width(b: ArrayLike, F_cr: ArrayLike, f: ArrayLike) -> NDArray[np.float64]:
    """Working width of a sheet of width b held along both long edges.

    ``b_e = b r (1 - 0.22 r)`` with ``r = sqrt(F_cr / f)``; all of b where that reaches 1 (``f <= 0.453 F_cr``).

    Parameters
    ----------
    b : array_like, shape (...)
        Width between the lines [m].
    F_cr : array_like, shape (...)
        Stress at which the flat sheet buckles [Pa].
    f : array_like, shape (...)
        Compression at the lines [Pa].

    Returns
    -------
    ndarray, shape (...)
        Working width, at most b [m].

    Raises
    ------
    SurfaceError
        Where a value is not above zero.

    References
    ----------
    G. Winter, Strength of Thin Steel Compression Flanges, Trans. ASCE 112 (1947), in its later form with 0.22
    (from memory).

    Examples
    --------
    >>> f"{float(winter_width(4.0, 912.8, 20e3)):.3f} in"
    '0.814 in'
    """
    width, critical, stress = _positive(b=b, F_cr=F_cr, f=f)
    ratio = np.sqrt(critical / stress)
    return np.asarray(width * np.where(ratio >= _WINTER_FULL, 1.0, ratio * (1.0 - 0.22 * ratio)))
