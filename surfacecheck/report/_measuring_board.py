"""What the drawings of the measuring sheet share: a board in inches, lettered dimensions, leaders."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from matplotlib.patches import FancyArrowPatch

from surfacecheck.report._style import DEEP, INK, WIDE, axes_at, drawing

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from surfacecheck.reading import Question
    from surfacecheck.report._style import Drawing

    Point = tuple[float, float]

__all__ = ["Board", "Labels"]

_MOST = 4


class Labels:
    """The letters of a sheet by the place of the form; each is noted when it is drawn.

    Attributes
    ----------
    drawn : set of str
        Letters that stand in a drawing.
    """

    def __init__(self, asked: Iterable[Question]) -> None:
        self.asked = tuple(asked)
        self.drawn: set[str] = set()

    def of(self, where: str) -> str:
        """Give the letters of every line at a place of the form, in the file's order."""
        return self.among(self.rows(where))

    def rows(self, where: str) -> Mapping[str, str]:
        """Give table and letter of every line at a place of the form."""
        return {one.table: one.label for one in self.asked if one.where == where}

    def among(self, found: Mapping[str, str]) -> str:
        """Note letters as drawn and write them."""
        self.drawn.update(found.values())
        letters = list(found.values())
        lines = [" ".join(letters[i : i + _MOST]) for i in range(0, len(letters), _MOST)]
        return "\n".join(lines)


class Board:
    """A drawing whose axes are in inches from its lower left."""

    def __init__(self, labels: Labels, tall: float, title: str, *view: str, words: str = "") -> None:
        self.fig: Drawing = drawing(tall, title, view, (), words or " ".join([title, *view]))
        self.labels = labels
        self.ax = axes_at(self.fig, 0.0, self.fig.bottom, WIDE, tall)
        self.ax.set_axis_off()
        self.ax.set_xlim(0.0, WIDE)
        self.ax.set_ylim(0.0, tall)

    def line(self, *points: Point, wide: float = 1.2, color: str = INK, **more: Any) -> None:
        """Draw a line through points."""
        self.ax.plot([x for x, _ in points], [y for _, y in points], color=color, linewidth=wide, **more)

    def fill(self, *points: Point, color: str = "#F4F7F9", edge: str = INK, wide: float = 1.1) -> None:
        """Fill a shape."""
        self.ax.fill([x for x, _ in points], [y for _, y in points], facecolor=color, edgecolor=edge, linewidth=wide)

    def dot(self, at: Point, sign: str = "o", size: float = 6.0) -> None:
        """Draw a rivet, a hole or a pin."""
        self.ax.plot(*at, marker=sign, markersize=size, color=INK, markerfacecolor="white", zorder=5)

    def pin(self, at: Point) -> None:
        """Draw a pin end on."""
        self.dot(at, size=7)
        self.ax.plot(*at, marker="+", markersize=6, color=INK, zorder=6)

    def put(self, text: str, at: Point, **more: Any) -> None:
        """Write a word."""
        self.ax.text(*at, text, **({"ha": "center", "va": "center", "color": DEEP} | more))

    def letter(self, text: str, at: Point, **more: Any) -> None:
        """Write letters, bold, on white."""
        box: dict[str, Any] = {"boxstyle": "square,pad=0.1", "facecolor": "white", "edgecolor": "none"}
        look: dict[str, Any] = {
            "ha": "center",
            "va": "center",
            "fontweight": "bold",
            "bbox": box,
            "zorder": 9,
            "linespacing": 1.1,
        }
        self.ax.text(*at, text, **(look | more))

    def size(self, where: str, start: Point, end: Point, at: Point | None = None, **more: Any) -> None:
        """Draw a dimension line with the letters of a place of the form; nothing where the form has none."""
        text = self.labels.of(where)
        if text:
            self.span(text, start, end, at, **more)

    def span(self, text: str, start: Point, end: Point, at: Point | None = None, **more: Any) -> None:
        """Draw a dimension line with letters: beside it where it is short."""
        self.ax.add_patch(
            FancyArrowPatch(
                start, end, arrowstyle="<|-|>", mutation_scale=7, shrinkA=0, shrinkB=0, linewidth=0.8, color=DEEP
            )
        )
        middle = (0.5 * (start[0] + end[0]), 0.5 * (start[1] + end[1]))
        self.letter(text, at or middle, **more)

    def ticks(self, *pairs: tuple[Point, Point]) -> None:
        """Draw the thin lines from a part to its dimension line."""
        for start, end in pairs:
            self.line(start, end, wide=0.5, color=DEEP, zorder=1)

    def point(self, where: str, at: Point, target: Point, **more: Any) -> None:
        """Write the letters of a place of the form and lead from them to what they name."""
        text = self.labels.of(where)
        if text:
            self.lead(text, at, target, **more)

    def lead(self, text: str, at: Point, target: Point, **more: Any) -> None:
        """Write letters and lead from them to what they name."""
        self.line(at, target, wide=0.6, color=DEEP, zorder=2)
        self.letter(text, at, **more)
