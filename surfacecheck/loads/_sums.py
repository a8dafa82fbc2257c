"""Loads of all cases on a grid, added up part by part."""

from __future__ import annotations

from typing import Any

import numpy as np
from numpy.typing import NDArray

__all__ = ["Sums"]

Array = NDArray[np.float64]

RUNNING = ("y", "z", "torque", "moment_z")
JUMPS = ("force", "moment")


class Sums:
    """Running loads and jumps of C cases; variants lead, the case axis stands before the grid's.

    Parameters
    ----------
    count : int
        Number of cases C [-].
    y : ndarray, shape (..., S)
        Points [m].
    breaks : ndarray, shape (..., B)
        Breaks [m].
    """

    def __init__(self, count: int, y: Array, breaks: Array) -> None:
        self.count = count
        self.tails = dict.fromkeys(RUNNING, y.shape[-1:]) | dict.fromkeys(JUMPS, (breaks.shape[-1], 3))
        self.leads = dict.fromkeys(RUNNING, y.shape[:-1]) | dict.fromkeys(JUMPS, breaks.shape[:-1])
        self.parts: dict[str, list[tuple[list[int], Array]]] = {name: [] for name in self.tails}

    def add(self, cases: list[int], loads: dict[str, Array], times: Array | None = None) -> None:
        """Add the same kind of load to some cases.

        Parameters
        ----------
        cases : list of int
            Where they stand on the case axis, each once; N of them [-].
        loads : dict of str to ndarray, each of shape (..., S) or (..., B, 3)
            Running loads and jumps by name [N/m], [N], [N m].
        times : ndarray, shape (..., N) or (..., 1), optional
            What each case multiplies them by [-].
        """
        for name, load in loads.items():
            grid = len(self.tails[name])
            wide = np.expand_dims(load, axis=-1 - grid)
            if times is not None:
                wide = wide * times[(..., *(None,) * grid)]
            self.parts[name].append((cases, wide))

    def totals(self, factor: Array) -> dict[str, Array]:
        """Sum up.

        Parameters
        ----------
        factor : ndarray, shape (..., C)
            Multiplies everything of a case [-].

        Returns
        -------
        dict of str to ndarray
            Running loads of shape (..., C, S) and jumps of shape (..., C, B, 3), each kind at one common shape.
        """
        found = {name: self._total(name, factor) for name in self.tails}
        for kind in (RUNNING, JUMPS):
            common = np.broadcast_shapes(*(found[name].shape for name in kind))
            found |= {name: np.broadcast_to(found[name], common) for name in kind}
        return found

    def _total(self, name: str, factor: Array) -> Array:
        tail, parts = self.tails[name], self.parts[name]
        leads = (load.shape[: load.ndim - 1 - len(tail)] for _, load in parts)
        out = np.zeros((*np.broadcast_shapes(self.leads[name], *leads), self.count, *tail))
        whole = (slice(None),) * len(tail)
        for cases, load in parts:
            at: Any = (..., cases, *whole)
            out[at] += load
        return np.asarray(out * factor[(..., *(None,) * len(tail))])
