"""The take-off as a page for the bench: what to buy, drills, access, every hole by station, order of setting."""

from __future__ import annotations

from typing import TYPE_CHECKING

from surfacecheck.assessment import CAUTION
from surfacecheck.report._html import rendered
from surfacecheck.report._page_tables import tables_into
from surfacecheck.studies import (
    access,
    access_lines,
    both_units,
    buy_table,
    drill_table,
    drilling,
    hole_table,
    line_words,
    look_lines,
    part_table,
    reach_table,
    row_take_table,
    run_words,
    setting_source,
    setting_table,
    stations,
    takeoff_headline,
    tool_lines,
    work_line,
)

if TYPE_CHECKING:
    import os
    from pathlib import Path

    from surfacecheck.model import Surface
    from surfacecheck.quantities import System
    from surfacecheck.studies import PartHoles, Run, TakeOff
    from surfacecheck.tables import Table

__all__ = ["takeoff_page", "takeoff_tables", "write_takeoff_tables"]


def takeoff_tables(taken: TakeOff, system: System = "metric") -> dict[str, Table]:
    """Give every table of a take-off.

    Parameters
    ----------
    taken : TakeOff
        Worked.
    system : {"metric", "inch"}
        Units.

    Returns
    -------
    dict of str to Table
        ``buy``, ``take-off``, ``drills``, ``access``, ``parts``, ``holes`` (a line a hole), ``setting``.
    """
    return {
        "buy": buy_table(taken, system),
        "take-off": row_take_table(taken, system),
        "drills": drill_table(taken, system),
        "access": reach_table(access(taken.surface), system),
        "parts": part_table(taken, system),
        "holes": hole_table(drilling(taken), taken.surface),
        "setting": setting_table(taken),
    }


def write_takeoff_tables(taken: TakeOff, folder: str | os.PathLike[str], system: System = "metric") -> tuple[Path, ...]:
    """Write every table of a take-off twice: as CSV for a spreadsheet, and as text for a letter.

    Parameters
    ----------
    taken : TakeOff
        Worked.
    folder : str or path
        Where to; it is made. Files of the same names are replaced.
    system : {"metric", "inch"}
        Units.

    Returns
    -------
    tuple of Path
        The files. Every one ends with the caution.

    Raises
    ------
    SurfaceError
        Where the folder is a file.
    OSError
        Where a file cannot be written.
    """
    facts = ", ".join(one for one in (taken.surface.name, taken.surface.title) if one)
    return tables_into(folder, takeoff_tables(taken, system), facts, CAUTION)


def takeoff_page(taken: TakeOff, system: System = "metric") -> str:
    """Write a take-off as a page.

    Parameters
    ----------
    taken : TakeOff
        Worked.
    system : {"metric", "inch"}
        Units; stations are given in both.

    Returns
    -------
    str
        One self-contained HTML document without script; the same every time.
    """
    surface = taken.surface
    free, others = access_lines(access(surface))
    tables = takeoff_tables(taken, system)
    return rendered(
        "takeoff.html",
        surface=surface,
        file=surface.path.replace("\\", "/").rsplit("/", 1)[-1],
        sheet=surface.sha256[:4].upper(),
        headline=takeoff_headline(taken, system),
        work=work_line(taken),
        tables=tables,
        tools=tool_lines(surface),
        free=free,
        reach=reach_table(others, system),
        parts=[_part(part, surface, system) for part in drilling(taken)],
        order=setting_source(),
        look=list(look_lines(taken, system)),
        notes=taken.notes,
        caution=CAUTION,
    )


def _part(part: PartHoles, surface: Surface, system: System) -> dict[str, object]:
    """Give what the template shows of one part."""
    return {"words": part.words, "count": part.count, "runs": [_run(run, surface, system) for run in part.runs]}


def _run(run: Run, surface: Surface, system: System) -> dict[str, object]:
    mm, inch = stations(run, surface)
    first, second = (inch, mm) if system == "inch" else (mm, inch)
    told = [
        f"{run.count} holes" if run.count > 1 else "1 hole",
        f"rivet {run.rivet}" if run.rivet else "rivet not given",
    ]
    if run.line.pitch is not None:
        told.append(f"real pitch {both_units(run.line.pitch, system)}")
    edge = run.edge.si
    told.append(f"edge {both_units(float(edge), system)}" if isinstance(edge, float) else "edge not given")
    return {
        "words": run_words(run),
        "told": ", ".join(told),
        "where": line_words(run, surface, system),
        "units": ("in", "mm") if system == "inch" else ("mm", "in"),
        "holes": list(zip(run.numbers, first, second, strict=True)) if first else [],
    }
