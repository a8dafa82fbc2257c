"""``follow``: one force alone, from where it is put to the pins."""

from __future__ import annotations

import argparse
import sys
from pathlib import Path
from typing import TYPE_CHECKING

from surfacecheck.cli._parser import called_as
from surfacecheck.cli._say import quoted, say, say_data

if TYPE_CHECKING:
    from surfacecheck.quantities import System

__all__ = ["run_follow"]


def run_follow(options: argparse.Namespace) -> int:
    """Print what a force passes through and the sums at every cut, and write a page with pictures.

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
    from surfacecheck.studies import follow, following_data, following_text

    file = Path(options.file)
    followed = follow(read(options.file), options.place, options.load, options.direction)
    if options.only:
        followed = followed.only(options.only)
    surface = followed.surface
    if options.json:
        say_data(following_data(followed), "follow")
        return 0
    system: System = options.units or ("inch" if str(surface.units) == "inch" else "metric")
    say(following_text(followed, system) + "\n")
    sys.stdout.flush()
    if not options.no_page:
        from surfacecheck.report import follow_page, write_whole

        page = file.parent / "out" / f"{file.stem}_follow.html"
        size = write_whole(page, follow_page(followed, system))
        say(f"PAGE   {page}  ({size / 1e6:.2f} MB, one file, opens on a phone)")
    if surface.load.pressure.known or surface.load.total.known or surface.load.rule is not None:
        say(f"NEXT   {called_as()} show {quoted(options.file)} pins")
    return 0
