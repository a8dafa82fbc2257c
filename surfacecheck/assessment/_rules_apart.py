"""Rules at single rivets that stand apart: hole in its range, edge, pitch to the neighbours, grip."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.checks import rivet_places
from surfacecheck.model import RivetSet
from surfacecheck.places import (
    apart_at,
    drawn_edge,
    drawn_rivet,
    layer_thickness,
    layers_at,
    plan_row,
    spot_of,
)
from surfacecheck.provenance import UNKNOWN, numbers
from surfacecheck.rules import RuleResult, bend_clearance, edge_distance, grip_range, hole_range, least_pitch

if TYPE_CHECKING:
    from collections.abc import Iterator

    from surfacecheck.model import Apart, Rivet, Row, Surface
    from surfacecheck.places import Spot
    from surfacecheck.provenance import Value

__all__ = ["apart_rules", "clear_of_bend"]


def apart_rules(surface: Surface) -> Iterator[RuleResult]:
    """Hold every rivet that stands apart against the rules.

    Parameters
    ----------
    surface : Surface
        As it is.

    Yields
    ------
    RuleResult
        Of each rivet that is there, under the name of its place.
    """
    for name, one in surface.apart.items():
        spot = spot_of(surface, name)
        kind = drawn_rivet(surface, spot) if spot.rivets else None
        rivet = one.rivet or kind
        if rivet is None or kind is None or not rivet.diameter.known or _least(one.there) == 0.0:
            continue
        yield from _holes(surface, spot, one, rivet, name)
        yield from _edges(surface, spot, one, rivet, name)
        larger = max(_least(one.diameter) for one in (rivet, kind) if one.diameter.known)
        pitch = _pitch(surface, spot)
        if pitch is not None and pitch > 0.0:
            yield least_pitch(pitch, larger, place=f"{name}.pitch")
        if spot.sort == "row":  # what else lies under a bracket is not all in the file
            yield from _grip(surface, spot, rivet, name)
            for layer, edge in one.edge.items():
                yield from clear_of_bend(surface, surface.rows[spot.owner], layer, edge, rivet, f"{name}.{layer}")


def clear_of_bend(surface: Surface, row: Row, name: str, edge: Value, rivet: Rivet, place: str) -> Iterator[RuleResult]:
    """Say whether a rivet of a skin row clears the bend of the flange it sits in.

    Parameters
    ----------
    surface : Surface
        As it is.
    row : Row
        One of its rows.
    name : str
        ``spar`` or ``ribs``; any other sheet has no bend here.
    edge : Value
        Hole centre to the free edge of the flange [m].
    rivet : Rivet
        That sits there.
    place : str
        Where.

    Yields
    ------
    RuleResult
        None where a size is not known.
    """
    if name not in {"spar", "ribs"} or not set(row.joins) & {"left_skin", "right_skin", "nose_skin"}:
        return
    part = getattr(surface.sheet, name)
    sizes = (part.flange, part.thickness, part.bend_inside, rivet.head, edge)
    if name in row.joins and all(size.known for size in sizes):
        flange, thickness, inside, head, near = (_least(size) for size in sizes)
        yield bend_clearance(flange - near, thickness, inside, head, place=place)


def _holes(surface: Surface, spot: Spot, one: Apart, rivet: Rivet, name: str) -> Iterator[RuleResult]:
    """Every layer's hole, by the diameter that is farthest out."""
    ends = rivet.hole_range if len(rivet.hole_range) == 2 else (UNKNOWN, UNKNOWN)
    low, high = (None if not end.known else _least(end) for end in ends)
    kind = "solid" if rivet.set is RivetSet.SOLID else "pulled"
    source = rivet.hole_range[0].source if rivet.hole_range else None
    for layer in layers_at(surface, spot):
        sizes = [size.get(layer, rivet.hole) for size in (one.across, one.along)]
        if all(size.known for size in sizes):
            hole = max(_largest(size) for size in sizes)
            yield hole_range(hole, low, high, set=kind, source=source, place=f"{name}.hole.{layer}")


def _edges(surface: Surface, spot: Spot, one: Apart, rivet: Rivet, name: str) -> Iterator[RuleResult]:
    head = rivet.rule_head
    for layer in layers_at(surface, spot):
        edge = one.edge.get(layer, drawn_edge(surface, spot, layer))
        if edge.known:
            toward = None if spot.sort == "row" else True
            place = f"{name}.edge.{layer}"
            yield edge_distance(_least(edge), _least(rivet.diameter), head=head, load_toward_edge=toward, place=place)


def _grip(surface: Surface, spot: Spot, rivet: Rivet, name: str) -> Iterator[RuleResult]:
    thick = [layer_thickness(surface, spot, layer) for layer in layers_at(surface, spot)]
    ends = [None if not end.known else _least(end) for end in rivet.grip] if len(rivet.grip) == 2 else [None, None]
    if all(t.known for t in thick) and any(end is not None for end in ends):
        stack = sum(_least(t) for t in thick)
        yield grip_range(stack, *ends, source=rivet.grip[0].source, place=f"{name}.grip")


def _pitch(surface: Surface, spot: Spot) -> float | None:
    """Distance to the nearest rivet of the same group or row that is there."""
    number = spot.rivets[0] - 1
    places = _places(surface, spot)
    if places is None or places.shape[-1] < 2:
        return None
    there = [_least(apart_at(surface, f"{spot.whole}.rivet-{i + 1}").there) > 0.0 for i in range(places.shape[-1])]
    there[number] = False
    apart = np.hypot(*(places - places[:, [number]]))[np.array(there)]
    return float(apart.min()) if apart.size else None


def _places(surface: Surface, spot: Spot) -> np.ndarray | None:
    """Places of the rivets of a group or a row in its own plane, shape (2, R) [m], moved where they are."""
    found = _drawn_places(surface, spot)
    if found is None:
        return None
    for i in range(found.shape[-1]):
        one = apart_at(surface, f"{spot.whole}.rivet-{i + 1}")
        for axis, moved in enumerate((one.moved_along, one.moved_across)):
            if moved.known:
                found[axis, i] += _least(moved)
    return found


def _drawn_places(surface: Surface, spot: Spot) -> np.ndarray | None:
    if spot.sort == "bracket":
        along, across = rivet_places(surface, surface.brackets[surface.hinges[spot.owner].bracket])
        return np.array([along, surface.left_is * across])
    if spot.sort == "horn" and surface.horn is not None:
        fixing = surface.horn.fixed_with
        n, m = fixing.fore_aft or 1, fixing.sideways or 1
        gaps = [_least(gap) if gap.known else 0.0 for gap in (fixing.gap_fore_aft, fixing.gap_sideways)]
        return np.array([np.repeat(np.arange(n) * gaps[0], m), np.tile(np.arange(m) * gaps[1], n)])
    plan = plan_row(surface, surface.rows[spot.owner])
    if plan is None:
        return None
    count = int(np.max(plan.rib_count[..., spot.rib - 1])) if spot.rib else plan.count
    pitch = float(np.min(plan.rib_pitch[..., spot.rib - 1] if spot.rib else plan.pitch))
    gap = surface.rows[spot.owner].line_gap
    beside = _least(gap) if gap.known else 1.0
    lines = np.repeat(np.arange(plan.lines), count) * beside
    return np.array([np.tile(np.arange(count) * pitch, plan.lines), lines])


def _least(value: Value) -> float:
    return value.si if isinstance(value.si, float) else float(np.min(numbers(value)))


def _largest(value: Value) -> float:
    return float(np.max(numbers(value)))
