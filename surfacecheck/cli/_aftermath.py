"""``aftermath``: what to look at first after a storm, or after a surface went past its stop."""

from __future__ import annotations

import argparse
import sys
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

from surfacecheck.cli._numbers import number_of
from surfacecheck.cli._parser import called_as
from surfacecheck.cli._say import quoted, say, say_data
from surfacecheck.errors import Fault, SurfaceError

if TYPE_CHECKING:
    from surfacecheck.quantities import System

__all__ = ["run_aftermath"]


def run_aftermath(options: argparse.Namespace) -> int:
    """Print the list of an event, and write it as a page to pencil on.

    Parameters
    ----------
    options : argparse.Namespace
        Of the command line.

    Returns
    -------
    int
        Exit code.
    """
    from surfacecheck.reading import read
    from surfacecheck.studies import aftermath, aftermath_data, aftermath_text

    file = Path(options.file)
    asked = (("wind", "speed"), ("swing", "angle"), ("past_stop", "angle"))
    texts = [getattr(options, name) for name, _ in asked]
    wind, swing, past = (
        None if text is None else number_of(text, name, quantity)
        for text, (name, quantity) in zip(texts, asked, strict=True)
    )
    surface = read(options.file)
    try:
        found = aftermath(surface, wind, options.lock, swing, past)
    except SurfaceError as error:
        raise SurfaceError(*(_of_option(fault) for fault in error.faults)) from error
    if options.json:
        say_data(aftermath_data(found), "aftermath")
        return 0
    system: System = options.units or ("inch" if str(found.surface.units) == "inch" else "metric")
    say(aftermath_text(found, system) + "\n")
    sys.stdout.flush()
    if not options.no_page:
        from surfacecheck.report import aftermath_page, write_whole

        page = file.parent / "out" / f"{file.stem}_aftermath.html"
        size = write_whole(page, aftermath_page(found, system))
        say(f"PAGE   {page}  ({size / 1e6:.2f} MB, to print and pencil on)")
    say(f"NEXT   {called_as()} map {quoted(options.file)}  (where each part is)")
    return 0


def _of_option(fault: Fault) -> Fault:
    """Name the option a fault is about as it is typed."""
    return replace(fault, key=f"--{fault.key}") if fault.key in {"wind", "lock", "swing", "past-stop"} else fault
