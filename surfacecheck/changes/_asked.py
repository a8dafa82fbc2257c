"""What an event must say: asked for in one clear line, never assumed."""

from __future__ import annotations

from typing import TYPE_CHECKING

from surfacecheck.changes._examples import example_of
from surfacecheck.errors import SurfaceError
from surfacecheck.model import Units
from surfacecheck.places import (
    apart_at,
    drawn_edge,
    gap_along,
    layers_at,
    nearest_of,
    rivet_at,
    rivets_of_bracket,
    rivets_of_horn,
    rivets_of_row,
)
from surfacecheck.provenance import UNKNOWN, numbers

if TYPE_CHECKING:
    from collections.abc import Iterable

    from surfacecheck.model import Apart, Happened, Surface
    from surfacecheck.places import Spot
    from surfacecheck.provenance import Value

__all__ = [
    "check_hole_in_sheet",
    "check_on_flange",
    "check_some_hold",
    "edges_said",
    "layers_said",
    "one_of",
    "said",
    "sheet_words",
    "where_is",
]


def said(event: Happened, *keys: str, surface: Surface | None = None) -> None:
    """Ask for values that an event cannot go without.

    Parameters
    ----------
    event : Happened
        The event.
    *keys : str
        Keys of which every one must be there; ``"pitch or count"`` for one of two.
    surface : Surface, optional
        For its own words of direction, and its units.

    Raises
    ------
    SurfaceError
        Naming what is missing, and how to write it.
    """
    for wanted in keys:
        either = wanted.split(" or ")
        if not any(_there(getattr(event, {"from": "start"}.get(key, key))) for key in either):
            message = f'"{event.what}" needs {wanted}: write {" or ".join(_such(key, surface) for key in either)}'
            raise SurfaceError(message)


def _there(value: object) -> bool:
    return bool(getattr(value, "known", value))


def _such(key: str, surface: Surface | None) -> str:
    words = {"alloy": '"2024-T3 clad"', "rivet": '"its name in part D"', "second_lies": '"behind"', "mass": '"0.25 kg"'}
    words |= {"wind": '"40 knots"', "swung": '"25 deg"', "stop_gives": '"3 deg"', "count": "36", "lines": "1"}
    up, left = (word if surface is None else surface.said(word) for word in ("up", "left"))
    unit = "in" if surface is not None and surface.units is Units.INCH else "mm"
    words |= {"out_of_line": f'"... {unit} {left}"', "out_of_line_aft": f'"... {unit} behind"'}
    words |= {"off_along": f'"... {unit} {up}"', "off_sideways": f'"... {unit} {left}"', "turned": f'"... deg {left}"'}
    length = f'"... {unit}"'
    return f"{key} = {words.get(key, length)}"


def one_of(event: Happened, spot: Spot, sorts: tuple[str, ...], such: str, surface: Surface | None = None) -> None:
    """Refuse a kind of place that an event cannot be at.

    Parameters
    ----------
    event : Happened
        The event.
    spot : Spot
        Its place.
    sorts : tuple of str
        Sorts of place it can be at; ``rivets`` for any with rivets.
    such : str
        An example of such a place.
    surface : Surface, optional
        For an example among its own places.

    Raises
    ------
    SurfaceError
        Saying where it can be.
    """
    if spot.sort not in sorts and not ("rivets" in sorts and spot.rivets):
        such = such if surface is None else example_of(surface, such)
        message = f'"{event.what}" cannot be at {spot.words[0]}. Write where, such as: {such}'
        raise SurfaceError(message)


def where_is(surface: Surface, spot: Spot) -> str:
    """List the layers under a rivet, for a message."""
    return ", ".join(f'"{surface.said(one)}"' for one in layers_at(surface, spot))


def sheet_words(surface: Surface, layer: str) -> str:
    """Give the words of a layer as this surface says them: ``left skin``, ``top skin``."""
    return surface.said(layer).replace("_", " ")


def layers_said(surface: Surface, spot: Spot, names: Iterable[str]) -> tuple[str, ...]:
    """Refuse a layer that is not there.

    Parameters
    ----------
    surface : Surface
        As it is.
    spot : Spot
        A place with rivets.
    names : iterable of str
        Layers as typed.

    Returns
    -------
    tuple of str
        The same.

    Raises
    ------
    SurfaceError
        Naming the nearest, and those that are there.
    """
    there = layers_at(surface, spot)
    found = tuple(names)
    for one in found:
        if one not in there:
            near = nearest_of(surface.said(one), [surface.said(layer) for layer in there])
            here = f"Layers there: {where_is(surface, spot)}"
            message = f'layer "{surface.said(one)}" is not under {spot.words[0]}{near}. {here}'
            raise SurfaceError(message)
    return found


def edges_said(surface: Surface, spot: Spot, event: Happened) -> dict[str, Value]:
    """Give the edge distance of each layer that an event tells one of.

    A single ``edge`` counts for the layers named, where several are, for those of which the drawing gives one.

    Parameters
    ----------
    surface : Surface
        As it is.
    spot : Spot
        A place with rivets.
    event : Happened
        ``edge`` with ``layers``, or ``edges``.

    Returns
    -------
    dict of str to Value
        By the name of the layer [m].

    Raises
    ------
    SurfaceError
        For a layer that is not there.
    """
    layers = layers_said(surface, spot, event.layers)
    found = {}
    if event.edge.known:
        found = {one: event.edge for one in layers if len(layers) == 1 or drawn_edge(surface, spot, one).known}
    layers_said(surface, spot, event.edges)
    return found | {one: edge for one, edge in event.edges.items() if edge.known}


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
