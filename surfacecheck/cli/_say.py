"""What every command prints with: text, plain data, words that can be typed as they stand."""

from __future__ import annotations

import json
import signal
import sys
import threading
from contextlib import contextmanager
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from collections.abc import Iterator
    from types import FrameType

__all__ = ["quoted", "say", "say_data", "shown_first"]


def say(text: str = "") -> None:
    """Print a line or several."""
    sys.stdout.write(text + "\n")


def say_data(data: dict[str, Any], command: str) -> None:
    """Print plain data, with the program and the command it came from."""
    from surfacecheck import __version__

    whole = {"form": data["form"], "program": "surfacecheck", "version": __version__, "command": command, **data}
    say(json.dumps(whole, indent=1, allow_nan=False))


def quoted(path: str) -> str:
    """Write a path as a shell reads it."""
    return f'"{path}"' if " " in path else path


@contextmanager
def shown_first() -> Iterator[None]:
    """Hold the first interrupt from the keyboard back until what was finished is shown; a second one stops that too."""
    before = signal.getsignal(signal.SIGINT)
    if threading.current_thread() is not threading.main_thread() or not callable(before):
        yield
        return
    held: list[tuple[int, FrameType | None]] = []

    def hold(number: int, frame: FrameType | None) -> None:
        held.append((number, frame))
        signal.signal(signal.SIGINT, before)

    signal.signal(signal.SIGINT, hold)
    try:
        yield
    finally:
        signal.signal(signal.SIGINT, before)
    if held:
        before(*held[0])
