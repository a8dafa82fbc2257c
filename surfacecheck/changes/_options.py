"""What might be done about it: each option is shown, none is recommended."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import replace
from typing import TYPE_CHECKING

from surfacecheck.changes._done import Done
from surfacecheck.changes._doubler import doubler_over
from surfacecheck.changes._examples import doubler_example, size_example
from surfacecheck.changes._next_size import next_size
from surfacecheck.changes._rivets import without
from surfacecheck.errors import SurfaceError
from surfacecheck.places import nearest_of, plain_words, plan_row, with_apart
from surfacecheck.provenance import UNKNOWN, Basis, Source, Value

if TYPE_CHECKING:
    from surfacecheck.model import Surface
    from surfacecheck.places import Spot

__all__ = ["is_as_drawn", "is_leave_it", "option_at"]

HALF = Value(0.5, "holds half", Source(Basis.ASSUMED))
"""It holds half of what its strength says."""
_LEAVE = ("leave it", "leave as is", "leave it as it is", "leave")
_AS_DRAWN = ("part replaced", "as drawn", "rivet put in", "put in line", "shim taken out", "taken off", "new part")
_OUT = ("rivet not there", "rivet left out", "no rivet")


def is_leave_it(text: str) -> bool:
    """Tell whether an option is to leave it: the column "as it is now" is that."""
    return plain_words(text) in _LEAVE


def is_as_drawn(text: str) -> bool:
    """Tell whether an option takes back what happened, so that the drawing holds there again."""
    return plain_words(text) in _AS_DRAWN


def option_at(surface: Surface, spot: Spot, text: str, *, fully: bool) -> Done:
    """Work one option in, over the event it answers.

    Parameters
    ----------
    surface : Surface
        With everything that happened.
    spot : Spot
        Where the event is.
    text : str
        Such as ``next size 4.8 mm``.
    fully : bool
        Which bound is asked for [-].

    Returns
    -------
    Done
        As it would be.

    Raises
    ------
    SurfaceError
        For an option nobody knows, or one that cannot be at that place.
    """
    asked = plain_words(text)
    if asked in _OUT and spot.rivets:
        told = tuple(f"{words}: no rivet in its hole" for words in spot.words)
        return Done(without(surface, spot), spot.names, told)
    if size := re.fullmatch(r"(?:next size|rivet)(?: (\d.*))?", asked):
        return next_size(surface, spot, size[1], fully=fully)
    if found := re.fullmatch(r"doubler (\S+ \S+) (\S+ \S+) long (\S+ \S+) wide", asked):
        return doubler_over(surface, spot, *found.groups())
    work = _SIMPLE.get(asked)
    if work is None or (asked not in _ROWS and not spot.rivets):
        raise _unknown(surface, text)
    return work(surface, spot)


def _unknown(surface: Surface, text: str) -> SurfaceError:
    such = ("leave it", size_example(surface), _OUT[0], *_SIMPLE, doubler_example(surface), _AS_DRAWN[0])
    message = f'try = "{text}" cannot be there, or nobody knows it{nearest_of(text, such)}. Such as: {", ".join(such)}'
    return SurfaceError(message)


def _half(surface: Surface, spot: Spot) -> Done:
    for name in spot.names:
        surface = with_apart(surface, name, holds=HALF)
    return Done(surface, spot.names, tuple(f"{words}: taken to hold half" for words in spot.words))


def _either_side(surface: Surface, spot: Spot) -> Done:
    """Set a rivet half-way to each neighbour; what sits in the old holes stays as it is."""
    if spot.sort != "row" or spot.rib:
        message = f"extra rivets either side: of a row along the pins only, not at {spot.words[0]}"
        raise SurfaceError(message)
    for name in spot.names:
        surface = with_apart(surface, name, extra=Value(1.0, "one either side", Source(Basis.ASSUMED)))
    told = tuple(f"{words}: one more rivet half-way to each neighbour" for words in spot.words)
    return Done(surface, spot.names, told, settles=False)


def _between(surface: Surface, spot: Spot) -> Done:
    """Set one more rivet into every space of a row."""
    row = surface.rows.get(spot.owner)
    plan = None if row is None or spot.sort != "row" else plan_row(surface, row)
    if row is None or plan is None or plan.rib_count.size:
        message = f"rivets between: of a whole row along the pins only, not at {spot.words[0]}"
        raise SurfaceError(message)
    closer = replace(row, pitch=UNKNOWN, count=2 * int(plan.count) - 1)
    told = f"{spot.words[0]}: one more rivet in every space, {closer.count} in a line"
    return Done(replace(surface, rows={**surface.rows, spot.owner: closer}), spot.names, (told,))


_SIMPLE: dict[str, Callable[[Surface, Spot], Done]] = {
    "holds half": _half,
    "extra rivets either side": _either_side,
    "rivets between": _between,
}
_ROWS = ("rivets between",)
