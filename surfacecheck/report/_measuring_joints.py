"""Drawings of the measuring sheet, parts B and D to G: horn, rivet, rows, bracket, pin, scales. Not to scale."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.model import Kind
from surfacecheck.report._marks import arrow
from surfacecheck.report._measuring_board import Board, Labels
from surfacecheck.report._measuring_shape import along_the_pins
from surfacecheck.report._places import behind_view
from surfacecheck.report._style import DEEP, MID, PALE, styled

if TYPE_CHECKING:
    from surfacecheck.model import Surface
    from surfacecheck.report._style import Drawing

__all__ = ["bracket_drawing", "horn_drawing", "leg_drawing", "rivet_drawing", "row_drawing", "scale_drawing"]

NOT_TO_SCALE = "Not to scale."


@styled
def horn_drawing(surface: Surface, labels: Labels) -> Drawing:
    """Draw the horn as it lies across the pins."""
    board = Board(labels, 3.05, "Horn", f"{along_the_pins(surface)} {NOT_TO_SCALE}")
    pin, z = 0.9, 1.55
    board.fill((0.8, 2.75), (1.25, 2.75), (1.75, 2.1), (3.9, 2.1), (3.9, 1.0), (1.75, 1.0), (1.25, 0.35), (0.8, 0.35),
               (1.35, 1.0), (1.35, 2.1), color=PALE)  # fmt: skip
    board.pin((pin, z))
    board.line((0.4, z), (1.3, z), wide=0.5, color=DEEP, dashes=(6, 3))
    for bolt in ((1.05, 2.6), (1.05, 0.5)):
        board.dot(bolt, size=8)
    board.ticks(((0.45, 2.6), (1.0, 2.6)), ((pin, 2.95), (pin, z)), ((1.05, 2.95), (1.05, 2.65)))
    board.size("horn.arm", (0.5, z), (0.5, 2.6))
    board.point("horn.bolt_behind", (1.5, 2.92), (0.98, 2.92))
    board.line((0.9, 2.92), (1.05, 2.92), wide=0.8, color=DEEP)
    arrow(board.ax, (1.05, 0.5), (0.1, 0.5), 1.2)
    board.letter(labels.of("horn.leaves"), (0.35, 0.28))
    board.point("horn.plate.bolt_hole", (1.62, 0.5), (1.1, 0.5))
    board.point("horn.plate.bolt_edge", (1.62, 0.2), (1.12, 0.4))
    board.size("horn.plate.narrowest", (1.35, 1.25), (1.75, 1.0), (1.6, 1.3))
    board.point("horn.plate.thickness", (1.85, 2.36), (1.5, 2.36))
    rivets = [(2.3 + 0.55 * i, z + 0.35 * j) for i in range(3) for j in (-1, 1)]
    for rivet in rivets:
        board.dot(rivet, size=7)
    board.ticks(((pin, z), (pin, 0.72)), ((2.3, 1.1), (2.3, 0.72)), ((2.85, 1.1), (2.85, 0.72)))
    board.size("horn.fixed_with.first_behind", (pin, 0.78), (2.3, 0.78), (1.98, 0.78))
    board.size("horn.fixed_with.gap_fore_aft", (2.3, 0.78), (2.85, 0.78), (2.58, 0.58))
    board.size("horn.fixed_with.gap_sideways", (2.58, z - 0.35), (2.58, z + 0.35))
    board.size("horn.fixed_with.edge", (3.4, z + 0.35), (3.9, z + 0.35), (3.65, z + 0.12))
    board.put("one behind the other", (4.0, 2.52), ha="right")
    board.letter(labels.of("horn.fixed_with.fore_aft"), (4.22, 2.52))
    board.put("how many side by side", (4.0, 2.8), ha="right")
    board.letter(labels.of("horn.fixed_with.sideways"), (4.22, 2.8))
    return board.fig


@styled
def rivet_drawing(surface: Surface, labels: Labels) -> Drawing:
    """Draw a rivet in two sheets, cut along its axis."""
    names = [table.partition(".")[2] for table in labels.rows("rivet.diameter")]
    board = Board(labels, 1.85, "Rivet", f"Cut along the rivet; letters: {', '.join(names)}. {NOT_TO_SCALE}")
    x, low = 2.2, 0.55
    for a, b in ((low, low + 0.2), (low + 0.2, low + 0.4)):
        for left, right in ((0.9, x - 0.22), (x + 0.22, 3.5)):
            board.fill((left, a), (right, a), (right, b), (left, b), color=PALE)
    top = low + 0.4
    board.fill((x - 0.19, low - 0.2), (x + 0.19, low - 0.2), (x + 0.19, top), (x - 0.19, top), color=MID)
    turn = np.linspace(0.0, np.pi, 20)
    board.fill(*zip(x + 0.42 * np.cos(turn), top + 0.22 * np.sin(turn), strict=True), color=MID)
    board.ticks(((x - 0.42, top), (x - 0.42, top + 0.5)), ((x + 0.42, top), (x + 0.42, top + 0.5)))
    board.size("rivet.head", (x - 0.42, top + 0.42), (x + 0.42, top + 0.42), (x, top + 0.6))
    board.size("rivet.diameter", (x - 0.19, low - 0.3), (x + 0.19, low - 0.3), (x - 0.62, low - 0.3))
    board.point("rivet.hole", (x + 1.0, low - 0.3), (x + 0.21, low + 0.1))
    board.size("rivet.grip", (0.72, low), (0.72, top), (0.38, low + 0.2))
    board.put("grip: all the sheets", (0.1, top + 0.25), ha="left")
    return board.fig


@styled
def row_drawing(surface: Surface, labels: Labels) -> Drawing:
    """Draw a row along the pins, a row on a rib, and where the edge distance runs."""
    root = "lowest" if surface.kind is Kind.RUDDER else "innermost"
    view = f"Above: along the pins, {root} edge at the left. Below: along a rib, web at the left. {NOT_TO_SCALE}"
    board = Board(labels, 4.05, "Rivet rows", view)
    y = 3.05
    board.fill((0.3, y - 0.4), (4.3, y - 0.4), (4.3, y + 0.3), (0.3, y + 0.3))
    for i in range(6):
        board.dot((0.95 + 0.5 * i, y), size=6)
    board.ticks(((0.3, y + 0.3), (0.3, y + 0.95)), ((0.95, y), (0.95, y + 0.7)), ((3.45, y), (3.45, y + 0.95)))
    _rows(board, "row.from", (0.3, y + 0.5), (0.95, y + 0.5), (1.3, y + 0.52), "left")
    _rows(board, "row.to", (0.3, y + 0.88), (3.45, y + 0.88), (2.3, y + 0.88))
    _rows(board, "row.pitch", (1.95, y - 0.2), (2.45, y - 0.2), (2.2, y - 0.68))
    board.ticks(((1.95, y), (1.95, y - 0.25)), ((2.45, y), (2.45, y - 0.25)), ((2.2, y - 0.2), (2.2, y - 0.5)))
    _rows(board, "row.edge", (3.45, y - 0.4), (3.45, y), (3.75, y - 0.68))
    board.ticks(
        ((3.45, y - 0.2), (3.7, y - 0.5)),
    )
    y = 0.95
    board.line((0.6, y - 0.45), (0.6, y + 0.45), wide=2.2)
    board.fill((0.6, y - 0.18), (4.2, y - 0.18), (4.2, y + 0.18), (0.6, y + 0.18))
    for i in range(5):
        board.dot((1.3 + 0.5 * i, y), size=6)
    board.ticks(((1.3, y), (1.3, y + 0.42)), ((3.3, y), (3.3, y + 0.42)), ((4.2, y), (4.2, y + 0.42)))
    _rows(board, "row.first_behind_web", (0.6, y + 0.35), (1.3, y + 0.35), (0.95, y + 0.58))
    _rows(board, "row.last_before_edge", (3.3, y + 0.35), (4.2, y + 0.35), (3.75, y + 0.58))
    for z in (-0.3, 0.3):
        board.dot((0.6, y + z), size=6)
    _rows(board, "row.gap", (0.38, y - 0.3), (0.38, y + 0.3), (0.2, y))
    for i, (where, word) in enumerate((("row.lines", "lines side by side"), ("row.count", "number on each rib"))):
        text = labels.of(where).replace("\n", " ")
        board.put(word, (0.1, 0.3 - 0.2 * i), ha="left")
        board.letter(text, (1.95, 0.3 - 0.2 * i), ha="left")
    return board.fig


def _rows(
    board: Board,
    where: str,
    start: tuple[float, float],
    end: tuple[float, float],
    at: tuple[float, float],
    side: str = "center",
) -> None:
    board.size(where, start, end, at, ha=side)


@styled
def bracket_drawing(surface: Surface, labels: Labels) -> Drawing:
    """Draw a bracket on the web from behind: rivets by number, edges, leg edge on."""
    view = behind_view(surface)
    board = Board(labels, 3.0, "Bracket", view.words, f"Leg edge on, at the cross. {NOT_TO_SCALE}")
    mid = (1.95, 1.5)
    gap_a, gap_s, edge = 0.6, 0.75, 0.32
    along, side = gap_a + edge, 0.5 * gap_s + edge

    def at(a: float, s: float) -> tuple[float, float]:
        """Place along the pins, and sideways to the right of somebody behind an upright surface."""
        return (mid[0] + view.y_sign * a, mid[1] - s * 1.0) if view.flat else (mid[0] + s, mid[1] + a)

    def box(a: float, s: float, leg: float = 0.0) -> list[tuple[float, float]]:
        return [at(leg + i * a, j * s) for i, j in ((-1, -1), (1, -1), (1, 1), (-1, 1))]

    web = side + 0.3
    for one in (-web, web):
        board.line(at(-1.3, one), at(1.3, one), wide=1.2, color=DEEP)
    board.fill(*box(along, side), color=PALE)
    for column in (-1, 1):
        for i in range(3):
            place = at(gap_a * (i - 1), 0.5 * gap_s * column)
            board.dot(place, size=13)
            board.put(str(i + 1 + (3 if column > 0 else 0)), place, zorder=7)
    leg = 0.3
    board.fill(*box(0.05, side - 0.1, leg), color=MID)
    cross = at(leg, 0.0)
    board.ax.plot(*cross, marker="+", markersize=11, color="black", zorder=6)
    first, second, out = 0.5 * gap_s, -0.5 * gap_s, web + 0.25
    board.ticks((at(-gap_a, first), at(-gap_a, out)), (at(0.0, first), at(0.0, out)))
    board.size("bracket.gap_along", at(-gap_a, out - 0.05), at(0.0, out - 0.05))
    low = -along - 0.22
    board.ticks((at(-gap_a, second), at(low, second)), (at(-gap_a, first), at(low, first)))
    board.size("bracket.gap_sideways", at(low + 0.05, second), at(low + 0.05, first))
    board.ticks((at(0.0, -side - 0.3), at(0.0, -out - 0.1)), (at(leg, -side), at(leg, -out - 0.1)))
    board.size("bracket.leg_off_rivets", at(0.0, -out), at(leg, -out), at(leg + 0.3, -out))
    board.size("bracket.edge", at(gap_a, 0.5 * gap_s), at(gap_a, side), at(along + 0.25, side + 0.1))
    board.ticks((at(gap_a, 0.5 * gap_s + 0.2), at(along + 0.1, side + 0.05)))
    x = 3.3
    rest = (("bracket.along", "along"), ("bracket.sideways", "sideways"), ("bracket.legs", "legs"),
            ("bracket.on_face", "face"))  # fmt: skip
    for i, (where, word) in enumerate(rest):
        y = 2.85 - 0.22 * i if not view.flat else 0.9 - 0.22 * i
        board.letter(labels.of(where), (x + 0.05, y), ha="left")
        board.put(word, (x + 0.45, y), ha="left")
    return board.fig


@styled
def leg_drawing(surface: Surface, labels: Labels) -> Drawing:
    """Draw the leg flat, with the pin end on; and cut along the pin."""
    view = "Left: the leg flat, pin end on. Right: cut along the pin."
    board = Board(labels, 2.4, "Leg and pin", view, NOT_TO_SCALE)
    web, pin, z = 0.35, (1.75, 1.2), 1.2
    board.line((web, 0.3), (web, 2.1), wide=2.2)
    board.fill((web, z - 0.6), (pin[0] + 0.3, z - 0.35), (pin[0] + 0.3, z + 0.35), (web, z + 0.6), color=PALE)
    board.dot(pin, size=15)
    board.ticks(((pin[0], z), (pin[0], 0.55)), ((pin[0] + 0.3, z - 0.35), (pin[0] + 0.3, 0.55)))
    board.size("bracket.pin.edge", (pin[0], 0.6), (pin[0] + 0.3, 0.6), (pin[0] + 0.15, 0.38))
    board.ticks(((pin[0], z + 0.36), (2.4, z + 0.36)), ((pin[0], z - 0.36), (2.4, z - 0.36)))
    board.size("bracket.pin.wide", (2.3, z - 0.36), (2.3, z + 0.36))
    board.size("bracket.leg_wide", (0.62, z - 0.57), (0.62, z + 0.57))
    board.point("bracket.pin.diameter", (1.45, 2.05), (pin[0], z + 0.1))
    board.point("bracket.bend_inside", (0.75, 2.2), (web + 0.04, z + 0.62))
    x = 3.45
    for a, b, shade in ((0.35, 0.7, MID), (0.82, 1.2, PALE), (1.32, 1.67, MID)):
        for left, right in ((2.85, x - 0.14), (x + 0.14, 4.05)):
            board.fill((left, a), (right, a), (right, b), (left, b), color=shade)
    board.fill((x - 0.13, 0.25), (x + 0.13, 0.25), (x + 0.13, 1.8), (x - 0.13, 1.8), color="white")
    board.size("bracket.thickness", (2.95, 0.82), (2.95, 1.2), (2.62, 1.01))
    board.size("bracket.pin.turns_on", (4.12, 0.82), (4.12, 1.2), (4.3, 1.01))
    board.point("bracket.pin.gap", (4.25, 1.5), (3.95, 1.26))
    board.point("bracket.pin.held", (4.2, 0.3), (3.95, 0.5))
    board.put("fin", (2.62, 1.5))
    board.put("leg", (2.62, 0.8))
    return board.fig


@styled
def scale_drawing(surface: Surface, labels: Labels) -> Drawing:
    """Draw the surface level on its pins, its trailing edge on a scale."""
    board = Board(labels, 1.75, "On the scale", f"Level, free on its pins; seen along them. {NOT_TO_SCALE}")
    z = 0.95
    board.fill((0.55, z), (0.8, z + 0.16), (1.3, z + 0.17), (4.1, z), (1.3, z - 0.17), (0.8, z - 0.16))
    board.pin((1.1, z))
    board.fill((3.35, 0.1), (4.05, 0.1), (4.05, 0.38), (3.35, 0.38), color=PALE)
    board.line((3.7, 0.38), (3.7, z - 0.04), wide=2.0)
    board.letter(labels.of("weighed.tail_push"), (3.7, 0.24))
    board.ticks(((1.1, z), (1.1, z + 0.6)), ((3.7, z), (3.7, z + 0.6)))
    board.size("weighed.push_behind", (1.1, z + 0.5), (3.7, z + 0.5))
    board.dot((0.45, z), "s", 12)
    board.point("balance_mass.mass", (0.25, z + 0.6), (0.42, z + 0.1))
    board.ticks(((0.45, z), (0.45, z - 0.5)), ((1.1, z), (1.1, z - 0.5)))
    board.size("balance_mass.ahead", (0.45, z - 0.42), (1.1, z - 0.42), (0.78, z - 0.62))
    return board.fig
