"""Margins as bars: number first, a hatch where less than required, what gives and in which case in words."""

from __future__ import annotations

from typing import TYPE_CHECKING

from surfacecheck.assessment import in_system, margin_text
from surfacecheck.errors import SurfaceError
from surfacecheck.report._style import (
    DEEP,
    HATCHES,
    INK,
    LINE,
    MID,
    PALE,
    WIDE,
    axes_at,
    broken,
    drawing,
    foot_of,
    styled,
)

if TYPE_CHECKING:
    from collections.abc import Sequence

    from matplotlib.axes import Axes

    from surfacecheck.assessment import Assessment
    from surfacecheck.checks import Finding
    from surfacecheck.quantities import System
    from surfacecheck.report._style import Drawing

__all__ = ["compare_bars", "margin_bars"]

_BAR, _LOW, _HIGH = 0.2, -1.0, 2.0
"""Height of a bar [in]; margins beyond the right end are drawn to it, with their number."""
_LETTERS = 48
_ZERO = 1.15
"""Where zero lies [in]."""


def _scale(margin: float) -> float:
    """Place of a margin [in]: zero at ``_ZERO``, cut at both ends."""
    unit = (_ZERO - 0.1) / -_LOW if margin < 0.0 else (WIDE - _ZERO - 0.85) / _HIGH
    return _ZERO + max(_LOW, min(_HIGH, margin)) * unit


@styled
def margin_bars(assessment: Assessment, most: int = 10, system: System = "metric", *, alone: bool = True) -> Drawing:
    """Draw the lowest margins, one a part.

    Parameters
    ----------
    assessment : Assessment
        With margins.
    most : int
        Bars at most.
    system : {"metric", "inch"}
        Units of the places.
    alone : bool
        With file name and caution at the foot.

    Returns
    -------
    Drawing
        Zero is just enough; a hatched bar to the left is less than required.

    Raises
    ------
    SurfaceError
        Where no margin is known.
    """
    findings = assessment.lowest_by_part[:most]
    if not findings:
        message = "no margin is known yet: give the strengths that the list of gaps names"
        raise SurfaceError(message)
    words = [
        (broken(f"{i + 1} {in_system(f.part, system)}: {f.gives}", _LETTERS), broken(f.case, _LETTERS - 4))
        for i, f in enumerate(findings)
    ]
    tall = sum(LINE * (len(a) + len(b)) + _BAR + 0.16 for a, b in words) + 0.25
    view = (
        f"The lowest of each part, limit load with its factors. Zero is just enough; bars end at {margin_text(_HIGH)}.",
    )
    said = "; ".join(f"{in_system(f.part, system)}, {f.gives}: {margin_text(f.margin or 0.0)}" for f in findings)
    fig = drawing(tall, "Lowest margins", view, foot_of(assessment, alone), f"Lowest margins: {said}.")
    ax = _canvas(fig, tall)
    y = tall - 0.1
    for i, (finding, (part, case)) in enumerate(zip(findings, words, strict=True)):
        for line in part:
            y -= LINE
            ax.text(0.02, y, line, va="bottom", fontweight="bold" if i == 0 else "normal")
        y -= _BAR + 0.04
        _bar(ax, y, finding.margin or 0.0, 0, f"margin-{i + 1}")
        y -= 0.04  # or the bar touches tall letters
        for line in case:
            y -= LINE
            ax.text(0.2, y + 0.01, line, va="bottom", color=DEEP)
        y -= 0.08
    return fig


def _canvas(fig: Drawing, tall: float) -> Axes:
    ax = axes_at(fig, 0.0, fig.bottom, WIDE, tall)
    ax.set_axis_off()
    ax.set_xlim(0.0, WIDE)
    ax.set_ylim(0.0, tall)
    return ax


def _bar(ax: Axes, y: float, margin: float, look: int, gid: str) -> None:
    """Draw one bar with its number; less than required is hatched."""
    end = _scale(margin)
    short = margin < 0.0
    face = "white" if short else (MID, PALE)[look % 2]
    hatch = "//" if short else HATCHES[(look + 1) // 2 * 2] if look > 1 else ""
    bar = ax.barh(
        y + 0.5 * _BAR,
        end - _ZERO,
        height=_BAR,
        left=_ZERO,
        facecolor=face,
        edgecolor=INK,
        linewidth=0.9,
        hatch=hatch,
        zorder=2,
    )
    bar[0].set_gid(gid)
    ax.plot([_ZERO, _ZERO], [y - 0.02, y + _BAR + 0.02], color=INK, linewidth=1.4, zorder=4, solid_capstyle="butt")
    text = margin_text(margin)
    if margin > _HIGH:
        ax.plot([end - 0.09, end - 0.05], [y - 0.03, y + _BAR + 0.03], color="white", linewidth=2.5, zorder=3)
    ax.text(max(end, _ZERO) + 0.06, y + 0.5 * _BAR, text, va="center_baseline", fontweight="bold")


@styled
def compare_bars(
    assessments: Sequence[Assessment], most: int = 6, names: Sequence[str] = (), *, alone: bool = True
) -> Drawing:
    """Draw the lowest margins of two or more assessments beside each other.

    Parameters
    ----------
    assessments : sequence of Assessment
        The base first, then what was changed.
    most : int
        Parts at most: the lowest of any of them.
    names : sequence of str
        A name each; the titles of the changes where empty.
    alone : bool
        With file name and caution at the foot.

    Returns
    -------
    Drawing
        For each part the lowest margin of every assessment, in the same order.

    Raises
    ------
    SurfaceError
        Where there are none, or no margin is known.
    """
    if not assessments or not any(a.lowest_by_part for a in assessments):
        message = "no margin to compare: give assessments whose strengths are known"
        raise SurfaceError(message)
    titles = list(names) or [a.surface.title for a in assessments]
    lowest: list[dict[str, Finding]] = [{f.check.place: f for f in a.lowest_by_part} for a in assessments]
    places = {place: min(d[place].margin or 0.0 for d in lowest if place in d) for d in lowest for place in d}
    chosen = sorted(places, key=lambda place: places[place])[:most]
    heads = [broken(next(d[place] for d in lowest if place in d).check.part, _LETTERS) for place in chosen]
    rows = len(assessments)
    modes = [
        [broken(f"{d[place].gives}" if place in d else "not there, or not given", 46) for d in lowest]
        for place in chosen
    ]
    key = [broken(title, 44) for title in titles]
    tall = 0.25 + LINE * sum(len(k) for k in key) + sum(LINE * len(h) + 0.2 for h in heads)
    tall += sum(_BAR + 0.06 + LINE * len(m) for mode in modes for m in mode)
    view = ("The lowest of each part. Zero is just enough; hatched to the left: less than required.",)
    said = "; ".join(
        f"{place}: " + ", ".join(margin_text(d[place].margin or 0.0) if place in d else "none" for d in lowest)
        for place in chosen
    )
    fig = drawing(
        tall,
        "Margins, before and after",
        view,
        foot_of(assessments[0], alone),
        f"Lowest margins of {rows} versions. {said}.",
    )
    ax = _canvas(fig, tall)
    y = tall
    for i, lines in enumerate(key):
        ax.text(0.02, y - LINE, f"{i + 1}", fontweight="bold", va="bottom")
        for line in lines:
            y -= LINE
            ax.text(0.25, y, line, va="bottom")
    for place, head, mode in zip(chosen, heads, modes, strict=True):
        y -= 0.14
        for line in head:
            y -= LINE
            ax.text(0.02, y, line, va="bottom", fontweight="bold")
        for i, d in enumerate(lowest):
            y -= _BAR + 0.04
            ax.text(0.02, y + 0.5 * _BAR, f"{i + 1}", va="center_baseline")
            if place in d:
                _bar(ax, y, d[place].margin or 0.0, i, f"margin-{place}-{i + 1}")
            for line in mode[i]:
                y -= LINE
                ax.text(0.2, y + 0.01, line, va="bottom", color=DEEP)
        y -= 0.06
    return fig
