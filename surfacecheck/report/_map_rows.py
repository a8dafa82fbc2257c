"""The rivet rows of the map: a mark for every rivet that can be seen, a letter for every row, and its words."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import numpy as np

from surfacecheck.report._marks import bare, shown, units
from surfacecheck.report._places import PlacedRow, number
from surfacecheck.report._style import DEEP, INK, LINE, WIDE, axes_at, broken

if TYPE_CHECKING:
    from matplotlib.axes import Axes

    from surfacecheck.quantities import System
    from surfacecheck.report._style import Drawing

__all__ = ["draw_rows", "key_of", "write_key"]

_LOOKS: dict[str, dict[str, Any]] = {
    "spar": {"marker": "o", "markersize": 2.4},
    "edge": {"marker": "s", "markersize": 2.4},
    "rib": {"marker": "o", "markersize": 3.0, "markerfacecolor": "white"},
    "nose": {"marker": "D", "markersize": 2.8, "markerfacecolor": "white"},
    "rib-spar": {"marker": "x", "markersize": 4.5},
    "doubler": {"marker": "_", "markersize": 7.0},
}
_FAR: dict[str, Any] = {
    "marker": "o",
    "markersize": 5.2,
    "markerfacecolor": "none",
    "color": DEEP,
    "markeredgewidth": 0.6,
}


def _groups(rows: tuple[PlacedRow, ...]) -> list[list[int]]:
    """Rows that lie at the same places share a label."""
    groups: list[list[int]] = []
    for i, row in enumerate(rows):
        for group in groups:
            other = rows[group[0]]
            if (
                other.kind == row.kind
                and other.x.size == row.x.size
                and np.allclose([other.x, other.y], [row.x, row.y], atol=2e-3)
            ):
                group.append(i)
                break
        else:
            groups.append([i])
    return groups


def _look(placed: PlacedRow) -> dict[str, Any]:
    nose = (
        placed.kind == "rib"
        and "nose_skin" in placed.row.joins
        and not set(placed.row.joins) & {"left_skin", "right_skin"}
    )
    return {"color": INK, "markeredgewidth": 0.8} | (_FAR if placed.far else _LOOKS["nose" if nose else placed.kind])


def _letter(i: int) -> str:
    return chr(ord("A") + i) if i < 26 else f"{chr(ord('A') + i // 26 - 1)}{chr(ord('A') + i % 26)}"


def draw_rows(ax: Axes, rows: tuple[PlacedRow, ...], metres: float) -> None:
    """Every rivet that can be seen, and a letter beside each row."""
    for i, placed in enumerate(rows):
        ax.plot(placed.x, placed.y, linestyle="none", zorder=3, gid=f"row-{_letter(i)}", **_look(placed))
    taken: list[tuple[float, float, float]] = []
    for group in _groups(rows):
        text = " ".join(_letter(i) for i in group)
        half = 0.06 + 0.07 * len(text)
        spots = [(x / metres + right, y / metres + up) for x, y, right, up in _beside(rows[group[0]])]
        free = [s for s in spots if all(abs(s[0] - x) > half + h or abs(s[1] - y) > 0.24 for x, y, h in taken)]
        x, y = (free or spots)[0]
        taken.append((x, y, half))
        ax.text(
            x * metres,
            y * metres,
            text,
            ha="center",
            va="center",
            fontweight="bold",
            zorder=7,
            bbox={"boxstyle": "round,pad=0.12", "facecolor": "white", "edgecolor": DEEP, "linewidth": 0.6},
        )


def _beside(placed: PlacedRow) -> list[tuple[float, float, float, float]]:
    """Where a letter may stand, the best place first: a rivet of the row [m], and the way off it [in]."""
    if placed.kind in {"spar", "edge", "doubler"}:
        shares = (0.5, 0.8, 0.2) if placed.kind == "doubler" else (0.64, 0.56, 0.72, 0.48, 0.38, 0.86, 0.28)
        right, up = {"spar": (0.26, 0.0), "edge": (-0.2, 0.0), "doubler": (0.22, 0.16)}[placed.kind]
        at = [int(share * (placed.y.size - 1)) for share in shares]
        return [(float(placed.x[i]), float(placed.y[i]), right, up) for i in at]
    ys = np.unique(placed.y)
    middle = len(ys) // 2 + (1 if placed.kind == "rib-spar" else 0)
    ribs = sorted(range(len(ys)), key=lambda i: abs(i - middle))
    nose = _look(placed)["marker"] == "D"
    out = []
    for i in ribs:
        xs = np.sort(placed.x[placed.y == ys[i]])
        if placed.kind == "rib-spar":
            out.append((float(xs[0]), float(ys[i]), 0.22, -0.17))
        else:
            out.append((float(xs[0 if nose else xs.size // 2]), float(ys[i]), -0.18 if nose else 0.0, 0.17))
    return out


def key_of(rows: tuple[PlacedRow, ...], system: System) -> list[tuple[PlacedRow, list[str]]]:
    """Words for every row: name, then count, distance and first rivet."""
    out = []
    for placed in rows:
        laid, row = placed.plan, placed.row
        if placed.kind == "rib-spar":
            said = f"{laid.count * laid.lines} rivets on each rib"
        elif placed.kind == "rib":
            low, high = float(np.min(laid.rib_pitch)), float(np.max(laid.rib_pitch))
            span = bare(low, "length", system) + ("" if high - low < 1e-5 else f" to {bare(high, 'length', system)}")
            lines = f" in {laid.lines} lines" if laid.lines > 1 else ""
            said = f"{laid.total} rivets{lines}, {span} {units('length', system)[0]} apart"
            if row.first_behind_web.known:
                said += f"; 1 is {shown(number(row.first_behind_web) or 0.0, 'length', system)} behind the web"
        else:
            lines = f" in {laid.lines} lines" if laid.lines > 1 else ""
            apart, first = shown(laid.pitch, "length", system), shown(laid.start or 0.0, "length", system)
            said = f"{laid.total} rivets{lines}, {apart} apart; 1 is at {first}"
        far = " (far side)" if placed.far else ""
        out.append((placed, [*broken(row.name.replace("_", " ") + far, 43), *broken(said, 43)]))
    return out


def write_key(fig: Drawing, key: list[tuple[PlacedRow, list[str]]], top: float) -> None:
    tall = top - fig.bottom
    ax = axes_at(fig, 0.0, fig.bottom, WIDE, tall)
    ax.set_axis_off()
    ax.set_xlim(0.0, WIDE)
    ax.set_ylim(0.0, tall)
    y = tall - 0.8 * LINE
    for i, (placed, lines) in enumerate(key):
        ax.text(0.04, y, _letter(i), fontweight="bold")
        ax.plot([0.3, 0.4], [y + 0.05, y + 0.05], linestyle="none", **_look(placed))
        for j, line in enumerate(lines):
            ax.text(0.52, y - j * LINE, line, color=INK if j == 0 else DEEP)
        y -= LINE * len(lines)
