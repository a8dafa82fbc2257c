"""How a surface lies on its pins and on a scale, level and tipped: the drawing of the weighing sheet."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from matplotlib.patches import Arc

from surfacecheck.report._marks import arrow
from surfacecheck.report._measuring_board import Board, Labels
from surfacecheck.report._style import DEEP, INK, PALE, styled

if TYPE_CHECKING:
    from surfacecheck.report._style import Drawing

__all__ = ["bench_drawing"]

_TALL = 2.75
_TIPPED = math.radians(18.0)


@styled
def bench_drawing() -> Drawing:
    """Draw the surface on the bench, seen along its pins: level, and with its trailing edge high.

    Returns
    -------
    Drawing
        Not to scale; r, F and the tilt are the letters of the sheet.
    """
    board = Board(Labels(()), _TALL, "On the bench", "Seen along the pins, free to turn on them. Not to scale.")
    _level(board, 2.2)
    _tipped(board, 0.4)
    return board.fig


def _surface(board: Board, pin: tuple[float, float], tilt: float, length: float) -> tuple[float, float]:
    """Draw a wedge on a pin; give the place of its trailing edge."""
    cos, sin = math.cos(tilt), math.sin(tilt)

    def at(x: float, z: float) -> tuple[float, float]:
        return pin[0] + x * cos - z * sin, pin[1] + x * sin + z * cos

    board.fill(at(-0.35, 0.0), at(-0.2, 0.1), at(0.15, 0.12), at(length, 0.0), at(0.15, -0.12), at(-0.2, -0.1))
    board.pin(pin)
    board.line((pin[0], pin[1] - 0.06), (pin[0], pin[1] - 0.3), wide=2.2, color=DEEP)
    board.line((pin[0] - 0.14, pin[1] - 0.3), (pin[0] + 0.14, pin[1] - 0.3), wide=2.2, color=DEEP)
    return at(length - 0.25, 0.0)


def _scale(board: Board, at: tuple[float, float], floor: float) -> None:
    x, z = at
    board.fill((x - 0.3, floor), (x + 0.3, floor), (x + 0.3, floor + 0.2), (x - 0.3, floor + 0.2), color=PALE)
    board.line((x, floor + 0.2), (x, z - 0.03), wide=2.0)


def _level(board: Board, z: float) -> None:
    pin = (1.0, z)
    rest = _surface(board, pin, 0.0, 2.9)
    _scale(board, rest, z - 0.42)
    board.ticks((pin, (pin[0], z + 0.45)), (rest, (rest[0], z + 0.45)))
    board.span("r", (pin[0], z + 0.38), (rest[0], z + 0.38))
    board.letter("F", (rest[0], z - 0.32))
    arrow(board.ax, (3.98, z - 0.02), (3.98, z + 0.3), 1.2)
    arrow(board.ax, (4.28, z + 0.3), (4.28, z - 0.02), 1.2)
    board.put("rising", (3.95, z + 0.42), color=INK)
    board.put("sinking", (4.2, z - 0.16), color=INK)


def _tipped(board: Board, z: float) -> None:
    pin = (1.0, z)
    rest = _surface(board, pin, _TIPPED, 2.9)
    _scale(board, rest, z - 0.3)
    board.line(pin, (3.0, z), wide=0.6, color=DEEP)
    board.ax.add_patch(Arc(pin, 2.6, 2.6, theta1=0.0, theta2=math.degrees(_TIPPED), color=DEEP, linewidth=0.8))
    board.letter("tilt", (2.42, z + 0.17))
    board.letter("F", (rest[0], z - 0.2))
