"""Rivets that are not there, are other ones, or look poor."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from surfacecheck.changes._asked import one_of, said
from surfacecheck.changes._done import Done
from surfacecheck.changes._holes import BOUNDS, HOLDS_NOTHING, SUCH
from surfacecheck.errors import SurfaceError
from surfacecheck.places import drawn_rivet, nearest_of, with_apart
from surfacecheck.provenance import UNKNOWN, Basis, Source, Value, numbers

if TYPE_CHECKING:
    from surfacecheck.model import Happened, Rivet, Surface
    from surfacecheck.places import Spot

__all__ = ["OPEN", "poor_rivet", "rivet_missing", "without", "wrong_grip", "wrong_rivet"]

OPEN = Value(0.0, "open hole", Source(Basis.ASSUMED))
"""There is no rivet in the hole."""


def rivet_missing(surface: Surface, spot: Spot, event: Happened, *, fully: bool) -> Done:
    """Take rivets out: they have no stiffness, their neighbours get more, the sheet between them is free further.

    Parameters
    ----------
    surface : Surface
        As it is so far.
    spot : Spot
        One rivet or several.
    event : Happened
        Nothing more is asked.
    fully : bool
        Not asked: a rivet that is not there holds nothing [-].

    Returns
    -------
    Done
        Without them.
    """
    del fully
    one_of(event, spot, ("rivets",), "left skin to spar, rivets 12 and 13", surface)
    return Done(without(surface, spot), spot.names, tuple(f"{words}: not there" for words in spot.words))


def without(surface: Surface, spot: Spot) -> Surface:
    """Take the rivets of a place out.

    Parameters
    ----------
    surface : Surface
        As it is.
    spot : Spot
        With rivets.

    Returns
    -------
    Surface
        Without them.
    """
    for name in spot.names:
        surface = with_apart(surface, name, holds=HOLDS_NOTHING, there=OPEN)
    return surface


def wrong_rivet(surface: Surface, spot: Spot, event: Happened, *, fully: bool) -> Done:
    """Set another rivet: its strength, its stiffness by area, its head and its mass.

    Parameters
    ----------
    surface : Surface
        As it is so far.
    spot : Spot
        Rivets, or a whole row or bracket.
    event : Happened
        ``rivet``, its name in part D.
    fully : bool
        Which bound is asked for, where its hole is not one of its own [-].

    Returns
    -------
    Done
        With that rivet.
    """
    one_of(event, spot, ("rivets", "row"), SUCH, surface)
    said(event, "rivet", surface=surface)
    rivet = surface.rivets.get(event.rivet)
    if rivet is None:
        here = ", ".join(surface.rivets)
        message = f'rivet "{event.rivet}" is not in [rivet]{nearest_of(event.rivet, surface.rivets)}. Here: {here}'
        raise SurfaceError(message)
    if not spot.rivets:
        row = replace(surface.rows[spot.owner], rivet=event.rivet)
        told = (f"{spot.words[0]}: {_named(rivet)} throughout, in holes of its own",)
        return Done(replace(surface, rows={**surface.rows, spot.owner: row}), spot.names, told)
    drawn = drawn_rivet(surface, spot)
    rivet = _in_hole(rivet, drawn)
    loose = _loose(rivet)
    says = [f"{words}: {_named(rivet)}" for words in spot.words]
    if loose:
        says.append(f"{spot.words[0]}: its hole, {rivet.hole.said}, is not known to be in its range: {BOUNDS}")
    for name in spot.names:
        surface = with_apart(surface, name, rivet=rivet)
        if loose and not fully:
            surface = with_apart(surface, name, holds=HOLDS_NOTHING)
    return Done(surface, spot.names, tuple(says), loose)


def wrong_grip(surface: Surface, spot: Spot, event: Happened, *, fully: bool) -> Done:
    """Set a rivet of the wrong length: nobody publishes what it holds, so both bounds are shown.

    Parameters
    ----------
    surface : Surface
        As it is so far.
    spot : Spot
        The rivets.
    event : Happened
        Nothing more is asked.
    fully : bool
        Which bound is asked for [-].

    Returns
    -------
    Done
        As drawn, or holding nothing.
    """
    one_of(event, spot, ("rivets",), SUCH, surface)
    says = tuple(f"{words}: not of the grip its stack asks for: {BOUNDS}" for words in spot.words)
    return _doubted(surface, spot, says, fully=fully)


def poor_rivet(surface: Surface, spot: Spot, event: Happened, *, fully: bool) -> Done:
    """Doubt a rivet that looks poor: both bounds; half of it is offered as an option.

    Parameters
    ----------
    surface : Surface
        As it is so far.
    spot : Spot
        The rivets.
    event : Happened
        Nothing more is asked.
    fully : bool
        Which bound is asked for [-].

    Returns
    -------
    Done
        As drawn, or holding nothing.
    """
    one_of(event, spot, ("rivets",), SUCH, surface)
    says = tuple(f"{words}: looks poor, and nobody publishes what it holds: {BOUNDS}" for words in spot.words)
    return _doubted(surface, spot, says, fully=fully)


def _doubted(surface: Surface, spot: Spot, says: tuple[str, ...], *, fully: bool) -> Done:
    for name in () if fully else spot.names:
        surface = with_apart(surface, name, holds=HOLDS_NOTHING)
    if fully:
        for name in spot.names:
            surface = with_apart(surface, name)
    return Done(surface, spot.names, says, left_open=True)


def _in_hole(rivet: Rivet, drawn: Rivet | None) -> Rivet:
    """Give a rivet with the hole that it sits in: the drawing's, or its own where it does not go into that one."""
    if drawn is None or not drawn.hole.known:
        return replace(rivet, hole=UNKNOWN)
    if rivet.diameter.known and (numbers(drawn.hole) < numbers(rivet.diameter)).any():
        return rivet
    return replace(rivet, hole=drawn.hole)


def _loose(rivet: Rivet) -> bool:
    """Whether the hole a rivet sits in is none that it is made for, or nobody knows."""
    ends = rivet.hole_range
    if not rivet.hole.known or len(ends) != 2 or not all(end.known for end in ends):
        return True
    low, high = (numbers(end) for end in ends)
    hole = numbers(rivet.hole)
    return bool(((hole < low * (1.0 - 1e-9)) | (hole > high * (1.0 + 1e-9))).any())


def _named(rivet: Rivet) -> str:
    return f"rivet {rivet.name}, {rivet.diameter.said}" if rivet.diameter.known else f"rivet {rivet.name}"
