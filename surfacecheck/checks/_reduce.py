"""Reduce before allowables: of all cases and stations only those that can be the worst."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from collections.abc import Iterable

    from numpy.typing import NDArray

    Array = NDArray[np.float64]

__all__ = ["front", "worst_spots"]


def front(first: Array, second: Array) -> NDArray[np.intp]:
    """Find the points that no other point exceeds in both of two loads.

    Parameters
    ----------
    first, second : ndarray, shape (K,)
        Two loads, neither negative [any].

    Returns
    -------
    ndarray of int
        Indices of the front. Whatever grows with both loads has its maximum on it.

    Examples
    --------
    >>> front(np.array([3.0, 1.0, 2.0, 2.5]), np.array([0.0, 2.0, 1.0, 0.5])).tolist()
    [0, 3, 2, 1]
    >>> front(np.array([3.0, 1.0]), np.array([4.0, 2.0])).tolist()
    [0]
    """
    order = np.lexsort((-second, -first))
    best = np.maximum.accumulate(second[order])
    keep = np.concatenate([[True], second[order][1:] > best[:-1]])
    return order[keep]


def worst_spots(groups: NDArray[np.intp], pairs: Iterable[tuple[Array, Array]]) -> NDArray[np.intp]:
    """Find the cases and stations that can be the worst of a row.

    Parameters
    ----------
    groups : ndarray of int, shape (S,)
        Stations that share panel and pitch have the same number.
    pairs : iterable of tuple of ndarray, shape (C, S)
        Pairs of loads that a check may read together [any].

    Returns
    -------
    ndarray of int
        Flat indices into (C, S), each once, in order.
    """
    found: list[NDArray[np.intp]] = []
    stations = [np.flatnonzero(groups == g) for g in np.unique(groups)]
    for first, second in pairs:
        width = first.shape[-1]
        for columns in stations:
            at = front(first[:, columns].ravel(), second[:, columns].ravel())
            case, column = np.divmod(at, columns.size)
            found.append(case * width + columns[column])
    return np.unique(np.concatenate(found))
