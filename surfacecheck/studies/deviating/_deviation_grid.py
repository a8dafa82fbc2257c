"""The lines of a deviation for a terminal: a long name stands on a line of its own, its values below it."""

from __future__ import annotations

import textwrap
from typing import TYPE_CHECKING

from surfacecheck.tables import plain, wrapped

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from surfacecheck.studies.deviating._deviation_rows import Row

__all__ = ["grid", "same_said"]

_CELL, _GAP, _MOST = 13, 2, 4
"""Width of a cell ("+4.85 / +2.39", "does not meet"), gap before it, columns beside each other."""


def same_said(row: Row) -> str:
    """Give what goes with every value of a line where it is the same for all."""
    said = list(dict.fromkeys(one for one in row.says if one))
    return said[0] if len(said) == 1 else ""


def grid(heads: Sequence[str], groups: Iterable[tuple[str, Sequence[Row]]], width: int = 80) -> str:
    """Write lines in columns.

    Parameters
    ----------
    heads : sequence of str
        Of the columns.
    groups : iterable of (str, sequence of Row)
        Heading and lines.
    width : int
        Columns of the terminal.

    Returns
    -------
    str
        ASCII lines; where there are more than four columns, the first two come again beside the others.
    """
    told = list(groups)
    first, rest = list(range(min(2, len(heads)))), list(range(2, len(heads)))
    parts = [[*first, *rest[at : at + _MOST - 2]] for at in range(0, len(rest), _MOST - 2)] or [first]
    return "\n\n".join(_part([heads[c] for c in part], _only(told, part), width) for part in parts)


def _only(groups: list[tuple[str, Sequence[Row]]], part: list[int]) -> list[tuple[str, list[Row]]]:
    def kept(row: Row) -> Row:
        says = tuple(row.says[c] for c in part) if row.says else ()
        return row._replace(cells=tuple(row.cells[c] for c in part), says=says)

    return [(name, [kept(row) for row in rows]) for name, rows in groups]


def _part(heads: list[str], groups: list[tuple[str, list[Row]]], width: int) -> str:
    label = width - len(heads) * (_CELL + _GAP)
    out = _line("", heads, label)
    for name, rows in groups:
        out.append(plain(f"{name}{'' if rows else ': none'}"))
        for row in rows:
            said = same_said(row)
            out += _named(f"{row.name}: {said}" if said else row.name, row.cells, label, width)
            if not said:
                told = ((head, one) for head, one in zip(heads, row.says, strict=False) if one)
                out += [wrapped(f"{head}: {one}", width, "    ", "      ") for head, one in told]
    return "\n".join(out)


def _named(name: str, cells: Sequence[str], label: int, width: int) -> list[str]:
    if len(name) + 1 <= label:
        return _line(f" {plain(name)}", cells, label)
    return [wrapped(name, width, " ", "   "), *_line("", cells, label)]


def _line(name: str, cells: Sequence[str], label: int) -> list[str]:
    broken = [textwrap.wrap(plain(cell), _CELL, break_on_hyphens=False) or [""] for cell in cells]
    lines = []
    for at in range(max(len(cell) for cell in broken)):
        parts = [(cell[at] if at < len(cell) else "").rjust(_CELL + _GAP) for cell in broken]
        lines.append(((name if at == 0 else "").ljust(label) + "".join(parts)).rstrip())
    return lines
