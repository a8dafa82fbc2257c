"""Alternatives that have no room: holes and heads that run into each other, flanges and webs that end before."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.axes import line_at
from surfacecheck.checks import edge_of, row_kind
from surfacecheck.model import RivetSet
from surfacecheck.provenance import plain
from surfacecheck.rules import length, short_of
from surfacecheck.studies.riveting._rivets_rules import flange_of, stack_of
from surfacecheck.studies.riveting._rivets_work import with_edge

if TYPE_CHECKING:
    from collections.abc import Iterator

    from numpy.typing import NDArray

    from surfacecheck.model import Rivet, Row, Surface
    from surfacecheck.studies.riveting._rivets_load import Front
    from surfacecheck.studies.riveting._rivets_work import Setting

    Array = NDArray[np.float64]
    Truth = NDArray[np.bool_]

__all__ = ["impossible"]


def impossible(setting: Setting, front: Front, closest: Array) -> Iterator[tuple[Truth, str]]:
    """Say what cannot be built at all.

    Parameters
    ----------
    setting : Setting
        Rivet, row, edges.
    front : Front
        L layouts.
    closest : ndarray, shape (L,)
        Least distance of two rivets [m].

    Yields
    ------
    tuple of (ndarray of bool, str)
        Which cannot be, over (L, E) or what broadcasts to it, and why; the first reason given is the one told.
    """
    rivet = setting.rivet
    hole = rivet.hole if rivet.hole.known else rivet.diameter
    if why := _no_grip(setting.surface, setting.row, rivet):
        yield np.array(True), why
    if not hole.known:
        return
    wide = plain(hole)
    head = plain(rivet.head) if rivet.head.known else wide
    for near in np.unique(closest[(closest > 0.0) & ((closest <= wide) | short_of(closest, head))]):
        met = f"holes of {length(wide)}" if near <= wide else f"heads of {length(head)}"
        yield (closest == near)[:, None], f"rivets {length(near)} apart: their {met} run into each other"
    yield from _beyond_web(setting, front, wide)
    yield from _beyond_strip(setting, front, wide)
    yield from _beyond_flange(setting, front, wide)
    for e, edge in enumerate(setting.edges):
        if why := _off_sheet(setting, edge, wide):
            yield (np.arange(len(setting.edges)) == e)[None, :], why


def _beyond_web(setting: Setting, front: Front, hole: float) -> Iterator[tuple[Truth, str]]:
    """Say that so many rivets have no room on the web of the spar, at the rib where it is shallowest."""
    row, surface = setting.row, setting.surface
    if row_kind(surface, row) != "rib-spar":
        return
    places = [p for p in surface.outline.places if p.up.known and p.spar_depth.known]
    ups = [plain(up) for up in surface.sheet.ribs.up if up.known]
    if not (places and ups):
        return
    up, depth = (np.array([plain(getattr(p, name)) for p in places]) for name in ("up", "spar_depth"))
    deep = float(line_at(up, depth, np.array(ups)).min())
    count = np.array([plan.count for plan in front.plans])
    for many in np.unique(count):
        gap, said = _gap(plain(row.gap) if row.gap.known else None, hole)
        reach = (many - 1) * gap
        if many > 1 and reach + hole > deep:
            why = f"{many} rivets {said} reach over {length(reach)}; the spar is {length(deep)} deep at a rib"
            yield (count == many)[:, None], why


def _beyond_strip(setting: Setting, front: Front, hole: float) -> Iterator[tuple[Truth, str]]:
    """Say that so many lines are wider than the lap of the skins, or than the doubler."""
    row, surface = setting.row, setting.surface
    kind, strips = row_kind(surface, row), []
    if kind == "edge" and surface.outline.lap.known:
        strips.append((plain(surface.outline.lap), "lap"))
    for name in row.joins if kind == "doubler" else ():
        doubler = surface.sheet.doublers.get(name)
        if doubler is not None and doubler.wide.known:
            strips.append((plain(doubler.wide), "doubler"))
    gap, said = _gap(plain(row.line_gap) if row.line_gap.known else None, hole)
    for wide, word in strips:
        for lines, those in _by_lines(front):
            if (lines - 1) * gap + hole > wide:
                yield those, f"{lines} lines {said} have no room on a {word} of {length(wide)}"


def _beyond_flange(setting: Setting, front: Front, hole: float) -> Iterator[tuple[Truth, str]]:
    """Say that so many lines have no room on the flange, at each edge by itself."""
    row = setting.row
    gap, said = _gap(plain(row.line_gap) if row.line_gap.known else None, hole)
    for name in row.joins:
        flange = flange_of(setting.surface, row, name)
        edges = [edge_of(setting.surface, with_edge(row, one), name) for one in setting.edges]
        if flange is None:
            continue
        near = np.array([plain(one) if one.known else 0.5 * hole for one in edges])
        for lines, those in _by_lines(front):
            far = near + (lines - 1) * gap > flange - 0.5 * hole
            if far.any():
                yield those & far[None, :], f"{lines} lines {said} have no room on a flange of {length(flange)}"


def _by_lines(front: Front) -> Iterator[tuple[int, Truth]]:
    """Give each number of lines above one, and the layouts that have it, (L, 1)."""
    every = np.array([plan.lines for plan in front.plans])
    for lines in np.unique(every[every > 1]):
        yield int(lines), (every == lines)[:, None]


def _gap(given: float | None, hole: float) -> tuple[float, str]:
    """Give how far apart they are; where nobody said so, the least: one hole beside the other."""
    return (hole, "hole beside hole") if given is None else (given, f"{length(given)} apart")


def _off_sheet(setting: Setting, edge: float | None, hole: float) -> str:
    row = with_edge(setting.row, edge)
    for name in row.joins:
        found = edge_of(setting.surface, row, name)
        if not found.known:
            continue
        away, where = plain(found), f"the edge of the {setting.surface.sheet_words(name)}"
        if away <= 0.5 * hole:
            return f"{length(away)} to {where}: a hole of {length(hole)} runs off it"
        flange = flange_of(setting.surface, row, name)
        if flange is not None and away >= flange - 0.5 * hole:
            return f"{length(away)} from {where}, whose flange is {length(flange)}"
    return ""


def _no_grip(surface: Surface, row: Row, rivet: Rivet) -> str:
    stack, _ = stack_of(surface, row)
    if rivet.set is RivetSet.SOLID or stack is None or len(rivet.grip) != 2:
        return ""
    low, high = rivet.grip
    if (low.known and short_of(stack, plain(low))) or (high.known and short_of(stack, plain(high), most=True)):
        ends = " to ".join(length(plain(end)) if end.known else "?" for end in rivet.grip)
        return f"{length(stack)} of sheet is outside the grip of {rivet.name}, {ends}"
    return ""
