"""Which inputs drive which results of a set of samples: rank correlation, and first-order share."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Array = NDArray[np.float64]

__all__ = ["drives", "least_share"]

_BINS, _IN_A_BIN = 32, 32
"""Slices of an input at most, and samples in a slice at least."""
_TOLD = 0.02
"""Share of the scatter from which a driver is told at all."""
_SIGMAS = 4.0


def drives(inputs: Array, results: Array) -> tuple[Array, Array]:
    """Tell how much of the scatter of every result goes with every input.

    ``share = 1 - mean variance within slices of the input / variance``, of ranks

    Parameters
    ----------
    inputs : ndarray, shape (k, n)
        Samples, each input by itself and hardly a value twice [any].
    results : ndarray, shape (M, n)
        What they gave; some may be infinite [any].

    Returns
    -------
    rank : ndarray, shape (M, k)
        Spearman's rank correlation; 0 where one of the two is constant [-].
    share : ndarray, shape (M, k)
        First-order share of the variance of the ranks, freed of what chance alone would give; 0 at least [-].

    References
    ----------
    Saltelli et al., "Global Sensitivity Analysis: The Primer" (2008), 1.2: S_i = V(E(Y | X_i)) / V(Y), from memory; the
    correction is that of the analysis of variance (epsilon squared), from memory.

    Examples
    --------
    The first input does all of it, the second nothing:

    >>> x = np.stack([np.linspace(-1.0, 1.0, 1025), np.cos(np.arange(1025.0) ** 2)])
    >>> rank, share = drives(x, np.stack([x[0], x[0] ** 2]))
    >>> rank.round(1).tolist(), share.round(1).tolist()
    ([[1.0, 0.0], [0.0, 0.0]], [[1.0, 0.0], [1.0, 0.0]])
    """
    given, found = _standing(inputs), _standing(results)
    n = given.shape[-1]
    slices = _slices(n)
    starts = np.linspace(0, n, slices, endpoint=False).astype(np.intp)
    sizes = np.diff(np.append(starts, n))
    share = np.zeros((len(found), len(given)))
    for k, row in enumerate(given):
        if row.any():
            sums = np.add.reduceat(found[:, np.argsort(row, kind="stable")], starts, axis=-1)
            share[:, k] = (sums * sums / sizes).sum(axis=-1)
    by_chance = (slices - 1) * (1.0 - share) / (n - slices)
    return np.asarray(found @ given.T), np.maximum(share - by_chance, 0.0)


def _slices(samples: int) -> int:
    return max(2, min(_BINS, samples // _IN_A_BIN))


def least_share(samples: int) -> float:
    """Give the share of the scatter from which a driver can be told from chance, and is worth telling.

    Parameters
    ----------
    samples : int
        How many [-].

    Returns
    -------
    float
        Four standard deviations of the share of an input that does nothing, 0.02 at least [-].

    Examples
    --------
    >>> least_share(4096), round(least_share(256), 3)
    (0.02, 0.058)
    """
    return float(max(_TOLD, _SIGMAS * np.sqrt(2.0 * (_slices(samples) - 1)) / samples))


def _standing(values: Array) -> Array:
    """Give ranks about their mean, of unit length; nothing where all are alike."""
    from scipy.stats import rankdata

    ranks = np.asarray(rankdata(values, axis=-1), dtype=np.float64)
    ranks -= ranks.mean(axis=-1, keepdims=True)
    size = np.sqrt((ranks * ranks).sum(axis=-1, keepdims=True))
    return np.asarray(np.where(size > 0.0, ranks / np.where(size > 0.0, size, 1.0), 0.0))
