"""The commands: numbers first, the page after them.

What a command needs is imported when it runs, so that the numbers are on the screen at once.
"""

from __future__ import annotations

import argparse
import os
import sys
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from surfacecheck.cli._aftermath import run_aftermath
from surfacecheck.cli._deviation import run_deviation
from surfacecheck.cli._follow import run_follow
from surfacecheck.cli._gone import run_gone
from surfacecheck.cli._happened import run_happened
from surfacecheck.cli._map import run_map
from surfacecheck.cli._mixed import run_mixed
from surfacecheck.cli._new import run_new
from surfacecheck.cli._next import say_next, say_nothing_told
from surfacecheck.cli._numbers import number_of
from surfacecheck.cli._parser import called_as
from surfacecheck.cli._query import run_query
from surfacecheck.cli._rivets import run_rivets
from surfacecheck.cli._say import quoted, say, say_data
from surfacecheck.cli._scatter import run_scatter
from surfacecheck.cli._takeoff import run_card, run_takeoff
from surfacecheck.cli._thread import run_thread
from surfacecheck.cli._weigh import run_weigh
from surfacecheck.tables import wrapped

if TYPE_CHECKING:
    from surfacecheck.assessment import Assessment
    from surfacecheck.checks import Finding
    from surfacecheck.quantities import System
    from surfacecheck.report import Since
    from surfacecheck.rules import RuleResult

__all__ = ["COMMANDS", "DONE", "SHORT", "quoted"]

DONE, SHORT = 0, 1


def _assessed(path: str, *changes: str) -> Assessment:
    from surfacecheck.assessment import assess
    from surfacecheck.reading import read

    return assess(read(path, *changes))


def _system(options: argparse.Namespace, assessment: Assessment) -> System:
    chosen: System = options.units or ("inch" if str(assessment.surface.units) == "inch" else "metric")
    return chosen


def _strictly(options: argparse.Namespace, *found: Assessment) -> int:
    findings = [f for one in found for f in one.margins]
    return _short(options, findings, [rule for one in found for rule in one.rules])


def _short(options: argparse.Namespace, findings: Sequence[Finding], rules: Sequence[RuleResult]) -> int:
    """Exit code under ``--strict``."""
    from surfacecheck.checks import Outcome
    from surfacecheck.rules import DOES_NOT_MEET

    less = any(f.outcome in {Outcome.LESS, Outcome.DEPENDS} or (f.margin or 0.0) < 0.0 for f in findings)
    wrong = any(rule.counts and rule.outcome == DOES_NOT_MEET for rule in rules)
    return SHORT if options.strict and (less or wrong) else DONE


def _check(options: argparse.Namespace) -> int:
    from surfacecheck.assessment import as_data, summary

    if say_nothing_told(options):
        return DONE
    assessment = _assessed(options.file)
    system = _system(options, assessment)
    since = _since(options, assessment)
    if options.json:
        say_data(as_data(assessment) | ({} if since is None else {"since": since.data()}), "check")
        _tables(options, assessment, system, since)
        return _strictly(options, assessment)
    say(summary(assessment, system))
    say("" if since is None else f"\n{since.text(system)}\n")
    say_next(assessment)
    sys.stdout.flush()
    if not options.no_page:
        page, size = _page(assessment, Path(options.file), system, since)
        say(f"PAGE   {page}  ({size / 1e6:.2f} MB, one file, opens on a phone)")
    if written := _tables(options, assessment, system, since):
        say(f"TABLES {Path(options.tables)}  ({len(written)} files: each table as CSV, and as text for a letter)")
    hint = "1" if assessment.margins else "pins"
    told = f"deviation {quoted(options.file)}" if assessment.surface.happened else f"show {quoted(options.file)} {hint}"
    say(f"NEXT   {called_as()} {told}")
    return _strictly(options, assessment)


def _since(options: argparse.Namespace, assessment: Assessment) -> Since | None:
    """Read the earlier page before anything is printed, or put in its place."""
    if options.earlier is None:
        return None
    from surfacecheck.report import read_earlier, since

    return since(assessment, read_earlier(options.earlier, assessment.surface))


def _tables(
    options: argparse.Namespace, assessment: Assessment, system: System, since: Since | None
) -> tuple[Path, ...]:
    if options.tables is None:
        return ()
    from surfacecheck.report import write_tables

    return write_tables(assessment, options.tables, system, since)


def _page(assessment: Assessment, file: Path, system: System, since: Since | None) -> tuple[Path, int]:
    """Write the page beside its place, then in one step to it: an old page gives way only to a whole new one."""
    from surfacecheck.report import write_page

    folder = file.parent / "out"
    folder.mkdir(exist_ok=True)
    page, beside = folder / f"{file.stem}.html", folder / f".{file.stem}.{os.getpid()}.html"
    try:
        size = write_page(assessment, beside, system, *([] if since is None else [since]))
        beside.replace(page)
    finally:
        beside.unlink(missing_ok=True)
    return page, size


def _show(options: argparse.Namespace) -> int:
    from surfacecheck import assessment as shown

    name = " ".join(options.name)
    assessment = _assessed(options.file)
    system = _system(options, assessment)
    tables: dict[str, Callable[[], str]] = {
        "pins": lambda: str(shown.pin_table(assessment, system)),
        "balance": lambda: f"{shown.mass_table(assessment, system)}\n{wrapped(shown.balance_line(assessment, system))}",
        "rules": lambda: "\n".join(wrapped(line, then="  ") for line in shown.rule_lines(assessment, system)),
        "gaps": lambda: "\n".join(wrapped(f"{gap.key}: hides {gap.hides}", then="  ") for gap in assessment.gaps),
    }
    if name in tables and not options.json:
        say(tables[name]() or f"{name}: none")
        return DONE
    finding = None
    if any(name == f"row.{load.row.name}" for load in assessment.rows):
        say(str(shown.row_table(assessment, name.removeprefix("row."), system)) + "\n") if not options.json else None
        finding = next((f for f in (*assessment.margins, *assessment.not_given) if f.check.place == name), None)
    finding = finding or assessment.find(name)
    if options.json:
        say_data({"form": 1, "units": "SI", **shown.finding_data(finding)}, "show")
    else:
        say(shown.show_working(finding, assessment, system))
    return _short(options, [finding], [])


def _compare(options: argparse.Namespace) -> int:
    from surfacecheck.studies import compare, comparison_data, comparison_text

    base = _assessed(options.file)
    changed = [_assessed(options.file, change) for change in options.change]
    comparison = compare(base, *changed)
    if options.json:
        say_data(comparison_data(comparison), "compare")
    else:
        say(comparison_text(comparison, _system(options, base)))
        happened = [name for name, one in zip(options.change, changed, strict=True) if one.surface.happened]
        for name in happened:
            say("\n" + wrapped(f"{name}: what happened is not in these numbers, only what it says of the drawing"))
        said = f"deviation {quoted(options.file)} {quoted(happened[0])}" if happened else ""
        say(f"\nNEXT   {called_as()} {said or f'show {quoted(options.change[0])} 1'}")
    return _strictly(options, *changed)


def _row(options: argparse.Namespace) -> int:
    from surfacecheck.studies import row_alone, row_data, row_study_text

    system: System = options.units or "metric"
    length, force = ("in", "lbf") if system == "inch" else ("mm", "N")

    def number(name: str, quantity: str = "length", unit: str = length) -> float | None:
        text = getattr(options, name)
        return None if text is None else number_of(text, name, quantity, unit)

    pitches = [number_of(text, "pitch", "length", length) for text in options.pitch]
    name, unit = ("load_per_in", "lbf/in") if options.load_per_mm is None else ("load_per_mm", "N/mm")
    load = number_of(getattr(options, name), name, "line_load", unit)
    diameter, sheet = (number_of(getattr(options, one), one, "length", length) for one in ("diameter", "sheet"))
    lengths = [number(one) for one in ("length", "drilled_at", "edge", "inner_sheet")]
    shear = number("shear", "force", force)
    first_to_last, drilled, edge, inner = lengths
    study = row_alone(pitches, diameter, sheet, load, length=first_to_last, drilled_at=drilled, edge=edge,
                      inner_sheet=inner, alloy=options.alloy, shear=shear)  # fmt: skip
    if options.json:
        say_data(row_data(study), "row")
    else:
        say(row_study_text(study, system))
    found = [f for option in study.options for f in option.findings]
    return _short(options, found, [rule for option in study.options for rule in option.rules])


COMMANDS: dict[str, Callable[[argparse.Namespace], int]] = {
    "check": _check,
    "new": run_new,
    "map": run_map,
    "show": _show,
    "compare": _compare,
    "follow": run_follow,
    "row": _row,
    "gone": run_gone,
    "thread": run_thread,
    "mixed": run_mixed,
    "rivets": run_rivets,
    "card": run_card,
    "takeoff": run_takeoff,
    "weigh": run_weigh,
    "aftermath": run_aftermath,
    "scatter": run_scatter,
    "happened": run_happened,
    "deviation": run_deviation,
    "query": run_query,
}
