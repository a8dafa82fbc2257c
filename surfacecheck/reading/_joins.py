"""Rows of rivets, and whether the parts they join meet there."""

from __future__ import annotations

from dataclasses import replace

from surfacecheck.model import Doubler, Row, Surface
from surfacecheck.reading._context import Context, Outside
from surfacecheck.reading._cross import length_of

__all__ = ["check_rows", "without_absent"]

_PARTS = ("left_skin", "right_skin", "nose_skin", "spar", "ribs")
_SLACK = 1e-6


def without_absent(surface: Surface, context: Context) -> Surface:
    """Leave a skin that is not there out of every row; a row that then joins nothing goes with it.

    An unfilled row of a trailing edge that is not riveted goes, too: the file to start from has one.

    Parameters
    ----------
    surface : Surface
        As read so far.
    context : Context
        Takes a remark for each row that goes.

    Returns
    -------
    Surface
        With the rows that are there.
    """
    absent = [one for one in ("left_skin", "right_skin", "nose_skin") if getattr(surface.sheet, one).thickness.absent]
    shut = surface.outline.trailing_edge not in {"folded", "open"}
    rows = {}
    for name, row in surface.rows.items():
        given = row.count is not None or any(one.known for one in (row.start, row.to, row.pitch))
        if not shut and not given and set(row.joins) == {"left_skin", "right_skin"}:
            edge_is = surface.outline.trailing_edge
            context.gaps[:] = [one for one in context.gaps if not one.startswith(f"row.{name}.")]
            context.remarks.append(f'row.{name} is left out: trailing_edge is "{edge_is}", and nothing of it is given.')
            continue
        gone = [one for one in absent if one in row.joins]
        joins = tuple(one for one in row.joins if one not in gone)
        if gone and len(joins) < 2:
            context.remarks.append(f"row.{name} is left out: {context.said(gone[0])} is not there.")
            continue
        edges = (
            {part: value for part, value in edge.items() if part not in gone} for edge in (row.edge, row.edge_from_rim)
        )
        edge, from_rim = edges
        rows[name] = replace(row, joins=joins, edge=edge, edge_from_rim=from_rim) if gone else row
    return replace(surface, rows=rows)


def check_rows(surface: Surface, context: Context) -> None:
    """Note every row that joins nothing, or runs out of what it joins.

    Parameters
    ----------
    surface : Surface
        As read so far.
    context : Context
        Takes the faults.
    """
    for name, row in surface.rows.items():
        if _parts_known(name, row, surface, context):
            _meet(name, row, surface, context)
            _edge_names(name, row, surface, context)
        _reach(name, row, surface, context)
        _pitch(name, row, surface, context)
    for name, bracket in surface.brackets.items():
        for part in bracket.edge:
            if part not in {"bracket", "spar", *surface.sheet.doublers}:
                place = context.place_of(f"bracket.{name}.edge.{part}")
                context.unknown(part, ["bracket", "spar", *surface.sheet.doublers], place, f"bracket.{name}.edge")


def _parts_known(name: str, row: Row, surface: Surface, context: Context) -> bool:
    key = f"row.{name}.joins"
    parts = [*_PARTS, *surface.sheet.doublers]
    strangers = [one for one in row.joins if one not in parts]
    for one in strangers:
        context.unknown(one, [context.said(part) for part in parts], context.place_of(key), key)
    if row.joins and len(set(row.joins)) < 2:
        context.wrong("a row joins two parts or more, each named once.", key)
        return False
    if len(set(row.joins)) < len(row.joins):
        context.wrong("a part is named twice in this row.", key)
        return False
    return bool(row.joins) and not strangers


def _meets(surface: Surface) -> set[frozenset[str]]:
    """Give the pairs of parts that lie on each other somewhere."""
    pairs = {("left_skin", "spar"), ("right_skin", "spar"), ("ribs", "spar"), ("left_skin", "ribs"),
             ("right_skin", "ribs")}  # fmt: skip
    if not surface.sheet.nose_skin.thickness.absent:
        pairs |= {("nose_skin", one) for one in ("spar", "left_skin", "right_skin")}
        if surface.sheet.ribs.in_nose != "no":
            pairs.add(("nose_skin", "ribs"))
    if surface.outline.trailing_edge not in {"open", "folded"}:
        pairs.add(("left_skin", "right_skin"))
    for name, doubler in surface.sheet.doublers.items():
        pairs |= {(name, one) for one in _beside(doubler)}
    absent = {name for name in ("left_skin", "right_skin") if getattr(surface.sheet, name).thickness.absent}
    return {frozenset(pair) for pair in pairs if not absent.intersection(pair)}


def _beside(doubler: Doubler) -> set[str]:
    if not doubler.on or doubler.on == "spar flange":
        return {"spar", "ribs", "left_skin", "right_skin", "nose_skin"}
    if doubler.on == "spar web":
        return {"spar", "ribs"}
    if doubler.on.endswith("_skin"):
        return {doubler.on, "spar", "ribs"}
    return {"ribs", "spar"}


def _meet(name: str, row: Row, surface: Surface, context: Context) -> None:
    """Note a row that does not hold together: each part must lie on one of the others."""
    pairs = _meets(surface)
    others = set(row.joins) & {"spar", "ribs", "nose_skin"}
    if {"left_skin", "right_skin"} <= set(row.joins) and others:
        both = " and ".join(context.said(one) for one in ("left_skin", "right_skin"))
        message = f"{both} meet at the trailing edge only; {context.said(min(others))} is not there. Give two rows."
        context.wrong(message, f"row.{name}.joins")
        return
    reached, left = {row.joins[0]}, set(row.joins[1:])
    while new := {one for one in left if any(frozenset((one, other)) in pairs for other in reached)}:
        reached, left = reached | new, left - new
    if not left:
        return
    away, rest = sorted(left)[0], row.joins[0]
    if away == rest or {away, rest} != {"left_skin", "right_skin"}:
        message = f"{context.said(rest)} and {context.said(away)} do not meet{_because(away, rest, surface, context)}"
    else:
        edge = surface.outline.trailing_edge
        message = f'{context.said("left_skin")} and {context.said("right_skin")} do not meet: trailing_edge is "{edge}"'
    context.wrong(f"{message}. Give other parts, or leave the row out.", f"row.{name}.joins")


def _because(away: str, rest: str, surface: Surface, context: Context) -> str:
    for one in (away, rest):
        if one.endswith("_skin") and getattr(surface.sheet, one).thickness.absent:
            return f": {context.said(one)} is not there"
    if {away, rest} == {"nose_skin", "ribs"}:
        return ': in_nose is "no"'
    return ""


def _edge_names(name: str, row: Row, surface: Surface, context: Context) -> None:
    for which, given in (("edge", row.edge), ("edge_from_rim", row.edge_from_rim)):
        for part in given:
            if part not in row.joins:
                place = context.place_of(f"row.{name}.{which}.{context.said(part)}")
                shown = [context.said(one) for one in row.joins]
                context.unknown(context.said(part), shown, place, f"row.{name}.{which}", "in this row")
    for part in set(row.edge) & set(row.edge_from_rim):
        message = f"{context.said(part)} has edge and edge_from_rim: give the one that was measured."
        context.wrong(message, f"row.{name}.edge_from_rim")


def _reach(name: str, row: Row, surface: Surface, context: Context) -> None:
    """Note a row that runs beyond the surface, or beyond a doubler it joins."""
    start, to = length_of(row.start), length_of(row.to)
    if start is not None and to is not None and to < start - _SLACK:
        context.wrong(f'"to" ({row.to.said}) is not beyond "from" ({row.start.said}).', row.to.key)
        return
    places = surface.outline.places
    last = length_of(places[-1].up) if places else None
    if last is not None and to is not None and to > last + _SLACK:
        context.outside.append(Outside(name, row.to, "runs to", places[-1].up, above=True))
        return
    for part in row.joins:
        doubler = surface.sheet.doublers.get(part)
        if doubler is not None:
            _within(name, row, part, doubler, context)


def _within(name: str, row: Row, part: str, doubler: Doubler, context: Context) -> None:
    start, to = length_of(row.start), length_of(row.to)
    low, high = length_of(doubler.start), length_of(doubler.to)
    others = len(row.joins) > 2
    rest = "joins one sheet less" if others else "joins nothing"
    if to is not None and high is not None and to > high + _SLACK:
        message = (
            f"{name} runs to {row.to.said}; the doubler it joins ends at {doubler.to.said}: from there it {rest}. "
        )
        context.wrong(message + 'Give "to" or another row.', row.to.key)
    elif start is not None and low is not None and start < low - _SLACK:
        message = f"{name} runs from {row.start.said}; {part} begins at {doubler.start.said}: up to there it {rest}. "
        context.wrong(message + 'Give "from" or another row.', row.start.key)


def _pitch(name: str, row: Row, surface: Surface, context: Context) -> None:
    if row.pitch.known and row.count is not None:
        context.wrong("pitch and count say the same thing: give one of them.", f"row.{name}.count")
    rivet = surface.rivets.get(row.rivet)
    if rivet is None or rivet.hole.si is None:
        return
    for value in (row.pitch, row.gap, row.line_gap):
        size = length_of(value)
        if size is not None and size <= float(rivet.hole.si):
            context.wrong(f"{value.said} from hole to hole: holes of {rivet.hole.said} would run together.", value.key)
