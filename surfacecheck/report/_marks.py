"""Small things that pictures share: labels that do not lie on each other, arrows, dimensions, round numbers."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, TypeAlias

import numpy as np
from matplotlib.patches import FancyArrowPatch

from surfacecheck.quantities import show, to_unit, unit_of
from surfacecheck.report._style import DEEP, INK, LINE, WIDE, axes_at

if TYPE_CHECKING:
    from collections.abc import Sequence

    from matplotlib.axes import Axes
    from numpy.typing import NDArray

    from surfacecheck.quantities import System
    from surfacecheck.report._style import Drawing

    Array = NDArray[np.float64]
    Look: TypeAlias = dict[str, Any]

__all__ = [
    "arrow",
    "bare",
    "dimension",
    "leader",
    "line_key",
    "place_ticks",
    "round_step",
    "scale_bar",
    "show_length",
    "shown",
    "spread_labels",
    "units",
]


def units(quantity: str, system: System) -> tuple[str, float]:
    """Give the unit of a quantity and how many of it one SI unit is."""
    unit = unit_of(quantity, system)
    return unit, float(to_unit(1.0, unit))


def shown(si: float, quantity: str, system: System, digits: int = 3) -> str:
    """Show a value with its unit; a length as a ruler reads it: a tenth of a millimetre, a hundredth of an inch."""
    if quantity == "length":
        unit, factor = units(quantity, system)
        return f"{show_length(si * factor, system)} {unit}"
    return show(si, quantity, system, digits)


def show_length(value: float, system: System) -> str:
    """Write a length without zeros that say nothing.

    Examples
    --------
    >>> show_length(90.0, "metric"), show_length(25.238, "metric"), show_length(3.5, "inch")
    ('90', '25.2', '3.5')
    """
    text = f"{value:z.{1 if system == 'metric' else 2}f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


def bare(si: float, quantity: str, system: System, digits: int = 3) -> str:
    """Show a value without its unit."""
    text = shown(si, quantity, system, digits)
    return text.removesuffix(f" {unit_of(quantity, system)}")


def spread_labels(wanted: Sequence[float], gap: float, low: float, high: float) -> list[float]:
    """Move labels apart along a line until none is nearer than ``gap`` to the next, as little as possible.

    Parameters
    ----------
    wanted : sequence of float
        Where each would like to be.
    gap : float
        Least distance.
    low, high : float
        Ends of the line; overstepped upwards only where all do not fit.

    Returns
    -------
    list of float
        In the order of ``wanted``.

    Examples
    --------
    >>> spread_labels([1.0, 1.1, 5.0], 1.0, 0.0, 9.0)
    [0.55, 1.55, 5.0]
    """
    order = sorted(range(len(wanted)), key=lambda i: wanted[i])
    groups: list[tuple[float, int]] = []  # middle, number of labels
    for i in order:
        groups.append((min(max(wanted[i], low), high), 1))
        while len(groups) > 1:
            (m, n), (k, p) = groups[-2], groups[-1]
            if k - 0.5 * gap * (p - 1) - (m + 0.5 * gap * (n - 1)) >= gap - 1e-12:
                break
            middle = (m * n + k * p) / (n + p)
            reach = 0.5 * gap * (n + p - 1)
            middle = max(min(middle, high - reach), low + reach)
            groups[-2:] = [(middle, n + p)]
    out = [0.0] * len(wanted)
    at = iter(order)
    for middle, n in groups:
        for j in range(n):
            out[next(at)] = round(middle + gap * (j - 0.5 * (n - 1)), 9)
    return out


def arrow(ax: Axes, start: tuple[float, float], end: tuple[float, float], wide: float = 1.4, **more: Any) -> None:
    """Draw an arrow between two places of the axes; its head grows with its width."""
    head = 5.0 + 2.2 * wide
    for name, usual in (("color", INK), ("zorder", 4), ("arrowstyle", "-|>")):
        more.setdefault(name, usual)
    ax.add_patch(FancyArrowPatch(start, end, mutation_scale=head, shrinkA=0, shrinkB=0, linewidth=wide, **more))


def leader(ax: Axes, start: tuple[float, float], end: tuple[float, float]) -> None:
    """Draw a thin line from a label to what it names."""
    ax.plot([start[0], end[0]], [start[1], end[1]], color=DEEP, linewidth=0.6, zorder=2, solid_capstyle="butt")


def dimension(ax: Axes, start: tuple[float, float], end: tuple[float, float], text: str, **more: Any) -> None:
    """Draw a dimension line with its figure."""
    ax.add_patch(
        FancyArrowPatch(
            start, end, arrowstyle="<|-|>", mutation_scale=7, shrinkA=0, shrinkB=0, linewidth=0.7, color=DEEP
        )
    )
    ax.text(
        0.5 * (start[0] + end[0]),
        0.5 * (start[1] + end[1]),
        text,
        zorder=8,
        **(
            {
                "ha": "center",
                "va": "bottom",
                "bbox": {"boxstyle": "square,pad=0.05", "facecolor": "white", "edgecolor": "none"},
            }
            | more
        ),
    )


def line_key(fig: Drawing, bottom: float, tall: float, names: Sequence[list[str]], looks: Sequence[Look]) -> None:
    """Say under a diagram what its lines are: a piece of each, and its name in as many lines as it takes.

    Parameters
    ----------
    fig : Drawing
        With room for it.
    bottom, tall : float
        Where it stands, and how much room it has [in].
    names : sequence of list of str
        Name of each line, broken.
    looks : sequence of dict
        How each line is drawn, as matplotlib's own keywords.
    """
    ax = axes_at(fig, 0.0, bottom, WIDE, tall)
    ax.set_axis_off()
    ax.set_xlim(0.0, WIDE)
    ax.set_ylim(0.0, tall)
    y = tall - LINE
    for lines, look in zip(names, looks, strict=True):
        ax.plot([0.05, 0.5], [y + 0.06, y + 0.06], **look)
        for line in lines:
            ax.text(0.6, y, line)
            y -= LINE


def round_step(length: float) -> float:
    """Give 1, 2 or 5 times a power of ten, the nearest below.

    Examples
    --------
    >>> round_step(0.37), round_step(64.0)
    (0.2, 50.0)
    """
    power = 10.0 ** np.floor(np.log10(length))
    return float(round(max(m for m in (1.0, 2.0, 5.0) if m * power <= length * (1 + 1e-9)) * power, 9))


def scale_bar(ax: Axes, x: float, y: float, most: float, system: System) -> None:
    """Draw a bar of round length, ``most`` metres at most, in axes that are in metres; its length below it."""
    unit, factor = units("length", system)
    length = round_step(most * factor)
    ax.plot([x, x + length / factor], [y, y], color=INK, linewidth=2.2, solid_capstyle="butt")
    middle = (x + 0.5 * length / factor, y)
    below = (0.0, -3.0)  # points: clear of the bar at any scale
    ax.annotate(f"{length:g} {unit}", middle, below, textcoords="offset points", va="top", ha="center")


def place_ticks(places: Array, system: System, least: float) -> tuple[list[float], list[str]]:
    """Choose places along the span to write, leaving out those nearer than ``least`` metres to the last written."""
    kept: list[float] = []
    for place in np.sort(places):
        if not kept or place - kept[-1] >= least:
            kept.append(float(place))
    last = float(np.max(places))
    if kept[-1] != last:
        kept[-1] = last
    return kept, [bare(place, "length", system) for place in kept]
