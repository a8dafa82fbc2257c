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

__all__ = ["close_cells", "cut_flow"]


def cut_flow(
    topology: Topology, change: NDArray[np.float64], curvature: NDArray[np.float64], entering: NDArray[np.float64]
) -> WallFlow:
    """Flow with every cell cut open, from the equilibrium of the nodes.

    Parameters
    ----------
    topology : Topology
        N nodes and W walls.
    change, curvature : ndarray, shape (W, K, M)
        By how much each of K flows grows from first to second node, and its curvature.
    entering : ndarray, shape (N, K, M)
        What each node adds to the flow that leaves it; with all changes it sums to nothing. Used up.

    Returns
    -------
    WallFlow, parts of shape (W, K, M)
        Flow with the first node of each cut wall at zero.
    """
    for wall, (_, end) in enumerate(topology.walls):
        entering[end] += change[wall]
    start = np.zeros_like(change)
    for step in topology.tree:
        start[step.wall] = entering[step.node] if step.leaves else -entering[step.node]
        entering[step.parent] += entering[step.node]
    slope = 0.5 * change
    return WallFlow(start + slope - curvature, slope, curvature)


def close_cells(
    topology: Topology, mean: NDArray[np.float64], flexibility: NDArray[np.float64], sweep: NDArray[np.float64]
) -> tuple[NDArray[np.float64], NDArray[np.float64], NDArray[np.float64]]:
    """Close the cells.

    Parameters
    ----------
    topology : Topology
        N nodes and W walls.
    mean : ndarray, shape (W, K, M)
        Mean of K flows with the cells cut.
    flexibility, sweep : ndarray, shape (W, M)
        ``l / (G t)`` at unit reference G [-], and torque of a unit flow [m^2].

    Returns
    -------
    tuple of ndarray
        Mean of K flows that twist nothing (W, K, M); flows of a unit twist rate at unit reference G (W, M), so that
        their torque is Bredt's torsion constant; twice the area of each loop (cells, M).
    """
    cells, flows, places = topology.cells, mean.shape[1], sweep.shape[1]
    torsion = np.zeros_like(sweep)
    enclosed = np.zeros((cells, places))
    if not cells:
        return mean, torsion, enclosed
    matrix = np.zeros((cells, cells, places))
    right = np.zeros((cells, flows + 1, places))
    signs = [dict(loop) for loop in topology.loops]
    for row, loop in enumerate(topology.loops):
        for wall, sign in loop:
            right[row, :flows] -= sign * (mean[wall] * flexibility[wall])
            enclosed[row] += sign * sweep[wall]
            for column in range(cells):
                if wall in signs[column]:
                    matrix[row, column] += sign * signs[column][wall] * flexibility[wall]
    right[:, flows] = enclosed
    closing = _solve(matrix, right)
    mean = mean.copy()
    for cell, loop in enumerate(topology.loops):
        for wall, sign in loop:
            mean[wall] += sign * closing[cell, :flows]
            torsion[wall] += sign * closing[cell, flows]
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
