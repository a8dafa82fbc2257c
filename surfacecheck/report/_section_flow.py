"""A section with the shear flow of every wall: sense, size, and where it comes into the rivet rows."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.errors import SurfaceError
from surfacecheck.report._horn_forces import tip_view
from surfacecheck.report._marks import arrow, bare, shown, units
from surfacecheck.report._style import DEEP, INK, LINE, MID, PALE, WIDE, axes_at, drawing, figure_text, foot_of, styled
from surfacecheck.report._telling import case_index, station_at
from surfacecheck.report._wall_paths import POINTS, flow_along, outward, shown_flow, wall_path, wall_words
from surfacecheck.sections import WallFlow, flow_at

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from numpy.typing import NDArray

    from surfacecheck.assessment import Assessment
    from surfacecheck.quantities import System
    from surfacecheck.report._style import Drawing
    from surfacecheck.sections.box import Box

    Array = NDArray[np.float64]

__all__ = ["section_flow"]

NOTHING = 0.01
"""Share of the largest flow below which no arrow is drawn."""
_BAND = 0.16
"""Width of the band of the largest flow [in]."""


@styled
def section_flow(
    assessment: Assessment,
    at: float | None = None,
    case: str | int | None = None,
    system: System = "metric",
    *,
    alone: bool = True,
) -> Drawing:
    """Draw a section with its shear flows as bands, arrows and figures.

    Parameters
    ----------
    assessment : Assessment
        With the sheet known.
    at : float, optional
        Place along the pins [m]; without it, where the bending moment is largest.
    case : str or int, optional
        Load case; without it, that with the largest bending moment.
    system : {"metric", "inch"}
        Units.
    alone : bool
        With file name and caution at the foot.

    Returns
    -------
    Drawing
        The whole section, and the spar larger. Bands show the size along a wall, arrows the sense of what the outboard
        part puts on the section.

    Raises
    ------
    SurfaceError
        Where the sections are not known.
    """
    effects = assessment.effects
    box = effects.box
    if box is None or effects.flow is None:
        message = "no section to draw: thickness of spar and skins, spar depth and trailing edge must be known"
        raise SurfaceError(message)
    s, c = station_at(assessment, at), case_index(assessment, case)
    flow = WallFlow(*(part[c, s] for part in effects.flow))
    most = max(float(np.abs(np.concatenate([flow_at(flow, f) for f in (0.0, 0.25, 0.5, 0.75, 1.0)])).max()), 1e-9)
    unit, factor = units("length", system)
    place = f"{float(assessment.span.y[s]) * factor:.{0 if unit == 'mm' else 1}f} {unit}"
    x, z = box.closed.x[s], box.closed.z[s]
    front = min(float(wall_path(box, w, s)[0].min()) for w in box.walls)
    room = 0.06 * (float(x.max()) - front)
    low_x, high_x = front - room, float(x.max()) + 0.5 * room
    metres = (high_x - low_x) / (WIDE - 0.2)
    deeper = max(1.0, min(3.0, 0.9 * metres / float(np.ptp(z))))
    tall_1 = float(np.ptp(z)) * deeper / metres + 1.1
    spar = _spar_span(box, s)
    near = max((spar[1] - spar[0]) / 2.7, float(np.ptp(z)) / 2.2)
    tall_2 = float(np.ptp(z)) / near + 0.75
    side = f", depth drawn {deeper:.3g} times" if deeper > 1.0 else ""
    view = (
        tip_view(assessment.surface),
        f"Load case: {effects.cases[c]}. Arrows: load per {unit} of wall (shear flow) "
        "at limit that the outboard part brings.",
    )
    words = f"Section {place} along the pins with shear flow arrows. {' '.join(view)} "
    words += _said(assessment, box, flow, system)
    fig = drawing(
        tall_1 + tall_2 + 2.1 * LINE,
        f"Section at {place}: where the shear flows",
        view,
        foot_of(assessment, alone),
        words,
    )
    figure_text(fig, 0.02, fig.top - LINE, f"Whole section{side}; {units('line_load', system)[0]}", color=DEEP)
    ax = axes_at(fig, 0.1, fig.top - 1.2 * LINE - tall_1, WIDE - 0.2, tall_1)
    _whole(ax, assessment, box, flow, s, most, (low_x, high_x, metres, deeper), system)
    figure_text(fig, 0.02, fig.bottom + tall_2 - 0.1, "The spar, to scale", color=DEEP)
    detail = axes_at(fig, 0.1, fig.bottom, WIDE - 0.2, tall_2 - 0.15)
    _near(detail, assessment, box, flow, s, most, (spar[0], spar[1], near, 1.0), system)
    return fig


def _spar_span(box: Box, s: int) -> tuple[float, float]:
    keep = [i for i, name in enumerate(box.nodes) if not name.startswith("edge")]
    x = box.closed.x[s][keep]
    return float(x.min()) - 0.02, float(x.max()) + 0.02


def _said(assessment: Assessment, box: Box, flow: WallFlow, system: System) -> str:
    parts = [
        f"{wall_words(assessment, w)} {shown(abs(shown_flow(flow, box, w)), 'line_load', system)}" for w in box.walls
    ]
    return "; ".join(parts) + "."


def _band(
    ax: Axes, path: tuple[Array, Array], q: Array, most: float, metres: float, centre: tuple[float, float], gid: str
) -> tuple[float, float, float, float]:
    """Draw one wall with its band and its arrow; gives the middle of the band's edge and its outward direction."""
    x, z = path
    n_x, n_z = outward(x, z, centre)
    off = _BAND * metres * np.abs(q) / most
    ax.fill(
        np.concatenate([x, (x + off * n_x)[::-1]]),
        np.concatenate([z, (z + off * n_z)[::-1]]),
        facecolor=PALE,
        edgecolor=MID,
        linewidth=0.6,
        zorder=1,
        gid=f"band-{gid}",
    )
    ax.plot(x, z, color=INK, linewidth=1.3, zorder=3, gid=gid)
    k = int(np.argmax(np.abs(q[4:-4]))) + 4 if np.ptp(q) > 0.2 * np.abs(q).max() else POINTS // 2
    return float(x[k] + off[k] * n_x[k]), float(z[k] + off[k] * n_z[k]), float(n_x[k]), float(n_z[k])


def _along(
    ax: Axes,
    path: tuple[Array, Array],
    q: Array,
    most: float,
    metres: float,
    centre: tuple[float, float],
    length: float,
    gid: str,
) -> None:
    """Draw the arrow of a wall: its sense, its length and width with the size."""
    x, z = path
    mean = float(q.mean())
    whole = float(np.hypot(np.diff(x), np.diff(z)).sum())
    if abs(mean) < NOTHING * most or whole < 0.22 * metres:
        return
    n_x, n_z = outward(x, z, centre)
    k = POINTS // 2
    t_x, t_z = x[k + 1] - x[k - 1], z[k + 1] - z[k - 1]
    size = np.hypot(t_x, t_z)
    reach = min(length * (0.35 + 0.65 * abs(mean) / most) * metres, 0.8 * whole)
    t_x, t_z = np.sign(mean) * reach * t_x / size, np.sign(mean) * reach * t_z / size
    a, b = float(x[k] - 0.07 * metres * n_x[k]), float(z[k] - 0.07 * metres * n_z[k])
    arrow(
        ax,
        (a - 0.5 * t_x, b - 0.5 * t_z),
        (a + 0.5 * t_x, b + 0.5 * t_z),
        0.8 + 1.6 * abs(mean) / most,
        gid=f"arrow-{gid}",
    )


def _frame(ax: Axes, frame: tuple[float, float, float, float], middle: float) -> None:
    low_x, metres = frame[0], frame[2]
    ax.set_axis_off()
    wide = ax.get_position().width * WIDE
    ax.set_xlim(low_x, low_x + wide * metres)
    fig = ax.figure
    tall = ax.get_position().height * fig.get_figheight() if hasattr(fig, "get_figheight") else 1.0
    ax.set_ylim(middle - 0.5 * tall * metres, middle + 0.5 * tall * metres)


def _whole(
    ax: Axes,
    assessment: Assessment,
    box: Box,
    flow: WallFlow,
    s: int,
    most: float,
    frame: tuple[float, float, float, float],
    system: System,
) -> None:
    """Skins, nose and web from afar; the flanges are in the larger picture."""
    metres, deeper = frame[2], frame[3]
    middle = float(box.middle_z[s]) * deeper
    _frame(ax, frame, middle)
    centre = (float(box.closed.x[s].mean()), middle)
    for wall in box.walls:
        x, z = wall_path(box, wall, s)
        z = z * deeper
        i = box.wall(wall)
        if wall.startswith(("flange", "lip", "web")):
            ax.plot(x, z, color=INK, linewidth=1.3, zorder=3)
            continue
        q = flow_along(flow, i)
        if wall == "nose" and not assessment.span.nose_closed[s]:
            ax.plot(x, z, color=DEEP, linewidth=1.0, linestyle=(0, (4, 2)), zorder=3, gid=wall)
            ax.text(
                float(x.min()),
                middle + 0.1 * metres + 0.5 * float(np.ptp(z)),
                "nose: open here",
                ha="left",
                va="bottom",
            )
            continue
        mid_x, mid_z, _, n_z = _band(ax, (x, z), q, most, metres, centre, wall)
        _along(ax, (x, z), q, most, metres, centre, 0.9 if wall != "nose" else 0.4, wall)
        text = f"{wall_words(assessment, wall)} {bare(abs(shown_flow(flow, box, wall)), 'line_load', system)}"
        if wall == "nose":
            ax.text(float(x.min()), middle + 0.24 * metres + 0.5 * float(np.ptp(z)), text, ha="left", va="bottom")
        else:
            ax.text(mid_x, mid_z + np.sign(n_z) * 0.05 * metres, text, ha="center", va="bottom" if n_z > 0 else "top")
    if "edge" in box.nodes:
        k = box.node("edge")
        ax.plot([box.closed.x[s, k]], [box.closed.z[s, k] * deeper], marker="s", markersize=6, color=INK, zorder=5)
        ax.text(float(box.closed.x[s, k]), middle - 0.12 * metres, "lap", ha="right", va="top")


def _near(
    ax: Axes,
    assessment: Assessment,
    box: Box,
    flow: WallFlow,
    s: int,
    most: float,
    frame: tuple[float, float, float, float],
    system: System,
) -> None:
    """Web and flanges with their bands, and the ends of skins and nose."""
    metres = frame[2]
    middle = float(box.middle_z[s])
    wide = ax.get_position().width * WIDE
    low = 0.5 * (frame[0] + frame[1]) - 0.42 * wide * metres
    _frame(ax, (low, 0.0, metres, 1.0), middle)
    web_x = float(box.web_x[s])
    for wall in box.walls:
        i = box.wall(wall)
        x, z = wall_path(box, wall, s)
        q = flow_along(flow, i)
        if wall.startswith("skin") or wall == "nose":
            ax.plot(x, z, color=DEEP, linewidth=0.9, linestyle=(0, (5, 2)), zorder=2)
            continue
        away = (web_x + 1.0, middle) if wall.startswith("web") else (web_x, middle)
        _band(ax, (x, z), q, most, metres, away, wall)
        _along(ax, (x, z), q, most, metres, away, 0.7, wall)
        value = bare(abs(shown_flow(flow, box, wall)), "line_load", system)
        if wall == "web":
            ax.text(web_x - 0.24 * metres, middle, f"web {value}", ha="right", va="center")
        elif wall.startswith("flange"):
            up = 1.0 if wall.endswith("plus") else -1.0
            text = f"{wall_words(assessment, wall)} {value}"
            ax.text(
                float(x.max()) + 0.32 * metres,
                float(z[0]) + up * 0.1 * metres,
                text,
                ha="left",
                va="bottom" if up > 0 else "top",
            )
