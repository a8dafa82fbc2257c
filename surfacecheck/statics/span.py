"""The named places along a surface, and the stations laid between them."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.axes import line_at
from surfacecheck.errors import SurfaceError
from surfacecheck.provenance import in_a_row, numbers
from surfacecheck.statics._grid import Array, Grid, grid

if TYPE_CHECKING:
    from collections.abc import Sequence

    from numpy.typing import ArrayLike, NDArray

    from surfacecheck.model import Surface
    from surfacecheck.provenance import Value

__all__ = ["SAME_PLACE", "Span", "layout_of", "span_of"]

SAME_PLACE = 1.0e-6
"""Places nearer to each other than this count as one [m]: a thousandth of a millimetre, below any measurement."""

ORDER = "the variants of a stack do not share one order of places, and of stations, along the pins: work them apart"

CELLS_A_SPAN = 12
"""Cells of equal length that the span would have without breaks; every bay gets its share, so that what a peak between
two stations exceeds them by stays under half a per cent."""

SLACK = 0.1
"""Part of a cell that a bay may have beyond a whole number of cells: bays of even parts keep their cells when measured
a little longer, as in a stack of variants."""


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
    horn, stop : int or None
        Break of the horn, of a stop on the surface.
    root, tip : int
        Breaks of the first and the last station of the outline (a horn may stand below the root).
    nose_closed : ndarray of bool, shape (..., S)
        Points where the nose skin closes a cell: away from the openings at the hinges.
    """

    stations: Grid
    hinges: dict[str, int]
    ribs: tuple[int, ...]
    horn: int | None
    stop: int | None
    root: int
    tip: int
    nose_closed: NDArray[np.bool_]

    @property
    def y(self) -> Array:
        """Points along the hinge line [m], shape (..., S)."""
        return self.stations.y

    @property
    def breaks(self) -> Array:
        """Breaks along the hinge line [m], shape (..., B)."""
        return self.stations.breaks

    @property
    def bay(self) -> NDArray[np.intp]:
        """Bay of every point, shape (S,)."""
        return np.repeat(np.arange(len(self.stations.cells)), [4 * n for n in self.stations.cells])

    def between(self, start: ArrayLike, end: ArrayLike) -> NDArray[np.bool_]:
        """Tell which points lie in bays between two places.

        Parameters
        ----------
        start, end : array_like, shape (...)
            Places along the hinge line [m].

        Returns
        -------
        ndarray of bool, shape (..., S)
            True for the points of every bay whose middle lies between the two [-].
        """
        low, high = np.asarray(start), np.asarray(end)
        middle = 0.5 * (self.breaks[..., self.bay] + self.breaks[..., self.bay + 1])
        return np.asarray((middle > low[..., None]) & (middle < high[..., None]))


def span_of(surface: Surface, also: Sequence[float] = ()) -> Span:
    """Lay stations along a surface, with a break at everything that jumps.

    Parameters
    ----------
    surface : Surface
        At least its outline and two hinges must be known; its numbers may be stacks of variants.
    also : sequence of float
        Further places for a break [m].

    Returns
    -------
    Span
        Breaks at outline places, hinges, ribs, horn, stop, balance mass, doubler ends and nose openings [m].

    Raises
    ------
    SurfaceError
        Where the outline, two hinges or the place of a third are not known, or the variants of a stack differ in the
        order of their places.
    """
    groups, hinges = _places(surface, also)
    root, tip = groups["outline"][0], groups["outline"][-1]
    openings = _openings(surface, root, tip)
    ends = [end for end in _doubler_ends(surface) if np.all((root < end) & (end < tip))]
    groups["end"] = [*ends, *(end for opening in openings for end in opening)]
    where, breaks, cells = _laid([place for group in groups.values() for place in group])
    found = iter(where)
    of = {name: [next(found) for _ in group] for name, group in groups.items()}
    stations = grid(breaks, cells)
    span = Span(
        stations=stations,
        hinges=dict(zip(hinges, of["hinge"], strict=True)),
        ribs=tuple(of["rib"]),
        horn=_only(of["horn"]),
        stop=_only(of["stop"]),
        root=of["outline"][0],
        tip=of["outline"][-1],
        nose_closed=np.ones(stations.points, dtype=bool),
    )
    closed = span.between(root, tip)
    for start, end in openings:
        closed = closed & ~span.between(start, end)
    object.__setattr__(span, "nose_closed", closed)
    return span


def layout_of(surface: Surface, also: Sequence[float] = ()) -> NDArray[np.intp]:
    """Tell the variants of a stack apart that cannot share one set of stations: each has its own row of counts.

    Parameters
    ----------
    surface : Surface
        As for :func:`span_of`; one that cannot be laid out, a tip below the root say, has some row or other.
    also : sequence of float
        Further places for a break [m].

    Returns
    -------
    ndarray of int, shape (..., K)
        Rank of every place along the pins, cells of every bay, whether each doubler ends inside the surface [-].

    Raises
    ------
    SurfaceError
        Where the outline or two hinges are not known.

    Examples
    --------
    >>> import surfacecheck
    >>> surface = surfacecheck.read("data/rudder.toml")  # doctest: +SKIP
    >>> layout_of(surface).ndim  # doctest: +SKIP
    1
    """
    groups, _ = _places(surface, also)
    root, tip = groups["outline"][0], groups["outline"][-1]
    ends = _doubler_ends(surface)
    groups["end"] = [np.minimum(np.maximum(end, root), tip) for end in ends]  # outside is no place of its own
    groups["end"] += [end for opening in _openings(surface, root, tip) for end in opening]
    ordered, first, rank = _in_order(in_a_row([place for group in groups.values() for place in group]))
    breaks = np.maximum.accumulate(np.where(first, ordered, -np.inf), axis=-1)
    inside = [((root < end) & (end < tip)).astype(np.intp)[..., None] for end in ends]
    lead = [np.broadcast_to(part, (*rank.shape[:-1], part.shape[-1])) for part in inside]
    return np.concatenate([rank, _cells(breaks), *lead], axis=-1)


def _places(surface: Surface, also: Sequence[float]) -> tuple[dict[str, list[Array]], list[str]]:
    """Give the places along the pins by their kind, but for doubler ends and openings; and the names of the hinges."""
    places = [numbers(p.up) for p in surface.outline.places if p.up.known]
    if len(places) < 2:
        up = surface.said("up")
        message = f'outline.at: two places at least are needed, root and tip; give each "{up}" with its unit'
        raise SurfaceError(message)
    hinges = {name: numbers(h.up) for name, h in surface.hinges.items() if h.up.known}
    if len(hinges) < 2:
        up = surface.said("up")
        message = f'hinge: {len(hinges)} hinge with a known place; two at least are needed, give "{up}" of each'
        raise SurfaceError(message)
    if away := [name for name in surface.hinges if name not in hinges]:
        key = f"hinge.{away[0]}.{surface.said('up')}"
        message = f"{key}: its place is not known; without it every pin load would be wrong. Give it, or take it out."
        raise SurfaceError(message)
    groups: dict[str, list[Array]] = {
        "outline": places,
        "hinge": list(hinges.values()),
        "rib": [numbers(up) for up in surface.sheet.ribs.up if up.known],
        "horn": [] if surface.horn is None else _known(surface.horn.up),
        "stop": [] if surface.controls.stop is None else _known(surface.controls.stop.up),
        "balance": _known(surface.balance_mass.up) if surface.balance_mass.mass.known else [],
        "also": [np.asarray(place, dtype=np.float64) for place in also],
    }
    return groups, list(hinges)


def _only(found: list[int]) -> int | None:
    return found[0] if found else None


def _in_order(at: Array) -> tuple[Array, NDArray[np.bool_], NDArray[np.intp]]:
    """Sort places, (..., P): the places in order, which of them begin a break, and the break of each place as given."""
    order = np.argsort(at, axis=-1, kind="stable")
    ordered = np.take_along_axis(at, order, axis=-1)
    first = np.concatenate([np.ones((*at.shape[:-1], 1), dtype=bool), np.diff(ordered) > SAME_PLACE], axis=-1)
    rank = np.empty_like(order)
    np.put_along_axis(rank, order, np.cumsum(first, axis=-1) - 1, axis=-1)
    return ordered, first, rank


def _cells(breaks: Array) -> NDArray[np.intp]:
    """Cells of every bay, (..., B - 1)."""
    share = CELLS_A_SPAN * np.diff(breaks) / (breaks[..., -1:] - breaks[..., :1])
    return np.maximum(np.ceil(share - SLACK), 1.0).astype(np.intp)


def _laid(places: list[Array]) -> tuple[list[int], Array, tuple[int, ...]]:
    """Sort places into breaks: the break of each place, the breaks, and the cells of every bay.

    In a stack of variants every place must have the same neighbours, so that one set of stations serves them all.
    """
    ordered, first, rank = _in_order(in_a_row(places))
    ranks = rank.reshape(-1, rank.shape[-1])
    if (ranks != ranks[0]).any():
        raise SurfaceError(*(ORDER,))
    breaks = ordered[..., first.reshape(ranks.shape)[0]]
    cells = _cells(breaks).reshape(-1, breaks.shape[-1] - 1)
    if (cells != cells[0]).any():
        raise SurfaceError(*(ORDER,))
    return ranks[0].tolist(), breaks, tuple(cells[0].tolist())


def _known(value: Value) -> list[Array]:
    return [numbers(value)] if value.known else []


def _doubler_ends(surface: Surface) -> list[Array]:
    ends = [end for doubler in surface.sheet.doublers.values() for end in (doubler.start, doubler.to)]
    return [numbers(end) for end in ends if end.known]


def _openings(surface: Surface, root: Array, tip: Array) -> list[tuple[Array, Array]]:
    """Where the nose cell does not close: the opening at each hinge, and one nose depth to either side of it."""
    cut = surface.sheet.nose_skin.cut_at_hinge
    if not cut.known or surface.sheet.nose_skin.thickness.absent:
        return []
    places = [p for p in surface.outline.places if p.spar_depth.known and p.up.known]
    out = []
    for hinge in surface.hinges.values():
        if not hinge.up.known:
            continue
        up, depth = numbers(hinge.up), np.asarray(0.0)
        if places:
            line = in_a_row([numbers(p.up) for p in places]), in_a_row([numbers(p.spar_depth) for p in places])
            depth = line_at(*line, up)
        reach = 0.5 * numbers(cut) + depth
        out.append((np.maximum(root, up - reach), np.minimum(tip, up + reach)))
    return out
