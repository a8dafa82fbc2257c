"""A comparison of rivets as tables: what each alternative carries, what it takes, the pitch for margin zero."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.quantities import show, unit_of
from surfacecheck.studies.riveting._rivets_best import CRITERIA
from surfacecheck.studies.riveting._rivets_curve import on_ribs
from surfacecheck.studies.riveting._rivets_words import (
    axis_head,
    axis_words,
    bits,
    choice_words,
    grams,
    reason_words,
    varying,
)
from surfacecheck.tables import Table

if TYPE_CHECKING:
    from collections.abc import Sequence

    from surfacecheck.quantities import System
    from surfacecheck.studies.riveting._rivets_comparison import RivetComparison
    from surfacecheck.studies.riveting._rivets_row import RowTable
    from surfacecheck.studies.riveting._rivets_together import Together

__all__ = ["alternative_words", "carries_table", "first_shown", "takes_table", "ways"]

MOST_AXES = 3
"""Lists that have columns of their own; of more, each alternative is said in words."""
LENGTHS = {"sheet", "space", "edge"}
"""Lists of lengths."""
SHORT = {
    "edge distance": "edge",
    "least pitch": "pitch",
    "gap of lines": "line gap",
    "head clear of the bend": "bend",
    "hole in its range": "hole",
    "grip": "grip",
    "sheet for this rivet": "sheet",
    "depth of the countersink": "countersink",
}
"""Rules in a word."""
NOTE = f"* nothing else beats it in {CRITERIA}"
UNKNOWN = "? a strength of the rivet is not given: margin of what is known"
LIFTS = "; edge lifts: at so many times limit load the skin edge buckles between the rivets (no failure by itself)"
RULING = "real: on the rib with the lowest margin, each divides its own length"
OUTSIDE = "~ outside the method: ask"


def first_shown(comparison: RivetComparison, most: int) -> tuple[list[int], int]:
    """Choose what a short list shows: all, or those that nothing else beats.

    Parameters
    ----------
    comparison : RivetComparison
        Worked.
    most : int
        Lines there is room for [-].

    Returns
    -------
    tuple of (list of int, int)
        Which alternatives, in their order, and how many are left out.
    """
    can = np.flatnonzero(comparison.whole.possible)
    if can.size <= most:
        return can.tolist(), 0
    best = np.flatnonzero(comparison.best)
    if best.size <= most:
        return best.tolist(), int(can.size - best.size)
    # evenly spread over the set, its two ends among them
    at = np.unique(np.linspace(0, best.size - 1, most).round().astype(int))
    order = best[np.argsort(comparison.whole.count[best], kind="stable")][at]
    return sorted(order.tolist()), int(can.size - order.size)


def _deciding(comparison: RivetComparison, alternative: int) -> RowTable:
    return comparison.rows[int(comparison.whole.row[alternative])]


def _margin(comparison: RivetComparison, i: int) -> str:
    return _said(comparison.whole, i, _deciding(comparison, i), len(comparison.rows))


def _said(whole: Together, i: int, table: RowTable, rows: int) -> str:
    """Write a margin with its marks."""
    if np.isnan(whole.margin[i]):
        return "not given"
    mark = "?" if whole.known[i] < 2 * rows else ""
    return f"{whole.margin[i]:+z.2f}{mark}{'~' if table.outside[i] else ''}"


def alternative_words(comparison: RivetComparison, i: int, system: System = "metric") -> str:
    """Say what one alternative comes to.

    Parameters
    ----------
    comparison : RivetComparison
        Worked.
    i : int
        Which alternative [-].
    system : {"metric", "inch"}
        Units.

    Returns
    -------
    str
        Rivets, real pitch, margin, what gives first; or why it cannot be.
    """
    if not comparison.whole.possible[i]:
        why = next(table.reasons[table.why[i]] for table in comparison.rows if table.why[i])
        return f"cannot be: {reason_words(why, system)}"
    real = ", ".join(dict.fromkeys(show(float(one.ruling[i]), "length", system) for one in comparison.rows))
    first = _gives(_deciding(comparison, i), i)[0]
    said = f"{comparison.whole.count[i]} rivets at {real}, margin {_margin(comparison, i)}"
    return f"{said}, {first}" if first else said


def ways(comparison: RivetComparison, shown: Sequence[int]) -> dict[str, str]:
    """Give every way to give that a list names a letter.

    Parameters
    ----------
    comparison : RivetComparison
        Worked.
    shown : sequence of int
        Which alternatives.

    Returns
    -------
    dict of str to str
        Words to letter, in the order of the list.
    """
    found = dict.fromkeys(words for i in shown for words in _gives(_deciding(comparison, i), i) if words)
    return {words: _letter(at) for at, words in enumerate(found)}


def _gives(table: RowTable, i: int) -> tuple[str, str]:
    """Say what gives first and next."""
    first, then = (table.modes[way][1] if way >= 0 else "" for way in (int(table.gives[i]), int(table.next_[i])))
    return first, then


def _not_covered(comparison: RivetComparison, i: int) -> list[str]:
    return list(dict.fromkeys(name for table in comparison.rows for name in bits(int(table.not_covered[i]))))


def carries_table(comparison: RivetComparison, shown: Sequence[int], system: System = "metric") -> Table:
    """Lay out what each alternative carries.

    Parameters
    ----------
    comparison : RivetComparison
        Worked.
    shown : sequence of int
        Which alternatives.
    system : {"metric", "inch"}
        Units.

    Returns
    -------
    Table
        A line each: what it has, real pitch, rivets, margin, what gives first and next, rules that are not met.
    """
    axes = varying(comparison)
    axes = axes if len(axes) <= MOST_AXES else ()
    letters = ways(comparison, shown)
    lifts = any(not np.isnan(table.lifts).all() for table in comparison.rows)
    empty = ("",) if comparison.drilled else ()
    blank = ["" for _ in axes[1:]]
    rows = [("", "drawn", *blank, *empty, *_cells(comparison.drawn, comparison.as_drawn, 0, letters, lifts, system))]
    for i in shown:
        at = comparison.index(i)
        own = [_bare(axis, axis_words(comparison, axis, at[axis], system)) for axis in axes]
        own = own or [choice_words(comparison, i, system)]
        left = (_empty(comparison, i),) if comparison.drilled else ()
        cells = _cells(comparison.rows, comparison.whole, i, letters, lifts, system)
        rows.append((_number(comparison, i), *own, *left, *cells))
    unit = unit_of("length", system)
    said = "; ".join(f"{letter} {words}" for words, letter in letters.items())
    note = f"{_notes(comparison, shown)}{LIFTS if lifts else ''}"
    heads, align = _heads(axes, comparison.drilled, lifts, unit)
    return Table(heads, tuple(rows), align, f"What gives, first and next: {said}" if said else "", note)


def _heads(axes: Sequence[str], drilled: bool, lifts: bool, unit: str) -> tuple[tuple[str, ...], str]:
    """Give the heads of the columns and how they are aligned."""
    own = [f"{axis_head(one)}, {unit}" if one in LENGTHS else axis_head(one) for one in axes] or ["what"]
    sides = ["r" if one in {*LENGTHS, "lines"} else "l" for one in axes] or ["l"]
    more = [("left empty", "l")] if drilled else []
    more += [(f"real, {unit}", "r"), ("rivets", "r"), ("margin", "r"), ("gives", "l")]
    more += [("edge lifts", "r")] if lifts else []
    columns = [("", "r"), *zip(own, sides, strict=True), *more, ("does not meet", "l")]
    return tuple(head for head, _ in columns), "".join(side for _, side in columns)


def _bare(axis: str, words: str) -> str:
    """Leave out the unit that stands in the head."""
    return words.rsplit(" ", 1)[0] if axis in LENGTHS and words[:1].isdigit() and "rivets" not in words else words


def _cells(
    tables: tuple[RowTable, ...], whole: Together, i: int, letters: dict[str, str], lifts: bool, system: System
) -> tuple[str, ...]:
    """Write what the rows carry: real pitch, rivets, margin, what gives, where the edge lifts, rules not met."""
    if not whole.possible[i]:  # as drawn only: what it has is not given
        return ("not given", "", "not given", "", *([""] if lifts else []), "")
    real = ", ".join(dict.fromkeys(show(float(one.ruling[i]), "length", system).split()[0] for one in tables))
    deciding = tables[int(whole.row[i])]
    gives = ", ".join(letters.setdefault(one, _letter(len(letters))) for one in _gives(deciding, i) if one)
    least = min((float(one.lifts[i]) for one in tables if not np.isnan(one.lifts[i])), default=np.inf)
    lifted = ("" if np.isinf(least) else f"{least:.2f}",) if lifts else ()
    broken = dict.fromkeys(SHORT[name] for one in tables for name in bits(int(one.not_met[i])))
    return (real, f"{whole.count[i]}", _said(whole, i, deciding, len(tables)), gives, *lifted, ", ".join(broken) or "-")


def _empty(comparison: RivetComparison, i: int) -> str:
    """Say which holes stay empty."""
    said = (table.laid.words[table.layout[i]] for table in comparison.rows if table.laid.words)
    return "; ".join(dict.fromkeys(one for one in said if one))


def _letter(at: int) -> str:
    return "abcdefghijklmnopqrstuvwxyz"[at % 26]


def _number(comparison: RivetComparison, i: int) -> str:
    return f"{'*' if comparison.best[i] else ''}{i + 1}"


def _notes(comparison: RivetComparison, shown: Sequence[int]) -> str:
    margins = "".join(_margin(comparison, i) for i in shown) + _said(
        comparison.as_drawn, 0, comparison.drawn[int(comparison.as_drawn.row[0])], len(comparison.drawn)
    )
    notes = [NOTE] if any(comparison.best[i] for i in shown) else []
    notes += [UNKNOWN] if "?" in margins else []
    notes += [OUTSIDE] if "~" in margins else []
    notes += [RULING] if on_ribs(comparison) else []
    missed = list(dict.fromkeys(name for i in shown for name in _not_covered(comparison, i)))
    notes += [f"not covered: {', '.join(missed)}"] if missed else []
    return "; ".join(notes)


def takes_table(comparison: RivetComparison, shown: Sequence[int], system: System = "metric") -> Table:
    """Lay out what each alternative takes, beside the rows as drawn.

    Parameters
    ----------
    comparison : RivetComparison
        Worked.
    shown : sequence of int
        Which alternatives.
    system : {"metric", "inch"}
        Units.

    Returns
    -------
    Table
        A line each: rivets, mass and what it adds, change of the balance.
    """
    whole, was = comparison.whole, comparison.as_drawn
    given = was.possible[0]
    count, minutes = (f"{was.count[0]}", f"{was.minutes[0]:.0f}") if given else ("", "")
    rows = [("drawn", count, grams(was.mass[0] if given else np.nan, system), "", "", minutes, "")]
    for i in shown:
        more, moment = whole.mass[i] - was.mass[0], whole.moment[i] - was.moment[0]
        turned = "not given" if np.isnan(moment) else _moment(float(moment), system)
        masses = grams(whole.mass[i], system), grams(more, system, sign=True)
        minutes, found = f"{whole.minutes[i]:.0f}", comparison.bought(i)
        lines = "" if found is None else f"{found.lines}"
        rows.append((_number(comparison, i), f"{whole.count[i]}", *masses, turned, minutes, lines))
    heads = ("", "rivets", "mass", "adds", "tail-heavy by", "minutes", "order lines")
    sheet = "mass with what the sheet adds; " if comparison.alternatives.sheet is not None else ""
    work = comparison.work
    note = f"minutes of these rows, at {work.hole:g} a hole and {work.rivet:g} a rivet ({work.source})"
    return Table(heads, tuple(rows), "rrrrrrr", "", f"{sheet}{note}; order lines of the whole surface")


def _moment(moment: float, system: System) -> str:
    """Write a small change of the balance: in N mm, or lbf in."""
    if system == "metric":
        return f"{moment * 1e3:+z.1f} N mm"
    return f"{moment / 0.1129848290276167:+z.3f} lbf in"
