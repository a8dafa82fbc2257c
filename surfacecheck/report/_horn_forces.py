"""What each rivet of the horn carries, and what pulls at it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.errors import SurfaceError
from surfacecheck.model import Kind
from surfacecheck.report._bracket_forces import NOTHING, name_rivets, pull_signs, rivet_list, write_rivets
from surfacecheck.report._marks import arrow, scale_bar, shown
from surfacecheck.report._places import number
from surfacecheck.report._style import DEEP, INK, LINE, PALE, WIDE, axes_at, drawing, foot_of, styled
from surfacecheck.report._telling import group_case

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from numpy.typing import NDArray

    from surfacecheck.assessment import Assessment
    from surfacecheck.checks import HornLoad
    from surfacecheck.model import Surface
    from surfacecheck.quantities import System
    from surfacecheck.report._style import Drawing

    Array = NDArray[np.float64]

__all__ = ["horn_forces", "tip_view"]


def tip_view(surface: Surface) -> str:
    """Say how a section is seen: from root to tip, aft to the right, +z on top."""
    if surface.kind is Kind.RUDDER:
        return "Seen from the root to the tip; aft right, left side on top."
    return f"Seen from the root to the tip; aft right, {'top' if surface.left_is > 0 else 'bottom'} side on top."


@styled
def horn_forces(
    assessment: Assessment, case: str | int | None = None, system: System = "metric", *, alone: bool = True
) -> Drawing:
    """Draw the pull at the horn and the force of each of its rivets on the part below.

    Parameters
    ----------
    assessment : Assessment
        With a horn described.
    case : str or int, optional
        Load case; without it, that with the most loaded rivet.
    system : {"metric", "inch"}
        Units.
    alone : bool
        With file name and caution at the foot.

    Returns
    -------
    Drawing
        Seen from root to tip, aft to the right.

    Raises
    ------
    SurfaceError
        Where the rivets of the horn are not known.
    """
    load, effects = assessment.horn, assessment.fittings
    if load is None:
        message = "horn.fixed_with: no rivet loads to draw; the rivets of the horn are not described well enough"
        raise SurfaceError(message)
    c = group_case(assessment, load.shear, load.tension, case)
    text = rivet_list(load.shear[c], load.share[c, :, 1], system, "along")
    view = (f"{tip_view(assessment.surface)}", f"Load case: {effects.cases[c]}.",
            "Arrows: force at limit. Dot: pulls towards the tip; cross: towards the root.")  # fmt: skip
    words = f"Pull at the horn and forces of its {load.x.size} rivets. {view[0]} {view[1]}"
    whole = _Frame.around(
        np.append(load.x, [0.0, *effects.horn_points[:, 0]]),
        np.append(load.z, [0.0, *effects.horn_points[:, 1]]),
        0.03,
        1.75,
        0.62,
    )
    near = _Frame.around(load.x, load.z, 0.016, 2.0, 0.0)
    tall = max(whole.tall, near.tall + LINE * (len(text) + 1.5)) + 0.2
    fig = drawing(tall + 0.3, "Horn: pull and rivets", view, foot_of(assessment, alone), words)
    top = fig.top - 0.1
    ax = whole.axes(fig, 0.04, top)
    _plate(ax, assessment.surface, load, effects.horn_points)
    ax.plot(load.x, load.z, marker="o", markersize=3, color=INK, linestyle="none", zorder=3)
    _pulls(ax, effects.horn_force[c], effects.horn_points, system, whole.metres)
    scale_bar(ax, whole.low_x + 0.62 * whole.metres, whole.low_z + 0.1 * whole.metres, 0.6 * whole.metres, system)
    left = max(2.4, WIDE - near.wide - 0.1)
    _rivets(near.axes(fig, left, top), load, c, near.metres)
    write_rivets(fig, text, 2.55, top - near.tall - 0.1)
    return fig


@dataclass(frozen=True, slots=True)
class _Frame:
    """A part of the plane [m] and the size at which it is drawn [in]."""

    low_x: float
    low_z: float
    metres: float
    wide: float
    tall: float

    @classmethod
    def around(cls, x: Array, z: Array, room: float, wide: float, ahead: float) -> _Frame:
        """Fit points into a width, with room around [m] and free space ahead [in]."""
        low_x, low_z = float(x.min()) - room, float(z.min()) - room
        across, up = float(np.ptp(x)) + 2 * room, float(np.ptp(z)) + 2 * room
        metres = max(across / (wide - ahead), up / 3.2)
        return cls(low_x - ahead * metres, low_z, metres, across / metres + ahead, up / metres)

    def axes(self, fig: Drawing, left: float, top: float) -> Axes:
        ax = axes_at(fig, left, top - self.tall, self.wide, self.tall)
        ax.set_axis_off()
        ax.set_xlim(self.low_x, self.low_x + self.wide * self.metres)
        ax.set_ylim(self.low_z, self.low_z + self.tall * self.metres)
        return ax


def _plate(ax: Axes, surface: Surface, load: HornLoad, points: Array) -> None:
    """Plate from bolt to bolt, and under the rivets; the cross is the line of the pins."""
    assert surface.horn is not None  # noqa: S101 - its rivets are known
    half = 0.5 * (number(surface.horn.plate.narrowest) or 0.03)
    edge = number(surface.horn.fixed_with.edge) or 0.008
    left, right = float(load.x.min()) - edge, float(load.x.max()) + edge
    side = float(np.abs(load.z).max()) + edge
    ax.fill([left, right, right, left], [-side, -side, side, side], facecolor=PALE, edgecolor=DEEP, zorder=0)
    top = max(float(points[:, 1].max()), 0.0)
    low = min(float(points[:, 1].min()), 0.0)
    at = float(points[0, 0])
    ax.fill(
        [at - half, at + half, at + half, at - half],
        [low - 0.012, low - 0.012, top + 0.012, top + 0.012],
        facecolor=PALE,
        edgecolor=DEEP,
        zorder=0,
    )
    if at + half < left:
        ax.fill([at, left, left, at], [-half, -half, half, half], facecolor=PALE, edgecolor=DEEP, zorder=0)
    ax.plot([0.0], [0.0], marker="+", markersize=14, color=INK, markeredgewidth=1.2, zorder=3)


def _pulls(ax: Axes, force: Array, points: Array, system: System, metres: float) -> None:
    """Pull of cable or rod in its true direction, with its size."""
    size = np.sqrt((force**2).sum(axis=-1))
    most = max(float(size.max()), 1e-9)
    for p, (x, z) in enumerate(points):
        ax.plot([x], [z], marker="o", markersize=6, color=INK, markerfacecolor="white", zorder=4)
        if size[p] < NOTHING * most:
            continue
        end = (x + 0.5 * metres * force[p, 0] / most, z + 0.5 * metres * force[p, 2] / most)
        arrow(ax, (float(x), float(z)), (float(end[0]), float(end[1])), 2.0, zorder=5, gid=f"horn-{p + 1}")
        ax.text(
            float(x) - 0.58 * metres,
            float(z) + 0.1 * metres,
            shown(float(size[p]), "force", system),
            va="bottom",
            ha="left",
        )


def _rivets(ax: Axes, load: HornLoad, c: int, metres: float) -> None:
    """Draw the rivets by themselves, larger."""
    share = load.share[c]
    size = np.hypot(share[:, 0], share[:, 2])
    most = max(float(size.max()), 1e-9)
    ax.plot(
        load.x,
        load.z,
        marker="o",
        markersize=12,
        color=INK,
        markerfacecolor="white",
        markeredgewidth=0.8,
        linestyle="none",
        zorder=3,
        clip_on=False,
    )
    for i in range(load.x.size):
        x, z = float(load.x[i]), float(load.z[i])
        if size[i] > NOTHING * most:
            end = (x + 0.4 * metres * share[i, 0] / most, z + 0.4 * metres * share[i, 2] / most)
            arrow(ax, (x, z), (float(end[0]), float(end[1])), 1.5, zorder=5, gid=f"horn-rivet-{i + 1}", clip_on=False)
    name_rivets(ax, load.x, load.z, (share[:, 0], share[:, 2]), 0.18 * metres)
    pull_signs(ax, share[:, 1], load.x, load.z, "horn")
