"""``gone``: one gone at a time over the whole surface, or rivets out of one row or group."""

from __future__ import annotations

import argparse
import re
import sys
from pathlib import Path
from typing import TYPE_CHECKING, Any

from surfacecheck.cli._parser import called_as
from surfacecheck.cli._say import quoted, say, say_data
from surfacecheck.errors import SurfaceError

if TYPE_CHECKING:
    from collections.abc import Iterable

    from surfacecheck.assessment import Assessment
    from surfacecheck.quantities import System
    from surfacecheck.studies import MissingGroup, MissingRow, OneGone, Survey

__all__ = ["run_gone"]

PATIENCE = 1.0
"""Time after which a bar shows how far it is [s]."""


def run_gone(options: argparse.Namespace) -> int:
    """Print what the rest carries when something is gone.

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

    _named(options)
    surface = read(options.file)
    if options.out and not (options.row or options.group):
        such = next((f'"--row {name}"' for name in surface.rows), '"--row" with its name')
        message = f'--out names rivets of a row or group: say which, {such} or "--group horn"'
        raise SurfaceError(message)
    assessment = assess(surface)
    system: System = options.units or ("inch" if str(assessment.surface.units) == "inch" else "metric")
    if options.row or options.group:
        return _some(options, assessment, system)
    return _whole(options, assessment, system)


def _named(options: argparse.Namespace) -> None:
    """Take the number out of a name that goes on to a rivet, as the map gives it."""
    for key in ("row", "group"):
        found = re.fullmatch(r"(.+?)[\s,.]*\brivet[ -](\d+)", getattr(options, key) or "")
        if found:
            setattr(options, key, found[1])
            options.out = [*options.out, int(found[2])]


def _some(options: argparse.Namespace, assessment: Assessment, system: System) -> int:
    """Take rivets out of one row or group: those named, or each and each pair."""
    from surfacecheck.studies import missing_data, missing_group, missing_row, survey_group, survey_row

    found: MissingRow | MissingGroup | Survey
    if options.row:
        found = (
            missing_row(assessment, options.row, options.out) if options.out else survey_row(assessment, options.row)
        )
    elif options.out:
        found = missing_group(assessment, options.group, options.out)
    else:
        found = survey_group(assessment, options.group)
    if options.json:
        say_data(missing_data(found), "gone")
    else:
        say(found.text(system))
        _next(options)
    return 1 if options.strict and found.short else 0


def _next(options: argparse.Namespace) -> None:
    if options.out:
        which = f"--row {options.row}" if options.row else f"--group {options.group}"
        say(f"\nNEXT   {called_as()} gone {quoted(options.file)} {which}")
    else:
        say(f"\nNEXT   {called_as()} gone {quoted(options.file)}")


def _whole(options: argparse.Namespace, assessment: Assessment, system: System) -> int:
    from surfacecheck.studies import gone_data, gone_text, one_gone

    gone = one_gone(assessment, _bar)
    if options.json:
        say_data(gone_data(gone), "gone")
        return _code(options, gone)
    say(gone_text(gone, system) + "\n")
    sys.stdout.flush()
    if not options.no_page:
        from surfacecheck.report import gone_page, write_whole

        file = Path(options.file)
        page = file.parent / "out" / f"{file.stem}_gone.html"
        size = write_whole(page, gone_page(gone, system))
        say(f"PAGE   {page}  ({size / 1e6:.2f} MB, one file, opens on a phone)")
    groups = [one.name.rpartition(".")[0] for one in (*gone.of("horn"), *gone.of("bracket"))]
    if groups:
        say(f"NEXT   {called_as()} gone {quoted(options.file)} --group {groups[0]}")
    return _code(options, gone)


def _bar(steps: Iterable[Any]) -> Iterable[Any]:
    """Show a bar from the second second on, where a person looks on."""
    from tqdm import tqdm

    bar: Iterable[Any] = tqdm(steps, desc="one gone", delay=PATIENCE, leave=False, ascii=True, disable=None)
    return bar


def _code(options: argparse.Namespace, gone: OneGone) -> int:
    return 1 if options.strict and gone.short else 0
