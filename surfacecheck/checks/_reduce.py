"""Reduce before allowables: of all cases and stations only those that can be the worst."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.checks._names import picked

if TYPE_CHECKING:
    from collections.abc import Sequence

    from numpy.typing import ArrayLike, NDArray

    from surfacecheck.checks._names import Names

    Array = NDArray[np.float64]

__all__ = ["Kept", "front", "fronts", "keep", "worst_case"]


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
    case, spot : ndarray of int, shape (K,) or (V, K)
        Where each stands along the two axes; of a stack, where each stands in every variant.
    """

    case: NDArray[np.intp]
    spot: NDArray[np.intp]

    def of(self, values: ArrayLike) -> Array:
        """Pick from something over cases and spots.

        Parameters
        ----------
        values : array_like, shape (..., C, S), (..., C, 1), (..., 1, S), (S,) or ()
            Over all cases and spots [any].

        Returns
        -------
        ndarray, shape (..., 1, K)
            The same at the kept ones, under the one case that is left on the axis.
        """
        array = np.asarray(values, dtype=np.float64)
        if array.ndim == 0:
            return np.full((1, self.case.shape[-1]), array)
        array = array[None, :] if array.ndim == 1 else array
        case = self.case if array.shape[-2] > 1 else 0
        spot = self.spot if array.shape[-1] > 1 else 0
        if self.case.ndim == 1:
            chosen = np.broadcast_to(array[..., case, spot], (*array.shape[:-2], self.case.size))
        elif array.ndim == 2:
            chosen = np.broadcast_to(array[case, spot], self.case.shape)
        else:
            variant = np.arange(len(self.case))[:, None] if len(array) > 1 else 0
            chosen = np.broadcast_to(array[variant, case, spot], self.case.shape)
        return np.asarray(chosen[..., None, :])

    def spots(self, names: Names) -> Names:
        """Names of the kept spots."""
        return picked(names, self.spot)

    def cases(self, names: Names) -> Names:
        """Case of each kept spot."""
        return picked(names, self.case)


def keep(*sets: tuple[Array, ...]) -> Kept:
    """Keep what can be the worst of any of several sets of loads.

    Parameters
    ----------
    *sets : tuple of ndarray, each of shape (..., C, S)
        Loads that one check reads together, none negative [any]. Strengths must be the same at every spot.

    Returns
    -------
    Kept
        Each once, in the order of cases and spots; in a stack the variants that have fewer repeat their last.
    """
    width = sets[0][0].shape[-1]
    if all(load.ndim == 2 for loads in sets for load in loads):
        return Kept(*np.divmod(_worst_of(sets), width))
    shape = np.broadcast_shapes(*(load.shape for loads in sets for load in loads))
    flat = [[np.broadcast_to(load, shape).reshape(shape[0], -1) for load in loads] for loads in sets]
    found = [np.argmax(loads[0], axis=-1)[:, None] if len(loads) == 1 else fronts(*loads) for loads in flat]
    return Kept(*np.divmod(np.sort(np.concatenate(found, axis=-1), axis=-1), width))


def fronts(*loads: Array) -> NDArray[np.intp]:
    """Find the front of every variant of a stack, as :func:`front` does of one.

    Parameters
    ----------
    *loads : ndarray, shape (V, N)
        Loads that act together, none negative [any].

    Returns
    -------
    ndarray of int, shape (V, K)
        Indices of each front, those found once more where a variant has fewer than others.

    Examples
    --------
    >>> fronts(np.array([[3.0, 1.0, 2.0], [3.0, 1.0, 2.0]]), np.array([[0.0, 2.0, 1.0], [4.0, 2.0, 1.0]])).tolist()
    [[0, 1, 2], [0, 0, 0]]
    """
    scale = [load.max(axis=-1, keepdims=True) for load in loads]
    together = np.add.reduce([load / np.where(most > 0.0, most, 1.0) for load, most in zip(loads, scale, strict=True)])
    row = np.arange(len(together))
    best = together.argmax(axis=-1)
    found = [best]
    higher = np.logical_or.reduce([load > load[row, best, None] for load in loads])
    variant, place = np.nonzero(higher)
    count = higher.sum(axis=-1)
    if not place.size:
        return np.asarray(best[:, None])
    # what is left of each variant, side by side; nothing exceeds the filling
    left = np.zeros((len(row), count.max()), dtype=np.intp)
    at = np.arange(place.size) - np.repeat(np.cumsum(count) - count, count)
    left[variant, at] = place
    there = np.arange(left.shape[1]) < count[:, None]
    points = [np.where(there, load[row[:, None], left], -np.inf) for load in loads]
    together = np.where(there, together[row[:, None], left], -np.inf)
    while there.any():
        one = together.argmax(axis=-1)
        more = there.any(axis=-1)
        found.append(np.where(more, left[row, one], found[-1]))
        there &= np.logical_or.reduce([point > point[row, one, None] for point in points])
        together = np.where(there, together, -np.inf)
    return np.asarray(np.sort(np.stack(found, axis=-1), axis=-1), dtype=np.intp)


def _worst_of(sets: Sequence[tuple[Array, ...]]) -> NDArray[np.intp]:
    """Find those of one surface, as indices into cases and spots laid one after the other."""
    found: set[int] = set()
    for loads in sets:
        found.update(
            [int(np.argmax(loads[0]))] if len(loads) == 1 else front(*(load.ravel() for load in loads)).tolist()
        )
    return np.array(sorted(found), dtype=np.intp)


def worst_case(effect: Array) -> Kept:
    """Keep of every spot the case of the greatest effect; strengths may differ from spot to spot.

    Parameters
    ----------
    effect : ndarray, shape (..., C, S)
        What the load does [any].

    Returns
    -------
    Kept
        One case a spot, in the order of cases and spots.
    """
    case = np.argmax(effect, axis=-2)
    order = np.argsort(case, axis=-1, kind="stable")
    return Kept(np.take_along_axis(case, order, axis=-1), order)
