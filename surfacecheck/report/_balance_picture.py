"""Where the mass lies: every part as a disc on the outline, the centre of gravity, and a nose mass with its loads."""

from __future__ import annotations

import math
import re
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

import numpy as np

from surfacecheck.errors import SurfaceError
from surfacecheck.masses import GRAVITY
from surfacecheck.quantities import show
from surfacecheck.report._marks import arrow, dimension, leader, scale_bar, spread_labels
from surfacecheck.report._places import number, plan_of, side_view
from surfacecheck.report._style import DEEP, INK, LINE, MID, PALE, WIDE, axes_at, drawing, foot_of, styled
from surfacecheck.report._surface_map import draw_sheet

if TYPE_CHECKING:
    from matplotlib.axes import Axes

    from surfacecheck.quantities import System
    from surfacecheck.report._places import Plan
    from surfacecheck.report._style import Drawing
    from surfacecheck.studies import BalanceColumn

__all__ = ["Disc", "balance_picture", "discs_of"]

_LEFT, _RIGHT, _TALL = 1.42, 1.5, 4.2
"""Columns of words to either side of the drawing, and its greatest height [in]."""
_BELOW, _ABOVE = 0.45, 0.25
_LARGEST = 0.2
"""Radius of the heaviest disc [in]; areas go with the masses."""
_NAMED = 8
"""Discs with a name."""
_HALF_WAY = ("its place along is", "not given: drawn", "half way;")


@dataclass(frozen=True, slots=True)
class Disc:
    """Parts that lie in one place.

    Attributes
    ----------
    names : tuple of str
        What lies there.
    mass : float
        [kg]; negative for what is cut out.
    x, y : float
        Behind the pins and along them [m].
    """

    names: tuple[str, ...]
    mass: float
    x: float
    y: float


def discs_of(column: BalanceColumn) -> tuple[Disc, ...]:
    """Gather the parts of a weighing by their places, heaviest first.

    Parameters
    ----------
    column : BalanceColumn
        One state.

    Returns
    -------
    tuple of Disc
        Parts nearer than a millimetre to each other are one disc; their masses add up to those of the parts.
    """
    found: dict[tuple[int, int], list[tuple[str, float, float, float]]] = {}
    said = column.surface.said
    for piece in column.masses.pieces:
        mass, x, y = (float(np.mean(one)) for one in (piece.mass, piece.x, piece.y))
        name = re.sub(r"^(?:left|right)_skin$", lambda one: said(one[0]), piece.name).replace("_", " ")
        found.setdefault((round(1e3 * x), round(1e3 * y)), []).append((name, mass, x, y))
    discs = []
    for here in found.values():
        mass = sum(one[1] for one in here)
        names = tuple(dict.fromkeys(one[0] for one in here))
        discs.append(Disc(names, mass, here[0][2], here[0][3]))
    return tuple(sorted(discs, key=lambda one: -abs(one.mass)))


@styled
def balance_picture(column: BalanceColumn, system: System = "metric", *, alone: bool = True) -> Drawing:
    """Draw where the mass of a surface lies, and the nose mass that would level it with its loads.

    Parameters
    ----------
    column : BalanceColumn
        One state.
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
        Where the outline or the masses are not known.
    """
    surface = column.surface
    plan = plan_of(surface)
    if plan is None or plan.edge is None or not column.masses.pieces:
        up = surface.said("up")
        message = f'outline.at: to draw where the mass lies give "{up}" and "edge_behind" of two places, and a part'
        raise SurfaceError(message)
    level = column.levelling
    ahead = min(float(np.min(plan.nose)) if plan.nose is not None else 0.0, -(level.ahead if level else 0.0), 0.0)
    low, high = float(plan.y[0]), float(plan.y[-1])
    metres = max((high - low) / _TALL, (float(np.max(plan.edge)) - ahead) / (WIDE - _LEFT - _RIGHT))
    tall = (high - low) / metres + _BELOW + _ABOVE
    view = (side_view(surface), "Area of a disc: its mass; dashed: cut out. Cross: centre of gravity.")
    fig = drawing(tall, "Where the mass lies", view, foot_of(column, alone), _words(column, system))
    ax = axes_at(fig, 0.0, fig.bottom, WIDE, tall)
    ax.set_axis_off()
    left = ahead - _LEFT * metres
    ax.set_xlim(left, left + WIDE * metres)
    ax.set_ylim(low - _BELOW * metres, high + _ABOVE * metres)
    draw_sheet(ax, surface, plan)
    _discs(ax, column, plan, metres, system)
    _centre(ax, column, plan, metres, system)
    _nose(ax, column, plan, metres, system)
    scale_bar(ax, left + 0.1 * metres, low - 0.16 * metres, 0.8 * metres, system)
    return fig


def _words(column: BalanceColumn, system: System) -> str:
    said = f"Where the mass lies. {side_view(column.surface)}"
    if column.moment is not None:
        heavy = "tail-heavy" if column.moment > 0.0 else "nose-heavy"
        said += f" {show(abs(column.moment), 'torque', system)} {heavy}."
    return said


def _discs(ax: Axes, column: BalanceColumn, plan: Plan, metres: float, system: System) -> None:
    discs = discs_of(column)
    most = max(abs(one.mass) for one in discs) or 1.0
    for at, disc in enumerate(discs):
        radius = _LARGEST * metres * math.sqrt(abs(disc.mass) / most)
        turn = np.linspace(0.0, 2.0 * math.pi, 40)
        x, y = disc.x + radius * np.cos(turn), disc.y + radius * np.sin(turn)
        if disc.mass < 0.0:
            ax.plot(x, y, color=DEEP, linewidth=0.7, dashes=(3, 2), zorder=4)
        else:
            ax.fill(
                x, y, facecolor=MID if disc.x > 0.0 else PALE, edgecolor=INK, linewidth=0.7, zorder=3, gid=f"disc-{at}"
            )
    column_x = ax.get_xlim()[1] - (_RIGHT - 0.12) * metres
    low, high, gap = float(plan.y[0]), float(plan.y[-1]) - 1.2 * LINE * metres, 2.35 * LINE * metres
    named = [disc for disc in discs if disc.mass > 0.0][: min(_NAMED, 1 + int((high - low) / gap))]
    places = spread_labels([one.y for one in named], gap, low, high)
    for disc, place in zip(named, places, strict=True):
        leader(ax, (column_x - 0.03 * metres, place), (disc.x, disc.y))
        ax.text(column_x, place, f"{_named(disc.names)}\n{_mass(disc.mass, system)}", va="center", linespacing=1.05)


def _named(names: tuple[str, ...]) -> str:
    """Give a short name to what lies together."""
    if len(names) > 1 and all(name.endswith(" skin") for name in names):
        return "both skins"
    first = names[0] if len(names) == 1 else f"{names[0]}, {len(names) - 1} more"
    return first if len(first) <= 17 else first[:16].rstrip(" ,") + "…"


def _mass(mass: float, system: System) -> str:
    return f"{1e3 * mass:.0f} g" if system == "metric" else f"{mass / 0.45359237:.3f} lb"


def _centre(ax: Axes, column: BalanceColumn, plan: Plan, metres: float, system: System) -> None:
    """Put a cross at the centre of gravity, with its distance from the pins."""
    if not column.mass or column.moment is None:
        return
    masses = column.masses
    x = column.moment / column.mass / GRAVITY
    whole = sum(float(np.mean(piece.mass)) for piece in masses.pieces)
    y = sum(float(np.mean(piece.mass * piece.y)) for piece in masses.pieces) / (whole or 1.0)
    look: dict[str, Any] = {"marker": "P", "markersize": 13, "color": "white", "markeredgecolor": INK}
    ax.plot([x], [y], zorder=7, gid="cg", linestyle="none", **look)
    at = float(plan.y[-1]) + 0.12 * metres
    for end, low in ((x, y), (0.0, float(plan.y[-1]))):
        ax.plot([end, end], [low, at], color=DEEP, linewidth=0.6, zorder=2)
    dimension(ax, (0.0, at), (x, at), "")
    said = f"{show(abs(x), 'length', system)} {'behind' if x >= 0.0 else 'ahead of'} the pins"
    ax.text(max(x, 0.0) + 0.07 * metres, at, said, va="center")


def _nose(ax: Axes, column: BalanceColumn, plan: Plan, metres: float, system: System) -> None:
    """Draw the mass that would level it, with the loads of its attachment."""
    level = column.levelling
    if level is None:
        return
    place, middle = number(column.surface.balance_mass.up), 0.5 * float(plan.y[0] + plan.y[-1])
    x, y = -level.ahead, middle if place is None else place
    ax.plot([x], [y], marker="s", markersize=11, color=INK, zorder=8, linestyle="none", gid="nose mass")
    ax.plot([x], [y], marker=".", markersize=5, color="white", zorder=9, linestyle="none")
    below = y >= middle
    reach = 0.36 * metres
    arrow(ax, (x, y), (x - reach, y), 1.4)
    arrow(ax, (x, y), (x, y + (reach if below else -reach)), 1.4)
    normal, fore, along = (show(load, "force", system) for _, load in level.loads)
    more = level.whole != level.mass
    lines = [f"{show(level.mass, 'mass', system)}{' more' if more else ''} there", "would level it;"]
    lines += _HALF_WAY if place is None else ()
    lines += ["to hold all of it" if more else "to hold it", "at limit, alone:", f"ahead {fore}", f"along {along}"]
    at = y + (-0.14 if below else 0.14) * metres
    text = "\n".join([*lines, f"sideways {normal}"])
    ax.text(ax.get_xlim()[0] + 0.05 * metres, at, text, va="top" if below else "bottom", linespacing=1.1)
