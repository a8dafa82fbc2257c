"""What an event must say: asked for in one clear line, never assumed."""

from __future__ import annotations

from typing import TYPE_CHECKING

from surfacecheck.changes._examples import example_of
from surfacecheck.errors import SurfaceError
from surfacecheck.model import Units
from surfacecheck.places import (
    drawn_edge,
    layers_at,
    nearest_of,
)

if TYPE_CHECKING:
    from collections.abc import Iterable

    from surfacecheck.model import Happened, Surface
    from surfacecheck.places import Spot
    from surfacecheck.provenance import Value

__all__ = ["edges_said", "layers_said", "one_of", "said", "sheet_words", "where_is"]


def said(event: Happened, *keys: str, surface: Surface) -> None:
    """Ask for values that an event cannot go without.

    Parameters
    ----------
    event : Happened
        The event.
    *keys : str
        Keys of which every one must be there; ``"pitch or count"`` for one of two.
    surface : Surface
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


def _such(key: str, surface: Surface) -> str:
    words = {"alloy": '"2024-T3 clad"', "rivet": '"its name in part D"', "second_lies": '"behind"', "mass": '"0.25 kg"'}
    words |= {"wind": '"40 knots"', "swung": '"25 deg"', "stop_gives": '"3 deg"', "count": "36", "lines": "1"}
    up, left = (surface.said(word) for word in ("up", "left"))
    unit = "in" if surface.units is Units.INCH else "mm"
    words |= {"out_of_line": f'"... {unit} {left}"', "out_of_line_aft": f'"... {unit} behind"'}
    words |= {"off_along": f'"... {unit} {up}"', "off_sideways": f'"... {unit} {left}"', "turned": f'"... deg {left}"'}
    length = f'"... {unit}"'
    return f"{key} = {words.get(key, length)}"


def one_of(event: Happened, spot: Spot, sorts: tuple[str, ...], such: str, surface: Surface) -> None:
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
    surface : Surface
        For an example among its own places.

    Raises
    ------
    SurfaceError
        Saying where it can be.
    """
    if spot.sort not in sorts and not ("rivets" in sorts and spot.rivets):
        such = example_of(surface, such)
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
