"""What the load does at every station: the arrays that all checks read."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from functools import cached_property
from typing import TYPE_CHECKING, Any

import numpy as np

from surfacecheck.checks._names import Names, pretty_place, station_names
from surfacecheck.provenance import Basis, Source
from surfacecheck.sections import WallFlow, flow, flow_size
from surfacecheck.sections.box import wall_flow

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from numpy.typing import NDArray

    from surfacecheck.model import Surface
    from surfacecheck.sections import Section
    from surfacecheck.sections.box import Box
    from surfacecheck.statics.span import Span

    Array = NDArray[np.float64]

__all__ = ["PRACTICE", "Effects", "pretty_place"]

PRACTICE = Source(Basis.COMMON_PRACTICE)


@dataclass(frozen=True, eq=False)
class Effects:
    """Limit-load effects of one surface.

    C is the case axis: each load case once spread evenly and, where asked, once through the ribs; and each with the
    nose closed and open where there is a nose. S stations, W walls, H hinges.

    Attributes
    ----------
    surface, span, box
        What it was worked from; ``box`` None where sections cannot be worked.
    cases : tuple of str
        Names, C of them.
    control : ndarray of bool, shape (C,)
        Cases read only for the control system and the hinges.
    by_ribs : ndarray of bool, shape (C,)
        Cases in which the load comes to the spar through the ribs.
    rear_alone : ndarray of bool, shape (C,)
        Cases worked a second time with the nose open everywhere.
    V_x, V_z, N, M_x, M_z, T_0 : ndarray, shape (..., C, S)
        Sums at larger y, moments about the hinge line [N], [N m].
    spar_pull, edge_pull : ndarray, shape (..., C, S)
        Pull of the pressure on the rows along the spar and along the trailing edge, all of it on one skin [N/m].
    panel_load : ndarray, shape (..., C, S)
        Running air load [N/m].
    reactions : ndarray, shape (..., C, H, 3)
        Force of each hinge on the surface [N].
    horn_force : ndarray, shape (..., C, P, 3)
        Forces at the horn's attachment points [N].
    horn_points : ndarray, shape (..., P, 2)
        (x, z) of these points [m].
    rib_load : ndarray, shape (..., C, R)
        Air load that each rib collects [N].
    found : dict of str to ndarray
        What was worked out of these already, see :meth:`once`.
    among : tuple, or None
        The effects these are some cases of, and which.
    """

    surface: Surface
    span: Span
    box: Box | None
    cases: tuple[str, ...]
    control: NDArray[np.bool_]
    by_ribs: NDArray[np.bool_]
    rear_alone: NDArray[np.bool_]
    V_x: Array
    V_z: Array
    N: Array
    M_x: Array
    M_z: Array
    T_0: Array
    spar_pull: Array
    edge_pull: Array
    panel_load: Array
    reactions: Array
    horn_force: Array
    horn_points: Array
    rib_load: Array
    found: dict[str, Array] = field(default_factory=dict, repr=False)
    among: tuple[Effects, slice | NDArray[np.intp]] | None = field(default=None, repr=False)

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
        arrays = {name: getattr(self, name)[_cases(at, after)] for name, after in _OVER_CASES.items()}
        names = tuple(name for name, stays in zip(self.cases, keep, strict=True) if stays)
        return replace(self, cases=names, found={}, among=(self, at), **arrays)

    @cached_property
    def whole(self) -> Effects:
        """Cases that are read for the whole surface: all but those for the control system."""
        return self.only(~self.control)

    @cached_property
    def handed_over(self) -> Effects:
        """Cases in which the load comes to the spar through the ribs; all of them where none does."""
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
    def shut(self) -> Effects:
        """Cases with the nose as it is, each once: direct stress and reactions do not ask whether it closes a cell."""
        return self.only(~self.rear_alone)

    def twice(self, array: Array) -> Array:
        """Give what :attr:`shut` has over its cases, (..., C', X), over all cases here."""
        return array if len(self.shut.cases) == len(self.cases) else np.concatenate([array, array], axis=-2)

    def mean(self, wall: str) -> Array:
        """Flow of a wall in shear only [N/m], shape (..., C, S)."""
        return self.once(f"flow of {wall}", lambda: self._flow(wall).mean)

    def size(self, wall: str) -> Array:
        """Greatest flow along a wall, whichever way it goes [N/m], shape (..., C, S)."""
        return self.once(f"size of {wall}", lambda: flow_size(self._flow(wall)))

    def mean_at(self, wall: str, stations: list[int]) -> Array:
        """Flow of a wall in shear only, at some stations [N/m], shape (..., C, N)."""
        return self._flow(wall, stations).mean

    @cached_property
    def flow(self) -> WallFlow | None:
        """Shear flow of every wall, each part of shape (..., C, S, W) [N/m]; None where sections cannot be worked.

        The checks ask for a wall at a time, and only for some.
        """
        if self.box is None:
            return None
        found = [
            flow(section, *(load.swapaxes(-1, -2) for load in loads), about=(0.0, 0.0))
            for section, *loads in self._by_state(self.box)
        ]
        return WallFlow(*(np.concatenate(part, axis=-2).swapaxes(-2, -3) for part in zip(*found, strict=True)))

    def _flow(self, name: str, stations: list[int] | None = None) -> WallFlow:
        """Work the flow of one wall, (..., C, S), or at some stations alone."""
        assert self.box is not None  # noqa: S101 - callers ask for flows only where there are sections
        wall = self.box.wall(name)
        found = [wall_flow(one, wall, V_x, V_z, T_0, stations) for one, V_x, V_z, T_0 in self._by_state(self.box)]
        return WallFlow(*(np.concatenate(part, axis=-2) for part in zip(*found, strict=True)))

    def _by_state(self, box: Box) -> Iterator[tuple[Section, Array, Array, Array]]:
        """Give the sections of each state of the nose, with the loads of its cases; those with it closed come first."""
        closed = int(np.count_nonzero(~self.rear_alone))
        for section, at in ((box.closed, slice(closed)), (box.rear_alone, slice(closed, None))):
            if section is not None:
                yield section, self.V_x[..., at, :], self.V_z[..., at, :], self.T_0[..., at, :]

    @cached_property
    def places(self) -> Names:
        """Names of the stations."""
        return self.among[0].places if self.among is not None else station_names(self.span.y)


def _cases(at: slice | NDArray[np.intp], after: int = 1) -> tuple[Any, ...]:
    """Index of some cases in something with so many axes after the one of the cases."""
    return (..., at, *(slice(None),) * after)


_OVER_CASES = {
    "control": 0,
    "by_ribs": 0,
    "rear_alone": 0,
    "V_x": 1,
    "V_z": 1,
    "N": 1,
    "M_x": 1,
    "M_z": 1,
    "T_0": 1,
    "spar_pull": 1,
    "edge_pull": 1,
    "panel_load": 1,
    "reactions": 2,
    "horn_force": 2,
    "rib_load": 1,
}
"""What has a case axis, and how many axes stand after it."""
