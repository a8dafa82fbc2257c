"""Edges that came out short, at one rivet or more and more along a row."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from surfacecheck.changes._asked import edges_said, layers_said, one_of, said, where_is
from surfacecheck.changes._done import Done
from surfacecheck.changes._examples import example_of
from surfacecheck.changes._fits import check_on_flange
from surfacecheck.errors import SurfaceError
from surfacecheck.places import with_apart
from surfacecheck.provenance import numbers

if TYPE_CHECKING:
    from surfacecheck.model import Happened, Surface
    from surfacecheck.places import Spot

__all__ = ["row_drifted", "short_edge"]


def short_edge(surface: Surface, spot: Spot, event: Happened, *, fully: bool) -> Done:
    """Bring the edge of a layer nearer to the hole; below 1.5 diameters the checks say "outside the method".

    Parameters
    ----------
    surface : Surface
        As it is so far.
    spot : Spot
        Rivets, or a whole row.
    event : Happened
        ``edge`` with ``layers``, or ``edges``.
    fully : bool
        Not asked: a short edge is worked out [-].

    Returns
    -------
    Done
        With the edge in each layer named.
    """
    del fully
    one_of(event, spot, ("rivets", "row"), "left skin to spar, rivet 12", surface)
    said(event, "edge or edges", surface=surface)
    edges = edges_said(surface, spot, event)
    if not edges:
        message = f"which sheet has the short edge? Write layers = one of {where_is(surface, spot)}"
        raise SurfaceError(message)
    told = "; ".join(
        f"edge {edge.said} in the {surface.said(layer).replace('_', ' ')}" for layer, edge in edges.items()
    )
    for layer, edge in edges.items():
        check_on_flange(surface, spot, layer, edge)
    if not spot.rivets:
        row = surface.rows[spot.owner]
        rims = {layer: rim for layer, rim in row.edge_from_rim.items() if layer not in edges}
        surface = _with_row(surface, spot.owner, edge={**row.edge, **edges}, edge_from_rim=rims)
    for name in spot.names if spot.rivets else ():
        surface = with_apart(surface, name, edge=edges)
    return Done(surface, spot.names, tuple(f"{words}: {told}" for words in spot.words))


def row_drifted(surface: Surface, spot: Spot, event: Happened, *, fully: bool) -> Done:
    """Let the edge of a layer run in a straight line from the first rivet of a row to its last.

    Parameters
    ----------
    surface : Surface
        As it is so far.
    spot : Spot
        A whole row along the pins.
    event : Happened
        ``edge_first``, ``edge_last``, ``layers``.
    fully : bool
        Not asked: it is worked out [-].

    Returns
    -------
    Done
        Every rivet of the row has its own edge.
    """
    del fully
    one_of(event, spot, ("row",), "left skin to spar", surface)
    said(event, "edge_first", "edge_last", "layers", surface=surface)
    if spot.rivets or spot.rib or "ribs" in surface.rows[spot.owner].joins:
        such = example_of(surface, "left skin to spar")
        message = f'"{event.what}" is of a whole row along the pins. Write: where = "{such}"'
        raise SurfaceError(message)
    layers = layers_said(surface, spot, event.layers)
    rivet = surface.rivets.get(surface.rows[spot.owner].rivet)
    for layer in layers:
        check_on_flange(surface, spot, layer, event.edge_first)
        check_on_flange(surface, spot, layer, event.edge_last)
    for edge in (event.edge_first, event.edge_last):
        if rivet is not None and rivet.hole.known and (numbers(edge) < 0.5 * numbers(rivet.hole)).any():
            message = f"edge {edge.said} puts a {rivet.hole.said} hole over the edge. Hole centre to edge is meant"
            raise SurfaceError(message)
    first, last = (dict.fromkeys(layers, edge) for edge in (event.edge_first, event.edge_last))
    if (numbers(event.edge_first) == numbers(event.edge_last)).all():  # it runs off nowhere: one edge all along
        surface = _with_row(surface, spot.owner, edge={**surface.rows[spot.owner].edge, **first})
    else:
        surface = with_apart(surface, spot.whole, edge=first, edge_last=last)
    told = f"edge {event.edge_first.said} at the first rivet to {event.edge_last.said} at the last"
    sheets = ", ".join(map(surface.sheet_words, layers))
    return Done(surface, spot.names, (f"{spot.words[0]}, {sheets}: {told}, straight between",))


def _with_row(surface: Surface, name: str, **changed: object) -> Surface:
    row = replace(surface.rows[name], **changed)  # type: ignore[arg-type]
    return replace(surface, rows={**surface.rows, name: row})
