"""Reduce before allowables: of all cases and stations only those that can be the worst."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.axes import as_wide
from surfacecheck.checks._names import picked

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, NDArray

    from surfacecheck.checks._names import Names

    Array = NDArray[np.float64]

__all__ = ["Kept", "front", "keep", "worst_case"]


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
            chosen = as_wide(array[..., case, spot], (*array.shape[:-2], self.case.size))
        elif array.ndim == 2:
            chosen = as_wide(array[case, spot], self.case.shape)
        else:
            variant = np.arange(len(self.case))[:, None] if len(array) > 1 else 0
            chosen = as_wide(array[variant, case, spot], self.case.shape)
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
        Each once, in the order of cases and spots; in a stack the variants that have fewer repeat some.
    """
    shape = np.broadcast_shapes(*(load.shape for together in sets for load in together))
    stack = len(shape) > 2
    found = [
        fronts(*(as_wide(load, shape).reshape(shape[0] if stack else 1, -1) for load in together)) for together in sets
    ]
    kept = np.concatenate(found, axis=-1)
    return Kept(*np.divmod(np.sort(kept, axis=-1) if stack else np.unique(kept), shape[-1]))


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
    found = np.unique(fronts(*(load[None, :] for load in loads)))
    here = np.stack([load[found] for load in loads])
    one, other = here[:, :, None], here[:, None, :]
    exceeded = np.any(np.all(one <= other, axis=0) & np.any(one < other, axis=0), axis=1)
    return np.asarray(found[~exceeded])


SAMPLE = 256
"""Points among which the first great one is looked for."""


def fronts(*loads: Array) -> NDArray[np.intp]:
    """Find the front of every variant of a stack, as :func:`front` does of one.

    Parameters
    ----------
    *loads : ndarray, shape (V, N)
        Loads that act together, none negative [any].

    Returns
    -------
    ndarray of int, shape (V, F)
        Indices of each front; what a variant has too few of is there more than once. A point that another exceeds by
        no more than rounding may be among them.

    Examples
    --------
    >>> fronts(np.array([[3.0, 1.0, 2.0], [3.0, 1.0, 2.0]]), np.array([[0.0, 2.1, 1.0], [4.0, 2.1, 1.0]])).tolist()
    [[1, 2, 0], [0, 0, 0]]
    """
    if len(loads) == 1:
        return np.asarray(loads[0].argmax(axis=-1)[:, None], dtype=np.intp)
    # any great point will do to leave out most of the others at once
    step = max(1, loads[0].shape[-1] // SAMPLE)
    here, place = _without_less(list(loads), step * _together([load[:, ::step] for load in loads]).argmax(axis=-1))
    row = np.arange(len(place))
    together = _together(here)
    there = np.isfinite(together)
    found: list[NDArray[np.intp]] = []
    while there.any():
        # nothing that is left exceeds the point of the greatest sum in every load
        at = together.argmax(axis=-1)
        found.append(np.where(there.any(axis=-1), place[row, at], found[-1] if found else 0))
        there &= np.logical_or.reduce([load > load[row, at, None] for load in here])
        together = np.where(there, together, -np.inf)
    return np.asarray(np.stack(found, axis=-1), dtype=np.intp)


def _without_less(loads: list[Array], at: NDArray[np.intp]) -> tuple[list[Array], NDArray[np.intp]]:
    """Leave out what is less in every load than the point at ``at``, (V,); of equal ones all stay.

    What is left of each variant stands side by side, (V, K), with its index; less than anything where there is none.
    """
    row = np.arange(len(at))
    left = loads[0] >= loads[0][row, at, None]
    for load in loads[1:]:
        left |= load >= load[row, at, None]
    count = left.sum(axis=-1)
    flat = np.flatnonzero(left)
    variant = np.repeat(row, count)
    to = np.arange(flat.size) - np.repeat(np.cumsum(count) - count, count)
    places = np.zeros((len(at), count.max()), dtype=np.intp)
    places[variant, to] = flat - variant * left.shape[-1]
    packed = [np.full(places.shape, -np.inf) for _ in loads]
    for pack, load in zip(packed, loads, strict=True):
        pack[variant, to] = load.ravel()[flat]
    return packed, places


def _together(loads: list[Array]) -> Array:
    """Sum the loads, each as a share of its greatest, (V, K)."""
    most = [load.max(axis=-1, keepdims=True) for load in loads]
    out = loads[0] / np.where(most[0] > 0.0, most[0], 1.0)
    for load, top in zip(loads[1:], most[1:], strict=True):
        out = out + load / np.where(top > 0.0, top, 1.0)
    return out


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
