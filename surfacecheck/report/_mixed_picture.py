"""A row of unlike rivets: the load of each against what a length of the row carries, and where each begins to carry."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import numpy as np

from surfacecheck.assessment import in_system
from surfacecheck.report._marks import line_key, units
from surfacecheck.report._style import (
    DASHES,
    DEEP,
    FONT,
    INK,
    LINE,
    MARKERS,
    MID,
    RAMP,
    WIDE,
    axes_at,
    broken,
    drawing,
    foot_of,
    styled,
)
from surfacecheck.strength.flexibility import FLEXIBILITY_SOURCES
from surfacecheck.studies import shown_rivets

if TYPE_CHECKING:
    from matplotlib.axes import Axes

    from surfacecheck.quantities import System
    from surfacecheck.report._style import Drawing
    from surfacecheck.studies import MixedRow, MixedShare

__all__ = ["mixed_picture"]

EVEN: dict[str, Any] = {"color": MID, "linewidth": 4.0}
_PANEL = 2.7
"""Height of the diagram [in]."""
_MOST = 6
"""Lines that can be told apart."""
_ALIKE = 0.01
"""Part of the largest load within which two rivets share a line [-]."""


def _alike(row: MixedRow, share: MixedShare) -> list[list[int]]:
    """Put rivets of the same kind whose loads run alike together; places along the line, the least loaded first."""
    near = _ALIKE * float(share.loads.max())
    groups: list[list[int]] = []
    for i in shown_rivets(row).tolist():
        for group in groups:
            j = group[0]
            same = row.slack[i] == row.slack[j] and _unlike(row, i) == _unlike(row, j)
            if same and np.abs(share.loads[:, i] - share.loads[:, j]).max() <= near:
                group.append(i)
                break
        else:
            groups.append([i])
    groups.sort(key=lambda group: (not _unlike(row, group[0]), share.loads[-1, group[0]]))
    return groups[:_MOST]


def _unlike(row: MixedRow, i: int) -> bool:
    return int(row.line.numbers[0, i]) in row.unlike


@styled
def mixed_picture(row: MixedRow, system: System = "metric", *, alone: bool = True) -> Drawing:
    """Draw the load of the unlike rivets and their neighbours against the load a length of the row carries.

    Parameters
    ----------
    row : MixedRow
        Worked.
    system : {"metric", "inch"}
        Units.
    alone : bool
        With file name and caution at the foot.

    Returns
    -------
    Drawing
        By the first of the two formulas; a mark where a rivet begins to carry.
    """
    share = row.shares[0]
    groups = _alike(row, share)
    names = [broken(_words(row, group), 42) for group in groups] + [["an even share"]]
    key = LINE * (sum(len(lines) for lines in names) + 0.6)
    by = FLEXIBILITY_SOURCES[share.formula].text.split(",")[0]
    view = (
        f"{in_system(row.line.part, system)}; stiffness by {by}.",
        "Mark on the axis: from there on the rivet carries.",
    )
    foot = foot_of(row.assessment, alone)
    fig = drawing(_PANEL + key + 1.0, "How unlike rivets share", view, foot, " ".join(view))
    ax = axes_at(fig, 0.62, fig.bottom + key + 0.62, WIDE - 0.8, _PANEL)
    _curves(ax, row, share, groups, system)
    looks = [_look(i) for i in range(len(groups))] + [EVEN]
    line_key(fig, fig.bottom, key, names, looks)
    return fig


def _look(i: int) -> dict[str, Any]:
    """Give the look of one group's line, in the diagram and in its key."""
    return {"color": RAMP[i % 2], "linestyle": DASHES[i % len(DASHES)]}


def _curves(ax: Axes, row: MixedRow, share: MixedShare, groups: list[list[int]], system: System) -> None:
    along, per = units("line_load", system)
    force, size = units("force", system)
    x = share.flows * per
    for i, group in enumerate(groups):
        at = group[0]
        ax.plot(x, share.loads[:, at] * size, gid=f"rivet-{int(row.line.numbers[0, at])}", zorder=3, **_look(i))
        touched = float(share.pick_up[at])
        if 0.0 < touched <= share.flows[-1]:
            ax.plot([touched * per], [0.0], marker=MARKERS[i], color=RAMP[i % 2], markersize=7, clip_on=False, zorder=5)
    ax.plot(x, x / per * row.line.pitch * size, zorder=1, gid="even", **EVEN)
    top = float(share.loads.max()) * size * 1.08
    for flow, word in ((row.limit, "limit"), (row.ultimate, "ultimate")):
        ax.plot([flow * per] * 2, [0.0, top], color=DEEP, linewidth=0.7, zorder=2)
        ax.text(flow * per, top, word, ha="center", va="bottom", color=INK)
    ax.set_xlim(0.0, float(x[-1]))
    ax.set_ylim(0.0, top)
    ax.set_xlabel(f"load a length of row, {along}")
    ax.set_title(f"load of a rivet, {force}", loc="left", pad=18, fontsize=FONT)


def _words(row: MixedRow, group: list[int]) -> str:
    numbers = [int(row.line.numbers[0, i]) for i in group]
    listed = ", ".join(str(n) for n in numbers[:6]) + (" ..." if len(numbers) > 6 else "")
    kind = row.other if _unlike(row, group[0]) else row.rivet
    how = "snug" if row.slack[group[0]] == 0.0 else "loose"
    return f"{'rivet' if len(numbers) == 1 else 'rivets'} {listed}: {kind}, {how}"
