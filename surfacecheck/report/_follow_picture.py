"""Where one force goes: the surface to scale, with arrows as wide as what they hand on."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

import numpy as np
from matplotlib.patches import ArrowStyle, FancyArrowPatch

from surfacecheck.assessment import in_system
from surfacecheck.errors import SurfaceError
from surfacecheck.quantities import unit_of
from surfacecheck.report._marks import bare, leader, shown, spread_labels
from surfacecheck.report._places import number, plan_of, side_view
from surfacecheck.report._style import DEEP, INK, LINE, MID, WIDE, axes_at, broken, drawing, foot_of, styled
from surfacecheck.report._surface_map import draw_sheet
from surfacecheck.studies import PARTS, distinct_cuts, load_words

if TYPE_CHECKING:
    from collections.abc import Iterator

    from matplotlib.axes import Axes

    from surfacecheck.quantities import System
    from surfacecheck.report._places import Plan
    from surfacecheck.report._style import Drawing
    from surfacecheck.studies import Following

__all__ = ["follow_picture"]

_LEFT, _RIGHT, _TALL = 1.3, 1.28, 4.6
"""Columns to either side of the drawing, and its greatest height [in]."""
_MARGIN = 0.3
_WIDEST = 13.0
"""Width of the arrow that hands on most [points]."""
_THINNEST = 1e-3
"""Share of the largest value below which no arrow is drawn: it would be thinner than a hair."""
_LETTERS = 13


class _Arrow(NamedTuple):
    """An arrow: its name, the value it hands on, from where to where [m], where its figure stands."""

    name: str
    value: float
    start: tuple[float, float]
    end: tuple[float, float]
    label: str = ""


@styled
def follow_picture(followed: Following, part: str = "", system: System = "metric", *, alone: bool = True) -> Drawing:
    """Draw what a force passes through, each arrow as wide as its value.

    Parameters
    ----------
    followed : Following
        A force, followed.
    part : {"", "sideways", "fore-aft", "along", "torque"}
        What is drawn: that part of the loads inside; the one the force acts in where empty.
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
        Where the trailing edge is not known, or for a part that is none.
    """
    axis = {"z": "sideways", "x": "fore-aft", "y": "along", "torque": "torque"}[followed.way.axis]
    part = part or followed.part or axis
    if part not in PARTS:
        message = f'"{part}" is no part; parts are {", ".join(PARTS)}'
        raise SurfaceError(message)
    surface = followed.surface
    plan = plan_of(surface)
    if plan is None or plan.edge is None:
        message = f'outline.at: this picture needs "{surface.said("up")}" and "edge_behind" of two places at least'
        raise SurfaceError(message)
    quantity = "torque" if part == "torque" else "force"
    ends = [float(plan.y[0]), float(plan.y[-1]), *(float(b) for b in followed.carried.span.breaks[[0, -1]])]
    low, high = min(ends), max(ends)
    ahead = min(0.0, float(np.min(plan.nose)) if plan.nose is not None else 0.0)
    metres = max((high - low) / _TALL, (float(np.max(plan.edge)) - ahead) / (WIDE - _LEFT - _RIGHT - 0.1))
    arrows = list(_arrows(followed, part, plan, metres))
    most = max((abs(a.value) for a in arrows), default=0.0)
    title = f"{load_words(followed, system)}: {in_system(followed.place.words, system)}"
    view = (
        f"{part.capitalize()}, in {unit_of(quantity, system)}. The width of an arrow is its value; it points to where "
        "that goes.",
        side_view(surface),
    )
    words = f"{title}. {view[0]} Widest: {shown(most, quantity, system)}. {view[1]}"
    tall = (high - low) / metres + 2.0 * _MARGIN
    fig = drawing(tall, title, view, foot_of(followed, alone), words)
    ax = axes_at(fig, 0.0, fig.bottom, WIDE, tall)
    ax.set_axis_off()
    left = ahead - _LEFT * metres - 0.04 * metres
    ax.set_xlim(left, left + WIDE * metres)
    ax.set_ylim(low - _MARGIN * metres, high + _MARGIN * metres)
    draw_sheet(ax, surface, plan)
    for b in followed.carried.span.ribs:
        y = float(followed.carried.span.breaks[b])
        front, back = _web(plan, y), float(np.interp(y, plan.y, plan.edge))
        ax.plot([front, back], [y, y], color=MID, linewidth=0.7, zorder=1)
    for one in arrows:
        _draw(ax, one, most)
    _figures(ax, arrows, followed, quantity, system, metres)
    _left_figures(ax, arrows, followed, part, system, metres)
    return fig


def _web(plan: Plan, y: float) -> float:
    """Give the web at a place; the line of the pins where nobody measured it."""
    web = plan.at("web", y)
    return 0.0 if web is None else float(web)


def _draw(ax: Axes, one: _Arrow, most: float) -> None:
    if abs(one.value) < _THINNEST * most or most == 0.0:
        return
    wide = _WIDEST * abs(one.value) / most
    style = ArrowStyle.Simple(head_length=4.0 + 0.5 * wide, head_width=wide + 6.0, tail_width=wide)
    ax.add_patch(
        FancyArrowPatch(
            one.start, one.end, arrowstyle=style, mutation_scale=1.0, shrinkA=0, shrinkB=0, facecolor=DEEP,
            edgecolor="white", linewidth=0.4, zorder=4, gid=one.name,
        )
    )  # fmt: skip


def _arrows(one: Following, part: str, plan: Plan, metres: float) -> Iterator[_Arrow]:
    """Give the arrows in the order of the path; a value below nought goes against the force."""
    steps = [(s, next((h.value for h in s.handed if h.what == part), 0.0)) for s in one.steps]
    put = next((v for s, v in steps if s.stage == "in"), 0.0)
    sign = float(np.sign(put)) or -float(np.sign(sum(v for s, v in steps if s.stage == "hold"))) or 1.0
    if put:
        yield from _into(one, [(s.y, sign * v) for s, v in steps if s.stage == "rib"], sign * put, plan, metres)
    for i, (cut, end) in enumerate(distinct_cuts(one, part)):
        value = sign * cut.of(part)[1]
        x = _web(plan, 0.5 * (cut.start + end))
        inward = ((x, end), (x, cut.start))
        yield _Arrow(f"span-{i + 1}", value, *(inward if value > 0.0 else inward[::-1]), "span")
    for step, found in steps:
        if step.stage in {"pin", "hold"} and found:
            name = f"pin-{step.name.split('.')[1]}" if step.stage == "pin" else "hold"
            out = ((_web(plan, step.y), step.y), (-0.42 * metres, step.y))
            yield _Arrow(name, sign * found, *(out if sign * found > 0.0 else out[::-1]), "left")


def _into(one: Following, ribs: list[tuple[float, float]], put: float, plan: Plan, metres: float) -> Iterator[_Arrow]:
    """Give the force itself, and its way along the edge and through the ribs."""
    place = one.place
    side = -1.0 if place.x < 0.0 else 1.0
    yield _Arrow("load", put, (place.x + 0.5 * side * metres, place.y), (place.x, place.y), "load")
    if not one.place.ribs:
        return
    line = "nose" if place.x < 0.0 else "edge"
    for (y, value), share in zip(ribs, one.place.ribs, strict=True):
        found = plan.at(line, y)
        x = place.x if found is None else float(found)
        if abs(y - place.y) > 1e-6:
            yield _Arrow(f"edge-{share.rib + 1}", value, (place.x, place.y), (x, y))
        yield _Arrow(f"rib-{share.rib + 1}", value, (x, y), (_web(plan, y), y), "rib")


def _figures(ax: Axes, arrows: list[_Arrow], one: Following, quantity: str, system: System, metres: float) -> None:
    """Write the value of load, ribs and stretches at their arrows."""
    least = _THINNEST * max((abs(a.value) for a in arrows), default=0.0)
    box = {"boxstyle": "square,pad=0.05", "facecolor": "white", "edgecolor": "none"}
    for a in arrows:
        text = bare(abs(a.value), quantity, system)
        if a.label == "load":
            ahead = a.end[0] < 0.0
            ax.text(a.start[0], a.start[1] + 0.12 * metres, text, ha="right" if ahead else "left", va="bottom",
                    fontweight="bold", zorder=8, bbox=box)  # fmt: skip
        elif a.label == "rib":
            x = a.start[0] + (0.3 if a.start[0] < 0.0 else -0.3) * metres
            ax.text(x, a.start[1] + 0.11 * metres, text, ha="center", va="bottom", zorder=8, bbox=box)
    spans = [a for a in arrows if a.label == "span" and abs(a.value) > least]
    middles = [0.5 * (a.start[1] + a.end[1]) for a in spans]
    low, high = (float(v) for v in one.carried.span.breaks[[0, -1]])
    for a, y in zip(spans, spread_labels(middles, 1.15 * LINE * metres, low, high), strict=True):
        ax.text(a.start[0] + 0.17 * metres, y, bare(abs(a.value), quantity, system), ha="left", va="center", zorder=8,
                bbox=box)  # fmt: skip


def _left_figures(ax: Axes, arrows: list[_Arrow], one: Following, part: str, system: System, metres: float) -> None:
    """Write pins and horn at the left, with what each takes."""
    quantity = "torque" if part == "torque" else "force"
    took = {a.name: a.value for a in arrows}
    span, horn = one.carried.span, one.surface.horn
    names: list[tuple[float, list[str]]] = []
    for name, b in span.hinges.items():
        value = bare(abs(took.get(f"pin-{name}", 0.0)), quantity, system)
        names.append((float(span.breaks[b]), [*broken(f"{name} hinge", _LETTERS), value]))
    if "hold" in took or (horn is not None and number(horn.up) is not None):
        b = max(one.carried.hold.at_break, 0)
        value = bare(abs(took.get("hold", 0.0)), quantity, system)
        names.append((float(span.breaks[b]), ["horn", value]))
    column = ax.get_xlim()[0] + 0.05 * metres
    gap = (max((len(lines) for _, lines in names), default=1) + 0.3) * LINE * metres
    places = spread_labels([y for y, _ in names], gap, float(span.breaks[0]), float(span.breaks[-1]))
    for (y, lines), place in zip(names, places, strict=True):
        end = column + (0.088 * max(len(line) for line in lines) + 0.06) * metres
        leader(ax, (min(end, -0.44 * metres), place), (-0.43 * metres, y))
        ax.plot([0.0], [y], marker="o", markersize=6, color=INK, markerfacecolor="white", zorder=6, linestyle="none")
        ax.text(column, place, "\n".join(lines), va="center", linespacing=1.15)
