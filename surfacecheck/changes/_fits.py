"""Whether what is said of a hole or an edge can be there: on the sheet, on the flange, with room for the next."""

from __future__ import annotations

from typing import TYPE_CHECKING

from surfacecheck.changes._asked import sheet_words
from surfacecheck.errors import SurfaceError
from surfacecheck.places import (
    apart_at,
    drawn_edge,
    gap_along,
    rivet_at,
    rivets_of_bracket,
    rivets_of_horn,
    rivets_of_row,
)
from surfacecheck.provenance import UNKNOWN, numbers

if TYPE_CHECKING:
    from surfacecheck.model import Apart, Happened, Surface
    from surfacecheck.places import Spot
    from surfacecheck.provenance import Value

__all__ = ["check_hole_in_sheet", "check_on_flange", "check_some_hold"]


def check_hole_in_sheet(surface: Surface, spot: Spot, event: Happened) -> None:
    """Refuse a hole that would break the edge of its sheet.

    Parameters
    ----------
    surface : Surface
        With an event worked in.
    spot : Spot
        Its place.
    event : Happened
        What happened there, for the key that tells the size.

    Raises
    ------
    SurfaceError
        With both measures.
    """
    key = next((f" ({one})" for one in ("largest", "smallest", "across") if getattr(event, one).known), "")
    for name in spot.names if spot.rivets else ():
        one, rivet = apart_at(surface, name), rivet_at(surface, spot, name)
        drawn = UNKNOWN if rivet is None else rivet.hole
        _short_of_the_next(surface, spot, one, drawn, key)
        for layer, edge in one.edge.items():
            check_on_flange(surface, spot, layer, edge)
            for hole in (one.across.get(layer, drawn), one.along.get(layer, drawn)):
                if hole.known and edge.known and (numbers(edge) < 0.5 * numbers(hole)).any():
                    message = (
                        f"edge {edge.said} puts a {hole.said} hole over the edge of {sheet_words(surface, layer)}. "
                        "Hole centre to edge is meant: measured from the rim, add half the hole"
                    )
                    raise SurfaceError(message)
        for layer, across in one.across.items():
            edge = UNKNOWN if layer in one.edge else drawn_edge(surface, spot, layer)
            if edge.known and across.known and (numbers(edge) < 0.5 * numbers(across)).any():
                message = (
                    f"a hole of {across.said}{key} goes over the edge of {sheet_words(surface, layer)}, {edge.said} "
                    "from its centre as drawn: nothing is left there. Is its size right? If the edge is further off, "
                    f'write edges = {{ {surface.said(layer)} = "... mm" }}'
                )
                raise SurfaceError(message)


def check_some_hold(surface: Surface, spot: Spot) -> None:
    """Refuse a bracket, horn or row of which no rivet is left that holds.

    Parameters
    ----------
    surface : Surface
        With an event or an option worked in.
    spot : Spot
        Where it is.

    Raises
    ------
    SurfaceError
        Where every rivet of what the place belongs to holds nothing.
    """
    head = f"{spot.whole}.rivet-"
    out = [name for name, one in surface.apart.items() if name.startswith(head) and not numbers(one.holds).any()]
    if not (spot.rivets and out):
        return
    if spot.sort == "row":
        count = rivets_of_row(surface, spot.owner, spot.rib, listed="all")
    else:
        count = rivets_of_horn(surface) if spot.sort == "horn" else rivets_of_bracket(surface, spot.owner)
    if len(out) >= count:
        whole = spot.words[0].rpartition(" rivet ")[0].rstrip(",")
        message = (
            f"of {whole} none of the {count} rivets would hold: what carries its load then is outside this method, "
            "ask. The command gone shows what the rest carries without a hinge or a rib"
        )
        raise SurfaceError(message)


def _short_of_the_next(surface: Surface, spot: Spot, one: Apart, drawn: Value, key: str) -> None:
    """Refuse a hole that reaches the hole of the next rivet in its line."""
    gap = gap_along(surface, spot)
    for layer, along in one.along.items():
        if not (gap.known and along.known and drawn.known):
            continue
        beside = numbers(one.beside[layer]) if layer in one.beside else 0.0
        if (0.5 * (numbers(along) + numbers(drawn)) + beside >= numbers(gap)).any():
            message = (
                f"a hole of {along.said} reaches the next rivet, {gap.said} away: both are then one slot, and that is "
                "outside this method"
            )
            raise SurfaceError(message)
        if (numbers(along) >= numbers(gap)).any():
            message = (
                f"a hole of {along.said}{key} is wider than from rivet to rivet, {gap.said}: what is left between them "
                "is then outside this method. Is its size right?"
            )
            raise SurfaceError(message)


def check_on_flange(surface: Surface, spot: Spot, layer: str, edge: Value) -> None:
    """Refuse an edge that is wider than the flange it is measured on.

    Parameters
    ----------
    surface : Surface
        As it is.
    spot : Spot
        A row, or a rivet of one.
    layer : str
        Name of the sheet.
    edge : Value
        As measured [m].

    Raises
    ------
    SurfaceError
        With both measures.
    """
    if spot.sort != "row" or layer not in {"spar", "ribs"}:
        return
    skins = set(surface.rows[spot.owner].joins) & {"left_skin", "right_skin", "nose_skin"}
    flange = getattr(surface.sheet, layer).flange
    if skins and flange.known and edge.known and (numbers(edge) >= numbers(flange)).any():
        message = (
            f"edge {edge.said} is more than the flange is wide ({flange.said}): from the hole's centre to its free edge"
        )
        raise SurfaceError(message)
