"""What each rivet of a bracket carries: its force in the plane of the web as an arrow, its pull by a sign."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.errors import SurfaceError
from surfacecheck.report._bracket_map import bracket_outline, frame_of
from surfacecheck.report._marks import arrow, bare, units
from surfacecheck.report._places import behind_view
from surfacecheck.report._style import DEEP, INK, LINE, axes_at, broken, drawing, figure_text, foot_of, styled
from surfacecheck.report._telling import group_case

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from numpy.typing import NDArray

    from surfacecheck.assessment import Assessment
    from surfacecheck.checks import BracketLoad
    from surfacecheck.quantities import System
    from surfacecheck.report._style import Drawing

    Array = NDArray[np.float64]

__all__ = ["NOTHING", "bracket_forces", "name_rivets", "pull_signs", "rivet_list", "write_rivets"]

_PICTURE, _MOST = 2.1, 8
"""Greatest width of a bracket [in], rivets listed."""
NOTHING = 0.005
"""Share of the largest force below which an arrow or a sign is left out."""


@styled
def bracket_forces(
    assessment: Assessment, case: str | int | None = None, system: System = "metric", *, alone: bool = True
) -> Drawing:
    """Draw the force of every bracket rivet on the web, in the case that loads it most.

    Parameters
    ----------
    assessment : Assessment
        With brackets described.
    case : str or int, optional
        One load case for all; without it, for each bracket that with the most loaded rivet.
    system : {"metric", "inch"}
        Units.
    alone : bool
        With file name and caution at the foot.

    Returns
    -------
    Drawing
        Seen from behind, tip on top: force of the bracket on the web through each rivet.

    Raises
    ------
    SurfaceError
        Where no bracket is described well enough.
    """
    loads = assessment.brackets[::-1]
    if not loads:
        message = "bracket: no rivet loads to draw; the brackets are not described well enough"
        raise SurfaceError(message)
    surface = assessment.surface
    view = behind_view(surface)
    half_w, half_h = frame_of(surface, tuple(load.hinge for load in loads), view)
    half_w, half_h = 1.12 * half_w, 1.12 * half_h
    metres = max(2.0 * half_w / _PICTURE, 2.0 * half_h / 2.4)
    wide, tall = 2.0 * half_w / metres, 2.0 * half_h / metres
    chosen = [group_case(assessment, load.shear, load.tension, case) for load in loads]
    texts = [rivet_list(load.shear[c], _pull(load, c), system) for load, c in zip(loads, chosen, strict=True)]
    heads = [
        broken(f"{load.hinge.name} hinge: {assessment.fittings.cases[c]}")
        for load, c in zip(loads, chosen, strict=True)
    ]
    heights = [max(tall, LINE * len(t)) + LINE * len(h) + 0.22 for t, h in zip(texts, heads, strict=True)]
    about = (
        view.words,
        "Arrows: force on the web at limit, each bracket to its own scale. Dot: pulls the head; cross: presses.",
    )
    words = f"Forces of the bracket rivets on the web, {len(loads)} hinges. {view.words}"
    fig = drawing(sum(heights), "Bracket rivets: what each carries", about, foot_of(assessment, alone), words)
    top = fig.top
    for load, c, text, head, height in zip(loads, chosen, texts, heads, heights, strict=True):
        top -= 0.12
        for j, line in enumerate(head):
            figure_text(fig, 0.02, top - LINE * (j + 0.8), line, weight="bold")
        below = top - LINE * len(head)
        ax = axes_at(fig, 0.04, below - tall - 0.04, wide, tall)
        ax.set_axis_off()
        ax.set_xlim(-half_w, half_w)
        ax.set_ylim(-half_h, half_h)
        right, up = bracket_outline(ax, surface, load.hinge, view, numbers=False)
        _vectors(ax, load, c, right, up, view.place(load.share[c, :, 1], load.share[c, :, 2]), 0.36 * metres)
        write_rivets(fig, text, wide + 0.3, below)
        top -= height - 0.12
    return fig


def _pull(load: BracketLoad, c: int) -> Array:
    """Along the rivet's axis: plus pulls at the head, minus presses the bracket on the web."""
    sign = 1.0 if np.allclose(load.tension[c], np.maximum(load.share[c, :, 0], 0.0), atol=1e-6) else -1.0
    return sign * load.share[c, :, 0]


def _vectors(
    ax: Axes, load: BracketLoad, c: int, right: Array, up: Array, force: tuple[Array, Array], longest: float
) -> None:
    size = np.hypot(*force)
    most = max(float(size.max()), 1e-9)
    for i in range(right.size):
        if size[i] < NOTHING * most:
            continue
        end = (right[i] + longest * force[0][i] / most, up[i] + longest * force[1][i] / most)
        arrow(
            ax,
            (float(right[i]), float(up[i])),
            (float(end[0]), float(end[1])),
            1.6,
            zorder=6,
            gid=f"force-{load.hinge.name}-{i + 1}",
        )
    pull_signs(ax, _pull(load, c), right, up, load.hinge.name)
    name_rivets(ax, right, up, force, 0.21 * longest / 0.36)


def name_rivets(ax: Axes, right: Array, up: Array, force: tuple[Array, Array], away: float) -> None:
    """Write the number of each rivet on the side its arrow does not go to."""
    size = np.hypot(*force)
    for i in range(right.size):
        outward = 1.0 if right[i] > float(right.mean()) + 1e-9 else -1.0
        flat = abs(force[0][i]) > abs(force[1][i])
        a, b = (0.0, -1.0 if force[1][i] > 0.2 * size[i] else 1.0) if flat else (outward, 0.0)
        ax.text(
            right[i] + away * a,
            up[i] + away * b,
            f"{i + 1}",
            ha="center",
            va="center_baseline",
            fontweight="bold",
            zorder=8,
        )


def pull_signs(ax: Axes, pull: Array, right: Array, up: Array, name: str) -> None:
    """Mark a pull towards the head by a dot in the rivet, a push by a cross."""
    most = max(float(np.abs(pull).max()), 1e-9)
    for sign, marker, size, word in ((1.0, "o", 5.0, "pulls"), (-1.0, "x", 6.0, "presses")):
        at = sign * pull > NOTHING * most
        if at.any():
            ax.plot(
                right[at],
                up[at],
                marker=marker,
                markersize=size,
                color=INK,
                linestyle="none",
                zorder=5,
                gid=f"{word}-{name}",
            )


def rivet_list(shear: Array, pull: Array, system: System, name: str = "pull") -> list[tuple[str, ...]]:
    """Write the most loaded rivets of a group: number, shear, pull."""
    unit = units("force", system)[0]
    order = np.argsort(-np.hypot(shear, pull), kind="stable")[:_MOST]
    lines: list[tuple[str, ...]] = [("rivet", f"shear, {unit}", f"{name}, {unit}")]
    lines += [
        (f"{i + 1}", bare(float(shear[i]), "force", system), bare(float(pull[i]), "force", system))
        for i in np.sort(order)
    ]
    if shear.size > _MOST:
        lines.append((f"the {_MOST} most loaded of {shear.size}",))
    return lines


def write_rivets(fig: Drawing, lines: list[tuple[str, ...]], left: float, top: float) -> None:
    """Write the list in columns, figures under each other."""
    for j, line in enumerate(lines):
        y = top - LINE * (j + 0.95)
        if len(line) == 1:
            figure_text(fig, left - 0.2, y, line[0], color=DEEP)
            continue
        for x, word in zip((0.16, 1.05, 1.8), line, strict=True):
            figure_text(fig, left + x, y, word, ha="right", color=DEEP if j == 0 else INK)
