"""What stands beside a comparison of rivets: the pitch for margin zero, limits of a pitch, what cannot be."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.quantities import show
from surfacecheck.studies.riveting._rivets_limits import limits, sheets_told
from surfacecheck.studies.riveting._rivets_words import choice_words, reason_words, row_words
from surfacecheck.tables import Table

if TYPE_CHECKING:
    from collections.abc import Sequence

    from surfacecheck.quantities import System
    from surfacecheck.studies.riveting._rivets_comparison import RivetComparison
    from surfacecheck.studies.riveting._rivets_row import RowTable

__all__ = ["impossible_lines", "limit_lines", "limit_table", "zero_table"]

REASONS = 8
"""Reasons a list shows [-]."""


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
    first = comparison.choice
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
        for one in limits(comparison, system, sheets_told(comparison))
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
