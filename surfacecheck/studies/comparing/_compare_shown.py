"""A comparison in words: here, anywhere, rules, balance; only what moved."""

from __future__ import annotations

from typing import TYPE_CHECKING

from surfacecheck.assessment import CAUTION, in_system, place_words
from surfacecheck.quantities import show
from surfacecheck.tables import Table, escaped, wrapped

if TYPE_CHECKING:
    from surfacecheck.quantities import System
    from surfacecheck.studies.comparing._compare import Changed, Comparison, Group

__all__ = ["comparison_html", "comparison_table", "comparison_text"]

_MOST = 8
_LETTERS = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"


def _column(at: int) -> str:
    return "before" if at == 0 else _LETTERS[(at - 1) % len(_LETTERS)]


def _name(comparison: Comparison, line: Changed, system: System) -> str:
    return place_words(in_system(line.name, system), comparison.base.surface)


def _cell(line: Changed, at: int, system: System) -> str:
    value = line.values[at]
    if value is None:
        return "no margin" if line.group == "anywhere" else "-"
    if isinstance(value, str):
        return value
    if line.quantity == "margin":
        return f"{value:+z.2f}"
    if line.quantity == "count":
        return f"{value:.0f}"
    return show(value, line.quantity, system, 4 if line.group == "whole" else 3)


def _table(
    comparison: Comparison, lines: tuple[Changed, ...], heads: tuple[str, ...], system: System, name: str, more: str
) -> Table:
    rows = []
    for line in lines:
        cells = tuple(_cell(line, at, system) for at in range(len(heads)))
        rows.append((_name(comparison, line, system), *cells))
        said = list(dict.fromkeys(says for says in line.says if says))
        if len(said) > 1:
            firsts = (in_system(says, system) for says in line.says)
            rows += [
                (f"  {head}: {says}", *[""] * len(heads)) for head, says in zip(heads, firsts, strict=True) if says
            ]
    align = "l" + ("l" if lines and lines[0].quantity == "words" else "r") * len(heads)
    return Table((name, *heads), tuple(rows), align, note=more)


def comparison_table(comparison: Comparison, system: System = "metric") -> Table:
    """Put everything that moved in one table, for a notebook.

    Parameters
    ----------
    comparison : Comparison
        Worked.
    system : {"metric", "inch"}
        Units.

    Returns
    -------
    Table
        A column for each assessment.
    """
    lines = [line for line in comparison.lines if line.moved or line.group in {"anywhere", "whole"}]
    rows = tuple(
        (
            place_words(in_system(line.name, system), comparison.base.surface),
            *(_cell(line, at, system) for at in range(len(line.values))),
        )
        for line in lines
    )
    return Table(("", *comparison.titles), rows, caption="Before and after", note="Only what a change moved")


def comparison_text(comparison: Comparison, system: System = "metric", width: int = 80) -> str:
    """Write a comparison for a terminal.

    Parameters
    ----------
    comparison : Comparison
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
    heads = tuple(_column(at) for at in range(len(comparison.titles)))
    legend = [f"{head}  {title}" for head, title in zip(heads, comparison.titles, strict=True)]
    blocks = ["\n".join(wrapped(line, width, then="   ") for line in (comparison.base.surface.name, *legend))]
    names: dict[Group, str] = {
        "anywhere": "ANYWHERE",
        "cases": "LOAD CASES not in all: without one, what it loads looks better",
        "here": "HERE: lowest margin of each part that moved",
        "must carry": "MUST CARRY: strength not given",
        "pins": "LOAD ON THE PINS, worst of all cases, limit",
        "rules": "RULES that changed",
        "whole": "WHOLE SURFACE",
    }
    for group, name in names.items():
        keep_all = group in {"anywhere", "whole"}
        lines = comparison.of(group, moved=not keep_all)
        if not lines and group == "cases":
            continue
        if not lines:
            blocks.append(f"{name}: none")
            continue
        more = f"and {len(lines) - _MOST} more that moved" if len(lines) > _MOST else ""
        blocks.append(_table(comparison, lines[:_MOST], heads, system, name, more).text(width))
    blocks.append(wrapped(CAUTION, width))
    return "\n\n".join(blocks)


def comparison_html(comparison: Comparison, system: System = "metric") -> str:
    """Write a comparison for a notebook.

    Parameters
    ----------
    comparison : Comparison
        Worked.
    system : {"metric", "inch"}
        Units.

    Returns
    -------
    str
        HTML, every text escaped.
    """
    return f"<div>{comparison_table(comparison, system).html()}<p><em>{escaped(CAUTION)}</em></p></div>"
