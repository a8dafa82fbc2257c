"""Stretches of a seam along the pins that no rivet holds, beside the ends of its rows."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, NamedTuple, TypeAlias

import numpy as np

from surfacecheck.places._layout import plan_row
from surfacecheck.provenance import in_a_row, numbers

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from surfacecheck.model import Row, Surface

    Array = NDArray[np.float64]
    Number: TypeAlias = Any

__all__ = ["BARE", "Stretch", "bare_stretches", "unheld"]

BARE = 3.0
"""Pitches without a rivet, from where a seam is not taken as held any more: this tool's own choice."""


class Stretch(NamedTuple):
    """A stretch of seam beside the first, or the last, rivet of a row.

    Attributes
    ----------
    start, end : ndarray, shape (V,) or ()
        Along the pins [m].
    bare : ndarray of bool, shape (V,) or ()
        Whether it is more than :data:`BARE` pitches long.
    """

    start: Array
    end: Array
    bare: NDArray[np.bool_]


def unheld(surface: Surface, row: Row) -> tuple[Stretch, Stretch] | None:
    """Give what lies between a row along the pins and the next rivets of the same sheets, or the surface's ends.

    Parameters
    ----------
    surface : Surface
        With its outline and rows.
    row : Row
        From the file.

    Returns
    -------
    tuple of Stretch, or None
        Below its first rivet, and above its last; None where its ends, its pitch or the outline are not known.
    """
    rows = [other for other in surface.rows.values() if set(other.joins) == set(row.joins)]
    found = _beside(surface, row, rows)
    return None if found is None else found[:2]


def bare_stretches(
    surface: Surface, row: Row, sheets: frozenset[str], without: frozenset[str] = frozenset()
) -> tuple[Stretch, ...]:
    """Give the stretches beside a row in which no row holds two sheets together.

    Parameters
    ----------
    surface : Surface
        With its outline and rows.
    row : Row
        One that joins both sheets.
    sheets : frozenset of str
        The two sheets.
    without : frozenset of str
        Sheets whose rows lie elsewhere: those of the other side, where the nose meets the spar.

    Returns
    -------
    tuple of Stretch
        Below its first rivet; above its last one where no other such row follows, which has it as its own.
    """
    every = [(other, set(other.joins)) for other in surface.rows.values()]
    found = _beside(surface, row, [other for other, joins in every if sheets <= joins and not without & joins])
    if found is None:
        return ()
    below, above, follows = found
    return tuple(one for one in (below, above._replace(bare=above.bare & ~follows)) if one.bare.any())


def _beside(surface: Surface, row: Row, rows: list[Row]) -> tuple[Stretch, Stretch, NDArray[np.bool_]] | None:
    """Give the stretch below a row and above it, and whether another of these rows goes on above it."""
    plan = plan_row(surface, row)
    ups = [numbers(place.up) for place in surface.outline.places if place.up.known]
    if plan is None or plan.start is None or plan.end is None or not ups:
        return None
    start, end = np.asarray(plan.start), np.asarray(plan.end)
    least = BARE * np.asarray(plan.pitch)
    along = in_a_row(ups)
    root, tip = along.min(axis=-1), along.max(axis=-1)
    low, high, follows = root, tip, np.asarray(False)
    for other in rows:
        if other is row or not (other.start.known and other.to.known):
            continue
        first, last = numbers(other.start), numbers(other.to)
        low = np.where(first < start, np.maximum(low, np.minimum(last, start)), low)
        high = np.where(last > end, np.minimum(high, np.maximum(first, end)), high)
        follows = follows | (last > end)
    return Stretch(low, start, start - low > least), Stretch(end, high, high - end > least), follows
