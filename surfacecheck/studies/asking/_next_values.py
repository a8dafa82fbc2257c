"""Which values to find out next: the order in which filling in pays."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from surfacecheck.assessment import assess
from surfacecheck.assessment._first import first_needs
from surfacecheck.checks import bracket_needs, horn_needs
from surfacecheck.model import DrivenBy
from surfacecheck.sections.box import box_needs
from surfacecheck.studies.asking._chain import chain_of

if TYPE_CHECKING:
    from collections.abc import Iterable

    from surfacecheck.assessment import Assessment, Gap
    from surfacecheck.checks import Finding
    from surfacecheck.model import Surface

__all__ = ["NextValue", "next_values", "nothing_told"]

MOST = 3
BOX = "shear flows, rivet rows, spar margins, load sharing by stiffness"
HORN = "fore-and-aft loads at the pins, pull at the horn"
CASE = "load case: "
GROUP = 8
"""About so many checks come with the rivets of a bracket or of the horn."""
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
    others = [gap for gap in assessment.gaps if gap.key not in box]
    cases = _case_values(surface, others)
    stand = {line for one in cases for line in (one.key, *one.together)}
    checks = _check_values(assessment, [gap for gap in others if in_file(surface, gap.key) not in stand])
    sheet = [NextValue(in_file(surface, box[0]), BOX, tuple(in_file(surface, key) for key in box[1:]))] if box else []
    kinds = [cases, sheet, checks]
    found: list[NextValue] = []
    while len(found) < most and any(kinds):
        for kind in kinds:
            while kind and kind[0].key in {one.key for one in found}:  # hides things of two kinds
                kind.pop(0)
            if kind and len(found) < most:
                found.append(kind.pop(0))
    return tuple(found)


def in_file(surface: Surface, key: str) -> str:
    """Give a key in the words of this surface's file: ``hinge.inner.up`` is ``hinge.inner.out`` of a half."""
    return surface.in_file(key)


def _case_values(surface: Surface, gaps: Iterable[Gap]) -> list[NextValue]:
    """Values that hide a load case, each with what that case asks for after it."""
    out = []
    for gap in gaps:
        case = next((what for what in gap.hides.split("; ") if what.startswith(CASE)), "")
        key = in_file(surface, gap.key)
        if case and _in_file(surface, key):
            told = f"{gap.hides}; {HORN}" if gap.key == "horn.driven_by" else gap.hides
            chain = [in_file(surface, one) for one in chain_of(surface, gap.key, case.removeprefix(CASE))]
            out.append(NextValue(key, told, tuple(dict.fromkeys((*_same_list(surface, key), *chain)))))
    return out


def _same_list(surface: Surface, key: str) -> list[str]:
    """Name the other entries of a list that are not known: places of ribs are of use only together."""
    stem = key.rpartition("[")[0] if key.endswith("]") else ""
    return [line for line in surface.gaps if stem and line != key and line.rpartition("[")[0] == stem]


def _check_values(assessment: Assessment, others: Iterable[Gap]) -> list[NextValue]:
    """Values that hide checks: the sets that open most checks for each value, then what hides less than a check."""
    surface = assessment.surface
    waits: dict[frozenset[str], dict[str, int]] = {}
    order: dict[frozenset[str], tuple[str, ...]] = {}

    def note(keys: Iterable[str], opens: str, count: int) -> None:
        lines = tuple(dict.fromkeys(line for key in keys for line in _lines(surface, key)))
        if lines:
            order.setdefault(frozenset(lines), lines)
            waits.setdefault(frozenset(lines), {})[opens] = count

    for finding in assessment.not_given:
        note([*finding.missing, *_metals(surface, finding)], f"{finding.check.part}: {finding.gives}", 1)
    for name, hinge in surface.hinges.items():
        note(bracket_needs(surface, hinge), f"rivets of the {name} hinge bracket", GROUP)
    if surface.horn is not None and surface.horn.driven_by is not DrivenBy.TORQUE_TUBE:
        note(horn_needs(surface), "rivets of the horn", GROUP)

    def worth(keys: frozenset[str]) -> float:
        return sum(sum(opens.values()) for inside, opens in waits.items() if inside <= keys) / len(keys)

    ranked = sorted(waits, key=lambda keys: -worth(keys))
    out = [NextValue(order[keys][0], _few(waits[keys]), order[keys][1:]) for keys in ranked]
    named = {line for keys in waits for line in keys}
    less: dict[str, list[str]] = {}
    for gap in others:
        key = in_file(surface, gap.key)
        if key not in named and gap.hides != NOTHING and CASE not in gap.hides and _in_file(surface, key):
            less.setdefault(gap.hides, []).append(key)
    return [*out, *(NextValue(keys[0], hides, tuple(keys[1:])) for hides, keys in less.items())]


def _few(opens: Iterable[str]) -> str:
    names = list(opens)
    more = len(names) - 3
    return "; ".join(names[:3]) + (f"; and {more} more" if more > 0 else "")


def _in_file(surface: Surface, key: str) -> bool:
    """Tell whether a key is a line that is not known, or stands in a table that is not there."""
    return any(key == line or key.startswith(f"{line}.") for line in surface.gaps)


def _lines(surface: Surface, key: str) -> list[str]:
    """Give the lines of the file that a check means: all places of the outline where it names none."""
    said = in_file(surface, key)
    places = [line for line in surface.gaps if _every_place(line) == said]
    return places or ([said] if _in_file(surface, said) else [])


def _metals(surface: Surface, finding: Finding) -> list[str]:
    """Name the line of the metal a check is about: a sheet by the start of its mode, else the part itself."""
    kind, name = (*finding.check.place.split("."), "")[:2]
    bracket = f"bracket.{surface.hinges[name].bracket}.alloy" if kind == "hinge" else ""
    sheet = finding.check.mode.partition("-")[0]
    own = {"bracket": bracket, "plate": "horn.plate.alloy", "rib": "sheet.ribs.alloy"}
    if sheet in own:
        return [own[sheet]]
    if hasattr(surface.sheet, sheet) or sheet in surface.sheet.doublers:
        return [f"sheet.{sheet}.alloy"]
    if not any("metal not given" in key for key in finding.missing):
        return []
    return [bracket] if bracket else ["horn.plate.alloy" if kind == "horn" else "sheet.spar.alloy"]


def _every_place(line: str) -> str:
    """``outline.at[1].web_behind`` is ``outline.at.web_behind`` where all places are meant."""
    table, bracket, rest = line.partition("[")
    return table + rest.partition("]")[2] if bracket and table == "outline.at" else line
