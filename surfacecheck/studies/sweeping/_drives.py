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
_CHANCE = 1e-6
"""Chance at which an input that does nothing may be told as a driver [-]. A scatter looks at some fifty numbers times
some hundred margins, so that one in a hundred scatters tells a wrong one; our own choice."""


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
        What the share of an input that does nothing exceeds once in a million, 0.02 at least [-].

    Notes
    -----
    The share is itself estimated from the samples. Of an input that does nothing, the part of the variance that lies
    between its s slices is distributed as Beta((s - 1)/2, (n - s)/2) (the F distribution of the analysis of variance),
    of which :func:`drives` takes off what chance gives on the mean. It has a long tail where slices are few: four
    standard deviations of it are exceeded once in some hundred times.

    References
    ----------
    Analysis of variance, one way, from memory; held against samples in the tests.

    Examples
    --------
    >>> least_share(4096), round(least_share(1024), 3), round(least_share(256), 3)
    (0.02, 0.051, 0.125)
    """
    from scipy.stats import beta

    slices = _slices(samples)
    if samples <= slices:
        return 1.0
    share = float(beta.isf(_CHANCE, 0.5 * (slices - 1), 0.5 * (samples - slices)))
    return max(_TOLD, share - (slices - 1) * (1.0 - share) / (samples - slices))


def _standing(values: Array) -> Array:
    """Give ranks about their mean, of unit length; nothing where all are alike."""
    from scipy.stats import rankdata

    ranks = np.asarray(rankdata(values, axis=-1), dtype=np.float64)
    ranks -= ranks.mean(axis=-1, keepdims=True)
    size = np.sqrt((ranks * ranks).sum(axis=-1, keepdims=True))
    return np.asarray(np.where(size > 0.0, ranks / np.where(size > 0.0, size, 1.0), 0.0))
