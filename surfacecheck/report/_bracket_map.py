"""Which rivet is 3: every bracket as a person standing behind the surface sees it, numbered, to scale."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.assessment import Assessment
from surfacecheck.checks import bracket_needs, rivet_places
from surfacecheck.errors import SurfaceError
from surfacecheck.report._marks import dimension, scale_bar, shown
from surfacecheck.report._places import behind_view, number, plan_of
from surfacecheck.report._style import DEEP, INK, LINE, PALE, axes_at, broken, drawing, figure_text, foot_of, styled

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from numpy.typing import NDArray

    from surfacecheck.model import Bracket, Hinge, Surface
    from surfacecheck.quantities import System
    from surfacecheck.report._places import BehindView
    from surfacecheck.report._style import Drawing

    Array = NDArray[np.float64]

__all__ = ["BRACKET_NEEDS", "bracket_map", "bracket_outline", "described_hinges", "frame_of"]

BRACKET_NEEDS = "along, sideways, their gaps, on_face and rivet"
"""Keys of a bracket without which its rivets cannot be drawn."""

_PICTURE = 2.1
"""Greatest width of a bracket [in]."""


def described_hinges(surface: Surface) -> tuple[Hinge, ...]:
    """Hinges whose rivets are known well enough to draw."""
    return tuple(hinge for hinge in surface.hinges.values() if hinge.up.known and not bracket_needs(surface, hinge))


def _edge(bracket: Bracket) -> float:
    edge = bracket.edge.get("bracket")
    known = number(edge) if edge is not None else None
    return 0.008 if known is None else known


def _depth(surface: Surface, hinge: Hinge) -> float | None:
    plan = plan_of(surface)
    depth = plan.at("depth", number(hinge.up) or 0.0) if plan is not None else None
    return None if depth is None else float(depth)


def bracket_outline(
    ax: Axes, surface: Surface, hinge: Hinge, view: BehindView, numbers: bool = True
) -> tuple[Array, Array]:
    """Draw web, bracket, leg, pin and rivets of one hinge in axes in metres; gives the rivets' places on the page.

    Parameters
    ----------
    ax : Axes
        Its middle is the middle of the rivets.
    surface, hinge
        Described well enough.
    view : BehindView
        Which way is up.
    numbers : bool
        Whether to write the numbers into the rivets.

    Returns
    -------
    tuple of ndarray, each of shape (R,)
        Right and up on the page [m].
    """
    bracket = surface.brackets[hinge.bracket]
    y, z = rivet_places(surface, bracket)
    edge = _edge(bracket)
    leg = number(bracket.leg_off_rivets) or 0.0
    off = surface.left_is * (number(surface.outline.pins_off_middle) or 0.0)
    wide = 0.5 * (number(bracket.leg_wide) or number(bracket.pin.wide) or 0.02)
    half_y, half_z = float(np.ptp(y)) / 2 + edge, float(np.ptp(z)) / 2 + edge

    def outline(y_0: float, y_1: float, z_0: float, z_1: float) -> tuple[Array, Array]:
        return view.place(np.array([y_0, y_1, y_1, y_0, y_0]), np.array([z_0, z_0, z_1, z_1, z_0]))

    depth = _depth(surface, hinge)
    if depth is not None:
        # the web's edges run past the bracket; the middle of the rivets is taken at the middle of the web
        for side in (-0.5, 0.5):
            a, b = view.place(np.array([-1.25, 1.25]) * max(half_y, abs(leg) + 0.005), np.full(2, side * depth))
            ax.plot(a, b, color=DEEP, linewidth=1.2)
    ax.fill(*outline(-half_y, half_y, -half_z, half_z), facecolor=PALE, edgecolor=INK, linewidth=1.1, zorder=1)
    # the leg lies square to the pins: from behind it is seen edge on
    thick = 0.5 * (number(bracket.thickness) or 0.002)
    ax.plot(
        *outline(leg - thick, leg + thick, off - wide, off + wide),
        color=DEEP,
        linewidth=0.8,
        linestyle=(0, (4, 2)),
        zorder=3,
    )
    pin = view.place(np.array([leg]), np.array([off]))
    ax.plot(*pin, marker="+", markersize=11, color=INK, linestyle="none", zorder=6)
    right, up = view.place(y, z)
    rivet = surface.rivets[bracket.rivet]
    size = 0.5 * (number(rivet.head) or number(rivet.diameter) or 0.004)
    turn = np.linspace(0.0, 2.0 * np.pi, 25)
    for i, (a, b) in enumerate(zip(right, up, strict=True)):
        ax.fill(
            a + size * np.cos(turn), b + size * np.sin(turn), facecolor="white", edgecolor=INK, linewidth=0.9, zorder=4
        )
        if numbers:
            ax.text(a, b, f"{i + 1}", ha="center", va="center_baseline", zorder=7)
    return right, up


def frame_of(surface: Surface, hinges: tuple[Hinge, ...], view: BehindView) -> tuple[float, float]:
    """Half width and half height that hold every bracket [m]."""
    halves = []
    for hinge in hinges:
        bracket = surface.brackets[hinge.bracket]
        y, z = rivet_places(surface, bracket)
        leg, wide = (
            abs(number(bracket.leg_off_rivets) or 0.0),
            0.5 * (number(bracket.leg_wide) or number(bracket.pin.wide) or 0.02),
        )
        off = abs(number(surface.outline.pins_off_middle) or 0.0)
        half_y = max(float(np.ptp(y)) / 2 + _edge(bracket), leg + 0.005) * (1.5 if view.flat else 1.25)
        half_z = max(float(np.ptp(z)) / 2 + _edge(bracket), off + wide, 0.5 * (_depth(surface, hinge) or 0.0)) * 1.08
        halves.append((half_y, half_z) if view.flat else (half_z, half_y))
    return max(h for h, _ in halves), max(h for _, h in halves)


@styled
def bracket_map(drawn: Assessment | Surface, system: System = "metric", *, alone: bool = True) -> Drawing:
    """Draw every hinge bracket from behind with its rivets numbered.

    Parameters
    ----------
    drawn : Assessment or Surface
        A surface is enough, even half-filled.
    system : {"metric", "inch"}
        Units.
    alone : bool
        With file name and caution at the foot.

    Returns
    -------
    Drawing
        Tip on top; the dashes are the leg that carries the pin, the cross is the pin.

    Raises
    ------
    SurfaceError
        Where no bracket is described well enough.
    """
    surface = drawn.surface if isinstance(drawn, Assessment) else drawn
    hinges = described_hinges(surface)[::-1]
    if not hinges:
        message = f"bracket: no bracket is described well enough to draw; give {BRACKET_NEEDS}"
        raise SurfaceError(message)
    view = behind_view(surface)
    half_w, half_h = frame_of(surface, hinges, view)
    metres = max(2.0 * half_w / _PICTURE, 2.0 * half_h / 2.4)
    wide, tall = 2.0 * half_w / metres, 2.0 * half_h / metres
    each = max(tall, 6.4 * LINE) + 0.3
    foot = foot_of(drawn, alone) if isinstance(drawn, Assessment) else ()
    words = f"Rivet numbers of {len(hinges)} hinge brackets: {', '.join(h.name for h in hinges)}. {view.words}"
    fig = drawing(
        each * len(hinges) + 0.45,
        "Bracket rivets by number",
        (view.words, "Plain lines: edges of the web. Dashes: leg. Cross: pin."),
        foot,
        words,
    )
    words_at = wide + (0.42 if view.flat else 0.2)  # of a flat half, a distance stands between
    for i, hinge in enumerate(hinges):
        bottom = fig.top - (i + 1) * each + 0.1
        ax = axes_at(fig, 0.06, bottom + 0.5 * (each - 0.3 - tall), wide, tall)
        ax.set_axis_off()
        ax.set_xlim(-half_w, half_w)
        ax.set_ylim(-half_h, half_h)
        right, up = bracket_outline(ax, surface, hinge, view)
        ax.lines[-1].set_gid(f"pin-{hinge.name}")
        _gaps(ax, right, up, system, metres)
        lines = _words(surface, hinge, system)
        for j, line in enumerate(lines):
            figure_text(
                fig, words_at, bottom + each - 0.3 - LINE * (j + 0.9), line, weight="bold" if j == 0 else "normal"
            )
    bar = axes_at(fig, 0.06, fig.bottom, wide, 0.4)
    bar.set_axis_off()
    bar.set_xlim(-half_w, half_w)
    bar.set_ylim(0.0, 0.4)
    scale_bar(bar, -half_w, 0.3, 0.5 * wide * metres, system)
    return fig


def _gaps(ax: Axes, right: Array, up: Array, system: System, metres: float) -> None:
    """Distances from rivet to rivet, outside the pattern."""
    columns, rows = np.unique(np.round(right, 9)), np.unique(np.round(up, 9))
    if columns.size > 1:
        y = float(rows[-1]) + 0.3 * metres
        dimension(
            ax, (float(columns[0]), y), (float(columns[1]), y), shown(float(columns[1] - columns[0]), "length", system)
        )
    if rows.size > 1:
        x = float(columns[-1]) + 0.22 * metres
        a, b = float(rows[0]), float(rows[1])
        dimension(ax, (x, a), (x, b), shown(b - a, "length", system), ha="left", va="center")


def _words(surface: Surface, hinge: Hinge, system: System) -> list[str]:
    bracket = surface.brackets[hinge.bracket]
    rivet = surface.rivets[bracket.rivet]
    at = shown(number(hinge.up) or 0.0, "length", system)
    lines = [
        *broken(f"{hinge.name} hinge", 20),
        f"at {at}",
        *broken(f"bracket {bracket.name}, {bracket.on_face} of the web", 22),
    ]
    if rivet.diameter.known:
        count = (bracket.along or 1) * (bracket.sideways or 1)
        lines += broken(f"{count} rivets of {shown(number(rivet.diameter) or 0.0, 'length', system)}", 22)
    edge = bracket.edge.get("bracket")
    if edge is not None and edge.known:
        lines.append(f"edge {shown(number(edge) or 0.0, 'length', system)}")
    return lines
