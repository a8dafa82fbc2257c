"""Shear flow from equilibrium of the nodes, and the constant that each cell adds.

Both work on the flat layout of ``_walls``: walls first, sections last.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.sections._flow import WallFlow

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from surfacecheck.sections._topology import Topology
    from surfacecheck.sections._walls import Walls

__all__ = ["close_cells", "cut_flow"]


def cut_flow(topology: Topology, walls: Walls, place: NDArray[np.float64], middle: NDArray[np.float64]) -> WallFlow:
    """Flows ``dq = -x dA`` and ``dq = -z dA`` with every cell cut open; parts of shape (W, 2, M)."""
    strip = walls.strip[:, None]
    change = -strip * middle
    slope = 0.5 * change
    curvature = strip * walls.step / -12.0
    left_over = -walls.boom[:, None] * place
    for wall, (_, end) in enumerate(topology.walls):
        left_over[end] += change[wall]
    start = np.zeros_like(change)
    for step in topology.tree:
        start[step.wall] = left_over[step.node] if step.leaves else -left_over[step.node]
        left_over[step.parent] += left_over[step.node]
    return WallFlow(start + slope - curvature, slope, curvature)


def close_cells(
    topology: Topology, mean: NDArray[np.float64], flexibility: NDArray[np.float64], sweep: NDArray[np.float64]
) -> tuple[NDArray[np.float64], NDArray[np.float64], NDArray[np.float64]]:
    """Close the cells.

    Parameters
    ----------
    topology : Topology
        N nodes and W walls.
    mean : ndarray, shape (W, 2, M)
        Mean basis flows with the cells cut.
    flexibility, sweep : ndarray, shape (W, M)
        ``l / (G t)`` at unit reference G [-], and torque of a unit flow [m^2].

    Returns
    -------
    tuple of ndarray
        Mean basis flows that twist nothing (W, 2, M); flows of a unit twist rate at unit reference G (W, M), so that
        their torque is Bredt's torsion constant; twice the area of each loop (cells, M).
    """
    cells, places = topology.cells, sweep.shape[1]
    torsion = np.zeros_like(sweep)
    enclosed = np.zeros((cells, places))
    if not cells:
        return mean, torsion, enclosed
    matrix = np.zeros((cells, cells, places))
    right = np.zeros((cells, 3, places))
    signs = [dict(loop) for loop in topology.loops]
    for row, loop in enumerate(topology.loops):
        for wall, sign in loop:
            right[row, :2] -= sign * (mean[wall] * flexibility[wall])
            enclosed[row] += sign * sweep[wall]
            for column in range(cells):
                if wall in signs[column]:
                    matrix[row, column] += sign * signs[column][wall] * flexibility[wall]
    right[:, 2] = enclosed
    closing = _solve(matrix, right)
    mean = mean.copy()
    for cell, loop in enumerate(topology.loops):
        for wall, sign in loop:
            mean[wall] += sign * closing[cell, :2]
            torsion[wall] += sign * closing[cell, 2]
    return mean, torsion, enclosed


def _solve(matrix: NDArray[np.float64], right: NDArray[np.float64]) -> NDArray[np.float64]:
    """Solve one small positive definite system a section: elimination, written out over the handful of cells."""
    cells = len(matrix)
    for pivot in range(cells):
        for row in range(pivot + 1, cells):
            factor = matrix[row, pivot] / matrix[pivot, pivot]
            matrix[row, pivot + 1 :] -= factor * matrix[pivot, pivot + 1 :]
            right[row] -= factor * right[pivot]
    for row in reversed(range(cells)):
        for column in range(row + 1, cells):
            right[row] -= matrix[row, column] * right[column]
        right[row] /= matrix[row, row]
    return right
