"""``rivets``: lists of pitch, rivet and more for the rows of a surface, side by side."""

from __future__ import annotations

import argparse
import sys
from pathlib import Path
from typing import TYPE_CHECKING, Any

from surfacecheck.cli._numbers import bare_length, number_of
from surfacecheck.cli._parser import called_as
from surfacecheck.cli._say import quoted, say, say_data
from surfacecheck.cli._takeoff import work_of
from surfacecheck.errors import Fault, SurfaceError
from surfacecheck.interrupts import undisturbed

if TYPE_CHECKING:
    from surfacecheck.quantities import System
    from surfacecheck.studies import RivetComparison

__all__ = ["run_rivets"]

LENGTHS = ("pitch", "diameter", "edge", "sheet")
WHOLE = ("count", "lines")
SHORT, STOPPED = 1, 130
SHOWN = "stopped: what was finished is shown"
NO_PAGE = f"{SHOWN}, no page was written"


def run_rivets(options: argparse.Namespace) -> int:
    """Print the comparison, and write a page with a picture.

    Parameters
    ----------
    options : argparse.Namespace
        Of the command line.

    Returns
    -------
    int
        Exit code.
    """
    from surfacecheck.reading import read, read_study
    from surfacecheck.studies import MOST, Alternatives, rivets, rivets_data, rivets_text

    study = read_study(options.file)
    file = Path(options.file) if study is None else study.surface
    surface = read(file)
    system: System = options.units or ("inch" if str(surface.units) == "inch" else "metric")
    lists = {} if study is None else study.lists
    lists = lists | {name: value for name, value in _lists(options, system).items() if value is not None}
    rows = tuple(options.row or ()) or (() if study is None else study.rows)
    if not rows:
        here = ", ".join(surface.rows) or "none"
        message = f"say which row, --row NAME, several times for several rows; here: {here}"
        raise SurfaceError(message)
    drilled = None if study is None else study.drilled_at
    if options.drilled_at is not None:
        drilled = number_of(options.drilled_at, "drilled_at", "length", bare_length(system))
    most = options.most if options.most is not None else MOST
    more: dict[str, Any] = {"drilled_at": drilled, "most": most, "work": work_of(options)}
    found = rivets(surface, rows, Alternatives(**lists), **more)
    try:
        with undisturbed(second_stops=True):
            if options.json:
                say_data(rivets_data(found), "rivets")
            else:
                say(rivets_text(found, system) + "\n")
            sys.stdout.flush()
        if options.json:
            return _code(options, found)
        if not options.no_page:
            from surfacecheck.report import rivets_page, write_whole

            page = Path(options.file).parent / "out" / f"{Path(options.file).stem}_rivets.html"
            size = write_whole(page, rivets_page(found, system))
            say(f"PAGE   {page}  ({size / 1e6:.2f} MB, one file, opens on a phone)")
    except KeyboardInterrupt:
        raise KeyboardInterrupt(SHOWN if options.json or options.no_page else NO_PAGE) from None
    say(f"NEXT   {called_as()} card {quoted(str(file))} {found.rows[0].row.name}")
    return _code(options, found)


def _lists(options: argparse.Namespace, system: System) -> dict[str, Any]:
    """Read the lists of the command line; None for what was not said."""
    found: dict[str, Any] = {name: getattr(options, name) for name in ("rivet", "head")}
    for name in LENGTHS:
        texts = getattr(options, name)
        found[name] = None if texts is None else [number_of(one, name, "length", bare_length(system)) for one in texts]
    for name in WHOLE:
        texts = getattr(options, name)
        found[name] = None if texts is None else [_whole(one, name) for one in texts]
    return found


def _whole(text: str, option: str) -> int:
    if not text.isdecimal():
        message = f'"{text}" is no whole number; such as 1 or 2'
        raise SurfaceError(Fault(message, key=f"--{option}"))
    return int(text)


def _code(options: argparse.Namespace, found: RivetComparison) -> int:
    whole = found.whole
    short = bool((whole.margin < 0.0).any() or (whole.broken[whole.possible] > 0).any())
    return STOPPED if found.stopped else SHORT if options.strict and short else 0
