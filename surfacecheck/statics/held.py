"""The hinges of a surface as supports: what gives, what is off line, which takes the load along the pins."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.axes import side_by_side
from surfacecheck.model import DrivenBy, YesNo
from surfacecheck.provenance import in_a_row, numbers, over_spots
from surfacecheck.statics._loads import BeamLoads, point_force, total_torque
from surfacecheck.statics._supports import Supports

if TYPE_CHECKING:
    from collections.abc import Sequence

    from numpy.typing import NDArray

    from surfacecheck.loads import CaseLoads, Hold, LoadCase
    from surfacecheck.model import Hinge, Surface
    from surfacecheck.provenance import Value
    from surfacecheck.statics._grid import Grid
    from surfacecheck.statics.span import Span

    Array = NDArray[np.float64]

__all__ = ["beam_loads", "hold_torque", "hold_units", "off_line", "supports_of"]


def off_line(surface: Surface, span: Span) -> Array:
    """Give how far each pin was drilled off the line of the outer ones.

    Parameters
    ----------
    surface : Surface
        With its hinges.
    span : Span
        Their order.

    Returns
    -------
    ndarray, shape (..., H, 2)
        Along z and along x [m]; it is there with or without load, and does not grow with it.
    """
    hinges = [surface.hinges[name] for name in span.hinges]
    sideways = in_a_row([surface.left_is * _number(h.out_of_line) for h in hinges])
    return side_by_side(sideways, in_a_row([_number(h.out_of_line_aft) for h in hinges]))


def supports_of(
    surface: Surface, span: Span, cases: Sequence[LoadCase], springs: bool = True, set_in: Array | float = 1.0
) -> Supports:
    """Describe the hinges as supports.

    Parameters
    ----------
    surface : Surface
        With at least two hinges.
    span : Span
        Its stations.
    cases : sequence of LoadCase
        C of them; each says which share of the fin's bending is its own, and which hinge takes the load along.
    springs : bool
        False leaves out flexibility and displacements, for a beam whose stiffness is not known [-].
    set_in : array_like, shape (C,) or a number
        Share of the pins' being off line that is there in each case [-].

    Returns
    -------
    Supports
        Compliance lateral first [m/N], displacement (z, x) [m].
    """
    hinges = [surface.hinges[name] for name in span.hinges]
    names = list(span.hinges)
    thrust = np.array([names.index(c.thrust) if c.thrust in names else _along(surface, names) for c in cases])
    breaks = tuple(span.hinges.values())
    if not springs:
        return Supports(breaks, thrust=thrust)
    # typed for a load to the same side, so that its sign is the load's own, whichever way z points
    bends = in_a_row([np.asarray(0.0) if _fin_given(surface) else _number(h.fin_bends) for h in hinges])
    shift = off_line(surface, span)[..., None, :, :] * np.broadcast_to(set_in, (len(cases),))[:, None, None]
    moved = in_a_row([np.asarray(c.fin) for c in cases])[..., None] * bends[..., None, :]
    displacement = side_by_side(shift[..., 0] + moved, shift[..., 1] + 0.0 * moved)
    side = _lateral(surface, hinges, span.breaks[..., list(breaks)])
    fore = _diagonal([_number(h.gives_fore_aft) for h in hinges])
    n = len(hinges)
    compliance = np.zeros((*np.broadcast_shapes(side.shape[:-2], fore.shape[:-2]), 2 * n, 2 * n))
    compliance[..., :n, :n], compliance[..., n:, n:] = side, fore
    held: tuple[int, ...] = ()
    horn = surface.horn
    if horn is not None and horn.driven_by is DrivenBy.TORQUE_TUBE and span.horn is not None and span.horn in breaks:
        held = (span.horn,) if horn.turns_other_half is YesNo.YES else ()
    return Supports(
        breaks,
        compliance=compliance if compliance.any() else None,
        displacement=displacement if displacement.any() else None,
        thrust=thrust,
        slopes_held=held,
    )


def _number(value: Value) -> Array:
    return numbers(value) if value.known else np.asarray(0.0)


def _diagonal(values: list[Array]) -> Array:
    """Lay values on the diagonal of a matrix, (..., H, H)."""
    return in_a_row(values)[..., None] * np.eye(len(values))


def _along(surface: Surface, names: list[str]) -> int:
    """Give the hinge that takes a small load along the pins where no case says: the first with a thrust face."""
    return next((i for i, n in enumerate(names) if surface.hinges[n].takes_along is YesNo.YES), 0)


def _fin_given(surface: Surface) -> bool:
    """Whether the fin itself is described: it then replaces what each hinge says of it."""
    fin = surface.fin
    moves = fin.moves is not None and all(v.known for row in fin.moves for v in row)
    return moves or (fin.bending_stiffness.known and not fin.bending_stiffness.absent)


def _lateral(surface: Surface, hinges: list[Hinge], up: Array) -> Array:
    """Sideways flexibility: the fin's matrix, or a fin with its bending stiffness, or a spring at each hinge."""
    fin = surface.fin
    if fin.moves is not None and all(v.known for row in fin.moves for v in row):
        return side_by_side(*(in_a_row([_number(v) for v in row]) for row in fin.moves), axis=-2)
    if fin.bending_stiffness.known and not fin.bending_stiffness.absent:
        one, other = up[..., :, None], up[..., None, :]
        low, high = np.maximum(np.minimum(one, other), 0.0), np.maximum(np.maximum(one, other), 0.0)
        return np.asarray(low**2 * (3.0 * high - low) / (6.0 * over_spots(fin.bending_stiffness)))
    return _diagonal([_number(h.gives_sideways) for h in hinges])


def beam_loads(loads: CaseLoads) -> BeamLoads:
    """Take over the loads of all cases.

    Parameters
    ----------
    loads : CaseLoads
        As put on the stations.

    Returns
    -------
    BeamLoads
        For the solver [N/m], [N m/m], [N], [N m].
    """
    return BeamLoads(loads.x, loads.y, loads.z, loads.torque, loads.moment_x, loads.moment_z, loads.force, loads.moment)


def hold_torque(stations: Grid, loads: BeamLoads, given: CaseLoads) -> tuple[BeamLoads, Array, Array, Array]:
    """Close the torque of every case by what holds it: a cable or rod, a stop, a couple, or nothing.

    Parameters
    ----------
    stations : Grid
        Points and breaks.
    loads : BeamLoads
        C cases.
    given : CaseLoads
        Says what holds each case.

    Returns
    -------
    loads : BeamLoads
        With the holding forces.
    force : ndarray, shape (..., C, 3)
        Holding force on the surface [N]; zero where a couple holds.
    side : ndarray, shape (..., C)
        Side of the horn it acts on, +1 or -1 towards +z; 0 where it is not the horn [-].
    couple : ndarray, shape (..., C)
        Holding couple about +y [N m].
    """
    force, moment, side, couple, at = _holding(given.holds, total_torque(stations, loads))
    for b in np.unique(at):
        here = (at == b)[:, None]
        loads = loads.plus(int(b), np.where(here, force, 0.0), np.where(here, moment, 0.0))
    return loads, force, side, couple


def hold_units(stations: Grid, given: CaseLoads) -> tuple[BeamLoads, Array, Array, Array]:
    """Close the torque of cases that are made up of unit loads, as :func:`hold_torque` does.

    Parameters
    ----------
    stations : Grid
        Points and breaks.
    given : CaseLoads
        Unit loads, how much of each goes into every case, and what holds it.

    Returns
    -------
    units : BeamLoads
        The unit loads, and a force and a moment along each axis at every break that holds [N], [N m].
    mix : ndarray, shape (..., C, K)
        How much of each goes into every case [-].
    force : ndarray, shape (..., C, 3)
        Holding force on the surface [N].
    side : ndarray, shape (..., C)
        Side of the horn it acts on, as in :func:`hold_torque` [-].
    """
    u = given.units
    nought = np.broadcast_to(np.float64(0.0), u.z.shape)
    units = BeamLoads(nought, u.y, u.z, u.torque, nought, u.moment_z, u.force, u.moment)
    torque = (given.mix * total_torque(stations, units)[..., None, :]).sum(axis=-1)
    force, moment, side, _, at = _holding(given.holds, torque)
    both = np.concatenate([force, moment], axis=-1)
    places = np.unique(at)
    holding = [np.where((at == b)[:, None], both, 0.0) for b in places]
    lead = np.broadcast_shapes(given.mix.shape[:-2], both.shape[:-2])
    parts = [np.broadcast_to(part, (*lead, *part.shape[-2:])) for part in (given.mix, *holding)]
    return _with_holds(units, places), np.concatenate(parts, axis=-1), force, side


def _with_holds(units: BeamLoads, places: NDArray[np.intp]) -> BeamLoads:
    """Add a force, then a moment, of one along each axis at some breaks."""
    jumps = np.zeros((6 * len(places), units.force.shape[-2], 6))
    for i, b in enumerate(places):
        jumps[6 * i : 6 * i + 6, b] = np.eye(6)

    def more(run: Array) -> Array:
        return np.concatenate([run, np.zeros((*run.shape[:-2], len(jumps), run.shape[-1]))], axis=-2)

    def also(jump: Array, part: Array) -> Array:
        return np.concatenate([jump, np.broadcast_to(part, (*jump.shape[:-3], *part.shape))], axis=-3)

    runs = {name: more(getattr(units, name)) for name in ("x", "y", "z", "torque", "moment_x", "moment_z")}
    return BeamLoads(**runs, force=also(units.force, jumps[..., :3]), moment=also(units.moment, jumps[..., 3:]))


def _holding(holds: Sequence[Hold], torque: Array) -> tuple[Array, Array, Array, Array, NDArray[np.intp]]:
    """Force, moment, side, couple, and break of what holds the torque of each case."""
    at = np.array([max(hold.at_break, 0) for hold in holds], dtype=np.intp)
    line = np.array([hold.how == "line" for hold in holds])
    x, z = (in_a_row([getattr(hold, axis) for hold in holds]) for axis in ("x", "z"))
    given_ways = [np.asarray(hold.direction, dtype=np.float64) for hold in holds]
    direction = side_by_side(*given_ways, axis=-2)
    arm = point_force(direction, x, z)
    pull = np.where(line, -torque / np.where(line, arm[..., 1], 1.0), 0.0)
    force, moment = pull[..., None] * direction, pull[..., None] * arm
    side = np.where(line, np.sign(z), 0.0)
    couple = np.where([hold.how in {"couple", "not given"} for hold in holds], -torque, 0.0)
    cases = np.broadcast_shapes(moment.shape[:-1], couple.shape)  # a stop's arm may vary where the torque does not
    moment = np.array(np.broadcast_to(moment, (*cases, 3)))
    moment[..., 1] += couple
    return force, moment, side, couple, at
