"""Where the rivets of a row are: ends stay, the rest is spread evenly."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, TypeAlias

import numpy as np

from surfacecheck.axes import line_at
from surfacecheck.provenance import in_a_row, numbers, over_stations

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, NDArray

    from surfacecheck.model import OutlinePlace, Row, Surface

    Array = NDArray[np.float64]
    Number: TypeAlias = Any
    """A float, or an ndarray of shape (V,) in a stack of variants."""
    Count: TypeAlias = Any
    """An int, or an ndarray of shape (V,) in a stack of variants."""

__all__ = ["RowPlan", "plan_row", "reach", "spread"]


@dataclass(frozen=True, eq=False)
class RowPlan:
    """The rivets of one row.

    Attributes
    ----------
    pitch : float, or ndarray of shape (V,)
        Real pitch; for rib rows the largest [m].
    count : int, or ndarray of shape (V,)
        Rivets in a line (on one rib, for rib rows).
    lines : int
        Lines side by side.
    start, end : float, ndarray of shape (V,), or None
        First and last rivet along the pins [m].
    rib_pitch, rib_count : ndarray, shape (..., R)
        Pitch and count on each rib; empty for other rows.
    total : int, or ndarray of shape (V,)
        Rivets in the whole row.
    """

    pitch: Number
    count: Count
    lines: int
    start: Number | None
    end: Number | None
    rib_pitch: Array
    rib_count: Array
    total: Count


HALF = 1e-9
"""How far below a half a number of spaces still counts as a half [-].

Metres of decimal millimetres, their difference and their quotient are each off by some parts in 1e16, so 1000 spaces
by less than 1e-12; a nanometre in a metre of rivets is nothing that anybody measures.
"""


def spread(length: ArrayLike, pitch: ArrayLike) -> tuple[Count, Number]:
    """Spread rivets evenly: the number of spaces is the nearest whole of length over pitch, a half goes up; at least 1.

    Half a space is meant in the decimal numbers of the drawing; see :data:`HALF` for what metres make of them.

    Parameters
    ----------
    length : array_like, shape (...)
        First to last rivet [m].
    pitch : array_like, shape (...)
        As asked for [m].

    Returns
    -------
    tuple of (int, float), or of ndarray of shape (...)
        Rivets, and real pitch [m].

    Examples
    --------
    >>> count, pitch = spread(1.060, 0.030)
    >>> count, round(1e3 * pitch, 1)
    (36, 30.3)
    >>> spread(0.145, 0.010)[0]
    16
    """
    far = np.asarray(length, dtype=np.float64)
    spaces = np.maximum(1.0, np.floor(far / np.asarray(pitch, dtype=np.float64) + 0.5 + HALF))
    return _count(spaces + 1.0), _number(far / spaces)


def _count(values: Array) -> Count:
    return int(values) if values.ndim == 0 else values.astype(np.intp)


def _number(values: Array) -> Number:
    return float(values) if values.ndim == 0 else values


NOTHING = np.zeros(0)


def plan_row(surface: Surface, row: Row) -> RowPlan | None:
    """Lay out a row.

    Parameters
    ----------
    surface : Surface
        For outline and ribs.
    row : Row
        From the file.

    Returns
    -------
    RowPlan or None
        None where pitch or count, or the ends, are not known.
    """
    lines = row.lines or 1
    if "ribs" in row.joins:
        return _on_ribs(surface, row, lines)
    if not (row.start.known and row.to.known):
        return None
    start, end = numbers(row.start), numbers(row.to)
    if row.pitch.known:
        count, pitch = spread(end - start, numbers(row.pitch))
    elif row.count is not None and row.count > 1:
        count, pitch = row.count, _number((end - start) / (row.count - 1))
    else:
        return None
    return RowPlan(pitch, count, lines, _number(start), _number(end), NOTHING, NOTHING, count * lines)


def reach(surface: Surface, row: Row) -> tuple[Number, Number]:
    """Give the stretch whose load a row along the pins takes: up to half-way to the next row of the same sheets.

    Parameters
    ----------
    surface : Surface
        For the other rows.
    row : Row
        From the file.

    Returns
    -------
    tuple of float, or of ndarray of shape (V,)
        Along the pins [m]; without end where no such row follows.
    """
    low, high = np.asarray(-np.inf), np.asarray(np.inf)
    if not (row.start.known and row.to.known):
        return _number(low), _number(high)
    start, end = numbers(row.start), numbers(row.to)
    for other in surface.rows.values():
        if other is row or set(other.joins) != set(row.joins) or not (other.start.known and other.to.known):
            continue
        first, last = numbers(other.start), numbers(other.to)
        low = np.where(last <= start, np.maximum(low, 0.5 * (last + start)), low)
        high = np.where((first >= end) & (last > start), np.minimum(high, 0.5 * (first + end)), high)
    return _number(low), _number(high)


def _on_ribs(surface: Surface, row: Row, lines: int) -> RowPlan | None:
    ups = [numbers(up) for up in surface.sheet.ribs.up if up.known]
    places = [p for p in surface.outline.places if p.up.known and p.edge_behind.known and p.web_behind.known]
    if not ups:
        return None
    ribs = in_a_row(ups)
    n = len(ups)
    if "spar" in row.joins:
        if row.count is None:
            return None
        gap = numbers(row.gap) if row.gap.known else np.asarray(0.0)
        each = np.full(n, float(row.count))
        wide = np.broadcast_to(gap[..., None], (*gap.shape, n))
        return RowPlan(_number(gap), row.count, lines, None, None, wide, each, row.count * lines * n)
    if "nose_skin" in row.joins and not set(row.joins) & {"left_skin", "right_skin"}:
        around = [p for p in places if p.nose_around.known]
        if row.count is None or not around:
            return None
        pitch = _along(around, "nose_around", ribs) / row.count
        each = np.full(n, float(row.count))
        largest = _number(pitch.max(axis=-1))
        return RowPlan(largest, row.count, lines, None, None, pitch, each, row.count * lines * n)
    if not places:
        return None
    if not (row.first_behind_web.known and row.last_before_edge.known):
        return None
    chord = _along(places, "edge_behind", ribs) - _along(places, "web_behind", ribs)
    length = chord - over_stations(row.first_behind_web) - over_stations(row.last_before_edge)
    if row.count is not None:
        count = np.full(length.shape, float(row.count))
    elif row.pitch.known:
        count = np.asarray(spread(length, over_stations(row.pitch))[0], dtype=np.float64)
    else:
        return None
    pitch = length / np.maximum(count - 1.0, 1.0)
    total, most = _count(count.sum(axis=-1) * lines), _count(count.max(axis=-1))
    return RowPlan(_number(pitch.max(axis=-1)), most, lines, None, None, pitch, count, total)


def _along(places: list[OutlinePlace], key: str, y: Array) -> Array:
    """Give a line of the outline at places along the pins, (..., R)."""
    up, line = (in_a_row([numbers(getattr(p, name)) for p in places]) for name in ("up", key))
    return line_at(up[..., None, :], line[..., None, :], y)
