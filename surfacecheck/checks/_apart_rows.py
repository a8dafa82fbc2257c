"""Single rivets of a row: each at its own place, with the length of row that is left to it."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
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

__all__ = ["RowGap", "RowLine", "lines_apart", "whole_line"]


@dataclass(frozen=True)
class RowGap:
    """A stretch of a row beside a rivet that stands apart.

    Attributes
    ----------
    number : int
        Of the first rivet of the stretch that stands apart, from 1.
    length : ndarray, shape (...)
        Longest way from rivet to rivet in it [m].
    slots : tuple of int
        From the rivet before it to the one after.
    """

    number: int
    length: Array
    slots: tuple[int, ...]


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
        Places as drawn, and rivets side by side at each.
    pitch : ndarray, shape (...)
        As drawn [m].
    reader : callable
        Turns something of shape (..., cases, stations), and places in pitches from the first, (N,), into values at
        these places, (..., cases, N).
    evenly : bool
        Whether the rivets share one force evenly, and not a flow by their places.
    """

    place: str
    part: str
    apart: dict[int, Apart]
    count: int
    lines: int
    pitch: Array
    reader: Callable[[Array, Array], Array]
    evenly: bool = False

    @cached_property
    def slots(self) -> tuple[float, ...]:
        """Places in pitches from the first: those drawn, and half-way ones where a rivet was put in."""
        more = {i + half for i in self._extra for half in (-0.5, 0.5) if 0.0 < i + half < self.count - 1}
        return tuple(sorted({*map(float, range(self.count)), *more}))

    @property
    def names(self) -> tuple[str, ...]:
        """Name of every rivet, line after line."""
        every = ((self.number_of(slot), slot % len(self.slots)) for slot in range(self.lines * len(self.slots)))
        return tuple(
            f"rivet {int(self.slots[at]) + 1} extra" if number is None else f"rivet {number + 1}"
            for number, at in every
        )

    @property
    def _extra(self) -> list[int]:
        return [i for i, one in self.apart.items() if one.extra.known and i < self.count]

    def number_of(self, slot: int) -> int | None:
        """Give the number, from 0, of the rivet at a slot of all lines; None for one that the drawing does not have."""
        line, at = divmod(slot, len(self.slots))
        return None if self.slots[at] % 1.0 else line * self.count + int(self.slots[at])

    def read(self, values: Array) -> Array:
        """Read something of the row at each slot of a line, (..., cases, N)."""
        return self.reader(values, np.array(self.slots))

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
        ndarray, shape (..., cases, lines * N)
            Line after line.
        """
        each = self.read(values)
        if not grown:
            return np.tile(each, self.lines)
        widest = each.copy()
        for gap in () if self.evenly else self.gaps:
            worst = each[..., gap.slots].max(axis=-1, keepdims=True)
            widest[..., gap.slots] = np.maximum(widest[..., gap.slots], worst)
        more = self.growth[..., None, :]
        return np.where(more == 1.0, np.tile(each, self.lines), np.tile(widest, self.lines) * more)

    @cached_property
    def growth(self) -> Array:
        """Times its load as drawn that each rivet has, shape (..., lines * N) [-]."""
        return growth(self._holds, self._bays, self.evenly)

    @cached_property
    def abreast(self) -> Array | int:
        """Load that comes to the place of each rivet over its own, (..., 1, lines * N) [-]; 1 in a single line."""
        if self.lines == 1:
            return 1
        each = self.growth.reshape(*self.growth.shape[:-1], self.lines, -1)
        there = each > 0.0
        over = each.sum(axis=-2, keepdims=True) / np.where(there, each, 1.0)
        return np.asarray(np.where(there, over, 0.0).reshape(*self.growth.shape[:-1], 1, -1))

    @cached_property
    def _holds(self) -> Array:
        """Share that each rivet holds, (..., lines, N)."""
        flat = in_a_row([self._hold(slot) for slot in range(self.lines * len(self.slots))])
        return flat.reshape(*flat.shape[:-1], self.lines, len(self.slots))

    def _hold(self, slot: int) -> ArrayLike:
        number = self.number_of(slot)
        if number is not None:
            return numbers(self.apart[number].holds) if number in self.apart else 1.0
        at = self.slots[slot % len(self.slots)]
        return max((numbers(self.apart[i].extra) for i in self._extra if abs(i - at) < 1.0), key=np.max)

    @cached_property
    def _bays(self) -> Array | None:
        """Distance from slot to slot over the pitch, (..., N - 1); None where all stand as drawn."""
        moved = {i: one.moved_along for i, one in self.apart.items() if one.moved_along.known and i < self.count}
        if not moved and len(self.slots) == self.count:
            return None
        by = in_a_row([numbers(moved[int(at)]) if at in moved else 0.0 for at in self.slots])
        return np.diff(np.array(self.slots) + by / (self.pitch[..., None] if self.pitch.ndim else self.pitch), axis=-1)

    @property
    def touched(self) -> tuple[int, ...]:
        """Slots of the rivets that stand apart and of those beside them, of all lines."""
        if self.evenly:
            return tuple(range(len(self.slots) * self.lines))
        at = sorted({slot for gap in self.gaps for slot in gap.slots})
        return tuple(line * len(self.slots) + slot for line in range(self.lines) for slot in at)

    @cached_property
    def gaps(self) -> tuple[RowGap, ...]:
        """Stretches beside everything that stands apart; one for several side by side."""
        bays, holds = self._bays, self._holds.max(axis=-2)
        bays = np.ones(len(self.slots) - 1) if bays is None else bays
        at = np.concatenate([np.zeros((*bays.shape[:-1], 1)), np.cumsum(bays, axis=-1)], axis=-1)
        found = []
        for low, high in self._runs():
            before, after = (self.slots.index(float(i)) for i in (max(low - 1, 0), min(high + 1, self.count - 1)))
            length = _longest(at[..., before : after + 1], holds[..., before : after + 1])
            found.append(RowGap(low + 1, length * self.pitch, tuple(range(before, after + 1))))
        return tuple(found)

    def _runs(self) -> Iterator[tuple[int, int]]:
        """First and last place of everything apart that stands side by side."""
        places = sorted({i % self.count for i in self.apart})
        start = 0
        for k in range(1, len(places) + 1):
            if k == len(places) or places[k] > places[k - 1] + 1:
                yield places[start], places[k - 1]
                start = k


def _longest(at: Array, holds: Array) -> Array:
    """Longest way between places that hold something, the ends of the stretch among them."""
    last, longest = at[..., 0], np.zeros(np.broadcast_shapes(at.shape[:-1], holds.shape[:-1]))
    for i in range(1, at.shape[-1]):
        there = (holds[..., i] > 0.0) | (i == at.shape[-1] - 1)
        longest = np.where(there, np.maximum(longest, at[..., i] - last), longest)
        last = np.where(there, at[..., i], last)
    return longest


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
    if not any(key.startswith(f"row.{name}.") for key in surface.apart):
        return
    if load.kind not in {"rib", "rib-spar"}:
        line = whole_line(load)
        if line.apart:
            yield line
        return
    for r, spot in enumerate(load.spots):
        place, count = f"row.{name}.rib-{r + 1}", _one_count(plan.rib_count[..., r], name)
        apart = apart_in(surface, place, count * plan.lines)
        if apart:
            part, pitch = f"{name.replace('_', ' ')}, {spot}", np.asarray(plan.rib_pitch[..., r])
            yield RowLine(place, part, apart, count, plan.lines, pitch, _on_rib(r), load.kind == "rib-spar")


def whole_line(load: RowLoad) -> RowLine:
    """Lay out a row along the pins, rivet by rivet.

    Parameters
    ----------
    load : RowLoad
        The row, worked.

    Returns
    -------
    RowLine
        All of it.
    """
    plan, name = load.plan, load.row.name
    count = _one_count(plan.count, name)
    apart = apart_in(load.effects.surface, f"row.{name}", count * plan.lines)
    words, pitch = name.replace("_", " "), np.asarray(plan.pitch)
    return RowLine(f"row.{name}", words, apart, count, plan.lines, pitch, _along_the_pins(load, pitch))


def _one_count(count: ArrayLike, name: str) -> int:
    """Rivets of a line; rivets by number make no sense in a stack whose variants have not the same."""
    counts = np.unique(count)
    if counts.size > 1:
        message = f"row.{name}: variants with {counts.min():.0f} and {counts.max():.0f} rivets: work them one by one"
        raise SurfaceError(message)
    return int(counts[0])


def _on_rib(rib: int) -> Callable[[Array, Array], Array]:
    return lambda values, at: np.repeat(values[..., [rib]], at.size, axis=-1)


def _along_the_pins(load: RowLoad, pitch: Array) -> Callable[[Array, Array], Array]:
    plan, y = load.plan, load.effects.span.y
    assert plan.start is not None and plan.end is not None  # noqa: S101, PT018 - rows along the pins have both
    start, end = np.asarray(plan.start), np.asarray(plan.end)
    if load.kind == "doubler":
        inside = load.effects.span.between(start - 1e-3, end + 1e-3)
        y = y[..., np.flatnonzero(inside.reshape(-1, inside.shape[-1]).any(axis=0))]
    return lambda values, at: read_at(y, values, np.minimum(start[..., None] + pitch[..., None] * at, end[..., None]))
