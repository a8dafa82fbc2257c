"""``new``: a file to start from, and a sheet to measure by."""

from __future__ import annotations

import argparse
from pathlib import Path
from typing import TYPE_CHECKING, Any

from surfacecheck.cli._parser import called_as
from surfacecheck.cli._say import quoted, say, say_data
from surfacecheck.tables import wrapped

if TYPE_CHECKING:
    from surfacecheck.quantities import System

__all__ = ["run_new"]


def run_new(options: argparse.Namespace) -> int:
    """Write the starting file and the measuring sheet beside it, both or none.

    Parameters
    ----------
    options : argparse.Namespace
        Of the command line.

    Returns
    -------
    int
        Exit code.
    """
    from surfacecheck.reading import starting_file, write_new
    from surfacecheck.report import measuring_sheet

    file = Path(options.file)
    units: System = options.units or "metric"
    choices: dict[str, Any] = {
        "kind": options.kind, "half": options.half, "units": units, "hinges": options.hinges, "ribs": options.ribs,
        "name": options.name,
    }  # fmt: skip
    sheet = file.parent / f"{file.stem}_measuring.html"
    page = measuring_sheet(starting_file(**choices), file.name, units)
    written = write_new(file, beside={sheet.name: page}, **choices)
    if options.json:
        say_data({"form": 1, "file": str(written), "sheet": str(sheet)}, "new")
        return 0
    half = "" if options.half == "none" else f"{options.half} half, "
    say(f"FILE   {written}")
    say(f"SHEET  {sheet}  (open it, print it, take it to the bench)")
    say(wrapped(f"For: {options.kind}, {half}{units}, {options.hinges} hinges, {options.ribs} ribs. Otherwise: another "
                "name, and --kind, --half, --units, --hinges, --ribs.", then="  "))  # fmt: skip
    words = "Fill it in from the top. Part A and B alone give the loads at the pins; a ? stays a ? until you know."
    say(wrapped(words, then="  "))
    say(f"NEXT   {called_as()} check {quoted(options.file)}")
    return 0
