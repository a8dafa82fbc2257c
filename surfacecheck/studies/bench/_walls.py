"""From which side a rivet is pulled, and what stands beside it there."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.checks import edge_of
from surfacecheck.model import Face, FlangesPoint, RibFlangesPoint
from surfacecheck.provenance import plain
from surfacecheck.studies.bench._bracket_legs import leg_walls
from surfacecheck.studies.bench._rib_walls import rib_walls
from surfacecheck.studies.bench._seats import ALONG
from surfacecheck.studies.bench._wall import Side, Wall

if TYPE_CHECKING:
    from collections.abc import Iterator

    from numpy.typing import NDArray

    from surfacecheck.model import Ribs, Spar, Surface
    from surfacecheck.provenance import Value
    from surfacecheck.studies.bench._seats import Line, Seats

    Array = NDArray[np.float64]
    Found = tuple[tuple[Wall, ...], tuple[str, ...]]

__all__ = ["pulled_from"]

_SKINS = ("left_skin", "right_skin", "nose_skin")


def pulled_from(surface: Surface, seats: Seats, line: Line) -> tuple[Side, ...]:
    """Tell from which side the rivets of a line are pulled, and what stands beside them.

    Parameters
    ----------
    surface : Surface
        For the sheets.
    seats : Seats
        The row or group; its first part is the one under the head.
    line : Line
        One of its lines.

    Returns
    -------
    tuple of Side
        One where the side is known, else both.
    """
    head = seats.joins[0]
    if head in _SKINS:
        where = "from outside" if head == "nose_skin" else f"from the {surface.said(head.removesuffix('_skin'))}"
        return (Side(where),)
    if seats.kind == "spar":
        return (_inside_channel(surface, seats, line),)
    if seats.kind == "rib":
        return (_inside_bay(surface, seats, line),)
    if seats.kind == "rib-spar":
        return (_rib_to_spar(surface, seats, line, head),)
    if seats.kind == "horn" and line.rib is not None:
        return tuple(_on_rib(surface, line))
    if seats.kind == "arm":
        return (Side("not known from where", (), ("what the balance arm is riveted to",)),)
    return tuple(_on_web(surface, seats, line))


def _edge(surface: Surface, seats: Seats, name: str) -> tuple[str, Value]:
    row = surface.rows[seats.place.removeprefix("row.")]
    return f"{seats.place}.edge.{surface.said(name)}", edge_of(surface, row, name)


def _lost(prefix: str, part: Spar | Ribs) -> tuple[str, ...]:
    """Keys of a bent sheet that hide its bend."""
    return tuple(f"{prefix}.{key}" for key in ("flange", "bend_inside", "thickness") if not getattr(part, key).known)


def _beside_web(words: str, toward: str, part: Spar | Ribs, prefix: str, edge: tuple[str, Value], count: int) -> Found:
    """Rivets of a flange: its own web, the flange less the edge distance away."""
    missing = _lost(prefix, part)
    if not edge[1].known:
        missing = (*missing, edge[0])
    if missing:
        return (), missing
    away = plain(part.flange) - plain(edge[1])
    return (Wall(words, toward, np.full(count, away), plain(part.thickness), plain(part.bend_inside)),), ()


def _inside_channel(surface: Surface, seats: Seats, line: Line) -> Side:
    """Rivets of a spar flange pulled from inside: the web stands beside them."""
    spar = surface.sheet.spar
    toward = "ahead" if spar.flanges_point is not FlangesPoint.AHEAD else "behind"
    edge = _edge(surface, seats, "spar")
    return Side("from inside the spar", *_beside_web("web of the spar", toward, spar, "sheet.spar", edge, line.count))


def _rib_web(surface: Surface, seats: Seats, line: Line) -> Found:
    toward = "down" if _points(surface, line) is not RibFlangesPoint.DOWN else "up"
    edge = _edge(surface, seats, "ribs")
    return _beside_web("web of the rib", toward, surface.sheet.ribs, "sheet.ribs", edge, line.count)


def _points(surface: Surface, line: Line) -> RibFlangesPoint | None:
    ways = surface.sheet.ribs.flanges_point
    if not ways or line.rib is None:
        return None
    return ways[min(line.rib, len(ways) - 1)]


def _beside_rib(surface: Surface, line: Line) -> str:
    """Words for the side of a rib its flanges point to."""
    way = _points(surface, line)
    words = surface.said(str(way)) if way is not None else ""
    named = {"up": "above the rib", "down": "below the rib", "out": "outboard of the rib", "in": "inboard of the rib"}
    return named.get(words, "on the flanges' side of the rib")


def _inside_bay(surface: Surface, seats: Seats, line: Line) -> Side:
    return Side(f"from inside, {_beside_rib(surface, line)}", *_rib_web(surface, seats, line))


def _rib_to_spar(surface: Surface, seats: Seats, line: Line, head: str) -> Side:
    flanges, lost = _flanges(surface, line)
    behind = surface.sheet.spar.flanges_point is not FlangesPoint.AHEAD
    if head != "ribs":
        return Side("from ahead", () if behind else flanges, () if behind else lost)
    web, missing = _rib_web(surface, seats, line)
    walls = (*web, *(flanges if behind else ()))
    return Side(f"from behind, {_beside_rib(surface, line)}", walls, (*missing, *(lost if behind else ())))


def _up_across(line: Line) -> tuple[Array, Array] | None:
    """Places of the rivets along the pins and across, (n,)."""
    along, across = (line.at, line.across) if line.measured == ALONG else (line.up, line.at)
    if along is None or across is None:
        return None
    shape = (line.count,)
    return np.broadcast_to(np.asarray(along, float), shape), np.broadcast_to(np.asarray(across, float), shape)


def _depth(surface: Surface, up: Array) -> Array | None:
    places = [p for p in surface.outline.places if p.up.known and p.spar_depth.known]
    if not places:
        return None
    return np.asarray(np.interp(up, [plain(p.up) for p in places], [plain(p.spar_depth) for p in places]))


def _flanges(surface: Surface, line: Line) -> Found:
    """Both flanges of the spar, seen from a rivet in its web."""
    missing = _lost("sheet.spar", surface.sheet.spar)
    at = _up_across(line)
    depth = None if at is None else _depth(surface, at[0])
    if at is None or depth is None:
        return (), (*missing, "outline.at.spar_depth" if at is not None else "where these rivets are")
    if missing:
        return (), missing
    return _two_flanges(surface, "flange of the spar", surface.sheet.spar, depth, at[1]), ()


def _two_flanges(surface: Surface, words: str, part: Spar | Ribs, depth: Array, across: Array) -> tuple[Wall, ...]:
    thick, bend = plain(part.thickness), plain(part.bend_inside)
    high = plain(part.flange) - thick
    return tuple(
        Wall(words, surface.said(side), 0.5 * depth - sign * across, thick, bend, high)
        for side, sign in (("left", 1.0), ("right", -1.0))
    )


def _on_web(surface: Surface, seats: Seats, line: Line) -> Iterator[Side]:
    """Rivets in the web: from ahead, from behind, or both where nobody said on which side the heads are."""
    hinge = surface.hinges.get(seats.place.split(".")[1]) if seats.kind == "bracket" else None
    bracket = None if hinge is None else surface.brackets.get(hinge.bracket)
    heads = None if bracket is None else bracket.heads
    flanges, lost = _flanges(surface, line)
    behind = surface.sheet.spar.flanges_point is not FlangesPoint.AHEAD
    for face in (Face.BEHIND, Face.AHEAD) if heads is None else (heads,):
        walls, missing = (flanges, lost) if (face is Face.BEHIND) == behind else ((), ())
        notes: tuple[str, ...] = ()
        if bracket is not None and hinge is not None:
            if bracket.on_face is face:
                legs, unknown = leg_walls(surface, hinge, bracket, line)
                walls, missing = (*walls, *legs), (*missing, *unknown)
            if face is Face.BEHIND:
                ribs, hidden, notes = rib_walls(surface, hinge, bracket, line)
                walls, missing = (*walls, *ribs), (*missing, *hidden)
        yield Side(f"from {face}", walls, missing, notes)


def _on_rib(surface: Surface, line: Line) -> Iterator[Side]:
    """Rivets in the web of a rib: its flanges on one side, nothing of it on the other."""
    ribs, way, wedge = surface.sheet.ribs, _points(surface, line), _wedge(surface, line)
    missing = _lost("sheet.ribs", ribs)
    if way is None:
        missing = (*missing, "sheet.ribs.flanges_point")
    if wedge is None or line.at is None:
        missing = (*missing, "outline.at")
    for side in (RibFlangesPoint.DOWN, RibFlangesPoint.UP):
        words = {"up": "above", "down": "below", "out": "outboard", "in": "inboard"}[surface.said(str(side))]
        walls: tuple[Wall, ...] = ()
        flanged = way is None or side is way
        if wedge is not None and line.at is not None and not missing:
            depth, web = wedge
            if flanged:
                walls = _two_flanges(surface, "flange of the rib", ribs, np.full(line.count, depth), line.at)
            if _spar_goes_on(surface, line, side) and surface.sheet.spar.thickness.known:
                spar = plain(surface.sheet.spar.thickness)
                walls = (*walls, Wall("web of the spar", "ahead", np.full(line.count, web), spar, 0.0))
        yield Side(f"from {words}", walls, missing if flanged else ())


def _spar_goes_on(surface: Surface, line: Line, side: RibFlangesPoint) -> bool:
    """Whether the spar stands beyond a rib on this side of it: not beyond the first or the last rib."""
    last = len(surface.sheet.ribs.up) - 1
    return line.rib != (0 if side is RibFlangesPoint.DOWN else last)


def _wedge(surface: Surface, line: Line) -> tuple[float, float] | None:
    """Depth between the skins where a line across a rib is, and its distance from the web of the spar."""
    places = [p for p in surface.outline.places if p.up.known and p.edge_behind.known and p.web_behind.known]
    up, behind = line.up, line.behind
    if not places or up is None or behind is None:
        return None
    depth = _depth(surface, np.asarray([up]))
    at = [plain(p.up) for p in places]
    web = float(np.interp(up, at, [plain(p.web_behind) for p in places]))
    edge = float(np.interp(up, at, [plain(p.edge_behind) for p in places]))
    if depth is None or not web <= behind <= edge or edge <= web:
        return None
    return float(depth[0]) * (edge - behind) / (edge - web), behind - web
