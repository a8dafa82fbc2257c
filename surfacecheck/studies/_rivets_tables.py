"""A comparison of rivets as tables: what each alternative carries, what it takes, the pitch for margin zero."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.quantities import show
from surfacecheck.studies._rivets_words import (
    axis_head,
    axis_words,
    bits,
    grams,
    varying,
)
from surfacecheck.tables import Table

if TYPE_CHECKING:
    from collections.abc import Sequence

    from surfacecheck.quantities import System
    from surfacecheck.studies._rivets_comparison import RivetComparison, Together
    from surfacecheck.studies._rivets_row import RowTable

__all__ = ["carries_table", "first_shown", "takes_table", "ways"]

NOTE = "* nothing else beats it in margin, number and mass"
UNKNOWN = "? a strength of the rivet is not given: margin of what is known"
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


def _broken(comparison: RivetComparison, i: int) -> str:
    found = dict.fromkeys(name for table in comparison.rows for name in bits(int(table.not_met[i])))
    return ", ".join(found) or "-"


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
    letters = ways(comparison, shown)
    rows = [_as_drawn(comparison, letters, len(axes), system)]
    for i in shown:
        at = comparison.index(i)
        own = [axis_words(comparison, axis, at[axis], system) for axis in axes]
        real = ", ".join(dict.fromkeys(show(float(one.pitch[i]), "length", system) for one in comparison.rows))
        gives = [letters.get(words, "") for words in _gives(_deciding(comparison, i), i)]
        count, empty = f"{comparison.whole.count[i]}", [_empty(comparison, i)] if comparison.drilled else []
        marked = (count, _margin(comparison, i), *gives, _broken(comparison, i))
        rows.append((_number(comparison, i), *own, *empty, real, *marked))
    left = ("left empty",) if comparison.drilled else ()
    heads = ("", *(axis_head(one) for one in axes), *left, "real", "rivets", "margin", "first", "then", "does not meet")
    words = ("l" if axis in {"rivet", "head"} else "r" for axis in axes)
    align = f"r{''.join(words)}{'l' if left else ''}rrrlll"
    caption = "; ".join(f"{letter} {words}" for words, letter in letters.items())
    return Table(heads, tuple(rows), align, f"What gives: {caption}" if caption else "", _notes(comparison, shown))


def _empty(comparison: RivetComparison, i: int) -> str:
    """Say which holes stay empty."""
    said = (table.laid.words[table.layout[i]] for table in comparison.rows if table.laid.words)
    return "; ".join(dict.fromkeys(one for one in said if one))


def _as_drawn(comparison: RivetComparison, letters: dict[str, str], axes: int, system: System) -> tuple[str, ...]:
    """Put the rows as drawn above the others."""
    whole, drawn = comparison.as_drawn, comparison.drawn
    real = ", ".join(dict.fromkeys(show(float(one.pitch[0]), "length", system) for one in drawn))
    table = drawn[int(whole.row[0])]
    gives = [letters.setdefault(words, _letter(len(letters))) if words else "" for words in _gives(table, 0)]
    broken = ", ".join(dict.fromkeys(name for one in drawn for name in bits(int(one.not_met[0])))) or "-"
    empty = ["" for _ in range(axes + comparison.drilled - 1)]
    return ("", "drawn", *empty, real, f"{whole.count[0]}", _said(whole, 0, table, len(drawn)), *gives, broken)


def _letter(at: int) -> str:
    return "abcdefghijklmnopqrstuvwxyz"[at % 26]


def _number(comparison: RivetComparison, i: int) -> str:
    return f"{'*' if comparison.best[i] else ''}{i + 1}"


def _notes(comparison: RivetComparison, shown: Sequence[int]) -> str:
    margins = "".join(_margin(comparison, i) for i in shown)
    notes = [NOTE] if any(comparison.best[i] for i in shown) else []
    notes += [UNKNOWN] if "?" in margins else []
    notes += [OUTSIDE] if "~" in margins else []
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
    rows = [("", f"{was.count[0]}", grams(was.mass[0], system), "", "", f"{was.minutes[0]:.0f}", "")]
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
