"""A state in balance with the load: simple spans between the hinges. Both planes are alike here (see ``_beam``)."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from surfacecheck.errors import SurfaceError
from surfacecheck.statics._grid import Array, Grid, inboard_of, running
from surfacecheck.statics._loads import BeamLoads
from surfacecheck.statics._supports import Plan, Supports, gaps

__all__ = ["Balance", "balance", "refuse_open_torque"]

TORQUE_REST = 1.0e-6
"""Part of the largest torque that may be left over at the root [-]; a closed rod leaves 1e-15."""


@dataclass(frozen=True, slots=True, eq=False)
class Balance:
    """A state in balance with the load: simple spans between the hinges. Plane axis third from the end."""

    M: Array  # (..., 2, C, S)
    V: Array  # (..., 2, C, S)
    N: Array  # (..., C, S)
    T: Array  # (..., C, S)
    V_run: Array  # (..., 2, C, H + 1): shear that the hinges make in each run
    starts: Array  # (..., 2, C, H + 1): moment that the hinges make at the start and at the end of each run
    ends: Array
    thrust: Array  # (..., C, H)
    length: Array  # (..., H + 1)
    xi: Array  # (..., S): 0 to 1 along the run


def balance(stations: Grid, loads: BeamLoads, supports: Supports, layout: Plan, *, closed: bool = True) -> Balance:
    """Sum the loads from the tip, and hold them by simple spans."""
    length = gaps(stations, layout)
    n = len(supports.hinges)
    lead = np.broadcast_shapes(
        *(getattr(loads, f).shape[:-2] for f in ("x", "y", "z", "torque", "moment_x", "moment_z")),
        *(getattr(loads, f).shape[:-3] for f in ("force", "moment")),
        stations.y.shape[:-1],
    )
    cases, points = loads.z.shape[-2:]
    at_break = np.empty((*lead, 6, cases, loads.force.shape[-2]))
    at_break[..., 0, :, :], at_break[..., 1, :, :] = loads.force[..., 2], loads.force[..., 0]
    at_break[..., 2, :, :], at_break[..., 3, :, :] = loads.force[..., 1], loads.moment[..., 1]
    at_break[..., 4, :, :] = loads.moment[..., 0]
    np.negative(loads.moment[..., 2], out=at_break[..., 5, :, :])
    # components and cases are the rows of the matrix product, variants never: see the tests of bit-equal stacks
    inboard = inboard_of(stations)
    sums = (at_break.reshape(*lead, 6 * cases, -1) @ inboard).reshape(*lead, 6, cases, points)
    running_loads = (loads.z, loads.x, loads.y, loads.torque, loads.moment_x, -loads.moment_z)
    for component, run in enumerate(running_loads):
        spread = np.flatnonzero(run.any(axis=(*range(run.ndim - 2), -1)))  # most loads have one or two components
        if spread.size:
            sums[..., component, spread, :] += running(stations, run[..., spread, :])
    V, N, T = sums[..., :2, :, :], sums[..., 2, :, :], sums[..., 3, :, :]
    M = running(stations, V.reshape(*lead, 2 * cases, points)).reshape(V.shape) + sums[..., 4:, :, :]
    root = sums[..., 0] + at_break[..., 0]
    if closed:
        _check_torque(root[..., 3, :], sums, at_break, stations.breaks[..., -1] - stations.breaks[..., 0])

    thrust = np.zeros((*lead, cases, n))
    who = np.zeros(cases, dtype=np.intp) if supports.thrust is None else supports.thrust
    along = 0.0 - root[..., 2, :]
    thrust[..., np.arange(cases), who] = along
    N = N + along[..., None] * inboard[np.asarray(supports.hinges)[who]]

    starts, ends, V_run = np.zeros((3, *lead, 2, cases, n + 1))
    V_run[..., 0] = 0.0 - root[..., :2, :]
    starts[..., 0] = 0.0 - (M[..., 0] + at_break[..., 4:, :, 0])
    ends[..., 0] = starts[..., 0] + root[..., :2, :] * length[..., None, None, 0]
    if n > 1:
        starts[..., 1] = ends[..., 0]
        starts[..., 2:-1] = ends[..., 1:-2] = 0.0 - M[..., list(layout.starts[1:])]
        V_run[..., 1:-1] = (starts[..., 1:-1] - ends[..., 1:-1]) / length[..., None, None, 1:-1]
    begin = stations.breaks[..., layout.knots[layout.run]]
    xi = (stations.y - begin) / np.maximum(length[..., layout.run], np.finfo(float).tiny)  # an overhang may have none
    side = xi[..., None, None, :]
    M = M + np.take(starts, layout.run, axis=-1) * (1.0 - side) + np.take(ends, layout.run, axis=-1) * side
    V = V + np.take(V_run, layout.run, axis=-1)
    return Balance(M, V, N, T, V_run, starts, ends, thrust, length, xi)


def _check_torque(left: Array, sums: Array, at_break: Array, span: Array) -> None:
    """Refuse a torque left over at the root; what counts as rounding is measured by all the loads there are."""
    size = np.abs(sums[..., 3, :, :]).max(axis=-1)
    if not (np.abs(left) > TORQUE_REST * size).any():
        return
    # forces times span too: a force at the end and its rod may cancel at one break, and leave only their rounding
    for component in range(4):
        reach = span[..., None] if component < 3 else 1.0
        for values in (sums, at_break):
            size = np.maximum(size, np.abs(values[..., component, :, :]).max(axis=-1) * reach)
    refuse_open_torque(left, size)


def refuse_open_torque(left: Array, size: Array) -> None:
    """Refuse a torque left over at the root of a case, (..., C), that is more than the rounding of what is summed."""
    open_ = np.abs(left) > TORQUE_REST * size + np.finfo(float).tiny
    if open_.any():
        worst = left[open_].flat[0]
        message = (
            f"the torque about the hinge line is not held: {worst:.4g} N m are left over at the root. Pins hold none: "
            "a horn, a torque tube or a stop is missing, or its force does not fit the loads"
        )
        raise SurfaceError(message)
