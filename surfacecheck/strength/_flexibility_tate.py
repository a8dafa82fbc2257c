"""A fastener as a short beam in shear, bending and bearing: the flexibility of Tate and Rosenfeld."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.strength._flexibility import sizes
from surfacecheck.strength._numbers import at_least

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, NDArray

__all__ = ["tate_rosenfeld_double", "tate_rosenfeld_single"]


def tate_rosenfeld_single(
    t_1: ArrayLike,
    t_2: ArrayLike,
    d: ArrayLike,
    E_1: ArrayLike,
    E_2: ArrayLike,
    E_f: ArrayLike,
    nu_f: ArrayLike = 0.33,
) -> NDArray[np.float64]:
    """Give the flexibility of a fastener in single shear by the form of Tate and Rosenfeld.

    C = 1/(E_f t_1) + 1/(E_f t_2) + 1/(E_1 t_1) + 1/(E_2 t_2) + 32 (1 + nu_f)(t_1 + t_2)/(9 pi E_f d^2)
    + 8 (t_1^3 + 5 t_1^2 t_2 + 5 t_1 t_2^2 + t_2^3)/(5 pi E_f d^4)

    Parameters
    ----------
    t_1, t_2 : array_like
        Thickness of the sheets [m].
    d : array_like
        Fastener diameter [m].
    E_1, E_2, E_f : array_like
        Young's modulus of the two sheets and the fastener [Pa].
    nu_f : array_like
        Poisson's ratio of the fastener [-].

    Returns
    -------
    ndarray
        C [m/N].

    Raises
    ------
    SurfaceError
        For a size or modulus that is not above zero.

    References
    ----------
    Tate, M. B., and Rosenfeld, S. J.: NACA TN 1051 (1946), in the single-shear form that one congress paper of 2018
    quotes: a single secondary source.

    Examples
    --------
    >>> print(f"{tate_rosenfeld_single(0.020, 0.032, 0.125, 9.9e6, 9.9e6, 10.0e6):.3e}")
    1.688e-05
    """
    a, b, D, e_1, e_2, e_f = sizes(t_1=t_1, t_2=t_2, d=d, E_1=E_1, E_2=E_2, E_f=E_f)
    (nu,) = at_least(0.0, nu_f=nu_f)
    bearing = 1.0 / (e_f * a) + 1.0 / (e_f * b) + 1.0 / (e_1 * a) + 1.0 / (e_2 * b)
    shear = 32.0 * (1.0 + nu) * (a + b) / (9.0 * np.pi * e_f * D * D)
    bending = 8.0 * (a * a * a + 5.0 * a * a * b + 5.0 * a * b * b + b * b * b) / (5.0 * np.pi * e_f * D * D * D * D)
    return np.asarray(bearing + shear + bending)


def tate_rosenfeld_double(
    t_middle: ArrayLike,
    t_outer: ArrayLike,
    d: ArrayLike,
    E_middle: ArrayLike,
    E_outer: ArrayLike,
    E_f: ArrayLike,
    nu_f: ArrayLike = 0.33,
) -> NDArray[np.float64]:
    """Give the flexibility of a fastener in symmetric double shear by Tate and Rosenfeld.

    C = (2 t_s + t_p)/(3 G_f A_f) + (8 t_s^3 + 16 t_s^2 t_p + 8 t_s t_p^2 + t_p^3)/(192 E_f I_f)
    + (2 t_s + t_p)/(t_s t_p E_f) + 1/(t_s E_s) + 1/(t_p E_p)

    Parameters
    ----------
    t_middle, t_outer : array_like
        t_p, thickness of the middle sheet, and t_s, of each outer one [m].
    d : array_like
        Fastener diameter [m].
    E_middle, E_outer, E_f : array_like
        Young's modulus of the sheets and the fastener [Pa].
    nu_f : array_like
        Poisson's ratio of the fastener, G_f = E_f/(2 (1 + nu_f)) [-].

    Returns
    -------
    ndarray
        C over both planes [m/N].

    Raises
    ------
    SurfaceError
        For a size or modulus that is not above zero.

    References
    ----------
    Tate, M. B., and Rosenfeld, S. J.: NACA TN 1051 (1946), as transcribed in NASA CR-3710, quoted in secondary text.

    Examples
    --------
    The second joint of :func:`huth`: twice as soft as there.

    >>> print(f"{tate_rosenfeld_double(6.0, 3.0, 8.0, 72e3, 72e3, 200e3, 0.3):.3e}")
    1.159e-05
    """
    p, s, D, e_p, e_s, e_f = sizes(t_middle=t_middle, t_outer=t_outer, d=d, E_middle=E_middle, E_outer=E_outer, E_f=E_f)
    (nu,) = at_least(0.0, nu_f=nu_f)
    area, inertia, G = np.pi * D * D / 4.0, np.pi * D * D * D * D / 64.0, e_f / (2.0 * (1.0 + nu))
    shear = (2.0 * s + p) / (3.0 * G * area)
    bending = (8.0 * s * s * s + 16.0 * s * s * p + 8.0 * s * p * p + p * p * p) / (192.0 * e_f * inertia)
    bearing = (2.0 * s + p) / (s * p * e_f) + 1.0 / (s * e_s) + 1.0 / (p * e_p)
    return np.asarray(shear + bending + bearing)
