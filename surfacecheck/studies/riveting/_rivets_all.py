"""Every alternative of all rows, block by block, so that a stop leaves whole alternatives of all of them."""

from __future__ import annotations

import math
from dataclasses import replace
from itertools import product
from typing import TYPE_CHECKING, Any

from surfacecheck.assessment import assess_each
from surfacecheck.provenance import Value
from surfacecheck.quantities import show
from surfacecheck.studies.riveting._rivets_fill import RowFilling
from surfacecheck.studies.riveting._rivets_given import Alternatives, Space

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence

    from surfacecheck.assessment import Assessment
    from surfacecheck.checks import RowPlan
    from surfacecheck.model import Surface
    from surfacecheck.studies.riveting._rivets_row import RowTable

__all__ = ["NOTHING", "drawn_tables", "work_all"]

SHEETS = 64
"""Thicknesses of sheet that are worked as one stack at the most: a stop keeps those before it."""
NOTHING = "stopped: not one alternative was finished"


def work_all(
    base: Assessment,
    holes: Mapping[str, RowPlan | None],
    alternatives: Alternatives,
    spaces: Sequence[Space],
    progress: bool | None,
) -> tuple[tuple[Assessment, ...], tuple[RowTable, ...], bool]:
    """Work every alternative of all rows.

    Parameters
    ----------
    base : Assessment
        Of the surface as drawn.
    holes : mapping of str to RowPlan or None
        The rows, each with its holes where it is drilled already.
    alternatives : Alternatives
        Lists to compare.
    spaces : sequence of Space
        Spacings; of rows that are drilled, those of their holes among them.
    progress : bool, optional
        As for :func:`rivets`.

    Returns
    -------
    sheets : tuple of Assessment
        One for each thickness of sheet that was begun.
    rows : tuple of RowTable
        Of what was finished.
    stopped : bool
        Whether that is not all.

    Raises
    ------
    KeyboardInterrupt
        Stopped from the keyboard before anything was finished.
    """
    surfaces = [_with_sheet(base.surface, tuple(holes), one) for one in alternatives.sheet or ()]
    sheets = [] if surfaces else [base]
    first = (surfaces or [base.surface])[0]
    rows = [RowFilling(first, name, alternatives, spaces, there) for name, there in holes.items()]
    for row in rows:
        row.sheet_stays(base.surface)
    shape = rows[0].filling.tables["why"].shape
    blocks = [*product(range(shape[0]), range(shape[1]), range(shape[2]))]
    each, done = math.prod(shape[3:]), 0
    from tqdm import tqdm

    hidden, many = None if progress is None else not progress, len(blocks) * each
    try:
        with tqdm(total=many, unit=" alternatives", unit_scale=True, delay=1.0, disable=hidden, leave=False) as bar:
            for at in blocks:
                if at[0] == len(sheets):
                    sheets += assess_each(surfaces[at[0] : at[0] + SHEETS])
                for row in rows:
                    row.block(sheets[at[0]], at)
                done += 1
                bar.update(each)
    except KeyboardInterrupt:
        if not done:
            raise KeyboardInterrupt(NOTHING) from None
    finished = blocks[:done]
    return tuple(sheets[: finished[-1][0] + 1]), tuple(row.table(finished) for row in rows), done < len(blocks)


def drawn_tables(base: Assessment, drawn: Surface, names: Iterable[str]) -> tuple[RowTable, ...]:
    """Work each row as drawn, the one alternative.

    Parameters
    ----------
    base : Assessment
        Of the surface as drawn, a pitch that nobody knows filled in.
    drawn : Surface
        Without that: a row of unknown pitch is not given.
    names : iterable of str
        Of the rows.

    Returns
    -------
    tuple of RowTable
        One a row.
    """
    rows = [RowFilling(drawn, name, Alternatives(), (Space(),), None) for name in names]
    for row in rows:
        row.block(base, (0, 0, 0))
    return tuple(row.table([(0, 0, 0)]) for row in rows)


def _with_sheet(surface: Surface, names: Sequence[str], thickness: float) -> Surface:
    """Change the sheet under the head of every row."""
    sheet = surface.sheet
    for name in dict.fromkeys(surface.rows[row].joins[0] for row in names if surface.rows[row].joins):
        value = Value(thickness, show(thickness, "length"), key=f"sheet.{name}.thickness")
        if name in sheet.doublers:
            doubler = replace(sheet.doublers[name], thickness=value)
            sheet = replace(sheet, doublers=sheet.doublers | {name: doubler})
        else:
            changed: dict[str, Any] = {name: replace(getattr(sheet, name), thickness=value)}
            sheet = replace(sheet, **changed)
    return replace(surface, sheet=sheet)
