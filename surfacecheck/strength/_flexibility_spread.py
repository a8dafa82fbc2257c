"""The published flexibilities of one fastener side by side: how far they lie apart is part of the answer."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.axes import side_by_side
from surfacecheck.strength._flexibility import huth, quadratic_grip, swift
from surfacecheck.strength._flexibility_tate import tate_rosenfeld_single

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, NDArray

__all__ = ["FlexibilitySpread", "flexibility_spread"]


@dataclass(frozen=True, slots=True, eq=False)
class FlexibilitySpread:
    """One joint by every formula for single shear.

    Attributes
    ----------
    names : tuple of str
        The formulas, as in ``FLEXIBILITY_SOURCES``.
    values : ndarray, shape (..., 4)
        C by each of them [m/N].
    """

    names: tuple[str, ...]
    values: NDArray[np.float64]

    @property
    def least(self) -> NDArray[np.float64]:
        """C of the formula that makes the fastener stiffest [m/N], shape (...)."""
        return np.asarray(self.values.min(axis=-1))

    @property
    def largest(self) -> NDArray[np.float64]:
        """C of the formula that makes it softest [m/N], shape (...)."""
        return np.asarray(self.values.max(axis=-1))

    @property
    def ratio(self) -> NDArray[np.float64]:
        """Largest over least [-], shape (...)."""
        return np.asarray(self.largest / self.least)


def flexibility_spread(
    t_1: ArrayLike,
    t_2: ArrayLike,
    d: ArrayLike,
    E_1: ArrayLike,
    E_2: ArrayLike,
    E_f: ArrayLike,
    nu_f: ArrayLike = 0.33,
    *,
    riveted: bool = True,
) -> FlexibilitySpread:
    """Give the flexibility of a fastener in single shear by four published formulas.

    Parameters
    ----------
    t_1, t_2 : array_like
        Thickness of the sheets [m].
    d : array_like
        Fastener diameter [m].
    E_1, E_2, E_f : array_like
        Young's modulus of the two sheets and the fastener [Pa].
    nu_f : array_like
        Poisson's ratio of the fastener [-].
    riveted : bool
        Whether Huth's numbers for riveted metal are taken, or those for bolts; the others know no difference.

    Returns
    -------
    FlexibilitySpread
        Names, C by each, least, largest and their ratio.

    Raises
    ------
    SurfaceError
        For a size or modulus that is not above zero.

    Notes
    -----
    Real fasteners may lie outside: equal ones scatter by up to 35 % (NACA TN 1051, as quoted in secondary text), and
    none of the formulas was made for hollow blind rivets, which are softer.

    References
    ----------
    Those of the four formulas: ``FLEXIBILITY_SOURCES``.

    Examples
    --------
    A 1/8 in rivet through 0.020 and 0.032 in; psi and in/lb:

    >>> spread = flexibility_spread(0.020, 0.032, 0.125, 9.9e6, 9.9e6, 10.0e6)
    >>> for name, C in zip(spread.names, spread.values, strict=True):
    ...     print(f"{name} {C:.3e}")
    huth 1.440e-05
    swift 1.057e-05
    tate_rosenfeld 1.688e-05
    quadratic_grip 3.067e-05
    >>> print(f"{spread.ratio:.1f}")
    2.9
    """
    by_formula = {
        "huth": huth(t_1, t_2, d, E_1, E_2, E_f, riveted=riveted),
        "swift": swift(t_1, t_2, d, E_1, E_2, E_f),
        "tate_rosenfeld": tate_rosenfeld_single(t_1, t_2, d, E_1, E_2, E_f, nu_f),
        "quadratic_grip": quadratic_grip(t_1, t_2, d, E_1, E_2, E_f),
    }
    return FlexibilitySpread(tuple(by_formula), side_by_side(*by_formula.values()))
