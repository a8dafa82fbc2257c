"""The webs of ribs as walls beside the rivets of a bracket.

Common practice: on the side of the spar where the ribs are, a rib beside a bracket is a wall higher than any tool.
A rib whose flange points up, seen along the spar, y to the right, pulled from above::

       its back |r| its flange's side     distances run from the axis of a rivet to the far face of the web;
                |i|                       the fillet of the bend stands on the flange's side alone: at its
                |b|                       back the bend curves away
    ____________(__=======_______         web of the spar, flange of the rib on it
                ^ y of the rib: outer face of its web
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.model import RibFlangesPoint
from surfacecheck.provenance import plain
from surfacecheck.studies.bench._seats import known
from surfacecheck.studies.bench._wall import Wall

if TYPE_CHECKING:
    from collections.abc import Iterator

    from numpy.typing import NDArray

    from surfacecheck.model import Bracket, Hinge, Surface
    from surfacecheck.studies.bench._seats import Line

    Array = NDArray[np.float64]

__all__ = ["rib_walls"]

ELSEWHERE = "rib_behind says yes, but no rib of sheet.ribs stands behind this bracket: it is not looked at"
LATER = "a rib that goes in after them is no wall, but their heads want room beside it"


def rib_walls(
    surface: Surface, hinge: Hinge, bracket: Bracket, line: Line
) -> tuple[tuple[Wall, ...], tuple[str, ...], tuple[str, ...]]:
    """Give the webs of the ribs that stand on the web of the spar beside a column of a bracket's rivets.

    Parameters
    ----------
    surface : Surface
        For its ribs.
    hinge : Hinge
        Where the bracket sits, and whether a rib is behind it.
    bracket : Bracket
        As described.
    line : Line
        A column of rivets along the pins.

    Returns
    -------
    walls : tuple of Wall
        Two a rib: what stands beside the rivets on its flange's side, and beside those at its back [m].
    missing : tuple of str
        Keys that hide the rib which is said to be behind.
    notes : tuple of str
        Where that rib is not to be found.
    """
    ribs, said = surface.sheet.ribs, hinge.rib_behind == "yes"
    ups = [(index, plain(up)) for index, up in enumerate(ribs.up) if up.known]
    unknown = [f"sheet.ribs.{key}" for key in ("thickness", "bend_inside") if not getattr(ribs, key).known]
    if not ribs.flanges_point:
        unknown.append("sheet.ribs.flanges_point")
    if len(ups) < len(ribs.up) or not ribs.up:
        unknown.append(f"sheet.ribs.{surface.said('up')}")
    if line.at is None or unknown:
        return (), tuple(unknown) if said else (), ()
    walls = tuple(wall for index, up in ups for wall in _of_rib(surface, index, up, line.at))
    lost = said and not any(_behind(surface, hinge, bracket, up) for _, up in ups)
    return walls, (), (ELSEWHERE,) if lost else ()


def _behind(surface: Surface, hinge: Hinge, bracket: Bracket, up: float) -> bool:
    """Tell whether a rib stands behind a bracket: within its plate and the widest nose that is set beside it."""
    middle, gap, edge = known(hinge.up), known(bracket.gap_along) or 0.0, bracket.edge.get("bracket")
    if middle is None:
        return False
    half = 0.5 * ((bracket.along or 1) - 1) * gap + (0.0 if edge is None else known(edge) or 0.0)
    nose = max((known(tool.nose_radius) or 0.0 for tool in surface.tools.values()), default=0.0)
    return abs(up - middle) <= half + nose + plain(surface.sheet.ribs.thickness)


def _of_rib(surface: Surface, index: int, up: float, at: Array) -> Iterator[Wall]:
    """One rib: a bend at the foot of its web on the flange's side, none at its back."""
    ribs = surface.sheet.ribs
    way = ribs.flanges_point[min(index, len(ribs.flanges_point) - 1)]
    sense = -1.0 if way is RibFlangesPoint.DOWN else 1.0
    thick, bend = plain(ribs.thickness), plain(ribs.bend_inside)
    over = sense * (at - up)  # from its outer face, to the flange's side
    sides = (surface.said("down"), surface.said("up"))
    flanged, back = sides if sense > 0.0 else sides[::-1]
    yield Wall("web of the rib", flanged, np.where(over >= 0.0, over, np.inf), thick, bend, note=LATER)
    yield Wall("web of the rib", back, np.where(over < 0.0, thick - over, np.inf), thick, 0.0, note=LATER)
