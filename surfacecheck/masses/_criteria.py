"""Coefficients that published simplified flutter criteria ask for. They give a number to compare, never a verdict."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike

from surfacecheck.masses._parts import Array

__all__ = [
    "FREE_PLAY",
    "FRICTION",
    "GATE_MACH",
    "GATE_SPEED",
    "SCALE_ERROR",
    "balance_parameter",
    "free_play_share",
    "gate_open",
]

FRICTION = 0.025
"""Most friction of the hinges, of the greatest moment allowed: common practice, forms of sailplane maintenance
manuals [-]."""

SCALE_ERROR = 0.025
"""Most error of a reading: common practice, the same forms [-]."""

GATE_SPEED = 260.0 * 1852.0 / 3600.0
"""Design diving speed below which simplified criteria may be used, EAS: 14 CFR 23.629(d), Amdt 23-62 [m/s]."""

GATE_MACH = 0.5
"""And the Mach number: the same paragraph [-]."""

FREE_PLAY = 0.025
"""Most free play of an aileron's or a tab's trailing edge, of the chord behind its pins: Airframe and Equipment
Engineering Report No. 45, from memory [-]."""


def gate_open(diving_speed: ArrayLike, mach: ArrayLike) -> Array:
    """Tell whether speeds are low enough for the simplified criteria; what else they ask for is not looked at.

    Parameters
    ----------
    diving_speed : array_like
        Design diving speed, EAS [m/s].
    mach : array_like
        Its Mach number [-].

    Returns
    -------
    ndarray of bool
        Whether both are below the limits [-].

    References
    ----------
    14 CFR 23.629(d), Amdt 23-62: below 260 knots and Mach 0.5; no T-tail or other unusual tail, no unusual masses,
    fixed fin and stabiliser.

    Examples
    --------
    >>> knots = 1852.0 / 3600.0
    >>> gate_open([259.0 * knots, 260.0 * knots], 0.45)
    array([ True, False])
    """
    speed, number = np.asarray(diving_speed, dtype=np.float64), np.asarray(mach, dtype=np.float64)
    return np.asarray((speed < GATE_SPEED) & (number < GATE_MACH))


def balance_parameter(semichord: ArrayLike, first: ArrayLike, second: ArrayLike) -> Array:
    """Balance parameter of the criterion for parallel axes, of elevators and rudders.

    gamma = b S / I

    Parameters
    ----------
    semichord : array_like
        Half the whole tail's chord at the place of reference: 70 per cent of the span of a vertical tail, half way
        along a horizontal one [m].
    first : array_like
        Static unbalance, mass times distance behind the pins [kg m].
    second : array_like
        Second moment of the mass about the pins [kg m^2].

    Returns
    -------
    ndarray
        To compare with Figure 3 of the report [-].

    References
    ----------
    Airframe and Equipment Engineering Report No. 45, Civil Aeronautics Administration, 1955: structure of the
    criterion, from memory. Its curves are in the report only.

    Examples
    --------
    >>> c, m = 0.4, 1.0  # a flat plate hinged at its front edge: gamma = 1.5 b / c
    >>> balance_parameter(0.4, m * c / 2.0, m * c**2 / 3.0)
    array(1.5)
    """
    b, s, i = (np.asarray(value, dtype=np.float64) for value in (semichord, first, second))
    return np.asarray(b * s / i)


def free_play_share(play: ArrayLike, chord: ArrayLike) -> Array:
    """Free play of the trailing edge over the chord behind the pins.

    Parameters
    ----------
    play : array_like
        From one end to the other, horn held [m].
    chord : array_like
        Pins to trailing edge where it was measured [m].

    Returns
    -------
    ndarray
        To compare with 2.5 per cent [-].

    References
    ----------
    Airframe and Equipment Engineering Report No. 45, from memory.

    Examples
    --------
    >>> free_play_share(0.005, 0.2)
    array(0.025)
    """
    return np.asarray(np.asarray(play, dtype=np.float64) / np.asarray(chord, dtype=np.float64))
