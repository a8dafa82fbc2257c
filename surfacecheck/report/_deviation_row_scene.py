"""A touched rivet of a row among its neighbours, seen from the side."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.model import FlangesPoint
from surfacecheck.report._deviation_scene import Edge, Scene, edge_now, hole_now, rivet_at, touched_of
from surfacecheck.report._places import number, placed_rows, side_view
from surfacecheck.report._style import DEEP, PALE
from surfacecheck.studies import group_name

if TYPE_CHECKING:
    from matplotlib.axes import Axes

    from surfacecheck.model import Surface
    from surfacecheck.report._deviation_scene import Edges
    from surfacecheck.report._places import PlacedRow
    from surfacecheck.studies import Deviation, Passing

__all__ = ["row_scene"]

_AROUND = 2.4
"""Pitches of a row to either side of the rivet that are drawn."""


def row_scene(deviation: Deviation, surface: Surface, passes: Passing) -> Scene | None:
    """Gather what the picture of a rivet of a row shows.

    Parameters
    ----------
    deviation : Deviation
        Worked.
    surface : Surface
        As drawn.
    passes : Passing
        One of the places.

    Returns
    -------
    Scene or None
        None for rows that are hidden from the side, and for lines beside the first, which are left to the map.
    """
    _, name, *on_rib = group_name(passes.place).split(".")
    placed = next((one for one in placed_rows(surface) if one.row.name == name and not one.hidden), None)
    rib = int(on_rib[0].removeprefix("rib-")) - 1 if on_rib else 0
    first = 0 if placed is None or not on_rib else int(placed.plan.rib_count[:rib].sum())
    number = rivet_at(passes.place)
    at = first + number
    if placed is None or at >= placed.x.size or (on_rib and number >= placed.plan.rib_count[rib]):
        return None
    x, y = placed.x - placed.x[at], placed.y - placed.y[at]
    pitch = float(np.min(placed.plan.rib_pitch)) if placed.plan.rib_pitch.size else placed.plan.pitch
    last = first + int(placed.plan.rib_count[rib]) if on_rib else x.size
    order = np.arange(x.size)
    near = np.flatnonzero((np.hypot(x, y) <= _AROUND * pitch) & (order >= first) & (order < last))
    along = np.array([1.0, 0.0] if placed.kind == "rib" else [0.0, 1.0])
    force, pull = np.zeros((near.size, 2)), np.zeros(near.size)
    here = int(np.flatnonzero(near == at)[0])
    force[here], pull[here] = passes.shear * along, passes.pull
    half = _AROUND * pitch * along + (0.022 + 0.3 * pitch) * (1.0 - along)
    edges = _row_edges(surface, placed)

    def ground(ax: Axes) -> None:
        _strip(ax, edges, (float(half[0]), float(half[1])))

    return Scene(
        view=side_view(surface),
        frame=(float(half[0]), float(half[1])),
        ground=ground,
        right=x[near],
        up=y[near],
        first=int(near[0]) - first + 1,
        at=here,
        touched=tuple(
            int(np.flatnonzero(near == first + one)[0])
            for one in touched_of(deviation, passes.place)
            if first + one in near
        ),
        force=force,
        pull=pull,
        either=True,
        rivet=surface.rivets[placed.row.rivet],
        hole=hole_now(deviation, passes.place, flat=placed.kind == "rib"),
        edges=edges,
        edge_now=edge_now(deviation, passes.place),
    )


def _row_edges(surface: Surface, placed: PlacedRow) -> Edges:
    """Find the nearest edge of a sheet on either side of a row: skins end ahead, the nose skin behind."""
    sides: dict[int, list[Edge]] = {}
    for name, value in placed.row.edge.items():
        distance = number(value)
        if distance is None:
            continue
        if placed.kind == "rib":
            side = 2 if name == "ribs" else -1
        elif placed.kind == "edge":
            side = 1
        elif name == "spar":
            side = 0 if surface.sheet.spar.flanges_point is FlangesPoint.AHEAD else 1
        else:
            side = 1 if name == "nose_skin" else 0
        sides.setdefault(side, []).append(Edge(distance, surface.said(name).replace("_", " ")))
    nearest = (min(sides[side], default=None) if side in sides else None for side in range(4))
    left, right, below, above = nearest
    return left, right, below, above


def _strip(ax: Axes, edges: Edges, half: tuple[float, float]) -> None:
    """Draw the sheet between its edges."""
    far = 1.6 * max(half)
    left, right, below, above = (far if one is None else one.distance for one in edges)
    ax.fill([-left, right, right, -left], [-below, -below, above, above], facecolor=PALE, edgecolor=DEEP, zorder=0)
