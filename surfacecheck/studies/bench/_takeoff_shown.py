"""A take-off as text and as plain data."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from surfacecheck.assessment import CAUTION
from surfacecheck.errors import SurfaceError
from surfacecheck.quantities import to_unit
from surfacecheck.studies.bench._access import Access, access, tool_needs
from surfacecheck.studies.bench._access_shown import reach_data, reach_words
from surfacecheck.studies.bench._drilling import drilling
from surfacecheck.studies.bench._setting_order import ORDER
from surfacecheck.studies.bench._shank import shank
from surfacecheck.studies.bench._stations import run_data
from surfacecheck.studies.bench._takeoff_tables import (
    buy_table,
    drill_table,
    look_lines,
    part_table,
    row_take_table,
    setting_table,
)
from surfacecheck.tables import wrapped

if TYPE_CHECKING:
    from collections.abc import Sequence

    from surfacecheck.model import Surface
    from surfacecheck.quantities import System
    from surfacecheck.studies.bench._access import Reach
    from surfacecheck.studies.bench._takeoff import TakeOff

__all__ = ["access_lines", "takeoff_data", "takeoff_headline", "takeoff_text", "tool_lines", "unreached", "work_line"]


def takeoff_headline(taken: TakeOff, system: System = "metric") -> str:
    """Give the whole in one line.

    Parameters
    ----------
    taken : TakeOff
        Worked.
    system : {"metric", "inch"}
        Units.

    Returns
    -------
    str
        Rivets, holes, mass.
    """
    mass = "mass not given"
    if taken.mass is not None:
        mass = f"{taken.mass * 1e3:.0f} g" if system == "metric" else f"{to_unit(taken.mass, 'oz'):.1f} oz"
    return f"{taken.count} rivets, {taken.holes} holes (one in each sheet), {mass}"


def work_line(taken: TakeOff) -> str:
    """Say how long it takes, and on what basis.

    Parameters
    ----------
    taken : TakeOff
        Worked.

    Returns
    -------
    str
        Hours with their basis.
    """
    work = taken.work
    basis = f"{work.hole:g} minutes a hole and {work.rivet:g} a rivet ({work.source})"
    return f"about {taken.minutes / 60.0:.1f} hours of drilling and setting, at {basis}"


def tool_lines(surface: Surface) -> list[str]:
    """Name every tool of the file with its tips, and what is missing of it.

    Parameters
    ----------
    surface : Surface
        With or without tools.

    Returns
    -------
    list of str
        A line a tool; one that says how to describe some where there is none.
    """
    if not surface.tools:
        return ["no [tool] in the file: give nose_radius, nose_long, body_radius and tips of each, in part D"]
    lines = []
    for tool in surface.tools.values():
        needs = tool_needs(tool)
        if needs:
            lines.append(f"{tool.name.replace('_', ' ')}: left out, not given: {', '.join(needs)}")
        else:
            lines.append(f"{tool.name.replace('_', ' ')}: tips for {', '.join(tip.said for tip in tool.tips)}")
    return lines


def access_lines(reaches: Sequence[Reach]) -> tuple[str, tuple[Reach, ...]]:
    """Take apart what stands free from what does not.

    Parameters
    ----------
    reaches : sequence of Reach
        Of a surface.

    Returns
    -------
    tuple of (str, tuple of Reach)
        One line for all rows where nothing stands beside from one side; and the others.
    """
    free = [one for one in reaches if one.whole and one.outcome == Access.CLEAR and not one.wall]
    words = ", ".join(dict.fromkeys(f"{one.words} {one.side}" for one in free))
    line = f"{Access.CLEAR}, nothing stands beside: {words}" if words else ""
    places = {one.place for one in free}
    return line, tuple(one for one in reaches if one.place not in places)


def unreached(reaches: Sequence[Reach]) -> tuple[str, ...]:
    """Name the rivets that no tool of the file reaches from any side.

    Parameters
    ----------
    reaches : sequence of Reach
        Of a surface.

    Returns
    -------
    tuple of str
        ``horn.rivet-3`` ...
    """
    ways: dict[str, set[str]] = {}
    for one in reaches:
        for number in one.numbers:
            ways.setdefault(f"{one.place}.rivet-{number}", set()).add(one.outcome)
    return tuple(name for name, outcomes in ways.items() if outcomes == {Access.NOT_REACHED})


def takeoff_text(taken: TakeOff, system: System = "metric") -> str:
    """Write a take-off for a terminal.

    Parameters
    ----------
    taken : TakeOff
        Worked.
    system : {"metric", "inch"}
        Units.

    Returns
    -------
    str
        ASCII, at most 80 columns.
    """
    surface = taken.surface
    head = [wrapped(f"TAKE-OFF  {surface.name or 'no name given'}, {surface.title}", then="          ")]
    told = (takeoff_headline(taken, system), work_line(taken)) if taken.rows else ("nothing can be listed yet",)
    blocks = ["\n".join([*head, *(wrapped(one) for one in told)])]
    if taken.rows:
        blocks += [buy_table(taken, system).text(), row_take_table(taken, system, short=True).text()]
        blocks.append(drill_table(taken, system).text())
        blocks.append(_set(surface, system))
        blocks.append(part_table(taken, system).text())
        blocks.append(_order(taken))
    look = [wrapped(one, first="- ", then="  ") for one in look_lines(taken, system)]
    if look:
        blocks.append("\n".join(["Look at:", *look]))
    blocks.append("\n".join(wrapped(one, first="- ", then="  ") for one in taken.notes))
    blocks.append(wrapped(CAUTION))
    return "\n\n".join(blocks)


def _set(surface: Surface, system: System) -> str:
    free, others = access_lines(access(surface))
    lines = ["Can it be set?", *(wrapped(one, first="  ", then="  ") for one in tool_lines(surface))]
    if free:
        lines.append(wrapped(free, first="  ", then="  "))
    lines += [wrapped(f"{one.words}, {reach_words(one, system)}", first="- ", then="  ") for one in others]
    return "\n".join(lines)


def _order(taken: TakeOff) -> str:
    """Order of setting, with the longest line as example; every line is on the page."""
    longest = next(iter(setting_table(taken).rows), None)
    lines = [wrapped(f"Order of setting ({ORDER})")]
    if longest is not None:
        count, pins, first, then, _ = longest
        lines.append(
            wrapped(
                f"a line of {count}: pin {pins}; set {first or 'none'}; then under the pins {then}",
                first="  ",
                then="  ",
            )
        )
    return "\n".join(lines)


def takeoff_data(taken: TakeOff) -> dict[str, Any]:
    """Turn a take-off into plain data.

    Parameters
    ----------
    taken : TakeOff
        Worked.

    Returns
    -------
    dict
        ``form``, ``count``, ``holes``, ``mass``, ``minutes``, ``buy``, ``rows``, ``drills``, ``parts``, ``access``,
        ``look``; SI units, every digit (minutes as they are).
    """
    return {
        "form": 1,
        "units": "SI",
        "surface": taken.surface.name,
        "count": taken.count,
        "holes": taken.holes,
        "mass": taken.mass,
        "minutes": taken.minutes,
        "work": {"hole": taken.work.hole, "rivet": taken.work.rivet, "source": str(taken.work.source)},
        "spares": {"share": list(taken.spares.share), "practice": list(taken.spares.practice),
                   "source": str(taken.spares.source)},
        "buy": [_bought(taken, at) for at in range(len(taken.lines))],
        "rows": [_row(taken, at) for at in range(len(taken.rows))],
        "drills": [one for line in dict.fromkeys(line.rivet for line in taken.lines) if (one := _drills(taken, line))],
        "parts": [
            {"part": part.part, "words": part.words, "holes": part.count, "chamfer": part.chamfer,
             "runs": [run_data(run) for run in part.runs]}
            for part in drilling(taken)
        ],
        "access": [reach_data(reach) for reach in access(taken.surface)],
        "cannot_be_reached": list(unreached(access(taken.surface))),
        "waiting": [{"place": place, "missing": list(missing)} for place, missing in taken.waiting],
        "look": list(look_lines(taken)),
        "notes": list(taken.notes),
        "caution": CAUTION,
    }  # fmt: skip


def _bought(taken: TakeOff, at: int) -> dict[str, Any]:
    line = taken.lines[at]
    return {"rivet": line.rivet, "diameter": line.diameter, "length": line.length, "for_stack": line.stack,
            "needed": line.needed, "order": list(line.spare), "mass": line.mass, "rows": list(line.rows)}  # fmt: skip


def _row(taken: TakeOff, at: int) -> dict[str, Any]:
    row = taken.rows[at]
    stretch = row.stretch
    return {
        "place": stretch.seats.place,
        "rivet": stretch.rivet,
        "rivets": list(stretch.numbers),
        "count": row.count,
        "holes": row.holes,
        "pitch": stretch.pitch,
        "through": list(stretch.stack.layers),
        "stack": stretch.stack.thickness,
        "perhaps": [{"part": name, "thickness": thick} for name, thick in stretch.stack.perhaps],
        "length": None if row.chosen is None else row.chosen.length,
        "length_source": None if row.chosen is None else str(row.chosen.source),
        "other_lengths": [] if row.chosen is None else list(row.chosen.others),
        "mass": row.mass,
        "mass_source": None if row.mass_source is None else str(row.mass_source),
        "problem": row.problem or None,
        "notes": list(row.notes),
    }


def _drills(taken: TakeOff, rivet: str) -> dict[str, Any] | None:
    try:
        found = shank(taken.surface.rivets[rivet])
    except SurfaceError:
        return None
    if found is None:
        return None
    return {
        "rivet": rivet,
        "hole": found.hole,
        "range": None if found.range is None else list(found.range),
        "drills": [{"name": one.name, "size": one.size} for one in (found.metric, found.number)],
        "go": None if found.go is None else found.go.name,
        "stays_out": None if found.stays_out is None else found.stays_out.name,
    }
