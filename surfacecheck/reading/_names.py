"""Names that point at something: metals, rivets, brackets, parts; and edges that a hole would break."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from functools import cache

from surfacecheck.errors import SurfaceError
from surfacecheck.model import Surface
from surfacecheck.provenance import Value
from surfacecheck.quantities import parse
from surfacecheck.reading._context import Context, nearest
from surfacecheck.reading._cross import length_of

__all__ = ["check_names", "edges_and_holes", "joined_words"]

_LIES_ON = ("spar web", "spar flange", "left_skin", "right_skin", "nose_skin", "a rib")


@cache
def _shipped(name: str) -> bool:
    # Imported here: the tables are only opened for a file that names a metal.
    from surfacecheck.library import material

    try:
        material(name)
    except SurfaceError:
        return False
    return True


def check_names(surface: Surface, context: Context) -> None:
    """Note every name nobody knows and every hole that would break an edge.

    Parameters
    ----------
    surface : Surface
        As read so far.
    context : Context
        Takes faults and gaps.
    """
    for name, key in _alloys(surface, context):
        _metal(name, key, surface, context)
    for name, key in _rivets(surface):
        _pointed("rivet", name, key, surface.rivets, context)
    for hinge in surface.hinges.values():
        _pointed("bracket", hinge.bracket, f"hinge.{hinge.name}.bracket", surface.brackets, context)
    _horn(surface, context)
    for name, doubler in surface.sheet.doublers.items():
        if doubler.on and doubler.on not in _LIES_ON and not _rib_at(doubler.on):
            allowed = [context.said(one) for one in _LIES_ON]
            context.unknown(doubler.on, allowed, context.place_of(f"sheet.{name}.on"), f"sheet.{name}.on")
    for value, hole, what in edges_and_holes(surface):
        _edge(value, hole, what, context)


def _alloys(surface: Surface, context: Context) -> Iterator[tuple[str, str]]:
    sheet = surface.sheet
    for name in ("left_skin", "right_skin", "nose_skin", "spar", "ribs"):
        yield getattr(sheet, name).alloy, f"sheet.{context.said(name)}.alloy"
    for name, doubler in sheet.doublers.items():
        yield doubler.alloy, f"sheet.{name}.alloy"
    for name, bracket in surface.brackets.items():
        yield bracket.alloy, f"bracket.{name}.alloy"
    if surface.horn is not None:
        yield surface.horn.plate.alloy, "horn.plate.alloy"
    if surface.balance_mass.arm is not None:
        yield surface.balance_mass.arm.alloy, "balance_mass.arm.alloy"


def _metal(name: str, key: str, surface: Surface, context: Context) -> None:
    if not name or name in surface.alloys or _shipped(name):
        return
    from surfacecheck.library import materials

    near = nearest(name, [*surface.alloys, *materials()])
    told = f' Nearest: "{near}".' if near else ""
    message = f'alloy "{name[:40]}" is not known.{told} Own one: [alloy.mine] with tension, yield, shear, crushing, '
    context.wrong(message + "stiffness and where from.", key)


def _rivets(surface: Surface) -> Iterator[tuple[str, str]]:
    for name, row in surface.rows.items():
        yield row.rivet, f"row.{name}.rivet"
    for name, bracket in surface.brackets.items():
        yield bracket.rivet, f"bracket.{name}.rivet"
    if surface.horn is not None:
        yield surface.horn.fixed_with.rivet, "horn.fixed_with.rivet"
    if surface.balance_mass.fixed_with is not None:
        yield surface.balance_mass.fixed_with.rivet, "balance_mass.fixed_with.rivet"


def _pointed(what: str, name: str, key: str, there: Iterable[str], context: Context) -> None:
    there = list(there)
    if not name or name in there:
        return
    if not there:  # that part of the file is not filled in yet
        context.gaps.append(f"{what}.{name}")
        return
    near = nearest(name, there)
    told = f" Nearest: {near}." if near and len(there) > 4 else ""
    own = " Own one: give diameter, hole, shear, pull and where from." if what == "rivet" else ""
    context.wrong(f'{what} "{name[:40]}" is not in [{what}].{told} Here: {", ".join(there)}.{own}', key)


def _rib_at(text: str) -> bool:
    """Whether a text names one rib by its place: ``rib at 90 mm``."""
    found = re.fullmatch(r"rib at (.+)", text)
    if not found:
        return False
    try:
        parse(found[1], "length")
    except SurfaceError:
        return False
    return True


def rib_number(text: str, surface: Surface) -> int | None:
    """Read a rib by its number on the map.

    Parameters
    ----------
    text : str
        ``rib 2`` or ``rib-2``.
    surface : Surface
        For how many there are.

    Returns
    -------
    int or None
        From 1 at the root; None for what names no rib that is there.
    """
    found = re.fullmatch(r"rib[ -]?([0-9]{1,3})", text)
    return int(found[1]) if found and 1 <= int(found[1]) <= len(surface.sheet.ribs.up) else None


def joined_words() -> tuple[str, ...]:
    """Give the words for what a horn may be riveted to, beside ``rib at 90 mm``."""
    return ("bottom rib", "top rib", "spar")


def _horn(surface: Surface, context: Context) -> None:
    horn = surface.horn
    if horn is None or not horn.joined_to or horn.joined_to in joined_words() or _rib_at(horn.joined_to):
        return
    if rib_number(horn.joined_to, surface) is not None:
        return
    allowed = [*(context.said(one) for one in joined_words()), "rib 2", "rib at 90 mm"]
    context.unknown(horn.joined_to, allowed, context.place_of("horn.joined_to"), "horn.joined_to")


def edges_and_holes(surface: Surface) -> Iterator[tuple[Value, Value, str]]:
    """Give each distance from a hole's centre to an edge, with the hole.

    Parameters
    ----------
    surface : Surface
        As read.

    Yields
    ------
    tuple of (Value, Value, str)
        Distance and hole, known or not, and the last word of the line.
    """
    for row in surface.rows.values():
        rivet = surface.rivets.get(row.rivet)
        for value in row.edge.values() if rivet else ():
            yield value, rivet.hole, "edge"  # type: ignore[union-attr]
    for bracket in surface.brackets.values():
        rivet = surface.rivets.get(bracket.rivet)
        for value in bracket.edge.values() if rivet else ():
            yield value, rivet.hole, "edge"  # type: ignore[union-attr]
        yield bracket.pin.edge, bracket.pin.diameter, "edge"
    horn = surface.horn
    if horn is not None:
        yield horn.plate.bolt_edge, horn.plate.bolt_hole, "bolt_edge"
        rivet = surface.rivets.get(horn.fixed_with.rivet)
        if rivet is not None:
            yield horn.fixed_with.edge, rivet.hole, "edge"


def _edge(value: Value, hole: Value, what: str, context: Context) -> None:
    edge, size = length_of(value), length_of(hole)
    if edge is None or size is None or edge >= size / 2:
        return
    message = f"{what} {value.said} puts a {hole.said} hole over the sheet edge. Centre to edge is meant"
    rim = "; use edge_from_rim for rim to edge." if value.key.startswith("row.") else "."
    context.wrong(message + rim, value.key)
