"""Small helpers every strength formula shares: arrays in, no NaN out."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.errors import SurfaceError

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, NDArray

__all__ = ["at_least", "floats", "margin", "ratio"]


def floats(value: ArrayLike) -> NDArray[np.float64]:
    """Give an array of floats, a bare number as an array without axes."""
    return np.asarray(value, dtype=np.float64)


def at_least(least: float, *, above: bool = False, **values: ArrayLike) -> tuple[NDArray[np.float64], ...]:
    """Give the values as arrays, or say which one is out of its range.

    Parameters
    ----------
    least : float
        Smallest value allowed.
    above : bool
        Whether ``least`` itself is refused.
    **values : array_like
        Values by the name that the message uses.

    Returns
    -------
    tuple of ndarray
        The values, in the order given.

    Raises
    ------
    SurfaceError
        Where a value is below ``least`` or not a number.
    """
    arrays = []
    for name, value in values.items():
        array = floats(value)
        good = array > least if above else array >= least
        if not (good.all() if array.ndim else good):  # .all() of a lone bool takes longer than all the rest
            worst = array[~good].flat[0] if array.ndim else array
            sign = "above" if above else "at least"
            message = f"{name} is {float(worst):g} (SI); it must be {sign} {least:g}: correct that value"
            raise SurfaceError(message)
        arrays.append(array)
    return tuple(arrays)


def ratio(effect: ArrayLike, strength: ArrayLike) -> NDArray[np.float64]:
    """Give effect over strength: 0 where nothing acts, infinite where something acts on no strength.

    Parameters
    ----------
    effect, strength : array_like
        In the same unit, neither negative [any].

    Returns
    -------
    ndarray
        The ratio [-].

    References
    ----------
    Definition.

    Examples
    --------
    >>> ratio([0.0, 2.0, 2.0], [0.0, 4.0, 0.0]).tolist()
    [0.0, 0.5, inf]
    """
    e, s = np.broadcast_arrays(floats(effect), floats(strength))
    with np.errstate(divide="ignore", invalid="ignore", over="ignore"):
        return np.asarray(np.where(e == 0.0, 0.0, np.divide(e, s)))


def margin(strength: ArrayLike, effect: ArrayLike, factor: ArrayLike = 1.0) -> NDArray[np.float64]:
    """Give the margin of a part whose effect grows in step with the load.

    margin = strength / (factor x effect) - 1

    Parameters
    ----------
    strength : array_like
        What the part carries, not negative [any].
    effect : array_like
        What acts on it at limit load, not negative [same as strength].
    factor : array_like
        Factor from limit load to the state that the strength belongs to [-].

    Returns
    -------
    ndarray
        The margin [-]; infinite where nothing acts, -1 where something acts on no strength.

    References
    ----------
    Definition; 14 CFR Part 23 (Amdt 23-62), 23.303 and 23.305, for the states it is used at.

    Examples
    --------
    >>> float(margin(750.0, 119.03, 1.5))
    3.2006
    """
    e, s = np.broadcast_arrays(floats(effect) * floats(factor), floats(strength))
    with np.errstate(divide="ignore", invalid="ignore", over="ignore"):
        return np.asarray(np.where(e == 0.0, np.inf, np.divide(s, e)) - 1.0)
