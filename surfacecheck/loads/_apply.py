"""Load cases put on the points and breaks of a beam, as plain arrays."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from surfacecheck.errors import SurfaceError
from surfacecheck.loads._airs import Airs
from surfacecheck.loads._case import LoadCase
from surfacecheck.loads._from_surface import number, planform_of
from surfacecheck.loads._hold import Hold, hold_of
from surfacecheck.loads._horn import HornLine, horn_line, horn_needs
from surfacecheck.loads._onto_grid import hats
from surfacecheck.loads._units import GRAVITY
from surfacecheck.masses import Masses, weigh
from surfacecheck.model import DrivenBy, Surface

__all__ = ["CaseLoads", "apply", "rigging"]

Array = NDArray[np.float64]


@dataclass(frozen=True, slots=True, eq=False)
class CaseLoads:
    """External loads of every case, hinges and what holds the torque apart; the case axis C is always there.

    Attributes
    ----------
    names : tuple of str
        Cases, in order.
    x, y, z : ndarray, shape (..., C, S)
        Running load: aft, along the hinge line, out of the surface [N/m].
    torque : ndarray, shape (..., C, S)
        Running torque about the hinge line [N m/m].
    moment_x, moment_z : ndarray, shape (..., C, S)
        Running couples about x and z through the hinge line [N m/m].
    force : ndarray, shape (..., C, B, 3)
        Force at each break [N], the rigging pull included.
    moment : ndarray, shape (..., C, B, 3)
        Moment of that force about the hinge line at the break, (M_x, T_y, M_z) [N m].
    rigging_force, rigging_moment : ndarray, shape (..., C, B, 3)
        The part of force and moment that is rigging pull: it does not grow with the load [N], [N m].
    holds : tuple of Hold
        What holds the torque of each case.
    """

    names: tuple[str, ...]
    x: Array
    y: Array
    z: Array
    torque: Array
    moment_x: Array
    moment_z: Array
    force: Array
    moment: Array
    rigging_force: Array
    rigging_moment: Array
    holds: tuple[Hold, ...]


def rigging(surface: Surface, breaks: Array) -> tuple[Array, Array]:
    """Put the rigging pull of two cables at the horn: both pull alike, so there is no torque.

    Parameters
    ----------
    surface : Surface
        The surface.
    breaks : ndarray, shape (..., B)
        Of the beam [m].

    Returns
    -------
    force, moment : ndarray, shape (..., B, 3)
        Zero where there are no cables, or their pull is not known [N], [N m].
    """
    nought = np.zeros((*breaks.shape, 3))
    pull = surface.controls.rigging_pull
    if horn_needs(surface) is not None or pull.si is None:
        return nought, nought
    line = horn_line(surface)
    if line.driven_by is not DrivenBy.TWO_CABLES:
        return nought, nought
    return _pulls(line, number(pull), (1, -1), breaks)


def _pulls(line: HornLine, pull: Array, sides: tuple[int, ...], breaks: Array) -> tuple[Array, Array]:
    share = hats(breaks, line.y, "horn")[..., None]
    side = [np.asarray(float(s)) for s in sides]
    force = sum((line.direction(s) for s in side), np.zeros(3)) * np.asarray(pull)[..., None]
    moment = sum((line.moment(s) for s in side), np.zeros(3)) * np.asarray(pull)[..., None]
    return np.asarray(share * force[..., None, :]), np.asarray(share * moment[..., None, :])


def apply(
    cases: Sequence[LoadCase],
    surface: Surface,
    y: ArrayLike,
    breaks: ArrayLike,
    bay: ArrayLike,
    *,
    through_ribs: bool = False,
    masses: Masses | None = None,
) -> CaseLoads:
    """Put load cases on a beam.

    Parameters
    ----------
    cases : sequence of LoadCase
        At least one.
    surface : Surface
        The surface they belong to.
    y : array_like, shape (..., S)
        Points along the hinge line [m].
    breaks : array_like, shape (..., B)
        Places where something may jump, never decreasing; the outline's stations, ribs, hinges and the horn must
        be among them [m].
    bay : array_like of int, shape (S,)
        Bay between two breaks of each point, counted from 0 at the root [-].
    through_ribs : bool
        Hand the airload over at the ribs instead of spreading it evenly [-].
    masses : Masses, optional
        Masses of the surface, if they are known already.

    Returns
    -------
    CaseLoads
        The loads.

    Raises
    ------
    SurfaceError
        Where there is no case, no rib to hand over to, or a place is no break.
    """
    if not cases:
        raise SurfaceError(*("no load case is given: there is nothing to put on the beam",))
    at, edges, bays = (np.asarray(v) for v in (y, breaks, bay))
    planform = planform_of(surface)
    line = horn_line(surface) if horn_needs(surface) is None else None
    airs = Airs(surface, planform, at, edges, bays, through_ribs)
    along: dict[str, Array] = {}
    if any(case.inertia is not None for case in cases):
        along = _along(weigh(surface) if masses is None else masses, edges, bays)
    parts = [_one(case, surface, airs, at, edges, along) for case in cases]
    pulled = rigging(surface, edges)
    running = {name: _stacked([part[name] for part in parts], 1) for name in ("y", "z", "torque", "moment_z")}
    force = _stacked([part["force"] for part in parts], 2)
    moment = _stacked([part["moment"] for part in parts], 2)
    lead = np.broadcast_shapes(*(value.shape for value in running.values()))
    jump = np.broadcast_shapes(force.shape, moment.shape, pulled[0][..., None, :, :].shape)
    running = {name: np.broadcast_to(value, lead) for name, value in running.items()}
    nought = np.broadcast_to(np.float64(0.0), lead)
    tight = [np.broadcast_to(value[..., None, :, :], jump) for value in pulled]
    return CaseLoads(
        names=tuple(case.name for case in cases),
        x=nought,
        moment_x=nought,
        **running,
        force=force + tight[0],
        moment=moment + tight[1],
        rigging_force=tight[0],
        rigging_moment=tight[1],
        holds=tuple(
            hold_of(case, surface, line, edges, part["whole_torque"]) for case, part in zip(cases, parts, strict=True)
        ),
    )


def _stacked(arrays: list[Array], tail: int) -> Array:
    return np.stack(np.broadcast_arrays(*arrays), axis=-1 - tail)


def _one(
    case: LoadCase, surface: Surface, airs: Airs, y: Array, breaks: Array, along: dict[str, Array]
) -> dict[str, Array]:
    nought, jumps = np.zeros_like(y), np.zeros((*breaks.shape, 3))
    out = {"y": nought, "z": nought, "torque": nought, "moment_z": nought, "force": jumps, "moment": jumps}
    whole = np.asarray(0.0)
    if case.air is not None:
        air, turning = airs.of(case.air)
        whole = whole + turning
        _add(out, air)
    if case.inertia is not None:
        _add(out, {name: case.inertia.along * GRAVITY * value for name, value in along.items()})
    if case.point is not None:
        one = case.point
        f = np.stack([np.asarray(one.mass * (g * GRAVITY)) for g in one.g], axis=-1)
        m = np.stack([np.zeros_like(f[..., 0]), -one.x * f[..., 2], one.x * f[..., 1]], axis=-1)
        share = hats(breaks, one.y, "balance mass")[..., None]
        _add(out, {"force": share * f[..., None, :], "moment": share * m[..., None, :]})
        whole = whole + m[..., 1]
    if case.pilot is not None:
        line = horn_line(surface)
        pulled = _pulls(line, case.pilot.pull, case.pilot.sides, breaks)
        _add(out, {"force": pulled[0], "moment": pulled[1]})
        whole = whole + np.sum(pulled[1][..., 1], axis=-1)
    factor = np.asarray(case.factor, dtype=np.float64)
    scaled = {
        name: value * (factor[..., None, None] if name in {"force", "moment"} else factor[..., None])
        for name, value in out.items()
    }
    return scaled | {"whole_torque": np.asarray(whole * factor)}


def _add(out: dict[str, Array], more: dict[str, Array]) -> None:
    for name, value in more.items():
        out[name] = out[name] + value


def _along(masses: Masses, breaks: Array, bay: NDArray[np.intp]) -> dict[str, Array]:
    """Give the load of 1 m/s^2 along the pins: even within each bay, pieces at one place at the breaks."""
    mass, first = masses.between(breaks)
    length = np.diff(breaks)
    length = np.where(length > 0.0, length, 1.0)
    points = masses.points()
    y, one, one_first = (
        np.stack(np.broadcast_arrays(np.asarray(0.0), *(point[i] for point in points)), axis=-1) for i in range(3)
    )
    share = hats(breaks[..., None, :], np.where(one != 0.0, y, breaks[..., :1]), "a part's mass")
    force = np.sum(one[..., None] * share, axis=-2)
    couple = np.sum(one_first[..., None] * share, axis=-2)
    nought = np.zeros(np.broadcast_shapes(force.shape, couple.shape))
    return {
        "y": np.take(mass / length, bay, axis=-1),
        "moment_z": np.take(first / length, bay, axis=-1),
        "force": np.stack(np.broadcast_arrays(nought, force, nought), axis=-1),
        "moment": np.stack(np.broadcast_arrays(nought, nought, couple), axis=-1),
    }
