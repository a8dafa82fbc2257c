"""What the holes of another rivet leave of the spar's flange: the one margin outside the row that its rivets change."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.checks import NET, Term, find
from surfacecheck.provenance import plain
from surfacecheck.quantities import show

if TYPE_CHECKING:
    from surfacecheck.assessment import Assessment
    from surfacecheck.model import Row
    from surfacecheck.quantities import System
    from surfacecheck.studies.riveting._rivets_comparison import RivetComparison

__all__ = ["flange_lines", "flange_margin"]

SKINS = {"left_skin", "right_skin", "nose_skin"}


def _on_flange(row: Row) -> bool:
    return "spar" in row.joins and bool(set(row.joins) & SKINS)


def flange_margin(assessment: Assessment, hole: float, lines: int = 1) -> float | None:
    """Work the margin of the spar's flange in tension at holes of another size, in so many lines.

    Parameters
    ----------
    assessment : Assessment
        Of the surface as drawn.
    hole : float
        Across the flange [m].
    lines : int
        Holes in one cross-section [-].

    Returns
    -------
    float or None
        [-]; None where the flange is not looked at.
    """
    every = (one for one in assessment.margins if (one.check.place, one.check.mode) == ("spar", "net-section"))
    drawn = next(every, None)
    if drawn is None:
        return None
    terms = {**drawn.check.terms, "d": Term(hole, "length", "hole"), "n": Term(float(lines), "", "lines")}
    return find(replace(drawn.check, available=NET[lines == 1], terms=terms)).margin


def flange_lines(comparison: RivetComparison, system: System = "metric") -> list[str]:
    """Say what the holes of each rivet leave of the spar's flange.

    Parameters
    ----------
    comparison : RivetComparison
        Worked.
    system : {"metric", "inch"}
        Units.

    Returns
    -------
    list of str
        A line for each size of hole; none where no row compared lies on the flange.
    """
    surface = comparison.surface
    names = {table.row.name for table in comparison.rows if _on_flange(table.row)}
    others = [row for name, row in surface.rows.items() if _on_flange(row) and name not in names]
    stay = [
        (plain(kind.hole), row.lines or 1)
        for row in others
        if (kind := surface.rivets.get(row.rivet)) is not None and kind.hole.known
    ]
    least = max(stay, key=_across, default=(0.0, 1))
    holes: dict[tuple[float, int], None] = {}
    for table in comparison.rows if names else ():
        for block in table.blocks.values():
            if block.setting is not None and block.setting.rivet.hole.known:
                size = plain(block.setting.rivet.hole)
                holes |= {max(least, (size, int(n)), key=_across): None for n in np.unique(table.lines)}
    lines = []
    for hole, n in sorted(holes):
        margin = flange_margin(comparison.assessment, hole, n)
        if margin is not None:
            said = show(hole, "length", system) + (f" in {n} lines" if n > 1 else "")
            lines.append(f"flange of the spar in tension at holes of {said}: {margin:+z.2f}")
    return lines


def _across(hole: tuple[float, int]) -> float:
    return hole[0] * hole[1]
