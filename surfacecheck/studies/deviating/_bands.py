"""How far measurements may be off, and what that does to the margins: a band, and which one to measure better.

Every measured value that goes into a margin is moved by what its tool gives, the events are worked in again, and all
these surfaces are assessed in one go. First order: the moves of one value at a time, added by their squares. Worst
corner: all values at once, each the way that is worse (or better), worked through.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.assessment import rules_of
from surfacecheck.changes import columns_of
from surfacecheck.errors import SurfaceError
from surfacecheck.studies._values import with_value
from surfacecheck.studies.deviating._measured import Measured, measured_in

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from numpy.typing import NDArray

    from surfacecheck.changes import Column
    from surfacecheck.model import Surface
    from surfacecheck.studies.deviating._deviation import Deviation, Way

    Array = NDArray[np.float64]

__all__ = ["Bands", "MarginBand", "bands"]

MOVES = 5e-3
"""Least move of a margin that is told [-]."""
WAYS = (-1.0, 1.0)
_NAMES = [(where, bound) for where in ("here", "anywhere") for bound in ("holds fully", "holds nothing")]


@dataclass(frozen=True)
class MarginBand:
    """A margin as it is now, and how far the measurements leave it open.

    Attributes
    ----------
    where : str
        ``here`` or ``anywhere``.
    bound : str
        ``holds fully`` or ``holds nothing``; empty where nothing is left open.
    margin : float
        As measured [-].
    first : tuple of float
        Lowest and highest by first order [-].
    corner : tuple of float
        Lowest and highest with everything off at once [-].
    """

    where: str
    bound: str
    margin: float
    first: tuple[float, float]
    corner: tuple[float, float]

    @property
    def wide(self) -> bool:
        """Whether the band can be seen in two decimals."""
        return max(abs(one - self.margin) for one in (*self.first, *self.corner)) >= MOVES


@dataclass(frozen=True)
class Bands:
    """What the measurements leave open.

    Attributes
    ----------
    margins : tuple of MarginBand
        Lowest here and anywhere, as it is now.
    measured : tuple of Measured
        What was tried, the value that moves the margin here most first.
    untried : tuple of str
        Keys of measured values that were not tried: too many, a tool that is not listed, or a step that cannot be.
    rules : tuple of (str, str, str, str)
        Rules that say something else within what one tool leaves open: name and place, outcome as measured, outcome
        otherwise, key of the measurement.
    """

    margins: tuple[MarginBand, ...]
    measured: tuple[Measured, ...]
    untried: tuple[str, ...]
    rules: tuple[tuple[str, str, str, str], ...]

    @property
    def better(self) -> Measured | None:
        """The measurement to make better: that which moves the margin here most; None where none moves it."""
        first = self.measured[0] if self.measured else None
        return first if first is not None and abs(first.moves[0]) >= MOVES else None


def bands(deviation: Deviation) -> Bands:
    """Find how far the measurements leave the margins open, as the surface is now.

    Parameters
    ----------
    deviation : Deviation
        Worked.

    Returns
    -------
    Bands
        Of the lowest margin here and anywhere, for either bound.
    """
    found, untried = measured_in(deviation)
    columns = [_now(deviation.surface, ((one, way),)) for one in found for way in WAYS]
    worked = _each(deviation, columns)
    before = _margins(deviation, deviation.now)
    steps = list(zip(found, zip(*[iter(columns)] * 2, strict=True), zip(*[iter(worked)] * 2, strict=True), strict=True))
    untried += [one.value.key for one, _, both in steps if all(step is None for step in both)]
    kept = [(one, pair, both) for one, pair, both in steps if any(step is not None for step in both)]
    with np.errstate(invalid="ignore"):  # what nothing is required of does not move
        moves = np.array([[0.0 * before if one is None else one - before for one in both] for _, _, both in kept])
    moves = np.nan_to_num(moves.reshape(len(kept), len(WAYS), before.size))
    tried = [replace(one, moves=_largest(move)) for (one, _, _), move in zip(kept, moves, strict=True)]
    margins = _banded(deviation, tried, moves, before)
    rules = dict.fromkeys(rule for one, pair, _ in kept for rule in _rules(deviation, one, pair))
    tried.sort(key=lambda one: -abs(one.moves[0]))
    return Bands(margins, tuple(tried), tuple(dict.fromkeys(untried)), tuple(rules))


def _largest(moves: Array) -> tuple[float, ...]:
    """Give of both ways the larger move, margin by margin."""
    at = np.argmax(np.abs(moves), axis=0)
    return tuple(np.take_along_axis(moves, at[None], axis=0)[0].tolist())


def _now(surface: Surface, moved: Iterable[tuple[Measured, float]]) -> Column | None:
    """Work the events in again with measurements that are off; None where that cannot be."""
    for one, way in moved:
        si = float(np.asarray(one.value.si)) + way * one.reading.half
        for path in one.paths:
            surface = with_value(surface, path, replace(one.value, si=si))
    try:
        return columns_of(surface)[1]
    except SurfaceError:
        return None


def _each(deviation: Deviation, columns: Sequence[Column | None]) -> list[Array | None]:
    """Work the lowest margins of several columns, all in one go; None for one that cannot be worked."""
    known = [one for one in columns if one is not None]
    try:
        found = iter(_together(deviation, known))
    except SurfaceError:  # a rib off the end of the outline, say: each by itself, without that one
        found = iter([_alone(deviation, one) for one in known])
    return [None if one is None else next(found) for one in columns]


def _together(deviation: Deviation, columns: Sequence[Column]) -> list[Array | None]:
    from surfacecheck.studies.deviating._deviation import worked_ways

    return [_margins(deviation, way) for way in worked_ways(columns)]


def _alone(deviation: Deviation, column: Column) -> Array | None:
    try:
        return _together(deviation, [column])[0]
    except SurfaceError:
        return None


def _margins(deviation: Deviation, way: Way) -> Array:
    """Lowest here, then anywhere; each if it holds fully, then if it holds nothing."""
    here = [np.nan if one is None or one.margin is None else one.margin for one in way.here(deviation.places)]
    anywhere = [one.margins[0].margin if one.margins else np.nan for one in way.bounds]
    both = [list(one) + [one[-1]] * (2 - len(one)) for one in (here, anywhere)]
    return np.array([*both[0], *both[1]], dtype=np.float64)


def _banded(deviation: Deviation, tried: list[Measured], moves: Array, before: Array) -> tuple[MarginBand, ...]:
    open_ = deviation.now.nothing is not None
    wanted = [at for at in range(before.size) if np.isfinite(before[at]) and (open_ or at % 2 == 0)]
    ends = {
        at: (np.minimum(moves[..., at].min(axis=1), 0.0), np.maximum(moves[..., at].max(axis=1), 0.0)) for at in wanted
    }
    corners = _corners(deviation, tried, moves, wanted)
    out = []
    for at in wanted:
        where, bound = _NAMES[at]
        less, more = (float(np.sqrt(np.sum(end**2))) for end in ends[at])
        middle = float(before[at])
        first = (middle - less, middle + more)
        low, high = corners.get(at, first)
        corner = (min(low, middle), max(high, middle))
        out.append(MarginBand(where, bound if open_ else "", middle, first, corner))
    return tuple(out)


def _corners(
    deviation: Deviation, tried: list[Measured], moves: Array, wanted: list[int]
) -> dict[int, tuple[float, float]]:
    """Work everything off at once, each the way that is worse, then better, for each margin."""
    signs = {(at, end): _signs(moves[..., at], end) for at in wanted for end in WAYS}
    asked = list(dict.fromkeys(signs.values()))
    columns = [_now(deviation.surface, zip(tried, one, strict=True)) for one in asked]
    worked = dict(zip(asked, _each(deviation, columns), strict=True))
    out = {}
    for at in wanted:
        low, high = (worked[signs[at, end]] for end in WAYS)
        if low is not None and high is not None:
            out[at] = (float(low[at]), float(high[at]))
    return out


def _signs(moves: Array, end: float) -> tuple[float, ...]:
    """Choose for every value which way to be off so that a margin is lowest (end -1) or highest (end +1)."""
    gain = end * moves
    best = np.argmax(gain, axis=1)
    return tuple(WAYS[way] if gain[i, way] > 1e-9 else 0.0 for i, way in enumerate(best))


def _rules(deviation: Deviation, one: Measured, both: Sequence[Column | None]) -> Iterator[tuple[str, str, str, str]]:
    """Find rules here that say something else when one measurement is off: rule, as it is, otherwise, and its key."""
    now, here = deviation.now.fully, tuple(f"{place}." for place in deviation.places)
    before = {(r.name, r.place): str(r.outcome) for r in now.rules if r.counts}
    for column in both:
        for rule in () if column is None else rules_of(column.fully):
            was = before.get((rule.name, rule.place), str(rule.outcome))
            if was != rule.outcome and rule.place.startswith(here):
                yield f"{rule.name}: {rule.place}", was, str(rule.outcome), one.value.key
