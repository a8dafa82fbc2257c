"""The rules of the trade asked of every sample of a scatter: how often each does not meet, or is not covered."""

from __future__ import annotations

from dataclasses import dataclass
from functools import reduce
from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from surfacecheck.checks import edge_of, plan_row
from surfacecheck.provenance import numbers
from surfacecheck.rules import (
    bend_clearance_short,
    bend_radius_short,
    edge_short,
    gap_short,
    outside_range,
    pitch_short,
    sheet_too_thin,
)

if TYPE_CHECKING:
    from collections.abc import Iterator

    from numpy.typing import NDArray

    from surfacecheck.model import Rivet, Row, Surface
    from surfacecheck.provenance import Value
    from surfacecheck.rules import RuleResult

    Array = NDArray[np.float64]
    Flags = NDArray[np.bool_]

__all__ = ["Asked", "RuleScatter", "asked_of", "rule_scatter"]


class Asked(NamedTuple):
    """A rule asked of every sample.

    Attributes
    ----------
    name, place : str
        As :class:`RuleResult` has them.
    broken, uncovered : ndarray of bool, shape (n,) or ()
        Where it says ``does not meet``, and where ``not covered``.
    """

    name: str
    place: str
    broken: Flags
    uncovered: Flags


@dataclass(frozen=True)
class RuleScatter:
    """How often a rule is not met.

    Attributes
    ----------
    rule : RuleResult
        Of the surface as described.
    broken, uncovered : float
        Share of the samples that do not meet it, and that it does not cover [-].
    """

    rule: RuleResult
    broken: float
    uncovered: float


def rule_scatter(rules: tuple[RuleResult, ...], samples: Surface) -> tuple[RuleScatter, ...]:
    """Ask the rules of every sample.

    Parameters
    ----------
    rules : tuple of RuleResult
        Of the surface as described.
    samples : Surface
        The same with stacks of samples for numbers.

    Returns
    -------
    tuple of RuleScatter
        Rules with an outcome that is counted place by place, in their order.
    """
    asked = {(one.name, one.place): one for one in asked_of(samples)}
    found = []
    for rule in rules:
        one = asked.get((rule.name, rule.place))
        if one is not None:
            found.append(RuleScatter(rule, float(np.mean(one.broken)), float(np.mean(one.uncovered))))
    return tuple(found)


def asked_of(surface: Surface) -> Iterator[Asked]:
    """Ask every rule that is counted place by place; the order and the places are those of the assessment's rules.

    Parameters
    ----------
    surface : Surface
        Its numbers may be stacks.

    Yields
    ------
    Asked
        Row by row, rivets, bracket by bracket, bends.
    """
    for row in surface.rows.values():
        rivet = surface.rivets.get(row.rivet)
        if rivet is not None and rivet.diameter.known:
            yield from _of_row(surface, row, rivet)
    for rivet in surface.rivets.values():
        if rivet.hole.known:
            yield _between("hole in its range", f"rivet.{rivet.name}.hole", numbers(rivet.hole), rivet.hole_range)
    yield from _of_brackets(surface)
    yield from _of_bends(surface)


def _asked(name: str, place: str, broken: Flags, uncovered: Flags | None = None) -> Asked:
    return Asked(name, place, broken, np.zeros(broken.shape, dtype=bool) if uncovered is None else uncovered)


def _between(name: str, place: str, found: Array, ends: tuple[Value, ...]) -> Asked:
    """Ask for a range of which either end may be unknown."""
    low, high = (None if not one.known else numbers(one) for one in ends) if len(ends) == 2 else (None, None)
    broken = outside_range(found, low, high)
    return _asked(name, place, broken, ~broken if low is None or high is None else None)


def _of_row(surface: Surface, row: Row, rivet: Rivet) -> Iterator[Asked]:
    diameter, place = numbers(rivet.diameter), f"row.{row.name}"
    for name in row.joins:
        edge = edge_of(surface, row, name)
        if edge.known:
            yield _asked("edge distance", f"{place}.edge.{name}", edge_short(numbers(edge), diameter, rivet.rule_head))
    plan = plan_row(surface, row)
    if plan is not None:
        pitch = np.asarray(plan.rib_pitch.min(axis=-1) if plan.rib_pitch.size else plan.pitch)
        several = (np.asarray(plan.count) >= 2) & (np.asarray(plan.pitch) > 0.0)
        yield _asked("least pitch", f"{place}.pitch", pitch_short(pitch, diameter, plan.lines) & several)
        if plan.lines > 1 and row.line_gap.known:
            close = gap_short(numbers(row.line_gap), diameter)
            yield _asked("gap of lines", f"{place}.line_gap", close & several)
    parts = [surface.sheet.doublers.get(name) or getattr(surface.sheet, name, None) for name in row.joins]
    thick = [numbers(p.thickness) for p in parts if p is not None and p.thickness.known and not p.thickness.absent]
    if thick:
        thin = sheet_too_thin(reduce(np.minimum, thick), diameter)
        yield _asked("sheet for this rivet", place, np.zeros(thin.shape, dtype=bool), thin)
        if len(thick) == len(parts) and any(one.known for one in rivet.grip):
            yield _between("grip", place, np.asarray(sum(thick)), rivet.grip)


def _of_brackets(surface: Surface) -> Iterator[Asked]:
    used = {hinge.bracket for hinge in surface.hinges.values()}
    for name, bracket in surface.brackets.items():
        rivet, place = surface.rivets.get(bracket.rivet), f"bracket.{name}"
        if name not in used or rivet is None or not rivet.diameter.known:
            continue
        diameter = numbers(rivet.diameter)
        for sheet, edge in bracket.edge.items():
            if edge.known:
                yield _asked(
                    "edge distance", f"{place}.edge.{sheet}", edge_short(numbers(edge), diameter, rivet.rule_head)
                )
        gaps = {
            "gap_along": (bracket.gap_along, bracket.along),
            "gap_sideways": (bracket.gap_sideways, bracket.sideways),
        }
        for key, (gap, count) in gaps.items():
            if gap.known and (count or 0) > 1:
                yield _asked("least pitch", f"{place}.{key}", pitch_short(numbers(gap), diameter))
        if bracket.bend_inside.known and bracket.thickness.known and bracket.alloy:
            bend = bend_radius_short(bracket.alloy, numbers(bracket.thickness), numbers(bracket.bend_inside))
            yield _asked("bend radius", f"{place}.bend_inside", *bend)


def _of_bends(surface: Surface) -> Iterator[Asked]:
    for name, part in (("spar", surface.sheet.spar), ("ribs", surface.sheet.ribs)):
        if not (part.bend_inside.known and part.thickness.known):
            continue
        thickness, inside = numbers(part.thickness), numbers(part.bend_inside)
        if part.alloy:
            bend = bend_radius_short(part.alloy, thickness, inside)
            yield _asked("bend radius", f"sheet.{name}.bend_inside", *bend)
        for row in surface.rows.values():
            rivet, edge = surface.rivets.get(row.rivet), row.edge.get(name)
            across = name in row.joins and {"left_skin", "right_skin", "nose_skin"} & set(row.joins)
            if rivet is None or edge is None or not (across and edge.known and part.flange.known and rivet.head.known):
                continue
            from_bend = numbers(part.flange) - numbers(edge)
            clear = bend_clearance_short(from_bend, thickness, inside, numbers(rivet.head))
            yield _asked("head clear of the bend", f"row.{row.name}.{name}", clear)
