"""Beyond first buckling: plasticity, crippling, channels as a whole, curved sheet."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.strength._multiplier import load_multiplier
from surfacecheck.strength._numbers import at_least, floats

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, NDArray

__all__ = [
    "channel_coefficient",
    "crippling_angle",
    "crippling_two_corners",
    "curved_compression_coefficient",
    "plastic_plate_critical",
    "plasticity_supported_plate",
]


def plasticity_supported_plate(
    stress: ArrayLike, E: ArrayLike, nu: ArrayLike, F_07: ArrayLike, n: ArrayLike
) -> NDArray[np.float64]:
    """Give the plasticity factor of a long supported plate in compression.

    eta = (E_s/E)(1 - nu^2)/(1 - nu_p^2) (1/2 + 1/2 sqrt(1/4 + 3/4 E_t/E_s)), nu_p = 1/2 - (E_s/E)(1/2 - nu)

    Parameters
    ----------
    stress : array_like
        Compression [Pa].
    E : array_like
        Compression modulus [Pa].
    nu : array_like
        Poisson's ratio [-].
    F_07 : array_like
        Ramberg-Osgood stress at 0.7 secant modulus [Pa].
    n : array_like
        Ramberg-Osgood exponent [-].

    Returns
    -------
    ndarray
        eta, 0 to 1 [-].

    References
    ----------
    NACA TN 3781 (1957), table of plasticity factors, and NACA Report 898, from memory.

    Examples
    --------
    >>> float(plasticity_supported_plate(33038.0, 10.1e6, 0.33, 35000.0, 31.0))
    0.797
    """
    power = np.power(floats(stress) / floats(F_07), floats(n) - 1.0) * (3.0 / 7.0)
    secant = 1.0 / (1.0 + power)
    tangent = 1.0 / (1.0 + floats(n) * power)
    nu_e = floats(nu)
    nu_p = 0.5 - secant * (0.5 - nu_e)
    shape = 0.5 + 0.5 * np.sqrt(0.25 + 0.75 * tangent / secant)
    return np.asarray(secant * (1.0 - nu_e * nu_e) / (1.0 - nu_p * nu_p) * shape)


def plastic_plate_critical(
    elastic: ArrayLike, E: ArrayLike, nu: ArrayLike, F_07: ArrayLike, n: ArrayLike
) -> NDArray[np.float64]:
    """Give the buckling stress of a long supported plate above the elastic range.

    F = eta(F) F_elastic

    Parameters
    ----------
    elastic : array_like
        Elastic buckling stress, above 0 [Pa].
    E, nu, F_07, n : array_like
        As in :func:`plasticity_supported_plate` [Pa, -, Pa, -].

    Returns
    -------
    ndarray
        Buckling stress [Pa].

    Raises
    ------
    SurfaceError
        For an elastic buckling stress not above zero.

    References
    ----------
    As :func:`plasticity_supported_plate`.

    Examples
    --------
    b/t 30, k 4, 6061-T6 by memory (F_0.7 35 ksi, n 31):

    >>> float(plastic_plate_critical(41432.0, 10.1e6, 0.33, 35000.0, 31.0))
    33038.
    """
    (f,) = at_least(0.0, above=True, elastic=elastic)
    f, e, v, f7, m = np.broadcast_arrays(f, floats(E), floats(nu), floats(F_07), floats(n))

    def used(share: NDArray[np.float64]) -> NDArray[np.float64]:
        x = np.minimum(share, 2.0)  # the root lies below 1; larger shares only tell that it has been passed
        return np.asarray(share / plasticity_supported_plate(x * f, e, v, f7, m))

    return np.asarray(load_multiplier(used, f.shape) * f)


def crippling_two_corners(area: ArrayLike, thickness: ArrayLike, E: ArrayLike, F_cy: ArrayLike) -> NDArray[np.float64]:
    """Give the crippling stress of a channel or Z, two corners.

    F_cs = 3.2 F_cy ((t^2/A)(E/F_cy)^(1/3))^0.75, at most 0.9 F_cy

    Parameters
    ----------
    area : array_like
        Section area [m^2].
    thickness : array_like
        Thickness [m].
    E : array_like
        Compression modulus [Pa].
    F_cy : array_like
        Compression yield stress [Pa].

    Returns
    -------
    ndarray
        Mean stress at failure [Pa].

    References
    ----------
    G. Gerard, NACA TN 3784 (1957), form and constants as quoted in secondary text; cut-off from memory.

    Examples
    --------
    Channel 3.0 x 0.75 x 0.032 in, in psi:

    >>> float(crippling_two_corners(0.141952, 0.032, 10.1e6, 35000.0))
    11426.
    """
    a, t, yield_stress = at_least(0.0, above=True, area=area, thickness=thickness, F_cy=F_cy)
    inner = t * t / a * np.cbrt(floats(E) / yield_stress)
    return np.asarray(yield_stress * np.minimum(3.2 * np.power(inner, 0.75), 0.9))


def crippling_angle(area: ArrayLike, thickness: ArrayLike, E: ArrayLike, F_cy: ArrayLike) -> NDArray[np.float64]:
    """Give the crippling stress of an angle.

    F_cs = 0.56 F_cy ((2 t^2/A) sqrt(E/F_cy))^0.85, at most 0.7 F_cy

    Parameters
    ----------
    area : array_like
        Section area [m^2].
    thickness : array_like
        Thickness [m].
    E : array_like
        Compression modulus [Pa].
    F_cy : array_like
        Compression yield stress [Pa].

    Returns
    -------
    ndarray
        Mean stress at failure [Pa].

    References
    ----------
    G. Gerard, NACA TN 3784 (1957), g = 2, as quoted in secondary text; cut-off from memory.

    Examples
    --------
    Angle 0.75 x 0.75 x 0.032 in, in psi:

    >>> float(crippling_angle(0.046976, 0.032, 10.1e6, 35000.0))
    15184.
    """
    a, t, yield_stress = at_least(0.0, above=True, area=area, thickness=thickness, F_cy=F_cy)
    inner = 2.0 * t * t / a * np.sqrt(floats(E) / yield_stress)
    return np.asarray(yield_stress * np.minimum(0.56 * np.power(inner, 0.85), 0.7))


def channel_coefficient(flange_over_web: ArrayLike) -> NDArray[np.float64]:
    """Give the coefficient, on web width, of a channel of one thickness in even compression.

    Table of finite-strip values, straight lines between, for b_f/b_w 0.1 to 1.0.

    Parameters
    ----------
    flange_over_web : array_like
        Flange width over web width, middle lines [-].

    Returns
    -------
    ndarray
        k_w for :func:`plate_critical` with the web width; held at the ends of the table [-].

    References
    ----------
    NACA TN 722 (curve); values worked out by finite strips.

    Examples
    --------
    >>> float(channel_coefficient(0.5))
    2.91
    """
    x = [0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 1.0]
    k = [4.26, 4.56, 4.37, 3.75, 2.91, 2.20, 1.69, 1.33, 0.888]
    return np.asarray(np.interp(floats(flange_over_web), x, k))


def curved_compression_coefficient(Z: ArrayLike) -> NDArray[np.float64]:
    """Give the compression coefficient of a long supported curved sheet, theory without knock-down.

    k = 4 + 3 Z^2/pi^4 up to 4 + 3 Z^2/pi^4 = 4 sqrt(3) Z/pi^2, then the latter

    Parameters
    ----------
    Z : array_like
        b^2 sqrt(1 - nu^2)/(R t), b the arc width [-].

    Returns
    -------
    ndarray
        Coefficient on the arc width; large Z needs a knock-down from tests [-].

    References
    ----------
    S. B. Batdorf, NACA Report 874, worked out again from Donnell's equation.

    Examples
    --------
    >>> curved_compression_coefficient([5.0, 50.0]).round(2).tolist()
    [4.77, 35.1]
    """
    (z,) = at_least(0.0, Z=Z)
    touch = 2.0 * np.pi**2 / np.sqrt(3.0)  # where both branches meet, Z = 11.4
    return np.asarray(np.where(z <= touch, 4.0 + 3.0 * z * z / np.pi**4, 4.0 * np.sqrt(3.0) * z / np.pi**2))
