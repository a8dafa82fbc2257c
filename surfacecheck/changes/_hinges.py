"""Brackets off their place, and pins off their line."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.changes._asked import edges_said, one_of, said
from surfacecheck.changes._done import Done
from surfacecheck.changes._marks import depth_at
from surfacecheck.errors import SurfaceError
from surfacecheck.places import Spot, rivets_of_bracket, with_apart
from surfacecheck.provenance import WORKED_OUT, Value, numbers
from surfacecheck.quantities import show

if TYPE_CHECKING:
    from surfacecheck.model import Happened, Surface
    from surfacecheck.quantities import System

__all__ = ["bracket_off", "hinge_off_line"]

SUCH = "hinge middle, bracket"


def bracket_off(surface: Surface, spot: Spot, event: Happened, *, fully: bool) -> Done:
    """Move and turn a bracket: along the pins its pin goes with it; sideways and turned only its rivets do.

    Parameters
    ----------
    surface : Surface
        As it is so far.
    spot : Spot
        A hinge, or its bracket.
    event : Happened
        ``off_along``, ``off_sideways``, ``turned``; ``edges`` as they are now.
    fully : bool
        Not asked: it is worked out [-].

    Returns
    -------
    Done
        With the hinge at its new place, and the rivets off the pin.
    """
    del fully
    one_of(event, spot, ("bracket", "hinge"), SUCH, surface)
    said(event, "off_along or off_sideways or turned", surface=surface)
    hinge = surface.hinges[spot.owner]
    whole = Spot("bracket", spot.owner)
    says = []
    if event.off_along.known:
        moved = _more(hinge.up, event.off_along)
        surface = replace(surface, hinges={**surface.hinges, spot.owner: replace(hinge, up=moved)})
        says.append(f"{whole.words[0]}: {event.off_along.said}, its pin with it")
    if event.off_sideways.known:
        _on_the_web(surface, spot.owner, event.off_sideways)
        surface = with_apart(surface, whole.whole, moved_across=event.off_sideways)
        says.append(f"{whole.words[0]}: rivets {event.off_sideways.said} off the pin, which stays in line")
    if event.turned.known:
        surface = with_apart(surface, whole.whole, turned=event.turned)
        says.append(f"{whole.words[0]}: rivets turned {event.turned.said} about their middle")
    rivets = Spot("bracket", spot.owner, tuple(range(1, rivets_of_bracket(surface, spot.owner) + 1)))
    edges = edges_said(surface, rivets, event) if rivets.rivets else {}
    for name in rivets.names if edges else ():
        surface = with_apart(surface, name, edge=edges)
    return Done(surface, (whole.whole,), tuple(says))


def _more(value: Value, by: Value) -> Value:
    if not value.known:
        return value
    total = np.asarray(numbers(value) + numbers(by))
    return replace(
        value, si=total if total.ndim else float(total), said=f"{value.said}, then {by.said}", source=WORKED_OUT
    )


def _on_the_web(surface: Surface, name: str, off: Value) -> None:
    """Refuse a bracket that its move takes off the web: a rivet then has no web behind it."""
    hinge = surface.hinges[name]
    bracket = surface.brackets.get(hinge.bracket)
    if bracket is None or not hinge.up.known:
        return
    deep = depth_at(surface, float(np.mean(numbers(hinge.up))))
    wide = numbers(bracket.gap_sideways) * ((bracket.sideways or 1) - 1) if bracket.gap_sideways.known else 0.0
    if (np.abs(numbers(off)) + 0.5 * wide >= 0.5 * deep).any():
        system: System = "inch" if surface.units == "inch" else "metric"
        spread = f", its rivets {show(float(np.max(wide)), 'length', system)} apart over it" if np.any(wide) else ""
        message = (
            f"off_sideways {off.said} takes rivets of the bracket off the web: the spar is "
            f"{show(float(deep), 'length', system)} deep there{spread}. How far it is from where it was drawn is "
            "meant: measure it again"
        )
        raise SurfaceError(message)


def hinge_off_line(surface: Surface, spot: Spot, event: Happened, *, fully: bool) -> Done:
    """Set a pin off the line of the outer ones: a displacement set in, which does not grow with the load.

    Parameters
    ----------
    surface : Surface
        As it is so far.
    spot : Spot
        A hinge.
    event : Happened
        ``out_of_line`` and ``out_of_line_aft``, as read off the thread.
    fully : bool
        Not asked: it is worked out [-].

    Returns
    -------
    Done
        With the pin off its line in one or both directions.
    """
    del fully
    one_of(event, spot, ("hinge",), "hinge middle", surface)
    said(event, "out_of_line or out_of_line_aft", surface=surface)
    ways = {key: getattr(event, key) for key in ("out_of_line", "out_of_line_aft") if getattr(event, key).known}
    hinge = replace(surface.hinges[spot.owner], **ways)
    surface = replace(surface, hinges={**surface.hinges, spot.owner: hinge})
    told = " and ".join(value.said for value in ways.values())
    return Done(surface, spot.names, (f"{spot.words[0]}: pin {told} off the line of the outer pins, as set in",))
