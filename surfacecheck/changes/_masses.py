"""Mass that came on: paint and filler over the whole surface."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from surfacecheck.changes._asked import one_of, said
from surfacecheck.changes._done import Done
from surfacecheck.provenance import WORKED_OUT, numbers

if TYPE_CHECKING:
    from surfacecheck.model import Happened, Surface
    from surfacecheck.places import Spot

__all__ = ["painted"]


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
    one_of(event, spot, ("surface",), "surface")
    said(event, "mass")
    before = surface.weighed.paint
    paint = event.mass
    if before.known and not before.absent:
        total = numbers(before) + numbers(event.mass)
        si = total if total.ndim else float(total)
        paint = replace(event.mass, si=si, said=f"{before.said} + {event.mass.said}", source=WORKED_OUT)
    weighed = replace(surface.weighed, paint=paint)
    return Done(replace(surface, weighed=weighed), (), (f"{event.mass.said} of paint over the surface",))
