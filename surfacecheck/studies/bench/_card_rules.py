"""The rules of one row: edge, pitch, rivet and sheet, grip, hole, bend, repairs."""

from __future__ import annotations

from typing import TYPE_CHECKING

from surfacecheck.checks import edge_of
from surfacecheck.model import HeadKind, RivetSet
from surfacecheck.provenance import UNKNOWN, plain
from surfacecheck.rules import (
    bend_clearance,
    bend_radius,
    countersink_depth,
    diameter_for_sheet,
    edge_distance,
    edge_texts,
    greatest_pitches,
    grip_range,
    hole_range,
    least_pitch,
    least_rivet,
    pitch_texts,
    repairs_in_row,
    row_gap,
    sheet_range,
)
from surfacecheck.studies.bench._seats import known
from surfacecheck.studies.bench._stacks import stretches, thickness_of

if TYPE_CHECKING:
    from collections.abc import Iterator

    from surfacecheck.model import Rivet, Surface
    from surfacecheck.provenance import Value
    from surfacecheck.rules import RuleResult
    from surfacecheck.studies.bench._seats import Seats

__all__ = ["card_rules"]

_ALONG = {"spar", "edge", "rib", "rib-spar"}
"""Kinds of row whose load runs along the edges of their sheets: shear flow of a skin, force of a rib."""


def card_rules(surface: Surface, seats: Seats) -> tuple[list[RuleResult], tuple[str, ...]]:
    """Hold one row, bracket or the horn against every text.

    Parameters
    ----------
    surface : Surface
        Perhaps half-filled.
    seats : Seats
        The row or group.

    Returns
    -------
    rules : list of RuleResult
        Edge, pitch, rivet, grip, hole, bend, repairs.
    missing : tuple of str
        Keys that hide one of them.
    """
    rivet = surface.rivets.get(seats.rivet)
    missing: list[str] = []
    if rivet is None or not rivet.diameter.known:
        where = "part D" if rivet is None else f"rivet.{rivet.name}.diameter"
        return [], (where if seats.rivet else f"{seats.place}.rivet",)
    rules = [
        *_edges(surface, seats, rivet, missing),
        *_pitches(surface, seats, rivet, missing),
        *_sheets(surface, seats, rivet, missing),
        *_hole(rivet, missing),
        *_bends(surface, seats, rivet, missing),
        *_repairs(surface, seats),
    ]
    return rules, tuple(missing)


def _edge_values(surface: Surface, seats: Seats) -> Iterator[tuple[str, Value]]:
    """Every edge distance of a row or group, with its key."""
    row = surface.rows.get(seats.place.removeprefix("row."))
    if row is not None:
        for name in seats.joins:
            yield f"{seats.place}.edge.{surface.said(name)}", edge_of(surface, row, name)
    elif seats.kind == "bracket":
        bracket = surface.brackets.get(surface.hinges[seats.place.split(".")[1]].bracket)
        for name in ("bracket", "spar") if bracket is not None else ():
            yield f"bracket.{bracket.name}.edge.{name}", bracket.edge.get(name, UNKNOWN)  # type: ignore[union-attr]
    elif seats.kind == "horn" and surface.horn is not None:
        yield "horn.fixed_with.edge", surface.horn.fixed_with.edge
    elif surface.balance_mass.fixed_with is not None:
        yield "balance_mass.fixed_with.edge", surface.balance_mass.fixed_with.edge


def _edges(surface: Surface, seats: Seats, rivet: Rivet, missing: list[str]) -> Iterator[RuleResult]:
    sunk = rivet.sunk
    toward = True if seats.kind in {"bracket", "horn", "arm"} else (False if seats.kind in _ALONG else None)
    head, d = "countersunk" if sunk else "protruding", plain(rivet.diameter)
    found: list[tuple[float, str]] = []
    for key, edge in _edge_values(surface, seats):
        if edge.known:
            found.append((plain(edge), key))
            yield edge_distance(plain(edge), d, head=head, load_toward_edge=toward, place=key)
        else:
            missing.append(key)
    if found:  # other texts once, at the shortest
        yield from edge_texts(min(found)[0], d, place=min(found)[1])


def _pitches(surface: Surface, seats: Seats, rivet: Rivet, missing: list[str]) -> Iterator[RuleResult]:
    d, place = plain(rivet.diameter), f"{seats.place}.pitch"
    found = [line.pitch for line in seats.lines if line.pitch is not None]
    gap, key = _line_gap(surface, seats)
    row = surface.rows.get(seats.place.removeprefix("row."))
    lines = 1 if row is None else row.lines or 1
    if not found:
        missing += seats.missing or (place,)
        return
    yield least_pitch(min(found), d, lines=lines, place=place)
    yield from pitch_texts(min(found), d, place=place)
    thin = _thicknesses(surface, seats)
    if thin and seats.kind not in {"bracket", "horn", "arm"}:
        yield from greatest_pitches(max(found), min(thin), place=place)
    if gap is not None:
        yield row_gap(gap, min(found), d, place=key)
    elif key:
        missing.append(key)


def _line_gap(surface: Surface, seats: Seats) -> tuple[float | None, str]:
    """Distance of two lines side by side, and its key; an empty key for a single line."""
    row = surface.rows.get(seats.place.removeprefix("row."))
    if row is not None:
        return (known(row.line_gap), f"{seats.place}.line_gap") if (row.lines or 1) > 1 else (None, "")
    if seats.kind == "bracket":
        bracket = surface.brackets.get(surface.hinges[seats.place.split(".")[1]].bracket)
        if bracket is None or (bracket.sideways or 1) < 2:
            return None, ""
        return known(bracket.gap_sideways), f"bracket.{bracket.name}.gap_sideways"
    fixing = surface.horn.fixed_with if seats.kind == "horn" and surface.horn is not None else None
    fixing = surface.balance_mass.fixed_with if seats.kind == "arm" else fixing
    if fixing is None or (fixing.fore_aft or 1) < 2:
        return None, ""
    return known(fixing.gap_fore_aft), f"{seats.place}.fixed_with.gap_fore_aft"


def _thicknesses(surface: Surface, seats: Seats) -> list[float]:
    sheets = (thickness_of(surface, seats, name) for name in seats.joins)
    return [plain(one) for one in sheets if one.known and not one.absent]


def _sheets(surface: Surface, seats: Seats, rivet: Rivet, missing: list[str]) -> Iterator[RuleResult]:
    thick, d, place = _thicknesses(surface, seats), plain(rivet.diameter), seats.place
    if thick:
        yield sheet_range(min(thick), d, place=place)
        yield diameter_for_sheet(d, max(thick), place=place)
    yield least_rivet(d, place=place)
    if rivet.head_kind is HeadKind.COUNTERSUNK:
        yield from _countersink(surface, seats, rivet, missing)
    for stretch in stretches(surface, seats):
        kind = surface.rivets.get(stretch.rivet, rivet)
        where = place if not stretch.split else f"{place}, {stretch.count} rivets"
        yield from _grip(kind, stretch.stack.thickness, stretch.stack.missing, where, missing)


def _countersink(surface: Surface, seats: Seats, rivet: Rivet, missing: list[str]) -> Iterator[RuleResult]:
    outer = thickness_of(surface, seats, seats.joins[0])
    if not (rivet.head.known and outer.known):
        missing.append(outer.key if rivet.head.known else f"rivet.{rivet.name}.head")
        return
    kind = "solid" if rivet.set is RivetSet.SOLID else "pulled"
    yield countersink_depth(plain(rivet.head), plain(rivet.diameter), plain(outer), set=kind, place=seats.place)


def _grip(
    rivet: Rivet, stack: float | None, hidden: tuple[str, ...], where: str, missing: list[str]
) -> Iterator[RuleResult]:
    if rivet.set is RivetSet.SOLID:
        return
    if stack is None:
        missing += hidden
        return
    ends = [known(one) for one in rivet.grip]
    if len(ends) == 2 and ends != [None, None]:
        yield grip_range(stack, ends[0], ends[1], source=rivet.grip[0].source, place=where)
    for one in rivet.lengths or ():
        low, high = (known(end) for end in one.grip) if len(one.grip) == 2 else (None, None)
        if low is not None and high is not None and low <= stack <= high:
            yield grip_range(stack, low, high, source=one.length.source, place=f"{where}, length {one.length.said}")
    if ends in ([], [None, None]):
        missing.append(f"rivet.{rivet.name}.grip")
        if not rivet.lengths:
            yield grip_range(stack, None, None, place=where)


def _hole(rivet: Rivet, missing: list[str]) -> Iterator[RuleResult]:
    if not rivet.hole.known:
        missing.append(f"rivet.{rivet.name}.hole")
        return
    low, high = (known(one) for one in rivet.hole_range) if len(rivet.hole_range) == 2 else (None, None)
    kind = "solid" if rivet.set is RivetSet.SOLID else "pulled"
    source = rivet.hole_range[0].source if rivet.hole_range else None
    yield hole_range(plain(rivet.hole), low, high, set=kind, source=source, place=f"rivet.{rivet.name}.hole")


def _bends(surface: Surface, seats: Seats, rivet: Rivet, missing: list[str]) -> Iterator[RuleResult]:
    """Rivets in a flange: clear of its bend, and the bend itself."""
    part = {"spar": "spar", "rib": "ribs", "rib-spar": "ribs"}.get(seats.kind)
    row = surface.rows.get(seats.place.removeprefix("row."))
    if part is None or row is None or part not in seats.joins:
        return
    sheet = getattr(surface.sheet, part)
    edge = edge_of(surface, row, part)
    wanted = {"flange": sheet.flange, "thickness": sheet.thickness, "bend_inside": sheet.bend_inside}
    missing += [f"sheet.{part}.{key}" for key, value in wanted.items() if not value.known]
    if sheet.bend_inside.known and sheet.thickness.known and sheet.alloy:
        inside = plain(sheet.bend_inside)
        yield bend_radius(sheet.alloy, plain(sheet.thickness), inside, place=f"sheet.{part}.bend_inside")
    if not rivet.head.known:
        missing.append(f"rivet.{rivet.name}.head")
    if edge.known and rivet.head.known and all(value.known for value in wanted.values()):
        away = plain(sheet.flange) - plain(edge)
        if away > 0.0:
            figures = (plain(sheet.thickness), plain(sheet.bend_inside), plain(rivet.head))
            yield bend_clearance(away, *figures, place=f"{seats.place}.{part}")


def _repairs(surface: Surface, seats: Seats) -> Iterator[RuleResult]:
    """Rivets that are not as the row says, against the most that one text allows a pattern."""
    apart = [number for line in seats.lines for number in line.numbers if seats.name_of(number) in surface.apart]
    together = longest = 0
    for number in apart:
        together = together + 1 if number - 1 in apart else 1
        longest = max(longest, together)
    if seats.count:
        yield repairs_in_row(len(apart), seats.count, longest, place=seats.place)
