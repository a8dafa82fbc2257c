"""What every command prints with: text, plain data, words that can be typed as they stand."""

from __future__ import annotations

import json
import sys
from typing import Any

__all__ = ["quoted", "say", "say_data"]


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
