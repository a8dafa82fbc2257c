"""The stretch of the surface whose load a row along the pins takes, and what no row takes."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.axes import by_case
from surfacecheck.checks._check import Check, Term
from surfacecheck.checks._item import Item
from surfacecheck.checks._names import Names, StackNames, pretty_place
from surfacecheck.places import BARE, bare_stretches, reach, unheld
from surfacecheck.provenance import Basis, Source

if TYPE_CHECKING:
    from collections.abc import Iterator

    from numpy.typing import NDArray

    from surfacecheck.checks._effects import Effects
    from surfacecheck.model import Row, Surface
    from surfacecheck.places import Stretch

    Array = NDArray[np.float64]

__all__ = ["bare_seams", "stretch_of"]

OWN_CHOICE = Source(Basis.ASSUMED, f"a seam counts as held up to {BARE:g} pitches from a rivet: this tool's own choice")
NOT_HANDED = (
    "without rivets the sheets slide on each other there and the box is open; what then flows elsewhere, and into the "
    "rivets at the ends of the stretch, is in none of these numbers: fill in the rivets, or trailing_edge or the skin "
    "as it is"
)


def stretch_of(effects: Effects, row: Row) -> NDArray[np.bool_]:
    """Tell where a row along the pins takes the load.

    Parameters
    ----------
    effects : Effects
        For the stations.
    row : Row
        From the file.

    Returns
    -------
    ndarray of bool, shape (..., 1, S)
        From half-way to the row before, or the end of the surface, to half-way to the next; where more than a few
        pitches there have no rivet, only as far as its own rivets, to the first station at or past the last of them.
    """
    y = effects.span.y
    low, high = (np.asarray(one)[..., None] for one in reach(effects.surface, row))
    here = (y >= low) & (y <= high)
    beside = unheld(effects.surface, row)
    if beside is None or not (beside[0].bare.any() or beside[1].bare.any()):
        return by_case(here)
    below, above = beside
    first = np.where(y <= below.end[..., None], y, -np.inf).max(axis=-1, keepdims=True)
    last = np.where(y >= above.start[..., None], y, np.inf).min(axis=-1, keepdims=True)
    here = here & (~below.bare[..., None] | (y >= first)) & (~above.bare[..., None] | (y <= last))
    return by_case(here)


def bare_seams(effects: Effects) -> Iterator[Check]:
    """Say where a seam that closes the box has no rivets: the box is taken as closed there all the same.

    Parameters
    ----------
    effects : Effects
        With flows.

    Yields
    ------
    Check
        One for every such stretch of two sheets, outside the method and without a margin.
    """
    surface, box = effects.surface, effects.box
    if box is None:
        return
    for row in surface.rows.values():
        for sheets, wall in _seams(surface, row):
            others = frozenset({"left_skin", "right_skin"} - set(row.joins)) if wall == "nose" else frozenset()
            if len(others) == 2:  # a row of nose and spar alone does not say on which side it lies
                others = frozenset()
            for stretch in bare_stretches(surface, row, sheets, others) if box.has(wall) else ():
                yield _bare(effects, row, wall, stretch)


def _seams(surface: Surface, row: Row) -> Iterator[tuple[frozenset[str], str]]:
    """Give the pairs of sheets whose seam closes a cell, each with the wall whose flow crosses it."""
    joins, plus = set(row.joins), "left_skin" if surface.left_is > 0 else "right_skin"
    if joins & {"ribs", *surface.sheet.doublers}:
        return
    if "spar" in joins:
        for name in ("left_skin", "right_skin", "nose_skin"):
            if name in joins:
                wall = "nose" if name == "nose_skin" else f"skin_{'plus' if name == plus else 'minus'}"
                yield frozenset((name, "spar")), wall
    elif {"left_skin", "right_skin"} <= joins:
        yield frozenset(("left_skin", "right_skin")), "skin_plus"


def _bare(effects: Effects, row: Row, wall: str, stretch: Stretch) -> Check:
    """Say of one stretch what flow would have to cross it."""
    y = effects.span.y
    inside = (y >= stretch.start[..., None]) & (y <= stretch.end[..., None])
    flow = np.abs(effects.mean(wall)) * by_case(inside)
    terms = {
        "q_o": Term(None, "line_load", "flow that passes a seam without rivets"),
        "q": Term(flow.max(axis=-1, keepdims=True), "line_load", "greatest flow there at limit, taken as closed"),
    }
    sheet = "" if wall != "nose" else ", nose skin"
    item = Item(
        f"row.{row.name}", row.name.replace("_", " ") + sheet, effects.flow_cases, _names(stretch), subject="this seam"
    )
    gives = "no rivets there: the box is taken as closed all the same"
    mode = "bare" if wall != "nose" else "bare-nose"
    there = stretch.bare if stretch.bare.ndim else None
    notes = (NOT_HANDED,)
    return item.check(mode, gives, "q_o", "q", terms, "q", OWN_CHOICE, outside=True, notes=notes, there=there)


def _names(stretch: Stretch) -> Names:
    """Name a stretch by its ends."""
    start, end = np.broadcast_arrays(stretch.start, stretch.end)

    def name(variant: int, _: int = 0) -> str:
        return f"{pretty_place(float(start.flat[variant]))} to {pretty_place(float(end.flat[variant]))}"

    return StackNames(1, name) if start.ndim else (name(0),)
