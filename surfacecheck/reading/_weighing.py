"""What must fit together on the scales: readings both ways, tilts, paint."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from surfacecheck.quantities import show, system_of

if TYPE_CHECKING:
    from surfacecheck.model import Surface, Tipped, Weighed
    from surfacecheck.provenance import Value
    from surfacecheck.reading._context import Context

__all__ = ["check_weighed"]

_STEEPEST = math.radians(60.0)
_APART = math.radians(5.0)
"""Least difference of two tilts that tells a height: common practice."""
_NEAREST = 0.02
"""A scale nearer to the pins than this feels friction more than weight [m]: common practice."""


def check_weighed(surface: Surface, context: Context) -> None:
    """Note what the scales cannot have shown.

    Parameters
    ----------
    surface : Surface
        As read so far.
    context : Context
        Takes the faults.
    """
    weighed = surface.weighed
    _both_ways(weighed, "weighed", context)
    _steep(weighed.edge, context)
    arm = weighed.push_behind
    if arm.si is not None and abs(float(arm.si)) < _NEAREST:
        context.wrong(f'"{arm.said}": so near the pins the scale feels nothing but friction; 50 mm or more.', arm.key)
    if weighed.tipped is not None:
        _both_ways(weighed.tipped, "weighed.tipped", context)
        _steep(weighed.tipped.edge, context)
        _two_tilts(weighed.edge, weighed.tipped.edge, context)
    _paint(weighed, context)


def _mean(values: tuple[Value, ...]) -> float | None:
    known = [float(one.si) for one in values if one.si is not None]
    return sum(known) / len(known) if known else None


def _both_ways(one: Weighed | Tipped, path: str, context: Context) -> None:
    up, down = _mean(one.rising), _mean(one.sinking)
    if up is None or down is None or down <= up:
        return
    high, low = (show(value, "force", system_of(one.sinking[0].said)) for value in (down, up))
    message = f"sinking {high} is above rising {low}: friction makes lifting the harder way. Are the two swapped?"
    context.wrong(message, f"{path}.sinking")


def _steep(tilt: Value, context: Context) -> None:
    if tilt.si is not None and abs(float(tilt.si)) >= _STEEPEST:
        message = f'"{tilt.said}" is too steep: hardly any of the moment reaches the scale. '
        context.wrong(message + "Allowed below 60 deg; 10 to 30 deg tells most.", tilt.key)


def _two_tilts(first: Value, second: Value, context: Context) -> None:
    if second.si is not None and abs(float(second.si) - float(first.si or 0.0)) < _APART:
        level = first.said if first.known and not first.absent else "level"
        message = f'"{second.said}" is hardly another tilt than {level}: 5 deg apart or more tell how high the '
        context.wrong(message + "centre of gravity lies.", second.key)


def _paint(weighed: Weighed, context: Context) -> None:
    paint, mass = weighed.paint, weighed.mass
    if weighed.paint_by_area.known and paint.si:
        context.wrong("paint and paint_by_area: the paint is given twice. Keep one.", weighed.paint_by_area.key)
    if paint.si is not None and mass.si is not None and float(paint.si) > float(mass.si):
        message = f'"{paint.said}" of paint on a surface of {mass.said}: paint is a small part of it. '
        context.wrong(message + "Is the unit right?", paint.key)
