"""A doubler over a place of the web."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from surfacecheck.changes._done import Done
from surfacecheck.errors import SurfaceError
from surfacecheck.model import Doubler
from surfacecheck.provenance import Basis, Source, Value, numbers
from surfacecheck.quantities import parse

if TYPE_CHECKING:
    from surfacecheck.model import Surface
    from surfacecheck.places import Spot

__all__ = ["doubler_over"]

NAME = "doubler_tried"


def doubler_over(surface: Surface, spot: Spot, thickness: str, long: str, wide: str) -> Done:
    """Lay a doubler of the web's metal over a place, half of it to either side.

    Parameters
    ----------
    surface : Surface
        With everything that happened.
    spot : Spot
        A hinge, its bracket, or a place of the spar.
    thickness, long, wide : str
        As typed.

    Returns
    -------
    Done
        With the doubler in web and sections; its own rivets are not laid out.

    Raises
    ------
    SurfaceError
        At a place that is not on the web.
    """
    y = _up(surface, spot)
    source = Source(Basis.AS_SAID, "option")
    sizes = [Value(float(parse(one, "length")[0]), one, source) for one in (thickness, long, wide)]
    half = 0.5 * float(numbers(sizes[1]))
    ends = [max(y - half, _ends(surface)[0]), min(y + half, _ends(surface)[1])]
    start, to = (Value(end, f"{end * 1e3:.0f} mm", source) for end in ends)
    doubler = Doubler("spar web", sizes[0], surface.sheet.spar.alloy, start, to, sizes[2], NAME)
    doublers = {**surface.sheet.doublers, NAME: doubler}
    told = f"doubler {thickness} thick, {long} long, {wide} wide on the web; its own rivets are not laid out here"
    done = replace(surface, sheet=replace(surface.sheet, doublers=doublers))
    return Done(done, spot.names, (f"{spot.words[0]}: {told}",), settles=False)


def _up(surface: Surface, spot: Spot) -> float:
    if spot.sort in {"bracket", "hinge"}:
        return float(numbers(surface.hinges[spot.owner].up))
    if spot.sort == "part" and spot.owner == "spar" and spot.side != "flange" and spot.station is not None:
        return spot.station.y
    message = f"doubler: on the web of the spar, at a bracket or a place of the web, not at {spot.words[0]}"
    raise SurfaceError(message)


def _ends(surface: Surface) -> tuple[float, float]:
    ups = [float(numbers(place.up)) for place in surface.outline.places if place.up.known]
    return min(ups), max(ups)
