"""A comparison of rivets as tables: what each alternative carries, what it takes, the pitch for margin zero."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.quantities import show
from surfacecheck.studies._rivets_limits import limits
from surfacecheck.studies._rivets_words import (
    axis_head,
    axis_words,
    bits,
    choice_words,
    grams,
    reason_words,
    row_words,
    varying,
)
from surfacecheck.tables import Table

if TYPE_CHECKING:
    from collections.abc import Sequence

    from surfacecheck.quantities import System
    from surfacecheck.studies._rivets import RivetComparison, Together
    from surfacecheck.studies._rivets_row import RowTable

__all__ = ["carries_table", "first_shown", "impossible_lines", "limit_lines", "limit_table", "takes_table", "ways",
           "zero_table"]  # fmt: skip

NOTE = "* nothing else beats it in margin, number and mass"
UNKNOWN = "? a strength of the rivet is not given: margin of what is known"
OUTSIDE = "~ outside the method: ask"
REASONS = 8
"""Reasons a list shows [-]."""


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


def zero_table(comparison: RivetComparison, system: System = "metric", shown: Sequence[int] | None = None) -> Table:
    """Lay out what the pitch of each row would have to be for margin zero, for everything else that is compared.

    Parameters
    ----------
    comparison : RivetComparison
        Worked.
    system : {"metric", "inch"}
        Units.
    shown : sequence of int, optional
        Only for what these alternatives have; for all where it is not given.

    Returns
    -------
    Table
        A line for each row and each rivet, head, number of lines, edge and sheet.
    """
    first = np.arange(comparison.size).reshape(comparison.shape)[:, :, :, :, :1, :]
    first = np.broadcast_to(first, comparison.shape).reshape(-1)  # the same but for the spacing
    wanted = dict.fromkeys((first if shown is None else first[list(shown)]).tolist())
    rows = []
    for table in comparison.rows:
        for i in wanted:
            said = _zero(table, i, system)
            if said:
                gives = table.modes[table.zero_gives[i]][1] if np.isfinite(table.zero_pitch[i]) else ""
                words = choice_words(comparison, i, system, "space") or "as drawn"
                rows.append((row_words(table), words, said, gives))
    return Table(("row", "with", "margin zero at", "what gives there"), tuple(rows), "llrl")


def _zero(table: RowTable, i: int, system: System) -> str:
    if not np.isnan(table.zero_count[i]):
        count = int(table.zero_count[i])
        return f"{count} rivet{'s' if count > 1 else ''} on a rib"
    if np.isnan(table.zero_pitch[i]):
        return ""
    if np.isinf(table.zero_pitch[i]):
        return "more than its length"
    return show(float(table.zero_pitch[i]), "length", system)


def limit_table(comparison: RivetComparison, system: System = "metric") -> Table:
    """Lay out the limits of the pitch, each with the field of its text.

    Parameters
    ----------
    comparison : RivetComparison
        Worked.
    system : {"metric", "inch"}
        Units.

    Returns
    -------
    Table
        A line a limit.
    """
    rows = tuple(
        (f"{'at most' if one.most else 'at least'} {show(one.at, 'length', system)}", one.words,
         one.field if one.counts else f"{one.field}, shown only", one.source)
        for one in limits(comparison, system)
    )  # fmt: skip
    return Table(("pitch", "what", "field", "text"), rows, "llll")


def limit_lines(comparison: RivetComparison, system: System = "metric") -> list[str]:
    """Say where the limits of the pitch lie, each with the field of its text.

    Parameters
    ----------
    comparison : RivetComparison
        Worked.
    system : {"metric", "inch"}
        Units.

    Returns
    -------
    list of str
        A line a text.
    """
    found: dict[tuple[str, str], list[str]] = {}
    for pitch, what, field, text in limit_table(comparison, system).rows:
        found.setdefault((field, text), []).append(f"{pitch}, {what}")
    return [f"{field}: {'; '.join(lines)} ({text})" for (field, text), lines in found.items()]


def impossible_lines(comparison: RivetComparison, system: System = "metric") -> list[str]:
    """Say which alternatives cannot be, and why.

    Parameters
    ----------
    comparison : RivetComparison
        Worked.
    system : {"metric", "inch"}
        Units.

    Returns
    -------
    list of str
        A line a reason, with the numbers of the alternatives.
    """
    found: dict[tuple[str, tuple[int, ...]], list[str]] = {}
    for table in comparison.rows:
        for number, reason in enumerate(table.reasons):
            those = tuple(np.flatnonzero(table.why == number).tolist()) if number else ()
            if those:
                found.setdefault((reason_words(reason, system), those), []).append(row_words(table))
    where = {key: f" ({', '.join(names)})" if len(comparison.rows) > 1 else "" for key, names in found.items()}
    lines = [f"{_numbers(those)} cannot be{where[said, those]}: {said}" for said, those in found]
    return lines if len(lines) <= REASONS else [*lines[:REASONS], f"and {len(lines) - REASONS} reasons more"]


def _numbers(those: Sequence[int]) -> str:
    shown = ", ".join(f"{i + 1}" for i in those[:6])
    return shown + (f" and {len(those) - 6} more" if len(those) > 6 else "")
