"""Elastic stress concentration at the shoulder fillets of a flat bar, in tension and bent in its plane."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.errors import SurfaceError
from surfacecheck.provenance import Basis, Source
from surfacecheck.strength._numbers import at_least

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, NDArray

__all__ = ["FILLET_RANGE", "FILLET_SOURCE", "fillet_bending", "fillet_covered", "fillet_tension"]

FILLET_SOURCE = Source(
    Basis.PUBLISHED,
    "Peterson's Stress Concentration Factors, stepped flat bar with shoulder fillets, polynomials for tension and for "
    "bending in the plane, read in an online transcription; one sign in bending put right",
)

FILLET_RANGE = (0.1, 20.0)
"""t/r from and to which the fillet polynomials are published [-]."""
_SWITCH = 2.0
"""t/r where the second set of coefficients begins [-]."""

# rows C_1 to C_4; columns: constant, sqrt(t/r), t/r; first up to t/r = 2, then above
_TENSION = np.array(
    [
        [[1.006, 1.008, -0.044], [-0.115, -0.584, 0.315], [0.245, -1.006, -0.257], [-0.135, 0.582, -0.017]],
        [[1.020, 1.009, -0.048], [-0.065, -0.165, -0.007], [-3.459, 1.266, -0.016], [3.505, -2.109, 0.069]],
    ]
)
_BENDING = np.array(
    [
        [[1.006, 0.967, 0.013], [-0.270, -2.372, 0.708], [0.662, 1.157, -0.908], [-0.405, 0.249, 0.200]],
        [[1.058, 1.002, -0.038], [-3.652, 1.639, -0.436], [6.170, -5.687, 1.175], [-2.558, 3.046, -0.701]],
    ]
)


def _shoulder(H: ArrayLike, d: ArrayLike, r: ArrayLike) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Give t/r and 2 t/H of a bar that steps from H down to d."""
    wide, narrow, radius = at_least(0.0, above=True, H=H, d=d, r=r)
    if not np.all(wide >= narrow):
        message = "the bar steps from H down to d: H is less than d somewhere, exchange them"
        raise SurfaceError(message)
    return (wide - narrow) / 2.0 / radius, np.asarray((wide - narrow) / wide)


def _fillet(table: NDArray[np.float64], u: NDArray[np.float64], z: NDArray[np.float64]) -> NDArray[np.float64]:
    root = np.sqrt(u)
    low, high = (
        tuple(row[0] + row[1] * root + row[2] * u for row in side) for side in table
    )  # C_1 to C_4 by each set, then the set that t/r asks for
    C = [np.where(u <= _SWITCH, a, b) for a, b in zip(low, high, strict=True)]
    return np.asarray(C[0] + C[1] * z + C[2] * z * z + C[3] * z * z * z)


def fillet_tension(H: ArrayLike, d: ArrayLike, r: ArrayLike) -> NDArray[np.float64]:
    """Give the factor at shoulder fillets of a flat bar in tension.

    K_t = C_1 + C_2 z + C_3 z^2 + C_4 z^3, z = 2 t/H, t = (H - d)/2, C_i(t/r), on P/(thickness d)

    Parameters
    ----------
    H, d : array_like
        Width of the wide and the narrow part [m].
    r : array_like
        Fillet radius [m].

    Returns
    -------
    ndarray
        K_t on the stress of the narrow part [-]; published for :func:`fillet_covered` only.

    Raises
    ------
    SurfaceError
        If a size is not above zero, or H is less than d.

    Notes
    -----
    The wide part must be long; a short one (a collar) concentrates less. The two sets of coefficients meet at t/r = 2
    with a jump below 0.4 %.

    References
    ----------
    Pilkey, W. D.: Peterson's Stress Concentration Factors, shoulder fillets, by online transcription.

    Examples
    --------
    >>> print(f"{fillet_tension(2.0, 1.0, 0.5):.3f}")
    1.577
    """
    return _fillet(_TENSION, *_shoulder(H, d, r))


def fillet_bending(H: ArrayLike, d: ArrayLike, r: ArrayLike) -> NDArray[np.float64]:
    """Give the factor at shoulder fillets of a flat bar bent in its plane.

    K_t = C_1 + C_2 z + C_3 z^2 + C_4 z^3, z = 2 t/H, t = (H - d)/2, C_i(t/r), on 6 M/(thickness d^2)

    Parameters
    ----------
    H, d : array_like
        Width of the wide and the narrow part [m].
    r : array_like
        Fillet radius [m].

    Returns
    -------
    ndarray
        K_t on the bending stress of the narrow part [-]; published for :func:`fillet_covered` only.

    Raises
    ------
    SurfaceError
        If a size is not above zero, or H is less than d.

    Notes
    -----
    The transcription prints the last coefficient of C_4 below t/r = 2 as -0.200. It must be +0.200: at z = 1 nothing
    is left of the narrow part, and K_t goes to 1 whatever t/r, as every other set here has it, so that the coefficients
    of t/r must add up to nothing. They do (+0.013) with the plus and do not (-0.387) with the minus; with the plus the
    two sets meet at t/r = 2 within 0.3 %, with the minus K_t falls to 0.27. Roark's table has +0.186 in that place.

    References
    ----------
    Pilkey, W. D.: Peterson's Stress Concentration Factors, shoulder fillets, by online transcription.

    Examples
    --------
    >>> print(f"{fillet_bending(2.0, 1.0, 0.5):.3f}")
    1.252
    """
    return _fillet(_BENDING, *_shoulder(H, d, r))


def fillet_covered(H: ArrayLike, d: ArrayLike, r: ArrayLike) -> NDArray[np.bool_]:
    """Tell whether a shoulder lies in the range its polynomials are published for.

    0.1 <= t/r <= 20, t = (H - d)/2

    Parameters
    ----------
    H, d : array_like
        Width of the wide and the narrow part [m].
    r : array_like
        Fillet radius [m].

    Returns
    -------
    ndarray of bool
        True inside [-].

    Raises
    ------
    SurfaceError
        If a size is not above zero, or H is less than d.

    References
    ----------
    That of :func:`fillet_tension`.

    Examples
    --------
    >>> fillet_covered(2.0, 1.0, [0.02, 0.5, 6.0]).tolist()
    [False, True, False]
    """
    steepness = _shoulder(H, d, r)[0]
    low, high = FILLET_RANGE
    return np.asarray((steepness >= low) & (steepness <= high))
