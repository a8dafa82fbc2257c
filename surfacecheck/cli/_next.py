"""What ``check`` says of an empty and of a half-filled file: which values to find out next, and what each gives."""

from __future__ import annotations

import argparse
from typing import TYPE_CHECKING

from surfacecheck.cli._parser import called_as
from surfacecheck.cli._say import quoted, say, say_data
from surfacecheck.tables import plain, wrapped

if TYPE_CHECKING:
    from surfacecheck.assessment import Assessment
    from surfacecheck.studies import NextValue

__all__ = ["say_next", "say_nothing_told"]


def say_nothing_told(options: argparse.Namespace) -> bool:
    """Say what comes first where nothing can be told yet.

    Parameters
    ----------
    options : argparse.Namespace
        Of ``check``.

    Returns
    -------
    bool
        Whether that is so; False where there is something to tell.
    """
    from surfacecheck.reading import read
    from surfacecheck.studies import next_values, nothing_told

    surface = read(options.file)
    if not nothing_told(surface):
        return False
    every = next_values(surface, most=100)
    if options.json:
        data = [{"key": one.key, "gives": one.gives} for one in every]
        say_data({"form": 1, "told": False, "next": data}, "check")
        return True
    say(wrapped(surface.name or "no name given"))
    say("Nothing can be told yet; these come first.")
    say()
    _say_values(every[:3])
    rest = [one.key for one in every[3:]]
    if rest:
        say(wrapped(f"After these: {', '.join(rest)}. Then you have the loads at the pins."))
    say()
    say(f"NEXT   {called_as()} check {quoted(options.file)}  (when they are filled in)")
    return True


def say_next(assessment: Assessment) -> None:
    """Say which values to find out next.

    Parameters
    ----------
    assessment : Assessment
        Of a file that tells something; nothing is said where it tells all.
    """
    from surfacecheck.studies import next_values

    found = next_values(assessment.surface, assessment)
    if found:
        _say_values(found)
        say()


def _say_values(values: tuple[NextValue, ...]) -> None:
    say("FILL IN NEXT, and what it gives")
    for i, one in enumerate(values):
        say(wrapped(plain(f"{i + 1} {one.said}: {one.gives}"), first=" ", then="   "))
