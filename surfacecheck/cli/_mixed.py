"""``mixed``: other or loose rivets in a row, and how they share."""

from __future__ import annotations

import argparse
import sys
from pathlib import Path
from typing import TYPE_CHECKING

from surfacecheck.cli._numbers import number_of
from surfacecheck.cli._parser import called_as
from surfacecheck.cli._say import quoted, say, say_data

if TYPE_CHECKING:
    from surfacecheck.quantities import System

__all__ = ["run_mixed"]


def run_mixed(options: argparse.Namespace) -> int:
    """Print how unlike rivets of a row share, and write a page with a picture.

    Parameters
    ----------
    options : argparse.Namespace
        Of the command line.

    Returns
    -------
    int
        Exit code.
    """
    from surfacecheck.assessment import assess
    from surfacecheck.reading import read
    from surfacecheck.studies import mixed_data, mixed_row, mixed_text

    slack = 0.0 if options.slack is None else number_of(options.slack, "slack", "length")
    assessment = assess(read(options.file))
    system: System = options.units or ("inch" if str(assessment.surface.units) == "inch" else "metric")
    row = mixed_row(assessment, options.row, options.at, options.other, slack, options.softer)
    if options.json:
        say_data(mixed_data(row), "mixed")
        return 0
    say(mixed_text(row, system) + "\n")
    sys.stdout.flush()
    if not options.no_page:
        from surfacecheck.report import mixed_page, write_whole

        file = Path(options.file)
        page = file.parent / "out" / f"{file.stem}_mixed.html"
        size = write_whole(page, mixed_page(row, system))
        say(f"PAGE   {page}  ({size / 1e6:.2f} MB, one file, opens on a phone)")
    say(f"NEXT   {called_as()} gone {quoted(options.file)} --row {row.line.place}")
    return 0
