"""Reduce before allowables: of all cases and stations only those that can be the worst."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, NDArray

    Array = NDArray[np.float64]

__all__ = ["Kept", "front", "keep", "worst_case"]


def front(*loads: Array) -> NDArray[np.intp]:
    """Find the points that no other point exceeds in every load.

    Parameters
    ----------
    *loads : ndarray, shape (K,)
        Loads that act together, none negative [any].

    Returns
    -------
    ndarray of int
        Indices of the front, in order; of equal points the first. Whatever grows with all loads has its maximum on it.

    Examples
    --------
    >>> front(np.array([3.0, 1.0, 2.0, 2.5, 0.5]), np.array([0.0, 2.0, 1.0, 0.5, 0.5])).tolist()
    [0, 1, 2, 3]
    >>> front(np.array([3.0, 1.0]), np.array([4.0, 2.0])).tolist()
    [0]
    """
    points = np.stack(loads)
    largest = points.max(axis=-1, keepdims=True)
    together = (points / np.where(largest > 0.0, largest, 1.0)).sum(axis=0)
    left = np.arange(points.shape[-1])
    found: list[int] = []
    while left.size:
        # nothing that is left exceeds the point of the greatest sum in every load
        best = int(np.argmax(together))
        found.append(int(left[best]))
        higher = np.flatnonzero((points > points[:, best : best + 1]).any(axis=0))
        points, together, left = points[:, higher], together[higher], left[higher]
    return np.asarray(sorted(found), dtype=np.intp)


@dataclass(frozen=True, eq=False)
class Kept:
    """Cases and spots that can be the worst, one after the other.

    Attributes
    ----------
    case, spot : ndarray of int, shape (K,)
        Where each stands along the two axes.
    """

    case: NDArray[np.intp]
    spot: NDArray[np.intp]

    def of(self, values: ArrayLike) -> Array:
        """Pick from something over cases and spots.

        Parameters
        ----------
        values : array_like, shape (C, S), (C, 1), (S,) or ()
            Over all cases and spots [any].

        Returns
        -------
        ndarray, shape (1, K)
            The same at the kept ones, under the one case that is left on the axis.
        """
        array = np.asarray(values, dtype=np.float64)
        if array.ndim == 0:
            return np.full((1, self.case.size), array)
        if array.ndim == 1:
            return np.asarray(array[self.spot][None, :])
        return np.asarray(
            array[self.case if array.shape[0] > 1 else 0, self.spot if array.shape[1] > 1 else 0][None, :]
        )

    def spots(self, names: tuple[str, ...]) -> tuple[str, ...]:
        """Names of the kept spots."""
        return tuple(names[i] for i in self.spot)

    def cases(self, names: tuple[str, ...]) -> tuple[str, ...]:
        """Case of each kept spot."""
        return tuple(names[i] for i in self.case)


def keep(*sets: tuple[Array, ...]) -> Kept:
    """Keep what can be the worst of any of several sets of loads.

    Parameters
    ----------
    *sets : tuple of ndarray, each of shape (C, S)
        Loads that one check reads together, none negative [any]. Strengths must be the same at every spot.

    Returns
    -------
    Kept
        Each once, in the order of cases and spots.
    """
    width = sets[0][0].shape[-1]
    found: set[int] = set()
    for loads in sets:
        found.update(
            [int(np.argmax(loads[0]))] if len(loads) == 1 else front(*(load.ravel() for load in loads)).tolist()
        )
    return Kept(*np.divmod(np.array(sorted(found)), width))


def worst_case(effect: Array) -> Kept:
    """Keep of every spot the case of the greatest effect; strengths may differ from spot to spot.

    Parameters
    ----------
    effect : ndarray, shape (C, S)
        What the load does [any].

    Returns
    -------
    Kept
        One case a spot, in the order of cases and spots.
    """
    case = np.argmax(effect, axis=0)
    order = np.argsort(case, kind="stable")
    return Kept(case[order], order)
