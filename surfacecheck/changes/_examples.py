"""Examples of places that this surface accepts: an example that is refused when it is typed helps nobody."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from surfacecheck.model import Units

if TYPE_CHECKING:
    from surfacecheck.model import Surface

__all__ = ["doubler_example", "example_of", "size_example"]


def example_of(surface: Surface, such: str) -> str:
    """Give an example of a place in the names of this surface.

    Parameters
    ----------
    surface : Surface
        Its hinges, rows, doublers and units.
    such : str
        Example as for a rudder: ``hinge middle, bracket``; ``left skin to spar, rivet 12``; ``spar web, at 325 mm``.

    Returns
    -------
    str
        The same sort of place, of this surface; as it was where the surface has none of that sort.
    """
    if surface.units is Units.INCH:
        such = such.replace("at 325 mm", "at 12.8 in")
    hinges = list(surface.hinges)
    if hinges and "middle" not in hinges:
        such = such.replace("hinge middle", f"hinge {_words(hinges[len(hinges) // 2])}")
    if "left skin to spar" in such:
        such = such.replace("left skin to spar", _row(surface))
    if surface.sheet.doublers and "bottom_doubler" not in surface.sheet.doublers:
        such = such.replace("bottom doubler", _words(next(iter(surface.sheet.doublers))))
    return re.sub(r"\b(?:left|right) skin(?=, )", lambda found: _skin(surface, found[0]), such)


def size_example(surface: Surface) -> str:
    """Give the next size of rivet as it is typed, in the units of the file."""
    return "next size 0.188 in" if surface.units is Units.INCH else "next size 4.8 mm"


def doubler_example(surface: Surface) -> str:
    """Give a doubler as it is typed, in the units of the file."""
    if surface.units is Units.INCH:
        return "doubler 0.032 in, 4 in long, 2 in wide"
    return "doubler 0.8 mm, 100 mm long, 50 mm wide"


def _row(surface: Surface) -> str:
    """Name the row of a skin on the spar; else any row along the pins."""
    along = [name for name, row in surface.rows.items() if "ribs" not in row.joins]
    on_spar = [name for name in along if {"left_skin", "spar"} <= set(surface.rows[name].joins)]
    found = next(iter((*on_spar, *along)), "left skin to spar" if not surface.rows else next(iter(surface.rows)))
    return _words(found)


def _skin(surface: Surface, words: str) -> str:
    return surface.sheet_words(words.replace(" ", "_"))


def _words(name: str) -> str:
    return name.replace("_", " ")
