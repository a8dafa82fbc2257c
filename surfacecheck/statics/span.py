"""The named places along a surface, and the stations laid between them."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.errors import SurfaceError
from surfacecheck.provenance import plain
from surfacecheck.statics._grid import Array, Grid, grid

if TYPE_CHECKING:
    from collections.abc import Sequence

    from numpy.typing import NDArray

    from surfacecheck.model import Surface
    from surfacecheck.provenance import Value

__all__ = ["SAME_PLACE", "Span", "span_of"]

SAME_PLACE = 1.0e-6
"""Places nearer to each other than this count as one [m]: a thousandth of a millimetre, below any measurement."""

CELLS_A_SPAN = 12
"""Cells of equal length that the span would have without breaks; every bay gets its share, so that what a peak between
two stations exceeds them by stays under half a per cent."""


@dataclass(frozen=True, eq=False)
class Span:
    """Breaks of a surface by name, and the stations between them.

    Attributes
    ----------
    stations : Grid
        Points between the breaks.
    hinges : dict of str to int
        Break of each hinge, from root to tip.
    ribs : tuple of int
        Break of each rib, in the order of the file.
    horn, stop, balance : int or None
        Break of the horn, of a stop on the surface, of a balance mass.
    root, tip : int
        Breaks of the first and the last station of the outline (a horn may stand below the root).
    nose_closed : ndarray of bool, shape (S,)
        Points where the nose skin closes a cell: away from the openings at the hinges.
    """

    stations: Grid
    hinges: dict[str, int]
    ribs: tuple[int, ...]
    horn: int | None
    stop: int | None
    balance: int | None
    root: int
    tip: int
    nose_closed: NDArray[np.bool_]

    @property
    def y(self) -> Array:
        """Points along the hinge line [m], shape (S,)."""
        return self.stations.y

    @property
    def breaks(self) -> Array:
        """Breaks along the hinge line [m], shape (B,)."""
        return self.stations.breaks

    @property
    def bay(self) -> NDArray[np.intp]:
        """Bay of every point, shape (S,)."""
        return np.repeat(np.arange(len(self.stations.cells)), [4 * n for n in self.stations.cells])

    def between(self, start: float, end: float) -> NDArray[np.bool_]:
        """Tell which points lie in bays between two places.

        Parameters
        ----------
        start, end : float
            Places along the hinge line [m].

        Returns
        -------
        ndarray of bool, shape (S,)
            True for the points of every bay whose middle lies between the two [-].
        """
        middle = 0.5 * (self.breaks[self.bay] + self.breaks[self.bay + 1])
        return (middle > start) & (middle < end)


def span_of(surface: Surface, also: Sequence[float] = ()) -> Span:
    """Lay stations along a surface, with a break at everything that jumps.

    Parameters
    ----------
    surface : Surface
        At least its outline and two hinges must be known.
    also : sequence of float
        Further places for a break [m].

    Returns
    -------
    Span
        Breaks at outline places, hinges, ribs, horn, stop, balance mass, doubler ends and nose openings [m].

    Raises
    ------
    SurfaceError
        Where the outline or two hinges are not known.
    """
    places = [plain(p.up) for p in surface.outline.places if p.up.known]
    if len(places) < 2:
        message = 'outline.at: two places at least are needed, root and tip; give each "up" with its unit'
        raise SurfaceError(message)
    hinges = {name: plain(h.up) for name, h in surface.hinges.items() if h.up.known}
    if len(hinges) < 2:
        message = f'hinge: {len(hinges)} hinge with a known place; two at least are needed, give "up" of each'
        raise SurfaceError(message)
    root, tip = places[0], places[-1]
    horn = None if surface.horn is None else _known(surface.horn.up)
    stop = None if surface.controls.stop is None else _known(surface.controls.stop.up)
    balance = _known(surface.balance_mass.up) if surface.balance_mass.mass.known else None
    ribs = [plain(up) for up in surface.sheet.ribs.up if up.known]
    at = [*places, *hinges.values(), *ribs, *also, *_doubler_ends(surface, root, tip)]
    at += [place for place in (horn, stop, balance) if place is not None]
    openings = _openings(surface, root, tip)
    at += [end for opening in openings for end in opening]
    breaks = _merged(at)
    where = {place: int(np.argmin(np.abs(breaks - place))) for place in at}
    share = CELLS_A_SPAN * np.diff(breaks) / (breaks[-1] - breaks[0])
    stations = grid(breaks, tuple(int(n) for n in np.maximum(np.ceil(share - SAME_PLACE), 1.0)))
    span = Span(
        stations=stations,
        hinges={name: where[up] for name, up in hinges.items()},
        ribs=tuple(where[up] for up in ribs),
        horn=None if horn is None else where[horn],
        stop=None if stop is None else where[stop],
        balance=None if balance is None else where[balance],
        root=where[root],
        tip=where[tip],
        nose_closed=np.ones(stations.points, dtype=bool),
    )
    closed = span.between(root, tip)
    for start, end in openings:
        closed &= ~span.between(start, end)
    object.__setattr__(span, "nose_closed", closed)
    return span


def _known(value: Value) -> float | None:
    return plain(value) if value.known else None


def _merged(places: list[float]) -> Array:
    ordered = np.sort(np.asarray(places, dtype=np.float64))
    keep = np.concatenate([[True], np.diff(ordered) > SAME_PLACE])
    return np.asarray(ordered[keep])


def _doubler_ends(surface: Surface, root: float, tip: float) -> list[float]:
    ends = [end for doubler in surface.sheet.doublers.values() for end in (doubler.start, doubler.to)]
    return [plain(end) for end in ends if end.known and root < plain(end) < tip]


def _openings(surface: Surface, root: float, tip: float) -> list[tuple[float, float]]:
    """Where the nose cell does not close: the opening at each hinge, and one nose depth to either side of it."""
    cut = surface.sheet.nose_skin.cut_at_hinge
    if not cut.known or surface.sheet.nose_skin.thickness.absent:
        return []
    places = [p for p in surface.outline.places if p.spar_depth.known and p.up.known]
    out = []
    for hinge in surface.hinges.values():
        if not hinge.up.known:
            continue
        up = plain(hinge.up)
        depth = 0.0
        if places:
            depth = float(np.interp(up, [plain(p.up) for p in places], [plain(p.spar_depth) for p in places]))
        reach = 0.5 * plain(cut) + depth
        out.append((max(root, up - reach), min(tip, up + reach)))
    return out
