"""Which values to find out next: the order in which filling in pays."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from surfacecheck.assessment import assess
from surfacecheck.assessment._first import first_needs
from surfacecheck.sections.box import box_needs

if TYPE_CHECKING:
    from collections.abc import Iterable

    from surfacecheck.assessment import Assessment, Gap
    from surfacecheck.model import Surface

__all__ = ["NextValue", "next_values", "nothing_told"]

MOST = 3
BOX = "shear flows, rivet rows, spar margins, load sharing by stiffness"
HORN = "fore-and-aft loads at the pins, pull at the horn"
CASE = "load case: "
NOTHING = "nothing that is worked out here"


@dataclass(frozen=True, slots=True)
class NextValue:
    """A value to find out next.

    Attributes
    ----------
    key : str
        Its line of the file, in the file's own words.
    gives : str
        What can be told with it.
    together : tuple of str
        Other lines that the same answer waits for; empty where the one value is enough.
    """

    key: str
    gives: str
    together: tuple[str, ...] = ()

    @property
    def said(self) -> str:
        """The line, and how many others belong to it."""
        if not self.together:
            return self.key
        names = ", ".join(self.together[:2])
        more = len(self.together) - 2
        return f"{self.key} (with {names}{f' and {more} more' if more > 0 else ''})"


def nothing_told(surface: Surface) -> bool:
    """Tell whether a surface is so empty that not even the loads at the pins can be given.

    Parameters
    ----------
    surface : Surface
        As read.

    Returns
    -------
    bool
        True while values are missing before the first number.
    """
    return bool(first_needs(surface))


def next_values(surface: Surface, assessment: Assessment | None = None, most: int = MOST) -> tuple[NextValue, ...]:
    """Name the values that it pays to find out next.

    Before the first number: what is missing for it, in the order of the file, and each is needed. After that the best
    of three kinds in turn, so that one value nobody can find out does not hide the others: what hides a load case,
    what hides the box (sheet and spar), and what hides most checks. Values that the same answer waits for stand
    together.

    Parameters
    ----------
    surface : Surface
        Perhaps nothing but question marks.
    assessment : Assessment, optional
        Of that surface, where there is one already.
    most : int
        How many to name [-].

    Returns
    -------
    tuple of NextValue
        The first pays most; empty where nothing that is worked out here is missing.

    Raises
    ------
    SurfaceError
        Where the surface cannot be worked for another reason than a missing value.
    """
    first = first_needs(surface)
    if first:
        return tuple(NextValue(in_file(surface, gap.key), gap.hides) for gap in first[:most])
    assessment = assess(surface) if assessment is None else assessment
    box = box_needs(surface)
    cases, checks = _grouped(surface, assessment.gaps, box)
    sheet = [NextValue(in_file(surface, box[0]), BOX, tuple(in_file(surface, key) for key in box[1:]))] if box else []
    kinds = [cases, sheet, checks]
    found: list[NextValue] = []
    while len(found) < most and any(kinds):
        for kind in kinds:
            if kind and len(found) < most:
                found.append(kind.pop(0))
    return tuple(found)


def in_file(surface: Surface, key: str) -> str:
    """Give a key in the words of this surface's file: ``hinge.inner.up`` is ``hinge.inner.out`` of a half."""
    return ".".join(surface.said(part) for part in key.split("."))


def _grouped(surface: Surface, gaps: Iterable[Gap], box: tuple[str, ...]) -> tuple[list[NextValue], list[NextValue]]:
    """Put keys together whose first answer is the same one: those that hide a load case, and the others."""
    lines = {*surface.gaps}
    groups: dict[str, list[str]] = {}
    gives: dict[str, str] = {}
    for gap in gaps:
        key = in_file(surface, gap.key)
        key = next((line for line in surface.gaps if _every_place(line) == key), key)
        if gap.key in box or gap.hides == NOTHING or not any(key == one or key.startswith(f"{one}.") for one in lines):
            continue  # stands with the box, hides nothing, or is no line of the file
        first = gap.hides.split("; ")[0]
        gives.setdefault(first, gap.hides)
        groups.setdefault(first, []).append(key)
    out: tuple[list[NextValue], list[NextValue]] = ([], [])
    for first, keys in groups.items():
        told = f"{gives[first]}; {HORN}" if keys[0] == "horn.driven_by" else gives[first]
        out[0 if first.startswith(CASE) else 1].append(NextValue(keys[0], told, tuple(keys[1:])))
    return out


def _every_place(line: str) -> str:
    """``outline.at[1].web_behind`` is ``outline.at.web_behind`` where all places are meant."""
    table, bracket, rest = line.partition("[")
    return table + rest.partition("]")[2] if bracket and table == "outline.at" else line
