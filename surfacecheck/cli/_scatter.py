"""``scatter``: how far making and measuring move every margin, and what drives it."""

from __future__ import annotations

import argparse
import sys
from contextlib import nullcontext
from pathlib import Path
from typing import TYPE_CHECKING

from surfacecheck.cli._parser import called_as
from surfacecheck.cli._say import quoted, say, say_data
from surfacecheck.errors import Fault, SurfaceError

if TYPE_CHECKING:
    from surfacecheck.model import Surface
    from surfacecheck.quantities import System

__all__ = ["run_scatter"]

SHORT, STOPPED = 1, 130


def run_scatter(options: argparse.Namespace) -> int:
    """Print how the margins scatter, and write a page with pictures.

    Parameters
    ----------
    options : argparse.Namespace
        Of the command line.

    Returns
    -------
    int
        Exit code.
    """
    from surfacecheck.studies import processes, scatter, scatter_data, scatter_text

    file, surface, tolerances = _what(options)
    if options.workers < 1:
        raise SurfaceError(Fault(f"{options.workers} is no number of processes: 1 at least", key="--workers"))
    with processes(options.workers) if options.workers > 1 else nullcontext() as executor:
        found = scatter(surface, tolerances, samples=options.samples, seed=options.seed, executor=executor,
                        table=options.table)  # fmt: skip
    short = found.lowest.below > 0.0 or any(one.broken for one in found.rules)
    code = STOPPED if found.stopped else SHORT if options.strict and short else 0
    if options.json:
        say_data(scatter_data(found), "scatter")
        return code
    system: System = options.units or ("inch" if str(surface.units) == "inch" else "metric")
    say(scatter_text(found, system) + "\n")
    sys.stdout.flush()
    if not options.no_page:
        from surfacecheck.report import scatter_page, write_whole

        page = Path(options.file).parent / "out" / f"{file.stem}_scatter.html"
        size = write_whole(page, scatter_page(found, system))
        say(f"PAGE   {page}  ({size / 1e6:.2f} MB, one file, opens on a phone)")
    if options.table:
        say(f"TABLE  {options.table}  (each sample that was worked, a row; SI units)")
    say(f"NEXT   {called_as()} show {quoted(str(file))} {found.by_part[0].name.partition(':')[0]}")
    return code


def _what(options: argparse.Namespace) -> tuple[Path, Surface, dict[str, str]]:
    """Read what is varied, and how far: a surface, or a file of tolerances that names one."""
    from surfacecheck.reading import read
    from surfacecheck.studies import holds_tolerances, read_tolerances

    file, tolerances = Path(options.file), dict[str, str]()
    if holds_tolerances(file):
        based_on, tolerances = read_tolerances(file)
        if based_on is None:
            message = 'does not say which surface it is for: write based_on = "rudder.toml" on top'
            raise SurfaceError(Fault(message, file.name))
        file = based_on
    for one in options.tolerance or ():
        key, sign, text = one.partition("=")
        if not sign or not key.strip():
            message = f'"{one}" is no tolerance of a key: write --tolerance "sheet.*.thickness=0.02 mm"'
            raise SurfaceError(Fault(message, key="--tolerance"))
        tolerances.pop(key.strip(), None)  # so that it comes last, and wins
        tolerances[key.strip()] = text.strip()
    return file, read(file), tolerances
