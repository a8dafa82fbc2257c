"""Where the touched places lie on the whole surface, small and to scale; for places that are no rivets of their own."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.assessment import in_system
from surfacecheck.errors import SurfaceError
from surfacecheck.report._marks import leader, scale_bar, spread_labels
from surfacecheck.report._mini import place_on
from surfacecheck.report._places import number, placed_rows, plan_of, side_view
from surfacecheck.report._style import INK, LINE, WIDE, axes_at, broken, drawing, styled
from surfacecheck.report._surface_map import draw_sheet
from surfacecheck.studies import group_name, prose_of

if TYPE_CHECKING:
    from matplotlib.axes import Axes

    from surfacecheck.model import Surface
    from surfacecheck.quantities import System
    from surfacecheck.report._places import Plan
    from surfacecheck.report._style import Drawing

__all__ = ["place_map"]

_TALL, _LETTERS = 2.6, 24
_AT = re.compile(r"\.at-(-?[0-9]+)-mm$")


@styled
def place_map(
    surface: Surface, places: tuple[str, ...], system: System = "metric", foot: tuple[str, ...] = ()
) -> Drawing:
    """Draw the outline with rings round places, and rows drawn dark.

    Parameters
    ----------
    surface : Surface
        As drawn.
    places : tuple of str
        Names of places; none where the whole surface is meant.
    system : {"metric", "inch"}
        Units.
    foot : tuple of str
        Lines at the bottom.

    Returns
    -------
    Drawing
        Seen from the side, with every place named beside it.

    Raises
    ------
    SurfaceError
        Where the outline is not known.
    """
    plan = plan_of(surface)
    if plan is None or plan.edge is None:
        message = f'outline.at: the map needs "{surface.said("up")}" and "edge_behind" of two places at least'
        raise SurfaceError(message)
    names = [in_system(prose_of(surface, place), system) for place in places] or ["the whole surface"]
    title = f"Where it is: {names[0] if len(names) == 1 else f'{len(names)} places'}"
    words = f"Map of the surface to scale. {side_view(surface)} Marked: {', '.join(names)}."
    fig = drawing(_TALL + 0.5, title, (side_view(surface),), foot, words)
    front = plan.nose if plan.nose is not None else 0.0 * plan.y
    low, high = float(plan.y[0]), float(plan.y[-1])
    left, right = min(0.0, float(front.min())), float(plan.edge.max())
    metres = max((high - low) / _TALL, (right - left) / 2.0)
    ax = axes_at(fig, 0.0, fig.bottom, WIDE, _TALL + 0.5)
    ax.set_axis_off()
    ax.set_xlim(left - 0.15 * metres, left - 0.15 * metres + WIDE * metres)
    ax.set_ylim(low - 0.42 * metres, low - 0.42 * metres + (_TALL + 0.5) * metres)
    draw_sheet(ax, surface, plan)
    _pins(ax, surface)
    _named(ax, surface, plan, places, metres, system)
    scale_bar(ax, left, low - 0.16 * metres, 0.8 * metres, system)
    return fig


def _pins(ax: Axes, surface: Surface) -> None:
    ups = [up for hinge in surface.hinges.values() if (up := number(hinge.up)) is not None]
    ax.plot([0.0] * len(ups), ups, marker="o", markersize=5, color=INK, markerfacecolor="white", linestyle="none",
            zorder=5)  # fmt: skip


def _named(ax: Axes, surface: Surface, plan: Plan, places: tuple[str, ...], metres: float, system: System) -> None:
    """Mark every place and write its name at the right."""
    assert plan.edge is not None  # noqa: S101 - asked before
    column = float(plan.edge.max()) + 0.35 * metres
    found = [(place, spot) for place in places if (spot := _mark(ax, surface, plan, place)) is not None]
    lines = [broken(in_system(prose_of(surface, place), system), _LETTERS) for place, _ in found]
    gap = (max((len(one) for one in lines), default=1) + 0.4) * LINE * metres
    at = spread_labels([spot[1] for _, spot in found], gap, float(plan.y[0]), float(plan.y[-1]))
    for (_, spot), text, y in zip(found, lines, at, strict=True):
        leader(ax, (column - 0.04 * metres, y), (spot[0] + 0.09 * metres, spot[1]))
        ax.text(column, y, "\n".join(text), va="center", linespacing=1.15)


def _mark(ax: Axes, surface: Surface, plan: Plan, place: str) -> tuple[float, float] | None:
    """Mark one place; give the spot its name points at, None where it has none."""
    row = next((one for one in placed_rows(surface) if group_name(place) == f"row.{one.row.name}"), None)
    if row is not None:
        ax.plot(row.x, row.y, marker="o", markersize=4.5, color=INK, linestyle="none", zorder=6, gid=f"place-{place}")
        middle = row.x.size // 2
        return float(row.x[middle]), float(row.y[middle])
    spot = _spot(surface, plan, place)
    if spot is not None:
        ax.plot([spot[0]], [spot[1]], marker="o", markersize=15, markerfacecolor="none", markeredgewidth=2.2,
                color=INK, linestyle="none", zorder=9, gid=f"place-{place}")  # fmt: skip
    return spot


def _spot(surface: Surface, plan: Plan, place: str) -> tuple[float, float] | None:
    """Aft of the pins, and along them [m]."""
    assert plan.edge is not None  # noqa: S101 - asked before
    on = place_on(surface, place)
    at, kind = _AT.search(place), place.partition(".")[0]
    web = plan.web if plan.web is not None else 0.0 * plan.y
    middle = 0.5 * float(plan.y[0] + plan.y[-1])
    y = 1e-3 * float(at[1]) if at is not None else _of_hole(surface, place) or middle
    lines = {"left_skin": 0.5 * (web + plan.edge), "right_skin": 0.5 * (web + plan.edge), "spar": web}
    lines |= {"trailing_edge": plan.edge, "nose": plan.nose if plan.nose is not None else 0.0 * plan.y}
    if on is not None and place.count(".") == 1 and kind == "hinge":
        return 0.0, on[1]
    if kind in lines:
        return float(np.interp(y, plan.y, lines[kind])), y
    return on


def _of_hole(surface: Surface, place: str) -> float | None:
    """Where a lightening hole of the web is [m]."""
    found = re.search(r"\.hole-([0-9]+)$", place)
    holes = surface.sheet.spar.holes or ()
    return number(holes[int(found[1]) - 1].up) if found is not None and int(found[1]) <= len(holes) else None
