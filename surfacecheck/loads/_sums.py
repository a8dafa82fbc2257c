"""Loads of all cases on a grid: a few unit loads, and how much of each goes into every case."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

__all__ = ["Sums", "UnitLoads"]

Array = NDArray[np.float64]

RUNNING = ("y", "z", "torque", "moment_z")
JUMPS = ("force", "moment")


@dataclass(frozen=True, slots=True, eq=False)
class UnitLoads:
    """Loads from which every case is made up, K of them.

    Attributes
    ----------
    y, z, torque, moment_z : ndarray, shape (..., K, S)
        Running load along the hinge line and out of the surface [N/m], running torque about the hinge line and couple
        about z [N m/m].
    force, moment : ndarray, shape (..., K, B, 3)
        Force and moment at each break [N], [N m].
    air : ndarray of bool, shape (K,)
        Which of them are airloads [-].
    """

    y: Array
    z: Array
    torque: Array
    moment_z: Array
    force: Array
    moment: Array
    air: NDArray[np.bool_]


class Sums:
    """Running loads and jumps of C cases; variants lead, the axis of cases or unit loads stands before the grid's.

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
        self.parts: list[tuple[list[int], dict[str, Array], Array]] = []
        self.air: list[bool] = []

    def add(self, cases: list[int], loads: dict[str, Array], times: Array | None = None, *, air: bool = False) -> None:
        """Add the same kind of load to some cases.

        Parameters
        ----------
        cases : list of int
            Where they stand on the case axis, each once; N of them [-].
        loads : dict of str to ndarray, each of shape (..., S) or (..., B, 3)
            Running loads and jumps by name [N/m], [N], [N m].
        times : ndarray, shape (..., N) or (..., 1), optional
            What each case multiplies them by [-].
        air : bool
            Whether it is an airload [-].
        """
        self.air.append(air)
        self.parts.append((cases, loads, np.ones(1) if times is None else times))

    def units(self) -> UnitLoads:
        """Give the kinds of load, K of them, in the order in which they were added."""
        return UnitLoads(**{name: self._unit(name) for name in self.tails}, air=np.array(self.air, dtype=np.bool_))

    def _unit(self, name: str) -> Array:
        tail = self.tails[name]
        given = [loads[name] for _, loads, _ in self.parts if name in loads]
        lead = np.broadcast_shapes(self.leads[name], *(load.shape[: load.ndim - len(tail)] for load in given))
        out = np.zeros((*lead, len(self.parts), *tail))
        for k, (_, loads, _) in enumerate(self.parts):
            at: Any = (..., k, *(slice(None),) * len(tail))
            if name in loads:
                out[at] = loads[name]
        return out

    def mix(self, factor: Array) -> Array:
        """Give how much of each kind goes into every case.

        Parameters
        ----------
        factor : ndarray, shape (..., C)
            Multiplies everything of a case [-].

        Returns
        -------
        ndarray, shape (..., C, K)
            [-].
        """
        lead = np.broadcast_shapes(factor.shape[:-1], *(times.shape[:-1] for _, _, times in self.parts))
        out = np.zeros((*lead, self.count, len(self.parts)))
        for k, (cases, _, times) in enumerate(self.parts):
            out[..., cases, k] = times
        return np.asarray(out * factor[..., None])
