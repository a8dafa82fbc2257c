"""What the holes of another rivet leave of the spar's flange: the one margin outside the row that its rivets change."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from surfacecheck.checks import Term, find
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


def flange_margin(assessment: Assessment, hole: float) -> float | None:
    """Work the margin of the spar's flange in tension at holes of another size.

    Parameters
    ----------
    assessment : Assessment
        Of the surface as drawn.
    hole : float
        Across the flange [m].

    Returns
    -------
    float or None
        [-]; None where the flange is not looked at.
    """
    drawn = next((one for one in assessment.margins if one.check.mode == "net-section"), None)
    if drawn is None:
        return None
    return find(replace(drawn.check, terms={**drawn.check.terms, "d": Term(hole, "length", "hole")})).margin


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
    stay = [kind.hole for row in others if (kind := surface.rivets.get(row.rivet)) is not None and kind.hole.known]
    least = max((plain(hole) for hole in stay), default=0.0)
    holes: dict[float, None] = {}
    for table in comparison.rows if names else ():
        for block in table.blocks.values():
            if block.setting is not None and block.setting.rivet.hole.known:
                holes[max(least, plain(block.setting.rivet.hole))] = None
    lines = []
    for hole in sorted(holes):
        margin = flange_margin(comparison.assessment, hole)
        if margin is not None:
            lines.append(f"flange of the spar in tension at holes of {show(hole, 'length', system)}: {margin:+z.2f}")
    return lines
