"""The other blocks of a query sheet: where the place sits, the numbers, what was assumed."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.assessment import case_words, counts, in_system, shown_formulas
from surfacecheck.changes import kind_of
from surfacecheck.checks import Outcome
from surfacecheck.provenance import Basis
from surfacecheck.quantities import show
from surfacecheck.studies.balancing._cautions import topics_for
from surfacecheck.studies.deviating._bands_shown import called, range_text, reading_text
from surfacecheck.studies.deviating._deviation_here import MUST_CARRY
from surfacecheck.studies.deviating._deviation_rows import SHOWN, answers_to, in_words, line_name, rows_of
from surfacecheck.studies.deviating._here import group_name
from surfacecheck.studies.deviating._path import nearest_rib
from surfacecheck.studies.deviating._query_lines import (
    BALANCE,
    BAND,
    CHANGED,
    CORNER,
    FILE,
    LETTERS,
    MODEL,
    NOTES,
    OPTION,
    PATH,
    PLACES,
    RULES,
    STRENGTHS,
    WORKED,
    WORKED_NOTHING,
    Block,
    Line,
)

if TYPE_CHECKING:
    from collections.abc import Iterator

    from surfacecheck.checks import Finding
    from surfacecheck.quantities import System
    from surfacecheck.studies.deviating._deviation import Deviation, Way
    from surfacecheck.studies.deviating._deviation_rows import Row

__all__ = ["assumed_block", "numbers_block", "path_block"]

UNCHECKED = "No check is of this place itself; what it changes elsewhere stands below."
OFF_LINE = (
    "A pin off line does not push harder when the load grows: every case is worked with and without it, "
    "the worse counts."
)
SWUNG = "The swing is a bound: nothing damps it, and what gives takes up all of its work in a straight line."
_MOST_RULES, _MOST_PLACES = 3, 2
_ONE_RIVET = re.compile(r", rivet \d+(?=$|: )")
"""A line of one rivet of a group; the line of the group has the lowest of all its rivets."""


def path_block(deviation: Deviation, system: System = "metric") -> Block:
    """Say where the place sits in the load path.

    Parameters
    ----------
    deviation : Deviation
        Worked.
    system : {"metric", "inch"}
        Units.

    Returns
    -------
    Block
        The parts in order, what passes at limit, what else could carry it, the nearest rib.
    """
    lines: list[Line] = []
    groups = list(dict.fromkeys(group_name(one.place) for one in deviation.passing))[:_MOST_PLACES]
    for at, one in enumerate(deviation.passing):
        group = group_name(one.place)
        first = group in groups  # the first place of each of the first groups stays
        stays = 0 if first else PLACES
        groups = [other for other in groups if other != group]
        if one.path and one.path not in {other.path for other in deviation.passing[:at]}:
            lines.append(Line(_capital(" -> ".join(one.path)), PATH))
        said = ((one.carries(system), stays), (one.brings(system), PATH), (one.else_carried(system), stays))
        lines += [Line(in_system(text, system), drop) for text, drop in said if text]
        rib = nearest_rib(deviation.surface, one.place)
        if rib is not None:
            lines.append(Line(f"Nearest rib behind it: {show(rib, 'length', system) if rib else 'right there'}.", PATH))
    return Block("2 WHERE IT SITS", tuple(dict.fromkeys(lines)) or (Line(UNCHECKED),))


def numbers_block(deviation: Deviation, ways: tuple[Way, ...], system: System = "metric") -> Block:
    """Give the numbers of some of the ways.

    Parameters
    ----------
    deviation : Deviation
        Worked.
    ways : tuple of Way
        As drawn, as it is now, and perhaps one option.
    system : {"metric", "inch"}
        Units.

    Returns
    -------
    Block
        Margins here and anywhere, outcome, rules that change, balance, workings, what the measurements leave open.
    """
    at = [deviation.ways.index(way) for way in ways]
    names = ["as drawn", "as it is", *(way.column.title for way in ways[2:])]
    rows = {group: rows_of(deviation, group, system) for group in SHOWN}
    here = [(row, drop) for row, drop in _ranked(deviation, rows["place"]) if not _ONE_RIVET.search(row.name)]
    lines = [Line(_sentence(_named(row), row, at, names), drop) for row, drop in here]
    told = ((way.column.title, answers_to(deviation, way, system)) for way in ways[2:])
    lines[:0] = [Line(f"Option shown, {title}: {words}.", OPTION) for title, words in told if words]
    lines += [Line(_sentence("Lowest anywhere", row, at, names)) for row in rows["anywhere"]]
    lines += [Line(text) for text in _outcomes(deviation, ways, names)]
    changed = [row for row in rows["rules"] if len({row.cells[i] for i in at}) > 1]
    for number, row in enumerate(changed):
        name = _capital(row.name).rstrip(".")
        lines.append(Line(_sentence(name, row, at, names), RULES if number >= _MOST_RULES else 0))
    lines += _balance(rows["balance"], at, names)
    lines += _workings(deviation, system)
    lines += _bands(deviation, system)
    return Block("3 NUMBERS (from limit loads)", tuple(lines))


def _ranked(deviation: Deviation, rows: tuple[Row, ...]) -> Iterator[tuple[Row, int]]:
    """Say of every line of a place whether it may go: those of the lowest margins as it is now stay."""
    lines, lowest = deviation.of("place"), dict[str, float]()
    for line in (one for one in lines if one.quantity == "margin"):
        now = [value for value in deviation.by_way(line)[1] if isinstance(value, float)]
        group = _ONE_RIVET.sub("", line.name)
        lowest[group] = (
            min(*now, lowest.get(group, np.inf), np.inf) if now else 0.0
        )  # of unknown strength: near the top
    stay = sorted(lowest, key=lambda group: lowest[group])[:_MOST_PLACES]
    for row, line in zip(rows, lines, strict=True):
        part = line.name if line.quantity == "margin" else line.name.partition(": ")[0]
        yield row, 0 if _ONE_RIVET.sub("", part) in stay else PLACES


def _named(row: Row) -> str:
    """Name a line of the place: a margin, or what must be carried where no strength is given."""
    part = row.name.removesuffix(f", {MUST_CARRY}")
    return f"Lowest margin here, {part}" if part == row.name else f"Must carry at ultimate, {part}"


def _capital(text: str) -> str:
    return f"{text[:1].upper()}{text[1:]}."


def _balance(rows: tuple[Row, ...], at: list[int], names: list[str]) -> Iterator[Line]:
    """Say mass and moment; once where nothing changes."""
    same = [row for row in rows if all(row.cells[i] == "same" for i in at[1:])]
    if same:
        yield Line(f"Balance: no change, {' and '.join(f'{row.name} {row.cells[0]}' for row in same)}.", BALANCE)
    for row in rows:
        if row not in same:
            yield Line(_sentence(f"{row.name[:1].upper()}{row.name[1:]}", row, at, names), CHANGED)


def _sentence(name: str, row: Row, at: list[int], names: list[str]) -> str:
    """Write one line of the table as a sentence: equal values once."""
    shown = len(at)
    names = [name for name, i in zip(names, at, strict=True) if row.cells[i] != "-"]
    at = [i for i in at if row.cells[i] != "-"]
    cells = [row.cells[i] for i in at]
    said = list(dict.fromkeys(row.says[i] for i in at if row.says and row.says[i]))
    gives = f" ({said[0]})" if len(said) == 1 else ""
    if len(set(cells)) == 1 and len(cells) == shown:
        return f"{name}: {_both(cells[0])}, in all{gives}."
    parts = [f"{what} {_both(cell)}" for what, cell in zip(names, cells, strict=True)]
    each = "".join(
        f" {what}: {row.says[i]}." for what, i in zip(names, at, strict=True) if len(said) > 1 and row.says[i]
    )
    return f"{name}: {'; '.join(parts)}{gives}.{each}"


def _both(cell: str) -> str:
    fully, between, nothing = cell.partition(" / ")
    return f"{fully} if it holds fully, {nothing} if it holds nothing" if between else cell


def _outcomes(deviation: Deviation, ways: tuple[Way, ...], names: list[str]) -> Iterator[str]:
    """Say the outcome of the margin here, and beside it how many rules are not met."""
    told: dict[tuple[str, str], list[str]] = {}
    for way, name in zip(ways, names, strict=True):
        word, unknown = deviation.outcome(way), way.not_given(deviation.places)
        both = " by either bound" if way.nothing is not None and not word.startswith("depends") else ""
        word += f"; {Outcome.NOT_GIVEN}: {', '.join(unknown)}" if unknown and word != Outcome.NOT_GIVEN else ""
        told.setdefault((word, deviation.judged_at(way)), []).append(f"{name}{both}")
    for (word, where), who in told.items():
        yield f"Outcome {where}, {', '.join(who)}: {word}."
    broken = [f"{name} {len(way.broken)}" for way, name in zip(ways, names, strict=True)]
    yield f"Rules, how many it does not meet: {'; '.join(broken)}."


def _workings(deviation: Deviation, system: System) -> Iterator[Line]:
    """Show how the lowest margin here was worked, as it is now, for either bound."""
    bounds = ("holds fully", "holds nothing") if deviation.now.nothing is not None else ("",)
    here = deviation.lowest(deviation.now)
    for bound, finding, drop in zip(bounds, here, (WORKED, WORKED_NOTHING), strict=False):
        for shown in shown_formulas(finding, system) if finding is not None else ():
            which = f", {bound}" if bound else ""
            part = in_system(finding.part, system)  # type: ignore[union-attr]
            yield Line(f"Worked{which} ({part}): {shown.name} = {shown.filled} = {shown.result}", drop)
    first = next((one for one in here if one is not None), None)
    for shown in shown_formulas(first, system)[-1:] if first is not None else ():
        means = "; ".join(f"{x.name} {x.means}{f' [{x.unit}]' if x.unit else ''}" for x in shown.letters)
        yield Line(f"where {shown.name} = {shown.formula}; {means}.", LETTERS)


def _bands(deviation: Deviation, system: System) -> Iterator[Line]:
    """Say what the measurements leave open."""
    found = deviation.bands
    here = [band for band in found.margins if band.where == "here"]
    moving = [band for band in here if band.wide]
    for name, drop in (("first", BAND), ("corner", CORNER)):
        told = [f"{range_text(getattr(band, name))}{f' ({band.bound})' if band.bound else ''}" for band in moving]
        words = "With what the tools leave open, margin here" if name == "first" else "With everything off at once"
        if told:
            yield Line(f"{words}: {', '.join(told)}.", drop)
    if here and not moving:
        yield Line("What the tools leave open does not move the margin here by 0.01.", BAND)
    if found.better is not None:
        yield Line(f"What decides most: {reading_text(found.better, system)}, {found.better.moves[0]:+z.2f}.", BAND)
    close = dict.fromkeys(
        f"{line_name(deviation, rule)} {otherwise} if {called(key)} is off by its tool"
        for rule, _, otherwise, key in found.rules
    )
    if close:
        yield Line(f"Near its limit: {'; '.join(close)}.", BAND)


def assumed_block(deviation: Deviation, system: System = "metric") -> Block:
    """Say what was assumed.

    Parameters
    ----------
    deviation : Deviation
        Worked.
    system : {"metric", "inch"}
        Units.

    Returns
    -------
    Block
        Load and its source, case, factors, strengths with their sources, what was done to the model, what was not
        looked at.
    """
    here = [one for one in deviation.lowest(deviation.now) if one is not None]
    told = {case_words(one.case) for one in deviation.passing if one.ways}
    cases = dict.fromkeys(case_words(one.case) for one in here if one.required)
    lines = [Line(text) for text in (_load(deviation),) if text]
    where = deviation.judged_at(deviation.now)
    lines += [Line(f"Case of the lowest {where}: {'; '.join(cases)}.")] if set(cases) - told else []
    lines += [Line(f"Factors: {text}.") for text in dict.fromkeys(one.check.factors for one in here) if text]
    strengths = dict.fromkeys(text for one in here for text in _strengths(one, system))
    lines += [Line(f"Strengths: {'; '.join(strengths)}.", STRENGTHS)] if strengths else []
    lines += [Line(_capital(in_words(deviation, text, system)), MODEL) for text in deviation.now.column.says]
    lines += [Line(_capital(text), NOTES) for one in here for text in one.check.notes]
    known = counts(deviation.now.fully)
    guesses = f"{known['guess']} guess{'' if known['guess'] == 1 else 'es'}"
    lines.append(Line(f"Of the file: {guesses}, {known['not said']} without a word how known, "
                      f"{known['not given']} not given.", FILE))  # fmt: skip
    lines += [Line(text) for text in _bounds_of(deviation)]
    topics = topics_for(deviation.in_words)
    touched = f"; of these it touches {', '.join(topics)}" if topics else ""
    lines.append(Line(f"Not looked at: {', '.join(deviation.now.fully.not_looked_at[:6])}{touched}."))
    return Block("4 WHAT I ASSUMED", tuple(dict.fromkeys(lines)))


def _bounds_of(deviation: Deviation) -> Iterator[str]:
    """Say what of an event is a bound by itself, and never left out."""
    told = {kind_of(event.what).tells: event for event in deviation.surface.happened}
    if "line" in told:
        yield OFF_LINE
    if "wind" in told and told["wind"].swung.known:
        yield SWUNG


def _load(deviation: Deviation) -> str:
    load = deviation.surface.load
    for name, value in (("mean", load.pressure), ("whole", load.total)):
        if value.known:
            how = value.source.text or str(value.source.basis)
            over = f", {name} over {load.over}" if name == "mean" and load.over else ""
            return f"Load: {value.said} {load.level or '(level not said)'}{over} ({how})."
    return f"Load: by {load.rule}." if load.rule is not None else ""


def _strengths(finding: Finding, system: System) -> Iterator[str]:
    texts = [text for text in (finding.check.available, finding.check.required) if text]
    for symbol in finding.symbols(*texts):
        if symbol.quantity in {"force", "stress"} and symbol.source.basis not in {Basis.WORKED_OUT}:
            yield f"{symbol.means} {show(symbol.si, symbol.quantity, system, 4)} ({symbol.source})"
