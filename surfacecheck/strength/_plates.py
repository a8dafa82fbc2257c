"""Flat sheet between its supports: coefficients, stress at buckling, and loads together.

F_cr = k C(nu) E (t/b)^2 with C(nu) = pi^2 / (12 (1 - nu^2)). b is the loaded width in compression and bending and the
short side in shear. Coefficients k never contain C(nu); some books print k C instead (3.62 for 4.00).
"""

from __future__ import annotations

from typing import TYPE_CHECKING, TypeVar

import numpy as np

from surfacecheck.errors import SurfaceError
from surfacecheck.provenance import Basis, Source
from surfacecheck.strength._numbers import at_least, floats

if TYPE_CHECKING:
    from collections.abc import Mapping

    from numpy.typing import ArrayLike, NDArray

__all__ = [
    "FLANGE_FREE",
    "PLATE_SOURCE",
    "bending_coefficient",
    "compression_coefficient",
    "gradient_coefficient",
    "plate_constant",
    "plate_critical",
]

_T = TypeVar("_T")

PLATE_SOURCE = Source(
    Basis.WORKED_OUT,
    "F = k C E (t/b)^2, the form of G. Gerard, H. Becker, NACA TN 3781 (1957), whose charts were not at hand; "
    "coefficients k by a Ritz solution",
)

FLANGE_FREE = 0.43
"""Compression coefficient of a long flange, one side held, one free (NACA TN 3781 charts; 0.425 exact for nu 0.3)."""

_COMPRESSION_RATIO = np.array([0.5, 0.75, 1, 1.25, 1.5, 2, 2.5, 3, 4, 5])
_COMPRESSION = {  # Ritz; last value: very long
    "all clamped": [19.34, 11.66, 10.074, 9.263, 8.351, 7.867, 7.573, 7.359, 7.208, 7.117, 6.97],
    "ends clamped": [18.19, 9.532, 6.743, 5.705, 5.375, 4.847, 4.522, 4.407, 4.237, 4.154, 4.00],
    "one side free": [4.356, 2.166, 1.402, 1.049, 0.858, 0.668, 0.581, 0.533, 0.486, 0.464, 0.425],
}
_COMPRESSION_X = np.append(1.0 / _COMPRESSION_RATIO**2, 0.0)[::-1]
_BENDING = {
    "SSSS": ([0.4, 0.5, 2.0 / 3.0], [29.10, 25.53, 23.88]),
    "sides clamped": ([0.4], [39.56]),
    "CCCC": ([0.4, 0.5, 2.0 / 3.0, 0.8, 1.0, 1.5, 2.0, 4.0], [79.4, 65.9, 56.7, 53.8, 47.75, 43.26, 41.65, 40.07]),
}


def chosen(table: Mapping[str, _T], edges: str) -> _T:
    if edges not in table:
        message = f'edges "{edges}" are not in the table; allowed: {", ".join(table)}'
        raise SurfaceError(message)
    return table[edges]


def plate_constant(nu: ArrayLike) -> NDArray[np.float64]:
    """Give the constant of plate buckling.

    C = pi^2 / (12 (1 - nu^2))

    Parameters
    ----------
    nu : array_like
        Poisson's ratio [-].

    Returns
    -------
    ndarray
        C [-].

    References
    ----------
    NACA TN 3781 (1957); any text on plates.

    Examples
    --------
    >>> plate_constant([0.30, 0.33]).round(4).tolist()
    [0.9038, 0.923]
    """
    n = floats(nu)
    return np.asarray(np.pi**2 / (12.0 * (1.0 - n * n)))


def plate_critical(
    k: ArrayLike, E: ArrayLike, nu: ArrayLike, thickness: ArrayLike, width: ArrayLike
) -> NDArray[np.float64]:
    """Give the elastic stress at which a flat plate buckles.

    F_cr = k C(nu) E (t/b)^2

    Parameters
    ----------
    k : array_like
        Coefficient for load and edges, without C(nu) [-].
    E : array_like
        Modulus, of compression where the load is compression [Pa].
    nu : array_like
        Poisson's ratio [-].
    thickness : array_like
        Thickness [m].
    width : array_like
        Loaded width; the short side in shear [m].

    Returns
    -------
    ndarray
        Stress, elastic: not above yield [Pa].

    References
    ----------
    NACA TN 3781 (1957).

    Examples
    --------
    Skin 0.020 in, 4 in wide, E 10.1e6 psi:

    >>> float(plate_critical(4.0, 10.1e6, 0.33, 0.020, 4.0))
    932.2
    """
    (t,) = at_least(0.0, thickness=thickness)
    (b,) = at_least(0.0, above=True, width=width)
    slender = t / b
    return np.asarray(floats(k) * plate_constant(nu) * floats(E) * slender * slender)


def _waves(a_over_b: NDArray[np.float64], half_wave: float, form: tuple[float, float, float]) -> NDArray[np.float64]:
    """Take the least of k(m), form c0 + c1 phi^2 + c2/phi^2 with phi = r/m, over the whole waves beside the best."""
    fewer = np.maximum(np.floor(a_over_b / half_wave), 1.0)
    least = np.full_like(a_over_b, np.inf)
    for m in (fewer, fewer + 1.0):
        phi = a_over_b / m
        square = phi * phi  # not **2: a lone number and an array differ in the last bit there
        least = np.minimum(least, form[0] + form[1] * square + form[2] / square)
    return least


def compression_coefficient(a_over_b: ArrayLike, edges: str = "all supported") -> NDArray[np.float64]:
    """Give the compression coefficient of a flat plate.

    All supported: min over m of (m/r + r/m)^2; sides clamped: min of 2.366 + 5.3 phi^2 + 1/phi^2, phi = r/m;
    else a table of Ritz values, straight lines in 1/r^2.

    Parameters
    ----------
    a_over_b : array_like
        Length along the load over loaded width [-].
    edges : str
        ``"all supported"``, ``"sides clamped"`` (the unloaded edges), ``"ends clamped"``, ``"all clamped"`` or
        ``"one side free"`` (the rest supported).

    Returns
    -------
    ndarray
        Coefficient k; the tabled ones are held at their value at 0.5 for shorter plates (low side) [-].

    References
    ----------
    NACA TN 3781 (1957), compression; values worked out by a Ritz solution.

    Examples
    --------
    >>> compression_coefficient([1.0, 1.5, 2.0]).tolist()
    [4.0, 4.3403, 4.0]
    """
    (r,) = at_least(0.0, above=True, a_over_b=a_over_b)
    if edges == "all supported":
        return np.asarray(_waves(r, 1.0, (2.0, 1.0, 1.0)))
    if edges == "sides clamped":
        return np.asarray(_waves(r, 5.3**-0.25, (2.366, 5.3, 1.0)))
    names = ["all supported", "sides clamped", *_COMPRESSION]
    values = np.array(chosen({**dict.fromkeys(names, _COMPRESSION["all clamped"]), **_COMPRESSION}, edges))
    return np.asarray(np.interp(1.0 / (r * r), _COMPRESSION_X, values[::-1]))


def bending_coefficient(a_over_b: ArrayLike, edges: str = "SSSS") -> NDArray[np.float64]:
    """Give the coefficient of a web bent in its own plane, stress +s to -s over its depth.

    Least value of the scalloped curve where it has one (23.88 supported, 39.56 sides clamped).

    Parameters
    ----------
    a_over_b : array_like
        Length over depth [-].
    edges : str
        ``"SSSS"``, ``"sides clamped"`` or ``"CCCC"``.

    Returns
    -------
    ndarray
        Coefficient k, on the low side of the curve [-].

    References
    ----------
    NACA TN 3781 (1957), bending; values worked out by a Ritz solution.

    Examples
    --------
    >>> bending_coefficient([0.5, 3.0]).tolist()
    [25.53, 23.88]
    """
    (r,) = at_least(0.0, above=True, a_over_b=a_over_b)
    x, k = chosen(_BENDING, edges)
    return np.asarray(np.interp(r, x, k))


def gradient_coefficient(psi: ArrayLike) -> NDArray[np.float64]:
    """Give the coefficient of a long supported plate whose stress changes straight across its width.

    k = 8.2/(1.05 + psi) for psi >= 0; 7.81 - 6.29 psi + 9.78 psi^2 below

    Parameters
    ----------
    psi : array_like
        Stress at the less compressed edge over that at the other, compression positive, from -1 to 1; what lies outside
        is taken as the end it is nearest to, without a word [-].

    Returns
    -------
    ndarray
        Coefficient on the larger stress [-].

    References
    ----------
    EN 1993-1-5:2006, Table 4.1, from memory; within 0.6 % of a Ritz solution.

    Examples
    --------
    >>> gradient_coefficient([1.0, 0.0, -1.0]).tolist()
    [4.0, 7.81, 23.88]
    """
    p = np.clip(floats(psi), -1.0, 1.0)
    above = np.maximum(p, 0.0)
    return np.asarray(np.where(p >= 0.0, 8.2 / (1.05 + above), 7.81 - 6.29 * p + 9.78 * p * p))
