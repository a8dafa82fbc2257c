"""The holes of one part, station by station, in millimetres and inches."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from surfacecheck.errors import SurfaceError
from surfacecheck.quantities import show
from surfacecheck.studies.bench._seats import ACROSS, ALONG
from surfacecheck.tables import Table, wrapped

if TYPE_CHECKING:
    from collections.abc import Sequence

    from surfacecheck.model import Surface
    from surfacecheck.quantities import System
    from surfacecheck.studies.bench._drilling import PartHoles, Run

__all__ = ["both_units", "hole_table", "line_words", "part_named", "run_data", "run_words", "station_text", "stations"]


def both_units(si: float, system: System = "metric") -> str:
    """Write a length in both systems, as stations are: the one asked for first.

    Parameters
    ----------
    si : float
        Length [m].
    system : {"metric", "inch"}
        Which comes first.

    Returns
    -------
    str
        To a tenth of a millimetre and a hundredth of an inch.

    Examples
    --------
    >>> both_units(0.025238)
    '25.2 mm (0.99 in)'
    """
    metric, inch = f"{si * 1e3:z.1f} mm", f"{si / 0.0254:z.2f} in"
    return f"{inch} ({metric})" if system == "inch" else f"{metric} ({inch})"


def run_words(run: Run) -> str:
    """Say what a run of holes is for."""
    return f"{run.words}, {run.line.label}" if run.line.label else run.words


def line_words(run: Run, surface: Surface, system: System = "metric") -> str:
    """Say what the stations of a run are measured along, and where the line is.

    Parameters
    ----------
    run : Run
        Holes of one line.
    surface : Surface
        For its words.
    system : {"metric", "inch"}
        Which unit comes first.

    Returns
    -------
    str
        Words.
    """
    line = run.line
    words = line.measured
    if line.up is not None and line.measured != ALONG:
        what = "the web of the rib at " if line.at_web else "at "
        words += f", {what}{both_units(line.up, system)} along the pins"
    if line.behind is not None:
        words += f", {both_units(line.behind, system)} behind the pins"
    if line.across is not None:
        side = surface.said("left" if line.across >= 0.0 else "right")
        words += f", {both_units(abs(line.across), system)} {side} of the middle"
    return words


def _edge(run: Run) -> float | None:
    return float(run.edge.si) if isinstance(run.edge.si, float) else None


def stations(run: Run, surface: Surface) -> tuple[list[str], list[str]]:
    """Write the places of a run in millimetres and in inches; across, each with its side.

    Parameters
    ----------
    run : Run
        Holes of one line.
    surface : Surface
        For its words.

    Returns
    -------
    tuple of list of str
        Both empty where the places are not known.
    """
    if run.line.measured != ACROSS:
        return [f"{at * 1e3:z.1f}" for at in run.at], [f"{at / 0.0254:z.2f}" for at in run.at]
    sides = [f" {surface.said('left' if at > 0.0 else 'right')}" if abs(at) > 1e-9 else "" for at in run.at]
    mm = [f"{abs(at) * 1e3:.1f}{side}" for at, side in zip(run.at, sides, strict=True)]
    return mm, [f"{abs(at) / 0.0254:.2f}{side}" for at, side in zip(run.at, sides, strict=True)]


def station_text(part: PartHoles, surface: Surface, system: System = "metric") -> str:
    """Write the holes of one part for a terminal.

    Parameters
    ----------
    part : PartHoles
        One part.
    surface : Surface
        For its words.
    system : {"metric", "inch"}
        Which unit comes first.

    Returns
    -------
    str
        ASCII, at most 80 columns.
    """
    blocks = [f"{part.words.upper()}: {part.count} holes"]
    for run in part.runs:
        told = [f"{run.count} holes", f"rivet {run.rivet or 'not given'}"]
        if run.line.pitch is not None:
            told.append(f"real pitch {both_units(run.line.pitch, system)}")
        edge = _edge(run)
        told.append("edge not given" if edge is None else f"edge {show(edge, 'length', system)}")
        lines = [
            wrapped(f"{run_words(run)}: {', '.join(told)}"),
            wrapped(line_words(run, surface, system), 80, "  ", "  "),
        ]
        mm, inch = stations(run, surface)
        if not mm:
            lines.append("  where is not known yet")
        ordered = [("  mm  ", mm), ("  in  ", inch)]
        for head, numbers in ordered if system == "metric" else ordered[::-1]:
            if numbers:
                join = ", " if run.line.measured == ACROSS else " "
                lines.append(wrapped(join.join(numbers), first=head, then="      "))
        blocks.append("\n".join(lines))
    return "\n\n".join(blocks)


def hole_table(parts: Sequence[PartHoles], surface: Surface) -> Table:
    """List every hole in a line of its own, for a spreadsheet.

    Parameters
    ----------
    parts : sequence of PartHoles
        Every part.
    surface : Surface
        For its words.

    Returns
    -------
    Table
        Part, row, line, number, what is measured, place in mm and in.
    """
    rows = []
    for part in parts:
        for run in part.runs:
            where = line_words(run, surface)
            places = zip(*stations(run, surface), strict=True) if run.at else (("", "") for _ in run.numbers)
            for number, (mm, inch) in zip(run.numbers, places, strict=True):
                rows.append((part.words, run.words, run.line.label, f"{number}", run.rivet, where, mm, inch))
    heads = ("part", "row", "line", "rivet", "kind", "measured", "mm", "in")
    return Table(heads, tuple(rows), "lllrllrr")


def part_named(parts: Sequence[PartHoles], name: str) -> PartHoles:
    """Find a part by its name.

    Parameters
    ----------
    parts : sequence of PartHoles
        Every part.
    name : str
        ``left_skin``, ``rib 3``, ``spar``, or in the surface's own words.

    Returns
    -------
    PartHoles
        The part.

    Raises
    ------
    SurfaceError
        Where no part is called so, with those there are.
    """
    wanted = name.casefold().replace("_", " ").replace("-", " ").strip()
    for part in parts:
        if wanted in {part.words.casefold(), part.part.casefold().replace("_", " ")}:
            return part
    here = ", ".join(part.words for part in parts) or "none yet"
    message = f'no part with holes is called "{name}". Here: {here}.'
    raise SurfaceError(message)


def run_data(run: Run) -> dict[str, Any]:
    """Turn a run of holes into plain data: SI units, every digit."""
    line = run.line
    return {
        "row": run.words,
        "line": line.label,
        "rivets": list(run.numbers),
        "rivet": run.rivet,
        "measured": line.measured,
        "at": list(run.at),
        "along_pins": line.up,
        "behind_pins": line.behind,
        "left_of_middle": line.across,
        "pitch": line.pitch,
        "edge": _edge(run),
    }
