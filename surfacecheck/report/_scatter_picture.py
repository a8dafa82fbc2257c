"""How margins scatter: a hill of samples over one scale for each part, and what drives one of them as bars."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.assessment import in_system, margin_text
from surfacecheck.errors import SurfaceError
from surfacecheck.report._marks import round_step
from surfacecheck.report._style import DEEP, INK, LINE, MID, PALE, WIDE, axes_at, broken, drawing, foot_of, styled
from surfacecheck.studies import percent

if TYPE_CHECKING:
    from collections.abc import Sequence

    from matplotlib.axes import Axes
    from numpy.typing import NDArray

    from surfacecheck.quantities import System
    from surfacecheck.report._style import Drawing
    from surfacecheck.studies import MarginScatter, Scatter

__all__ = ["driver_picture", "scatter_picture"]

_HILL, _GAP = 0.55, 0.2
"""Height of a hill, and of the space below it [in]."""
_LEFT, _RIGHT = 0.15, 0.15
_MOST = 4.0
"""The scale ends here; how many lie beyond is written."""
_LETTERS = 48
_BINS = 120
"""Steps of a hill as wide as the picture."""
_IN_A_BIN = 32
_BAR = 0.2
_NINE = (0.05, 0.95)
_LOOKS = {"raises": (MID, ""), "lowers": ("white", "//"), "either way": (PALE, "..")}


@styled
def scatter_picture(scatter: Scatter, most: int = 6, system: System = "metric", *, alone: bool = True) -> Drawing:
    """Draw how the lowest margins scatter, one of each part.

    Parameters
    ----------
    scatter : Scatter
        Worked.
    most : int
        Parts at most.
    system : {"metric", "inch"}
        Units of the places.
    alone : bool
        With file name and caution at the foot.

    Returns
    -------
    Drawing
        Each hill as high as its own most frequent margin; left of zero, hatched, is less than required.
    """
    shown = scatter.by_part[:most]
    heads = [broken(f"{i} {in_system(f'{one.part}: {one.gives}', system)}", _LETTERS) for i, one in enumerate(shown, 1)]
    scale = _Scale(shown)
    feet = [broken(_span(one, scale.high), _LETTERS) for one in shown]
    tall = sum(LINE * (len(a) + len(b)) + _HILL + _GAP for a, b in zip(heads, feet, strict=True)) + 0.4 + LINE
    view = (
        f"{len(scatter):,} samples, seed {scatter.seed}. Each hill: where they lie. Bar: nine in ten. "
        "Diamond: as described. Zero is just enough.",
    )
    said = "; ".join(f"{one.part}, {one.gives}: {_span(one)}" for one in shown)
    fig = drawing(tall, "How margins scatter", view, foot_of(scatter, alone), f"How margins scatter. {said}.")
    ax = axes_at(fig, 0.0, fig.bottom, WIDE, tall)
    ax.set_axis_off()
    ax.set_xlim(0.0, WIDE)
    ax.set_ylim(0.0, tall)
    y = tall - 0.1
    for i, (one, head, foot) in enumerate(zip(shown, heads, feet, strict=True)):
        for line in head:
            y -= LINE
            ax.text(0.02, y, line, va="bottom", fontweight="bold" if i == 0 else "normal")
        y -= _HILL + 0.04
        _hill(ax, scale, one, y, f"hill-{i + 1}")
        y -= 0.06
        for line in foot:
            y -= LINE
            ax.text(_LEFT, y, line, va="bottom", color=DEEP)
        y -= _GAP - 0.1
    _ticks(ax, scale, y)
    return fig


def _span(one: MarginScatter, most: float = np.inf) -> str:
    """Say where nine samples in ten lie, how many lie below zero, and how many beyond the picture."""
    low, high = (margin_text(one.at(share)) for share in _NINE)
    said = [f"9 in 10: {low} to {high}" if low != high else f"9 in 10 at {low}"]
    beyond = float(np.mean(one.values > most))
    said += [f"{percent(share)} {where}" for share, where in ((one.below, "below 0"), (beyond, "beyond")) if share]
    return "; ".join(said)


class _Scale:
    """From a margin to its place [in], zero always on it."""

    def __init__(self, shown: Sequence[MarginScatter]) -> None:
        low = min(0.0, *(one.at(0.0) for one in shown))
        high = max(0.5, *(min(one.at(1.0), _MOST) for one in shown))
        room = 0.04 * (high - low)
        self.low, self.high = max(low, -1.0) - room, high + room

    def __call__(self, margin: float) -> float:
        part = (min(max(margin, self.low), self.high) - self.low) / (self.high - self.low)
        return _LEFT + part * (WIDE - _LEFT - _RIGHT)


def _hill(ax: Axes, scale: _Scale, one: MarginScatter, y: float, gid: str) -> None:
    """Draw where the samples of one margin lie, over its bar and its diamond."""
    ax.plot([_LEFT, WIDE - _RIGHT], [y, y], color=PALE, linewidth=0.8, zorder=1)
    ax.plot([scale(0.0)] * 2, [y - 0.06, y + _HILL], color=INK, linewidth=1.4, zorder=3, solid_capstyle="butt")
    low, high = (scale(one.at(share)) for share in _NINE)
    ax.plot([low, high], [y - 0.045] * 2, color=INK, linewidth=3.0, solid_capstyle="butt", zorder=4)
    ax.plot([scale(one.given)], [y], marker="D", color="white", markeredgecolor=INK, markersize=6.0, zorder=5)
    inside = np.maximum(one.values[one.values <= scale.high], scale.low)
    if not inside.size:
        return
    counts, edges = np.histogram(inside, bins=max(1, _bins(scale, inside)))
    places = np.array([scale(edge) for edge in edges])
    if places[-1] - places[0] < 0.05:  # all of it at one place: a post that can be seen
        places, counts = np.array([places[0] - 0.025, places[-1] + 0.025]), np.array([1])
    tops = y + _HILL * np.append(counts, counts[-1]) / counts.max()
    hill = ax.fill_between(places, y, tops, step="post", facecolor=MID, edgecolor=INK, linewidth=0.8, zorder=2)
    hill.set_gid(gid)
    if places[0] < scale(0.0):
        short = places < scale(0.0)
        ends = np.append(places[short], min(scale(0.0), places[-1]))
        ax.fill_between(
            ends, y, np.append(tops[short], tops[short][-1]), step="post", facecolor="white", edgecolor=INK, hatch="//",
            linewidth=0.8, zorder=3,
        )  # fmt: skip


def _bins(scale: _Scale, values: NDArray[np.float64]) -> int:
    """As many bins as the hill is wide on the picture, each with a few dozen samples if it were level."""
    wide = (float(values.max()) - float(values.min())) / (scale.high - scale.low)
    return int(np.ceil(min(_BINS * wide, values.size / _IN_A_BIN)))


def _ticks(ax: Axes, scale: _Scale, low: float) -> None:
    """Draw the scale at the bottom."""
    step = round_step((scale.high - scale.low) / 4.0)
    for at in np.arange(np.ceil(scale.low / step), np.floor(scale.high / step) + 1.0) * step:
        ax.plot([scale(at)] * 2, [low - 0.06, low], color=DEEP, linewidth=0.8)
        ax.text(scale(at), low - 0.09, f"{at:g}" if at else "0", va="top", ha="center")
    ax.plot([_LEFT, WIDE - _RIGHT], [low, low], color=DEEP, linewidth=0.8)
    ax.text(WIDE - _RIGHT, low - 0.09 - LINE, "margin", va="top", ha="right")


@styled
def driver_picture(scatter: Scatter, name: str = "", most: int = 6, *, alone: bool = True) -> Drawing:
    """Draw what drives one margin: the share of its scatter that goes with each number, and which way.

    Parameters
    ----------
    scatter : Scatter
        Worked.
    name : str
        Of the margin; the lowest anywhere where empty.
    most : int
        Numbers at most.
    alone : bool
        With file name and caution at the foot.

    Returns
    -------
    Drawing
        Filled bars: more of the number raises the margin; hatched: lowers it; dotted: either way lowers it.

    Raises
    ------
    SurfaceError
        Where no margin has that name, or nothing drives it.
    """
    one = scatter.margin(name) if name else scatter.lowest
    drivers = one.told[:most]
    if not drivers:
        message = f"{one.name}: nothing that varies moves it by a hundredth, so there is nothing to draw"
        raise SurfaceError(message)
    heads = [broken(f"{driver.key}", _LETTERS) for driver in drivers]
    tall = sum(LINE * len(head) + _BAR + 0.12 for head in heads) + 0.1
    title = f"What drives {f'{one.part}: {one.gives}' if one.part else one.name}"
    view = (
        f"{_span(one)}. First-order share of the scatter. More of it: filled, raises the margin; "
        "hatched, lowers it; dotted, best somewhere between.",
    )
    said = "; ".join(f"{d.key} {100 * d.share:.0f} %, {d.way}" for d in drivers)
    fig = drawing(tall, title, view, foot_of(scatter, alone), f"{title}: {said}.")
    ax = axes_at(fig, 0.0, fig.bottom, WIDE, tall)
    ax.set_axis_off()
    ax.set_xlim(0.0, WIDE)
    ax.set_ylim(0.0, tall)
    y = tall - 0.05
    for i, (driver, head) in enumerate(zip(drivers, heads, strict=True)):
        for line in head:
            y -= LINE
            ax.text(0.02, y, line, va="bottom")
        y -= _BAR + 0.02
        wide = driver.share * (WIDE - 1.0)
        face, hatch = _LOOKS[driver.way]
        bar = ax.barh(y + 0.5 * _BAR, wide, height=_BAR, left=_LEFT, facecolor=face, hatch=hatch, edgecolor=INK,
                      linewidth=0.9)  # fmt: skip
        bar[0].set_gid(f"driver-{i + 1}")
        text = f"{100 * driver.share:.0f} %"
        ax.text(_LEFT + wide + 0.06, y + 0.5 * _BAR, text, va="center_baseline", fontweight="bold")
        y -= 0.1
    return fig
