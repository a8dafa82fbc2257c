"""A deviation in words: what passes here, every way beside the drawing, what each comes to."""

from __future__ import annotations

import textwrap
from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.assessment import CAUTION, in_system, margin_text, place_words
from surfacecheck.checks import Outcome
from surfacecheck.quantities import show
from surfacecheck.studies.deviating._bands_shown import band_lines
from surfacecheck.studies.deviating._deviation_grid import grid, same_said
from surfacecheck.studies.deviating._deviation_rows import FOLDED, SHOWN, answers_to, heads_of, rows_of, title_of
from surfacecheck.tables import Table, escaped, wrapped

if TYPE_CHECKING:
    from surfacecheck.quantities import System
    from surfacecheck.studies.deviating._deviation import Deviation, Way

__all__ = [
    "BOUNDS",
    "deviation_html",
    "deviation_table",
    "deviation_text",
    "folded_tables",
    "happened_lines",
    "outcome_lines",
    "passing_lines",
]

BOUNDS = "a / b: if what nobody publishes holds fully / holds nothing"
_NAMES = {
    "place": "HERE, lowest margin",
    "anywhere": "ANYWHERE",
    "rules": "RULES that change",
    "balance": "BALANCE",
    "lowest": "FIVE LOWEST of any way, one a part",
    "pins": "LOAD ON THE PINS, worst of all cases, at limit",
    "whole": "WHOLE SURFACE",
}


def happened_lines(deviation: Deviation) -> list[str]:
    """Say what happened, as it was written down."""
    return [f"{one.where}: {one.what}" for one in deviation.surface.happened]


def passing_lines(deviation: Deviation, system: System = "metric") -> list[str]:
    """Say what passes through every touched place at limit, and what else could carry it."""
    told = ((one.carries(system), one.brings(system), one.else_carried(system)) for one in deviation.passing)
    return [in_system(" ".join(one for one in both if one), system) for both in told if any(both)]


def outcome_lines(deviation: Deviation, system: System = "metric") -> list[str]:
    """Say what each way comes to: a word of outcome of the margin, and one of the rules, together.

    Parameters
    ----------
    deviation : Deviation
        Worked.
    system : {"metric", "inch"}
        Units.

    Returns
    -------
    list of str
        One a way, then the options that cannot be there and why.
    """
    known = {(rule.name, rule.place) for rule in deviation.ways[0].broken}
    told = []
    for way in deviation.ways:
        of = answers_to(deviation, way, system)
        name = f"{title_of(way)} ({of})" if of else title_of(way)
        told.append(f"{name}: {_outcome(deviation, way)}; {_rules(deviation, way, known, system)}")
    return [*told, *(f"not shown, {one}" for one in deviation.now.column.not_offered)]


def _outcome(deviation: Deviation, way: Way) -> str:
    both = " by either bound" if way.nothing is not None and not deviation.outcome(way).startswith("depends") else ""
    outside = way.outside(deviation.places)
    what = f" ({', '.join(outside)})" if outside else ""
    lowest = [one.margin for one in deviation.lowest(way) if one is not None and one.margin is not None]
    margin = " / ".join(dict.fromkeys(margin_text(one) if np.isfinite(one) else "none" for one in lowest))
    number = f"{margin}, " if margin else ""
    unknown = way.not_given(deviation.places)
    more = f"; {Outcome.NOT_GIVEN}: {', '.join(unknown)}" if unknown else ""
    return f"{deviation.judged_at(way)} {number}{deviation.outcome(way)}{what}{both}{more}"


def _rules(deviation: Deviation, way: Way, known: set[tuple[str, str]], system: System) -> str:
    """Say which rules it does not meet; those that the drawing does not meet either by their number."""
    broken = way.broken
    new = [rule for rule in broken if (rule.name, rule.place) not in known]
    old = len(broken) - len(new)
    if not broken:
        return "rules: meets, or not covered"
    first = way is deviation.ways[0]
    told: dict[str, list[str]] = {}
    for rule in () if first else new:
        said = rule.said(lambda si, quantity: show(si, quantity, system))
        told.setdefault(said, []).append(place_words(rule.place, deviation.surface).replace("-", " "))
    words = [f"does not meet: {said} ({'; '.join(places)})" for said, places in told.items()]
    same = f"rules: does not meet {old or len(broken)}{'' if first else ', as drawn'}"
    return "; ".join([*([same] if old or first else []), *words])


def deviation_table(deviation: Deviation, system: System = "metric", groups: tuple[str, ...] = ()) -> Table:
    """Put every way beside the drawing.

    Parameters
    ----------
    deviation : Deviation
        Worked.
    system : {"metric", "inch"}
        Units.
    groups : tuple of str
        Groups of lines; here, anywhere, rules and balance where empty.

    Returns
    -------
    Table
        A column a way.
    """
    heads = heads_of(deviation)
    rows: list[tuple[str, ...]] = []
    for group in groups or SHOWN:
        found = rows_of(deviation, group, system)
        if not groups:
            rows.append((_NAMES[group] if found else f"{_NAMES[group]}: none", *("",) * len(heads)))
        for row in found:
            said = same_said(row)
            rows.append((f"{row.name}: {said}" if said else row.name, *row.cells))
            rows += [("gives first", *row.says)] if any(row.says) and not said else []
    note = BOUNDS if any(way.nothing is not None for way in deviation.ways) else ""
    return Table(("", *heads), tuple(rows), note=note)


def folded_tables(deviation: Deviation, system: System = "metric") -> dict[str, Table]:
    """Give what is folded below the table: five lowest, hinge loads, the whole surface.

    Parameters
    ----------
    deviation : Deviation
        Worked.
    system : {"metric", "inch"}
        Units.

    Returns
    -------
    dict of str to Table
        By its heading.
    """
    return {_NAMES[group]: deviation_table(deviation, system, (group,)) for group in FOLDED}


def deviation_text(deviation: Deviation, system: System = "metric", width: int = 80, *, folded: bool = False) -> str:
    """Write a deviation for a terminal.

    Parameters
    ----------
    deviation : Deviation
        Worked.
    system : {"metric", "inch"}
        Units.
    width : int
        Columns.
    folded : bool
        With what is folded on the page.

    Returns
    -------
    str
        ASCII lines.
    """
    surface = deviation.surface
    head = [wrapped(f"{surface.name}: {surface.title}", width, then="  ")]
    head += [wrapped(line, width, then="  ") for line in happened_lines(deviation)]
    blocks = ["\n".join(head)]
    blocks += [wrapped(line, width) for line in passing_lines(deviation, system)]
    blocks.append(_columns(deviation, SHOWN, system, width))
    blocks.append("\n".join(wrapped(line, width, then="  ") for line in outcome_lines(deviation, system)))
    if deviation.cautions:
        blocks.append("\n".join(wrapped(line, width, then="  ") for line in deviation.cautions))
    told = [wrapped(line, width - 2, then="  ") for line in band_lines(deviation, system)]
    blocks.append("MEASURED, AS IT IS NOW\n" + "\n".join(textwrap.indent(line, " ") for line in told))
    if folded:
        blocks.append(_columns(deviation, FOLDED, system, width))
    blocks.append(wrapped(CAUTION, width))
    return "\n\n".join(blocks)


def _columns(deviation: Deviation, groups: tuple[str, ...], system: System, width: int) -> str:
    told = [(_NAMES[group], rows_of(deviation, group, system)) for group in groups]
    text = grid(heads_of(deviation), told, width)
    return f"{text}\n{wrapped(BOUNDS, width)}" if any(way.nothing for way in deviation.ways) else text


def deviation_html(deviation: Deviation, system: System = "metric") -> str:
    """Write a deviation for a notebook.

    Parameters
    ----------
    deviation : Deviation
        Worked.
    system : {"metric", "inch"}
        Units.

    Returns
    -------
    str
        HTML, every text escaped.
    """
    above = "".join(f"<p>{escaped(line)}</p>" for line in passing_lines(deviation, system))
    below = "".join(f"<li>{escaped(line)}</li>" for line in outcome_lines(deviation, system))
    beside = "".join(f"<p>{escaped(line)}</p>" for line in deviation.cautions)
    table = deviation_table(deviation, system).html()
    return f"<div>{above}{table}<ul>{below}</ul>{beside}<p><em>{escaped(CAUTION)}</em></p></div>"
