"""A guess and the result on one line: for the answers of the notebooks. No score."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import numpy as np

from surfacecheck.errors import SurfaceError
from surfacecheck.quantities import show_number
from surfacecheck.report._style import DEEP, INK, LINE, PALE, WIDE, axes_at, broken, drawing, styled

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from matplotlib.axes import Axes
    from numpy.typing import NDArray

    from surfacecheck.report._style import Drawing

    Ends = tuple[tuple[float, str], tuple[float, str]]

__all__ = ["guess_among", "guess_line"]

_LEFT, _RIGHT = 0.45, 0.45
"""Free at both ends of the line [in]."""
_DECADES = 100.0
"""Largest over smallest from which the line counts in tens, hundreds, thousands [-]."""
_DIGITS = 3
_GUESSED: dict[str, Any] = {
    "marker": "D", "markersize": 9, "markerfacecolor": "white", "markeredgewidth": 1.4, "color": INK,
    "linestyle": "none",
}  # fmt: skip
_FOUND: dict[str, Any] = {"marker": "o", "markersize": 9, "color": INK, "linestyle": "none"}
_LETTER = 0.088
"""Width of a letter on average [in]."""


@styled
def guess_line(guess: float, result: float, unit: str = "", title: str = "Guess and result") -> Drawing:
    """Draw a guess and the result on one line.

    Parameters
    ----------
    guess : float
        What was guessed, in ``unit``.
    result : float
        What was worked out, in ``unit``.
    unit : str
        Written behind both numbers; ``times`` and its kin are words like any other.
    title : str
        Words above.

    Returns
    -------
    Drawing
        From zero; in tens, hundreds, thousands where the two are far apart.

    Raises
    ------
    SurfaceError
        Where the guess is no finite number.
    """
    guess, result = _number("guess", guess), _number("result", result)
    said = f"guess {_shown(guess, unit)}, result {_shown(result, unit)}"
    fig = drawing(5.2 * LINE, title, (), (), f"{title}: {said}.")
    ax, place, words = _line(fig, np.array([guess, result, 0.0]), 2.6 * LINE)
    ax.plot([place(guess)], [0.0], zorder=4, gid="guess", **_GUESSED)
    ax.plot([place(result)], [0.0], zorder=3, gid="result", **_FOUND)
    _word(ax, place(guess), 0.7 * LINE, f"guess {_shown(guess, unit)}", "bottom")
    _word(ax, place(result), -0.7 * LINE, f"result {_shown(result, unit)}", "top", bold=True)
    _ends(ax, words, -1.85 * LINE)
    return fig


@styled
def guess_among(guess: str, results: Mapping[str, float], unit: str = "", title: str = "Guess and result") -> Drawing:
    """Draw the results of several answers on one line, and mark the one that was guessed.

    Parameters
    ----------
    guess : str
        One of the names; upper or lower case does not matter.
    results : mapping of str to float
        For each name what was worked out, in ``unit``.
    unit : str
        Written behind the numbers.
    title : str
        Words above.

    Returns
    -------
    Drawing
        A dot each, its name and number below in the order of their size.

    Raises
    ------
    SurfaceError
        Where the guess is none of the names.
    """
    names = {name.casefold(): name for name in results}
    chosen = names.get(str(guess).strip().casefold())
    if chosen is None:
        message = f'guess = "{guess}" is none of the answers: write one of {", ".join(results)}'
        raise SurfaceError(message)
    order = sorted(results, key=lambda name: results[name])
    values = [_number(name, results[name]) for name in order]
    marks = ["guess: " if name == chosen else "" for name in order]
    said = [f"{mark}{name} {_shown(v, unit)}" for mark, name, v in zip(marks, order, values, strict=True)]
    lines = [broken(one, 44) for one in said]
    key = LINE * (sum(len(one) for one in lines) + 0.6)
    fig = drawing(3.2 * LINE + key, title, (), (), f"{title}: {'; '.join(said)}.")
    ax, place, words = _line(fig, np.array([*values, 0.0]), key + 1.5 * LINE)
    ax.text(words[1][0], 0.7 * LINE, words[1][1], ha="right", va="bottom", color=DEEP)
    ax.text(words[0][0], 0.7 * LINE, words[0][1], ha="left", va="bottom", color=DEEP)
    y = -1.7 * LINE
    for i, (name, value, text) in enumerate(zip(order, values, lines, strict=True)):
        look = _GUESSED if name == chosen else _FOUND
        ax.plot([place(value)], [0.0], zorder=4 if name == chosen else 3, gid=f"answer-{i + 1}", **look)
        ax.plot([0.16], [y + 0.06], **look)
        for line in text:
            ax.text(0.36, y, line, fontweight="bold" if name == chosen else "normal")
            y -= LINE
    return fig


def _number(name: str, value: float) -> float:
    try:
        number = float(value)
    except (TypeError, ValueError):
        number = np.nan
    if not np.isfinite(number):
        message = f"{name} = {value!r} is no number: write one, such as 33"
        raise SurfaceError(message)
    return number


def _shown(value: float, unit: str) -> str:
    text = show_number(value, _DIGITS)
    text = text.rstrip("0").rstrip(".") if "." in text else text
    return f"{text} {unit}".rstrip()


def _line(fig: Drawing, values: NDArray[np.float64], middle: float) -> tuple[Axes, Callable[[float], float], Ends]:
    """Draw the line from end to end; give the place of a value [in] and the words of both ends."""
    low, high = min(float(values.min()), 0.0), max(float(values.max()), 0.0)
    size = np.abs(values[values != 0.0])
    tens = bool(size.size) and low == 0.0 and float(size.max() / size.min()) > _DECADES
    if tens:
        low, high = 10.0 ** np.floor(np.log10(size.min()) - 0.01), 10.0 ** np.ceil(np.log10(size.max()))
    if high == low:
        high = low + 1.0
    wide = WIDE - _LEFT - _RIGHT

    def place(value: float) -> float:
        ratio = np.log10(max(value, low) / low) / np.log10(high / low) if tens else (value - low) / (high - low)
        return float(_LEFT + wide * ratio)

    ax = axes_at(fig, 0.0, fig.bottom, WIDE, fig.top - fig.bottom)
    ax.set_axis_off()
    ax.set_xlim(0.0, WIDE)
    ax.set_ylim(-middle, fig.top - fig.bottom - middle)
    ax.plot([_LEFT, WIDE - _RIGHT], [0.0, 0.0], color=PALE, linewidth=4.0, solid_capstyle="butt", zorder=1)
    ticks = 10.0 ** np.arange(np.log10(low), np.log10(high) + 0.5) if tens else np.array([0.0])
    for tick in ticks:
        ax.plot([place(float(tick))] * 2, [-0.07, 0.07], color=DEEP, linewidth=1.0, zorder=2)
    right = WIDE - _RIGHT
    ends = ((_LEFT, _shown(low, "")), (right, _shown(high, ""))) if tens else ((place(0.0), "0"), (right, ""))
    return ax, place, ends


def _ends(ax: Axes, words: Ends, y: float) -> None:
    for at, text in words:
        ax.text(at, y, text, ha="center", va="top", color=DEEP)


def _word(ax: Axes, at: float, y: float, text: str, va: str, *, bold: bool = False) -> None:
    """Write beside a place on the line, kept inside the picture."""
    half = 0.5 * _LETTER * len(text)
    middle = min(max(at, half + 0.05), WIDE - half - 0.05)
    ax.text(middle, y, text, ha="center", va=va, fontweight="bold" if bold else "normal")
