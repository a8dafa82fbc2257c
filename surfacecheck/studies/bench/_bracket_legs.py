"""The legs of a bracket as walls beside its own rivets."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.provenance import plain
from surfacecheck.studies.bench._seats import known
from surfacecheck.studies.bench._wall import Wall

if TYPE_CHECKING:
    from surfacecheck.model import Bracket, Hinge, Surface
    from surfacecheck.studies.bench._seats import Line

__all__ = ["leg_walls"]


def leg_walls(surface: Surface, hinge: Hinge, bracket: Bracket, line: Line) -> tuple[tuple[Wall, ...], tuple[str, ...]]:
    """Give the legs of a bracket that stand beside a column of its rivets.

    Parameters
    ----------
    surface : Surface
        For its words.
    hinge : Hinge
        Where the bracket sits.
    bracket : Bracket
        As described.
    line : Line
        A column of rivets along the pins.

    Returns
    -------
    walls : tuple of Wall
        One or two legs [m].
    missing : tuple of str
        Keys that hide them.
    """
    key = f"bracket.{bracket.name}"
    wanted = {
        "thickness": bracket.thickness,
        "bend_inside": bracket.bend_inside,
        "leg_off_rivets": bracket.leg_off_rivets,
    }
    if bracket.legs == 2:
        wanted["legs_apart"] = bracket.legs_apart
    missing = [f"{key}.{name}" for name, value in wanted.items() if not (value.known or value.absent)]
    if bracket.legs is None:
        missing.append(f"{key}.legs")
    middle = known(hinge.up)
    if line.at is None or middle is None:
        missing.append("where these rivets are")
    if missing or line.at is None or middle is None:
        return (), tuple(missing)
    off = line.at - middle - (known(bracket.leg_off_rivets) or 0.0)
    thick, bend, high = plain(bracket.thickness), known(bracket.bend_inside) or 0.0, _height(surface, hinge, bracket)
    up, down = surface.said("up"), surface.said("down")
    if bracket.legs == 1:
        toward = down if float(np.mean(off)) > 0.0 else up
        return (Wall("leg of the bracket", toward, np.abs(off) + 0.5 * thick, thick, bend, high),), ()
    half = 0.5 * plain(bracket.legs_apart)
    legs = ((up, off), (down, -off))
    return tuple(
        Wall("leg of the bracket", word, np.where(at <= half, half + thick - at, at - half), thick, bend, high)
        for word, at in legs
    ), ()


def _height(surface: Surface, hinge: Hinge, bracket: Bracket) -> float:
    """How far a leg stands out of the web: to the pin and its edge; higher than any tool where that is not known."""
    places = [p for p in surface.outline.places if p.up.known and p.web_behind.known]
    edge, up = known(bracket.pin.edge), known(hinge.up)
    if not places or edge is None or up is None:
        return math.inf
    return abs(float(np.interp(up, [plain(p.up) for p in places], [plain(p.web_behind) for p in places]))) + edge
