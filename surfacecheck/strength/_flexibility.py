"""How much one fastener gives under shear: flexibility C = slip / load by several published formulas.

The formulas differ by two to three times for one joint, and equal fasteners scatter by up to 35 % (NACA TN 1051), so
none of them should be taken alone: ``flexibility_spread`` lays them side by side. They were read in secondary
quotations, never in the reports themselves; each source says so.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.errors import SurfaceError
from surfacecheck.provenance import Basis, Source
from surfacecheck.strength._numbers import at_least, floats

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, NDArray

__all__ = [
    "FLEXIBILITY_SOURCES",
    "huth",
    "quadratic_grip",
    "sizes",
    "swift",
]

_SECOND_HAND = "as quoted in secondary text"
FLEXIBILITY_SOURCES = {
    "huth": Source(Basis.PUBLISHED, f"Huth, LBF report FB-172 (1984); ASTM STP 927 (1986); {_SECOND_HAND}"),
    "swift": Source(Basis.PUBLISHED, f"Swift, ASTM STP 486 (1971), generalised to three moduli; {_SECOND_HAND}"),
    "tate_rosenfeld": Source(
        Basis.PUBLISHED,
        f"Tate and Rosenfeld, NACA TN 1051 (1946); double shear {_SECOND_HAND} (NASA CR-3710), single shear as quoted "
        "in one congress paper of 2018",
    ),
    "quadratic_grip": Source(
        Basis.PUBLISHED, f"empirical form in (t_1 + t_2)^2, by way of a Swedish report of 1983; {_SECOND_HAND}"
    ),
}
"""Where each formula was published, and that it was read second-hand."""

_HUTH = {False: (2.0 / 3.0, 3.0), True: (0.4, 2.2)}
"""Exponent a and factor b of Huth by whether the fastener is a rivet; the others are bolts in metal."""


def sizes(**values: ArrayLike) -> tuple[NDArray[np.float64], ...]:
    """Give sizes and moduli as arrays, each above zero."""
    return at_least(0.0, above=True, **values)


def huth(
    t_1: ArrayLike,
    t_2: ArrayLike,
    d: ArrayLike,
    E_1: ArrayLike,
    E_2: ArrayLike,
    E_f: ArrayLike,
    planes: ArrayLike = 1,
    *,
    riveted: bool = True,
) -> NDArray[np.float64]:
    """Give the flexibility of a fastener by Huth's formula, the total over its shear planes.

    C = ((t_1 + t_2)/(2 d))^a (b/n) [1/(t_1 E_1) + 1/(n t_2 E_2) + 1/(2 t_1 E_f) + 1/(2 n t_2 E_f)]

    Parameters
    ----------
    t_1 : array_like
        Thickness of one sheet; in double shear of the middle one [m].
    t_2 : array_like
        Thickness of the other sheet; in double shear of each outer one [m].
    d : array_like
        Fastener diameter [m].
    E_1, E_2, E_f : array_like
        Young's modulus of the two sheets and the fastener [Pa].
    planes : array_like
        n, 1 in single shear, 2 in double shear [-].
    riveted : bool
        True takes a = 2/5, b = 2.2 (riveted metal), False a = 2/3, b = 3.0 (bolted metal).

    Returns
    -------
    ndarray
        C [m/N]; in double shear that of both planes together, so that each of two springs has 2 C.

    Raises
    ------
    SurfaceError
        For a size or modulus that is not above zero, or another number of planes.

    Notes
    -----
    A widely copied misprint has 1/(n t_1 E_f) as the third term; it gives the same for n = 2 only.

    References
    ----------
    Huth, H.: LBF report FB-172 (1984), and ASTM STP 927 (1986), as quoted in secondary text.

    Examples
    --------
    3 and 4 mm aluminium, a 6.35 mm steel bolt; N and mm, so that C is in mm/N:

    >>> print(f"{huth(3.0, 4.0, 6.35, 72e3, 72e3, 200e3, riveted=False):.3e}")
    1.928e-05

    A 6 mm sheet between two of 3 mm, bolt 8 mm:

    >>> print(f"{huth(6.0, 3.0, 8.0, 72e3, 72e3, 200e3, 2, riveted=False):.3e}")
    5.584e-06

    A 5/32 in rivet through two sheets of 0.063 in; psi, so that C is in in/lb:

    >>> print(f"{huth(0.063, 0.063, 0.156, 10.5e6, 10.5e6, 10.3e6):.3e}")
    6.987e-06
    """
    a, b, D, e_1, e_2, e_f = sizes(t_1=t_1, t_2=t_2, d=d, E_1=E_1, E_2=E_2, E_f=E_f)
    n = floats(planes)
    if not np.all((n == 1.0) | (n == 2.0)):
        message = f"planes is {float(n[(n != 1.0) & (n != 2.0)].flat[0]):g}; a fastener is in 1 (single shear) or 2"
        raise SurfaceError(message)
    power, factor = _HUTH[riveted]
    sheets = 1.0 / (a * e_1) + 1.0 / (n * b * e_2) + 1.0 / (2.0 * a * e_f) + 1.0 / (2.0 * n * b * e_f)
    return np.asarray(np.power((a + b) / (2.0 * D), power) * factor / n * sheets)


def swift(
    t_1: ArrayLike, t_2: ArrayLike, d: ArrayLike, E_1: ArrayLike, E_2: ArrayLike, E_f: ArrayLike
) -> NDArray[np.float64]:
    """Give the flexibility of a fastener in single shear by Swift's formula, with three moduli.

    C = 5/(d E_f) + 0.8 (1/(t_1 E_1) + 1/(t_2 E_2))

    Parameters
    ----------
    t_1, t_2 : array_like
        Thickness of the sheets [m].
    d : array_like
        Fastener diameter [m].
    E_1, E_2, E_f : array_like
        Young's modulus of the two sheets and the fastener [Pa].

    Returns
    -------
    ndarray
        C [m/N].

    Raises
    ------
    SurfaceError
        For a size or modulus that is not above zero.

    References
    ----------
    Swift, T.: ASTM STP 486 (1971), for one modulus: slip = F/(E d) [5 + 0.8 (d/t_1 + d/t_2)]; the three moduli and
    the formula as quoted in secondary text.

    Examples
    --------
    The first joint of :func:`huth`, and a 1/8 in rivet through 0.020 and 0.032 in:

    >>> print(f"{swift(3.0, 4.0, 6.35, 72e3, 72e3, 200e3):.3e}")
    1.042e-05
    >>> print(f"{swift(0.020, 0.032, 0.125, 9.9e6, 9.9e6, 10.0e6):.3e}")
    1.057e-05
    """
    a, b, D, e_1, e_2, e_f = sizes(t_1=t_1, t_2=t_2, d=d, E_1=E_1, E_2=E_2, E_f=E_f)
    return np.asarray(5.0 / (D * e_f) + 0.8 * (1.0 / (a * e_1) + 1.0 / (b * e_2)))


def quadratic_grip(
    t_1: ArrayLike, t_2: ArrayLike, d: ArrayLike, E_1: ArrayLike, E_2: ArrayLike, E_f: ArrayLike
) -> NDArray[np.float64]:
    """Give the flexibility of a fastener in single shear by the empirical form in the square of the grip.

    C = (t_1 + t_2)^2/(E_f d^3) + 3.72 (1/(t_1 E_1) + 1/(t_2 E_2))

    Parameters
    ----------
    t_1, t_2 : array_like
        Thickness of the sheets [m].
    d : array_like
        Fastener diameter [m].
    E_1, E_2, E_f : array_like
        Young's modulus of the two sheets and the fastener [Pa].

    Returns
    -------
    ndarray
        C [m/N]; for thin sheet the softest of the formulas here.

    Raises
    ------
    SurfaceError
        For a size or modulus that is not above zero.

    Notes
    -----
    For single shear only.

    References
    ----------
    Empirical form, by way of a Swedish report of 1983, as quoted in secondary text; the report was not seen.

    Examples
    --------
    >>> print(f"{quadratic_grip(3.0, 4.0, 6.35, 72e3, 72e3, 200e3):.3e}")
    3.110e-05
    """
    a, b, D, e_1, e_2, e_f = sizes(t_1=t_1, t_2=t_2, d=d, E_1=E_1, E_2=E_2, E_f=E_f)
    grip = a + b
    return np.asarray(grip * grip / (e_f * D * D * D) + 3.72 * (1.0 / (a * e_1) + 1.0 / (b * e_2)))
