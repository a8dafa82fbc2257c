"""A surface that has lost a hinge, or what fastens a rib: same stations, same openings, same weight."""

from __future__ import annotations

import re
from dataclasses import replace
from typing import TYPE_CHECKING, TypeVar

import numpy as np

from surfacecheck.assessment import assess
from surfacecheck.model import YesNo
from surfacecheck.provenance import plain

if TYPE_CHECKING:
    from surfacecheck.assessment import Assessment
    from surfacecheck.model import Surface

__all__ = ["hinges_before", "renumbered", "without_hinge", "without_rib"]

T = TypeVar("T")

_RIB = re.compile(r"\brib[ -](\d+)\b")


def without_hinge(assessment: Assessment, name: str) -> Assessment:
    """Work the whole chain with the other hinges.

    Parameters
    ----------
    assessment : Assessment
        As drawn.
    name : str
        Hinge that is gone.

    Returns
    -------
    Assessment
        The opening in the nose is still there, and so is the weight of the bracket.

    Raises
    ------
    SurfaceError
        Where what is left cannot be solved.
    """
    surface, span = assessment.surface, assessment.span
    at = list(surface.hinges).index(name)
    fin = surface.fin
    if fin.moves is not None:
        left = [row for i, row in enumerate(fin.moves) if i != at]
        fin = replace(fin, moves=tuple(tuple(v for i, v in enumerate(row) if i != at) for row in left))
    hinges = {one: hinge for one, hinge in surface.hinges.items() if one != name}
    places = {one: b for one, b in span.hinges.items() if one != name}
    return assess(replace(surface, hinges=hinges, fin=fin), span=replace(span, hinges=places), masses=assessment.masses)


def without_rib(assessment: Assessment, rib: int) -> Assessment:
    """Work the whole chain with a rib that hands nothing over: its rows hold nothing.

    Parameters
    ----------
    assessment : Assessment
        As drawn.
    rib : int
        From 0, in the order of the file.

    Returns
    -------
    Assessment
        The panels beside it are one; a bracket it stood behind has no rib.

    Raises
    ------
    SurfaceError
        Where what is left cannot be worked.
    """
    surface, span = assessment.surface, assessment.span
    ribs = surface.sheet.ribs
    fewer = replace(
        ribs,
        up=_all_but(ribs.up, rib),
        flanges_point=_all_but(ribs.flanges_point, rib) if len(ribs.flanges_point) == len(ribs.up) else (),
    )
    bare = set(hinges_before(surface, rib))
    hinges = {
        name: replace(hinge, rib_behind=YesNo.NO) if name in bare else hinge for name, hinge in surface.hinges.items()
    }
    changed = replace(surface, hinges=hinges, sheet=replace(surface.sheet, ribs=fewer))
    return assess(changed, span=replace(span, ribs=_all_but(span.ribs, rib)), masses=assessment.masses)


def _all_but(values: tuple[T, ...], at: int) -> tuple[T, ...]:
    return values[:at] + values[at + 1 :]


def hinges_before(surface: Surface, rib: int) -> tuple[str, ...]:
    """Name the hinges whose bracket this rib stands behind: those that have one, and this is the nearest.

    Parameters
    ----------
    surface : Surface
        With the places of its ribs.
    rib : int
        From 0.

    Returns
    -------
    tuple of str
        Names.
    """
    ups = np.array([plain(up) if up.known else np.inf for up in surface.sheet.ribs.up])
    return tuple(
        name
        for name, hinge in surface.hinges.items()
        if hinge.rib_behind is YesNo.YES and hinge.up.known and int(np.argmin(np.abs(ups - plain(hinge.up)))) == rib
    )


def renumbered(text: str, rib: int) -> str:
    """Write the numbers of ribs as they were before one was taken out.

    Parameters
    ----------
    text : str
        A part or a place of the surface without it.
    rib : int
        The rib that is gone, from 0.

    Returns
    -------
    str
        With the numbers of the file.

    Examples
    --------
    >>> renumbered("left skin to ribs, rib 3 at 560 mm", 2)
    'left skin to ribs, rib 4 at 560 mm'
    """
    return _RIB.sub(lambda found: f"{found[0][:4]}{int(found[1]) + (int(found[1]) > rib)}", text)
