"""Rows that were laid out otherwise, or have a shim between their sheets."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from surfacecheck.changes._asked import one_of, said
from surfacecheck.changes._done import Done
from surfacecheck.errors import SurfaceError
from surfacecheck.places import plan_row, with_apart
from surfacecheck.provenance import UNKNOWN
from surfacecheck.quantities import show

if TYPE_CHECKING:
    from surfacecheck.model import Happened, Surface
    from surfacecheck.places import Spot

__all__ = ["pitch_wrong", "shim"]

SUCH = "left skin to spar"


def pitch_wrong(surface: Surface, spot: Spot, event: Happened, *, fully: bool) -> Done:
    """Lay a row out with another pitch or count; first and last rivet stay.

    Parameters
    ----------
    surface : Surface
        As it is so far.
    spot : Spot
        A whole row.
    event : Happened
        ``pitch`` or ``count``.
    fully : bool
        Not asked: it is worked out [-].

    Returns
    -------
    Done
        With the real pitch and count said.
    """
    del fully
    one_of(event, spot, ("row",), SUCH, surface)
    said(event, "pitch or count", surface=surface)
    if spot.rivets or spot.rib:
        message = f'"{event.what}" is of a whole row. Write: where = "{spot.owner.replace("_", " ")}"'
        raise SurfaceError(message)
    if event.pitch.known and event.count is not None:
        message = "pitch and count both: write the one that was measured"
        raise SurfaceError(message)
    row = surface.rows[spot.owner]
    laid = replace(row, pitch=event.pitch, count=None) if event.pitch.known else replace(
        row, pitch=UNKNOWN, count=event.count)  # fmt: skip
    surface = replace(surface, rows={**surface.rows, spot.owner: laid})
    plan = plan_row(surface, laid)
    told = event.pitch.said if event.pitch.known else f"{event.count} rivets"
    if plan is not None and not plan.rib_count.size:
        apart = show(plan.pitch, "length", "inch" if surface.units == "inch" else "metric")
        told += f": {plan.total} rivets, {apart} apart"
    return Done(surface, spot.names, (f"{spot.words[0]}: laid out at {told}",))


def shim(surface: Surface, spot: Spot, event: Happened, *, fully: bool) -> Done:
    """Put a shim between the sheets of a row: the load is handed over at a distance, and the rivets are pulled for it.

    Parameters
    ----------
    surface : Surface
        As it is so far.
    spot : Spot
        A whole row.
    event : Happened
        ``thickness``.
    fully : bool
        Not asked: it is worked out [-].

    Returns
    -------
    Done
        With the moment of the offset on every rivet of the row.
    """
    del fully
    one_of(event, spot, ("row",), SUCH, surface)
    said(event, "thickness", surface=surface)
    if spot.rivets or spot.rib:
        message = f'"{event.what}" is worked for a whole row. Write: where = "{spot.owner.replace("_", " ")}"'
        raise SurfaceError(message)
    surface = with_apart(surface, spot.whole, shim=event.thickness)
    told = f"shim of {event.thickness.said}: its load passes that much farther from sheet to sheet"
    told += "; its own mass is not counted"
    return Done(surface, spot.names, (f"{spot.words[0]}: {told}",))
