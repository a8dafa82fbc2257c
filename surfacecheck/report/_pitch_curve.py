"""Margin against rivet pitch: a line with its own marker for every way the row can give, rules as bands."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.assessment import CAUTION
from surfacecheck.errors import SurfaceError
from surfacecheck.report._marks import units
from surfacecheck.report._style import (
    DASHES,
    DEEP,
    FONT,
    HATCHES,
    INK,
    LINE,
    MARKERS,
    PALE,
    RAMP,
    WIDE,
    axes_at,
    broken,
    drawing,
    styled,
)

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from numpy.typing import ArrayLike

    from surfacecheck.quantities import System
    from surfacecheck.report._style import Drawing

__all__ = ["pitch_curve"]

_PANEL = 2.7


@styled
def pitch_curve(
    pitch: ArrayLike,
    margins: Mapping[str, ArrayLike],
    bands: Sequence[tuple[float, float, str]] = (),
    *,
    title: str = "Margin against pitch",
    view: str = "",
    cut: float = 5.0,
    system: System = "metric",
    alone: bool = True,
) -> Drawing:
    """Draw margins against the pitch of a row.

    Parameters
    ----------
    pitch : array_like, shape (P,)
        Distances from rivet to rivet, rising [m].
    margins : mapping of str to array_like, shape (P,)
        For each way of giving, its margin at each pitch [-].
    bands : sequence of (float, float, str)
        Rules: from, to [m] and the words with the source, shown as hatched bands.
    title, view : str
        Words above.
    cut : float
        Margins above this are not shown [-].
    system : {"metric", "inch"}
        Units.
    alone : bool
        With the caution at the foot.

    Returns
    -------
    Drawing
        The lowest line at each pitch is drawn thick: what gives first.

    Raises
    ------
    SurfaceError
        Where the arrays do not fit each other.
    """
    at = np.asarray(pitch, dtype=np.float64)
    lines = {name: np.broadcast_to(np.asarray(values, dtype=np.float64), at.shape) for name, values in margins.items()}
    if at.ndim != 1 or at.size < 2 or not lines or not (np.diff(at) > 0.0).all():
        message = "pitch: two or more rising pitches and at least one line of margins are needed"
        raise SurfaceError(message)
    unit, factor = units("length", system)
    names = [broken(name, 42) for name in lines]
    words = [broken(text, 42) for *_, text in bands]
    key = LINE * (sum(len(n) for n in [*names, *words]) + 0.8)
    tall = 0.25 + _PANEL + 0.6 + key
    lowest = np.min(np.stack(list(lines.values())), axis=0)
    said = "; ".join(f"{name}: {values[0]:+z.2f} to {values[-1]:+z.2f}" for name, values in lines.items())
    fig = drawing(tall, title, (view,) if view else (), (CAUTION,) if alone else (), f"{title}. {said}.")
    ax = axes_at(fig, 0.6, fig.bottom + key + 0.55, WIDE - 0.8, _PANEL)
    ax.set_xlim(float(at[0]) * factor, float(at[-1]) * factor)
    low = min(float(lowest.min()), -0.3)
    ax.set_ylim(low - 0.1, min(cut, max(float(np.max(list(lines.values()))), 0.5)) * 1.04)
    for i, (start, end, _) in enumerate(bands):
        ax.axvspan(
            start * factor,
            end * factor,
            facecolor=PALE,
            alpha=0.5,
            edgecolor=DEEP,
            hatch=HATCHES[1 + i % 4],
            linewidth=0.0,
            zorder=0,
        )
    ax.axhline(0.0, color=INK, linewidth=1.0)
    ax.plot(at * factor, lowest, color=PALE, linewidth=6.0, solid_capstyle="round", zorder=1, gid="lowest")
    every = max(1, at.size // 8)
    for i, values in enumerate(lines.values()):
        ax.plot(
            at * factor,
            values,
            color=RAMP[i % 2],
            linestyle=DASHES[i % len(DASHES)],
            marker=MARKERS[i % len(MARKERS)],
            markevery=(i % every, every),
            zorder=3,
            gid=f"line-{i + 1}",
        )
    ax.set_xlabel(f"pitch, {unit}")
    ax.set_title("margin", loc="left", pad=4, fontsize=FONT)
    _key(fig, names, words, key)
    return fig


def _key(fig: Drawing, names: list[list[str]], words: list[list[str]], tall: float) -> None:
    ax = axes_at(fig, 0.0, fig.bottom, WIDE, tall)
    ax.set_axis_off()
    ax.set_xlim(0.0, WIDE)
    ax.set_ylim(0.0, tall)
    y = tall - LINE
    for i, lines in enumerate(names):
        ax.plot(
            [0.05, 0.27, 0.5],
            [y + 0.06] * 3,
            color=RAMP[i % 2],
            linestyle=DASHES[i % len(DASHES)],
            marker=MARKERS[i % len(MARKERS)],
            markevery=[1],
        )
        for line in lines:
            ax.text(0.62, y, line)
            y -= LINE
    for i, lines in enumerate(words):
        ax.fill_between(
            [0.05, 0.5],
            y - 0.02,
            y + 0.13,
            facecolor=PALE,
            alpha=0.5,
            edgecolor=DEEP,
            hatch=HATCHES[1 + i % 4],
            linewidth=0.0,
        )
        for line in lines:
            ax.text(0.62, y, line)
            y -= LINE
