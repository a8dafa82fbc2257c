"""Rules at every place of a surface."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.assessment._rules_apart import apart_rules, clear_of_bend
from surfacecheck.checks import plan_row
from surfacecheck.library import metal_of
from surfacecheck.model import RivetSet
from surfacecheck.places import least_edge
from surfacecheck.provenance import numbers
from surfacecheck.rules import (
    RuleResult,
    bend_radius,
    diameter_for_sheet,
    edge_distance,
    gathered,
    greatest_pitches,
    grip_range,
    hole_range,
    least_pitch,
    row_gap,
    sheet_range,
)

if TYPE_CHECKING:
    from collections.abc import Iterator

    from surfacecheck.model import Rivet, Row, Surface
    from surfacecheck.places import RowPlan
    from surfacecheck.provenance import Value

__all__ = ["rules_of"]


def _f(value: Value) -> float:
    return value.si if isinstance(value.si, float) else float(np.min(numbers(value)))


def rules_of(surface: Surface) -> tuple[RuleResult, ...]:
    """Hold a surface against the rules of the trade.

    Parameters
    ----------
    surface : Surface
        As described.

    Returns
    -------
    tuple of RuleResult
        Row by row, bracket by bracket; texts from other fields once for the surface.
    """
    results: list[RuleResult] = []
    once: list[RuleResult] = []
    for row in surface.rows.values():
        rivet = surface.rivets.get(row.rivet)
        if rivet is None or not rivet.diameter.known:
            continue
        results += _edges(surface, row, rivet)
        plan = plan_row(surface, row)
        results += _pitch(row, rivet, plan)
        once += _sheets(surface, row, rivet, plan)
    results += _rivets(surface)
    results += _brackets(surface)
    results += _bends(surface)
    results += apart_rules(surface)
    return tuple([*results, *gathered(once)])


def _edges(surface: Surface, row: Row, rivet: Rivet) -> Iterator[RuleResult]:
    for name in row.joins:
        edge = least_edge(surface, row, name)
        if edge.known:
            yield edge_distance(_f(edge), _f(rivet.diameter), head=rivet.rule_head, place=f"row.{row.name}.edge.{name}")


def _pitch(row: Row, rivet: Rivet, plan: RowPlan | None) -> Iterator[RuleResult]:
    if plan is None or plan.count < 2 or plan.pitch <= 0.0:
        return
    pitch = float(plan.rib_pitch.min()) if plan.rib_pitch.size else plan.pitch
    yield least_pitch(pitch, _f(rivet.diameter), lines=plan.lines, place=f"row.{row.name}.pitch")
    if plan.lines > 1 and row.line_gap.known:
        yield row_gap(_f(row.line_gap), pitch, _f(rivet.diameter), place=f"row.{row.name}.line_gap")


def _sheets(surface: Surface, row: Row, rivet: Rivet, plan: RowPlan | None) -> Iterator[RuleResult]:
    parts = [surface.sheet.doublers.get(n) or getattr(surface.sheet, n, None) for n in row.joins]
    thick = [_f(p.thickness) for p in parts if p is not None and p.thickness.known and not p.thickness.absent]
    if not thick:
        return
    place = f"row.{row.name}"
    yield sheet_range(min(thick), _f(rivet.diameter), place=place)
    yield diameter_for_sheet(_f(rivet.diameter), max(thick), place=place)
    if plan is not None and plan.pitch > 0.0 and plan.count > 1:
        yield from greatest_pitches(plan.pitch, min(thick), place=place)
    if len(rivet.grip) == 2 and len(thick) == len(parts):
        low, high = (None if not g.known else _f(g) for g in rivet.grip)
        if low is not None or high is not None:
            yield grip_range(sum(thick) + _shim(surface, row), low, high, source=rivet.grip[0].source, place=place)


def _shim(surface: Surface, row: Row) -> float:
    whole = surface.apart.get(f"row.{row.name}")
    return 0.0 if whole is None or not whole.shim.known else _f(whole.shim)


def _rivets(surface: Surface) -> Iterator[RuleResult]:
    for rivet in surface.rivets.values():
        if not rivet.hole.known:
            continue
        low, high = (
            (None, None) if len(rivet.hole_range) != 2 else (None if not v.known else _f(v) for v in rivet.hole_range)
        )
        kind = "solid" if rivet.set is RivetSet.SOLID else "pulled"
        source = rivet.hole_range[0].source if rivet.hole_range else None
        yield hole_range(_f(rivet.hole), low, high, set=kind, source=source, place=f"rivet.{rivet.name}.hole")


def _brackets(surface: Surface) -> Iterator[RuleResult]:
    used = {h.bracket for h in surface.hinges.values()}
    for name, bracket in surface.brackets.items():
        rivet = surface.rivets.get(bracket.rivet)
        if name not in used or rivet is None or not rivet.diameter.known:
            continue
        for sheet, edge in bracket.edge.items():
            if edge.known:
                place = f"bracket.{name}.edge.{sheet}"
                yield edge_distance(
                    _f(edge), _f(rivet.diameter), head=rivet.rule_head, load_toward_edge=True, place=place
                )
        for gap, count, key in (
            (bracket.gap_along, bracket.along, "gap_along"),
            (bracket.gap_sideways, bracket.sideways, "gap_sideways"),
        ):
            if gap.known and (count or 0) > 1:
                yield least_pitch(_f(gap), _f(rivet.diameter), place=f"bracket.{name}.{key}")
        if bracket.bend_inside.known and bracket.thickness.known and bracket.alloy:
            metal = metal_of(surface, bracket.alloy, bracket.thickness).name
            place = f"bracket.{name}.bend_inside"
            yield bend_radius(metal, _f(bracket.thickness), _f(bracket.bend_inside), place=place)


def _bends(surface: Surface) -> Iterator[RuleResult]:
    sheet = surface.sheet
    for name, part in (("spar", sheet.spar), ("ribs", sheet.ribs)):
        if not (part.bend_inside.known and part.thickness.known):
            continue
        if part.alloy:
            metal = metal_of(surface, part.alloy, part.thickness).name
            yield bend_radius(metal, _f(part.thickness), _f(part.bend_inside), place=f"sheet.{name}.bend_inside")
        for row in surface.rows.values():
            rivet = surface.rivets.get(row.rivet)
            edge = least_edge(surface, row, name, most=True)
            if rivet is not None and name in row.edge:
                yield from clear_of_bend(surface, row, name, edge, rivet, f"row.{row.name}.{name}")
