"""Handing a running load over at ribs: each skin panel is a simple beam between its two ribs.

Overhangs beyond the first and the last rib go to the nearest two by statics, so the weights are the straight line
through them, prolonged. Force, spanwise moment and torque of the whole are kept exactly.
"""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
from numpy.typing import NDArray

from surfacecheck.errors import SurfaceError

__all__ = ["at_ribs"]

Array = NDArray[np.float64]

_NODES, _WEIGHTS = np.polynomial.legendre.leggauss(8)  # exact to degree 15


def at_ribs(stations: Array, ribs: Array, running: Callable[[Array, NDArray[np.intp]], Array]) -> Array:
    """Hand a running load over at ribs, by the lever rule.

    Parameters
    ----------
    stations : ndarray, shape (..., K)
        Stations of the outline, between which the load is smooth [m].
    ribs : ndarray, shape (..., R)
        Ribs, rising, at least two, within the outline [m].
    running : callable
        ``running(y, bay)``, with y of shape (..., S) and the outline's bay of each point of shape (S,), gives the
        running load of shape (..., S) [N/m or N m/m].

    Returns
    -------
    ndarray, shape (..., R)
        What each rib takes [N or N m].

    Raises
    ------
    SurfaceError
        With fewer than two ribs, or ribs out of order or outside the outline.

    Examples
    --------
    >>> even = lambda y, bay: np.full_like(y, 450.0)
    >>> at_ribs(np.array([0.0, 0.9]), np.array([0.0, 0.3, 0.6, 0.9]), even)
    array([ 67.5, 135. , 135. ,  67.5])
    """
    _check(stations, ribs)
    lead = np.broadcast_shapes(stations.shape[:-1], ribs.shape[:-1])
    k, r = stations.shape[-1], ribs.shape[-1]
    y = np.broadcast_to(stations, (*lead, k))
    rib = np.broadcast_to(ribs, (*lead, r))
    ends = np.concatenate([y[..., :1], rib, y[..., -1:]], axis=-1)
    low = np.maximum(ends[..., :-1, None], y[..., None, :-1])
    high = np.maximum(np.minimum(ends[..., 1:, None], y[..., None, 1:]), low)
    half = (high - low)[..., None] / 2.0
    points = (low + high)[..., None] / 2.0 + half * _NODES
    bay = np.broadcast_to(np.arange(k - 1)[:, None], (r + 1, k - 1, len(_NODES))).reshape(-1)
    load = running(points.reshape(*lead, -1), bay)
    load = load.reshape(*load.shape[:-1], r + 1, k - 1, len(_NODES)) * (half * _WEIGHTS)
    pair = np.clip(np.arange(r + 1) - 1, 0, r - 2)
    left, right = rib[..., pair, None, None], rib[..., pair + 1, None, None]
    to_right = np.sum(load * ((points - left) / (right - left)), axis=(-2, -1))
    to_left = np.sum(load * ((right - points) / (right - left)), axis=(-2, -1))
    out = np.zeros((*to_left.shape[:-1], r))
    out[..., :-1] += to_left[..., 1:-1]
    out[..., 1:] += to_right[..., 1:-1]
    out[..., 0] += to_left[..., 0]
    out[..., 1] += to_right[..., 0]
    out[..., -2] += to_left[..., -1]
    out[..., -1] += to_right[..., -1]
    return out


def _check(stations: Array, ribs: Array) -> None:
    if ribs.shape[-1] < 2:
        message = f"ribs at {ribs} m: at least two are needed to hand a load over at ribs"
        raise SurfaceError(message)
    if np.any(np.diff(ribs, axis=-1) <= 0.0):
        message = f"ribs at {ribs} m do not rise: list them from root to tip, each once"
        raise SurfaceError(message)
    if np.any(ribs[..., :1] < stations[..., :1]) or np.any(ribs[..., -1:] > stations[..., -1:]):
        message = f"ribs at {ribs} m must lie within the outline, {stations[..., 0]} to {stations[..., -1]} m"
        raise SurfaceError(message)
