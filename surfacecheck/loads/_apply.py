"""Load cases put on the points and breaks of a beam, as plain arrays."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import ArrayLike, NDArray

from surfacecheck.axes import side_by_side
from surfacecheck.errors import SurfaceError
from surfacecheck.loads._airs import Airs
from surfacecheck.loads._case import LoadCase, PointInertia, kind_of
from surfacecheck.loads._case_loads import CaseLoads
from surfacecheck.loads._from_surface import number, planform_of
from surfacecheck.loads._hold import Hands
from surfacecheck.loads._horn import HornLine, horn_line, horn_needs
from surfacecheck.loads._onto_grid import hats
from surfacecheck.loads._sums import Sums
from surfacecheck.loads._units import GRAVITY
from surfacecheck.masses import Masses, weigh
from surfacecheck.model import DrivenBy, Surface
from surfacecheck.provenance import in_a_row

__all__ = ["apply", "apply_ways", "each_way", "rigging"]

Array = NDArray[np.float64]


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
    return apply_ways(cases, surface, y, breaks, bay, ways=(through_ribs,), masses=masses)


def apply_ways(
    cases: Sequence[LoadCase],
    surface: Surface,
    y: ArrayLike,
    breaks: ArrayLike,
    bay: ArrayLike,
    *,
    ways: Sequence[bool],
    masses: Masses | None = None,
) -> CaseLoads:
    """Put load cases on a beam, once for each way in which their airload reaches it.

    Parameters
    ----------
    cases : sequence of LoadCase
        At least one.
    surface : Surface
        The surface they belong to.
    y : array_like, shape (..., S)
        Points along the hinge line [m].
    breaks : array_like, shape (..., B)
        Places where something may jump, as in :func:`apply` [m].
    bay : array_like of int, shape (S,)
        Bay between two breaks of each point [-].
    ways : sequence of bool
        Whether the airload is handed over at the ribs, for each way [-].
    masses : Masses, optional
        Masses of the surface, if they are known already.

    Returns
    -------
    CaseLoads
        Laid out as :func:`each_way` says.

    Raises
    ------
    SurfaceError
        As in :func:`apply`.
    """
    if not cases:
        raise SurfaceError(*("no load case is given: there is nothing to put on the beam",))
    at, edges, bays = (np.asarray(v) for v in (y, breaks, bay))
    line = horn_line(surface) if horn_needs(surface) is None else None
    laid = each_way(cases, ways)
    every = [[i for i, (of, _) in enumerate(laid) if of == c] for c in range(len(cases))]
    sums = Sums(len(laid), at, edges)
    turning = _put_air(sums, cases, every, Airs(surface, planform_of(surface), at, edges, bays), ways)
    if any(case.inertia is not None for case in cases):
        _put_inertia(sums, cases, every, _along(weigh(surface) if masses is None else masses, edges, bays))
    for c, case in enumerate(cases):
        if case.point is not None:
            loads = _mass_alone(case.point, edges)
            sums.add(every[c], loads[0])
            turning[c] = turning[c] + loads[1]
        if case.pilot is not None:
            force, moment = _pulls(horn_line(surface), case.pilot.pull, case.pilot.sides, edges)
            sums.add(every[c], {"force": force, "moment": moment})
            turning[c] = turning[c] + np.sum(moment[..., 1], axis=-1)
    hands = Hands(surface, line, edges)
    holds = [hands.hold(case, np.asarray(t * case.factor)) for case, t in zip(cases, turning, strict=True)]
    pulled = rigging(surface, edges)
    factor = in_a_row([cases[c].factor for c, _ in laid])
    mix = sums.mix(factor)
    if any(one.any() for one in pulled):  # it is there whatever the load
        sums.add(list(range(sums.count)), {"force": pulled[0], "moment": pulled[1]})
        mix = np.concatenate([mix, np.ones((*mix.shape[:-1], 1))], axis=-1)
    tight = [np.broadcast_to(p[..., None, :, :], (*p.shape[:-2], sums.count, *p.shape[-2:])) for p in pulled]
    return CaseLoads(
        names=tuple(cases[c].name for c, _ in laid),
        units=sums.units(),
        mix=mix,
        rigging_force=tight[0],
        rigging_moment=tight[1],
        holds=tuple(holds[c] for c, _ in laid),
    )


def each_way(cases: Sequence[LoadCase], ways: Sequence[bool]) -> tuple[tuple[int, bool], ...]:
    """Say how cases are laid out that are put on once for each way.

    Parameters
    ----------
    cases : sequence of LoadCase
        C of them.
    ways : sequence of bool
        Whether the airload is handed over at the ribs, for each way [-].

    Returns
    -------
    tuple of (int, bool)
        Case and way: all cases the first way, then those the next that have an airload. The others are the same
        whichever way an airload would come.
    """
    first, *others = ways
    return (
        *((c, first) for c in range(len(cases))),
        *((c, way) for way in others for c, case in enumerate(cases) if case.air is not None),
    )


def _put_air(
    sums: Sums, cases: Sequence[LoadCase], every: list[list[int]], airs: Airs, ways: Sequence[bool]
) -> list[Array]:
    """Add the airloads, each kind worked once; give the torque of each case's airload."""
    turning = [np.asarray(0.0) for _ in cases]
    kinds: dict[tuple[object, ...], list[int]] = {}
    for c, case in enumerate(cases):
        if case.air is not None:
            kinds.setdefault(kind_of(case.air), []).append(c)
    for same in kinds.values():
        strips = [air for c in same if (air := cases[c].air) is not None]
        pressure, whole = in_a_row([air.pressure for air in strips]), airs.torque(strips[0])
        for way, ribs in enumerate(ways):
            unit = airs.through_ribs(strips[0]) if ribs else airs.spread(strips[0])
            sums.add([every[c][way] for c in same], unit, pressure, air=True)
        for c, air in zip(same, strips, strict=True):
            turning[c] = whole * air.pressure
    return turning


def _put_inertia(sums: Sums, cases: Sequence[LoadCase], every: list[list[int]], along: dict[str, Array]) -> None:
    """Add the loads along the pins, which are all the same but for their size."""
    size = {i: case.inertia.along for c, case in enumerate(cases) if case.inertia is not None for i in every[c]}
    sums.add(list(size), along, in_a_row(list(size.values())) * GRAVITY)


def _mass_alone(one: PointInertia, breaks: Array) -> tuple[dict[str, Array], Array]:
    """Give the loads of a concentrated mass, and its torque."""
    f = np.stack([np.asarray(one.mass * (g * GRAVITY)) for g in one.g], axis=-1)
    m = np.stack([np.zeros_like(f[..., 0]), -one.x * f[..., 2], one.x * f[..., 1]], axis=-1)
    share = hats(breaks, one.y, "balance mass")[..., None]
    return {"force": share * f[..., None, :], "moment": share * m[..., None, :]}, m[..., 1]


def _along(masses: Masses, breaks: Array, bay: NDArray[np.intp]) -> dict[str, Array]:
    """Give the load of 1 m/s^2 along the pins: even within each bay, pieces at one place at the breaks."""
    mass, first = masses.between(breaks)
    length = np.diff(breaks)
    length = np.where(length > 0.0, length, 1.0)
    points = masses.points()
    y, one, one_first = (in_a_row([0.0, *(point[i] for point in points)]) for i in range(3))
    share = hats(breaks[..., None, :], np.where(one != 0.0, y, breaks[..., :1]), "a part's mass")
    force = np.sum(one[..., None] * share, axis=-2)
    couple = np.sum(one_first[..., None] * share, axis=-2)
    nought = np.zeros(np.broadcast_shapes(force.shape, couple.shape))
    return {
        "y": np.take(mass / length, bay, axis=-1),
        "moment_z": np.take(first / length, bay, axis=-1),
        "force": side_by_side(nought, force, nought),
        "moment": side_by_side(nought, nought, couple),
    }
