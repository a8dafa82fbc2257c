"""Where the limits of a pitch lie, each with the field its text was written for."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.model import RivetSet
from surfacecheck.provenance import plain
from surfacecheck.quantities import show
from surfacecheck.rules import greatest_pitches, least_pitch, pitch_times
from surfacecheck.strength import INTER_RIVET_SOURCE
from surfacecheck.studies.riveting._rivets_rules import stack_of
from surfacecheck.studies.riveting._rivets_words import row_words

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from surfacecheck.model import Rivet
    from surfacecheck.quantities import System
    from surfacecheck.rules import RuleResult
    from surfacecheck.studies.riveting._rivets_comparison import RivetComparison
    from surfacecheck.studies.riveting._rivets_row import RowTable

__all__ = ["Limit", "limits", "sheets_told"]

SHEETS_TOLD = 6
"""Thicknesses of sheet a list goes through one by one [-]."""
LIFTS = "skin edge lifts between rivets at limit load"


@dataclass(frozen=True)
class Limit:
    """A limit of the pitch from one text.

    Attributes
    ----------
    at : float
        [m].
    most : bool
        Whether the pitch is to be at most that; else at least.
    words : str
        What it is, and for which rivet or sheet.
    field : str
        What the text was written for.
    source : str
        The text.
    counts : bool
        Whether it counts; else it is only shown.
    """

    at: float
    most: bool
    words: str
    field: str
    source: str
    counts: bool


def sheets_told(comparison: RivetComparison) -> tuple[int, ...]:
    """Choose the sheets of which a person is told one by one: all, or of many the thinnest and the thickest.

    Parameters
    ----------
    comparison : RivetComparison
        Worked.

    Returns
    -------
    tuple of int
        Which of its sheets.
    """
    every = range(len(comparison.sheets))
    given = (comparison.alternatives.sheet or ())[: len(every)]
    return tuple(every) if len(every) <= SHEETS_TOLD else (given.index(min(given)), given.index(max(given)))


def limits(
    comparison: RivetComparison, system: System = "metric", sheets: Sequence[int] | None = None
) -> tuple[Limit, ...]:
    """List the limits of the pitch.

    Parameters
    ----------
    comparison : RivetComparison
        Worked.
    system : {"metric", "inch"}
        Units of the words.
    sheets : sequence of int, optional
        Only of these thicknesses of sheet; of all where it is not given.

    Returns
    -------
    tuple of Limit
        Least pitch of every rivet, where the skin edge buckles between rivets, greatest pitches of other fields; each
        once.
    """
    found: dict[tuple[object, ...], Limit] = {}
    for limit in _every(comparison, system, range(len(comparison.sheets)) if sheets is None else sheets):
        found.setdefault((round(limit.at, 7), limit.most, limit.source), limit)
    return tuple(found.values())


def _every(comparison: RivetComparison, system: System, told: Sequence[int]) -> Iterator[Limit]:
    for table in comparison.rows:
        yield from _least(table, system)
    for table in comparison.rows:
        yield from _between(comparison, table, system, told)
    for sheet in (comparison.sheets[t] for t in told):
        for table in comparison.rows:
            _, sheets = stack_of(sheet.surface, sheet.surface.rows[table.row.name])
            rules = greatest_pitches(1.0, min(sheets)) if sheets else ()
            for rule, words in zip(rules, ("24 t", "75 mm + 20 t"), strict=False):
                yield _of_rule(rule, True, f"{words}, sheet {show(min(sheets), 'length', system)}")


def _of_rule(rule: RuleResult, most: bool, words: str) -> Limit:
    source = str(rule.source).removeprefix("published: ")
    return Limit(rule.asked, most, words, rule.field, source, rule.counts)


def _least(table: RowTable, system: System) -> Iterator[Limit]:
    for block in table.blocks.values():
        for lines in sorted({plan.lines for plan in table.laid.plans} or {1}):
            if block.setting is not None and block.setting.rivet.diameter.known:
                size = plain(block.setting.rivet.diameter)
                more = f", {lines} lines" if lines > 1 else ""
                words = f"{pitch_times(lines):g} D, {show(size, 'length', system)} rivets{more}"
                yield _of_rule(least_pitch(1.0, size, lines=lines), False, words)


def _between(comparison: RivetComparison, table: RowTable, system: System, told: Sequence[int]) -> Iterator[Limit]:
    """Where the skin edge buckles between rivets at limit load: the pitch times the root of what it carries there."""
    pitch = np.where(np.isfinite(table.lifts), table.pitch * np.sqrt(np.maximum(table.lifts, 0.0)), np.nan)
    whole = pitch.reshape(len(table.blocks), -1)
    for at, (where, block) in enumerate(table.blocks.items()):
        if where[0] not in told or block.setting is None or np.isnan(whole[at]).all():
            continue
        words = [LIFTS, row_words(table)] if len(comparison.rows) > 1 else [LIFTS]
        if comparison.alternatives.sheet is not None:
            words.append(f"sheet {show(comparison.alternatives.sheet[where[0]], 'length', system)}")
        words.append(_held_by(block.setting.rivet))
        source = str(INTER_RIVET_SOURCE)
        yield Limit(float(np.nanmax(whole[at])), True, ", ".join(words), "aircraft", source, False)


def _held_by(rivet: Rivet) -> str:
    if rivet.sunk:
        return f"{rivet.head_kind} heads"
    return "solid rivets" if rivet.set is RivetSet.SOLID else "pulled rivets"
