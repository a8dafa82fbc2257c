"""Shear, moment and torque along the span: steps drawn, extremes labelled, all cases and one of them."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.report._marks import bare, place_ticks, units
from surfacecheck.report._style import DEEP, FONT, INK, MID, PALE, WIDE, axes_at, drawing, foot_of, styled
from surfacecheck.report._telling import case_index, cases_read

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from numpy.typing import NDArray

    from surfacecheck.assessment import Assessment
    from surfacecheck.quantities import System
    from surfacecheck.report._style import Drawing

    Array = NDArray[np.float64]

__all__ = ["diagrams", "span_axis", "span_marks", "torque_about"]

_LEFT, _RIGHT, _PANEL, _GAP, _UNDER = 0.16, 0.26, 1.05, 0.36, 0.88
"""Margins, height of a panel, words between panels, words below the last [in]."""


def torque_about(assessment: Assessment) -> tuple[Array, str]:
    """Torque about the shear centre where sections are known, else about the pins, (C, S) [N m], and its name."""
    effects = assessment.effects
    if effects.box is None:
        return effects.T_0, "Torque about the line of the pins"
    closed = effects.box.closed
    torque = effects.T_0 + closed.x_s * effects.V_z - closed.z_s * effects.V_x
    return np.asarray(torque), "Torque about the shear centre"


@styled
def diagrams(
    assessment: Assessment, case: str | int | None = None, system: System = "metric", *, alone: bool = True
) -> Drawing:
    """Draw shear and bending in both planes, and torque, along the span.

    Parameters
    ----------
    assessment : Assessment
        Of any surface whose outline, load and hinges are known.
    case : str or int, optional
        Case drawn as a line, by name or number; without it, that with the largest bending moment.
    system : {"metric", "inch"}
        Units.
    alone : bool
        With file name and caution at the foot.

    Returns
    -------
    Drawing
        Root at the left. Forces and moments on the part outboard of a cut are added up.
    """
    effects = assessment.effects
    chosen, keep = case_index(assessment, case), cases_read(assessment)
    keep = keep if keep.any() else ~keep
    torque, about = torque_about(assessment)
    side = assessment.surface.said("left")
    panels = (
        ("V_z", effects.V_z, f"Shear sideways ({_towards(assessment, side)})", "force"),
        ("M_x", effects.M_x, "Bending by the sideways load", "torque"),
        ("V_x", effects.V_x, "Shear fore and aft (plus: aft)", "force"),
        ("M_z", effects.M_z, "Bending by the fore-and-aft load", "torque"),
        ("T", torque, about, "torque"),
    )
    tall = len(panels) * (_PANEL + _GAP) + _UNDER - 0.1
    view = (
        f"Line: {effects.cases[chosen]}. "
        f"Shaded: all {int(keep.sum())} cases that count for the whole surface, limit load.",
    )
    words = f"Shear, bending moment and torque along the span, with hinges and ribs marked. {view[0]}"
    fig = drawing(tall, "Shear, moment and torque along the span", view, foot_of(assessment, alone), words)
    top = fig.top
    for i, (gid, values, name, quantity) in enumerate(panels):
        bottom = top - (i + 1) * (_PANEL + _GAP)
        ax = axes_at(fig, _LEFT, bottom, WIDE - _LEFT - _RIGHT, _PANEL)
        _panel(ax, assessment, values, chosen, keep, gid, f"{name}, {units(quantity, system)[0]}", quantity, system)
        span_axis(ax, assessment, system, written=i == len(panels) - 1)
    return fig


def _towards(assessment: Assessment, side: str) -> str:
    return f"plus: to the {side}" if assessment.surface.left_is > 0 else f"minus: to the {side}"


def _panel(
    ax: Axes,
    assessment: Assessment,
    values: Array,
    chosen: int,
    keep: NDArray[np.bool_],
    gid: str,
    name: str,
    quantity: str,
    system: System,
) -> None:
    """One quantity: envelope, line, its largest and smallest value with their places."""
    factor = units(quantity, system)[1]
    y = assessment.span.y
    high, low = values[keep].max(axis=0) * factor, values[keep].min(axis=0) * factor
    line = values[chosen] * factor
    ax.fill_between(y, low, high, facecolor=PALE, edgecolor=MID, linewidth=0.8, zorder=1, gid=f"{gid}-all")
    ax.plot(y, line, color=INK, linewidth=1.5, zorder=3, gid=gid)
    ax.axhline(0.0, color=DEEP, linewidth=0.8, zorder=2)
    reach = max(float(high.max()), float(line.max()), 0.0), min(float(low.min()), float(line.min()), 0.0)
    size = (reach[0] - reach[1]) or 1.0
    ax.set_ylim(reach[1] - 0.34 * size, reach[0] + 0.34 * size)
    ax.set_title(name, loc="left", pad=4, fontsize=FONT)
    for at, sign in ((int(np.argmax(high)), 1.0), (int(np.argmin(low)), -1.0)):
        value = float((high if sign > 0 else low)[at])
        if abs(value) > 1e-3 * size:
            _label(ax, assessment, float(y[at]), value, sign, bare(value / factor, quantity, system))


def _label(ax: Axes, assessment: Assessment, y: float, value: float, sign: float, text: str) -> None:
    low, high = float(assessment.span.breaks[0]), float(assessment.span.breaks[-1])
    share = (y - low) / (high - low)
    side = "left" if share < 0.12 else "right" if share > 0.88 else "center"
    ax.plot([y], [value], marker="o" if sign > 0 else "s", markersize=4, color=INK, markerfacecolor="white", zorder=5)
    ax.annotate(
        text,
        (y, value),
        (0, 4 * sign),
        textcoords="offset points",
        ha=side,
        va="bottom" if sign > 0 else "top",
        zorder=6,
        bbox={"boxstyle": "square,pad=0.06", "facecolor": "white", "edgecolor": "none"},
    )


def span_axis(ax: Axes, assessment: Assessment, system: System, *, written: bool) -> None:
    """Turn the x axis into the span: hinges and ribs marked, and named below the last panel."""
    span = assessment.span
    breaks = span.breaks
    length = float(breaks[-1] - breaks[0])
    ax.set_xlim(float(breaks[0]) - 0.01 * length, float(breaks[-1]) + 0.01 * length)
    ax.spines["left"].set_visible(False)
    ax.spines["bottom"].set_visible(False)
    ax.set_yticks([])
    span_marks(ax, assessment)
    if not written:
        ax.set_xticks([])
        return
    ends = {float(breaks[span.root]), float(breaks[span.tip])}
    places, texts = place_ticks(
        np.array(sorted({float(breaks[b]) for b in span.hinges.values()} | ends)), system, 0.1 * length
    )
    ax.set_xticks(places, texts)
    ax.tick_params(axis="x", length=3)
    unit = units("length", system)[0]
    for down, text, color in (
        (21, f"along the pins, {unit}; root left, tip right", INK),
        (35, "dashes: hinges; dots: ribs; thick dots: horn", DEEP),
    ):
        ax.annotate(
            text, (0.0, 0.0), (0, -down), xycoords="axes fraction", textcoords="offset points", va="top", color=color
        )


def span_marks(ax: Axes, assessment: Assessment) -> None:
    """Mark hinges by a dash, ribs by fine dots, the horn by thick dots."""
    span = assessment.span
    breaks = span.breaks
    for b in span.ribs:
        ax.axvline(float(breaks[b]), color=MID, linewidth=0.8, linestyle=(0, (1, 2)), zorder=0)
    for b in span.hinges.values():
        ax.axvline(float(breaks[b]), color=DEEP, linewidth=1.0, linestyle=(0, (6, 3)), zorder=0)
    if span.horn is not None:
        ax.axvline(float(breaks[span.horn]), color=INK, linewidth=1.8, linestyle=(0, (1, 1.6)), zorder=0)
