"""Sheets of another gauge or metal, and doublers that do not lie where they should."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Any

import numpy as np

from surfacecheck.changes._asked import one_of, said
from surfacecheck.changes._done import Done
from surfacecheck.errors import SurfaceError
from surfacecheck.library import metal_of
from surfacecheck.places import plan_row
from surfacecheck.provenance import WORKED_OUT, Value, numbers

if TYPE_CHECKING:
    from surfacecheck.model import Doubler, Happened, Row, Surface
    from surfacecheck.places import Spot

__all__ = ["doubler_off", "other_sheet"]


def other_sheet(surface: Surface, spot: Spot, event: Happened, *, fully: bool) -> Done:
    """Make a part of another gauge or metal.

    Parameters
    ----------
    surface : Surface
        As it is so far.
    spot : Spot
        A skin, the spar, the ribs or a doubler.
    event : Happened
        ``thickness``, ``alloy``.
    fully : bool
        Not asked: it is worked out [-].

    Returns
    -------
    Done
        With other strength, stiffness and mass.
    """
    del fully
    one_of(event, spot, ("part",), "spar", surface)
    said(event, "thickness or alloy", surface=surface)
    if spot.station is not None or spot.side:
        message = f'"{event.what}" is of a whole part. Write: where = "{spot.owner.replace("_", " ")}"'
        raise SurfaceError(message)
    changed: dict[str, Any] = {}
    if event.thickness.known:
        changed["thickness"] = event.thickness
    if event.alloy:
        changed["alloy"] = event.alloy
    part = replace(_part(surface, spot.owner), **changed)
    metal_of(surface, part.alloy, part.thickness)  # says what metals there are
    told = " and ".join([one for one in (event.thickness.said if event.thickness.known else "", event.alloy) if one])
    touched = (f"panel.{spot.owner}" if spot.owner.endswith("_skin") else spot.owner, *_rows_of(surface, spot.owner))
    return Done(_with_part(surface, spot.owner, part), touched, (f"{spot.words[0]}: {told}",))


def doubler_off(surface: Surface, spot: Spot, event: Happened, *, fully: bool) -> Done:
    """Let a doubler end elsewhere, be narrower, or have fewer lines of rivets; rivets beyond it join nothing to it.

    Parameters
    ----------
    surface : Surface
        As it is so far.
    spot : Spot
        A doubler.
    event : Happened
        ``from``, ``to``, ``wide``, ``lines``.
    fully : bool
        Not asked: it is worked out [-].

    Returns
    -------
    Done
        With its step of stiffness moved, and its rows cut to the rivets that lie on it.
    """
    del fully
    doubler = surface.sheet.doublers.get(spot.owner) if spot.sort == "part" else None
    if doubler is None:
        here = ", ".join(surface.sheet.doublers) or "none in this file"
        message = f'"{event.what}" is of a doubler. Here: {here}'
        raise SurfaceError(message)
    said(event, "from or to or wide or lines", surface=surface)
    ends = {key: getattr(event, key) for key in ("start", "to", "wide") if getattr(event, key).known}
    moved = replace(doubler, **ends)
    if moved.start.known and moved.to.known and (numbers(moved.start) >= numbers(moved.to)).any():
        message = (
            f"the doubler would begin at {moved.start.said} and end at {moved.to.said}: nothing would be left of it"
        )
        raise SurfaceError(message)
    surface = _with_part(surface, spot.owner, moved)
    says = [f"{spot.words[0]}: {key.replace('start', 'from')} {value.said}" for key, value in ends.items()]
    if event.lines is not None:
        says.append(f"{spot.words[0]}: {event.lines} line{'s' if event.lines > 1 else ''} of rivets")
    rows = {}
    for name, row in surface.rows.items():
        if spot.owner in row.joins:
            lines = row.lines if event.lines is None else event.lines
            rows[name] = _cut(surface, replace(row, lines=lines), moved)
            plan = plan_row(surface, rows[name])
            says.append(f"{name.replace('_', ' ')}: {0 if plan is None else plan.total} rivets lie on it")
    done = replace(surface, rows={**surface.rows, **rows})
    return Done(done, _rows_of(done, spot.owner) or spot.names, tuple(says))


def _rows_of(surface: Surface, part: str) -> tuple[str, ...]:
    """Names of the rows that join a part."""
    return tuple(f"row.{name}" for name, row in surface.rows.items() if part in row.joins)


def _cut(surface: Surface, row: Row, doubler: Doubler) -> Row:
    """Leave of a row the rivets that lie on the doubler, each at its old place."""
    plan = plan_row(surface, row)
    if plan is None or plan.start is None or plan.end is None or not (doubler.start.known and doubler.to.known):
        return row
    at = np.linspace(float(plan.start), float(plan.end), plan.count)
    low, high = float(np.max(numbers(doubler.start))), float(np.min(numbers(doubler.to)))
    on = at[(at >= low - 1e-9) & (at <= high + 1e-9)]
    if on.size == at.size:
        return row
    if on.size < 2:
        message = f"{on.size} rivet of {row.name.replace('_', ' ')} would lie on the doubler: two at least must"
        raise SurfaceError(message)
    first, last = (Value(float(end), f"{end * 1e3:.1f} mm", WORKED_OUT) for end in (on[0], on[-1]))
    pitch = Value(float(at[1] - at[0]), f"{(at[1] - at[0]) * 1e3:.2f} mm", WORKED_OUT)
    return replace(row, start=first, to=last, pitch=pitch, count=None)


def _part(surface: Surface, name: str) -> Any:
    return surface.sheet.doublers.get(name) or getattr(surface.sheet, name)


def _with_part(surface: Surface, name: str, part: Any) -> Surface:
    sheet = surface.sheet
    if name in sheet.doublers:
        return replace(surface, sheet=replace(sheet, doublers={**sheet.doublers, name: part}))
    return replace(surface, sheet=replace(sheet, **{name: part}))
