"""Horn and stop other than drawn, and what the wind did on the ground."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Any

from surfacecheck.changes._asked import one_of, said
from surfacecheck.changes._done import Done
from surfacecheck.errors import SurfaceError
from surfacecheck.model import DrivenBy, Swung

if TYPE_CHECKING:
    from surfacecheck.model import Happened, Surface
    from surfacecheck.places import Spot

__all__ = ["horn_other", "stop_other", "wind_took_hold"]


def horn_other(surface: Surface, spot: Spot, event: Happened, *, fully: bool) -> Done:
    """Give the horn another arm, or let the cable leave it another way.

    Parameters
    ----------
    surface : Surface
        As it is so far.
    spot : Spot
        The horn.
    event : Happened
        ``arm``, ``leaves``.
    fully : bool
        Not asked: it is worked out [-].

    Returns
    -------
    Done
        With another pull for the same torque.
    """
    del fully
    one_of(event, spot, ("horn",), "horn", surface)
    said(event, "arm or leaves", surface=surface)
    if surface.horn is None:
        message = f'"{event.what}": there is no horn in this file'
        raise SurfaceError(message)
    _refuse_tube(surface, event)
    changed: dict[str, Any] = {"arm": event.arm} if event.arm.known else {}
    says = [f"horn: arm {event.arm.said}"] if event.arm.known else []
    if event.leaves is not None:
        changed["leaves"] = event.leaves
        says.append(f"horn: the cable leaves {_way(event)}")
    return Done(replace(surface, horn=replace(surface.horn, **changed)), ("horn",), tuple(says))


def _refuse_tube(surface: Surface, event: Happened) -> None:
    """Refuse what would change nothing: no case of a torque tube asks for an arm, of its horn or against its stop."""
    if surface.horn is not None and surface.horn.driven_by is DrivenBy.TORQUE_TUBE:
        message = f'"{event.what}": a torque tube has no horn arm, and no case against the stop: nothing would change'
        raise SurfaceError(message)


def _way(event: Happened) -> str:
    leaves = event.leaves
    assert leaves is not None  # noqa: S101 - asked for only where it is said
    angles = [one.said for one in (leaves.inward, leaves.up) if one.si]
    return f"{'ahead' if leaves.ahead else 'behind'}{', ' if angles else ''}{', '.join(angles)}"


def stop_other(surface: Surface, spot: Spot, event: Happened, *, fully: bool) -> Done:
    """Give the stop on the surface another arm.

    Parameters
    ----------
    surface : Surface
        As it is so far.
    spot : Spot
        The stop.
    event : Happened
        ``arm``.
    fully : bool
        Not asked: it is worked out [-].

    Returns
    -------
    Done
        With another force at the stop for the same torque.
    """
    del fully
    one_of(event, spot, ("stop",), "stop", surface)
    said(event, "arm", surface=surface)
    stop = surface.controls.stop
    if stop is None:
        line = f"[controls] stop = {{ {surface.said('up')} = , arm = , side = }}"
        message = f'"{event.what}": this surface has no stop of its own ({line})'
        raise SurfaceError(message)
    _refuse_tube(surface, event)
    controls = replace(surface.controls, stop=replace(stop, arm=event.arm))
    return Done(replace(surface, controls=controls), ("stop",), (f"stop: arm {event.arm.said}",))


def wind_took_hold(surface: Surface, spot: Spot, event: Happened, *, fully: bool) -> Done:
    """Add the load of a wind that took hold of the surface on the ground, and of its swing into the stop.

    Parameters
    ----------
    surface : Surface
        As it is so far.
    spot : Spot
        The whole surface.
    event : Happened
        ``wind``; where it swung free also ``swung`` and ``stop_gives``.
    fully : bool
        Not asked: the load cases bound it [-].

    Returns
    -------
    Done
        With load cases of its own.
    """
    del fully
    one_of(event, spot, ("surface",), "surface", surface)
    said(event, "wind", surface=surface)
    if event.swung.known != event.stop_gives.known:
        said(event, "stop_gives" if event.swung.known else "swung", surface=surface)
    says = [f"wind of {event.wind.said} on the surface: load cases of their own"]
    if event.swung.known:
        says.append(
            f"swung {event.swung.said} free into a stop that gave {event.stop_gives.said}: "
            "a bound, all the work of the wind stopped by what gives in a straight line"
        )
    swung = Swung(event.wind, event.swung, event.stop_gives)
    return Done(replace(surface, swung=swung), (), tuple(says))
