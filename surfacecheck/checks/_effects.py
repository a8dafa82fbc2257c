"""What the load does at every station: the arrays that all checks read."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from functools import cached_property
from typing import TYPE_CHECKING, Any, TypeAlias

import numpy as np

from surfacecheck.axes import OverCases, by_case, variant_of
from surfacecheck.checks._names import Names, pretty_place, station_names
from surfacecheck.provenance import Basis, Source
from surfacecheck.sections import WallFlow, flow, flow_spread
from surfacecheck.sections.box import about_shear_centre, wall_bend, wall_mean
from surfacecheck.statics import InternalLoads

if TYPE_CHECKING:
    from collections.abc import Callable

    from numpy.typing import NDArray

    from surfacecheck.model import Surface
    from surfacecheck.sections import Section
    from surfacecheck.sections.box import Box
    from surfacecheck.statics.span import Span

    Array = NDArray[np.float64]
    Stations: TypeAlias = slice | list[int] | NDArray[np.intp]

__all__ = ["NOSE_OPEN", "PRACTICE", "Effects", "pretty_place"]

PRACTICE = Source(Basis.COMMON_PRACTICE)

NOSE_OPEN = ", nose taken as open"

NO_CELL = 1.0e-6
"""Share of the torque that cells take below which there is no cell: far above what the numbers leave to an open nose,
far below any cell of sheet."""


@dataclass(frozen=True, eq=False)
class Effects(InternalLoads):
    """Limit-load effects of one surface.

    C is the case axis: each load case once spread evenly and, if it has an airload and that is asked, once through the
    ribs. Shear flows, and what is read from them, have F cases: all of C with the nose as it is, then, where
    ``nose_open_too``, all of C with the nose open everywhere. S stations, W walls, H hinges.

    Attributes
    ----------
    surface, span, box
        What it was worked from; ``box`` None where sections cannot be worked.
    cases : tuple of str
        Names, C of them.
    control : ndarray of bool, shape (C,)
        Cases read only for the control system and the hinges.
    evenly, by_ribs : ndarray of bool, shape (C,)
        Cases that are read where the airload comes to the spar evenly, or through the ribs; both where there is none.
    nose_open_too : bool
        Whether every flow is worked a second time with the nose open everywhere.
    inside : OverCases
        Loads inside the beam: ``V_x``, ``V_z``, ``N``, ``M_x``, ``M_z``, ``T_0``, each of shape (..., C, S) [N], [N m].
    pulls : OverCases
        What the pressure does at the rows along the spar and along the trailing edge, see :attr:`spar_pull` [N/m].
    ribs : OverCases
        What pushes each rib sideways, see :attr:`rib_load` and :attr:`rib_air` [N].
    reactions : ndarray, shape (..., C, H, 3)
        Force of each hinge on the surface [N].
    horn_force : ndarray, shape (..., C, P, 3)
        Forces at the horn's attachment points [N].
    horn_points : ndarray, shape (..., P, 2)
        (x, z) of these points [m].
    found : dict of str to ndarray
        What was worked out of these already, see :meth:`once`.
    """

    surface: Surface
    span: Span
    box: Box | None
    cases: tuple[str, ...]
    control: NDArray[np.bool_]
    evenly: NDArray[np.bool_]
    by_ribs: NDArray[np.bool_]
    nose_open_too: bool
    pulls: OverCases
    ribs: OverCases
    reactions: Array
    horn_force: Array
    horn_points: Array
    found: dict[str, Array] = field(default_factory=dict, repr=False)

    def only(self, keep: NDArray[np.bool_]) -> Effects:
        """Keep some of the cases.

        Parameters
        ----------
        keep : ndarray of bool, shape (C,)
            Cases to keep [-].

        Returns
        -------
        Effects
            The same with fewer cases.
        """
        if keep.all():
            return self
        first, last = int(np.argmax(keep)), keep.size - int(np.argmax(keep[::-1]))
        at = slice(first, last) if keep[first:last].all() else np.flatnonzero(keep)
        taken: dict[str, Any] = {name: getattr(self, name).only(at) for name in _SUMMED}
        taken |= {name: _taken(getattr(self, name), at, after) for name, after in _OVER_CASES.items()}
        names = tuple(name for name, stays in zip(self.cases, keep, strict=True) if stays)
        return replace(self, cases=names, found={}, **taken)

    def of(self, variant: int, surface: Surface, span: Span, box: Box | None) -> Effects:
        """Take one variant out of a stack.

        Parameters
        ----------
        variant : int
            Which [-].
        surface : Surface
            That variant.
        span : Span
            Its stations [m].
        box : Box or None
            Its sections.

        Returns
        -------
        Effects
            Bit for bit those the variant has alone.
        """
        axes = {name: 1 + after for name, after in _OVER_CASES.items()} | {"horn_points": 2}
        taken: dict[str, Any] = {name: variant_of(getattr(self, name), variant, count) for name, count in axes.items()}
        taken |= {name: getattr(self, name).of(variant) for name in _SUMMED}
        return replace(self, surface=surface, span=span, box=box, found={}, **taken)

    @property
    def spar_pull(self) -> Array:
        """Pull of the pressure on the rows along the spar, all of it on one skin [N/m], shape (..., C, S)."""
        return np.abs(self.pulls["spar"])

    @property
    def edge_pull(self) -> Array:
        """Pull of the pressure on the row along the trailing edge, all of it on one skin [N/m], shape (..., C, S)."""
        return np.abs(self.pulls["edge"])

    @property
    def rib_load(self) -> Array:
        """All that pushes each rib sideways, horn and weights too, but not its web and skins [N], shape (..., C, R)."""
        return self.ribs["load"]

    @property
    def rib_air(self) -> Array:
        """Air load that each rib collects from the panels beside it [N], shape (..., C, R)."""
        return self.ribs["air"]

    @cached_property
    def whole(self) -> Effects:
        """Cases that are read for the whole surface: all but those for the control system."""
        return self.only(~self.control)

    @cached_property
    def handed_over(self) -> Effects:
        """Cases that are read where the load comes to the spar through the ribs; all of them where none does."""
        return self.only(self.by_ribs) if self.by_ribs.any() else self

    def once(self, name: str, work: Callable[[], Array]) -> Array:
        """Work something out when it is first asked for.

        Parameters
        ----------
        name : str
            What to call it.
        work : callable
            Gives it [any].

        Returns
        -------
        ndarray
            What ``work`` gave.
        """
        if name not in self.found:
            self.found[name] = work()
        return self.found[name]

    @cached_property
    def largest(self) -> Array:
        """Largest force at a pin or the horn in each case of the flows [N], shape (..., F, 1)."""
        forces = (np.abs(one).max(axis=(-1, -2), initial=0.0) for one in (self.reactions, self.horn_force))
        return self.twice(np.maximum(*forces)[..., None])

    @cached_property
    def flow_cases(self) -> tuple[str, ...]:
        """Names of the cases that flows have, F of them."""
        return (*self.cases, *(name + NOSE_OPEN for name in self.cases)) if self.nose_open_too else self.cases

    def twice(self, array: NDArray[Any], axis: int = -2) -> NDArray[Any]:
        """Give what has the case axis C there over the F cases of flows."""
        return np.concatenate([array, array], axis=axis) if self.nose_open_too else array

    def mean(self, wall: str) -> Array:
        """Flow of a wall in shear only [N/m], shape (..., F, S)."""
        return self.once(f"flow of {wall}", lambda: self._mean(wall, slice(None)))

    def size(self, wall: str) -> Array:
        """Greatest flow along a wall, whichever way it goes [N/m], shape (..., F, S)."""
        return self.once(f"size of {wall}", lambda: self.size_at(wall, slice(None)))

    def mean_at(self, wall: str, stations: list[int]) -> Array:
        """Flow of a wall in shear only, at some stations [N/m], shape (..., F, N)."""
        return self._mean(wall, stations)

    def size_at(self, wall: str, stations: Stations) -> Array:
        """Greatest flow along a wall at some stations [N/m], shape (..., F, N)."""
        box = self._known_box
        V_x, V_z = self.V_x[..., stations], self.V_z[..., stations]
        least, most = flow_spread(*wall_bend(box.closed, box.wall(wall), V_x, V_z, stations))
        mean = self._mean(wall, stations)
        return np.asarray(np.maximum(mean + self.twice(most), -(mean + self.twice(least))))

    @cached_property
    def flow(self) -> WallFlow | None:
        """Shear flow of every wall, each part of shape (..., F, S, W) [N/m]; None where sections cannot be worked.

        The checks ask for a wall at a time, and only for some.
        """
        if self.box is None:
            return None
        loads = [load.swapaxes(-1, -2) for load in (self.V_x, self.V_z, self.T_0)]
        found = [flow(section, *loads, about=(0.0, 0.0)) for section in self._states]
        return WallFlow(*(np.concatenate(part, axis=-2).swapaxes(-2, -3) for part in zip(*found, strict=True)))

    @property
    def _known_box(self) -> Box:
        assert self.box is not None  # noqa: S101 - callers ask for flows only where there are sections
        return self.box

    @property
    def _states(self) -> tuple[Section, ...]:
        """Sections with the nose as it is, and with it open everywhere."""
        box = self._known_box
        return (box.closed, box.rear_alone) if self.nose_open_too and box.rear_alone is not None else (box.closed,)

    def _mean(self, name: str, stations: Stations) -> Array:
        """Work the mean flow of one wall at some stations, (..., F, N)."""
        wall = self._known_box.wall(name)
        V_x, V_z = self.V_x[..., stations], self.V_z[..., stations]
        found = [
            wall_mean(section, wall, V_x, V_z, self._torque(at)[..., stations], stations)
            for at, section in enumerate(self._states)
        ]
        return found[0] if len(found) == 1 else np.concatenate(found, axis=-2)

    def _torque(self, state: int) -> Array:
        """Torque about the shear centre of one state of the nose [N m], (..., C, S)."""
        section = self._states[state]
        return self.once(f"torque {state}", lambda: about_shear_centre(section, self.V_x, self.V_z, self.T_0))

    @cached_property
    def open_twist(self) -> tuple[Array, Array]:
        """What sections without a cell take by their walls' own twisting, each of shape (..., F, S).

        Torque about the shear centre [N m], none where a cell takes it, and torsion constant at the G of the spar
        [m^4].
        """
        parts = []
        for at, section in enumerate(self._states):
            none = by_case(section.J_cells <= NO_CELL * section.J)
            parts.append(np.broadcast_arrays(np.where(none, self._torque(at), 0.0), by_case(section.J)))
        torque, constant = (np.concatenate(one, axis=-2) for one in zip(*parts, strict=True))
        return torque, constant

    @cached_property
    def places(self) -> Names:
        """Names of the stations."""
        return station_names(self.span.y)


def _taken(array: NDArray[Any], at: slice | NDArray[np.intp], after: int) -> NDArray[Any]:
    """Take some cases of something with so many axes after theirs; laid out in memory as all that is worked of it."""
    if isinstance(at, slice):
        index: Any = (..., at, *(slice(None),) * after)
        return np.asarray(array[index])
    return np.take(array, at, axis=array.ndim - 1 - after)


_OVER_CASES = {
    "control": 0,
    "evenly": 0,
    "by_ribs": 0,
    "reactions": 2,
    "horn_force": 2,
}
"""What has a case axis, and how many axes stand after it."""
_SUMMED = ("inside", "pulls", "ribs")
"""What is summed over unit loads when a case is asked for."""
