"""One gone at a time: the surface to scale, a mark at everything that was taken away, its size the margin left."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, NamedTuple

import numpy as np

from surfacecheck.assessment import in_system, margin_text
from surfacecheck.checks import BracketLoad, Outcome
from surfacecheck.errors import SurfaceError
from surfacecheck.report._marks import leader, scale_bar, spread_labels
from surfacecheck.report._places import Plan, behind_view, plan_of, side_view
from surfacecheck.report._style import INK, LINE, MID, PALE, WIDE, axes_at, broken, drawing, foot_of, styled
from surfacecheck.report._surface_map import draw_sheet
from surfacecheck.studies import group_of

if TYPE_CHECKING:
    from matplotlib.axes import Axes

    from surfacecheck.quantities import System
    from surfacecheck.report._style import Drawing
    from surfacecheck.studies import GoneItem, OneGone

__all__ = ["gone_picture", "mark_of"]

_LEFT, _RIGHT, _TALL = 1.3, 1.28, 4.2
"""Columns of words to either side of the drawing, and its greatest height [in]."""
_CELL, _ROW, _GAP, _HEAD = 1.06, 0.24, 0.12, 1.9
"""A rivet's place in the grid of its group, space between two groups, width of a name [in]."""
_LETTERS = 14


def mark_of(item: GoneItem) -> dict[str, Any]:
    """Give the look of the mark of one item: the less is left, the larger and darker.

    Parameters
    ----------
    item : GoneItem
        Taken away.

    Returns
    -------
    dict
        For a line of one point.
    """
    look = {"color": INK, "markeredgewidth": 0.9, "linestyle": "none", "clip_on": False, "zorder": 6}
    left = _left(item)
    if item.outcome == Outcome.OUTSIDE:
        return look | {"marker": "X", "markersize": 11.0, "markerfacecolor": "white"}
    if left is None:
        return look | {"marker": "o", "markersize": 5.0, "markerfacecolor": "white"}
    size = 4.5 + 7.5 / (1.0 + max(left, 0.0))
    face = INK if left < 0.0 else MID if left < 1.0 else PALE
    return look | {"marker": "o", "markersize": size, "markerfacecolor": face}


def _left(item: GoneItem) -> float | None:
    """Lowest margin of what its loss changes; anywhere where it changes none."""
    found = item.here or item.lowest
    return None if found is None else found.margin


def _number(item: GoneItem) -> str:
    left = _left(item)
    return "not held" if item.free and left is None else "not given" if left is None else margin_text(left)


@styled
def gone_picture(gone: OneGone, system: System = "metric", *, alone: bool = True) -> Drawing:
    """Draw the surface with a mark and a number at everything that was taken away.

    Parameters
    ----------
    gone : OneGone
        Worked.
    system : {"metric", "inch"}
        Units.
    alone : bool
        With file name and caution at the foot.

    Returns
    -------
    Drawing
        Hinges at the left, ribs at the right, the rivets of every group below.

    Raises
    ------
    SurfaceError
        Where the outline is not known.
    """
    surface = gone.assessment.surface
    plan = plan_of(surface)
    if plan is None or plan.edge is None:
        message = f'outline.at: the picture needs "{surface.said("up")}" and "edge_behind" of two places at least'
        raise SurfaceError(message)
    low, high = float(plan.y[0]), float(plan.y[-1])
    ahead = min(0.0, float(np.min(plan.nose)) if plan.nose is not None else 0.0)
    metres = max((high - low) / _TALL, (float(np.max(plan.edge)) - ahead) / (WIDE - _LEFT - _RIGHT - 0.1))
    tall = (high - low) / metres + 0.55
    rows = _laid_out(_grids(gone))
    below = sum(deep for deep, _ in rows)
    first = gone.assessment.margins[0].margin if gone.assessment.margins else None
    drawn = "not given" if first is None else margin_text(first)
    view = (
        side_view(surface),
        f"Number: the lowest margin of what its loss changes (as drawn the lowest anywhere is {drawn}).",
        "Larger and darker: less is left; filled: less than required. Cross: not held, or outside the method.",
        "Rivets: brackets as seen from behind; of the horn those nearest the pins on top.",
    )
    words = "; ".join(f"{in_system(one.part, system)} {_number(one)}" for one in gone.items)
    fig = drawing(tall + below, "One gone at a time", view, foot_of(gone.assessment, alone), f"{view[1]} {words}.")
    ax = axes_at(fig, 0.0, fig.bottom + below, WIDE, tall)
    ax.set_axis_off()
    left = ahead - (_LEFT + 0.04) * metres
    ax.set_xlim(left, left + WIDE * metres)
    ax.set_ylim(low - 0.42 * metres, high + 0.13 * metres)
    draw_sheet(ax, surface, plan)
    _hinges(ax, gone, plan, metres)
    _ribs(ax, gone, plan, metres)
    scale_bar(ax, left + 0.1 * metres, low - 0.2 * metres, 0.9 * metres, system)
    top = fig.bottom + below
    for deep, row in rows:
        for at, grid in row:
            _draw(fig, at, top, grid)
        top -= deep
    return fig


def _hinges(ax: Axes, gone: OneGone, plan: Plan, metres: float) -> None:
    """Pins with their names and numbers at the left."""
    span = gone.assessment.span
    items = gone.of("hinge")
    ups = [float(span.breaks[span.hinges[one.name.removeprefix("hinge.")]]) for one in items]
    names = [[*broken(one.part, _LETTERS), _number(one)] for one in items]
    column = ax.get_xlim()[0] + 0.05 * metres
    gap = (max((len(lines) for lines in names), default=1) + 0.3) * LINE * metres
    for one, up, lines, place in zip(
        items, ups, names, spread_labels(ups, gap, float(plan.y[0]), float(plan.y[-1])), strict=True
    ):
        ax.plot([0.0], [up], gid=f"gone-{one.name}", **mark_of(one))
        end = column + (0.088 * max(len(line) for line in lines) + 0.08) * metres
        leader(ax, (min(end, column + (_LEFT - 0.2) * metres), place), (-0.1 * metres, up))
        ax.text(column, place, "\n".join(lines), va="center", linespacing=1.15)


def _ribs(ax: Axes, gone: OneGone, plan: Plan, metres: float) -> None:
    """Ribs with their numbers at the right."""
    assert plan.edge is not None  # noqa: S101 - asked before
    span, items = gone.assessment.span, gone.of("rib")
    ups = [float(span.breaks[span.ribs[one.number - 1]]) for one in items]
    column = ax.get_xlim()[1] - (_RIGHT - 0.04) * metres
    places = spread_labels(ups, 1.15 * LINE * metres, float(plan.y[0]), float(plan.y[-1]))
    for one, up, place in zip(items, ups, places, strict=True):
        back = float(np.interp(up, plan.y, plan.edge))
        web = plan.at("web", up)
        front = 0.0 if web is None else float(web)
        ax.plot([front, back], [up, up], color=MID, linewidth=0.9, zorder=1)
        ax.plot([0.5 * (front + back)], [up], gid=f"gone-{one.name}", **mark_of(one))
        leader(ax, (back + 0.02 * metres, up), (column - 0.03 * metres, place))
        ax.text(column, place, f"rib {one.number}, {_number(one)}", va="center")


class _Grid(NamedTuple):
    """A group of rivets as a person sees them: its items, and column and row of each."""

    items: tuple[GoneItem, ...]
    cells: tuple[tuple[int, int], ...]

    @property
    def wide(self) -> float:
        """Width [in]."""
        return max(_CELL * (1 + max(column for column, _ in self.cells)), _HEAD)

    @property
    def tall(self) -> float:
        """Height with its name [in]."""
        return _ROW * (1 + max(row for _, row in self.cells)) + LINE + 0.2


def _grids(gone: OneGone) -> list[_Grid]:
    """Gather the groups of rivets, in the order of the items."""
    found: dict[str, list[GoneItem]] = {}
    for one in (*gone.of("bracket"), *gone.of("horn")):
        found.setdefault(one.name.rpartition(".")[0], []).append(one)
    return [_Grid(tuple(items), _cells(place, gone)) for place, items in found.items()]


def _laid_out(grids: list[_Grid]) -> list[tuple[float, list[tuple[float, _Grid]]]]:
    """Break the groups into rows that fit the width: depth of the row [in], and each group with its left side [in]."""
    rows: list[tuple[float, list[tuple[float, _Grid]]]] = []
    at = WIDE
    for grid in grids:
        if at + grid.wide > WIDE:
            rows.append((0.0, []))
            at = 0.05
        depth, row = rows[-1]
        rows[-1] = (max(depth, grid.tall), [*row, (at, grid)])
        at += grid.wide + _GAP
    return rows


def _draw(fig: Drawing, left: float, top: float, grid: _Grid) -> None:
    """Draw a group, each rivet with its number and what is left without it."""
    ax = axes_at(fig, left, top - grid.tall, grid.wide, grid.tall)
    ax.set_axis_off()
    ax.set_xlim(0.0, grid.wide)
    ax.set_ylim(0.0, grid.tall)
    name = grid.items[0].part.rpartition(",")[0].replace(", bracket", " bracket")
    ax.text(0.0, grid.tall - 0.06, name, va="top")
    for one, (column, row) in zip(grid.items, grid.cells, strict=True):
        x, y = 0.1 + _CELL * column, grid.tall - LINE - 0.22 - _ROW * row
        ax.plot([x], [y], gid=f"gone-{one.name}", **mark_of(one))
        ax.text(x + 0.14, y, f"{one.number}: {_number(one)}", va="center_baseline")


def _cells(place: str, gone: OneGone) -> tuple[tuple[int, int], ...]:
    """Column and row of every rivet."""
    load = group_of(gone.assessment, place).load
    if isinstance(load, BracketLoad):
        right, up = behind_view(gone.assessment.surface).place(load.a, load.b)
    else:
        right, up = load.z * -gone.assessment.surface.left_is, -load.x
    columns, rows = (np.unique(np.round(v, 6), return_inverse=True)[1] for v in (right, -up))
    most = int((WIDE - 0.05) / _CELL)
    if columns.max() >= most:  # too many side by side to be shown so: in the order of their numbers
        return tuple((i % most, i // most) for i in range(right.size))
    return tuple(zip(columns.tolist(), rows.tolist(), strict=True))
