"""Every table of a page by its name: on the page, and as files for a letter or a spreadsheet."""

from __future__ import annotations

import os
from pathlib import Path
from typing import TYPE_CHECKING

from surfacecheck.assessment import finding_table, margin_table, mass_table, pin_table
from surfacecheck.errors import SurfaceError
from surfacecheck.report._blocks import case_table, load_of_rows, rule_table
from surfacecheck.report._case_sheet import deflection_table, speed_table, tube_table, turned_table
from surfacecheck.report._inputs import doubted_table, input_tables
from surfacecheck.tables import LETTER, Table, wrapped

if TYPE_CHECKING:
    from surfacecheck.assessment import Assessment
    from surfacecheck.quantities import System
    from surfacecheck.report._since import Since

__all__ = ["page_tables", "tables_into", "write_tables"]


def page_tables(assessment: Assessment, system: System) -> dict[str, Table]:
    """Give every table of the page that has a row.

    Parameters
    ----------
    assessment : Assessment
        Perhaps of a half-filled surface.
    system : {"metric", "inch"}
        Units.

    Returns
    -------
    dict of str to Table
        ``margins`` (ten lowest parts), ``pins``, ``pins-turned``, ``cases``, ``sums``, ``speeds``, ``tube``,
        ``deflections``, ``rows``, ``rules``, ``mass``, ``doubted``.
    """
    cases, sums = case_table(assessment, system)
    every: dict[str, Table | None] = {
        "margins": margin_table(assessment, system, 10),
        "pins": pin_table(assessment, system),
        "pins-turned": turned_table(assessment, system),
        "cases": cases,
        "sums": sums,
        "speeds": speed_table(assessment, system),
        "tube": tube_table(assessment, system),
        "deflections": deflection_table(assessment, system),
        "rows": load_of_rows(assessment, system) if assessment.rows else None,
        "rules": rule_table(assessment, system),
        "mass": mass_table(assessment, system),
        "doubted": doubted_table(assessment),
    }
    return {name: table for name, table in every.items() if table is not None and table.rows}


def write_tables(
    assessment: Assessment, folder: str | os.PathLike[str], system: System = "metric", since: Since | None = None
) -> tuple[Path, ...]:
    """Write every table twice: as CSV for a spreadsheet, and as text for a letter, at most 64 columns wide.

    Parameters
    ----------
    assessment : Assessment
        Worked.
    folder : str or path
        Where to; it is made. Files of the same names are replaced.
    system : {"metric", "inch"}
        Units.
    since : Since, optional
        What changed since an earlier page; its tables then follow.

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
    tables = page_tables(assessment, system)
    tables["every-margin"] = finding_table(assessment.margins, system)
    tables |= {f"inputs-{name[0].lower()}": table for name, table in input_tables(assessment).items()}
    tables |= {f"since-{name}": table for name, table in ({} if since is None else since.tables(system)).items()}
    surface = assessment.surface
    facts = ", ".join(one for one in (surface.name, surface.title, "limit loads") if one)
    return tables_into(folder, tables, facts, assessment.caution)


def tables_into(folder: str | os.PathLike[str], tables: dict[str, Table], facts: str, caution: str) -> tuple[Path, ...]:
    """Write tables into a folder, each twice, as CSV and as text; those without a row are left out.

    Parameters
    ----------
    folder : str or path
        Where to; it is made. Files of the same names are replaced.
    tables : dict of str to Table
        By the name of the file.
    facts : str
        First line of each text.
    caution : str
        Last line of each file.

    Returns
    -------
    tuple of Path
        The files.

    Raises
    ------
    SurfaceError
        Where the folder is a file.
    OSError
        Where a file cannot be written.
    """
    home = Path(folder)
    if home.exists() and not home.is_dir():
        message = f"{home} is a file: tables go into a folder, name one"
        raise SurfaceError(message)
    home.mkdir(parents=True, exist_ok=True)
    written = []
    for name, table in tables.items():
        if table.rows:
            text = f"{wrapped(facts, LETTER)}\n\n{table.letter()}\n\n{wrapped(caution, LETTER)}\n"
            written += [_write(home / f"{name}.csv", _with_caution(table, caution)),
                        _write(home / f"{name}.txt", text)]  # fmt: skip
    return tuple(written)


def _with_caution(table: Table, caution: str) -> str:
    """Give a table as CSV with the caution in a last row of its own."""
    last = (caution, *("",) * (len(table.heads) - 1))
    return Table(table.heads, (*table.rows, last), table.align).csv()


def _write(path: Path, text: str) -> Path:
    """Write a file beside its place, then put it there."""
    beside = path.with_name(f".{path.name}.{os.getpid()}")
    try:
        beside.write_text(text, encoding="utf-8", newline="")
        beside.replace(path)
    finally:
        beside.unlink(missing_ok=True)
    return path
