"""A hinge pin: shear, bending across a gap, bearing where it turns."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.provenance import Basis, Source
from surfacecheck.strength._numbers import at_least, floats

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, NDArray

__all__ = [
    "PIN_SOURCE",
    "ROUND_PLASTIC",
    "pin_arm_both_ends",
    "pin_arm_one_end",
    "pin_bearing",
    "pin_bending_moment",
    "pin_bending_stress",
    "pin_shear",
]

PIN_SOURCE = Source(
    Basis.PUBLISHED,
    "AFFDL-TR-69-42, Stress Analysis Manual, ch. 9, pin bending, as quoted in secondary text; shear: statics",
)

ROUND_PLASTIC = 16.0 / (3.0 * np.pi)
"""Moment of a fully yielded round bar over the elastic one: the most a bending strength may be raised by [-]."""


def pin_shear(F_su: ArrayLike, pin: ArrayLike, planes: ArrayLike = 1) -> NDArray[np.float64]:
    """Give the ultimate shear strength of a pin.

    P = n_planes F_su pi/4 D^2

    Parameters
    ----------
    F_su : array_like
        Ultimate shear stress of the pin [Pa].
    pin : array_like
        Pin diameter [m].
    planes : array_like
        2 where both ends are held, 1 where one is [-].

    Returns
    -------
    ndarray
        Strength [N].

    References
    ----------
    Statics, mean shear stress on the round section.

    Examples
    --------
    >>> float(pin_shear(500e6, 5e-3))
    9817.5
    """
    stress, d = at_least(0.0, F_su=F_su, pin=pin)
    return np.asarray(floats(planes) * stress * np.pi / 4.0 * d * d)


def pin_arm_both_ends(outer: ArrayLike, inner: ArrayLike, gap: ArrayLike = 0.0) -> NDArray[np.float64]:
    """Give the bending arm of a pin held on both sides of a lug.

    b = t_outer/2 + t_inner/4 + gap; the moment is (P/2) b

    Parameters
    ----------
    outer : array_like
        Thickness of each outer lug [m].
    inner : array_like
        Thickness of the middle lug [m].
    gap : array_like
        Clear gap on each side [m].

    Returns
    -------
    ndarray
        Arm b [m].

    References
    ----------
    AFFDL-TR-69-42, ch. 9, as quoted in secondary text.

    Examples
    --------
    >>> float(pin_arm_both_ends(31.75, 63.5, 0.762))  # mm
    32.512
    """
    a, b, g = at_least(0.0, outer=outer, inner=inner, gap=gap)
    return np.asarray(a / 2.0 + b / 4.0 + g)


def pin_arm_one_end(held: ArrayLike, loaded: ArrayLike, gap: ArrayLike = 0.0) -> NDArray[np.float64]:
    """Give the bending arm of a pin held at one end.

    b = (t_held + t_loaded)/2 + gap; the moment is P b

    Parameters
    ----------
    held : array_like
        Thickness of the part that holds the pin [m].
    loaded : array_like
        Thickness of the lug that loads it [m].
    gap : array_like
        Clear gap between them [m].

    Returns
    -------
    ndarray
        Arm b [m].

    References
    ----------
    Common practice: single-shear hinge as a cantilever between the middles of the two parts.

    Examples
    --------
    >>> float(pin_arm_one_end(3.0, 2.0, 0.5))  # mm
    3.0
    """
    a, b, g = at_least(0.0, held=held, loaded=loaded, gap=gap)
    return np.asarray((a + b) / 2.0 + g)


def pin_bending_moment(load: ArrayLike, arm: ArrayLike, *, both_ends: bool) -> NDArray[np.float64]:
    """Give the bending moment in a pin.

    M = (P/2) b where both ends are held, P b where one is

    Parameters
    ----------
    load : array_like
        Load on the pin, not negative [N].
    arm : array_like
        Arm of :func:`pin_arm_both_ends` or :func:`pin_arm_one_end` [m].
    both_ends : bool
        Whether both ends are held.

    Returns
    -------
    ndarray
        Moment [N m].

    References
    ----------
    AFFDL-TR-69-42, ch. 9, as quoted in secondary text; statics.

    Examples
    --------
    >>> float(pin_bending_moment(1000.0, 0.003, both_ends=True))
    1.5
    """
    p, b = at_least(0.0, load=load, arm=arm)
    return np.asarray((0.5 if both_ends else 1.0) * p * b)


def pin_bending_stress(moment: ArrayLike, pin: ArrayLike) -> NDArray[np.float64]:
    """Give the elastic bending stress of a round pin.

    f_b = 32 M / (pi D^3)

    Parameters
    ----------
    moment : array_like
        Bending moment [N m].
    pin : array_like
        Pin diameter [m].

    Returns
    -------
    ndarray
        Stress at the skin of the pin [Pa]; compare with F_tu (or up to :data:`ROUND_PLASTIC` times that).

    References
    ----------
    AFFDL-TR-69-42, ch. 9, as quoted in secondary text; beam theory.

    Examples
    --------
    >>> float(pin_bending_stress(pin_bending_moment(617776.0, 32.512, both_ends=True), 50.8))  # N, mm
    780.3
    """
    (m,) = at_least(0.0, moment=moment)
    (d,) = at_least(0.0, above=True, pin=pin)
    return np.asarray(32.0 * m / (np.pi * d * d * d))


def pin_bearing(F_bru: ArrayLike, pin: ArrayLike, length: ArrayLike) -> NDArray[np.float64]:
    """Give the ultimate bearing strength of the softer face at a pin.

    P = F_bru D L

    Parameters
    ----------
    F_bru : array_like
        Ultimate bearing stress of the softest of pin, bush and lug [Pa].
    pin : array_like
        Pin diameter [m].
    length : array_like
        Length of pin that bears [m].

    Returns
    -------
    ndarray
        Strength [N]; where the face turns, the factor on limit load is 6.67 and stands alone.

    References
    ----------
    14 CFR Part 23 (Amdt 23-62), 23.657(b).

    Examples
    --------
    100 ksi, 0.25 in, 0.09 in: the largest limit load in pounds

    >>> float(pin_bearing(100000.0, 0.25, 0.09) / 6.67)
    337.33
    """
    stress, d, t = at_least(0.0, F_bru=F_bru, pin=pin, length=length)
    return np.asarray(stress * d * t)
