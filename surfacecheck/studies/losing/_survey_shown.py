"""Rivets taken out one by one and in pairs, in words and tables: the worst first."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.assessment import CAUTION, margin_text
from surfacecheck.quantities import show
from surfacecheck.tables import Table, escaped, wrapped

if TYPE_CHECKING:
    from surfacecheck.quantities import System
    from surfacecheck.studies.losing._missing_survey import Removal, Survey

__all__ = ["survey_headline", "survey_html", "survey_table", "survey_text"]

SHOWN = 6
"""Lines of singles, and of pairs, in a text."""


def _out(one: Removal) -> str:
    numbers = " and ".join(str(n) for n in one.out)
    return f"rib {one.rib}: {numbers}" if one.rib else numbers


def survey_table(survey: Survey, size: int, system: System = "metric", most: int | None = None) -> Table:
    """Put the removals of one rivet, or of two, in a table.

    Parameters
    ----------
    survey : Survey
        Worked.
    size : int
        1 or 2.
    system : {"metric", "inch"}
        Units.
    most : int, optional
        Lines at most; all where not given.

    Returns
    -------
    Table
        The worst first: growth of the largest load, that load at limit, lowest margin, where, what gives; load
        multiplier over that as drawn, where margins are known; else what a rivet must be good for.
    """
    asks = any(one.asks is not None for one in survey.removals)
    every = survey.of(size)
    group = not survey.place.startswith("row.")
    rows = []
    for one in every[:most]:
        if not one.holds:
            why = "no couple without a heel" if group else "nothing left"
            rows.append((_out(one), "-", "-", "not held", "-", why, "-"))
            continue
        capacity = survey.capacity(one)
        last = "-" if capacity is None else f"{capacity:.2f}"
        if asks:
            last = "-" if one.asks is None else show(one.asks, "force", system)
        margin = "not given" if one.margin is None else margin_text(one.margin)
        load = show(one.load, "force", system)
        rows.append((_out(one), _growth(one), load, margin, str(one.at), one.gives, last))
    heads = ("out", "times", "largest", "margin", "at", "gives first", "asks" if asks else "of drawn")
    left = len(every) - len(rows)
    note = f"and {left} more, none worse" if left > 0 else ""
    caption = f"{'Pairs' if size == 2 else 'One'} out, the worst first"
    return Table(heads, tuple(rows), "lrrrrlr", caption, note)


def _growth(one: Removal) -> str:
    low, high = one.growth[0], max(one.growth[1:])
    if not np.isfinite(high):
        return "-"
    return f"{high:.2f}" if f"{low:.2f}" == f"{high:.2f}" else f"{low:.2f} to {high:.2f}"


def survey_headline(survey: Survey) -> str:
    """Say in a sentence or two which rivets matter most.

    Parameters
    ----------
    survey : Survey
        Worked.

    Returns
    -------
    str
        The worst single one and the worst pair; how many leave less than required.
    """
    said = [] if survey.drawn is None else [f"As drawn {margin_text(survey.drawn)}."]
    for size, words in ((1, "of one rivet"), (2, "of two")):
        every = survey.of(size)
        if not every:
            continue
        worst, short = every[0], sum(one.margin is not None and one.margin < 0.0 for one in every)
        loose = sum(not one.holds for one in every)
        known = [one.margin for one in every if one.margin is not None]
        text = f"Out {words}, {len(every)} ways: "
        text += "margins not given" if not known else f"lowest {margin_text(min(known))}"
        if known and worst.holds:
            text += f" without {_out(worst)}"
        text += f"; less than required in {short}" if known else ""
        text += f"; not held in {loose}" if loose else ""
        said.append(f"{text}.")
    gains = [one for one in survey.removals if (survey.capacity(one) or 0.0) > 1.0 + 1e-9]
    if gains and not survey.place.startswith("row."):
        best = max(gains, key=lambda one: survey.capacity(one) or 0.0)
        said.append(
            f"Without {_out(best)} the load multiplier is {survey.capacity(best):.2f} of that as drawn: by the elastic "
            "method a rivet that takes its share early holds the others back; by best sharing none can gain."
        )
    return " ".join(said)


def _notes(survey: Survey) -> tuple[str, ...]:
    asks = any(one.asks is not None for one in survey.removals)
    last = (
        "asks: what a rivet of unknown strength must be good for at ultimate; margins are of what is given"
        if asks
        else "of drawn: load multiplier over that with all rivets in"
    )
    row = survey.place.startswith("row.")
    times = "times: load over that as drawn, spring model least to every gap halved" if row else "times: largest growth"
    return (times, "at: rivet with that margin, of those that get more", last, *survey.notes)


def survey_text(survey: Survey, system: System = "metric", width: int = 80) -> str:
    """Write a survey for a terminal.

    Parameters
    ----------
    survey : Survey
        Worked.
    system : {"metric", "inch"}
        Units.
    width : int
        Columns.

    Returns
    -------
    str
        ASCII lines, the worst of both.
    """
    tables = [survey_table(survey, size, system, SHOWN).text(width) for size in (1, 2) if survey.of(size)]
    blocks = [
        wrapped(f"RIVETS OUT ONE BY ONE  {survey.part}, {survey.rivets} rivets", width, then="  "),
        wrapped(survey_headline(survey), width),
        *tables,
        "\n".join(wrapped(note, width, then="  ") for note in _notes(survey)),
        wrapped(CAUTION, width),
    ]
    return "\n\n".join(blocks)


def survey_html(survey: Survey, system: System = "metric") -> str:
    """Write a survey for a notebook or a page.

    Parameters
    ----------
    survey : Survey
        Worked.
    system : {"metric", "inch"}
        Units.

    Returns
    -------
    str
        HTML, every text escaped.
    """
    tables = "".join(survey_table(survey, size, system, 2 * SHOWN).html() for size in (1, 2) if survey.of(size))
    lines = "".join(f"<li>{escaped(note)}</li>" for note in _notes(survey))
    head = f"<p><strong>{escaped(survey.part)}</strong></p><p>{escaped(survey_headline(survey))}</p>"
    return f"<div>{head}{tables}<ul>{lines}</ul><p><em>{escaped(CAUTION)}</em></p></div>"
