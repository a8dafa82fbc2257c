"""Elastic stress concentration at a round or an elliptical hole.

Every factor multiplies a named nominal stress, and is elastic: a ductile sheet redistributes before it breaks, so none
of these lowers a static ultimate strength. They are for comparing notches, for yield at a point, and as a caution.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.errors import SurfaceError
from surfacecheck.provenance import Basis, Source
from surfacecheck.strength._numbers import at_least, floats

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, NDArray

__all__ = [
    "ELLIPSE_SOURCE",
    "HOLE_SOURCE",
    "ellipse_concentration",
    "hole_concentration",
    "hole_concentration_gross",
    "hole_edge_stress",
]

HOLE_SOURCE = Source(
    Basis.PUBLISHED,
    "Roark's Formulas for Stress and Strain, Table 17.1 (central hole, net stress), read in an online transcription; "
    "wide sheet: Kirsch (1898), exact",
)
ELLIPSE_SOURCE = Source(Basis.PUBLISHED, "Inglis (1913), exact for a wide sheet")


def _hole_share(d: ArrayLike, W: ArrayLike) -> NDArray[np.float64]:
    (hole,) = at_least(0.0, d=d)
    (width,) = at_least(0.0, above=True, W=W)
    share = hole / width
    if not np.all(share < 1.0):
        message = f"d/W is {float(share.max()):.4g}; a hole must be narrower than its strip: give W > d"
        raise SurfaceError(message)
    return np.asarray(share)


def hole_concentration(d: ArrayLike, W: ArrayLike) -> NDArray[np.float64]:
    """Give the factor on the net stress at a central round hole in a strip in tension.

    K_t = 3 - 3.13 x + 3.66 x^2 - 1.53 x^3, x = d/W, on P/(t (W - d))

    Parameters
    ----------
    d : array_like
        Hole diameter [m].
    W : array_like
        Width of the strip; in a long row across the load, the pitch is a near thing [m].

    Returns
    -------
    ndarray
        K_t on the net stress [-].

    Raises
    ------
    SurfaceError
        If the hole is as wide as the strip or wider.

    References
    ----------
    Young, W. C., and Budynas, R. G.: Roark's Formulas for Stress and Strain, Table 17.1, by online transcription.

    Examples
    --------
    >>> [round(float(k), 3) for k in hole_concentration([0.1, 0.2, 0.5], 1.0)]
    [2.722, 2.508, 2.159]
    """
    x = _hole_share(d, W)
    return np.asarray(3.0 - 3.13 * x + 3.66 * x * x - 1.53 * x * x * x)


def hole_concentration_gross(d: ArrayLike, W: ArrayLike) -> NDArray[np.float64]:
    """Give the factor on the gross stress at a central round hole in a strip in tension.

    K_t / (1 - d/W), on P/(t W)

    Parameters
    ----------
    d : array_like
        Hole diameter [m].
    W : array_like
        Width of the strip [m].

    Returns
    -------
    ndarray
        Factor on the gross stress [-].

    Raises
    ------
    SurfaceError
        If the hole is as wide as the strip or wider.

    References
    ----------
    That of :func:`hole_concentration`, whose factor belongs to the net stress; taking it for gross is a known slip.

    Examples
    --------
    >>> print(f"{hole_concentration_gross(0.2, 1.0):.3f}")
    3.135
    """
    return np.asarray(hole_concentration(d, W) / (1.0 - _hole_share(d, W)))


def hole_edge_stress(s_1: ArrayLike, s_2: ArrayLike = 0.0) -> NDArray[np.float64]:
    """Give the largest stress at the edge of a round hole in a wide sheet.

    max(|3 s_1 - s_2|, |3 s_2 - s_1|)

    Parameters
    ----------
    s_1, s_2 : array_like
        Principal stresses far from the hole, tension positive [Pa].

    Returns
    -------
    ndarray
        Magnitude of the largest edge stress [Pa].

    References
    ----------
    Kirsch, G. (1898), exact solution for an infinite plate: 3 in one direction, 2 in all, 4 in pure shear.

    Examples
    --------
    >>> hole_edge_stress(1.0, [0.0, 1.0, -1.0]).tolist()
    [3.0, 2.0, 4.0]
    """
    a, b = floats(s_1), floats(s_2)
    if not (np.isfinite(a).all() and np.isfinite(b).all()):
        message = "s_1 or s_2 holds a value that is not a finite number: give the stresses far from the hole"
        raise SurfaceError(message)
    return np.asarray(np.maximum(np.abs(3.0 * a - b), np.abs(3.0 * b - a)))


def ellipse_concentration(a: ArrayLike, rho: ArrayLike) -> NDArray[np.float64]:
    """Give the factor at the ends of an elliptical hole across the pull in a wide sheet.

    K_t = 1 + 2 sqrt(a/rho)

    Parameters
    ----------
    a : array_like
        Half the length of the hole across the pull [m].
    rho : array_like
        Radius at its ends (b^2/a, b half its length along the pull) [m].

    Returns
    -------
    ndarray
        K_t [-].

    Raises
    ------
    SurfaceError
        For a length below zero or an end that is sharp: a crack is not a matter of K_t.

    References
    ----------
    Inglis, C. E. (1913), exact solution for an infinite plate.

    Examples
    --------
    A round hole, and a slot four times as long as its end radius:

    >>> ellipse_concentration([1.0, 4.0], 1.0).tolist()
    [3.0, 5.0]
    """
    (half,) = at_least(0.0, a=a)
    (radius,) = at_least(0.0, above=True, rho=rho)
    return np.asarray(1.0 + 2.0 * np.sqrt(half / radius))
