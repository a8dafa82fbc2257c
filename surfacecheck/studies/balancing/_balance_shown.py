"""A weighing as a whole, for a terminal and a notebook: the sentence first, the working below it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from surfacecheck.assessment import CAUTION, mass_table
from surfacecheck.studies.balancing._balance_tables import bench_table, criteria_table, state_table
from surfacecheck.studies.balancing._balance_words import balance_headline, paint_line, reading_lines
from surfacecheck.studies.balancing._cautions import cautions_for
from surfacecheck.tables import escaped, wrapped

if TYPE_CHECKING:
    from surfacecheck.quantities import System
    from surfacecheck.studies.balancing._balance import BalanceStudy

__all__ = ["NOT_WEIGHED", "balance_html", "balance_text"]

_LETTERS = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"
NOT_WEIGHED = "flutter, stiffness, friction of cables, balance of a tab by itself, how even it lies along the span"
"""What a weighing does not look at."""


def balance_text(study: BalanceStudy, system: System = "metric", width: int = 80) -> str:
    """Write a weighing for a terminal.

    Parameters
    ----------
    study : BalanceStudy
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
    heads = tuple("before" if at == 0 else _LETTERS[(at - 1) % len(_LETTERS)] for at in range(len(study.columns)))
    many = len(heads) > 1
    names = [f"{head}  {title}" if many else title for head, title in zip(heads, study.titles, strict=True)]
    first = f"WEIGHED  {study.surface.name or 'no name given'}"
    blocks = ["\n".join(wrapped(one, width, then="   ") for one in (first, *names))]
    seen: set[tuple[str, ...]] = set()
    for head, column in zip(heads, study.columns, strict=True):
        name, held = (f" {head}" if many else ""), column is study.columns[-1]
        blocks.append(wrapped(balance_headline(column, system, held=held), width, f"BALANCE{name}  ", "  "))
        said = reading_lines(column, system)
        if said not in seen and (column.readings is not None or not many):
            rules = [bench_table(column.rules, system).text(width)] if column.rules else []
            blocks.append("\n".join([f"READINGS{name}", *(wrapped(one, width, " ", "   ") for one in said), *rules]))
        seen.add(said)
    if many:
        blocks.append("BEFORE AND AFTER, paid twice\n" + state_table(study, system, heads).text(width))
    last = study.columns[-1]
    if paint := paint_line(last, system):
        blocks.append(wrapped(paint, width, "PAINT  ", "  "))
    blocks.append("CRITERIA\n" + criteria_table(last.criteria, system).text(width))
    if last.masses.pieces:
        blocks.append(mass_table(last, system).text(width))
    blocks.append("\n".join(wrapped(one, width, then="  ") for one in cautions_for("mass")))
    blocks.append(wrapped(NOT_WEIGHED, width, "NOT LOOKED AT  ", "  "))
    blocks.append(wrapped(CAUTION, width))
    return "\n\n".join(blocks)


def balance_html(study: BalanceStudy, system: System = "metric") -> str:
    """Write a weighing for a notebook.

    Parameters
    ----------
    study : BalanceStudy
        Worked.
    system : {"metric", "inch"}
        Units.

    Returns
    -------
    str
        HTML, every text escaped.
    """
    last = study.columns[-1]
    said = [f"<p>{escaped(balance_headline(last, system))}</p>"]
    said += [f"<p>{escaped('; '.join(reading_lines(last, system)))}</p>"]
    said += [bench_table(last.rules, system).html()] if last.rules else []
    said += [state_table(study, system).html(), criteria_table(last.criteria, system).html()]
    return f"<div>{''.join(said)}<p><em>{escaped(CAUTION)}</em></p></div>"
