"""The set of alternatives that nothing else beats."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.checks import front

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, NDArray

__all__ = ["CRITERIA", "unbeaten"]

CRITERIA = "margin, number, mass, rules that are met and strengths that are given"
"""What alternatives are compared in, in words."""


def unbeaten(*wanted: ArrayLike) -> NDArray[np.bool_]:
    """Mark what nothing else beats: nothing is as good in everything and better in something.

    Parameters
    ----------
    *wanted : array_like, shape (A,)
        For each thing looked at a figure that is better the greater it is [any]; not a number leaves one out.

    Returns
    -------
    ndarray of bool, shape (A,)
        Of several that are alike in everything the first.

    Examples
    --------
    Margin, and rivets saved: the third has less margin than the second for as many rivets

    >>> unbeaten([2.0, 1.0, 0.5, 3.0], [-43, -36, -36, -54]).tolist()
    [True, True, False, True]
    """
    figures = np.stack([np.asarray(one, dtype=np.float64) for one in wanted])
    there = np.flatnonzero(~np.isnan(figures).any(axis=0))
    marked = np.zeros(figures.shape[1], dtype=bool)
    if there.size:
        ranks = [np.unique(one, return_inverse=True)[1].astype(np.float64) for one in figures[:, there]]
        marked[there[front(*ranks)]] = True
    return marked
