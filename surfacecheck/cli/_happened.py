"""``happened``: asks what happened, one question at a time, and writes the change file."""

from __future__ import annotations

import argparse
import sys
from pathlib import Path
from typing import TYPE_CHECKING, TextIO

from surfacecheck.cli._parser import called_as
from surfacecheck.cli._say import quoted, say, say_data
from surfacecheck.errors import Fault, SurfaceError
from surfacecheck.tables import plain, wrapped

if TYPE_CHECKING:
    from surfacecheck.changes import Interview, Question

__all__ = ["run_happened"]

_BACK = {"back", "go back", "b"}
_STOP = {"stop", "quit", "exit", "q"}
STOPPED = "stopped before the last question"


def run_happened(options: argparse.Namespace) -> int:
    """Ask, show the file, write it under a name that is free.

    Parameters
    ----------
    options : argparse.Namespace
        Of the command line.

    Returns
    -------
    int
        Exit code.
    """
    from surfacecheck.changes import Interview
    from surfacecheck.reading import read

    file = Path(options.file)
    surface = read(options.file)
    if surface.changes:
        message = f"is a change file: name the surface file, {surface.path}; a chain goes into one change file"
        raise SurfaceError(Fault(message, file.name))
    out = sys.stderr if options.json else sys.stdout
    interview = _asked(Interview(surface, file), out)
    text = interview.text()
    target = _written(file, text)
    if options.json:
        say_data({"form": 1, "file": str(target), "events": list(interview.events), "text": text,
                  "wanted": list(interview.wanted)}, "happened")  # fmt: skip
        return 0
    say(f"\n{text}")
    say(f"FILE   {target}")
    for one in interview.wanted:
        say(wrapped(plain(one), first="TO BE MEASURED  ", then="  "))
    say(f"NEXT   {called_as()} deviation {quoted(options.file)} {quoted(str(target))}")
    return 0


def _asked(interview: Interview, out: TextIO) -> Interview:
    """Ask until nothing is left to ask."""
    intro = "One question at a time. An answer may be: not measured; back; stop. Nothing is written before the end."
    out.write(wrapped(intro) + "\n")
    while (question := interview.question) is not None:
        out.write("\n" + _told(question))
        out.flush()
        line = sys.stdin.readline()
        typed = " ".join(line.split())
        if not line or typed.casefold() in _STOP:
            raise SurfaceError(STOPPED)
        if typed.casefold() in _BACK:
            interview = interview.back()
            continue
        try:
            interview = interview.answered(typed)
        except SurfaceError as error:
            for fault in error.faults:
                out.write(wrapped(plain(str(fault)), first="! ", then="  ") + "\n")
    return interview


def _told(question: Question) -> str:
    lines = [wrapped(question.words)]
    lines += [wrapped(one, first=f"  {at} ", then="    ") for at, one in enumerate(question.choices, 1)]
    lines += [wrapped(f"({question.hint})")] if question.hint else []
    return "\n".join(lines) + "\n> "


def _written(file: Path, text: str) -> Path:
    """Write beside the surface file, under the first name that is free."""
    number = 1
    while True:
        target = file.with_name(f"{file.stem}_happened{'' if number == 1 else f'_{number}'}.toml")
        try:
            with target.open("x", encoding="utf-8") as out:
                out.write(text)
        except FileExistsError:
            number += 1
        else:
            return target
