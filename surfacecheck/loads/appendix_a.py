"""14 CFR Part 23, Amdt 23-62, Appendix A: simplified design loads of light aeroplanes.

The curves of Figures A5 and A6 and the dive speed stand as pictures in the rule; their equations here are **from
memory** and carry that mark. Figure A7 and the parabola of A23.11(c)(1)(v) are as published. Limit loads, SI.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

from surfacecheck.errors import SurfaceError
from surfacecheck.loads._units import KNOT, PSF
from surfacecheck.provenance import Basis, Source

__all__ = [
    "D_RANGE",
    "FIGURE_A5_A6",
    "LOAD_FACTORS",
    "OTHER_HALF",
    "SPEEDS",
    "SPEED_DIVE",
    "SPEED_FACTORS",
    "figure_a7",
    "least_speeds",
    "mean_loading",
    "nose_case",
    "parabola",
]

Array = NDArray[np.float64]

LOAD_FACTORS = {"normal": (3.8, -1.9), "utility": (4.4, -2.2), "acrobatic": (6.0, -3.0)}
"""Least limit load factors n1 and n2 = -0.5 n1: 14 CFR 23, Appendix A, Table 1, Amdt 23-62 [-]."""

_MEMORY_65 = Source(Basis.FROM_MEMORY, "14 CFR 23, Appendix A, Table 2, Amdt 23-62: 65 % on the other side")
OTHER_HALF: dict[str, tuple[float, Source]] = {
    "normal": (0.65, _MEMORY_65),
    "utility": (0.65, _MEMORY_65),
    "acrobatic": (0.5, Source(Basis.PUBLISHED, "14 CFR 23, Appendix A, A23.11(c)(2), Amdt 23-62")),
}
"""Load of the other half of the horizontal tail while one half has all of its own, and its source [-]."""

D_RANGE = (0.0, 0.5)
"""Centre of pressure behind the leading edge over the mean chord: A23.11(c)(1)(iii), Amdt 23-62 [-]."""

FIGURE_A5_A6 = Source(Basis.FROM_MEMORY, "14 CFR 23, Appendix A, Figures A5 and A6, Amdt 23-62: curve equations")

SPEEDS = Source(Basis.PUBLISHED, "14 CFR 23, Appendix A, A23.7(e)(2) and Figure A3, Amdt 23-62")
SPEED_DIVE = Source(Basis.FROM_MEMORY, "14 CFR 23, Appendix A, Figure A3, Amdt 23-62: dive speed and its cap")
SPEED_FACTORS = {"V_A": 15.0, "V_C": 17.0, "V_D": 24.0, "V_F": 11.0}
"""Least speed in knots over sqrt(n1 W/S in psf); V_D from memory [knots/psf^0.5]."""

_LEAST_LOADING = 12.0 * PSF  # from memory: Figures A5 and A6
_LEAST_N1 = 3.8  # A23.7(e)(2)


def least_speeds(n1: ArrayLike, wing_loading: ArrayLike) -> dict[str, Array]:
    """Least design speeds, equivalent airspeed.

    V = k sqrt(n1 W/S) knots, W/S in psf: V_A 15.0, V_C 17.0, V_D 24.0 (from memory), V_F 11.0; n1 at least 3.8.
    V_D need not exceed 1.4 sqrt(n1/3.8) V_C min (from memory). V_A need not exceed the V_C used, nor V_C 0.9 V_H.

    Parameters
    ----------
    n1 : array_like
        Positive limit load factor [-].
    wing_loading : array_like
        Weight over wing area [Pa].

    Returns
    -------
    dict of str to ndarray
        ``V_A``, ``V_C``, ``V_D``, ``V_D_cap``, ``V_F`` [m/s].

    References
    ----------
    14 CFR 23, Appendix A, A23.7(e)(2) and Figure A3, Amdt 23-62; V_D and its cap from memory.

    Examples
    --------
    >>> float(least_speeds(3.8, 12.0 * PSF)["V_A"] / KNOT)
    101.29
    """
    n = np.maximum(np.asarray(n1, dtype=np.float64), _LEAST_N1)
    root = np.sqrt(n * np.asarray(wing_loading, dtype=np.float64) / PSF) * KNOT
    speeds = {name: np.asarray(k * root) for name, k in SPEED_FACTORS.items()}
    return speeds | {"V_D_cap": np.asarray(1.4 * np.sqrt(n / 3.8) * speeds["V_C"])}


def mean_loading(kind: str, n1: ArrayLike, wing_loading: ArrayLike) -> Array:
    """Mean limit pressure of a whole tail, or of an aileron, **from memory**.

    With x = n1 W/S in psf: rudder (vertical tail) 3.66 sqrt(x); elevator (horizontal tail) 4.8 + 0.534 x;
    aileron 0.466 x; never below 12 psf. For the tail this is the mean over fin **and** rudder.

    Parameters
    ----------
    kind : str
        rudder, elevator or aileron.
    n1 : array_like
        Positive limit load factor [-].
    wing_loading : array_like
        Weight over wing area [Pa].

    Returns
    -------
    ndarray
        Mean pressure, either direction [Pa].

    Raises
    ------
    SurfaceError
        For another kind.

    References
    ----------
    14 CFR 23, Appendix A, A23.11(c), Table 2, Figures A5 and A6, Amdt 23-62; the equations from memory.

    Examples
    --------
    >>> float(mean_loading("rudder", 3.8, 12.0 * PSF) / PSF)
    24.715
    """
    x = np.asarray(n1, dtype=np.float64) * np.asarray(wing_loading, dtype=np.float64) / PSF
    curves = {"rudder": 3.66 * np.sqrt(x), "elevator": 4.8 + 0.534 * x, "aileron": 0.466 * x}
    if kind not in curves:
        message = f"{kind!r} has no curve in Figures A5 and A6: one of {', '.join(curves)}"
        raise SurfaceError(message)
    return np.asarray(np.maximum(curves[kind] * PSF, _LEAST_LOADING))


def figure_a7(w: ArrayLike, share: ArrayLike, d: ArrayLike) -> tuple[Array, Array]:
    """Pressures of a fin-and-rudder chord whose centre of pressure is known.

    P1 = 2 w (2 - E - 3 d') / (1 - E) at the leading edge, P2 = 2 w (3 d' + E - 1) at the hinge line; straight from
    P1 to P2, then to zero at the trailing edge.

    Parameters
    ----------
    w : array_like
        Mean pressure over the whole chord [Pa].
    share : array_like
        E, chord behind the hinge line over the whole chord, between 0 and 1 [-].
    d : array_like
        d', centre of pressure behind the leading edge over the whole chord [-].

    Returns
    -------
    p1, p2 : ndarray
        At the leading edge and at the hinge line, both positive as w [Pa].

    Raises
    ------
    SurfaceError
        Where E is not between 0 and 1.

    References
    ----------
    14 CFR 23, Appendix A, Figure A7, Amdt 23-62.

    Examples
    --------
    >>> figure_a7(24.0, 0.5, 0.4)
    (array(28.80), array(33.60))
    """
    w, e, d = (np.asarray(x, dtype=np.float64) for x in (w, share, d))
    if np.any((e <= 0.0) | (e >= 1.0)):
        message = f"E = {e}: the chord behind the pins over fin and rudder together must lie between 0 and 1"
        raise SurfaceError(message)
    return np.asarray(2.0 * w * (2.0 - e - 3.0 * d) / (1.0 - e)), np.asarray(2.0 * w * (3.0 * d + e - 1.0))


def parabola(w: ArrayLike, behind: ArrayLike, chord: ArrayLike) -> Array:
    """Pressure on an elevator or rudder, P = 3 w (c - x)^2 / c_f^2.

    Parameters
    ----------
    w : array_like
        Mean pressure over fin and rudder, which is the mean over the rudder too [Pa].
    behind : array_like
        Distance behind the front of the rudder, 0 to its chord [m].
    chord : array_like
        Chord of the rudder c_f [m].

    Returns
    -------
    ndarray
        Pressure [Pa].

    References
    ----------
    14 CFR 23, Appendix A, A23.11(c)(1)(v), Amdt 23-62.
    """
    w, s, c = (np.asarray(x, dtype=np.float64) for x in (w, behind, chord))
    return np.asarray(3.0 * w * (c - s) ** 2 / c**2)


def nose_case(w: ArrayLike) -> tuple[Array, Array]:
    """Even pressure on a fixed tail with its front tenth half as much again, the total kept.

    Parameters
    ----------
    w : array_like
        Mean pressure [Pa].

    Returns
    -------
    front, rest : ndarray
        Over the first tenth of the chord and over the rest [Pa].

    References
    ----------
    14 CFR 23, Appendix A, A23.11(c)(1)(iv), Amdt 23-62.
    """
    w = np.asarray(w, dtype=np.float64)
    return np.asarray(1.5 * w), np.asarray((1.0 - 0.15) / 0.9 * w)
