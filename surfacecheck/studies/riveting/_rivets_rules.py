"""Rules over whole lists: which text each alternative of a row meets, does not meet, or is not covered by."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.checks import edge_of
from surfacecheck.model import HeadKind, RivetSet
from surfacecheck.provenance import numbers, plain
from surfacecheck.rules import (
    DOES_NOT_MEET,
    NOT_COVERED,
    countersink_depth,
    edge_times,
    hole_range,
    pitch_times,
    short_of,
)
from surfacecheck.strength import LEAST_T_OVER_D
from surfacecheck.studies.riveting._rivets_work import with_edge

if TYPE_CHECKING:
    from collections.abc import Iterator

    from numpy.typing import NDArray

    from surfacecheck.model import Ribs, Row, Spar, Surface
    from surfacecheck.studies.riveting._rivets_load import Front
    from surfacecheck.studies.riveting._rivets_work import Setting

    Array = NDArray[np.float64]
    Truth = NDArray[np.bool_]

__all__ = ["RULES", "Judged", "flange_of", "judge", "stack_of"]

RULES = (
    "edge distance",
    "least pitch",
    "gap of lines",
    "head clear of the bend",
    "hole in its range",
    "grip",
    "sheet for this rivet",
    "depth of the countersink",
)
"""Rules that count, by the names that ``surfacecheck.rules`` gives them; each has a bit, in this order."""


@dataclass(frozen=True, eq=False)
class Judged:
    """What texts say; L layouts, E edges; a bit for each of :data:`RULES`.

    Attributes
    ----------
    not_met, not_covered : ndarray of int, shape (L, E)
        Bits of the rules that are not met, and of those that do not cover it.
    """

    not_met: NDArray[np.uint16]
    not_covered: NDArray[np.uint16]


def stack_of(surface: Surface, row: Row) -> tuple[float | None, tuple[float, ...]]:
    """Give the thickness a rivet of a row goes through, and the sheets that are known.

    Parameters
    ----------
    surface : Surface
        For its sheets.
    row : Row
        Which joins them.

    Returns
    -------
    tuple of (float or None, tuple of float)
        Together, None where one is not known, and each [m].
    """
    parts = [surface.sheet.doublers.get(name) or getattr(surface.sheet, name, None) for name in row.joins]
    there = [part.thickness for part in parts if part is not None and not part.thickness.absent]
    each = tuple(plain(one) for one in there if one.known)
    return (sum(each) if len(each) == len(there) and each else None), each


def flange_of(surface: Surface, row: Row, name: str) -> float | None:
    """Give the width of the flange a row lies on, where it lies on one.

    Parameters
    ----------
    surface : Surface
        For its spar and ribs.
    row : Row
        Which joins them.
    name : str
        One of its parts.

    Returns
    -------
    float or None
        Outside of web to free edge [m].
    """
    skins = set(row.joins) & {"left_skin", "right_skin", "nose_skin"}
    parts: dict[str, Spar | Ribs] = {"spar": surface.sheet.spar, "ribs": surface.sheet.ribs}
    part = parts.get(name) if skins else None
    return plain(part.flange) if part is not None and part.flange.known else None


def judge(setting: Setting, front: Front, closest: Array) -> Judged:
    """Hold every layout and edge of a row against the texts that count.

    Parameters
    ----------
    setting : Setting
        Rivet, row, edges.
    front : Front
        Layouts.
    closest : ndarray, shape (L,)
        Least distance of two rivets [m].

    Returns
    -------
    Judged
        As ``surfacecheck.rules`` says of each by itself.
    """
    shape = len(front.plans), len(setting.edges)
    not_met, not_covered = (np.zeros(shape, dtype=np.uint16) for _ in range(2))
    for name, met, covered in _each(setting, front, closest):
        bit = np.uint16(1 << RULES.index(name))
        not_met |= np.where(met, np.uint16(0), bit)
        not_covered |= np.where(covered, np.uint16(0), bit)
    return Judged(not_met, not_covered)


def _each(setting: Setting, front: Front, closest: Array) -> Iterator[tuple[str, Truth, Truth]]:
    """Give each rule, where it is met and where it covers, over (L, E) or what broadcasts to it."""
    yes, no = np.array(True), np.array(False)
    rivet, row, surface = setting.rivet, setting.row, setting.surface
    stack, sheets = stack_of(surface, row)
    if rivet.diameter.known:
        D = plain(rivet.diameter)
        edges = _edges(setting)
        if edges.size:
            yield "edge distance", ~short_of(edges.min(axis=0), edge_times(rivet.rule_head) * D)[None, :], yes
        times = np.array([pitch_times(plan.lines) for plan in front.plans])
        yield "least pitch", (~short_of(closest, times * D) | (closest <= 0.0))[:, None], yes
        several = np.array([plan.lines > 1 for plan in front.plans])[:, None]
        gap = plain(row.line_gap) if row.line_gap.known else None
        yield "gap of lines", ~several | (gap is None or not short_of(gap, 2.5 * D)), ~several | (gap is not None)
        if sheets:
            yield "sheet for this rivet", yes, ~short_of(min(sheets), LEAST_T_OVER_D * D)
        yield from _clear_of_bend(setting)
        if rivet.head_kind is HeadKind.COUNTERSUNK:
            yield _countersink(setting)
    if rivet.hole.known:
        low, high = (None, None) if len(rivet.hole_range) != 2 else (
            plain(end) if end.known else None for end in rivet.hole_range
        )  # fmt: skip
        kind = "solid" if rivet.set is RivetSet.SOLID else "pulled"
        said = hole_range(plain(rivet.hole), low, high, set=kind).outcome
        yield "hole in its range", np.array(said != DOES_NOT_MEET), np.array(said != NOT_COVERED)
    if rivet.set is not RivetSet.SOLID and stack is not None:
        both = len(rivet.grip) == 2 and all(end.known for end in rivet.grip)
        yield "grip", yes, yes if both else no


def _edges(setting: Setting) -> Array:
    """Every known edge distance, (sheets, E) [m]."""
    rows = [with_edge(setting.row, edge) for edge in setting.edges]
    every = [[edge_of(setting.surface, row, name) for row in rows] for name in setting.row.joins]
    return np.array([[plain(one) for one in line] for line in every if all(one.known for one in line)])


def _countersink(setting: Setting) -> tuple[str, Truth, Truth]:
    """Hold a flush head against the sheet it is cut into."""
    rivet, sheet, name = setting.rivet, setting.surface.sheet, setting.row.joins[0]
    part = sheet.doublers.get(name) or getattr(sheet, name, None)
    yes, no = np.array(True), np.array(False)
    if part is None or not (part.thickness.known and rivet.head.known) or part.thickness.absent:
        return "depth of the countersink", yes, no
    kind = "solid" if rivet.set is RivetSet.SOLID else "pulled"
    said = countersink_depth(plain(rivet.head), plain(rivet.diameter), plain(part.thickness), set=kind)
    return "depth of the countersink", np.array(said.outcome != DOES_NOT_MEET), yes


def _clear_of_bend(setting: Setting) -> Iterator[tuple[str, Truth, Truth]]:
    """Hold the head, or the tail, against the bend of the flange it sits on."""
    surface, row, rivet = setting.surface, setting.row, setting.rivet
    for name in ("spar", "ribs"):
        part = getattr(surface.sheet, name)
        flange = flange_of(surface, row, name) if name in row.joins else None
        rows = [with_edge(row, edge) for edge in setting.edges]
        edges = [one.edge.get(name) for one in rows]
        if flange is None or not all(e is not None and e.known for e in edges) or not rivet.head.known:
            continue
        if part.thickness.known and part.bend_inside.known:
            asked = plain(part.thickness) + plain(part.bend_inside) + 0.5 * plain(rivet.head)
            away = flange - np.array([float(numbers(e)) for e in edges if e is not None])
            yield "head clear of the bend", ~short_of(away, asked)[None, :], np.array(True)
