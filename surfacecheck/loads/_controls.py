"""14 CFR Part 23, Amdt 23-62: control surface inertia, control system, pilot forces, ground gust, hinges.

Loads are limit loads. SI goes in and comes out; a rule's own pounds, feet and knots stay inside.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

from surfacecheck.errors import SurfaceError
from surfacecheck.loads._units import FOOT, GRAVITY, KNOT, POUND_FORCE, PSF

__all__ = [
    "ALONG_HINGE",
    "BALANCE_MASS",
    "CONTROL_SYSTEM",
    "GROUND_GUST",
    "HINGE_BEARING",
    "TIEDOWN_WIND",
    "along_hinge_load",
    "balance_mass_load",
    "dual_control_load",
    "ground_gust_moment",
    "ground_gust_speed",
    "hinge_bearing_limit",
    "pilot_force",
]

Array = NDArray[np.float64]

ALONG_HINGE = {"rudder": 24.0, "elevator": 12.0, "aileron": 12.0}
"""K of the inertia load along the hinge line: 14 CFR 23.393, Amdt 23-62 (24 vertical, 12 horizontal surfaces) [-]."""

BALANCE_MASS = {"normal to the surface": 24.0, "fore and aft": 12.0, "along the hinge line": 12.0}
"""Limit accelerations of concentrated balance weights in g: 14 CFR 23.659, Amdt 23-62 [-]."""

CONTROL_SYSTEM = 1.25
"""Control system and its supporting structure over the computed hinge moment: 14 CFR 23.395(a), Amdt 23-62 [-]."""

GROUND_GUST = {"rudder": (0.75,), "elevator": (0.75,), "aileron": (0.75, 0.50)}
"""K of H = K c S q: 14 CFR 23.415(b), Amdt 23-62 (aileron: column locked in the middle, and full throw) [-]."""

TIEDOWN_WIND = 65.0 * KNOT
"""Wind from any horizontal direction on a tied-down aeroplane: 14 CFR 23.415(c), Amdt 23-62 [m/s]."""

HINGE_BEARING = 6.67
"""Factor on the ultimate bearing strength of the softest material of a plain hinge: 14 CFR 23.657(a), Amdt 23-62.

Taken as the whole factor from limit load, in place of 1.5 and 1.15: an interpretation, from memory [-]."""

_PILOT = {
    ("aileron", "stick"): (67.0, 40.0),
    ("aileron", "wheel"): (100.0, 80.0),
    ("elevator", "stick"): (167.0, 100.0),
    ("elevator", "wheel"): (200.0, 100.0),
    ("rudder", "pedals"): (200.0, 150.0),
}


def along_hinge_load(kind: str, mass: ArrayLike) -> Array:
    """Limit inertia load parallel to the hinge line, K W; W is weight, so mass times g.

    Parameters
    ----------
    kind : str
        rudder, elevator or aileron.
    mass : array_like
        Mass of the movable surface [kg].

    Returns
    -------
    ndarray
        Load, either sense [N].

    References
    ----------
    14 CFR 23.393, Amdt 23-62.

    Examples
    --------
    >>> along_hinge_load("rudder", 2.5)
    array(588.40)
    """
    return np.asarray(_of_kind(ALONG_HINGE, kind) * np.asarray(mass, dtype=np.float64) * GRAVITY)


def balance_mass_load(direction: str, mass: ArrayLike) -> Array:
    """Limit load of a concentrated balance weight, its attachment and its support.

    Parameters
    ----------
    direction : str
        A key of BALANCE_MASS.
    mass : array_like
        Mass of the weight [kg].

    Returns
    -------
    ndarray
        Load, either sense, each direction alone [N].

    References
    ----------
    14 CFR 23.659, Amdt 23-62.
    """
    return np.asarray(_of_kind(BALANCE_MASS, direction) * np.asarray(mass, dtype=np.float64) * GRAVITY)


def _of_kind(table: dict[str, float], key: str) -> float:
    if key not in table:
        message = f"{key!r} is not in the rule's table: one of {', '.join(table)}"
        raise SurfaceError(message)
    return table[key]


def pilot_force(kind: str, by: str, weight: ArrayLike) -> tuple[Array, Array]:
    """Limit pilot forces, greatest and least, at the pedal or at one grip.

    Maxima hold to 5,000 lb and rise in a straight line to 1.18 times at 12,500 lb. An aileron moved by a wheel has
    couples of 50 D and 40 D in-lb; one tangential force at one grip, D/2 from the middle, makes them at 100 and
    80 lb whatever the diameter D, and that force is given here.

    Parameters
    ----------
    kind : str
        rudder, elevator or aileron.
    by : str
        pedals, stick or wheel.
    weight : array_like
        Design weight of the aeroplane (a force) [N].

    Returns
    -------
    greatest, least : ndarray
        Forces [N].

    Raises
    ------
    SurfaceError
        For a pair the table does not hold, or a weight above 12,500 lb.

    References
    ----------
    14 CFR 23.397(b) with its notes 1 to 3, Amdt 23-62.

    Examples
    --------
    >>> pilot_force("rudder", "pedals", 600.0 * GRAVITY)
    (array(889.64), array(667.23))
    """
    pounds = np.asarray(weight, dtype=np.float64) / POUND_FORCE
    if np.any(pounds > 12500.0):
        message = f"design weight {pounds} lb is above 12,500 lb, where the table of 23.397(b) ends for this use"
        raise SurfaceError(message)
    rise = 1.0 + 0.18 * np.clip((pounds - 5000.0) / 7500.0, 0.0, 1.0)
    if (kind, by) not in _PILOT:
        message = f"{kind} moved by {by!r} is not in 23.397(b): rudder by pedals, elevator or aileron by stick or wheel"
        raise SurfaceError(message)
    greatest, least = _PILOT[kind, by]
    return np.asarray(greatest * POUND_FORCE * rise), np.full_like(rise, least * POUND_FORCE)


def dual_control_load(system: ArrayLike, least: ArrayLike) -> Array:
    """Each pilot's load when two oppose each other: 75 per cent of the system's, never below the table's minimum.

    Parameters
    ----------
    system : array_like
        Load of 23.395 at the pilot's control [N].
    least : array_like
        Least pilot force of 23.397(b) [N].

    Returns
    -------
    ndarray
        Load of each pilot [N].

    References
    ----------
    14 CFR 23.399(a), Amdt 23-62.
    """
    return np.asarray(np.maximum(0.75 * np.asarray(system, dtype=np.float64), np.asarray(least, dtype=np.float64)))


def ground_gust_speed(wing_loading: ArrayLike) -> Array:
    """Speed of the ground gust: V = 14.6 sqrt(W/S) + 14.6 ft/s (W/S in psf), need not exceed 88 ft/s.

    Parameters
    ----------
    wing_loading : array_like
        Weight over wing area [Pa].

    Returns
    -------
    ndarray
        Speed [m/s].

    References
    ----------
    14 CFR 23.415(a)(2), Amdt 23-62.
    """
    feet = 14.6 * np.sqrt(np.asarray(wing_loading, dtype=np.float64) / PSF) + 14.6
    return np.asarray(np.minimum(feet, 88.0) * FOOT)


def ground_gust_moment(k: ArrayLike, chord: ArrayLike, area: ArrayLike, q: ArrayLike) -> Array:
    """Hinge moment of the ground gust, H = K c S q.

    Parameters
    ----------
    k : array_like
        From GROUND_GUST [-].
    chord : array_like
        Mean chord aft of the hinge line [m].
    area : array_like
        Area aft of the hinge line [m^2].
    q : array_like
        Dynamic pressure of the gust [Pa].

    Returns
    -------
    ndarray
        Hinge moment, either sense [N m].

    References
    ----------
    14 CFR 23.415(a)(2), Amdt 23-62.
    """
    k, c, s, q = (np.asarray(x, dtype=np.float64) for x in (k, chord, area, q))
    return np.asarray(k * c * s * q)


def hinge_bearing_limit(f_bru: ArrayLike, diameter: ArrayLike, length: ArrayLike) -> Array:
    """Greatest limit load of a plain hinge by bearing, P = F_bru D t / 6.67.

    Parameters
    ----------
    f_bru : array_like
        Ultimate bearing strength of the softest material [Pa].
    diameter : array_like
        Pin [m].
    length : array_like
        Length that turns [m].

    Returns
    -------
    ndarray
        Limit load [N].

    References
    ----------
    14 CFR 23.657(a), Amdt 23-62.
    """
    f, d, t = (np.asarray(x, dtype=np.float64) for x in (f_bru, diameter, length))
    return np.asarray(f * d * t / HINGE_BEARING)
