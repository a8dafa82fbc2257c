"""The place of a deviation to scale: among its neighbours with the forces, and enlarged with hole and edges."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import numpy as np

from surfacecheck.assessment import case_words
from surfacecheck.errors import SurfaceError
from surfacecheck.report._bracket_forces import NOTHING
from surfacecheck.report._deviation_group_scene import scene_of
from surfacecheck.report._deviation_map import place_map
from surfacecheck.report._deviation_near import circle, enlarged, fine, nearest_edge, window_of
from surfacecheck.report._deviation_spar import spar_picture
from surfacecheck.report._marks import arrow, scale_bar, shown
from surfacecheck.report._places import number
from surfacecheck.report._style import INK, WIDE, axes_at, drawing, foot_of, styled

if TYPE_CHECKING:
    from matplotlib.axes import Axes

    from surfacecheck.quantities import System
    from surfacecheck.report._deviation_scene import Scene
    from surfacecheck.report._style import Drawing
    from surfacecheck.studies import Deviation, Passing

    Point = tuple[float, float]

__all__ = ["deviation_picture"]

_LEFT, _NEAR, _TALL, _BAR = 1.95, 2.2, 2.3, 0.36
"""Greatest width of the group, size of the enlarged place, greatest height, room for a scale bar below [in]."""


@styled
def deviation_picture(
    deviation: Deviation,
    place: str | None = None,
    system: System = "metric",
    *,
    alone: bool = True,
    brief: bool = False,
) -> Drawing:
    """Draw one touched place.

    Parameters
    ----------
    deviation : Deviation
        Worked.
    place : str, optional
        One of its places; the first that can be drawn where not given.
    system : {"metric", "inch"}
        Units.
    alone : bool
        With file name and caution at the foot.
    brief : bool
        Without the words that the sheet says itself.

    Returns
    -------
    Drawing
        A rivet among its neighbours with the forces of the case of the lowest margin there, and enlarged with its hole
        and the edges of the sheet; a place of the spar's web or flange with what passes there, and enlarged; any other
        place on the map of the surface.

    Raises
    ------
    SurfaceError
        Where the place is none of those touched, or not even the outline is known.
    """
    now = deviation.now.fully
    wanted = [one for one in deviation.passing if place in {None, one.place}]
    if place is not None and place not in deviation.places:
        message = f'"{place}" is not touched; touched: {", ".join(deviation.places) or "no place"}'
        raise SurfaceError(message)
    for passes in wanted:
        scene = scene_of(deviation, passes)
        if scene is not None:
            return _rivet(passes, scene, system, foot_of(now, alone), brief=brief)
        spar = spar_picture(deviation, passes, system, foot_of(now, alone), brief=brief)
        if spar is not None:
            return spar
    return place_map(now.surface, deviation.places if place is None else (place,), system, foot_of(now, alone))


def _rivet(passes: Passing, scene: Scene, system: System, foot: tuple[str, ...], *, brief: bool) -> Drawing:
    half_w, half_h = scene.frame
    smaller = 0.8 if brief else 1.0
    metres = max(2.0 * half_w / _LEFT, 2.0 * half_h / (smaller * _TALL))
    low, high = window_of(scene)
    close = max((high[0] - low[0]) / _NEAR, (high[1] - low[1]) / (smaller * _NEAR))
    tall = max(2.0 * half_h / metres, (high[1] - low[1]) / close) + _BAR
    about = (
        f"{scene.view} As drawn, at limit: {case_words(passes.case)}.",
        "Left: its neighbours, the touched one dark. Right: it, larger.",
    )
    told = _told(scene, passes, system)
    title = f"{passes.part[:1].upper()}{passes.part[1:]}"
    words = f"{title}, to scale. {' '.join((*about, *told))}"
    fig = drawing(
        tall + 0.1, title, () if brief else about, (scene.view, *told[1:2]) if brief else (*told, *foot), words
    )
    left = _axes(fig, 0.05, (-half_w, -half_h), (half_w, half_h), metres)
    _group(left, scene, metres)
    scale_bar(left, -half_w + 0.15 * metres, -half_h - 0.1 * metres, 0.9 * metres, system)
    right = _axes(fig, WIDE - (high[0] - low[0]) / close - 0.05, low, high, close)
    enlarged(right, scene, (low, high), close, system)
    scale_bar(right, low[0], low[1] - 0.1 * close, 0.9 * close, system)
    return fig


def _axes(fig: Drawing, left: float, low: Point, high: Point, metres: float) -> Axes:
    """Add axes for a part of the plane [m] at a scale, with room for its bar below."""
    wide, tall = (high[0] - low[0]) / metres, (high[1] - low[1]) / metres + _BAR
    ax = axes_at(fig, left, fig.bottom, wide, tall)
    ax.set_axis_off()
    ax.set_xlim(low[0], high[0])
    ax.set_ylim(low[1] - _BAR * metres, high[1])
    return ax


def _told(scene: Scene, passes: Passing, system: System) -> tuple[str, ...]:
    """Say what is drawn, in numbers."""
    loads = ", ".join(f"{shown(force, 'force', system)} {words}" for words, force in passes.ways)
    lines = [f"It carries {loads}."] if loads else []
    drawn = number(scene.rivet.hole)
    if scene.hole is not None and drawn is not None:
        wide, tall = (fine(one, system) for one in scene.hole)
        size = wide if wide == tall else f"{wide} wide, {tall} tall"
        lines.append(f"Hole now (line) {size}; drawn (dashes) {fine(drawn, system)}.")
    apart = [
        f"{fine(gap, system)} {way}" for gap, way in zip(_gaps(scene), ("across", "up the page"), strict=True) if gap
    ]
    if apart:
        lines.append(f"From rivet to rivet: {', '.join(apart)}.")
    nearest = nearest_edge(scene)
    if nearest is not None:
        now = "" if scene.edge_now is None else f", now {fine(scene.edge_now, system)}"
        lines.append(f"Nearest edge: drawn {fine(nearest.distance, system)}{now}.")
    if np.abs(scene.pull).max() > 0.0:
        end = ", this way or that." if scene.either else "."
        lines.append(f"Dot: pulled at the head. Arrow: force on the sheet{end}")
    return tuple(lines)


def _gaps(scene: Scene) -> tuple[float, float]:
    """Least distance from rivet to rivet, right and up on the page [m]; nought where there is but one line."""
    steps = [np.diff(np.unique(np.round(places, 7))) for places in (scene.right, scene.up)]
    across, up = (float(step.min()) if step.size else 0.0 for step in steps)
    return across, up


def _group(ax: Axes, scene: Scene, metres: float) -> None:
    """Draw every rivet with its force; the touched ones dark."""
    scene.ground(ax)
    head = number(scene.rivet.head) or number(scene.rivet.diameter) or 0.004
    size = np.hypot(scene.force[:, 0], scene.force[:, 1])
    most = max(float(size.max()), 1e-9)
    small = min(4.0, 0.3 * 72.0 * head / metres)  # points: a dot never hides whether its rivet is dark
    for i, (x, y) in enumerate(zip(scene.right, scene.up, strict=True)):
        face = INK if i in scene.touched else "white"
        circle(ax, x, y, head, head, facecolor=face, edgecolor=INK, linewidth=0.9, zorder=5)
        if size[i] > NOTHING * most:
            reach = 0.42 * metres * scene.force[i] / most
            style: dict[str, Any] = {"arrowstyle": "<|-|>"} if scene.either else {}
            start = (x - reach[0], y - reach[1]) if scene.either else (x, y)
            arrow(ax, start, (x + reach[0], y + reach[1]), 1.5, zorder=6, gid=f"load-{scene.first + i}", **style)
        if scene.pull[i] > NOTHING * max(most, 1e-9):
            dot = "white" if i in scene.touched else INK
            ax.plot(
                [x],
                [y],
                marker="o",
                markersize=small,
                markeredgewidth=0,
                color=dot,
                zorder=7,
                gid=f"pulls-{scene.first + i}",
            )
        _number(ax, scene, i, 0.5 * head + 0.08 * metres)


def _number(ax: Axes, scene: Scene, i: int, away: float) -> None:
    """Write the number of a rivet where neither arrow nor neighbour is: beside one of an upright line."""
    x, y, text = float(scene.right[i]), float(scene.up[i]), f"{scene.first + i}"
    if float(np.ptp(scene.right)) < 1e-9:
        ax.text(x + away, y, text, ha="left", va="center_baseline", fontweight="bold", zorder=8)
        return
    if np.abs(scene.force[:, 1]).sum() > 2.0 * np.abs(scene.force[:, 0]).sum():  # arrows stand upright: outside, beside
        way = 1.0 if x > 0.5 * float(scene.right.min() + scene.right.max()) else -1.0
        ax.text(x + way * away, y, text, ha="left" if way > 0.0 else "right", va="center_baseline", fontweight="bold",
                zorder=8)  # fmt: skip
        return
    rise, middle = scene.force[i, 1], 0.5 * float(scene.up.min() + scene.up.max())
    level = abs(rise) <= 0.3 * float(np.hypot(*scene.force[i]))
    low = y < middle - 1e-9 if level else rise > 0.0  # outside, off the middle of the group; else away from its arrow
    place: dict[str, Any] = {"va": "top"} if low else {"va": "bottom"}
    ax.text(x, y - away if low else y + away, text, ha="center", fontweight="bold", zorder=8, **place)
