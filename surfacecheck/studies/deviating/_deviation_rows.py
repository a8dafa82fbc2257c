"""The lines of a deviation as they are shown, one cell for each way; the same for table, page and sheet."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from surfacecheck.assessment import in_system, margin_text, place_words
from surfacecheck.quantities import show, show_number, to_unit
from surfacecheck.rules import DOES_NOT_MEET, NOT_COVERED
from surfacecheck.studies.deviating._deviation_here import NOT_THERE, NOTHING_ASKED
from surfacecheck.studies.deviating._here import group_name
from surfacecheck.studies.deviating._path import prose_of

if TYPE_CHECKING:
    from surfacecheck.quantities import System
    from surfacecheck.studies.comparing._compare import Changed
    from surfacecheck.studies.deviating._deviation import Deviation, Way

__all__ = [
    "FOLDED",
    "LEAVE",
    "SHOWN",
    "Row",
    "answers_to",
    "heads_of",
    "in_words",
    "line_name",
    "listed",
    "rows_of",
    "title_of",
]

LEAVE = "leave it"
SHOWN = ("place", "anywhere", "rules", "balance")
FOLDED = ("lowest", "pins", "whole")
"""Groups of the first table, and of what is folded below it."""
_BALANCE = ("mass", "tail-heavy moment", "nose mass that levels it")
_UNSEEN = {"mass": 5e-5}
"""Changes that no scale on a bench shows [kg]: a tenth of the lightest rivet."""
_CHANGES = ("pins", "whole")
_LOWEST = 5


class Row(NamedTuple):
    """One line.

    Attributes
    ----------
    name : str
        What it is.
    cells : tuple of str
        One for each way; of two bounds "a / b": holds fully, then holds nothing.
    says : tuple of str
        What goes with each, such as what gives first; empty where nothing does.
    """

    name: str
    cells: tuple[str, ...]
    says: tuple[str, ...] = ()


def title_of(way: Way) -> str:
    """Give the head of a column; of the surface as it is now with what it means to choose it."""
    title = way.column.title
    return f"{title} ({LEAVE})" if way.column.kind == "now" and LEAVE not in title else title


def listed(names: list[str]) -> str:
    """List names as a sentence does.

    Examples
    --------
    >>> listed(["right skin", "nose skin", "spar"]), listed(["spar"]), listed([])
    ('right skin, nose skin and spar', 'spar', '')
    """
    return " and ".join(one for one in (", ".join(names[:-1]), *names[-1:]) if one)


def heads_of(deviation: Deviation) -> tuple[str, ...]:
    """Give the head of every column."""
    return tuple(title_of(way) for way in deviation.ways)


def in_words(deviation: Deviation, text: str, system: System = "metric") -> str:
    """Put the names and the stations of places in a text into words."""
    for place in deviation.places:
        text = text.replace(place, prose_of(deviation.surface, place))
    return in_system(text, system)


def answers_to(deviation: Deviation, way: Way, system: System = "metric") -> str:
    """Say which of several events an option answers, and how; empty where only one thing happened."""
    if len(deviation.surface.happened) < 2 or way.column.kind != "option":
        return ""
    told = (said for said in way.column.says if said not in deviation.now.column.says)
    return "; ".join(in_words(deviation, said, system) for said in told)


def rows_of(deviation: Deviation, group: str, system: System = "metric") -> tuple[Row, ...]:
    """Give the lines of one group.

    Parameters
    ----------
    deviation : Deviation
        Worked.
    group : str
        ``place``, ``anywhere``, ``rules`` (those that changed state), ``balance``; ``lowest`` (five of each way),
        ``pins``, ``whole``.
    system : {"metric", "inch"}
        Units.

    Returns
    -------
    tuple of Row
        In order.
    """
    if group == "lowest":
        return _lowest(deviation, system)
    if group == "rules":
        return _merged([_row(deviation, one, system) for one in deviation.of("rules") if _changed_state(one)])
    if group in {"balance", "whole"}:
        lines = [one for one in deviation.of("whole") if (one.name in _BALANCE) == (group == "balance")]
        return tuple(_row(deviation, one, system) for one in lines)
    return tuple(_row(deviation, one, system) for one in deviation.of(group))


def _merged(rows: list[Row]) -> tuple[Row, ...]:
    """Say once what a rule says of several sheets at one place: the last word of the name is the sheet."""
    found: dict[tuple[str, tuple[str, ...]], list[str]] = {}
    for row in rows:
        head, comma, sheet = row.name.rpartition(", ")
        found.setdefault((head if comma else row.name, row.cells), []).append(sheet if comma else "")
    return tuple(Row(f"{head}, {listed(s)}" if s[0] else head, cells) for (head, cells), s in found.items())


def _changed_state(line: Changed) -> bool:
    """Whether a rule says something else of some way than of the drawing; where the drawing has no such place, no."""
    first, *others = line.values
    if first is None:
        return any(str(one).startswith((DOES_NOT_MEET, NOT_COVERED)) for one in others)
    return any(one is not None and one != first for one in others)


def _row(deviation: Deviation, line: Changed, system: System) -> Row:
    """Write one line: of two bounds both, once where they read the same."""
    by_way, says = deviation.by_way(line), iter(line.says or ("",) * len(line.values))
    first = by_way[0][0]
    cells, told = [], []
    for values in by_way:
        words = [next(says) for _ in values]
        write = _change if line.group in _CHANGES and values is not by_way[0] else _text
        texts = [write(line, first, one, said, system) for one, said in zip(values, words, strict=True)]
        cells.append(" / ".join(dict.fromkeys(texts)))
        told.append(
            in_system(" / ".join(dict.fromkeys(w for w in words if w not in {"", NOTHING_ASKED, NOT_THERE})), system)
        )
    return Row(line_name(deviation, line.name, system), tuple(cells), tuple(told))


def line_name(deviation: Deviation, named: str, system: System = "metric") -> str:
    """Name a line; a rule at a touched place by the place's own words.

    Parameters
    ----------
    deviation : Deviation
        Worked.
    named : str
        ``edge distance: hinge.middle.bracket.rivet-3.edge.spar``.
    system : {"metric", "inch"}
        Units of the places.

    Returns
    -------
    str
        ``edge distance: rivet 3, spar``.
    """
    name, _, place = named.partition(": ")
    for one in deviation.places:
        if place.startswith(f"{one}.") and group_name(one) != one:
            spot = one.rpartition(".")[2].replace("-", " ")
            return f"{name}: {spot}, {deviation.surface.sheet_words(place.rpartition('.')[2])}"
    return place_words(in_system(named.replace(".edge.", ", "), system), deviation.surface)


def _text(line: Changed, first: float | str | None, value: float | str | None, said: str, system: System) -> str:
    del first
    if value is None:
        told = {NOTHING_ASKED: "none", NOT_THERE: "-"}.get(said)
        return told or ("not given" if line.quantity == "margin" else "-")
    if isinstance(value, str):
        return value
    if line.quantity == "margin":
        return margin_text(value)
    if line.quantity == "count":
        return f"{value:.0f}"
    return show(value, line.quantity, system, 4 if line.group == "whole" else 3)


def _change(line: Changed, first: float | str | None, value: float | str | None, said: str, system: System) -> str:
    """Write a value with its change since the drawing; of mass and balance, which change little, the change alone."""
    if not isinstance(first, float) or not isinstance(value, float):
        return _text(line, first, value, said, system)
    by = value - first
    if abs(by) <= max(1e-6 * max(abs(first), abs(value)), _UNSEEN.get(line.name, 0.0)):
        return "same"
    sign, size = "+" if by > 0.0 else "-", abs(by)
    if line.name in _BALANCE:
        return f"{sign}{_small(size, line.quantity, system)}"
    amount = f"{size:.0f}" if line.quantity == "count" else show(size, line.quantity, system, 2)
    return f"{_text(line, first, value, said, system)} ({sign}{amount})"


def _small(size: float, quantity: str, system: System) -> str:
    unit = {("mass", "metric"): "g", ("torque", "metric"): "N mm", ("mass", "inch"): "oz"}.get((quantity, system))
    return show(size, quantity, system, 2) if unit is None else f"{show_number(to_unit(size, unit), 2)} {unit}"


def _lowest(deviation: Deviation, system: System) -> tuple[Row, ...]:
    """Give the five lowest margins of any way, one a part, each with its value in every way."""
    every = [one for way in deviation.ways for one in way.bounds]
    wanted: dict[str, float] = {}
    for one in every:
        for finding in one.lowest_by_part[:_LOWEST]:
            at = finding.check.place
            wanted[at] = min(wanted.get(at, np.inf), np.inf if finding.margin is None else finding.margin)
    places = sorted(wanted, key=lambda place: wanted[place])[:_LOWEST]
    lines = [line for line in deviation.comparison.of("here") if line.name in _parts(deviation, places)]
    return tuple(_row(deviation, line, system) for line in lines)


def _parts(deviation: Deviation, places: list[str]) -> set[str]:
    every = [one for way in deviation.ways for one in way.bounds]
    return {f.check.part for one in every for f in one.lowest_by_part if f.check.place in places}
