"""Putting forces at any place onto the breaks of a grid, by the lever rule between neighbours."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from surfacecheck.errors import SurfaceError

__all__ = ["break_at", "hats", "outline_bays"]

Array = NDArray[np.float64]

_NEAR = 2e-6  # metres: places nearer than a thousandth of a millimetre share one break of the beam


def hats(breaks: Array, y: Array, what: str) -> Array:
    """Share of each break in something at y: all of it where y is a break, else by the lever rule.

    Parameters
    ----------
    breaks : ndarray, shape (..., B)
        Never decreasing [m].
    y : ndarray, shape (...)
        Place [m].
    what : str
        What sits there, for the message.

    Returns
    -------
    ndarray, shape (..., B)
        Shares, whose sum is one and whose centre is y [-].

    Raises
    ------
    SurfaceError
        Where y lies outside the breaks.

    Examples
    --------
    >>> hats(np.array([0.0, 1.0, 3.0]), np.array(1.5), "load")
    array([0.  , 0.75, 0.25])
    """
    y = np.asarray(y, dtype=np.float64)
    if np.any((y < breaks[..., 0] - _NEAR) | (y > breaks[..., -1] + _NEAR)):
        message = f"{what} at {y} m lies outside the beam, {breaks[..., 0]} to {breaks[..., -1]} m: check its place"
        raise SurfaceError(message)
    last = breaks.shape[-1] - 2
    left = np.clip(np.sum(y[..., None] >= breaks, axis=-1) - 1, 0, last)
    index = np.arange(breaks.shape[-1])
    at_left, at_right = index == left[..., None], index == left[..., None] + 1
    low = np.sum(np.where(at_left, breaks, 0.0), axis=-1)
    length = np.sum(np.where(at_right, breaks, 0.0), axis=-1) - low
    part = np.where(length > 0.0, (y - low) / np.where(length > 0.0, length, 1.0), 0.0)[..., None]
    part = np.clip(part, 0.0, 1.0)
    return np.asarray(np.where(at_left, 1.0 - part, 0.0) + np.where(at_right, part, 0.0))


def break_at(breaks: Array, y: Array, what: str) -> int:
    """Find the break at a place, the same one for every variant.

    Parameters
    ----------
    breaks : ndarray, shape (..., B)
        [m].
    y : ndarray, shape (...)
        Place [m].
    what : str
        What sits there, for the message.

    Returns
    -------
    int
        Index of the break.

    Raises
    ------
    SurfaceError
        Where no break stands there in every variant.
    """
    away = np.abs(breaks - np.asarray(y, dtype=np.float64)[..., None])
    worst = away.reshape(-1, breaks.shape[-1]).max(axis=0)
    best = int(np.argmin(worst))
    if worst[best] > _NEAR:
        message = f"{what} at {y} m is no break of the beam: put its place among the breaks"
        raise SurfaceError(message)
    return best


def outline_bays(stations: Array, breaks: Array, bay: NDArray[np.intp]) -> tuple[NDArray[np.intp], NDArray[np.bool_]]:
    """Find the outline's bay for each point of a grid, and whether the point lies on the outline at all.

    Decided by the middle of the bay between two breaks, never by comparing a point with a station.

    Parameters
    ----------
    stations : ndarray, shape (..., K)
        Of the outline, each inner one a break [m].
    breaks : ndarray, shape (..., B)
        Of the grid [m].
    bay : ndarray of int, shape (S,)
        Bay between two breaks of each point.

    Returns
    -------
    outline_bay : ndarray of int, shape (..., S)
        Bay of the outline.
    inside : ndarray of bool, shape (..., S)
        Whether there is surface.

    Raises
    ------
    SurfaceError
        Where a station of the outline is no break.
    """
    away = np.min(np.abs(stations[..., :, None] - breaks[..., None, :]), axis=-1)
    if np.any(away > _NEAR):
        message = f"the outline's stations {stations} m must be breaks of the beam, but the breaks are {breaks} m"
        raise SurfaceError(message)
    middle = (breaks[..., :-1] + breaks[..., 1:]) / 2.0
    found = np.sum(middle[..., :, None] > stations[..., None, 1:-1], axis=-1)
    inside = (middle > stations[..., :1]) & (middle < stations[..., -1:])
    return np.asarray(np.take(found, bay, axis=-1), dtype=np.intp), np.asarray(np.take(inside, bay, axis=-1))
