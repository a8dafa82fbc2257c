"""A beam on hinges in two planes, by the force method: unknowns are the moments at the inner hinges.

Signs: y along the hinge line from root to tip, x aft, z = x cross y; the pins are at x = z = 0. Internal loads at y
are sums of all external loads at larger y, moments right-handed about axes through the hinge line; reactions are
forces on the surface. Inside, both planes are alike: plane 0 pairs V_z with M_x, plane 1 pairs V_x with -M_z.

References
----------
Timoshenko, S.: Strength of Materials, part I, chapter on statically indeterminate beams (force method, three moments).
Megson, T. H. G.: Aircraft Structures for Engineering Students, chapter 5 (total complementary energy, flexibility).
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np

from surfacecheck.axes import OverCases, side_by_side
from surfacecheck.errors import SurfaceError
from surfacecheck.statics._balance import Balance, balance
from surfacecheck.statics._grid import Array, Grid, rows_times
from surfacecheck.statics._inside import INSIDE, InternalLoads
from surfacecheck.statics._loads import BeamLoads
from surfacecheck.statics._redundants import Units, redundants, unit_functions
from surfacecheck.statics._supports import BeamStiffness, Plan, Supports, check_stiffness, check_supports, plan

__all__ = ["Beam", "solve", "solve_each"]


@dataclass(frozen=True, eq=False)
class Beam(InternalLoads):
    """A solved beam.

    Attributes
    ----------
    inside : OverCases
        Loads inside: sums of forces, and of moments about axes through the hinge line, at larger y [N], [N m].
    reactions : ndarray, shape (..., C, H, 3)
        Force of each hinge on the surface (x, y, z) [N].
    couples : ndarray, shape (..., C, K, 2)
        Couple (M_x, M_z) on the surface at each of the K ends that hold slope [N m].
    stations, stiffness, supports, coupled
        What it was solved from.
    given : BeamLoads
        The loads, or unit loads of which every case is made up.
    mix : ndarray, shape (..., C, K), or None
        How much of each unit load goes into every case [-]; None where the loads are the cases'.
    """

    reactions: Array
    couples: Array
    stations: Grid
    given: BeamLoads
    stiffness: BeamStiffness
    supports: Supports
    coupled: bool
    mix: Array | None = None

    def first(self, cases: int) -> Beam:
        """Keep the first so many cases, of a beam whose cases are made up of unit loads."""
        assert self.mix is not None  # noqa: S101 - callers have put unit loads on
        held, at = self.supports, slice(cases)
        return replace(
            self,
            inside=self.inside.only(at),
            reactions=self.reactions[..., at, :, :],
            couples=self.couples[..., at, :, :],
            supports=replace(
                held,
                displacement=None if held.displacement is None else held.displacement[..., at, :, :],
                thrust=None if held.thrust is None else held.thrust[at],
            ),
            mix=self.mix[..., at, :],
        )

    @cached_property
    def loads(self) -> BeamLoads:
        """External loads of every case, hinges apart."""
        return self.given if self.mix is None else self.given.mixed(self.mix)


def solve(stations: Grid, loads: BeamLoads, stiffness: BeamStiffness, supports: Supports, coupled: bool) -> Beam:
    """Share the load between the hinges and find the internal loads everywhere.

    ``F m = sum_h R_h (d_h - c R_h0) - integral (kappa_0 m_i + gamma_0 v_i + T_0' t_i) dy``: of all states in balance
    with the load, that with the least complementary energy.

    Parameters
    ----------
    stations : Grid
        Points and breaks.
    loads : BeamLoads
        Everything but the hinges; its total torque must be zero (:func:`close_with_rod`).
    stiffness : BeamStiffness
        Section at the points.
    supports : Supports
        Hinges.
    coupled : bool
        False: bending alone, planes apart (a product of inertia is kept). True: with shear flexibility and with the
        twist that comes of a hinge line off the shear centre.

    Returns
    -------
    Beam
        Reactions and internal loads. A stack of variants gives bit for bit what single runs give.

    Raises
    ------
    SurfaceError
        If the beam is a mechanism, a property is out of its range, the torque is not closed, or a value is missing.

    Examples
    --------
    A beam on three hinges under 1 N/m: 3/8, 10/8, 3/8 of the load on a span.

    >>> from surfacecheck.statics import Supports, beam_stiffness, grid, unloaded
    >>> stations = grid([0.0, 1.0, 2.0], cells=1)
    >>> beam = solve(stations, unloaded(stations, z=1.0), beam_stiffness(1.0, 1.0), Supports((0, 1, 2)), coupled=False)
    >>> beam.reactions[0, :, 2]
    array([-0.375, -1.25 , -0.375])
    """
    return solve_each(stations, loads, stiffness, supports, (coupled,))[0]


def solve_each(
    stations: Grid,
    loads: BeamLoads,
    stiffness: BeamStiffness,
    supports: Supports,
    coupled: tuple[bool, ...],
    *,
    closed: bool = True,
) -> tuple[Beam, ...]:
    """Solve the same beam in several idealisations; the balance with the load is worked once.

    Parameters
    ----------
    stations, loads, stiffness, supports
        As :func:`solve` takes them.
    coupled : tuple of bool
        One for each idealisation, as :func:`solve` takes it.
    closed : bool
        Whether the torque of each case must be held; unit loads need not be [-].

    Returns
    -------
    tuple of Beam
        Bit for bit what :func:`solve` gives for each.

    Raises
    ------
    SurfaceError
        As :func:`solve` does.
    """
    layout = plan(stations.cells, supports.hinges, supports.slopes_held)
    for one in coupled:
        check_stiffness(stiffness, one)
    check_supports(supports, loads.z.shape[-2])
    free = balance(stations, loads, supports, layout, closed=closed)
    units = unit_functions(layout, free) if layout.at_start.shape[0] else None
    return tuple(_closed(stations, loads, stiffness, supports, layout, free, units, one) for one in coupled)


def _closed(
    stations: Grid,
    loads: BeamLoads,
    stiffness: BeamStiffness,
    supports: Supports,
    layout: Plan,
    free: Balance,
    units: Units | None,
    coupled: bool,
) -> Beam:
    """Add the redundant moments, if there are any, to the balance."""
    V_run, starts, ends, M, V = free.V_run, free.starts, free.ends, free.M, free.V
    if units is not None:
        m = redundants(stations, stiffness, supports, layout, free, units, coupled)
        extra = rows_times(m, units.shears)
        V_run, V = V_run + extra, V + np.take(extra, layout.run, axis=-1)
        M = M + rows_times(m, units.hats)
        starts, ends = starts + rows_times(m, layout.at_start), ends + rows_times(m, layout.at_end)
    side = V_run[..., :-1] - V_run[..., 1:]
    reactions = side_by_side(side[..., 1, :, :], free.thrust, side[..., 0, :, :])
    held = list(layout.held)
    jump = np.moveaxis(ends[..., :-1][..., held] - starts[..., 1:][..., held], -3, -1) * (1.0, -1.0)
    shear, moment = (V[..., 1, :, :], V[..., 0, :, :]), (M[..., 0, :, :], 0.0 - M[..., 1, :, :])
    found = Beam(
        inside=OverCases(dict(zip(INSIDE, (*shear, free.N, *moment, free.T), strict=True))),
        reactions=reactions,
        couples=jump,
        stations=stations,
        given=loads,
        stiffness=stiffness,
        supports=supports,
        coupled=coupled,
    )
    if not (np.isfinite(reactions).all() and np.isfinite(M).all() and np.isfinite(free.T).all()):
        message = _missing(stations, loads, stiffness, supports)
        raise SurfaceError(message)
    return found


def _missing(*groups: Grid | BeamLoads | BeamStiffness | Supports) -> str:
    for group in groups:
        for name in group.__dataclass_fields__:
            value = getattr(group, name)
            if isinstance(value, np.ndarray) and not np.isfinite(value).all():
                return f"{type(group).__name__}.{name} has a value that is not a finite number: give every value"
    return "a value is not a finite number, or so large that the sums overflow: check loads and stiffness"
