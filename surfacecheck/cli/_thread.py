"""``thread``: pins off the line of the outer ones, as a stretched thread shows them, and what they set in."""

from __future__ import annotations

import argparse
import re
from typing import TYPE_CHECKING

from surfacecheck.cli._numbers import number_of
from surfacecheck.cli._parser import called_as
from surfacecheck.cli._say import quoted, say, say_data
from surfacecheck.errors import Fault, SurfaceError

if TYPE_CHECKING:
    from surfacecheck.assessment import Assessment
    from surfacecheck.quantities import System

__all__ = ["run_thread"]


def run_thread(options: argparse.Namespace) -> int:
    """Print the forces that pins off line set in.

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
    from surfacecheck.studies import hinges_off_line, off_line_data, off_line_text

    assessment = assess(read(options.file))
    system: System = options.units or ("inch" if str(assessment.surface.units) == "inch" else "metric")
    left, right = (assessment.surface.said(word) for word in ("left", "right"))
    sideways = _offsets(options.sideways, "sideways", assessment, (left, right))
    behind = _offsets(options.behind, "behind", assessment, ("behind", "ahead"))
    gives = None if options.gives is None else number_of(options.gives, "gives", "compliance")
    found = hinges_off_line(assessment, sideways, behind, gives)
    if options.json:
        say_data(off_line_data(found), "thread")
    else:
        say(off_line_text(found, system))
        say(f"\nNEXT   {called_as()} show {quoted(options.file)} pins")
    lowest = found.lowest[1]
    return 1 if options.strict and lowest is not None and lowest < 0.0 else 0


def _offsets(texts: list[str] | None, name: str, assessment: Assessment, ways: tuple[str, str]) -> list[float] | None:
    """Turn readings of the thread into offsets; None where none were given."""
    from surfacecheck.studies import thread_offsets

    if texts is None:
        return None
    hinges = list(assessment.span.hinges)
    if len(texts) != len(hinges):
        message = f"{len(texts)} readings for {len(hinges)} hinges: give one each, in the order {', '.join(hinges)}"
        raise SurfaceError(Fault(message, key=f"--{name}"))
    up = assessment.span.breaks[list(assessment.span.hinges.values())]
    read = [_reading(text, name, ways) for text in texts]
    return [float(v) for v in thread_offsets(up, read)]


def _reading(text: str, name: str, ways: tuple[str, str]) -> float:
    """Read a distance from the thread; the second word of ``ways`` is the other side of it."""
    found = re.fullmatch(rf"(.*?)\s*\b({ways[0]}|{ways[1]})?\s*", text.strip())
    assert found is not None  # noqa: S101 - the pattern fits any text
    return number_of(found[1], name, "length") * (-1.0 if found[2] == ways[1] else 1.0)
