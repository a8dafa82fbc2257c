"""The map: the surface to scale from the side, with the name of everything a file or a sheet can point at."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.assessment import Assessment
from surfacecheck.checks import bracket_needs
from surfacecheck.errors import SurfaceError
from surfacecheck.loads import horn_line
from surfacecheck.loads import horn_needs as horn_line_needs
from surfacecheck.model import DrivenBy, FlangesPoint, YesNo
from surfacecheck.report._map_rows import draw_rows, key_of, write_key
from surfacecheck.report._marks import arrow, bare, dimension, leader, scale_bar, shown, spread_labels
from surfacecheck.report._places import Plan, number, placed_rows, plan_of, side_view
from surfacecheck.report._style import DEEP, INK, LINE, MID, PALE, WIDE, axes_at, broken, drawing, foot_of, styled

if TYPE_CHECKING:
    from matplotlib.axes import Axes

    from surfacecheck.model import Surface
    from surfacecheck.quantities import System
    from surfacecheck.report._style import Drawing

__all__ = ["draw_sheet", "surface_map"]

_LEFT, _RIGHT, _TALL = 1.3, 1.28, 4.6
"""Columns of names to either side of the drawing, and its greatest height [in]."""
_BELOW, _ABOVE = 0.62, 0.3
"""Room for dimensions below and above the drawing [in]."""
_LETTERS = 14


@styled
def surface_map(drawn: Assessment | Surface, system: System = "metric", *, alone: bool = True) -> Drawing:
    """Draw the surface to scale with spar, ribs, hinges, horn and every rivet row by its name.

    Parameters
    ----------
    drawn : Assessment or Surface
        A surface is enough, even half-filled: what is not known is left out.
    system : {"metric", "inch"}
        Units.
    alone : bool
        With file name and caution at the foot, for a picture that leaves its page.

    Returns
    -------
    Drawing
        Seen from the side that +z points to: trailing edge right, root below.

    Raises
    ------
    SurfaceError
        Where the outline is not known.
    """
    surface = drawn.surface if isinstance(drawn, Assessment) else drawn
    plan = plan_of(surface)
    if plan is None or plan.edge is None:
        message = f'outline.at: the map needs "{surface.said("up")}" and "edge_behind" of two places at least'
        raise SurfaceError(message)
    rows = placed_rows(surface)
    key = key_of(rows, system)
    low, high = _ends(surface, plan)
    ahead = min(0.0, float(np.min(plan.nose)) if plan.nose is not None else 0.0)
    metres = max((high - low) / _TALL, (float(np.max(plan.edge)) - ahead) / (WIDE - _LEFT - _RIGHT - 0.1))
    tall = (high - low) / metres + _BELOW + _ABOVE
    key_tall = LINE * sum(len(lines) for _, lines in key) + 0.1
    foot = foot_of(drawn, alone) if isinstance(drawn, Assessment) else ()
    words = f"Map of the surface to scale. {side_view(surface)} "
    words += f"Hinges {', '.join(surface.hinges)}, {len(rows)} rivet rows."
    fig = drawing(
        tall + key_tall, "Map", (side_view(surface), "To scale. Every name here is a name of the file."), foot, words
    )
    ax = axes_at(fig, 0.0, fig.bottom + key_tall, WIDE, tall)
    ax.set_axis_off()
    left = ahead - _LEFT * metres - 0.04 * metres
    ax.set_xlim(left, left + WIDE * metres)
    ax.set_ylim(low - _BELOW * metres, high + _ABOVE * metres)
    draw_sheet(ax, surface, plan)
    draw_rows(ax, rows, metres)
    _left_names(ax, surface, plan, metres, system)
    _ribs(ax, surface, plan, metres, system)
    for i, y in ((0, float(plan.y[0]) - 0.16 * metres), (-1, float(plan.y[-1]) + 0.07 * metres)):
        edge = float(plan.edge[i])
        dimension(ax, (0.0, y), (edge, y), shown(edge, "length", system), va="top" if i == 0 else "bottom")
    scale_bar(ax, left + 0.1 * metres, low - 0.36 * metres, 0.9 * metres, system)
    write_key(fig, key, fig.bottom + key_tall)
    return fig


def _ends(surface: Surface, plan: Plan) -> tuple[float, float]:
    horn = number(surface.horn.up) if surface.horn is not None else None
    low = float(plan.y[0]) if horn is None else min(float(plan.y[0]), horn)
    return low, float(plan.y[-1])


def draw_sheet(ax: Axes, surface: Surface, plan: Plan) -> None:
    """Outline, line of the pins, web, flange, doublers, ribs."""
    assert plan.edge is not None  # noqa: S101 - asked before
    front = plan.nose if plan.nose is not None else plan.web if plan.web is not None else 0.0 * plan.y
    x = np.concatenate([front, plan.edge[::-1], front[:1]])
    y = np.concatenate([plan.y, plan.y[::-1], plan.y[:1]])
    ax.fill(x, y, facecolor="#F4F7F9", edgecolor="none", zorder=0)
    ax.plot(x, y, color=INK, linewidth=1.2, gid="outline")
    ax.plot([0.0, 0.0], [plan.y[0], plan.y[-1]], color=DEEP, linewidth=0.8, dashes=(9, 3, 2, 3))
    if plan.web is None:
        return
    ax.plot(plan.web, plan.y, color=INK, linewidth=2.0, gid="web")
    flange = number(surface.sheet.spar.flange)
    if flange is not None:
        side = -1.0 if surface.sheet.spar.flanges_point is FlangesPoint.AHEAD else 1.0
        ax.plot(plan.web + side * flange, plan.y, color=DEEP, linewidth=0.7, dashes=(4, 2))
    for doubler in surface.sheet.doublers.values():
        start, end = number(doubler.start), number(doubler.to)
        if start is not None and end is not None and doubler.on.startswith("spar"):
            at = np.array([start, end])
            ax.plot(np.interp(at, plan.y, plan.web), at, color=MID, linewidth=5.5, solid_capstyle="butt", zorder=1)


def _ribs(ax: Axes, surface: Surface, plan: Plan, metres: float, system: System) -> None:
    """Ribs by number and place, at the right."""
    assert plan.edge is not None  # noqa: S101 - asked before
    ups = [up for up in (number(v) for v in surface.sheet.ribs.up) if up is not None]
    if not ups:
        return
    at = np.array(ups)
    nose, web = plan.at("nose", at), plan.at("web", at)
    front = nose if surface.sheet.ribs.in_nose is not YesNo.NO and nose is not None else web
    front = 0.0 * at if front is None else front
    back = np.interp(at, plan.y, plan.edge)
    column = ax.get_xlim()[1] - (_RIGHT - 0.04) * metres
    places = spread_labels(ups, 1.15 * LINE * metres, float(plan.y[0]), float(plan.y[-1]))
    for i, (y, place) in enumerate(zip(ups, places, strict=True)):
        ax.plot([front[i], back[i]], [y, y], color=DEEP, linewidth=0.9, zorder=1)
        leader(ax, (back[i] + 0.02 * metres, y), (column - 0.03 * metres, place))
        ax.text(column, place, f"rib {i + 1}, {bare(y, 'length', system)}", va="center")


def _left_names(ax: Axes, surface: Surface, plan: Plan, metres: float, system: System) -> None:
    """Pins, brackets and the horn, with their names at the left."""
    names: list[tuple[float, float, list[str]]] = []
    for name, hinge in surface.hinges.items():
        up = number(hinge.up)
        if up is None:
            continue
        _bracket(ax, surface, plan, name, up)
        ax.plot([0.0], [up], marker="o", markersize=7, color=INK, markerfacecolor="white", zorder=5, linestyle="none")
        ax.plot([0.0], [up], marker="+", markersize=6, color=INK, zorder=6, linestyle="none")
        names.append((up, -0.06 * metres, [*broken(f"{name} hinge", _LETTERS), shown(up, "length", system)]))
    horn = surface.horn
    up = None if horn is None else number(horn.up)
    if horn is not None and up is not None:
        names.append((up, _horn(ax, surface, up, metres), [f"horn, {shown(up, 'length', system)}"]))
    column = ax.get_xlim()[0] + 0.05 * metres
    gap = (max((len(lines) for *_, lines in names), default=1) + 0.3) * LINE * metres
    places = spread_labels([up for up, *_ in names], gap, float(plan.y[0]), float(plan.y[-1]))
    for (up, x, lines), place in zip(names, places, strict=True):
        end = column + (0.088 * max(len(line) for line in lines) + 0.08) * metres
        leader(ax, (min(end, column + (_LEFT - 0.2) * metres), place), (x, up))
        ax.text(column, place, "\n".join(lines), va="center", linespacing=1.15)


def _bracket(ax: Axes, surface: Surface, plan: Plan, name: str, up: float) -> None:
    """Draw a bracket as a plate from the pin to the web, as tall as its rivets."""
    hinge = surface.hinges[name]
    web = plan.at("web", up)
    bracket = surface.brackets.get(hinge.bracket)
    if web is None or bracket is None or bracket_needs(surface, hinge):
        return
    leg = number(bracket.leg_off_rivets) or 0.0
    half = 0.5 * ((bracket.along or 1) - 1) * (number(bracket.gap_along) or 0.0) + (
        min((number(v) or 0.0 for v in bracket.edge.values() if v.known), default=0.008)
    )
    wide = 0.5 * (number(bracket.leg_wide) or number(bracket.pin.wide) or 0.02)
    x = float(web)
    ax.fill(
        [0.0, x, x, 0.0],
        [up - 0.3 * wide, up - 0.3 * wide, up + 0.3 * wide, up + 0.3 * wide],
        facecolor=PALE,
        edgecolor=DEEP,
        zorder=3,
    )
    ax.plot([x, x], [up - leg - half, up - leg + half], color=DEEP, linewidth=4.0, solid_capstyle="butt", zorder=3)


def _horn(ax: Axes, surface: Surface, up: float, metres: float) -> float:
    """Draw the horn edge on, and the way cable or rod leaves it; give where its leader ends."""
    horn = surface.horn
    assert horn is not None  # noqa: S101 - asked before
    bolt = number(horn.bolt_behind) or 0.0
    fixing = horn.fixed_with
    first = number(fixing.first_behind)
    last = bolt if first is None else first + ((fixing.fore_aft or 1) - 1) * (number(fixing.gap_fore_aft) or 0.0)
    ax.plot(
        [min(bolt, 0.0) - 0.008, max(bolt, last) + 0.008],
        [up, up],
        color=INK,
        linewidth=4.0,
        solid_capstyle="butt",
        zorder=4,
        gid="horn",
    )
    ax.plot([bolt], [up], marker="o", markersize=4.5, color=INK, markerfacecolor="white", zorder=6)
    if horn_line_needs(surface) is not None or horn.driven_by is DrivenBy.TORQUE_TUBE:
        return min(bolt, 0.0) - 0.03 * metres
    line = horn_line(surface)
    reach = 0.42 * metres
    end = (bolt + reach * float(line.chordwise), up + reach * float(line.along))
    arrow(ax, (bolt, up), end, 1.0, zorder=4)
    return min(bolt, end[0]) - 0.03 * metres
