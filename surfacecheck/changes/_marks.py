"""Corners, nicks, thin spots and holes of sheets."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.changes._asked import one_of, said
from surfacecheck.changes._done import Done
from surfacecheck.errors import SurfaceError
from surfacecheck.model import Mark, WebHole
from surfacecheck.provenance import Basis, Source, Value, numbers
from surfacecheck.quantities import show

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from surfacecheck.model import Happened, Surface
    from surfacecheck.places import Spot

    Array = NDArray[np.float64]

__all__ = ["check_has_walls", "check_within", "corner_sharp", "dent_filed", "depth_at", "lightening_hole", "nick_filed"]

WHERE = "spar flange, at 325 mm"


def corner_sharp(surface: Surface, spot: Spot, event: Happened, *, fully: bool) -> Done:
    """Make the radius of an inside corner smaller: a stress concentration, stated beside the margins.

    Parameters
    ----------
    surface : Surface
        As it is so far.
    spot : Spot
        A place of the spar or of a skin.
    event : Happened
        ``radius``, and ``depth`` of the cut it stands at the bottom of.
    fully : bool
        Not asked: it is a statement [-].

    Returns
    -------
    Done
        With a notch at that place.
    """
    del fully
    said(event, "radius", "depth", surface=surface)
    told = f"corner of radius {event.radius.said}, {event.depth.said} from the edge"
    return _marked(surface, spot, event, Mark("notch", "", _up(spot), depth=event.depth, radius=event.radius), told)


def nick_filed(surface: Surface, spot: Spot, event: Happened, *, fully: bool) -> Done:
    """Take a nick's depth off the width of a flange or a skin's edge.

    Parameters
    ----------
    surface : Surface
        As it is so far.
    spot : Spot
        A place of the spar or of a skin.
    event : Happened
        ``depth``; ``radius`` at its bottom after filing.
    fully : bool
        Not asked: it is worked out [-].

    Returns
    -------
    Done
        With a notch at that place.
    """
    del fully
    said(event, "depth", surface=surface)
    told = f"nick {event.depth.said} deep"
    if event.radius.known:
        told += f", filed to a radius of {event.radius.said}"
    return _marked(surface, spot, event, Mark("notch", "", _up(spot), depth=event.depth, radius=event.radius), told)


def dent_filed(surface: Surface, spot: Spot, event: Happened, *, fully: bool) -> Done:
    """Make a sheet thinner at one place, where a dent or a scratch was dressed out.

    Parameters
    ----------
    surface : Surface
        As it is so far.
    spot : Spot
        A place of the spar or of a skin.
    event : Happened
        ``thickness`` that is left.
    fully : bool
        Not asked: it is worked out [-].

    Returns
    -------
    Done
        With a thin spot at that place.
    """
    del fully
    said(event, "thickness", surface=surface)
    one_of(event, spot, ("part",), WHERE, surface)
    sheet = getattr(surface.sheet, spot.owner, None) if spot.owner in {"spar", "left_skin", "right_skin"} else None
    if sheet is not None and sheet.thickness.known and (numbers(event.thickness) > numbers(sheet.thickness)).any():
        message = (
            f"{event.thickness.said} left is more than the sheet has ({sheet.thickness.said}): what is left is meant"
        )
        raise SurfaceError(message)
    told = f"{event.thickness.said} of its thickness is left"
    return _marked(surface, spot, event, Mark("thin", "", _up(spot), left=event.thickness), told)


def lightening_hole(surface: Surface, spot: Spot, event: Happened, *, fully: bool) -> Done:
    """Put a hole into the web of the spar, or make the one that is there larger.

    Parameters
    ----------
    surface : Surface
        As it is so far.
    spot : Spot
        A place of the spar.
    event : Happened
        ``across``.
    fully : bool
        Not asked: it is worked out [-].

    Returns
    -------
    Done
        With that hole in the list of the web's holes.
    """
    del fully
    one_of(event, spot, ("part",), "spar web, at 325 mm", surface)
    said(event, "across", surface=surface)
    if spot.owner != "spar" or spot.side == "flange" or spot.station is None:
        message = f'"{event.what}" is worked in the web of the spar. Write: where = "spar web, at 325 mm"'
        raise SurfaceError(message)
    check_within(surface, spot, event.across)
    holes = surface.sheet.spar.holes or ()
    at = next((i for i, hole in enumerate(holes) if _reaches(hole, spot.station.y)), len(holes))
    old = holes[at] if at < len(holes) else None
    if old is not None and old.across.known and (numbers(event.across) < numbers(old.across)).any():
        message = f"the hole there is {old.across.said} already, larger than {event.across.said}: holes only grow"
        raise SurfaceError(message)
    new = WebHole(_up(spot) if old is None else old.up, event.across)
    spar = replace(surface.sheet.spar, holes=(*holes[:at], new, *holes[at + 1 :]))
    told = f"hole of {event.across.said}" + ("" if old is None else f", was {old.across.said}")
    done = replace(surface, sheet=replace(surface.sheet, spar=spar))
    return Done(done, (f"spar.hole-{at + 1}",), (f"{spot.words[0]}: {told}",))


def check_has_walls(spot: Spot, event: Happened) -> None:
    """Refuse a sheet whose stress is not worked: only the spar and the two skins behind it are walls everywhere.

    Parameters
    ----------
    spot : Spot
        A place of a sheet.
    event : Happened
        What happened there.

    Raises
    ------
    SurfaceError
        Saying where it is worked.
    """
    if spot.owner not in {"spar", "left_skin", "right_skin"}:
        message = f'"{event.what}" is worked for the spar and the skins behind it. At {spot.words[0]} ask'
        raise SurfaceError(message)


def check_within(surface: Surface, spot: Spot, size: Value) -> None:
    """Refuse a hole or a cut that takes all of the web's depth there, or of the flange's width.

    Parameters
    ----------
    surface : Surface
        As it is.
    spot : Spot
        A place of the spar along the pins; any other is not looked at.
    size : Value
        What goes of it [m].

    Raises
    ------
    SurfaceError
        Naming what there is.
    """
    if spot.owner != "spar" or spot.station is None or not size.known:
        return
    flange = surface.sheet.spar.flange
    if spot.side == "flange":
        room, what = (numbers(flange) if flange.known else np.asarray(np.inf)), "the flange is {} wide"
    else:
        room, what = depth_at(surface, spot.station.y), "the spar is {} deep"
    if (numbers(size) >= room).any():
        there = what.format(show(float(np.min(room)), "length", "inch" if surface.units == "inch" else "metric"))
        message = f"{size.said} would go of the spar there, but {there}: nothing would be left. Is it the right size?"
        raise SurfaceError(message)


def depth_at(surface: Surface, y: float) -> Array:
    """Give the depth of the spar at a place, of variants the least.

    Parameters
    ----------
    surface : Surface
        As it is.
    y : float
        Along the pins [m].

    Returns
    -------
    ndarray, shape ()
        [m]; infinite where no depth is given.
    """
    places = [one for one in surface.outline.places if one.spar_depth.known and one.up.known]
    if not places:
        return np.asarray(np.inf)
    at = [float(np.mean(numbers(one.up))) for one in places]
    return np.asarray(np.interp(y, at, [float(np.min(numbers(one.spar_depth))) for one in places]))


def _reaches(hole: WebHole, y: float) -> bool:
    """Whether a place lies within a hole of the web."""
    if not (hole.up.known and hole.across.known):
        return False
    return bool((abs(numbers(hole.up) - y) <= 0.5 * numbers(hole.across)).all())


def _up(spot: Spot) -> Value:
    if spot.station is None:
        message = f'its place along the pins is not said. Write: where = "{spot.words[0]}, at 325 mm"'
        raise SurfaceError(message)
    return Value(spot.station.y, spot.station.words, Source(Basis.AS_SAID))


def _marked(surface: Surface, spot: Spot, event: Happened, mark: Mark, told: str) -> Done:
    one_of(event, spot, ("part",), WHERE, surface)
    if spot.owner == "spar" and not spot.side:
        message = f'web or flange? Write: where = "spar flange, {mark.up.said}" or "spar web, {mark.up.said}"'
        raise SurfaceError(message)
    check_within(surface, spot, mark.depth)
    check_has_walls(spot, event)
    mark = replace(mark, part=f"spar {spot.side}" if spot.owner == "spar" else spot.owner)
    return Done(
        replace(surface, marks={**surface.marks, spot.names[0]: mark}), spot.names, (f"{spot.words[0]}: {told}",)
    )
