"""Which length of a seam belongs to which rivet, with gaps in the row; and how far a gap is felt."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

from surfacecheck.errors import SurfaceError
from surfacecheck.statics._grid import Array
from surfacecheck.statics._row_system import by_bay

__all__ = ["layout", "own_lengths", "row_reach", "tributary_lengths"]


def layout(rivets: int, pitch: ArrayLike, overhang: ArrayLike | None) -> tuple[Array, Array, Array]:
    """Return places from the first rivet (..., R), and the length beyond the first and the last one (...) [m]."""
    p = np.asarray(pitch, dtype=np.float64)
    if p.size == 0 or not (np.isfinite(p).all() and (p > 0.0).all()):
        message = (
            f"pitch is {p.min() if p.size else '?'} m; every distance between rivets must be above zero: correct it"
        )
        raise SurfaceError(message)
    bays = by_bay(p, rivets, "pitch")
    places = np.concatenate([np.zeros((*bays.shape[:-1], 1)), np.cumsum(bays, axis=-1)], axis=-1)
    if overhang is None:
        ends = p if p.ndim else p[None]
        return places, ends[..., 0] / 2.0, ends[..., -1] / 2.0
    beyond = np.asarray(overhang, dtype=np.float64)
    if not (np.isfinite(beyond).all() and (beyond >= 0.0).all()):
        message = f"overhang is {beyond.min():.4g} m; the seam beyond its end rivets must be zero or longer: correct it"
        raise SurfaceError(message)
    return places, beyond, beyond


def own_lengths(there: NDArray[np.bool_], places: Array, start: Array, end: Array) -> Array:
    """Give each rivet the seam up to halfway to the next one that is there, and all of it beyond the last [m]."""
    before, after = np.where(there, places, -np.inf), np.where(there, places, np.inf)
    before = np.maximum.accumulate(before, axis=-1)[..., :-1]
    after = np.flip(np.minimum.accumulate(np.flip(after, axis=-1), axis=-1), axis=-1)[..., 1:]
    none = np.full((*before.shape[:-1], 1), np.inf)
    to_before = places - np.concatenate([-none, before], axis=-1)
    to_after = np.concatenate([after, none], axis=-1) - places
    left = np.where(np.isfinite(to_before), to_before / 2.0, places - places[..., :1] + start[..., None])
    right = np.where(np.isfinite(to_after), to_after / 2.0, places[..., -1:] - places + end[..., None])
    out: Array = np.where(there, left + right, 0.0)
    return out


def tributary_lengths(there: ArrayLike, pitch: ArrayLike, overhang: ArrayLike | None = None) -> Array:
    """Give the length of a seam that belongs to each rivet by halving every gap: the bound for rivets that do not give.

    With k rivets in a row missing from an even pitch p, each neighbour of the gap has ``p (1 + k/2)``.

    Parameters
    ----------
    there : array_like of bool, shape (..., R)
        Whether each rivet is there [-].
    pitch : array_like, scalar or shape (..., R-1) or (..., 1)
        Distance between the places [m].
    overhang : array_like, shape (...), optional
        Length of the seam beyond the first and the last place [m]; half the bay beside it if not given.

    Returns
    -------
    ndarray, shape (..., R)
        Length of each [m]; 0 where it is missing; they add up to the seam.

    Raises
    ------
    SurfaceError
        If every rivet is missing, or a length is not as it must be.

    References
    ----------
    Balance of a strip over a gap, half to each side: common practice.

    Examples
    --------
    >>> tributary_lengths([True, True, False, False, True, True], 1.0)
    array([1., 2., 0., 0., 2., 1.])
    """
    present = np.asarray(there, dtype=np.bool_)
    if present.ndim == 0 or not present.any(axis=-1).all():
        message = "every rivet of the row is missing, so that nothing joins the two strips: leave at least one in"
        raise SurfaceError(message)
    return own_lengths(present, *layout(present.shape[-1], pitch, overhang))


def row_reach(k: ArrayLike, k_A: ArrayLike, k_B: ArrayLike) -> Array:
    """Give over how many rivets a gap or an end is felt: there the disturbance falls to 1/e.

    ``1 / lambda``, cosh(lambda) = 1 + k (1/k_A + 1/k_B)/2

    Parameters
    ----------
    k : array_like
        Stiffness of a rivet [N/m].
    k_A, k_B : array_like
        E A / pitch of the strips [N/m].

    Returns
    -------
    ndarray
        Number of rivets [-]; infinite for rivets without stiffness.

    Raises
    ------
    SurfaceError
        If a stiffness is negative, or a strip has none.

    References
    ----------
    Solution of the equal-row equations of NACA TN 1051 (as quoted in secondary text): loads of a lap joint of N equal
    rows go as cosh(lambda (i - (N + 1)/2)).

    Examples
    --------
    >>> print(f"{row_reach(20e6, 34.15e6, 34.15e6):.2f}")
    0.97
    """
    rivet, a, b = (np.asarray(v, dtype=np.float64) for v in (k, k_A, k_B))
    if not ((rivet >= 0.0).all() and (a > 0.0).all() and (b > 0.0).all()):
        message = "k must be zero or more, k_A and k_B above zero, in N/m: correct the one that is not"
        raise SurfaceError(message)
    decay = 2.0 * np.arcsinh(np.sqrt(rivet * (1.0 / a + 1.0 / b)) / 2.0)
    with np.errstate(divide="ignore"):
        return np.asarray(1.0 / decay)
