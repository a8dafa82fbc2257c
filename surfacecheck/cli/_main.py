"""Run a command and turn every way it can end into an exit code."""

from __future__ import annotations

import argparse
import os
import sys
from collections.abc import Sequence
from difflib import get_close_matches

from surfacecheck.cli._commands import COMMANDS, DONE, quoted
from surfacecheck.cli._parser import called_as, parser
from surfacecheck.errors import SurfaceError
from surfacecheck.tables import plain

__all__ = ["main"]

BAD_INPUT, COMPUTER, STOPPED = 2, 3, 130
_MOST_FAULTS = 5


def main(words: Sequence[str] | None = None) -> int:
    """Run a command.

    Parameters
    ----------
    words : sequence of str, optional
        Command and options; those of the process where not given.

    Returns
    -------
    int
        Exit code.
    """
    given = list(sys.argv[1:] if words is None else words)
    try:
        code = _run(given)
        sys.stdout.flush()
    except SurfaceError as error:
        return _faults(error)
    except BrokenPipeError:  # whoever read it has seen enough
        _hear_nothing()
        return DONE
    except OSError as error:
        _complain(f"this computer cannot do it: {error.strerror or error} ({error.filename or 'output'})")
        return COMPUTER
    except KeyboardInterrupt as stop:
        _complain(str(stop) or "stopped")
        return STOPPED
    return code


def _hear_nothing() -> None:
    """Send what is still to be written, at the end of the process too, nowhere."""
    try:
        output = sys.stdout.fileno()
    except (OSError, ValueError):  # no file behind it, so nothing is flushed at the end
        return
    nowhere = os.open(os.devnull, os.O_WRONLY)
    os.dup2(nowhere, output)
    os.close(nowhere)


def _run(given: list[str]) -> int:
    if hasattr(sys.stdout, "reconfigure"):
        sys.stdout.reconfigure(errors="replace")
    _known_command(given)
    try:
        chosen = parser().parse_args(given)
    except SystemExit as done:  # only --help leaves this way
        return int(done.code or 0)
    options = {"units": None, "json": False, "strict": False} | vars(chosen)
    return COMMANDS[options["command"]](argparse.Namespace(**options))


def _known_command(given: list[str]) -> None:
    """Say the nearest command where a word is none."""
    rest = iter(given)
    for word in rest:
        if word == "--units":
            next(rest, None)
        elif not word.startswith("-"):
            if word in COMMANDS:
                return
            near = get_close_matches(word, COMMANDS, n=1, cutoff=0.4)
            hint = f" Nearest: {near[0]}." if near else ""
            if word.endswith(".toml"):
                hint = f" Did you mean: {called_as()} check {quoted(word)} ?"
            message = f'unknown command "{word}".{hint} Commands: {", ".join(COMMANDS)}.'
            raise SurfaceError(message)


def _faults(error: SurfaceError) -> int:
    for fault in error.faults[:_MOST_FAULTS]:
        _complain(str(fault))
    if len(error.faults) > _MOST_FAULTS:
        _complain(f"and {len(error.faults) - _MOST_FAULTS} more")
    _complain("nothing was written")
    return BAD_INPUT


def _complain(line: str) -> None:
    sys.stderr.write(plain(" ".join(line.split())) + "\n")
