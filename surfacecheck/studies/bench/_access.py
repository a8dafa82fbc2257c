"""Can it be set: every rivet with every tool of the file, from the side it is pulled from."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.model import RivetSet
from surfacecheck.rules import MOST_WEDGE, nose_room, tool_tilt
from surfacecheck.studies.bench._seats import known
from surfacecheck.studies.bench._seats_fittings import seats_of
from surfacecheck.studies.bench._walls import pulled_from

if TYPE_CHECKING:
    from collections.abc import Iterator

    from numpy.typing import NDArray

    from surfacecheck.model import Rivet, Surface, Tool
    from surfacecheck.studies.bench._seats import Line, Seats
    from surfacecheck.studies.bench._wall import Side, Wall

    Array = NDArray[np.float64]

__all__ = ["Access", "Reach", "ToolReach", "access", "leaning", "tool_needs"]

SAME_SIZE = 0.06e-3
"""Tip and rivet of one size: 1/8 in and 3.2 mm, 5/32 in and 4.0 mm [m]; our own choice."""
_OPPOSITE = {"left": "right", "top": "bottom", "up": "down", "out": "in", "ahead": "behind"}
_OPPOSITE |= {b: a for a, b in _OPPOSITE.items()}


class Access:
    """The words of outcome of access, and no others."""

    CLEAR = "clear"
    WEDGE = "needs a wedge"
    OTHER = "needs another tool"
    NOT_REACHED = "cannot be reached"
    NOT_GIVEN = "not given"
    NOT_LOOKED_AT = "not looked at"


@dataclass(frozen=True)
class ToolReach:
    """One tool at some rivets.

    Attributes
    ----------
    tool : str
        Its name in the file.
    lean : float
        How far it must lean over [rad]; infinite where its nose does not stand flat, or a wall stands on either side.
    """

    tool: str
    lean: float

    @property
    def outcome(self) -> str:
        """Clear, needs a wedge, or cannot be reached with it."""
        if self.lean == 0.0:
            return Access.CLEAR
        return Access.WEDGE if self.lean <= MOST_WEDGE + 1e-9 else Access.NOT_REACHED

    @property
    def said(self) -> str:
        """The same with the name and the angle."""
        if self.outcome == Access.WEDGE:
            return f"{self.words} {Access.WEDGE} of {self.degrees} degrees"
        if self.outcome == Access.CLEAR:
            return f"{self.words} is {Access.CLEAR}"
        flat = "the nose of the {} does not stand flat" if math.isinf(self.lean) else "{} would lean {} degrees"
        return flat.format(self.words, self.degrees)

    @property
    def words(self) -> str:
        """Its name in words."""
        return self.tool.replace("_", " ")

    @property
    def degrees(self) -> int:
        """Lean in whole degrees, up [deg]."""
        return math.ceil(round(math.degrees(self.lean), 6)) if math.isfinite(self.lean) else 90


@dataclass(frozen=True, eq=False)
class Reach:
    """Rivets of a row that are alike in how they can be reached.

    Attributes
    ----------
    place, words : str
        The row or group.
    side : str
        From where they are pulled.
    numbers : tuple of int
        Which rivets.
    whole : bool
        Whether these are all of it.
    wall : str
        What stands nearest; empty for nothing.
    distance : float or None
        Rivet axis to the outer face of that, at its nearest [m].
    tools : tuple of ToolReach
        Every tool of the file whose tips fit, in the order of the file.
    missing : tuple of str
        Keys that hide the answer.
    notes : tuple of str
        What was not looked at.
    solid : bool
        Whether they are solid rivets, which no tool here pulls.
    """

    place: str
    words: str
    side: str
    numbers: tuple[int, ...]
    whole: bool
    wall: str
    distance: float | None
    tools: tuple[ToolReach, ...]
    missing: tuple[str, ...]
    solid: bool = False
    notes: tuple[str, ...] = ()

    @property
    def outcome(self) -> str:
        """One of the words of :class:`Access`; the first tool of the file that fits is the usual one."""
        if self.solid:
            return Access.NOT_LOOKED_AT
        if not self.missing and not self.wall:
            return Access.CLEAR
        if self.missing or not self.tools:
            return Access.NOT_GIVEN
        first = self.tools[0].outcome
        if first != Access.NOT_REACHED:
            return first
        return Access.OTHER if any(one.outcome != Access.NOT_REACHED for one in self.tools) else Access.NOT_REACHED

    @property
    def said(self) -> str:
        """The outcome in words, with every tool."""
        if self.solid:
            return f"{Access.NOT_LOOKED_AT}: a solid rivet is driven from both sides"
        if not self.missing and not self.wall:
            return f"{Access.CLEAR}: nothing stands beside"
        if self.missing:
            return f"{Access.NOT_GIVEN}: {', '.join(self.missing)}"
        if not self.tools:
            return f"{Access.NOT_GIVEN}: no [tool] with its dimensions and a tip of this size"
        first, *others = self.tools
        if first.outcome == Access.CLEAR:
            return f"{Access.CLEAR} ({first.words})"
        if first.outcome == Access.WEDGE:
            head = f"{Access.WEDGE} of {first.degrees} degrees ({first.words})"
            return "; ".join([head, *(one.said for one in others)])
        return f"{self.outcome}: {'; '.join(one.said for one in self.tools)}"


def tool_needs(tool: Tool) -> tuple[str, ...]:
    """List the dimensions of a tool that are not given.

    Parameters
    ----------
    tool : Tool
        From the file.

    Returns
    -------
    tuple of str
        Keys; empty where it is described.
    """
    wanted = {name: getattr(tool, name).known for name in ("nose_radius", "nose_long", "body_radius")}
    wanted["tips"] = bool(tool.tips) and all(tip.known for tip in tool.tips)
    return tuple(f"tool.{tool.name}.{name}" for name, there in wanted.items() if not there)


def access(surface: Surface, place: str = "") -> tuple[Reach, ...]:
    """Say of every rivet whether the tools of the file reach it.

    Parameters
    ----------
    surface : Surface
        Perhaps half-filled.
    place : str
        Only of this row or group, ``row.ribs_to_spar``; of all where it is empty.

    Returns
    -------
    tuple of Reach
        Grouped where rivets of a row are alike.

    References
    ----------
    Common practice; the formulas are :func:`surfacecheck.rules.nose_room` and :func:`surfacecheck.rules.tool_tilt`.
    """
    wanted = [seats for seats in seats_of(surface) if not place or seats.place == place]
    return tuple(reach for seats in wanted if seats.lines for reach in _of_group(surface, seats))


def _fitting(surface: Surface, rivet: Rivet | None) -> tuple[Tool, ...]:
    diameter = None if rivet is None else known(rivet.diameter)
    if diameter is None:
        return ()
    whole = [tool for tool in surface.tools.values() if not tool_needs(tool)]
    return tuple(t for t in whole if any(abs((known(tip) or 0.0) - diameter) <= SAME_SIZE for tip in t.tips))


def _of_group(surface: Surface, seats: Seats) -> Iterator[Reach]:
    rivet = surface.rivets.get(seats.rivet)
    solid = rivet is not None and rivet.set is RivetSet.SOLID
    tools = _fitting(surface, rivet)
    found: dict[tuple[object, ...], list[tuple[int, Wall | None, float | None, tuple[float, ...], Side]]] = {}
    for line in seats.lines:
        for side in pulled_from(surface, seats, line):
            for number, wall, distance, leans in _each(line, side, tools):
                outcomes = tuple(ToolReach("", lean).outcome for lean in leans)
                alike = side.words, side.missing, *(() if side.missing else (wall and wall.words, outcomes))
                found.setdefault(alike, []).append((number, wall, distance, leans, side))
    for group in found.values():
        numbers = tuple(sorted(one[0] for one in group))
        near = min((one[2] for one in group if one[2] is not None), default=None)
        worst = [max(one[3][at] for one in group) for at in range(len(tools))]
        wall, side = group[0][1], group[0][4]
        yield Reach(
            seats.place,
            seats.words,
            side.words,
            numbers,
            len(numbers) == seats.count,
            "" if wall is None else wall.words,
            near,
            tuple(ToolReach(tool.name, lean) for tool, lean in zip(tools, worst, strict=True)),
            side.missing,
            solid,
            (*side.notes, wall.note) if wall is not None and wall.note and any(worst) else side.notes,
        )


def _each(
    line: Line, side: Side, tools: tuple[Tool, ...]
) -> Iterator[tuple[int, Wall | None, float | None, tuple[float, ...]]]:
    """Give each rivet of a line with its nearest wall and how far each tool must lean."""
    leans = [leaning(side.walls, tool, line.count) for tool in tools]
    nearest = (
        np.argmin([wall.distance for wall in side.walls], axis=0) if side.walls else np.zeros(line.count, dtype=int)
    )
    for at, number in enumerate(line.numbers):
        wall = side.walls[int(nearest[at])] if side.walls and not side.missing else None
        distance = None if wall is None else float(wall.distance[at])
        yield number, wall, distance, tuple(float(lean[at]) for lean in leans)


def leaning(walls: tuple[Wall, ...], tool: Tool, count: int) -> Array:
    """Give how far a tool must lean over at each rivet of a line.

    Parameters
    ----------
    walls : tuple of Wall
        What stands beside the rivets.
    tool : Tool
        With its dimensions known.
    count : int
        Rivets of the line [-].

    Returns
    -------
    ndarray, shape (count,)
        Angle [rad]; 0 where it is clear, infinite where its nose does not stand flat, or where it would have to lean
        away from walls on either side.
    """
    nose, long, body = (known(one) or 0.0 for one in (tool.nose_radius, tool.nose_long, tool.body_radius))
    worst = np.zeros(count)
    toward: dict[str, Array] = {}
    for wall in walls:
        lean = tool_tilt(np.maximum(wall.distance, 0.0), wall.thickness, wall.height, body, long)
        flat = wall.distance >= nose_room(wall.thickness, wall.inside, nose) - 1e-9
        lean = np.where(flat, lean, np.inf)
        toward[wall.toward] = np.maximum(toward.get(wall.toward, np.zeros(count)), lean)
        worst = np.maximum(worst, lean)
    for side, lean in toward.items():
        other = toward.get(_OPPOSITE.get(side, ""), np.zeros(count))
        worst = np.where((lean > 0.0) & (other > 0.0), np.inf, worst)
    return worst
