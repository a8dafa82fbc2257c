"""Holes that are not as the drawing says: too large, oval, two in one, one too many."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.changes._asked import edges_said, layers_said, one_of, said
from surfacecheck.changes._done import Done
from surfacecheck.changes._marks import check_has_walls, check_within
from surfacecheck.errors import SurfaceError
from surfacecheck.model import Around, Mark, YesNo
from surfacecheck.places import drawn_edge, layers_at, rivet_at, with_apart
from surfacecheck.provenance import UNKNOWN, WORKED_OUT, Basis, Source, Value, numbers

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, NDArray

    from surfacecheck.model import Happened, Rivet, Surface
    from surfacecheck.places import Spot

__all__ = ["HOLDS_NOTHING", "hole_too_large", "stray_hole", "two_holes"]

HOLDS_NOTHING = Value(0.0, "holds nothing", Source(Basis.ASSUMED))
"""It holds nothing."""
BOUNDS = "holds fully and holds nothing are the bounds"
RIVETS = ("rivets",)
SUCH = "hinge middle, bracket rivet 3"


def hole_too_large(surface: Surface, spot: Spot, event: Happened, *, fully: bool) -> Done:
    """Make the hole of a rivet larger; a rivet outside the range of its hole holds between fully and nothing.

    Parameters
    ----------
    surface : Surface
        As it is so far.
    spot : Spot
        The rivets.
    event : Happened
        ``smallest``, ``largest``, ``largest_points``; ``layers``, ``edge`` or ``edges``, ``rivet_in``.
    fully : bool
        Which bound is asked for [-].

    Returns
    -------
    Done
        With the hole in each layer named.
    """
    one_of(event, spot, RIVETS, SUCH, surface)
    _in_order(event)
    return _holed(surface, spot, event, *_sizes(surface, event, spot), fully=fully)


def two_holes(surface: Surface, spot: Spot, event: Happened, *, fully: bool) -> Done:
    """Make one slot of two holes that touch: as long as both together, as wide as the wider one.

    Parameters
    ----------
    surface : Surface
        As it is so far.
    spot : Spot
        The rivet in the first hole.
    event : Happened
        ``spacing`` and ``second_lies``; ``across`` of the second hole, ``smallest`` of the first; ``layers``.
    fully : bool
        Which bound is asked for [-].

    Returns
    -------
    Done
        The slot bears over the width of a hole, and is missing over its whole length.
    """
    one_of(event, spot, RIVETS, SUCH, surface)
    said(event, "spacing", "second_lies", surface=surface)
    rivet = rivet_at(surface, spot, spot.names[0])
    first = event.smallest if event.smallest.known else UNKNOWN if rivet is None else rivet.hole
    second = event.across if event.across.known else first
    if not first.known:
        said(event, "smallest", surface=surface)
    reach = 0.5 * (numbers(first) + numbers(second))
    if (numbers(event.spacing) > reach).any():
        message = (
            f"two holes of {first.said} and {second.said}, {event.spacing.said} from centre to centre, do not touch: "
            'write what = "stray hole"'
        )
        raise SurfaceError(message)
    slot = replace(
        event.spacing,
        si=_plain(numbers(event.spacing) + reach),
        said=f"{event.spacing.said} + half of {first.said} and of {second.said}",
        source=WORKED_OUT,
    )
    wide = first if (numbers(first) >= numbers(second)).all() else second
    sizes = (wide, slot) if _along(surface, event.second_lies, spot, "second_lies") else (slot, wide)
    return _holed(surface, spot, event, *sizes, fully=fully, slot=True)


def stray_hole(surface: Surface, spot: Spot, event: Happened, *, fully: bool) -> Done:
    """Put an open hole into a sheet, or beside a rivet.

    Parameters
    ----------
    surface : Surface
        As it is so far.
    spot : Spot
        A place of a sheet; or a rivet, with ``spacing``.
    event : Happened
        ``across``.
    fully : bool
        Not asked: an open hole holds nothing [-].

    Returns
    -------
    Done
        With a mark at that place.
    """
    one_of(event, spot, ("part", "rivets"), "spar web, at 325 mm", surface)
    said(event, "across", surface=surface)
    if spot.rivets:
        said(event, "spacing", "second_lies", "layers", surface=surface)
        return _beside(surface, spot, event)
    check_has_walls(spot, event)
    if spot.station is None:
        message = f'"{event.what}" needs its place along the pins: write where = "{spot.words[0]}, at 325 mm"'
        raise SurfaceError(message)
    check_within(surface, spot, event.across)
    part = f"spar {spot.side or 'web'}" if spot.owner == "spar" else spot.owner
    up = Value(spot.station.y, spot.station.words, Source(Basis.AS_SAID))
    mark = Mark("hole", part, up, across=event.across)
    return Done(
        replace(surface, marks={**surface.marks, spot.names[0]: mark}),
        spot.names,
        (f"{spot.words[0]}: open hole of {event.across.said}",),
    )


def _beside(surface: Surface, spot: Spot, event: Happened) -> Done:
    """Put an open hole beside a rivet: its rim counts as an edge."""
    rivet = rivet_at(surface, spot, spot.names[0])
    if rivet is not None and rivet.hole.known:
        reach = 0.5 * (numbers(rivet.hole) + numbers(event.across))
        if (numbers(event.spacing) <= reach).any():
            message = f'holes {event.spacing.said} from centre to centre touch: write what = "two holes touching"'
            raise SurfaceError(message)
    in_line = _along(surface, event.second_lies, spot, "second_lies")
    rim = replace(
        event.spacing,
        si=_plain(numbers(event.spacing) - 0.5 * numbers(event.across)),
        said=f"{event.spacing.said} less half of {event.across.said}",
        source=WORKED_OUT,
    )
    edges = {}
    for layer in layers_said(surface, spot, event.layers):
        drawn = drawn_edge(surface, spot, layer)
        edges[layer] = drawn if drawn.known and (numbers(drawn) <= numbers(rim)).all() else rim
    beside = dict.fromkeys(event.layers, event.across) if in_line else {}
    for name in spot.names:
        surface = with_apart(surface, name, edge=edges, beside=beside)
    told = f"open hole of {event.across.said}, {event.spacing.said} from its centre: its rim counts as an edge"
    return Done(surface, spot.names, tuple(f"{words}: {told}" for words in spot.words))


def _holed(
    surface: Surface,
    spot: Spot,
    event: Happened,
    across: Value,
    along: Value,
    *,
    fully: bool,
    slot: bool = False,
) -> Done:
    """Give each rivet its hole; whether it then holds is known only inside the range of its packet."""
    layers = layers_said(surface, spot, event.layers) or layers_at(surface, spot)
    edges = edges_said(surface, spot, event)
    measured = across.known and along.known
    says, left_open = [], False
    for name, words in zip(spot.names, spot.words, strict=True):
        rivet = rivet_at(surface, spot, name)
        _fits(rivet, (across, along))
        unsure = slot or not measured or event.rivet_in is not YesNo.YES or _outside(rivet, (across, along))
        if measured and (event.layers or not fully):
            sizes = {"across": dict.fromkeys(layers, across), "along": dict.fromkeys(layers, along)}
            surface = with_apart(surface, name, **sizes)
        surface = with_apart(surface, name, edge=edges, **({"holds": HOLDS_NOTHING} if unsure and not fully else {}))
        says += _told(words, event, across, along, unsure=unsure)
        left_open = left_open or unsure or (measured and not event.layers)
    return Done(surface, spot.names, tuple(says), left_open)


def _sizes(surface: Surface, event: Happened, spot: Spot) -> tuple[Value, Value]:
    """Give the hole across and along the line of the rivets; taken both ways as large where its way is not said."""
    most = event.largest if event.largest.known else event.smallest
    if not (event.smallest.known and event.largest.known) or event.largest_points is None:
        return most, most
    along = _along(surface, event.largest_points, spot, "largest_points")
    return (event.smallest, most) if along else (most, event.smallest)


def _along(surface: Surface, way: Around | None, spot: Spot, key: str) -> bool:
    """Whether a direction lies along the line of the rivets, or across it."""
    upright = {Around.UP, Around.DOWN}, {Around.LEFT, Around.RIGHT}
    flat = {Around.AHEAD, Around.BEHIND}, {Around.LEFT, Around.RIGHT}
    on_skin = {Around.UP, Around.DOWN}, {Around.AHEAD, Around.BEHIND}
    rib = {Around.AHEAD, Around.BEHIND}, {Around.UP, Around.DOWN}
    along, across = {"bracket": upright, "horn": flat}.get(spot.sort, rib if spot.rib else on_skin)
    if way in along or way in across:
        return way in along
    allowed = ", ".join(sorted(surface.said(str(one)) for one in along | across))
    message = f'{key} = "{surface.said(str(way))}": at {spot.words[0]} a hole goes {allowed}'
    raise SurfaceError(message)


def _in_order(event: Happened) -> None:
    if event.smallest.known and event.largest.known and (numbers(event.smallest) > numbers(event.largest)).any():
        message = f"smallest {event.smallest.said} is more than largest {event.largest.said}: change them over"
        raise SurfaceError(message)


def _fits(rivet: Rivet | None, sizes: tuple[Value, ...]) -> None:
    """Refuse a hole smaller than its rivet."""
    for size in sizes:
        if rivet is None or not (size.known and rivet.diameter.known):
            continue
        if (numbers(size) < numbers(rivet.diameter)).any():
            message = (
                f"a hole of {size.said} is smaller than the rivet ({rivet.diameter.said}): "
                "the size of the hole is meant, measured with the rivet out"
            )
            raise SurfaceError(message)


def _outside(rivet: Rivet | None, sizes: tuple[Value, ...]) -> bool:
    """Whether a hole lies outside the range that its rivet is made for; outside its own size where none is known."""
    if rivet is None:
        return True
    widest = rivet.hole_range[-1] if rivet.hole_range and rivet.hole_range[-1].known else rivet.hole
    if not widest.known:
        return True
    return any(bool((numbers(size) > numbers(widest) * (1.0 + 1e-9)).any()) for size in sizes)


def _told(words: str, event: Happened, across: Value, along: Value, *, unsure: bool) -> list[str]:
    sizes = across.said if across is along else f"{across.said} across and {along.said} along"
    measured = across.known and along.known
    told = [f"{words}: hole {sizes}" if measured else f"{words}: hole not measured"]
    if measured and not event.layers:
        told.append(f"{words}: which layers have it is not said: none of them and all of them are the bounds")
    if event.smallest.known and event.largest.known and event.largest_points is None and not event.spacing.known:
        told.append(f"{words}: which way the largest size points is not said: taken as wide both ways")
    if unsure and event.rivet_in is YesNo.NO:
        told.append(f"{words}: the rivet is out: one like it set in that hole, and none, are the bounds")
    elif unsure and event.rivet_in is None:
        told.append(f"{words}: whether the rivet is still in is not said: {BOUNDS}")
    elif unsure:
        told.append(f"{words}: nobody publishes what a rivet holds in such a hole: {BOUNDS}")
    return told


def _plain(value: ArrayLike) -> float | NDArray[np.float64]:
    array = np.asarray(value, dtype=np.float64)
    return array if array.ndim else float(array)
