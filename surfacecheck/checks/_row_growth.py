"""How the load of a row grows beside a gap, and what it is at one rivet."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.statics import tributary_lengths

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Array = NDArray[np.float64]

__all__ = ["growth", "read_at"]

_EDGE = 1e-9
"""How far to either side of a rivet its load is read, so that one at a jump of the flow has the larger [m]."""


def growth(holds: Array, bays: Array | None = None, evenly: bool = False) -> Array:
    """Give the load of each rivet, times as drawn, when some of a row hold less: every gap halved.

    The bound for rivets that do not give. A rivet that holds a part counts for that part as there and for the rest as
    missing; of several side by side those that are left share what comes to their place.

    Parameters
    ----------
    holds : ndarray, shape (..., lines, R)
        Share that each rivet holds, 0 to 1 [-].
    bays : ndarray, shape (..., R - 1), optional
        Distance from place to place over the pitch [-]; 1 if not given.
    evenly : bool
        Whether the rivets share one force evenly [-].

    Returns
    -------
    ndarray, shape (..., lines * R)
        Times its load as drawn; line after line [-].

    References
    ----------
    Half of every gap to each side: balance of a strip over a gap, common practice.

    Examples
    --------
    >>> growth(np.array([[1.0, 1.0, 0.0, 0.0, 1.0, 1.0]]))
    array([1., 2., 0., 0., 2., 1.])
    >>> growth(np.array([[1.0, 1.0, 0.5, 1.0, 1.0]]))
    array([1.  , 1.25, 0.5 , 1.25, 1.  ])
    """
    flat = holds.reshape(*holds.shape[:-2], -1)
    if evenly:
        return np.asarray(flat * (flat.shape[-1] / flat.sum(axis=-1, keepdims=True)))
    best = holds.max(axis=-2)
    levels = np.unique(best[best > 0.0])
    place = np.zeros(best.shape)
    for low, high in zip(np.concatenate([[0.0], levels[:-1]]), levels, strict=True):
        place = place + (high - low) * _own(best >= high, bays)
    beside = holds.sum(axis=-2)
    share = holds.shape[-2] * (holds / np.where(beside > 0.0, beside, 1.0)[..., None, :])
    shared: Array = place[..., None, :] * share
    return shared.reshape(*shared.shape[:-2], -1)


def _own(there: NDArray[np.bool_], bays: Array | None) -> Array:
    return np.ones(there.shape) if there.shape[-1] == 1 else tributary_lengths(there, 1.0 if bays is None else bays)


def read_at(stations: Array, values: Array, at: Array) -> Array:
    """Read something between stations; at a jump the larger of both sides.

    Parameters
    ----------
    stations : ndarray, shape (..., S)
        Along the pins, in order [m].
    values : ndarray, shape (..., cases, S)
        Straight between them [any].
    at : ndarray, shape (..., R)
        Places [m].

    Returns
    -------
    ndarray, shape (..., cases, R)
        As ``values``.

    Examples
    --------
    >>> read_at(np.array([0.0, 1.0, 1.0, 2.0]), np.array([[0.0, 2.0, 5.0, 6.0]]), np.array([0.5, 1.0]))
    array([[1., 5.]])
    """
    sides = [_read(stations, values, at, side) for side in (-_EDGE, _EDGE)]
    return np.maximum(*sides)


def _read(stations: Array, values: Array, at: Array, side: float) -> Array:
    """Read between the stations that a place lies between, seen from a little to one side of it."""
    after = np.clip((stations[..., None, :] < at[..., :, None] + side).sum(axis=-1), 1, stations.shape[-1] - 1)
    low, high = (np.take_along_axis(np.broadcast_to(stations, (*after.shape[:-1], stations.shape[-1])), i, axis=-1)
                 for i in (after - 1, after))  # fmt: skip
    part = np.clip((at - low) / np.where(high > low, high - low, 1.0), 0.0, 1.0)[..., None, :]
    index = np.broadcast_to(after[..., None, :], (*values.shape[:-1], after.shape[-1]))
    left, right = (np.take_along_axis(values, i, axis=-1) for i in (index - 1, index))
    return np.asarray(left + (right - left) * part)
