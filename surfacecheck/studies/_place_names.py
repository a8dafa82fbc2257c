"""What everything is called: the names that ``show``, change files and pages use, from a half-filled file too."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.checks import bracket_needs, plan_row
from surfacecheck.model import plus_z_word
from surfacecheck.places import rivets_of_horn
from surfacecheck.quantities import show
from surfacecheck.tables import Table

if TYPE_CHECKING:
    from collections.abc import Iterator

    from surfacecheck.model import Hinge, Row, Surface
    from surfacecheck.provenance import Value
    from surfacecheck.quantities import System

__all__ = ["PlaceName", "place_names", "place_table"]


@dataclass(frozen=True, slots=True)
class PlaceName:
    """A name and what it stands for.

    Attributes
    ----------
    name : str
        As it is typed.
    what : str
        Where it is, how many rivets; what is missing where nothing is known yet.
    """

    name: str
    what: str


def place_names(surface: Surface, system: System = "metric") -> tuple[PlaceName, ...]:
    """List the names of a surface: hinges, bracket rivets, horn, ribs, rows, spar and panels.

    Parameters
    ----------
    surface : Surface
        Perhaps nothing but question marks.
    system : {"metric", "inch"}
        Units.

    Returns
    -------
    tuple of PlaceName
        From tip to root, then rows in the order of the file.
    """
    return tuple(_names(surface, system))


def place_table(names: tuple[PlaceName, ...]) -> Table:
    """Lay names out as a table.

    Parameters
    ----------
    names : tuple of PlaceName
        From :func:`place_names`.

    Returns
    -------
    Table
        Name and what it is.
    """
    return Table(("name", "what"), tuple((one.name, one.what) for one in names), "ll")


def _names(surface: Surface, system: System) -> Iterator[PlaceName]:
    told: set[tuple[str, ...]] = set()
    for name, hinge in reversed(surface.hinges.items()):
        yield PlaceName(f"hinge.{name}", f"pin {_at(hinge.up, system)}; also hinge.{name}.pin")
        yield PlaceName(f"hinge.{name}.bracket", _bracket(surface, hinge, told))
    horn = surface.horn
    if horn is not None:
        yield PlaceName("horn", f"{_at(horn.up, system)}{_horn_rivets(surface)}")
    ribs = surface.sheet.ribs.up
    if ribs:
        places = "; ".join(_at(up, system) for up in ribs) if any(up.known for up in ribs) else "at ?"
        yield PlaceName(f"rib-1 to rib-{len(ribs)}", places)
    for name, row in surface.rows.items():
        yield PlaceName(f"row.{name}", _row(surface, row, system))
    sides = [surface.said("left_skin"), surface.said("right_skin")]
    yield PlaceName("spar", "also spar.web, with the place: spar.at-...")
    nose = () if surface.sheet.nose_skin.thickness.absent else ("nose_skin",)
    for side in (*sides, *nose, "web"):
        yield PlaceName(f"panel.{side}", f"{side.replace('_', ' ')} between ribs")


def _at(value: Value, system: System) -> str:
    return "at ?" if value.si is None else f"at {show(float(value.si), 'length', system)}"


def _bracket(surface: Surface, hinge: Hinge, told: set[tuple[str, ...]]) -> str:
    """Describe the rivets of a bracket; what several hinges wait for is said at the first of them."""
    missing = tuple(bracket_needs(surface, hinge))
    bracket = surface.brackets.get(hinge.bracket)
    if missing or bracket is None:
        keys = f": {', '.join(missing[:3])}{' ...' if len(missing) > 3 else ''}"
        said = missing in told or bracket is None  # which bracket it is, its own name asks
        told.add(missing)
        return f"rivets not known yet{'' if said else keys}"
    count, up = (bracket.along or 1) * (bracket.sideways or 1), surface.said("up")
    first = "lowest left" if up == "up" else "innermost at the top"
    return f"rivet-1 to rivet-{count}; 1 is {first} seen from behind, count {up}"


def _horn_rivets(surface: Surface) -> str:
    """Say which rivet of the horn is which: the order in which their loads are worked, from -z to +z, then aft."""
    count = rivets_of_horn(surface)
    if surface.horn is None or not count:
        return ""
    other = plus_z_word(surface.kind, surface.half)
    side = next(one for one in map(surface.said, ("left", "right")) if one != other)
    which = "1 is foremost, count aft"
    if surface.horn.fixed_with.sideways != 1:
        which = f"1 is foremost at the {side}, count to the {other}, then the next aft"
    return f"; horn.rivets, rivet-1 to rivet-{count}; {which}"


def _row(surface: Surface, row: Row, system: System) -> str:
    laid = plan_row(surface, row)
    joins = " + ".join(surface.said(one).replace("_", " ") for one in row.joins)
    if laid is None:
        return f"{joins}; not known yet where"
    lines = f" in {laid.lines} lines" if laid.lines > 1 else ""
    if laid.start is not None:
        first, apart = show(laid.start, "length", system), show(laid.pitch, "length", system)
        return f"{joins}; {laid.total} rivets{lines}, {apart} apart, 1 is at {first}"
    low, high = int(np.min(laid.rib_count)), int(np.max(laid.rib_count))
    each = f"{low}" if low == high else f"{low} to {high}"
    first = ", 1 is nearest the web" if row.first_behind_web.known else ""
    return f"{joins}; {laid.total} rivets{lines}, {each} on a rib{first}"
