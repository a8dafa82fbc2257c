"""14 CFR Part 23, Amdt 23-62, Subpart C: flight loads as far as a control surface needs them.

The text in force from 2012 to August 2017. Loads are limit loads. SI goes in and comes out; a rule's own pounds,
feet and knots stay inside the function that states it.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

from surfacecheck.errors import SurfaceError
from surfacecheck.loads._units import FOOT, GRAVITY, KNOT, POUND_FORCE, PSF, RHO_0
from surfacecheck.provenance import Basis, Source

__all__ = [
    "CATEGORIES",
    "FACTOR_OF_SAFETY",
    "OVERSWING",
    "dynamic_pressure",
    "least_design_speeds",
    "limit_load_factors",
    "section",
    "unsymmetric_share",
    "vertical_tail_gust",
    "vertical_tail_manoeuvre",
]

Array = NDArray[np.float64]

CATEGORIES = ("normal", "utility", "acrobatic")
FACTOR_OF_SAFETY = 1.5
"""From limit to ultimate: 14 CFR 23.303, Amdt 23-62 [-]."""

OVERSWING = 1.5
"""Overswing sideslip over static sideslip, where nothing better is known: 14 CFR 23.441(a)(2), Amdt 23-62 [-]."""


def section(number: str) -> Source:
    """Citation of a paragraph of the rule.

    Parameters
    ----------
    number : str
        Such as ``"23.415(a)"`` or ``"A23.11(c)"``.

    Returns
    -------
    Source
        Published.

    References
    ----------
    14 CFR Part 23, Amdt 23-62, as in force from 2012 to August 2017.

    Examples
    --------
    >>> str(section("23.393"))
    'published: 14 CFR 23.393, Amdt 23-62'
    """
    title = f"14 CFR 23, Appendix A, {number}" if number.startswith("A23") else f"14 CFR {number}"
    return Source(Basis.PUBLISHED, f"{title}, Amdt 23-62")


def _category(category: str) -> int:
    if category not in CATEGORIES:
        message = f"category {category!r} is not known: one of {', '.join(CATEGORIES)}"
        raise SurfaceError(message)
    return CATEGORIES.index(category)


def limit_load_factors(category: str, weight: ArrayLike) -> tuple[Array, Array]:
    """Least limit manoeuvring load factors, up and down.

    n >= 2.1 + 24000/(W + 10000), W in lb, need not exceed 3.8 (normal); 4.4 utility; 6.0 acrobatic.

    Parameters
    ----------
    category : str
        normal, utility or acrobatic.
    weight : array_like
        Maximum take-off weight (a force) [N].

    Returns
    -------
    up, down : ndarray
        Load factors; down is negative: 0.4 of up, acrobatic 0.5 [-].

    Raises
    ------
    SurfaceError
        For another category.

    References
    ----------
    14 CFR 23.337, Amdt 23-62.

    Examples
    --------
    >>> limit_load_factors("normal", 6000.0 * POUND_FORCE)[0]
    array(3.6)
    """
    pounds = np.asarray(weight, dtype=np.float64) / POUND_FORCE
    by_weight = np.minimum(2.1 + 24000.0 / (pounds + 10000.0), 3.8)
    up = np.asarray([by_weight, np.full_like(pounds, 4.4), np.full_like(pounds, 6.0)][_category(category)])
    return up, np.asarray(-up * (0.5 if category == "acrobatic" else 0.4))


def least_design_speeds(category: str, wing_loading: ArrayLike) -> tuple[Array, Array]:
    """Least design cruising and dive speeds.

    V_C >= k sqrt(W/S) knots, k = 33 (acrobatic 36); V_D >= m V_C min, m = 1.40 / 1.50 / 1.55. Above W/S = 20 psf
    k may fall in a straight line to 28.6 and m to 1.35 at W/S = 100 psf. (V_C need not exceed 0.9 V_H, which is not
    looked at here.)

    Parameters
    ----------
    category : str
        normal, utility or acrobatic.
    wing_loading : array_like
        Weight over wing area [Pa].

    Returns
    -------
    v_c, v_d : ndarray
        Equivalent airspeeds [m/s].

    References
    ----------
    14 CFR 23.335(a) and (b), Amdt 23-62.
    """
    number = _category(category)
    loading = np.asarray(wing_loading, dtype=np.float64) / PSF
    down = np.clip((loading - 20.0) / 80.0, 0.0, 1.0)
    k, m = (33.0, 33.0, 36.0)[number], (1.40, 1.50, 1.55)[number]
    v_c = (k + (28.6 - k) * down) * np.sqrt(loading) * KNOT
    return np.asarray(v_c), np.asarray(v_c * (m + (1.35 - m) * down))


def dynamic_pressure(speed: ArrayLike) -> Array:
    """Dynamic pressure at sea level, q = rho_0 V^2 / 2.

    Parameters
    ----------
    speed : array_like
        Equivalent airspeed [m/s].

    Returns
    -------
    ndarray
        Dynamic pressure [Pa].

    References
    ----------
    Density: ICAO Doc 7488/3 (1993), Manual of the ICAO Standard Atmosphere, table 1.
    """
    return np.asarray(0.5 * RHO_0 * np.asarray(speed, dtype=np.float64) ** 2)


def vertical_tail_manoeuvre(speed: ArrayLike, area: ArrayLike, slope: ArrayLike, angle: ArrayLike) -> Array:
    """Load of the whole vertical tail at a sideslip with the rudder neutral, L = q S a beta.

    Parameters
    ----------
    speed : array_like
        Equivalent airspeed, up to V_A [m/s].
    area : array_like
        Fin and rudder [m^2].
    slope : array_like
        Lift slope of the vertical tail [1/rad].
    angle : array_like
        Sideslip: 15 degrees for (a)(3), OVERSWING times the static angle for (a)(2) [rad].

    Returns
    -------
    ndarray
        Limit side load of fin and rudder [N].

    References
    ----------
    14 CFR 23.441(a), Amdt 23-62.
    """
    q_area = dynamic_pressure(speed) * np.asarray(area, dtype=np.float64)
    return np.asarray(q_area * np.asarray(slope, dtype=np.float64) * np.asarray(angle, dtype=np.float64))


def vertical_tail_gust(
    weight: ArrayLike,
    area: ArrayLike,
    chord: ArrayLike,
    slope: ArrayLike,
    gyration: ArrayLike,
    arm: ArrayLike,
    speed: ArrayLike,
    gust: ArrayLike,
) -> tuple[Array, Array, Array]:
    """Lateral gust on the vertical tail at sea level.

    mu = [2 W / (rho c g a S)] (K / l)^2, K_gt = 0.88 mu / (5.3 + mu), L = K_gt U_de V a S / 498 (lb, ft/s, kt, ft^2)

    Parameters
    ----------
    weight : array_like
        Weight of the aeroplane (a force) [N].
    area : array_like
        Fin and rudder [m^2].
    chord : array_like
        Mean geometric chord of the vertical tail [m].
    slope : array_like
        Lift slope of the vertical tail [1/rad].
    gyration : array_like
        Radius of gyration in yaw [m].
    arm : array_like
        Centre of gravity to lift centre of the vertical tail [m].
    speed : array_like
        Equivalent airspeed [m/s].
    gust : array_like
        Derived gust velocity [m/s].

    Returns
    -------
    mass_ratio, alleviation : ndarray
        mu and K_gt [-].
    load : ndarray
        Limit side load of fin and rudder [N].

    References
    ----------
    14 CFR 23.443(b), Amdt 23-62.
    """
    w, s, c, a, k, l_vt, v, u = (
        np.asarray(x, dtype=np.float64) for x in (weight, area, chord, slope, gyration, arm, speed, gust)
    )
    mu = 2.0 * w / (RHO_0 * c * GRAVITY * a * s) * (k / l_vt) ** 2
    k_gt = 0.88 * mu / (5.3 + mu)
    pounds = k_gt * (u / FOOT) * (v / KNOT) * a * (s / FOOT**2) / 498.0
    return np.asarray(mu), np.asarray(k_gt), np.asarray(pounds * POUND_FORCE)


def unsymmetric_share(load_factor: ArrayLike) -> Array:
    """Share of the other half of a horizontal tail: 100 - 10 (n - 1) per cent, at most 80.

    Parameters
    ----------
    load_factor : array_like
        Positive limit manoeuvring load factor [-].

    Returns
    -------
    ndarray
        Share of the full load on the other half [-].

    References
    ----------
    14 CFR 23.427(b)(2), Amdt 23-62.
    """
    return np.asarray(np.minimum(1.0 - 0.1 * (np.asarray(load_factor, dtype=np.float64) - 1.0), 0.80))
