"""Single rivets of a row: each at its own place, with the length of row that is left to it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.checks._apart import apart_in
from surfacecheck.checks._row_growth import growth, read_at
from surfacecheck.errors import SurfaceError
from surfacecheck.provenance import in_a_row, numbers

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from numpy.typing import ArrayLike, NDArray

    from surfacecheck.checks._row_loads import RowLoad
    from surfacecheck.model import Apart

    Array = NDArray[np.float64]

__all__ = ["RowGap", "RowLine", "lines_apart"]


@dataclass(frozen=True)
class RowGap:
    """A stretch of a row without a rivet that holds.

    Attributes
    ----------
    number : int
        Of the first rivet that is missing, from 1.
    length : ndarray, shape (...)
        From rivet to rivet [m]; the pitch where the rivet holds.
    places : tuple of int
        Places in the line from the rivet before to the one after, from 0.
    """

    number: int
    length: Array
    places: tuple[int, ...]


@dataclass(frozen=True, eq=False)
class RowLine:
    """Rivets of a row that share one flow: along the pins, or on one rib.

    Attributes
    ----------
    place, part : str
        ``row.left_skin_to_ribs.rib-3`` and its words.
    apart : dict of int to Apart
        What differs, by the number of the rivet from 0; one line after the other.
    count, lines : int
        Places, and rivets side by side at each.
    pitch : ndarray, shape (...)
        As drawn [m].
    read : callable
        Turns something of shape (..., cases, stations) into its value at each place, (..., cases, R).
    evenly : bool
        Whether the rivets share one force evenly, and not a flow by their places.
    """

    place: str
    part: str
    apart: dict[int, Apart]
    count: int
    lines: int
    pitch: Array
    read: Callable[[Array], Array]
    evenly: bool = False

    @property
    def growth(self) -> Array:
        """Times its load as drawn that each rivet has, shape (..., lines * R) [-]."""
        return growth(self._holds, self._bays, self.evenly)

    def of_each(self, values: Array, *, grown: bool = True) -> Array:
        """Give something of the row for every rivet.

        Parameters
        ----------
        values : ndarray, shape (..., cases, stations)
            Load of one rivet as drawn, or a ratio [any].
        grown : bool
            Whether it grows with the length of row that a rivet has; then the largest within that length counts [-].

        Returns
        -------
        ndarray, shape (..., cases, lines * R)
            Line after line.
        """
        each = self.read(values)
        if not grown:
            return np.tile(each, self.lines)
        own = each.copy()
        for gap in () if self.evenly else self.gaps:
            worst = each[..., gap.places].max(axis=-1)
            for at in gap.places:
                own[..., at] = np.maximum(own[..., at], worst)
        more = self.growth[..., None, :]
        return np.where(more == 1.0, np.tile(each, self.lines), np.tile(own, self.lines) * more)

    @property
    def _holds(self) -> Array:
        """Share that each rivet holds, (..., lines, R)."""
        one = [numbers(self.apart[i].holds) if i in self.apart else 1.0 for i in range(self.count * self.lines)]
        flat = in_a_row(one)
        return flat.reshape(*flat.shape[:-1], self.lines, self.count)

    @property
    def _bays(self) -> Array | None:
        """Distance between the places over the pitch, (..., R - 1); None where none of them moved."""
        moved = [self.apart[i].moved_along if i in self.apart else None for i in range(self.count)]
        if not any(one is not None and one.known for one in moved):
            return None
        by = in_a_row([0.0 if one is None or not one.known else numbers(one) for one in moved])
        return 1.0 + np.diff(by, axis=-1) / (self.pitch[..., None] if self.pitch.ndim else self.pitch)

    @property
    def touched(self) -> tuple[int, ...]:
        """Numbers of the rivets that stand apart and of those beside them, from 0."""
        if self.evenly:
            return tuple(range(self.count * self.lines))
        runs = list(self._runs())
        places = {at for low, high in runs for at in range(max(low - 1, 0), min(high + 2, self.count))}
        return tuple(line * self.count + at for line in range(self.lines) for at in sorted(places))

    @property
    def gaps(self) -> tuple[RowGap, ...]:
        """Free length at every rivet that stands apart; over several that are beside each other and hold nothing."""
        bays, holds = self._bays, self._holds.max(axis=-2)
        at = np.concatenate([[0.0], np.cumsum(np.ones(self.count - 1))]) if bays is None else _from_first(bays)
        found = []
        for low, high in self._runs():
            before, after = max(low - 1, 0), min(high + 1, self.count - 1)
            length = self._longest(at, holds, before, after)
            found.append(RowGap(low + 1, length * self.pitch, tuple(range(before, after + 1))))
        return tuple(found)

    def _longest(self, at: Array, holds: Array, before: int, after: int) -> Array:
        """Longest stretch between rivets that hold something, in pitches; between two places of the line."""
        last, longest = at[..., before], np.zeros(np.broadcast_shapes(at.shape[:-1], holds.shape[:-1]))
        for i in range(before + 1, after + 1):
            there = (holds[..., i] > 0.0) | (i == after)
            longest = np.where(there, np.maximum(longest, at[..., i] - last), longest)
            last = np.where(there, at[..., i], last)
        return longest

    def _runs(self) -> Iterator[tuple[int, int]]:
        """First and last place of everything apart that stands side by side."""
        places = sorted({i % self.count for i in self.apart})
        start = 0
        for k in range(1, len(places) + 1):
            if k == len(places) or places[k] > places[k - 1] + 1:
                yield places[start], places[k - 1]
                start = k


def _from_first(bays: Array) -> Array:
    return np.concatenate([np.zeros((*bays.shape[:-1], 1)), np.cumsum(bays, axis=-1)], axis=-1)


def lines_apart(load: RowLoad) -> Iterator[RowLine]:
    """Lay out the lines of a row in which a rivet stands apart.

    Parameters
    ----------
    load : RowLoad
        The row, worked.

    Yields
    ------
    RowLine
        One for a row along the pins, one for each rib that has such a rivet.
    """
    surface, plan, name = load.effects.surface, load.plan, load.row.name
    words = name.replace("_", " ")
    if not any(key.startswith(f"row.{name}.") for key in surface.apart):
        return
    if load.kind in {"rib", "rib-spar"}:
        for r, spot in enumerate(load.spots):
            place, count = f"row.{name}.rib-{r + 1}", _one_count(plan.rib_count[..., r], name)
            apart = apart_in(surface, place, count * plan.lines)
            if apart:
                yield RowLine(
                    place,
                    f"{words}, {spot}",
                    apart,
                    count,
                    plan.lines,
                    np.asarray(plan.rib_pitch[..., r]),
                    _on_rib(r, count),
                    load.kind == "rib-spar",
                )
        return
    count = _one_count(plan.count, name)
    apart = apart_in(surface, f"row.{name}", count * plan.lines)
    if apart:
        read = _along_the_pins(load, count)
        yield RowLine(f"row.{name}", words, apart, count, plan.lines, np.asarray(plan.pitch), read)


def _one_count(count: ArrayLike, name: str) -> int:
    """Rivets of a line; rivets by number make no sense in a stack whose variants have not the same."""
    counts = np.unique(count)
    if counts.size > 1:
        message = (
            f"row.{name}: variants with {counts.min():.0f} and {counts.max():.0f} rivets: name rivets of one alone"
        )
        raise SurfaceError(message)
    return int(counts[0])


def _on_rib(rib: int, count: int) -> Callable[[Array], Array]:
    return lambda values: np.repeat(values[..., [rib]], count, axis=-1)


def _along_the_pins(load: RowLoad, count: int) -> Callable[[Array], Array]:
    plan, y = load.plan, load.effects.span.y
    assert plan.start is not None and plan.end is not None  # noqa: S101, PT018 - rows along the pins have both
    start, end = np.asarray(plan.start), np.asarray(plan.end)
    if load.kind == "doubler":
        inside = load.effects.span.between(start - 1e-3, end + 1e-3)
        y = y[..., np.flatnonzero(inside.reshape(-1, inside.shape[-1]).any(axis=0))]
    at = start[..., None] + (end - start)[..., None] * np.linspace(0.0, 1.0, count)
    return lambda values: read_at(y, values, at)
