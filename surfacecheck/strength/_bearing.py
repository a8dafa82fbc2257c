"""The sheet at a rivet or pin: bearing, tearing out to the edge, net section."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.provenance import Basis, Source
from surfacecheck.strength._numbers import at_least, floats

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, NDArray

__all__ = [
    "BEARING_SOURCE",
    "LEAST_E_OVER_D",
    "NET_SECTION_SOURCE",
    "SHEAR_OUT_SOURCE",
    "bearing_covered",
    "bearing_load",
    "bearing_stress",
    "net_section",
    "net_width",
    "shear_out",
]

LEAST_E_OVER_D = 1.5
"""Edge distance over diameter where the bearing tables begin (MIL-HDBK-5J, 1.4.7.1)."""

BEARING_SOURCE = Source(
    Basis.PUBLISHED,
    "MIL-HDBK-5J (2003), 1.4.7.1 and 8.1.2.1, as quoted in secondary text: F_br x D x t, e/D 1.5 to 2.0 and not above",
)
SHEAR_OUT_SOURCE = Source(
    Basis.COMMON_PRACTICE, "two 40-degree planes, 2 F_su t (e - D/2 cos 40 deg); unconservative below e/D 1.5"
)
NET_SECTION_SOURCE = Source(Basis.COMMON_PRACTICE, "F_tu t (w - n d), with + s^2/(4 g) for staggered holes")

_COS_40 = float(np.cos(np.deg2rad(40.0)))


def bearing_stress(e_over_D: ArrayLike, F_br_15: ArrayLike, F_br_20: ArrayLike) -> NDArray[np.float64]:
    """Give the bearing stress a sheet allows at an edge distance.

    A straight line from e/D 1.5 to 2.0; the value at 2.0 above that.

    Parameters
    ----------
    e_over_D : array_like
        Edge distance from the hole's centre over the diameter [-].
    F_br_15, F_br_20 : array_like
        Allowed bearing stress at e/D 1.5 and 2.0, ultimate or yield [Pa].

    Returns
    -------
    ndarray
        Allowed bearing stress [Pa].

    Notes
    -----
    Below e/D 1.5 nothing is published: the value at 1.5 comes back and :func:`bearing_covered` is False;
    :func:`shear_out` then stands beside it, and the margin is outside the method.

    References
    ----------
    MIL-HDBK-5J (2003), 1.4.7.1.

    Examples
    --------
    6061-T6 sheet, 67 and 88 ksi:

    >>> bearing_stress([1.5, 1.75, 2.0, 2.5], 67.0, 88.0).tolist()
    [67.0, 77.5, 88.0, 88.0]
    """
    low, high = floats(F_br_15), floats(F_br_20)
    share = np.clip((floats(e_over_D) - 1.5) / 0.5, 0.0, 1.0)
    return np.asarray(low + (high - low) * share)


def bearing_covered(e_over_D: ArrayLike) -> NDArray[np.bool_]:
    """Say whether the bearing tables cover an edge distance: e/D >= 1.5.

    Parameters
    ----------
    e_over_D : array_like
        Edge distance over diameter [-].

    Returns
    -------
    ndarray of bool
        True inside the tables [-].

    References
    ----------
    MIL-HDBK-5J (2003), 1.4.7.1.

    Examples
    --------
    >>> bearing_covered([1.2, 1.5]).tolist()
    [False, True]
    """
    return np.asarray(floats(e_over_D) >= LEAST_E_OVER_D * (1.0 - 1e-9))


def bearing_load(F_br: ArrayLike, hole: ArrayLike, thickness: ArrayLike) -> NDArray[np.float64]:
    """Give the bearing strength of a sheet at one rivet or pin.

    P_br = F_br x D x t

    Parameters
    ----------
    F_br : array_like
        Allowed bearing stress, ultimate or yield [Pa].
    hole : array_like
        Hole diameter (driven solid, blind) or pin diameter [m].
    thickness : array_like
        Sheet thickness [m].

    Returns
    -------
    ndarray
        Strength [N].

    References
    ----------
    MIL-HDBK-5J (2003), 8.1.2.1, Table 8.1.2.1(a).

    Examples
    --------
    Unit bearing strength, 1/8 in rivet in 0.032 in sheet at 100 ksi; the table gives 411 lb:

    >>> float(bearing_load(100000.0, 0.1285, 0.032))
    411.2
    """
    stress, d, t = at_least(0.0, F_br=F_br, hole=hole, thickness=thickness)
    return np.asarray(stress * d * t)


def shear_out(F_su: ArrayLike, edge: ArrayLike, hole: ArrayLike, thickness: ArrayLike) -> NDArray[np.float64]:
    """Give the load at which a rivet tears the sheet out to its edge.

    P = 2 F_su t (e - (D/2) cos 40 deg) = 2 F_su t (e - 0.383 D)

    Parameters
    ----------
    F_su : array_like
        Ultimate shear stress of the sheet [Pa].
    edge : array_like
        Centre of the hole to the edge, along the load [m].
    hole : array_like
        Hole diameter [m].
    thickness : array_like
        Sheet thickness [m].

    Returns
    -------
    ndarray
        Load; 0 where the hole has eaten the edge [N].

    Notes
    -----
    Not safe below e/D 1.5, where the ligament bends.

    References
    ----------
    Common practice: 40-degree shear-out planes of stress texts.

    Examples
    --------
    A lug, 0.063 in 6061-T6, D 0.1875, e 0.375 in:

    >>> float(shear_out(27000.0, 0.375, 0.1875, 0.063))
    1031.4
    """
    stress, e, d, t = at_least(0.0, F_su=F_su, edge=edge, hole=hole, thickness=thickness)
    return np.asarray(2.0 * stress * t * np.maximum(e - 0.5 * _COS_40 * d, 0.0))


def net_width(
    width: ArrayLike, hole: ArrayLike, holes: ArrayLike = 1, stagger: ArrayLike = 0.0, gauge: ArrayLike = 1.0
) -> NDArray[np.float64]:
    """Give the width left between holes.

    w_net = w - n d + (n - 1) s^2 / (4 g)

    Parameters
    ----------
    width : array_like
        Width of the strip [m].
    hole : array_like
        Hole diameter [m].
    holes : array_like
        Number of holes cut by the line [-].
    stagger : array_like
        Offset s of neighbouring holes along the load; 0 where they stand in line [m].
    gauge : array_like
        Distance g of neighbouring holes across the load [m].

    Returns
    -------
    ndarray
        Net width, not below 0, not above the straight cut through one hole [m].

    References
    ----------
    Common practice; the stagger term is the s^2/(4g) rule of structural codes (AISC 360, B4.3b, from memory).

    Examples
    --------
    >>> float(net_width(0.75, 0.1285))
    0.6215
    """
    w, d, s = at_least(0.0, width=width, hole=hole, stagger=stagger)
    (g,) = at_least(0.0, above=True, gauge=gauge)
    n = floats(holes)
    plain = w - np.minimum(n, 1.0) * d
    return np.asarray(np.clip(w - n * d + (n - 1.0) * s * s / (4.0 * g), 0.0, np.maximum(plain, 0.0)))


def net_section(F_tu: ArrayLike, thickness: ArrayLike, width: ArrayLike) -> NDArray[np.float64]:
    """Give the tension a strip carries at its holes.

    P = F_tu t w_net

    Parameters
    ----------
    F_tu : array_like
        Ultimate tensile stress [Pa].
    thickness : array_like
        Sheet thickness [m].
    width : array_like
        Net width, of :func:`net_width` [m].

    Returns
    -------
    ndarray
        Load [N].

    References
    ----------
    Common practice.

    Examples
    --------
    0.032 in sheet, pitch 0.75 in, hole 0.1285 in, 42 ksi:

    >>> float(net_section(42000.0, 0.032, net_width(0.75, 0.1285)))
    835.3
    """
    stress, t, w = at_least(0.0, F_tu=F_tu, thickness=thickness, width=width)
    return np.asarray(stress * t * w)
