"""Sheet that wrinkles in shear: the diagonal-tension factor, and what it adds to rivet rows."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.provenance import Basis, Source
from surfacecheck.strength._numbers import at_least, floats, ratio

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, NDArray

__all__ = [
    "DIAGONAL_TENSION_SOURCE",
    "ROW_SHARE",
    "diagonal_tension_factor",
    "largest_factor",
    "row_factor",
    "upright_rivet_tension",
    "wrinkled_row_margin",
]

ROW_SHARE = 0.414
"""sqrt(2) - 1 as the report rounds it: a fully wrinkled sheet at 45 degrees pulls as hard across the row as along."""

DIAGONAL_TENSION_SOURCE = Source(
    Basis.FROM_MEMORY,
    "Kuhn, Peterson, Levin, NACA TN 2661 (1952): k confirmed in T. H. G. Megson, Aircraft Structures, 9.7; "
    "row factor 1 + 0.414 k of section 3.11 from memory",
)

_NOTHING = 1e-100  # a ratio below this counts as nothing acting; its square would be lost
_HALF_LOG = 0.5 / np.log(10.0)  # 0.5 log10(x) = _HALF_LOG ln(x)
_STEPS = 4  # each step doubles the right digits (see wrinkled_row_margin)


def diagonal_tension_factor(shear: ArrayLike, critical: ArrayLike) -> NDArray[np.float64]:
    """Give the share of the shear that a wrinkled sheet carries as diagonal tension.

    k = tanh(0.5 log10(tau / tau_cr)), 0 up to tau_cr

    Parameters
    ----------
    shear : array_like
        Shear stress, or shear flow; its sign does not matter [Pa, or N/m].
    critical : array_like
        The same at buckling; may be infinite [same].

    Returns
    -------
    ndarray
        k, from 0 to 1 [-].

    References
    ----------
    NACA TN 2661 (1952), eq. for k of flat webs; T. H. G. Megson, Aircraft Structures, 9.7.

    Examples
    --------
    >>> diagonal_tension_factor([0.9, 3.0, 10.0], 1.0).round(4).tolist()
    [0.0, 0.2341, 0.4621]
    """
    (c,) = at_least(0.0, critical=critical)
    return np.asarray(np.tanh(0.5 * np.log10(np.maximum(ratio(np.abs(floats(shear)), c), 1.0))))


def row_factor(k: ArrayLike) -> NDArray[np.float64]:
    """Give what a wrinkled sheet multiplies the shear of a rivet row by.

    1 + 0.414 k

    Parameters
    ----------
    k : array_like
        Diagonal-tension factor [-].

    Returns
    -------
    ndarray
        Factor, 1 to 1.414 [-].

    References
    ----------
    NACA TN 2661 (1952), section 3.11, from memory.

    Examples
    --------
    >>> row_factor(diagonal_tension_factor([2.0, 5.0, 20.0], 1.0)).round(2).tolist()
    [1.06, 1.14, 1.24]
    """
    return np.asarray(1.0 + ROW_SHARE * floats(k))


def wrinkled_row_margin(
    R_s: ArrayLike, R_t: ArrayLike, buckling_ratio: ArrayLike, factor: ArrayLike
) -> NDArray[np.float64]:
    """Give the margin of a rivet row whose sheet wrinkles more as the load grows.

    (m FS R_s (1 + 0.414 k(m FS q/q_cr)))^2 + (m FS R_t)^2 = 1, margin = m - 1

    Parameters
    ----------
    R_s : array_like
        Shear of a rivet at limit load, flat sheet, over its strength [-].
    R_t : array_like
        Tension at limit load over its strength; 0 for shear alone [-].
    buckling_ratio : array_like
        Shear at limit load over shear at buckling of the sheet that ends at the row; 0 for a sheet that does not
        wrinkle [-].
    factor : array_like
        Factor of safety times special factors: k is taken at that load [-].

    Returns
    -------
    ndarray
        The margin [-]; infinite where nothing acts.

    Notes
    -----
    With x = m FS, x = phi(x) = 1 / sqrt((R_s (1 + 0.414 k(x)))^2 + R_t^2) is solved by Newton's method from the flat
    sheet's x. phi falls, by less than 0.09 of what x rises in share (d k/d ln x <= 0.217, times 0.414), and the root
    never lies below the wrinkling load if the start lies above it: a fixed, small number of steps serves every element.

    References
    ----------
    NACA TN 2661 (1952), section 3.11, from memory; interaction as in ``interaction_margin``; 14 CFR 23.305 (ultimate
    evaluated at ultimate load).

    Examples
    --------
    >>> float(wrinkled_row_margin(119.03 / 750.0, 0.0, 3.3898, 1.5))
    2.4201
    """
    s, t, b = at_least(0.0, R_s=R_s, R_t=R_t, buckling_ratio=buckling_ratio)
    (fs,) = at_least(0.0, above=True, factor=factor)
    s, t, b, fs = np.broadcast_arrays(s, t, b, fs)
    idle, spent = (s < _NOTHING) & (t < _NOTHING), np.isinf(s) | np.isinf(t)
    s, t = np.where(idle | spent, 1.0, s), np.where(spent, 0.0, t)  # stand-ins where the answer is known
    load = 1.0 / np.sqrt(s * s + t * t)
    for _ in range(_STEPS):
        k = np.tanh(_HALF_LOG * np.log(np.maximum(b * load, 1.0)))
        rate = np.where(b * load > 1.0, _HALF_LOG * (1.0 - k * k), 0.0)  # d k / d ln(load)
        more = 1.0 + ROW_SHARE * k
        sheared = s * more
        held = 1.0 / np.sqrt(sheared * sheared + t * t)
        fall = held * held * held * s * sheared * ROW_SHARE * rate / load
        load = load - (load - held) / (1.0 + fall)
    found = np.where(idle, np.inf, np.where(spent, 0.0, load / fs))
    return np.asarray(found - 1.0)


def largest_factor(thickness: ArrayLike) -> NDArray[np.float64]:
    """Give the factor k above which a sheet keeps lasting wrinkles.

    k <= 0.78 - sqrt(t - 0.012), t in inches

    Parameters
    ----------
    thickness : array_like
        Sheet thickness [m].

    Returns
    -------
    ndarray
        Largest k at ultimate load [-].

    Notes
    -----
    A fitted rule in inches; below 0.012 in the root is taken as 0.

    References
    ----------
    NACA TN 2661 (1952), design rule on permanent set, from memory.

    Examples
    --------
    >>> float(largest_factor(0.025 * 0.0254))
    0.666
    """
    (t,) = at_least(0.0, thickness=thickness)
    return np.asarray(0.78 - np.sqrt(np.maximum(t / 0.0254 - 0.012, 0.0)))


def upright_rivet_tension(F_tu: ArrayLike, thickness: ArrayLike, *, both_sides: bool = False) -> NDArray[np.float64]:
    """Give the tension strength rivets to a rib need so that a wrinkled web does not pull off.

    0.22 t F_tu a unit length (rib on one side), 0.15 t F_tu (on both)

    Parameters
    ----------
    F_tu : array_like
        Ultimate tensile stress of the web [Pa].
    thickness : array_like
        Web thickness [m].
    both_sides : bool
        Whether there is a rib flange on each face.

    Returns
    -------
    ndarray
        Strength asked for [N/m].

    References
    ----------
    NACA TN 2661 (1952), section 3.11, from memory.

    Examples
    --------
    0.020 in, 42 ksi, in lb/in:

    >>> float(upright_rivet_tension(42000.0, 0.020)), float(upright_rivet_tension(42000.0, 0.020, both_sides=True))
    (184.8, 126.0)
    """
    stress, t = at_least(0.0, F_tu=F_tu, thickness=thickness)
    return np.asarray((0.15 if both_sides else 0.22) * t * stress)
