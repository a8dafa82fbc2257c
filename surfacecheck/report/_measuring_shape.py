"""Drawings of the measuring sheet, part B and C: planform, section, bends, line of the pins. Not to scale."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.model import Kind
from surfacecheck.report._marks import arrow, spread_labels
from surfacecheck.report._measuring_board import Board, Labels
from surfacecheck.report._places import side_view
from surfacecheck.report._style import DEEP, INK, LINE, MID, styled

if TYPE_CHECKING:
    from surfacecheck.model import Surface
    from surfacecheck.report._style import Drawing

__all__ = ["along_the_pins", "bends_drawing", "pins_drawing", "planform_drawing", "section_drawing"]

NOT_TO_SCALE = "Not to scale."
_LOW, _HIGH = 1.05, 4.3


@styled
def planform_drawing(surface: Surface, labels: Labels) -> Drawing:
    """Draw the surface from the side: places along the pins, and what is ahead and behind of them."""
    board = Board(labels, 4.75, "Outline, hinges, ribs", side_view(surface), NOT_TO_SCALE)
    x_fin, x_nose, x_pin, x_web, x_edge = (1.0, 0.75), (1.7, 1.75), (2.1, 2.1), (2.5, 2.5), (3.75, 3.2)
    ends = (_LOW, _HIGH)
    board.fill(*zip(x_nose, ends, strict=True), *zip(x_edge[::-1], ends[::-1], strict=True), x_y(x_nose, 0))
    board.line(x_y(x_web, 0), x_y(x_web, 1), wide=2.0)
    board.line((x_pin[0], _LOW - 0.12), (x_pin[0], _HIGH + 0.12), wide=0.8, color=DEEP, dashes=(9, 3, 2, 3))
    if surface.kind is Kind.RUDDER:
        board.line((1.0, _LOW), (1.35, _HIGH), wide=0.8, color=MID)
        board.put("fin", (1.42, 3.45))
    for row, (where, a, b) in enumerate(
        (
            ("outline.at.nose_ahead", x_nose[0], x_pin[0]),
            ("outline.at.web_behind", x_pin[0], x_web[0]),
            ("outline.at.fin_ahead", x_fin[0], x_pin[0]),
            ("outline.at.edge_behind", x_pin[0], x_edge[0]),
        )
    ):
        y = 0.78 if row < 2 else 0.46
        beside = {0: (x_nose[0] - 0.22, y), 1: (x_web[0] + 0.22, y)}.get(row)
        board.ticks(((a, _LOW), (a, y - 0.05)), ((b, _LOW), (b, y - 0.05)))
        board.size(where, (a, y), (b, y), beside)
    root, tip = ("lowest edge", "top") if surface.kind is Kind.RUDDER else ("innermost edge", "outer end")
    board.put(f"0 is the {root}; the same again at the {tip}", (2.25, 0.12))
    _heights(board, surface)
    return board.fig


def x_y(xs: tuple[float, float], i: int) -> tuple[float, float]:
    """Give an end of a line."""
    return xs[i], (_LOW, _HIGH)[i]


def _heights(board: Board, surface: Surface) -> None:
    """Write the places along the pins: hinges and horn at the left, ribs at the right."""
    labels = board.labels
    hinges = labels.rows("hinge.up")
    names: list[tuple[str, float]] = []
    for i, (table, label) in enumerate(hinges.items()):
        y = _LOW + (_HIGH - _LOW) * (0.1 + 0.82 * i / max(len(hinges) - 1, 1))
        board.pin((2.1, y))
        names.append((f"{table.partition('.')[2]} {label}", y))
    labels.among(hinges)
    cut = 2.1, _LOW + (_HIGH - _LOW) * 0.92
    if labels.rows("sheet.nose_skin.cut_at_hinge"):
        for y in (cut[1] - 0.14, cut[1] + 0.14):
            board.line((1.72, y), (1.95, y), wide=0.9)
        board.size("sheet.nose_skin.cut_at_hinge", (1.82, cut[1] - 0.14), (1.82, cut[1] + 0.14), (1.5, cut[1] + 0.2))
    if labels.rows("horn.up"):
        board.line((1.95, _LOW), (2.75, _LOW), wide=4.0)
        names.append((f"horn {labels.of('horn.up')}", _LOW))
    spread = spread_labels([y for _, y in names], 1.25 * LINE, _LOW, _HIGH)
    for (name, y), place in zip(names, spread, strict=True):
        board.line((0.95, place), (2.05, y), wide=0.6, color=DEEP, zorder=2)
        board.letter(name, (0.06, place), ha="left")
    ribs = labels.of("sheet.ribs.up")
    for share in (0.0, 0.3, 0.65, 1.0) if ribs else ():
        y = _LOW + share * (_HIGH - _LOW)
        board.line((1.75, y), (3.75 - 0.55 * share, y), wide=0.8, color=DEEP, zorder=1)
    if ribs:
        board.lead(f"ribs\n{ribs}", (4.1, 2.35), (3.45, _LOW + 0.3 * (_HIGH - _LOW)))
    board.ticks(((3.75, _LOW), (4.45, _LOW)), ((3.2, _HIGH), (4.45, _HIGH)))
    board.size("outline.at.up", (4.38, _LOW), (4.38, _HIGH), (4.3, 3.3))


def along_the_pins(surface: Surface) -> str:
    """Say how a section is seen so that left (top of a flat half) is up and aft is right."""
    way = "from the root to the tip" if surface.left_is > 0 else "from the tip to the root"
    return f"Seen along the pins, {way}: aft right, {surface.said('left')} up."


@styled
def section_drawing(surface: Surface, labels: Labels) -> Drawing:
    """Draw a section: skins, nose, spar, lap."""
    board = Board(labels, 2.6, "Section", f"{along_the_pins(surface)} {NOT_TO_SCALE}")
    turn = np.linspace(0.5 * np.pi, 1.5 * np.pi, 40)
    x, z, deep = 1.5, 1.25, 0.55
    nose = list(zip(x + 0.75 * np.cos(turn), z + deep * np.sin(turn), strict=True))
    board.line(*nose)
    board.line((x, z - deep), (x, z + deep), wide=2.2)
    for side in (1.0, -1.0):
        board.line((x, z + side * deep), (4.1, z + side * 0.03), wide=1.2)
        board.line((x, z + side * (deep - 0.04)), (x + 0.45, z + side * (deep - 0.13)), wide=2.2)
    board.line((4.1, z + 0.03), (4.35, z + 0.01), wide=1.2)
    board.line((4.1, z - 0.03), (4.35, z - 0.02), wide=1.2)
    board.line((0.55, z), (2.6, z), wide=0.5, color=DEEP, dashes=(6, 3))
    pin = (1.12, z + 0.2)
    board.pin(pin)
    board.size("outline.pins_off_middle", (pin[0], z), pin, (1.33, z + 0.1))
    board.ticks(((x, z + deep), (2.25, z + deep)), ((x, z - deep), (2.25, z - deep)))
    board.size("outline.at.spar_depth", (2.18, z - deep), (2.18, z + deep), (2.18, z - 0.2))
    board.ticks(((4.1, z - 0.05), (4.1, z - 0.4)), ((4.35, z - 0.05), (4.35, z - 0.4)))
    board.size("outline.lap", (4.1, z - 0.35), (4.35, z - 0.35), (4.22, z - 0.55))
    board.point("outline.trailing_edge", (4.1, z + 0.5), (4.22, z + 0.02))
    around = list(zip(x + 0.92 * np.cos(turn), z + (deep + 0.14) * np.sin(turn), strict=True))
    board.line(*around, wide=0.8, color=DEEP)
    board.letter(labels.of("outline.at.nose_around"), (0.58, z))
    sides = {"left": (3.0, 2.05), "right": (3.0, 0.42)}
    for name, at in sides.items():
        board.point(f"sheet.{name}_skin.thickness", at, (2.8, z + np.sign(at[1] - z) * 0.29))
        board.put(surface.said(f"{name}_skin").replace("_", " "), (at[0] + 0.28, at[1]), ha="left")
    board.point("sheet.nose_skin.thickness", (0.75, 0.2), (0.98, z - 0.42))
    board.put("nose skin", (0.98, 0.2), ha="left")
    return board.fig


@styled
def bends_drawing(surface: Surface, labels: Labels) -> Drawing:
    """Draw the bend of the spar and of a rib."""
    board = Board(labels, 2.05, "Bends of spar and rib", f"Cut across the bend. {NOT_TO_SCALE}")
    for name, x, lip in (("spar", 0.75, True), ("ribs", 3.0, False)):
        top, t = 1.45, 0.14
        turn = np.linspace(np.pi, 0.5 * np.pi, 12)
        outer = [(x + 0.3 + 0.3 * np.cos(a), top - 0.3 + 0.3 * np.sin(a)) for a in turn]
        inner = [(x + 0.3 + 0.16 * np.cos(a), top - 0.3 + 0.16 * np.sin(a)) for a in turn[::-1]]
        end = x + 1.0
        if lip:
            board.fill((x, 0.25), *outer, (end, top), (end, top - 0.45), (end - t, top - 0.45), (end - t, top - t),
                       *inner, (x + t, 0.25), color=MID)  # fmt: skip
        else:
            board.fill((x, 0.25), *outer, (end, top), (end, top - t), *inner, (x + t, 0.25), color=MID)
        board.put({"spar": "spar", "ribs": "rib"}[name], (x + 0.55, 0.3))
        board.ticks(((x, top - 0.25), (x, top + 0.3)), ((end, top), (end, top + 0.3)))
        board.size(f"sheet.{name}.flange", (x, top + 0.25), (end, top + 0.25))
        board.point(f"sheet.{name}.thickness", (x - 0.35, 0.6), (x + 0.05, 0.6))
        board.point(f"sheet.{name}.bend_inside", (x + 0.55, 0.85), (x + 0.19, top - 0.19))
        if lip:
            board.size("sheet.spar.lip", (end + 0.14, top - 0.45), (end + 0.14, top), (end + 0.38, top - 0.22))
    return board.fig


@styled
def pins_drawing(surface: Surface, labels: Labels) -> Drawing:
    """Draw the thread along the pins from two sides, and the swing."""
    low, high = 0.35, 2.2
    side, aft = surface.said("left"), "behind"
    view = "A thread through the outer pins, root below: from behind, and from the side; and the swing, along the pins."
    board = Board(labels, 2.6, "Line of the pins", view, NOT_TO_SCALE)
    for x, off, gives, word in (
        (0.85, "hinge.out_of_line", "hinge.gives_sideways", side),
        (2.05, "hinge.out_of_line_aft", "hinge.gives_fore_aft", aft),
    ):
        board.line((x, low), (x, high), wide=0.8, color=DEEP)
        toward = -1.0 if word == side else 1.0
        at = (x + toward * 0.22, 1.25)
        for pin in ((x, low), at, (x, high)):
            board.pin(pin)
        board.ticks((at, (at[0], 0.95)))
        board.size(off, (at[0], 1.0), (x, 1.0), (x + toward * 0.11, 0.76))
        arrow(board.ax, (x + toward * 0.62, 1.6), (x + toward * 0.1, 1.6), 1.2)
        board.letter(labels.of(gives), (x + toward * 0.45, 1.82))
        board.put(word, (x + toward * 0.42, 0.42))
    bend = np.linspace(0.0, 1.0, 20)
    if labels.rows("hinge.fin_bends"):
        board.line(*zip(0.85 + 0.3 * bend**2, low + (high - low) * bend, strict=True), wide=0.9, dashes=(4, 2))
        board.point("hinge.fin_bends", (1.4, 2.42), (1.12, high - 0.05))
    pin = (3.05, 1.25)
    board.pin(pin)
    for share, where in ((0.5, "outline.swings_left"), (-0.5, "outline.swings_right")):
        end = (pin[0] + 1.15 * np.cos(share), pin[1] + 1.15 * np.sin(share))
        board.line(pin, end, wide=0.9, dashes=(4, 2))
        board.letter(labels.of(where), (pin[0] + 0.98, pin[1] + 0.5 * np.sign(share) * 0.62))
        board.put(surface.said(where.rpartition("_")[2]), (pin[0] + 0.7, pin[1] + np.sign(share) * 0.82))
    board.line(pin, (4.2, 1.25), wide=1.6, color=INK)
    return board.fig
