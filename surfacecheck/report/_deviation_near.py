"""The enlarged place of a deviation: hole as drawn and as it is, edges of the sheet, the force, dimensions."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import numpy as np

from surfacecheck.report._bracket_forces import NOTHING
from surfacecheck.report._marks import arrow, dimension, shown, units
from surfacecheck.report._places import number
from surfacecheck.report._style import DEEP, INK, PALE

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from numpy.typing import NDArray

    from surfacecheck.quantities import System
    from surfacecheck.report._deviation_scene import Edge, Scene

    Array = NDArray[np.float64]
    Point = tuple[float, float]

__all__ = ["circle", "enlarged", "fine", "nearest_edge", "window_of"]

_CIRCLE = np.linspace(0.0, 2.0 * np.pi, 41)
_WAYS = ((-1.0, 0.0), (1.0, 0.0), (0.0, -1.0), (0.0, 1.0))
"""Left, right, below, above."""
_OVER: dict[str, Any] = {"facecolor": PALE, "edgecolor": "none", "pad": 0.6}
"""Ground of words, so that no edge of a sheet runs through them."""
_TOWARDS = {1.0: "left", -1.0: "right"}
"""How words stand that go to the right of a point, or to its left."""


def fine(si: float, system: System) -> str:
    """Write a size as a caliper reads it."""
    unit, factor = units("length", system)
    return f"{si * factor:.{2 if system == 'metric' else 3}f} {unit}"


def nearest_edge(scene: Scene) -> Edge | None:
    """Give the nearest edge of a sheet; None where none is known."""
    return min((edge for edge in scene.edges if edge is not None), default=None)


def window_of(scene: Scene) -> tuple[Point, Point]:
    """Choose what is enlarged, from the rivet [m]: the nearest edges, and half a head beyond the hole elsewhere."""
    head = number(scene.rivet.head) or 2.0 * (number(scene.rivet.diameter) or 0.004)
    nearest = nearest_edge(scene)
    far = 1.5 * nearest.distance if nearest is not None else 0.0
    reach = [1.15 * edge.distance if edge is not None and edge.distance <= far else head for edge in scene.edges]
    left, right, below, above = (max(1.3 * head, one) for one in reach)
    return (-left, -below), (right, above)


def circle(ax: Axes, x: float, y: float, across: float, up: float, **look: Any) -> None:
    """Draw a filled round or oval."""
    ax.fill(x + 0.5 * across * np.cos(_CIRCLE), y + 0.5 * up * np.sin(_CIRCLE), **look)


def enlarged(ax: Axes, scene: Scene, window: tuple[Point, Point], metres: float, system: System) -> None:
    """Draw the place larger: sheet with its edges, hole as drawn and as it is, neighbours, the force, dimensions."""
    _sheet(ax, scene, window)
    head = number(scene.rivet.head) or 0.0
    x0, y0 = float(scene.right[scene.at]), float(scene.up[scene.at])
    for i in (i for i in range(scene.right.size) if i != scene.at):
        x, y = float(scene.right[i]) - x0, float(scene.up[i]) - y0
        if window[0][0] < x < window[1][0] and window[0][1] < y < window[1][1]:
            circle(ax, x, y, head, head, facecolor="white", edgecolor=DEEP, linewidth=0.8, zorder=2)
    drawn, now = number(scene.rivet.hole) or number(scene.rivet.diameter) or 0.003, _hole(scene)
    circle(ax, 0.0, 0.0, *now, facecolor="white", edgecolor=INK, linewidth=1.8, zorder=3, gid="hole-now")
    dashes: dict[str, Any] = {"edgecolor": DEEP, "linewidth": 1.0, "linestyle": (0, (3, 2))}
    circle(ax, 0.0, 0.0, drawn, drawn, facecolor="none", zorder=4, **dashes)
    ax.plot([0.0], [0.0], marker="+", markersize=7, color=DEEP, zorder=4)
    _edge_line(ax, scene, now, system)
    _force(ax, scene, window, metres, system)


def _sheet(ax: Axes, scene: Scene, window: tuple[Point, Point]) -> None:
    """Draw the sheet as far as the window goes, and its edges where they lie in it."""
    (x_0, y_0), (x_1, y_1) = window
    ends = (-x_0, x_1, -y_0, y_1)
    seen = [edge is not None and edge.distance < end for edge, end in zip(scene.edges, ends, strict=True)]
    left, right, below, above = (
        edge.distance if edge is not None and here else end
        for edge, here, end in zip(scene.edges, seen, ends, strict=True)
    )
    ax.fill([-left, right, right, -left], [-below, -below, above, above], facecolor=PALE, edgecolor="none", zorder=0)
    across, up = [-left, right], [-below, above]
    lines = (([-left] * 2, up), ([right] * 2, up), (across, [-below] * 2), (across, [above] * 2))
    for here, line in zip(seen, lines, strict=True):
        if here:
            ax.plot(*line, color=INK, linewidth=1.6, zorder=1)


def _edge_line(ax: Axes, scene: Scene, hole: Point, system: System) -> None:
    """Draw the dimension from the middle of the hole to the nearest edge: as it is now where that differs."""
    nearest = nearest_edge(scene)
    if nearest is None:
        return
    way = np.array(_WAYS[scene.edges.index(nearest)])
    flat, now = bool(way[0]), nearest.distance if scene.edge_now is None else scene.edge_now
    off = np.array([0.0, -0.8 * hole[1]]) if flat else np.array([-0.8 * hole[0], 0.0])
    if abs(now - nearest.distance) > 1e-5:
        along = np.array([-way[1], way[0]]) * 1.5 * max(hole)
        ends = np.stack([way * now - along, way * now + along])
        ax.plot(ends[:, 0], ends[:, 1], color=INK, linewidth=2.4, zorder=5, gid="edge-now")
    end = way * now + off
    place: dict[str, Any] = {"ha": "center", "va": "top"} if flat else {"ha": "right", "va": "center"}
    text = shown(now, "length", system)
    place["bbox"] = _OVER
    dimension(ax, (float(off[0]), float(off[1])), (float(end[0]), float(end[1])), text, **place)


def _force(ax: Axes, scene: Scene, window: tuple[Point, Point], metres: float, system: System) -> None:
    """Draw the force on the sheet at this rivet with its size, and whether the rivet is pulled."""
    force, pull = scene.force[scene.at], float(scene.pull[scene.at])
    size = float(np.hypot(*force))
    way = force / size if size > 0.0 else np.array([1.0, 0.0])
    if size > 0.0:
        ends = [window[int(way[i] > 0.0)][i] / way[i] for i in (0, 1) if abs(way[i]) > 1e-6]
        reach = 0.86 * min(ends) * way
        style: dict[str, Any] = {"arrowstyle": "<|-|>"} if scene.either else {}
        start = -0.6 * reach if scene.either else 0.0 * reach
        arrow(ax, (float(start[0]), float(start[1])), (float(reach[0]), float(reach[1])), 2.2, zorder=6,
              gid="load-here", **style)  # fmt: skip
        _size(ax, shown(size, "force", system), reach, way, metres, _roomy(scene, window), 0.5 * _hole(scene)[1])
    if pull > NOTHING * max(size, 1e-9):
        ax.plot([0.0], [0.0], marker="o", markersize=7, color=INK, zorder=7, gid="pulled")
        hole, side = _hole(scene), _roomy(scene, window)
        upright = abs(way[1]) > 0.4 and (scene.either or way[1] > 0.0)
        beside = (side * (0.5 * hole[0] + 0.06 * metres), 0.16 * metres)
        at = beside if upright else (0.0, 0.5 * hole[1] + 0.22 * metres)
        place: dict[str, Any] = {"ha": _TOWARDS[side] if upright else "center", "va": "bottom"}
        text = f"{shown(pull, 'force', system)}{chr(10) if upright else ' '}pull"
        ax.text(at[0], at[1], text, fontweight="bold", zorder=8, bbox=_OVER, **place)


def _hole(scene: Scene) -> Point:
    """Give the hole as it is now, across and up [m]."""
    drawn = number(scene.rivet.hole) or number(scene.rivet.diameter) or 0.003
    return scene.hole or (drawn, drawn)


def _roomy(scene: Scene, window: tuple[Point, Point]) -> float:
    """Give the side that has more room for words beside an upright arrow: +1 right, -1 left; no edge runs through."""
    room = []
    for edge, end in zip(scene.edges[:2], (-window[0][0], window[1][0]), strict=True):
        now = scene.edge_now if edge is not None and edge is nearest_edge(scene) else None
        room.append(min(one for one in (end, None if edge is None else edge.distance, now) if one is not None))
    left, right = room
    return -1.0 if left > right else 1.0


def _size(ax: Axes, text: str, tip: Array, way: Array, metres: float, side: float, clear: float) -> None:
    """Write the size of a force at the tip of its arrow: inside the drawing, off the hole, away from the edge."""
    if abs(way[1]) < 0.3:
        y = tip[1] + max(0.09 * metres, clear + 0.04 * metres)
        x, ha, va = tip[0], "right" if way[0] > 0.0 else "left", "bottom"
    else:
        inward = side if abs(way[0]) <= 0.3 else -float(np.sign(way[0]))
        x, y, ha, va = tip[0] + 0.12 * inward * metres, tip[1], _TOWARDS[inward], "center"
    ax.text(float(x), float(y), text, ha=ha, va=va, fontweight="bold", zorder=8, bbox=_OVER)
