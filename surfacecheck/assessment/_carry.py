"""One given force alone, without airload and rigging, through the same statics and sections as the load cases."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.assessment._gather import box_at
from surfacecheck.axes import OverCases
from surfacecheck.checks import Effects
from surfacecheck.loads import CaseLoads, Hands, LoadCase, UnitLoads, horn_line, horn_needs
from surfacecheck.model import DrivenBy
from surfacecheck.provenance import Basis, Source
from surfacecheck.sections.box import box_needs
from surfacecheck.sections.stiffness import stiffness_of
from surfacecheck.statics import Beam, beam_stiffness, point_force, solve
from surfacecheck.statics.held import beam_loads, hold_torque, supports_of
from surfacecheck.statics.span import Span, span_of

if TYPE_CHECKING:
    from collections.abc import Sequence

    from numpy.typing import NDArray

    from surfacecheck.loads import Hold
    from surfacecheck.model import Surface
    from surfacecheck.sections.box import Box

    Array = NDArray[np.float64]

__all__ = ["Carried", "PutForce", "carry"]


@dataclass(frozen=True, slots=True)
class PutForce:
    """A force and a couple at one place.

    Attributes
    ----------
    y, x, z : float
        Along the pins, aft of them, out of the surface [m].
    force : tuple of float
        (F_x, F_y, F_z) [N].
    couple : tuple of float
        (M_x, T_y, M_z) beside what the force makes [N m].
    rib : int or None
        Rib that brings it to the spar, from 0 in the order of the file; None: straight onto the spar.
    on_horn : bool
        Whether it is put on a bolt of the horn, and reaches the surface through its rivets.
    """

    y: float
    x: float
    z: float
    force: tuple[float, float, float]
    couple: tuple[float, float, float] = (0.0, 0.0, 0.0)
    rib: int | None = None
    on_horn: bool = False


@dataclass(frozen=True, eq=False)
class Carried:
    """A given force, carried.

    Attributes
    ----------
    surface : Surface
        Without the rigging pull.
    put : tuple of PutForce
        What was put on.
    beam, simple : Beam
        One case; with shear flexibility and twist, and bending alone.
    effects : Effects
        What the checks read, one case, the nose closed where it closes a cell; its ``horn_force`` holds a force put on
        the horn too.
    pull : ndarray, shape (P, 3)
        What cable or rod puts on each bolt of the horn [N].
    hold : Hold
        What holds the torque.
    couple : float
        Couple about +y where it is one that holds [N m].
    """

    surface: Surface
    put: tuple[PutForce, ...]
    beam: Beam
    simple: Beam
    effects: Effects
    pull: Array
    hold: Hold
    couple: float

    @property
    def span(self) -> Span:
        """Stations and named breaks."""
        return self.effects.span

    @property
    def box(self) -> Box | None:
        """Sections; None where they cannot be worked."""
        return self.effects.box


def carry(surface: Surface, put: Sequence[PutForce], title: str) -> Carried:
    """Carry given forces to the pins and to what turns the surface.

    Parameters
    ----------
    surface : Surface
        At least its outline and two hinges must be known.
    put : sequence of PutForce
        Forces.
    title : str
        What to call it.

    Returns
    -------
    Carried
        Without airload, rigging pull, or pins off line: of nothing but these forces.

    Raises
    ------
    SurfaceError
        Where the outline or two hinges are not known.
    """
    slack = replace(surface.controls.rigging_pull, si=None)
    surface = replace(surface, controls=replace(surface.controls, rigging_pull=slack))
    span = span_of(surface, also=[one.y for one in put])
    box = None if box_needs(surface) else box_at(surface, span)
    case = LoadCase("given", title, Source(Basis.AS_SAID, "a force put on to be followed"), "hands")
    given = _given(surface, span, put, case)
    loads, pull, side, couple = hold_torque(span.stations, beam_loads(given), given)
    ones = np.ones(span.y.size)
    stiffness = beam_stiffness(ones, ones) if box is None else stiffness_of(box)
    supports = supports_of(surface, span, [case], springs=box is not None, set_in=0.0)
    beam = solve(span.stations, loads, stiffness, supports, coupled=box is not None)
    simple = solve(span.stations, loads, stiffness, supports, coupled=False)
    nothing, never = np.zeros((1, span.y.size)), np.zeros(1, dtype=bool)
    held, points = _at_horn(surface, pull, side)
    horn_force = _with_put(held, points, put)
    effects = Effects(
        surface=surface,
        span=span,
        box=box,
        cases=(title,),
        control=never,
        evenly=~never,
        by_ribs=never,
        nose_open_too=False,
        inside=beam.inside,
        pulls=OverCases({"spar": nothing, "edge": nothing}),
        ribs=OverCases({"load": _on_ribs(span, put) + _of_horn(span, horn_force), "air": _on_ribs(span, put)}),
        reactions=beam.reactions,
        horn_force=horn_force,
        horn_points=points,
    )
    return Carried(surface, tuple(put), beam, simple, effects, held[0], given.holds[0], float(couple[0]))


def _given(surface: Surface, span: Span, put: Sequence[PutForce], case: LoadCase) -> CaseLoads:
    force, moment = np.zeros((1, span.breaks.size, 3)), np.zeros((1, span.breaks.size, 3))
    for one in put:
        b = int(np.argmin(np.abs(span.breaks - one.y)))
        force[0, b] += one.force
        moment[0, b] += point_force(one.force, one.x, one.z) + np.array(one.couple)
    line = horn_line(surface) if horn_needs(surface) is None else None
    hold = Hands(surface, line, span.breaks).hold(case, np.asarray(moment[0, :, 1].sum()))
    run, nothing = np.zeros((1, span.y.size)), np.zeros_like(force)
    units = UnitLoads(run, run, run, run, force, moment, np.zeros(1, dtype=np.bool_))
    return CaseLoads((case.name,), units, np.ones((1, 1)), nothing, nothing, (hold,))


def _at_horn(surface: Surface, pull: Array, side: Array) -> tuple[Array, Array]:
    """Force at each bolt of the horn, (1, P, 3), and the bolts (x, z), (P, 2)."""
    none = np.zeros((1, 0, 3)), np.zeros((0, 2))
    if horn_needs(surface) is not None:
        return none
    line = horn_line(surface)
    if line.driven_by is DrivenBy.TORQUE_TUBE:
        return none
    sides = (line.side,) if line.side else (1, -1)
    force = np.stack([np.where((side == s)[:, None], pull, 0.0) for s in sides], axis=1)
    return force, np.array([[float(line.x), s * float(line.off)] for s in sides])


def _with_put(held: Array, points: Array, put: Sequence[PutForce]) -> Array:
    """Add what is put on the bolts of the horn to what holds them."""
    out = held.copy()
    for one in put:
        if one.on_horn and len(points):
            out[0, int(np.argmin(np.hypot(points[:, 0] - one.x, points[:, 1] - one.z)))] += one.force
    return out


def _on_ribs(span: Span, put: Sequence[PutForce]) -> Array:
    """Sideways force that each rib brings, (1, R)."""
    out = np.zeros((1, len(span.ribs)))
    for one in put:
        if one.rib is not None:
            out[0, one.rib] += one.force[2]
    return out


def _of_horn(span: Span, horn_force: Array) -> Array:
    """Sideways force that the horn puts on its rib, (1, R)."""
    there = np.array([b == span.horn for b in span.ribs], dtype=np.float64)
    return np.asarray(horn_force[..., 2].sum(axis=-1)[:, None] * there)
