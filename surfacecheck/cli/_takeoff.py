"""``takeoff``: what to buy, drill and set; ``card``: what texts say of a row."""

from __future__ import annotations

import argparse
import sys
from pathlib import Path
from typing import TYPE_CHECKING

from surfacecheck.cli._parser import called_as
from surfacecheck.cli._say import quoted, say, say_data
from surfacecheck.errors import Fault, SurfaceError

if TYPE_CHECKING:
    from surfacecheck.assessment import Assessment
    from surfacecheck.model import Surface
    from surfacecheck.quantities import System
    from surfacecheck.studies import Spares, TakeOff, Work

__all__ = ["run_card", "run_takeoff", "work_of"]

DONE, SHORT = 0, 1


def _system(options: argparse.Namespace, surface: Surface) -> System:
    chosen: System = options.units or ("inch" if str(surface.units) == "inch" else "metric")
    return chosen


def run_takeoff(options: argparse.Namespace) -> int:
    """Print what a surface takes, and write it as a page; or print the holes of one part.

    Parameters
    ----------
    options : argparse.Namespace
        Of the command line.

    Returns
    -------
    int
        Exit code; 1 under ``--strict`` where a stack has no length, or a rivet cannot be reached.
    """
    from surfacecheck.reading import read
    from surfacecheck.studies import (
        access,
        drilling,
        part_named,
        station_text,
        takeoff,
        takeoff_data,
        takeoff_text,
        unreached,
    )

    file, surface = Path(options.file), read(options.file)
    system = _system(options, surface)
    taken = takeoff(surface, _spares(options), work_of(options))
    if options.json:
        say_data(takeoff_data(taken), "takeoff")
    elif options.part:
        say(station_text(part_named(drilling(taken), options.part), surface, system))
    else:
        say(takeoff_text(taken, system) + "\n")
    sys.stdout.flush()
    _tables(options, taken, system)
    if taken.rows and not (options.json or options.part or options.no_page):
        from surfacecheck.report import takeoff_page, write_whole

        page = file.parent / "out" / f"{file.stem}_takeoff.html"
        size = write_whole(page, takeoff_page(taken, system))
        say(f"PAGE   {page}  ({size / 1e6:.2f} MB, one file, to print)")
    if taken.rows and not options.json:
        say(f"NEXT   {called_as()} card {quoted(options.file)} {taken.rows[0].stretch.seats.place}")
    if not options.strict:
        return DONE
    return SHORT if taken.problems or unreached(access(surface)) else DONE


def _tables(options: argparse.Namespace, taken: TakeOff, system: System) -> None:
    if options.tables is None:
        return
    from surfacecheck.report import write_takeoff_tables

    written = write_takeoff_tables(taken, options.tables, system)
    if not options.json:
        say(f"TABLES {Path(options.tables)}  ({len(written)} files: each table as CSV, and as text for a letter)")


def _number(text: str, name: str, what: str) -> float:
    try:
        return float(text.strip().removesuffix("%"))
    except ValueError as error:
        message = f'"{text}" is no number: {what}'
        raise SurfaceError(Fault(message, key=f"--{name}")) from error


def _spares(options: argparse.Namespace) -> Spares | None:
    """Read the spares of the options; those not given stay as common practice has them."""
    from surfacecheck.studies import OWN, Spares

    usual = Spares()
    if options.spares is None and options.practice is None:
        return None
    share, practice = usual.share, usual.practice
    if options.spares is not None:
        one = _number(options.spares, "spares", 'write per cent, "15" or "15 %"') / 100.0
        share = (one, one)
    if options.practice is not None:
        practice = (options.practice, options.practice)
    return Spares(share, practice, OWN)


def work_of(options: argparse.Namespace) -> Work | None:
    """Read the minutes of the options; those not given stay as they are, None where neither is."""
    from surfacecheck.studies import OWN, Work

    usual = Work()
    if options.minutes_hole is None and options.minutes_rivet is None:
        return None
    asked = (("hole", options.minutes_hole, usual.hole), ("rivet", options.minutes_rivet, usual.rivet))
    hole, rivet = (
        kept if given is None else _number(given, f"minutes-{name}", "write minutes, such as 0.5")
        for name, given, kept in asked
    )
    both = options.minutes_hole is not None and options.minutes_rivet is not None
    return Work(hole, rivet, OWN if both else usual.source)


def run_card(options: argparse.Namespace) -> int:
    """Print the rule card of one row, or of every row.

    Parameters
    ----------
    options : argparse.Namespace
        Of the command line.

    Returns
    -------
    int
        Exit code; 1 under ``--strict`` where a rule that counts is not met.
    """
    from surfacecheck.assessment import CAUTION
    from surfacecheck.reading import read
    from surfacecheck.rules import DOES_NOT_MEET
    from surfacecheck.studies import card_data, card_text, rule_card, rule_cards
    from surfacecheck.tables import wrapped

    surface = read(options.file)
    system = _system(options, surface)
    name = " ".join(options.row)
    assessment = _assessed(surface)
    cards = (rule_card(surface, name, assessment, system),) if name else rule_cards(surface, assessment, system)
    if options.json:
        cards_data = [card_data(card) for card in cards]
        say_data({"form": 1, "units": "SI", "surface": surface.name, "cards": cards_data, "caution": CAUTION}, "card")
    else:
        for card in cards:
            say(card_text(card, surface, system) + "\n")
        if not cards:
            say("no row is described yet: part E of the file, and brackets in part F")
        say(wrapped(CAUTION))
    return SHORT if options.strict and any(card.of(DOES_NOT_MEET) for card in cards) else DONE


def _assessed(surface: Surface) -> Assessment | None:
    """Assess where that can be done; the rules are there without."""
    from surfacecheck.assessment import assess

    try:
        return assess(surface)
    except SurfaceError:
        return None
