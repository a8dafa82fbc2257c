"""Stacks of variants: any number of a surface may be an array, one entry a variant; one set of formulas serves all.

A number of the file has shape ``(V,)``, what goes along the stations ``(V, S)``, what a check reads ``(V, cases,
spots)``; without a stack the leading axis is simply not there.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import numpy as np

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, NDArray

    Array = NDArray[np.float64]

__all__ = ["by_case", "line_at", "over_both"]


def by_case(array: NDArray[Any]) -> NDArray[Any]:
    """Make room for the case axis in something over stations.

    Parameters
    ----------
    array : ndarray, shape (..., S) or ()
        The same for every case [any].

    Returns
    -------
    ndarray, shape (..., 1, S) or ()
        Ready to stand beside (..., C, S).
    """
    return array[..., None, :] if array.ndim else array


def over_both(number: ArrayLike) -> Array:
    """Make room for cases and spots in something that is one number a variant.

    Parameters
    ----------
    number : array_like, shape (V,) or ()
        [any].

    Returns
    -------
    ndarray, shape (V, 1, 1) or ()
        Ready to stand beside (..., C, S).
    """
    array = np.asarray(number, dtype=np.float64)
    return array[..., None, None] if array.ndim else array


def line_at(stations: Array, line: Array, y: Array) -> Array:
    """Value of a line that is straight between stations, at one place; beyond the ends it stays level.

    Parameters
    ----------
    stations, line : ndarray, shape (..., K)
        The line [m], [any].
    y : ndarray, shape (...)
        Place [m].

    Returns
    -------
    ndarray, shape (...)
        [any].

    Examples
    --------
    >>> line_at(np.array([0.0, 1.0, 2.0]), np.array([5.0, 7.0, 3.0]), np.array(1.5))
    array(5.)
    """
    part = (y[..., None] - stations[..., :-1]) / (stations[..., 1:] - stations[..., :-1])
    part = np.minimum(np.maximum(part, 0.0), 1.0)
    return np.asarray(line[..., 0] + ((line[..., 1:] - line[..., :-1]) * part).sum(axis=-1))
