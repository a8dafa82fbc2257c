"""``deviation``: what happened beside the drawing, every way the surface could be now."""

from __future__ import annotations

import argparse
import sys
from pathlib import Path
from typing import TYPE_CHECKING

from surfacecheck.cli._parser import called_as
from surfacecheck.cli._say import quoted, say, say_data
from surfacecheck.errors import SurfaceError

if TYPE_CHECKING:
    from surfacecheck.quantities import System
    from surfacecheck.studies import Deviation

__all__ = ["run_deviation", "stem_of", "worked"]


def worked(options: argparse.Namespace) -> tuple[Deviation, System]:
    """Read the files of the command line and work every way.

    Parameters
    ----------
    options : argparse.Namespace
        ``file``, ``change`` and ``units``.

    Returns
    -------
    tuple
        The deviation, and the units to show.
    """
    from surfacecheck.reading import read
    from surfacecheck.studies import deviation

    surface = read(options.file, *options.change)
    if not surface.changes:
        message = (
            f"{options.file} is as drawn: name a change file after it, or let it be written by: "
            f"{called_as()} happened {quoted(options.file)}"
        )
        raise SurfaceError(message)
    system: System = options.units or ("inch" if str(surface.units) == "inch" else "metric")
    return deviation(surface), system


def stem_of(options: argparse.Namespace) -> Path:
    """Give folder and stem of what is written: beside the surface file, called like the change."""
    last = Path((options.change or [options.file])[-1])
    return Path(options.file).parent / "out" / last.stem


def run_deviation(options: argparse.Namespace) -> int:
    """Print the table, and write a page with pictures and workings.

    Parameters
    ----------
    options : argparse.Namespace
        Of the command line.

    Returns
    -------
    int
        Exit code; 1 only with ``--strict``.
    """
    from surfacecheck.studies import deviation_data, deviation_text

    found, system = worked(options)
    if options.json:
        say_data(deviation_data(found), "deviation")
        return _code(options, found)
    say(deviation_text(found, system, folded=options.all) + "\n")
    sys.stdout.flush()
    if not options.no_page:
        from surfacecheck.report import deviation_page, write_whole

        stem = stem_of(options)
        page = stem.with_name(f"{stem.name}_deviation.html")
        size = write_whole(page, deviation_page(found, system))
        say(f"PAGE   {page}  ({size / 1e6:.2f} MB)")
    files = " ".join(quoted(one) for one in (options.file, *options.change))
    say(f"NEXT   {called_as()} query {files}")
    return _code(options, found)


def _code(options: argparse.Namespace, found: Deviation) -> int:
    """Exit code under ``--strict``: of the surface as it is now."""
    from surfacecheck.checks import Outcome

    short = any(
        (f.margin or 0.0) < 0.0 or f.outcome == Outcome.DEPENDS for one in found.now.bounds for f in one.margins
    )
    return int(options.strict and (short or bool(found.now.broken)))
