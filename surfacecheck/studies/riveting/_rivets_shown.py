"""A comparison of rivets in words: what sets the pitch first, then the tables, then what it rests on."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.assessment import CAUTION, in_system
from surfacecheck.checks import factors_of
from surfacecheck.library import rivet_strength
from surfacecheck.model import HeadKind, RivetSet
from surfacecheck.quantities import show
from surfacecheck.studies.riveting._rivets_bench import buying_lines
from surfacecheck.studies.riveting._rivets_flange import flange_lines
from surfacecheck.studies.riveting._rivets_limits import sheets_told
from surfacecheck.studies.riveting._rivets_lists import impossible_lines, limit_lines, zero_table
from surfacecheck.studies.riveting._rivets_tables import carries_table, first_shown, takes_table
from surfacecheck.studies.riveting._rivets_words import choice_words, row_words, strength_lines
from surfacecheck.studies.single_row._row import LARGE
from surfacecheck.tables import escaped, wrapped

if TYPE_CHECKING:
    from collections.abc import Iterator

    from surfacecheck.model import Rivet
    from surfacecheck.quantities import System
    from surfacecheck.studies.riveting._rivets_comparison import RivetComparison
    from surfacecheck.studies.riveting._rivets_row import RowTable
    from surfacecheck.studies.riveting._rivets_work import Setting

__all__ = ["LINES", "rivets_headline", "rivets_html", "rivets_notes", "rivets_text"]

LINES = 24
"""Alternatives a terminal shows; of more, those that nothing else beats."""

ASKS = "Options are shown, none is recommended: the drawing decides; ask before you change it."
DRILLED = "Drilled already: only leaving rivets out is real."
DRILLED_UP = (
    "Drilled already: rivets can be left out; a larger one can be, by drilling up, and a sunk head, by sinking the "
    "hole. Sheet, edge and number of lines stay."
)
FIXED = "loads are those of the surface as drawn: rivets do not change where a load goes"
SUNK = (
    "countersunk: no deeper than two thirds of the sheet, else it is dimpled (common practice); less bears than in a "
    "plain hole, which these margins have: outside the method"
)
GRAMS = "what a rivet more or less weighs is not followed into the cases that read the mass: compare does"
SHEETS = "where the sheet changes, loads do: the whole surface was worked again for each thickness"
PULLED = (
    "a pulled rivet does not fill its hole, is softer than a solid one and tires sooner (common practice); AC "
    "43.13-1B, 4-57f, keeps common pull rivets off certificated structure"
)
LEFT = "not looked at: fatigue, quality of holes, sealing, the rest of the surface"


def rivets_headline(comparison: RivetComparison, system: System = "metric") -> list[str]:
    """Say in a few sentences what the comparison comes to; whether strength sets the pitch stands first.

    Parameters
    ----------
    comparison : RivetComparison
        Worked.
    system : {"metric", "inch"}
        Units.

    Returns
    -------
    list of str
        A sentence each.
    """
    said = [*_sets(comparison, system)]
    if comparison.drilled:
        given = comparison.alternatives
        plain = given.rivet is None and given.diameter is None and given.head is None and given.sheet is None
        said.append(DRILLED if plain else DRILLED_UP)
    said += _must(comparison, system)
    whole = comparison.whole
    less = int(np.count_nonzero(whole.margin < 0.0))
    if less:
        said.append(f"Less than required: {less} of {comparison.size} alternatives.")
    said += [_drawn(table, system) for table in comparison.drawn]
    if comparison.stopped:
        said.append(
            f"Stopped: {comparison.size} of {comparison.asked} alternatives were finished, and only they are here."
        )
    return said


def _sets(comparison: RivetComparison, system: System) -> Iterator[str]:
    """Say that strength does not set the pitch, where it would bear one twice as wide."""
    drawn = comparison.drawn
    margins = np.array([table.margin[0] for table in drawn])
    outside = any(table.outside[0] for table in drawn)
    if np.isnan(margins).any() or margins.min() < LARGE or outside:
        return
    by = "" if all(table.shear_known[0] and table.pull_known[0] for table in drawn) else "By what is given, "
    rivet = ", ".join(dict.fromkeys(table.row.rivet for table in drawn if table.row.rivet))
    carried = f"as drawn, with {rivet}, {_would_carry(drawn, system)}{_weakest(comparison, system)}"
    yield (
        f"{by}{'strength' if by else 'Strength'} does not set this pitch: {carried}. What sets it: the sheet between "
        "rivets, sealing, habit."
    )


def _would_carry(drawn: tuple[RowTable, ...], system: System) -> str:
    pitches = [float(table.zero_pitch[0]) for table in drawn]
    known = [one for one in pitches if not np.isnan(one)]
    if known and np.isfinite(min(known)):
        return f"it would carry {show(min(known), 'length', system, 2)}"
    if known:
        return "it would carry any pitch the row has room for"
    count = int(max(table.zero_count[0] for table in drawn))
    return f"{count} rivet{'s' if count > 1 else ''} on a rib would carry it"


def _weakest(comparison: RivetComparison, system: System) -> str:
    """Say what the weakest of the list would carry, where it is not all as drawn."""
    first = np.unique(comparison.choice[comparison.whole.possible])
    if not first.size or not choice_words(comparison, int(first[0]), system, "space"):
        return ""
    pitch = np.stack([table.zero_pitch for table in comparison.rows])
    least = np.where(np.isfinite(pitch), pitch, np.inf).min(axis=0)
    least = np.where(comparison.whole.possible, least, np.inf)
    at = int(least.argmin())
    if not np.isfinite(least[at]):
        return ""
    said = choice_words(comparison, at, system, "space")
    return f"; of the list {said} would carry the least, {show(float(least[at]), 'length', system)}"


def _must(comparison: RivetComparison, system: System) -> Iterator[str]:
    """Turn an unknown strength round: what each rivet must carry."""
    for word, what in (("shear", "must_shear"), ("pull", "must_pull")):
        least, most, names = np.inf, -np.inf, []
        for table in comparison.rows:
            asks = table.possible & ~getattr(table, f"{word}_known")
            if asks.any():
                loads = getattr(table, what)[asks]
                least, most = min(least, float(loads.min())), max(most, float(loads.max()))
                names += [
                    _named(b.setting.rivet, comparison) for b in table.blocks.values()
                    if b.setting is not None and not _known(b.setting, word)
                ]  # fmt: skip
        if names and most > 0.0:
            span = show(most, "force", system)
            if least < 0.995 * most:
                span = f"{show(least, 'force', system)} to {span}, by the pitch,"
            kinds = ", ".join(dict.fromkeys(names))
            where = "" if word == "pull" else "; look for that on the data sheet"
            yield f"No {word} strength given for {kinds}: each must carry {span} at ultimate{where}."


def _named(rivet: Rivet, comparison: RivetComparison) -> str:
    """Name a rivet; with its head, where heads are compared."""
    return rivet.name if comparison.alternatives.head is None else f"{rivet.name} ({rivet.head_kind or 'protruding'})"


def _known(setting: Setting, word: str) -> bool:
    return dict(zip(("shear", "pull"), rivet_strength(setting.surface, setting.rivet), strict=True))[word].known


def _drawn(table: RowTable, system: System) -> str:
    """Say what a row is as drawn."""
    if table.why[0]:
        return f"{row_words(table)} as drawn: {table.reasons[table.why[0]]}."
    pitch = show(float(table.ruling[0]), "length", system)
    rivet = table.row.rivet
    said = f"{row_words(table)} as drawn: {table.total[0]} rivets at {pitch}, {rivet}"
    if np.isnan(table.margin[0]):
        return f"{said}; no margin given."
    return f"{said}; lowest margin {table.margin[0]:+z.2f}, {table.modes[table.gives[0]][1]}."


def rivets_notes(comparison: RivetComparison, system: System = "metric") -> list[str]:
    """List what the comparison rests on.

    Parameters
    ----------
    comparison : RivetComparison
        Worked.
    system : {"metric", "inch"}
        Units.

    Returns
    -------
    list of str
        A line each.
    """
    notes = [FIXED, GRAMS]
    if comparison.alternatives.sheet is not None:
        notes[0] = SHEETS
        for at in (told := sheets_told(comparison)):
            for low in comparison.sheets[at].margins[:1]:
                thick = show(comparison.alternatives.sheet[at], "length", system)
                where = f"{low.margin:+z.2f}, {in_system(low.part, system)}"
                notes.append(f"sheet {thick}: lowest margin of the whole surface {where}")
        if len(told) < len(comparison.sheets):
            notes.append(f"of {len(comparison.sheets)} sheets the limits of the thinnest and the thickest are shown")
    if comparison.apart:
        names = ", ".join(name.replace("_", " ") for name in comparison.apart)
        notes.append(f"what happened to single rivets of {names} is not followed: all are taken as the row says")
    if comparison.alternatives.edge is not None:
        notes.append("an edge distance is given to every sheet of the row of which one is given")
    notes += [f"strength of {line}" for line in strength_lines(comparison, system)]
    settings = [b.setting for table in comparison.rows for b in table.blocks.values() if b.setting is not None]
    rivets = [
        *(one.rivet for one in settings),
        *(comparison.surface.rivets.get(table.row.rivet) for table in comparison.rows),
    ]
    if {RivetSet.PULLED, RivetSet.SOLID} <= {one.set for one in rivets if one is not None}:
        notes.append(PULLED)
    if any(one.head_kind is HeadKind.COUNTERSUNK for one in rivets if one is not None):
        notes.append(SUNK)
    lines = dict.fromkeys(factors_of(one.surface, one.rivet).line for one in settings)
    notes += flange_lines(comparison, system)
    return [*notes, f"factors: {'; '.join(lines)}", LEFT]


def rivets_text(comparison: RivetComparison, system: System = "metric", width: int = 80) -> str:
    """Write a comparison for a terminal.

    Parameters
    ----------
    comparison : RivetComparison
        Worked.
    system : {"metric", "inch"}
        Units.
    width : int
        Columns.

    Returns
    -------
    str
        ASCII lines.
    """
    shown, left = first_shown(comparison, LINES)
    names = ", ".join(row_words(table) for table in comparison.rows)
    blocks = [wrapped(f"RIVETS COMPARED  {names}", width, then="  ")]
    blocks.append("\n".join(wrapped(line, width, then="  ") for line in rivets_headline(comparison, system)))
    count = f"{comparison.size}{f' of {comparison.asked}' if comparison.stopped else ''} alternatives"
    if left:
        count += f"; {left} are not shown: beaten, or near one that is"
    if shown:
        head = wrapped(f"WHAT EACH CARRIES  {count}", width)
        blocks.append(f"{head}\n{carries_table(comparison, shown, system).text(width)}")
        blocks.append(f"WHAT EACH TAKES\n{takes_table(comparison, shown, system).text(width)}")
        blocks.append("\n".join(wrapped(line, width, then="  ") for line in buying_lines(comparison, shown, system)))
    lines = impossible_lines(comparison, system)
    if lines:
        blocks.append("\n".join(["CANNOT BE", *(wrapped(line, width, then="  ") for line in lines)]))
    zero = zero_table(comparison, system, shown)
    if zero.rows:
        blocks.append(f"PITCH FOR MARGIN ZERO\n{zero.text(width)}")
    lines = [wrapped(line, width, then="  ") for line in limit_lines(comparison, system)]
    blocks.append("\n".join(["LIMITS OF A PITCH, EACH WITH ITS FIELD", *lines]))
    blocks.append("\n".join(wrapped(note, width, then="  ") for note in rivets_notes(comparison, system)))
    return "\n\n".join([*blocks, wrapped(f"{ASKS} {CAUTION}", width)])


def rivets_html(comparison: RivetComparison, system: System = "metric") -> str:
    """Write a comparison for a notebook.

    Parameters
    ----------
    comparison : RivetComparison
        Worked.
    system : {"metric", "inch"}
        Units.

    Returns
    -------
    str
        HTML, every text escaped.
    """
    shown, _ = first_shown(comparison, LINES)
    said = f"<p>{escaped(' '.join(rivets_headline(comparison, system)))}</p>"
    tables = carries_table(comparison, shown, system).html() if shown else ""
    lines = "".join(f"<li>{escaped(line)}</li>" for line in impossible_lines(comparison, system))
    cannot = f"<ul>{lines}</ul>" if lines else ""
    return f"<div>{said}{tables}{cannot}<p><em>{escaped(f'{ASKS} {CAUTION}')}</em></p></div>"
