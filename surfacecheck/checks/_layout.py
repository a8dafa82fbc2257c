"""Where the rivets of a row are: ends stay, the rest is spread evenly."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.provenance import plain

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from surfacecheck.model import Row, Surface

    Array = NDArray[np.float64]

__all__ = ["RowPlan", "plan_row", "reach", "spread"]


@dataclass(frozen=True, eq=False)
class RowPlan:
    """The rivets of one row.

    Attributes
    ----------
    pitch : float
        Real pitch; for rib rows the largest [m].
    count : int
        Rivets in a line (on one rib, for rib rows).
    lines : int
        Lines side by side.
    start, end : float or None
        First and last rivet along the pins [m].
    rib_pitch, rib_count : ndarray, shape (R,)
        Pitch and count on each rib; empty for other rows.
    total : int
        Rivets in the whole row.
    """

    pitch: float
    count: int
    lines: int
    start: float | None
    end: float | None
    rib_pitch: Array
    rib_count: Array
    total: int


def spread(length: float, pitch: float) -> tuple[int, float]:
    """Spread rivets evenly: the number of spaces is the nearest whole of length over pitch, at least 1.

    Parameters
    ----------
    length : float
        First to last rivet [m].
    pitch : float
        As asked for [m].

    Returns
    -------
    tuple of (int, float)
        Rivets, and real pitch [m].

    Examples
    --------
    >>> count, pitch = spread(1.060, 0.030)
    >>> count, round(1e3 * pitch, 1)
    (36, 30.3)
    """
    spaces = max(1, int(length / pitch + 0.5))
    return spaces + 1, length / spaces


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
    start, end = plain(row.start), plain(row.to)
    if row.pitch.known:
        count, pitch = spread(end - start, plain(row.pitch))
    elif row.count is not None and row.count > 1:
        count, pitch = row.count, (end - start) / (row.count - 1)
    else:
        return None
    return RowPlan(pitch, count, lines, start, end, NOTHING, NOTHING, count * lines)


def reach(surface: Surface, row: Row) -> tuple[float, float]:
    """Give the stretch whose load a row along the pins takes: up to half-way to the next row of the same sheets.

    Parameters
    ----------
    surface : Surface
        For the other rows.
    row : Row
        From the file.

    Returns
    -------
    tuple of float
        Along the pins [m]; without end where no such row follows.
    """
    low, high = -np.inf, np.inf
    if not (row.start.known and row.to.known):
        return low, high
    start, end = plain(row.start), plain(row.to)
    for other in surface.rows.values():
        if other is row or set(other.joins) != set(row.joins) or not (other.start.known and other.to.known):
            continue
        first, last = plain(other.start), plain(other.to)
        if last <= start:
            low = max(low, 0.5 * (last + start))
        elif first >= end:
            high = min(high, 0.5 * (first + end))
    return low, high


def _on_ribs(surface: Surface, row: Row, lines: int) -> RowPlan | None:
    ribs = [plain(up) for up in surface.sheet.ribs.up if up.known]
    places = [p for p in surface.outline.places if p.up.known and p.edge_behind.known and p.web_behind.known]
    if not ribs:
        return None
    if "spar" in row.joins:
        if row.count is None:
            return None
        gap = plain(row.gap) if row.gap.known else 0.0
        each = np.full(len(ribs), float(row.count))
        return RowPlan(gap, row.count, lines, None, None, np.full(len(ribs), gap), each, row.count * lines * len(ribs))
    if "nose_skin" in row.joins and not set(row.joins) & {"left_skin", "right_skin"}:
        around = [p for p in places if p.nose_around.known]
        if row.count is None or not around:
            return None
        length = np.interp(ribs, [plain(p.up) for p in around], [plain(p.nose_around) for p in around])
        pitch = length / row.count
        return RowPlan(
            float(pitch.max()),
            row.count,
            lines,
            None,
            None,
            pitch,
            np.full(len(ribs), float(row.count)),
            row.count * lines * len(ribs),
        )
    if not places:
        return None
    up = [plain(p.up) for p in places]
    chord = np.interp(ribs, up, [plain(p.edge_behind) - plain(p.web_behind) for p in places])
    if not (row.first_behind_web.known and row.last_before_edge.known):
        return None
    length = chord - plain(row.first_behind_web) - plain(row.last_before_edge)
    if row.count is not None:
        count = np.full(len(ribs), float(row.count))
    elif row.pitch.known:
        count = np.array([float(spread(one, plain(row.pitch))[0]) for one in length])
    else:
        return None
    pitch = length / np.maximum(count - 1.0, 1.0)
    total = int(count.sum()) * lines
    return RowPlan(float(pitch.max()), int(count.max()), lines, None, None, pitch, count, total)
