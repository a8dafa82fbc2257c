"""Buckling of sheet with more than one load, of free flanges and lips, and between rivets."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.provenance import Basis, Source
from surfacecheck.strength._numbers import at_least, floats, ratio

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, NDArray

__all__ = [
    "FIXITY",
    "FIXITY_SOURCE",
    "INTER_RIVET_SOURCE",
    "bending_shear_margin",
    "compression_shear_margin",
    "inter_rivet",
    "inter_rivet_pitch",
    "least_lip",
    "lip_stiffness",
]

INTER_RIVET_SOURCE = Source(
    Basis.FROM_MEMORY,
    "column strip between rivets, c pi^2/12 E (t/p)^2, without 1/(1 - nu^2); NACA TN 3785 uses it with",
)

FIXITY = {"protruding": 3.0, "blind": 2.0, "countersunk": 1.0}
"""End fixity c of the sheet between rivets, by head [-]."""
FIXITY_SOURCE = {
    "protruding": Source(Basis.PUBLISHED, "3.0: ESDU 02.01.09, snap head, as quoted in secondary text"),
    "blind": Source(Basis.COMMON_PRACTICE, "2.0: no published value for blind rivets; low end of 2 to 2.5"),
    "countersunk": Source(Basis.PUBLISHED, "1.0: countersunk or dimpled, tables as quoted in secondary text"),
}

_STRIP = np.pi**2 / 12.0
_LIP = 0.910
_LIP_LEAST = 5.0


def compression_shear_margin(R_c: ArrayLike, R_s: ArrayLike) -> NDArray[np.float64]:
    """Give the margin against buckling in compression and shear.

    R_c + R_s^2 = 1; margin = 2 / (R_c + sqrt(R_c^2 + 4 R_s^2)) - 1

    Parameters
    ----------
    R_c : array_like
        Compression over critical compression; tension (negative) gives no credit [-].
    R_s : array_like
        Shear over critical shear, sign free [-].

    Returns
    -------
    ndarray
        The margin [-]; infinite where nothing acts.

    Notes
    -----
    Up to 2 % on the unsafe side for a square clamped plate, against exact solutions.

    References
    ----------
    ANC-5 (NACA interaction formula), from memory; checked by Ritz solutions.

    Examples
    --------
    >>> float(compression_shear_margin(0.4, 0.5))
    0.3541
    """
    c, s = np.maximum(floats(R_c), 0.0), np.abs(floats(R_s))
    bottom = c + np.sqrt(c * c + 4.0 * s * s)
    return np.asarray(np.where(bottom == 0.0, np.inf, ratio(2.0, bottom)) - 1.0)


def bending_shear_margin(R_b: ArrayLike, R_s: ArrayLike) -> NDArray[np.float64]:
    """Give the margin of a web against buckling in its own-plane bending and shear.

    margin = 1 / sqrt(R_b^2 + R_s^2) - 1

    Parameters
    ----------
    R_b, R_s : array_like
        Stress over critical stress in bending and shear, sign free [-].

    Returns
    -------
    ndarray
        The margin [-]; infinite where nothing acts.

    Notes
    -----
    About 5 % on the unsafe side for a square supported plate, against exact solutions.

    References
    ----------
    ANC-5 (NACA interaction formula), from memory; checked by Ritz solutions.

    Examples
    --------
    >>> float(bending_shear_margin(0.6, 0.5))
    0.280
    """
    total = np.hypot(floats(R_b), floats(R_s))
    return np.asarray(np.where(total == 0.0, np.inf, ratio(1.0, total)) - 1.0)


def inter_rivet(c: ArrayLike, E: ArrayLike, thickness: ArrayLike, pitch: ArrayLike) -> NDArray[np.float64]:
    """Give the compression at which a sheet buckles between rivets.

    F_ir = c pi^2/12 E (t/p)^2

    Parameters
    ----------
    c : array_like
        End fixity, of :data:`FIXITY` [-].
    E : array_like
        Compression modulus (tangent modulus above the elastic range) [Pa].
    thickness : array_like
        Sheet thickness [m].
    pitch : array_like
        Pitch of the rivets along the compression [m].

    Returns
    -------
    ndarray
        Stress [Pa].

    Notes
    -----
    Without the factor 1/(1 - nu^2) of a wide strip, which would give 12 % more.

    References
    ----------
    Column strip; NACA TN 3785 and ESDU 02.01.09 for c, as quoted in secondary text.

    Examples
    --------
    c 3, 0.020 in, pitch 0.75 in, 10.1e6 psi:

    >>> float(inter_rivet(3.0, 10.1e6, 0.020, 0.75))
    17721.
    """
    (t,) = at_least(0.0, thickness=thickness)
    (p,) = at_least(0.0, above=True, pitch=pitch)
    slender = t / p
    return np.asarray(floats(c) * _STRIP * floats(E) * slender * slender)


def inter_rivet_pitch(c: ArrayLike, E: ArrayLike, thickness: ArrayLike, stress: ArrayLike) -> NDArray[np.float64]:
    """Give the greatest pitch at which a sheet carries a compression without buckling between rivets.

    p = t sqrt(c pi^2/12 E / F)

    Parameters
    ----------
    c : array_like
        End fixity [-].
    E : array_like
        Compression modulus [Pa].
    thickness : array_like
        Sheet thickness [m].
    stress : array_like
        Compression to be carried [Pa].

    Returns
    -------
    ndarray
        Pitch, infinite for no compression [m].

    References
    ----------
    As :func:`inter_rivet`.

    Examples
    --------
    >>> float(inter_rivet_pitch(3.0, 10.1e6, 0.020, 20000.0))
    0.706
    """
    t, f = at_least(0.0, thickness=thickness, stress=stress)
    square = np.where(f == 0.0, np.inf, ratio(floats(c) * _STRIP * floats(E), f))
    return np.asarray(np.where(t == 0.0, 0.0, 1.0) * np.where(t == 0.0, 1.0, t) * np.sqrt(square))


def lip_stiffness(lip: ArrayLike, flange: ArrayLike, thickness: ArrayLike) -> NDArray[np.float64]:
    """Give the number that says whether a lip holds the free edge of a flange; 5 is enough.

    0.910 (b_L/t)^3 (t/b_f) - b_L/b_f, to be at least 5

    Parameters
    ----------
    lip, flange : array_like
        Widths of lip and flange [m].
    thickness : array_like
        Thickness [m].

    Returns
    -------
    ndarray
        The number [-]; from 5 on the flange counts as supported at both sides, below that as free at one.

    References
    ----------
    E. F. Bruhn, Analysis and Design of Flight Vehicle Structures, C7.9, from memory; confirmed by finite strips.

    Examples
    --------
    >>> float(lip_stiffness(0.164, 0.75, 0.032)) >= 5.0
    True
    """
    (x,) = at_least(0.0, lip=lip)
    w, t = at_least(0.0, above=True, flange=flange, thickness=thickness)
    slender = x / t
    return np.asarray(_LIP * slender * slender * slender * (t / w) - x / w)


def least_lip(flange: ArrayLike, thickness: ArrayLike) -> NDArray[np.float64]:
    """Give the lip that just holds the free edge of a flange.

    0.910 (b_L/t)^3 (t/b_f) - b_L/b_f = 5, solved for b_L

    Parameters
    ----------
    flange : array_like
        Flange width [m].
    thickness : array_like
        Thickness [m].

    Returns
    -------
    ndarray
        Lip width [m].

    References
    ----------
    As :func:`lip_stiffness`; Cardano's formula.

    Examples
    --------
    >>> float(least_lip(0.75, 0.032))
    0.1639
    """
    w, t = at_least(0.0, above=True, flange=flange, thickness=thickness)
    p, q = t * t / _LIP, _LIP_LEAST * w * t * t / _LIP
    root = np.sqrt(np.maximum(q * q / 4.0 - p * p * p / 27.0, 0.0))
    return np.asarray(np.cbrt(q / 2.0 + root) + np.cbrt(q / 2.0 - root))
