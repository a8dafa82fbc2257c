"""Where a place sits in the load path, from the model alone: what comes before it, what after, what stands beside."""

from __future__ import annotations

from typing import TYPE_CHECKING

from surfacecheck.assessment import place_words
from surfacecheck.checks import bracket_needs, rivet_places, row_kind
from surfacecheck.model import DrivenBy, Kind, YesNo
from surfacecheck.provenance import plain
from surfacecheck.studies.deviating._here import group_name

if TYPE_CHECKING:
    from surfacecheck.model import Hinge, Row, Surface

__all__ = ["corner_of", "nearest_rib", "others_of", "path_of", "prose_of"]

_NUMBERS = ("no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve")


def path_of(surface: Surface, place: str) -> tuple[str, ...]:
    """List what the load of a place goes through.

    Parameters
    ----------
    surface : Surface
        As drawn.
    place : str
        Name of the place.

    Returns
    -------
    tuple of str
        From where it comes to where it is held; empty where the model does not say.
    """
    kind, _, name = group_name(place).partition(".")
    if kind == "hinge":
        hinge = next((h for h in surface.hinges.values() if name == h.name or name.startswith(f"{h.name}.")), None)
        return () if hinge is None else _hinge(surface, hinge)
    if kind == "horn":
        return _horn(surface)
    if kind == "row":
        row = surface.rows.get(name.split(".")[0])
        return () if row is None else _row(surface, row)
    return {
        "spar": ("skins and ribs", "spar flanges and web", "hinge brackets", "pins"),
        "panel": ("air load", "skin", "rivet rows", "ribs and spar", "hinge brackets", "pins"),
    }.get(kind, ())


def _hinge(surface: Surface, hinge: Hinge) -> tuple[str, ...]:
    bracket = surface.brackets.get(hinge.bracket)
    count = 0 if bracket is None else (bracket.along or 1) * (bracket.sideways or 1)
    rivets = f"{count} rivets" if count else "its rivets"
    web = "spar web and doubler" if _doubled(surface, hinge) else "spar web"
    return "pin", "bracket", rivets, web, "skins and rib" if hinge.rib_behind is YesNo.YES else "flanges and skins"


def _doubled(surface: Surface, hinge: Hinge) -> bool:
    known = [one for one in surface.sheet.doublers.values() if one.start.known and one.to.known and hinge.up.known]
    return any(one.on == "spar web" and plain(one.start) <= plain(hinge.up) <= plain(one.to) for one in known)


def _horn(surface: Surface) -> tuple[str, ...]:
    horn = surface.horn
    if horn is None:
        return ()
    driver = "rod" if horn.driven_by is DrivenBy.ROD else "cable"
    count = (horn.fixed_with.fore_aft or 0) * (horn.fixed_with.sideways or 0)
    return driver, "horn", f"{count} rivets" if count else "its rivets", horn.joined_to or "rib", "skins and spar"


def _row(surface: Surface, row: Row) -> tuple[str, ...]:
    joins = tuple(surface.said(one).replace("_", " ") for one in row.joins)
    *sheets, last = joins or ("sheet",)
    before = " and ".join(sheets) or last
    return {
        "spar": (before, "this row", "spar flange", "spar web", "hinge brackets"),
        "edge": (joins[0], "this row", joins[-1], "round the box to the spar"),
        "rib": (before, "this row", "rib", "spar web", "hinge brackets"),
        "rib-spar": ("skins", "rib", "this row", "spar web", "hinge brackets"),
        "doubler": ("spar web", "this row", before, "this row", "spar web"),
    }.get(row_kind(surface, row), (before, "this row", last))


def others_of(surface: Surface, place: str, count: int = 0) -> str:
    """Say what else could carry the load of a place.

    Parameters
    ----------
    surface : Surface
        As drawn.
    place : str
        Name of the place.
    count : int
        Rivets of the group it belongs to [-]; 0 where it is no rivet of a group.

    Returns
    -------
    str
        In words; empty where the model does not say.
    """
    group = group_name(place)
    kind = group.partition(".")[0]
    if count > 1:
        part = "horn" if kind == "horn" else "bracket"
        return f"the other {_counted(count - 1)} of this {part}"
    if kind == "row" and group != place:
        return "its neighbours in the row, with a longer free stretch of sheet between them"
    if kind == "hinge":
        return f"the other {_counted(len(surface.hinges) - 1, 'hinge')}"
    return ""


def _counted(count: int, what: str = "rivet") -> str:
    number = _NUMBERS[count] if count < len(_NUMBERS) else str(count)
    return f"{number} {what}s" if count != 1 else what


def prose_of(surface: Surface, place: str) -> str:
    """Name a place as a sentence does.

    Parameters
    ----------
    surface : Surface
        Whose place it is.
    place : str
        Name of the place.

    Returns
    -------
    str
        Words.

    Examples
    --------
    >>> from surfacecheck.model import Surface
    >>> prose_of(Surface(), "hinge.middle.bracket.rivet-3"), prose_of(Surface(), "spar.web")
    ('rivet 3 of the middle hinge bracket', 'spar web')
    """
    group = group_name(place)
    rivet = place.removeprefix(f"{group}.rivet-") if group != place else ""
    kind, _, name = group.partition(".")
    owner, _, part = name.partition(".")
    if kind == "hinge":
        whole = f"{owner} hinge {part.replace('.', ' ')}".strip()
    elif kind == "row":
        on_rib = f", {part.replace('-', ' ')}" if part.startswith("rib-") else ""
        whole = f"row {place_words(owner, surface)}{on_rib}"
    else:
        whole = "horn" if kind == "horn" else place_words(group, surface).replace("-", " ")
    return f"rivet {rivet} of the {whole}" if rivet else whole


def corner_of(surface: Surface, place: str) -> str:
    """Say where in its bracket a rivet sits, seen from behind; empty for any other place."""
    group = group_name(place)
    hinge = next((h for h in surface.hinges.values() if group == f"hinge.{h.name}.bracket" != place), None)
    bracket = None if hinge is None else surface.brackets.get(hinge.bracket)
    if hinge is None or bracket is None or bracket_needs(surface, hinge):
        return ""
    at = int(place.removeprefix(f"{group}.rivet-")) - 1
    along, sideways = rivet_places(surface, bracket)
    ends = (("lower", "upper"), ("right", "left"))
    if surface.kind is not Kind.RUDDER:
        ends = (("inner", "outer"), ("lower", "upper"))
    both = zip((along, surface.left_is * sideways), ends, strict=True)
    words = [low if places[at] < -1e-9 else high if places[at] > 1e-9 else "middle" for places, (low, high) in both]
    return f"{' '.join(dict.fromkeys(words))}, seen from behind"


def nearest_rib(surface: Surface, place: str) -> float | None:
    """Give the distance from a hinge to the nearest rib [m]; None for any other place, or where it is not known."""
    hinge = next((h for h in surface.hinges.values() if f"{place}.".startswith(f"hinge.{h.name}.")), None)
    ribs = [plain(up) for up in surface.sheet.ribs.up if up.known]
    if hinge is None or not hinge.up.known or not ribs:
        return None
    return min(abs(up - plain(hinge.up)) for up in ribs)
