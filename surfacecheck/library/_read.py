"""Read the shipped tables: each value with its unit and the name of its source."""

from __future__ import annotations

import tomllib
from difflib import get_close_matches
from functools import cache
from importlib.resources import files
from typing import Any

from surfacecheck.errors import SurfaceError
from surfacecheck.provenance import Basis, Source, Value

__all__ = ["entry", "nearest", "source", "table"]

_UNITS = {
    "ksi": ("ksi", 6.894757293168361e6),
    "Msi": ("Msi", 6.894757293168361e9),
    "lb_in3": ("lb/in3", 27679.904710203125),
    "in": ("in", 0.0254),
    "mm": ("mm", 1e-3),
    "N": ("N", 1.0),
    "lbf": ("lbf", 4.4482216152605),
    "bare": ("", 1.0),
}
"""Unit keys of the tables, as shown and in SI; exact definitions of inch, pound and pound-force."""


@cache
def table(name: str) -> dict[str, Any]:
    """Read a shipped table once."""
    return tomllib.loads((files("surfacecheck.library") / name).read_text(encoding="utf-8"))


def entry(cell: dict[str, Any] | None, sources: dict[str, Any], key: str) -> Value:
    """Turn ``{ ksi = 42, from = "..." }`` into a value with its source; a missing cell is unknown."""
    if cell is None:
        return Value(None, "?", Source(Basis.NOT_SAID, "no value in the tables at hand"), key)
    (unit,) = (name for name in cell if name not in {"from", "note"})
    shown, scale = _UNITS[unit]
    said = f"{cell[unit]:g} {shown}".strip()
    return Value(float(cell[unit]) * scale, said, source(cell["from"], sources, cell.get("note", "")), key)


def source(name: str, sources: dict[str, Any], note: str = "") -> Source:
    """Give a named source, with a note to it."""
    found = sources[name]
    return Source(Basis(found["basis"]), found["text"] + (f"; {note}" if note else ""))


def nearest(word: str, kind: str, names: list[str]) -> SurfaceError:
    """Say that a name is not in a table, and what was probably meant."""
    plain = {name.casefold(): name for name in names}
    close = get_close_matches(word.casefold(), plain, n=1, cutoff=0.4)
    hint = f'Nearest: "{plain[close[0]]}". ' if close else ""
    return SurfaceError(f'{kind} "{word}" is not in the table. {hint}Here: {", ".join(names)}.')
