"""``weigh``: mass, balance, readings of a scale, before and after; and a sheet to weigh by."""

from __future__ import annotations

import argparse
import sys
from pathlib import Path
from typing import TYPE_CHECKING

from surfacecheck.cli._parser import called_as
from surfacecheck.cli._say import quoted, say, say_data

if TYPE_CHECKING:
    from surfacecheck.quantities import System

__all__ = ["run_weigh"]


def run_weigh(options: argparse.Namespace) -> int:
    """Print what a surface weighs and what its readings come to, and write the weighing sheet.

    Parameters
    ----------
    options : argparse.Namespace
        Of the command line.

    Returns
    -------
    int
        Exit code: 1 under ``--strict`` where a rule of the bench is not met in the last state.
    """
    from surfacecheck.reading import read
    from surfacecheck.rules import DOES_NOT_MEET
    from surfacecheck.studies import balance, balance_data, balance_text

    file = Path(options.file)
    study = balance(read(options.file), *(read(options.file, change) for change in options.change))
    short = any(rule.outcome == DOES_NOT_MEET for rule in study.columns[-1].rules)
    code = int(options.strict and short)
    if options.json:
        say_data(balance_data(study), "weigh")
        return code
    system: System = options.units or ("inch" if str(study.surface.units) == "inch" else "metric")
    say(balance_text(study, system) + "\n")
    sys.stdout.flush()
    if not options.no_page:
        from surfacecheck.report import weighing_sheet, write_whole

        page = file.parent / "out" / f"{file.stem}_weighing.html"
        size = write_whole(page, weighing_sheet(study, system))
        say(f"SHEET  {page}  ({size / 1e6:.2f} MB, lines to pencil on)")
    say(f"NEXT   {called_as()} check {quoted(options.file)}")
    return code
