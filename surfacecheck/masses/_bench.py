"""Readings of a scale under a surface that is free on its pins: moment, friction, height of the centre of gravity.

The scale pushes straight up, at a distance r behind the pins measured along the chord. The chord is tilted by an
angle, positive with the trailing edge high. The weight W acts x behind the pins along the chord and z above it, as
the surface lies on the bench. About the pins, with both horizontal arms:

    F r cos(angle) = W (x cos(angle) - z sin(angle)),   so   F r = W x - W z tan(angle)
"""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import ArrayLike

from surfacecheck.masses._parts import Array

__all__ = ["inertia_by_swing", "level_moment", "mean_and_friction"]


def mean_and_friction(rising: ArrayLike, sinking: ArrayLike) -> tuple[Array, Array]:
    """Take friction out of a pair of readings: it hinders lifting and helps letting down by the same force.

    F = (F_up + F_down) / 2,  friction = (F_up - F_down) / 2

    Parameters
    ----------
    rising, sinking : array_like, shape (...)
        What the scale shows while the edge is lifted, and while it is let down, slowly [N].

    Returns
    -------
    push : ndarray, shape (...)
        Without friction [N].
    friction : ndarray, shape (...)
        At the scale [N].

    References
    ----------
    Common practice: forms of sailplane maintenance manuals ask for both readings.

    Examples
    --------
    >>> mean_and_friction(11.2, 10.8)
    (array(11.0), array(0.2))
    """
    up, down = np.asarray(rising, dtype=np.float64), np.asarray(sinking, dtype=np.float64)
    return np.asarray((up + down) / 2.0), np.asarray((up - down) / 2.0)


def level_moment(
    first: ArrayLike, first_tilt: ArrayLike, second: ArrayLike, second_tilt: ArrayLike, arm: ArrayLike
) -> tuple[Array, Array]:
    """Moment of the level surface from two weighings at two tilts, and how high its weight lies.

    W z = r (F_1 - F_2) / (tan a_2 - tan a_1),  W x = F_1 r + W z tan a_1

    Parameters
    ----------
    first, second : array_like, shape (...)
        Pushes without friction [N].
    first_tilt, second_tilt : array_like, shape (...)
        Trailing edge above level [rad].
    arm : array_like, shape (...)
        Scale behind the pins, along the chord; the same both times [m].

    Returns
    -------
    moment : ndarray, shape (...)
        W x, tail-heavy [N m].
    height : ndarray, shape (...)
        W z: weight times height of the centre of gravity above the chord, as the surface lies [N m].

    References
    ----------
    Moments about the pins, as on top of this module.

    Examples
    --------
    >>> level_moment(11.0, 0.0, 10.0, math.radians(30.0), 0.36)  # 1 N less at 30 degrees: 0.36 / tan 30
    (array(3.96), array(0.62354))
    """
    f1, f2, a1, a2, r = (np.asarray(v, dtype=np.float64) for v in (first, second, first_tilt, second_tilt, arm))
    height = r * (f1 - f2) / (np.tan(a2) - np.tan(a1))
    return np.asarray(f1 * r + height * np.tan(a1)), np.asarray(height)


def inertia_by_swing(moment: ArrayLike, time: ArrayLike) -> Array:
    """Second moment of the mass about the pins, from the swing of the surface hung from them.

    I = M T^2 / (4 pi^2), for small swings about the place where it comes to rest

    Parameters
    ----------
    moment : array_like, shape (...)
        Weight times distance of the centre of gravity from the pins [N m].
    time : array_like, shape (...)
        Of one swing, there and back [s].

    Returns
    -------
    ndarray, shape (...)
        [kg m^2].

    References
    ----------
    The compound pendulum of any textbook of mechanics.

    Examples
    --------
    >>> inertia_by_swing(9.80665, 2.0 * math.pi / math.sqrt(9.80665))  # a kilogram a metre below
    array(1.)
    """
    m, t = np.asarray(moment, dtype=np.float64), np.asarray(time, dtype=np.float64)
    return np.asarray(m * t**2 / (4.0 * math.pi**2))
