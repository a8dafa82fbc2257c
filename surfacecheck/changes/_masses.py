"""Mass that came on: paint and filler over the whole surface, or one thing at its place."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.changes._asked import one_of, said
from surfacecheck.changes._done import Done
from surfacecheck.model import Added
from surfacecheck.provenance import UNKNOWN, WORKED_OUT, Basis, Source, Value, numbers

if TYPE_CHECKING:
    from surfacecheck.model import Happened, Surface
    from surfacecheck.places import Spot

__all__ = ["mass_added", "painted"]


def painted(surface: Surface, spot: Spot, event: Happened, *, fully: bool) -> Done:
    """Put paint or filler on, spread as the skins are.

    Parameters
    ----------
    surface : Surface
        As it is so far.
    spot : Spot
        The whole surface.
    event : Happened
        ``mass``.
    fully : bool
        Not asked: it is worked out [-].

    Returns
    -------
    Done
        Heavier, with another balance.
    """
    del fully
    one_of(event, spot, ("surface",), "surface", surface)
    said(event, "mass", surface=surface)
    before = surface.weighed.paint
    paint = event.mass
    if before.known and not before.absent:
        total = numbers(before) + numbers(event.mass)
        si = total if total.ndim else float(total)
        paint = replace(event.mass, si=si, said=f"{before.said} + {event.mass.said}", source=WORKED_OUT)
    weighed = replace(surface.weighed, paint=paint)
    return Done(replace(surface, weighed=weighed), (), (f"{event.mass.said} of paint over the surface",))


_BEHIND = {"trailing edge": "edge_behind", "nose": "nose_ahead", "spar": "web_behind"}


def mass_added(surface: Surface, spot: Spot, event: Happened, *, fully: bool) -> Done:
    """Put one thing on: a tab, a servo, filler at one place.

    Parameters
    ----------
    surface : Surface
        As it is so far.
    spot : Spot
        A place of the trailing edge, the nose or the spar; any other place with ``behind``.
    event : Happened
        ``mass``; ``behind`` the pins, where it is not on one of these lines.
    fully : bool
        Not asked: it is worked out [-].

    Returns
    -------
    Done
        Heavier, with another balance.

    Raises
    ------
    SurfaceError
        Where it is not said how far behind the pins it is.
    """
    del fully
    one_of(event, spot, ("line", "part", "rib", "surface"), "trailing edge, at 325 mm", surface)
    said(event, "mass", surface=surface)
    up = UNKNOWN if spot.station is None else Value(spot.station.y, spot.station.words, Source(Basis.AS_SAID))
    behind = event.behind if event.behind.known else _behind(surface, spot)
    if not behind.known:
        said(event, "behind", surface=surface)
    new = Added(what=f"{event.what}, {spot.words[0]}", mass=event.mass, behind=behind, up=up)
    weighed = replace(surface.weighed, added=(*(surface.weighed.added or ()), new))
    told = f"{event.mass.said}, {behind.said} behind the pins"
    return Done(replace(surface, weighed=weighed), (), (f"{spot.words[0]}: {told}",))


def _behind(surface: Surface, spot: Spot) -> Value:
    """Read off the outline how far behind the pins a place of the edge, the nose or the spar is."""
    key = _BEHIND.get(spot.owner)
    places = surface.outline.places
    if key is None or spot.station is None or not all(p.up.known and getattr(p, key).known for p in places):
        return UNKNOWN
    ups, lengths = (np.array([float(numbers(getattr(p, k))) for p in places]) for k in ("up", key))
    x = float(np.interp(spot.station.y, ups, lengths)) * (-1.0 if spot.owner == "nose" else 1.0)
    return Value(x, f"{x * 1e3:.0f} mm", WORKED_OUT)
