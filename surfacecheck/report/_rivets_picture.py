"""Margin against pitch for every choice of rivet: a line a choice, a symbol for what gives, a bar for each rule."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.errors import SurfaceError
from surfacecheck.quantities import show
from surfacecheck.report._marks import units
from surfacecheck.report._rivets_lines import choice_line, choices_drawn, span_of, x_of
from surfacecheck.report._style import (
    DASHES,
    DEEP,
    FONT,
    INK,
    LINE,
    MARKERS,
    PALE,
    RAMP,
    WIDE,
    axes_at,
    broken,
    drawing,
    foot_of,
    styled,
)
from surfacecheck.studies import CRITERIA, limits, on_ribs

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from numpy.typing import NDArray

    from surfacecheck.quantities import System
    from surfacecheck.report._rivets_lines import ChoiceLine
    from surfacecheck.report._style import Drawing
    from surfacecheck.studies import Limit, RivetComparison

    Array = NDArray[np.float64]

__all__ = ["rivets_picture"]

_PANEL = 2.6
_BAR = 0.11
_LETTERS = 43
_THICK = 0.015
"""Of the height of the axes: a line as it is drawn."""


@styled
def rivets_picture(comparison: RivetComparison, system: System = "metric", *, alone: bool = True) -> Drawing:
    """Draw the margins of a comparison against the pitch.

    Parameters
    ----------
    comparison : RivetComparison
        Worked.
    system : {"metric", "inch"}
        Units.
    alone : bool
        With file and caution at the foot.

    Returns
    -------
    Drawing
        A line for each choice of all but the pitch, a symbol at each alternative for what gives first, a bar for each
        rule of the pitch: full where its text allows, open where not.

    Raises
    ------
    SurfaceError
        Where no alternative has a margin.
    """
    there = np.flatnonzero(~np.isnan(comparison.whole.margin))
    if not there.size:
        message = "no alternative has a margin: nothing to draw against the pitch"
        raise SurfaceError(message)
    chosen, left = choices_drawn(comparison, there)
    by_count = all(np.isnan(one.zero_pitch).all() and not np.isnan(one.zero_count).all() for one in comparison.rows)
    marks = there[np.isin(comparison.choice[there], chosen)]
    sheets = sorted({comparison.index(one)["sheet"] for one in chosen})
    rules = () if by_count else _rules(comparison, sheets, system)
    low, high = span_of(comparison, marks, [limit.at for _, limit in rules], by_count)
    lines = [choice_line(comparison, one, (low, high), by_count, system) for one in chosen]
    gives = _gives(comparison, marks)
    key = _key_lines(lines, gives, left, _ends(comparison.whole.margin[marks])[1])
    tall = 0.3 + _PANEL + 0.62 + sum(LINE * len(words) + _BAR + 0.05 for words, _ in rules) + LINE * (len(key) + 0.8)
    fig = drawing(
        tall, *_title(comparison, by_count), foot_of(comparison.assessment, alone), _said(comparison, marks, gives)
    )
    ax = axes_at(fig, 0.55, fig.top - 0.3 - _PANEL, WIDE - 0.75, _PANEL)
    _draw(ax, lines, gives, comparison, marks, by_count, system)
    _frame(ax, comparison, marks, (low, high), by_count, system)
    _bars(fig, rules, (low, high), fig.top - 0.3 - _PANEL - 0.62)
    _key(fig, key)
    return fig


def _title(comparison: RivetComparison, by_count: bool) -> tuple[str, tuple[str, ...]]:
    names = ", ".join(table.row.name.replace("_", " ") for table in comparison.rows)
    title = "Margin against number of rivets" if by_count else "Margin against pitch"
    return title, (names, "at the loads of the surface as drawn")


def _gives(comparison: RivetComparison, marks: NDArray[np.intp]) -> dict[str, str]:
    """Give every way to give among the marks its symbol."""
    words = dict.fromkeys(_first(comparison, int(i)) for i in marks)
    return {said: MARKERS[at % len(MARKERS)] for at, said in enumerate(words)}


def _first(comparison: RivetComparison, i: int) -> str:
    table = comparison.rows[int(comparison.whole.row[i])]
    return table.modes[table.gives[i]][1] if table.gives[i] >= 0 else ""


def _said(comparison: RivetComparison, marks: NDArray[np.intp], gives: dict[str, str]) -> str:
    low, high = comparison.whole.margin[marks].min(), comparison.whole.margin[marks].max()
    first = ", ".join(gives)
    return f"Margins of {marks.size} alternatives against pitch, {low:+z.2f} to {high:+z.2f}. First gives: {first}."


def _draw(
    ax: Axes,
    lines: list[ChoiceLine],
    gives: dict[str, str],
    comparison: RivetComparison,
    marks: NDArray[np.intp],
    by_count: bool,
    system: System,
) -> None:
    factor = 1.0 if by_count else units("length", system)[1]
    for i, line in enumerate(lines):
        color = RAMP[i % 2]
        ax.plot(line.at * factor, line.margin, color=color, linestyle=DASHES[i], linewidth=1.2, gid=f"line-{i + 1}")
    best = comparison.best
    for said, marker in gives.items():
        for full in (False, True):
            alike = [i for i in marks if _first(comparison, int(i)) == said and bool(best[i]) is full]
            those = np.array(alike, dtype=int)
            if those.size:
                ax.plot(
                    x_of(comparison, those, by_count) * factor, comparison.whole.margin[those], linestyle="",
                    marker=marker, color=INK, markerfacecolor=INK if full else "white", markersize=6.0, zorder=4,
                    gid=f"marks-{marker}-{'best' if full else 'beaten'}",
                )  # fmt: skip
    drawn = comparison.as_drawn
    if not np.isnan(drawn.margin[0]):
        table = comparison.drawn[0 if by_count else int(drawn.row[0])]
        x = float(table.count[0]) if by_count else float(table.ruling[0]) * factor
        ax.plot([x], [drawn.margin[0]], marker="o", markersize=12, markerfacecolor="none", color=DEEP, gid="drawn")


def _frame(
    ax: Axes,
    comparison: RivetComparison,
    marks: NDArray[np.intp],
    span: tuple[float, float],
    by_count: bool,
    system: System,
) -> None:
    unit, factor = ("", 1.0) if by_count else units("length", system)
    low, top = _ends(comparison.whole.margin[marks])
    ax.set_xlim(span[0] * factor, span[1] * factor)
    ax.set_ylim(low - 0.08 * (top - low), top + 0.12 * (top - low))
    ax.axhline(0.0, color=INK, linewidth=1.0)
    where = " where it is lowest" if on_ribs(comparison) else ""
    ax.set_xlabel("rivets on each rib" if by_count else f"real pitch{where}, {unit}")
    ax.set_title("margin", loc="left", pad=4, fontsize=FONT)


def _ends(margins: Array) -> tuple[float, float]:
    """Give the lowest and the highest margin that has to be seen."""
    return min(float(margins.min()), 0.0), max(float(margins.max()), 0.5)


def _lies_on(lines: list[ChoiceLine], which: int, top: float) -> int | None:
    """Tell which earlier line hides this one: nowhere farther from it than a line is thick."""
    mine = np.minimum(lines[which].margin, top)
    for i, other in enumerate(lines[:which]):
        if np.array_equal(other.at, lines[which].at) and (
            np.abs(np.minimum(other.margin, top) - mine).max() <= _THICK * max(top, 0.5)
        ):
            return i
    return None


def _rules(comparison: RivetComparison, sheets: list[int], system: System) -> tuple[tuple[list[str], Limit], ...]:
    """Word the limits of the pitch for the sheets that are drawn, those of one text and figure once."""
    found = []
    for one in limits(comparison, system, sheets):
        end = f"{'to' if one.most else 'from'} {show(one.at, 'length', system)}"
        field = one.field if one.counts else f"{one.field}, shown only"
        found.append((broken(f"{end}: {one.words} ({field})"), one))
    return tuple(found)


def _bars(fig: Drawing, rules: tuple[tuple[list[str], Limit], ...], span: tuple[float, float], top: float) -> None:
    """Draw a bar for each rule: full where the text allows the pitch, open where not."""
    low, high = span
    y = top
    for words, limit in rules:
        for line in words:
            y -= LINE
            fig.text(0.02 / WIDE, (y + 0.05) / fig.tall, line)
        y -= _BAR
        ax = axes_at(fig, 0.55, y, WIDE - 0.75, _BAR)
        ax.set_axis_off()
        ax.set_xlim(low, high)
        ax.set_ylim(0.0, 1.0)
        ends = (low, min(max(limit.at, low), high)) if limit.most else (min(max(limit.at, low), high), high)
        ax.axvspan(low, high, facecolor="white", edgecolor=DEEP, hatch="////", linewidth=0.6)
        if ends[1] > ends[0]:
            ax.axvspan(*ends, facecolor=PALE if not limit.counts else DEEP, edgecolor=DEEP, linewidth=0.6)
        y -= 0.05


def _key_lines(
    lines: list[ChoiceLine], gives: dict[str, str], left: int, top: float
) -> list[tuple[str, dict[str, object]]]:
    """List the lines of the key, each with how its sample looks."""
    out: list[tuple[str, dict[str, object]]] = []

    def add(words: str, sample: dict[str, object]) -> None:
        first, *rest = broken(words, _LETTERS)
        out.append((first, sample))
        out.extend((one, {}) for one in rest)

    for i, line in enumerate(lines):
        words = line.words if line.known else f"{line.words} (?)"
        under = _lies_on(lines, i, top)
        words = words if under is None else f"{words}: lies on {lines[under].words}"
        add(words, {"linestyle": DASHES[i], "color": RAMP[i % 2]})
    for said, marker in gives.items():
        add(said, {"linestyle": "", "marker": marker, "color": INK})
    add("as drawn", {"linestyle": "", "marker": "o", "markersize": 11, "markerfacecolor": "none", "color": DEEP})
    add(f"open symbol: another is as good in {CRITERIA}, and better in one",
        {"linestyle": "", "marker": "o", "markerfacecolor": "white", "color": INK})  # fmt: skip
    if not all(line.known for line in lines):
        add("(?) a strength of the rivet is not given", {})
    if left:
        add(f"{left} choices more are not drawn", {})
    return out


def _key(fig: Drawing, key: list[tuple[str, dict[str, object]]]) -> None:
    tall = LINE * (len(key) + 0.8)
    ax = axes_at(fig, 0.0, fig.bottom, WIDE, tall)
    ax.set_axis_off()
    ax.set_xlim(0.0, WIDE)
    ax.set_ylim(0.0, tall)
    for i, (words, sample) in enumerate(key):
        y = tall - LINE * (i + 1)
        if sample:
            at = [0.27] if sample["linestyle"] == "" else [0.05, 0.49]
            ax.plot(at, [y + 0.06] * len(at), **sample)  # type: ignore[arg-type]
        ax.text(0.62, y, words)
