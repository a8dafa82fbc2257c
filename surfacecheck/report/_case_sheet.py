"""What stands beside the load cases: design speeds, torques of a tube, pins of a turned surface, how far it moves."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.assessment import case_words
from surfacecheck.loads import speed_rows, tube_torques
from surfacecheck.model import Kind
from surfacecheck.quantities import show, to_unit
from surfacecheck.tables import Table

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from surfacecheck.assessment import Assessment, Worst
    from surfacecheck.quantities import System

    Array = NDArray[np.float64]

__all__ = ["COMPARE", "deflection_table", "speed_table", "tube_table", "turned_table"]

COMPARE = (
    "At limit the surface must move freely: compare the slope and twist at the hinges with the play of pin and bush, "
    "and the way the tip goes with the gap to the fin or wing (14 CFR 23.305(a) and 23.683, Amdt 23-62: deflection "
    "must not interfere, nothing may jam or rub). Gaps and play are yours to measure. Fin, wing and brackets give here "
    "only as far as the file says."
)
"""What the table of deflections is for."""
_LEAST = {"length": 1e-6, "angle": 1.7e-5}
"""What is shown as none: under 0.001 mm, under 0.001 deg [m], [rad]."""


def speed_table(assessment: Assessment, system: System) -> Table | None:
    """Give the least design speeds of the rule beside those that are typed; None where the load is not by that rule."""
    found = speed_rows(assessment.surface)
    rows = []
    for one in found:
        least = show(float(np.max(one.least)), "speed", system) if one.least is not None else f"needs {one.needs}"
        typed = one.typed.said if one.typed is not None else "not given"
        rows.append((f"{one.symbol}, {one.name}", typed, least, one.remark, str(one.source)))
    heads = ("speed", "given", "least by the rule", "look at", "text")
    note = "equivalent airspeed; shown beside the load, which goes by load factor and wing loading alone"
    return Table(heads, tuple(rows), "lrrll", note=note) if rows else None


def tube_table(assessment: Assessment, system: System) -> Table | None:
    """Give what both halves put into one torque tube; None where no tube goes on to another half."""
    found = tube_torques(assessment.surface, assessment.cases)
    rows = []
    for one in found:
        torques = (float(np.max(np.abs(torque))) for torque in (one.own, one.other, one.both))
        own, other, both = (show(torque, "torque", system) for torque in torques)
        rows.append((one.case, own, f"{other} ({one.share:.0%})".replace("%", " %"), both, str(one.source)))
    heads = ("case", "this half", "other half, unsymmetric", "both, all of it", "share by")
    note = "at limit, of the airload; the other half taken as the mirror image of this one"
    return Table(heads, tuple(rows), "lrrrl", note=note) if rows else None


def _words(assessment: Assessment) -> tuple[tuple[str, str], tuple[str, str], str]:
    """Words for plus and minus of z and x, and for the place along the pins."""
    surface = assessment.surface
    left, right = (surface.said(word) for word in ("left", "right"))
    z = (left, right) if surface.left_is > 0 else (right, left)
    return z, ("aft", "fwd"), "up" if surface.kind is Kind.RUDDER else "out"


def turned_table(assessment: Assessment, system: System) -> Table | None:
    """Give the pin loads in the axes of the fixed bracket, at the greatest swing; None while that is unknown."""
    outline = assessment.surface.outline
    swings = {float(v.si) for v in (outline.swings_left, outline.swings_right) if isinstance(v.si, float)}
    if not swings or not assessment.pins:
        return None
    z, x, up = _words(assessment)

    def load(worst: Worst, words: tuple[str, str]) -> str:
        word = words[0] if worst.value > 0.0 else words[1]
        return f"{show(abs(worst.value), 'force', system)} {word}" if abs(worst.value) > 1e-3 else "-"

    rows = []
    for pin in reversed(assessment.pins):
        both = (pin.turned_sideways, pin.turned_fore_aft)
        largest = max(both, key=lambda one: abs(one.value))
        loads = (load(both[0], z), load(both[1], x))
        rows.append((pin.name, show(pin.up, "length", system), *loads, case_words(largest.case)))
    heads = ("pin", up, "sideways of the bracket", "fore-aft of the bracket", "case of the largest")
    note = f"greatest swing {show(max(swings), 'angle', system)}, to either side; the load turns with the surface"
    return Table(heads, tuple(rows), "lrrrl", note=note)


def deflection_table(assessment: Assessment, system: System) -> Table | None:
    """Give displacement, slope and twist at ends and hinges at limit; None while the stiffness is not known."""
    moved = assessment.deflections
    if moved is None:
        return None
    span = assessment.span
    counts = ~assessment.effects.control[: len(assessment.case_titles)]
    cases = np.flatnonzero(counts if counts.any() else ~counts)
    at_hinge = {b: h for h, b in enumerate(span.hinges.values())}
    names = {b: name for name, b in span.hinges.items()}
    z, x, up = _words(assessment)
    rows = []
    for b in sorted({span.root, span.tip, *at_hinge}, reverse=True):
        place = float(span.breaks[b])
        point = int(np.argmin(np.abs(span.y - place)))
        h = at_hinge.get(b)
        w, u, slope_w, slope_u = (
            line[cases, point] if h is None else held[cases, h]
            for line, held in (
                (moved.w, moved.hinge_w),
                (moved.u, moved.hinge_u),
                (moved.slope_w, moved.hinge_slope_w),
                (moved.slope_u, moved.hinge_slope_u),
            )
        )
        twist = moved.twist[cases, point]
        name = f"{names[b]} hinge" if b in names else ("tip" if b == span.tip else "root")
        ways = [_way(way, words, "length", system) for way, words in ((w, z), (u, x))]
        turns = [_way(turn, ("", ""), "angle", system) for turn in (slope_w, slope_u, twist)]
        rows.append((name, show(place, "length", system), ways[0], turns[0], ways[1], turns[1], turns[2]))
    heads = ("place", up, "sideways", "slope sideways", "fore-aft", "slope fore-aft", "twist")
    held_at = "the horn" if span.horn is not None else "the root"
    note = f"at limit, each the worst of the cases read for the whole surface; - is next to none; twist from {held_at}"
    twist = np.abs(moved.twist[cases])
    largest = int(np.unravel_index(int(np.argmax(twist)), twist.shape)[0])
    if twist.max() > _LEAST["angle"]:
        note += f"; largest by: {case_words(assessment.case_titles[int(cases[largest])])}"
    return Table(heads, tuple(rows), "lrrrrrr", note=note)


def _way(values: Array, words: tuple[str, str], quantity: str, system: System) -> str:
    worst = float(values[int(np.argmax(np.abs(values)))])
    if abs(worst) < _LEAST[quantity]:
        return "-"
    if quantity == "angle":
        return f"{to_unit(abs(worst), 'deg'):.3f} deg"
    return f"{show(abs(worst), quantity, system, 2)} {words[0] if worst > 0.0 else words[1]}"
