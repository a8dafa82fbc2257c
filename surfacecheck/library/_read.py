"""Read the shipped tables: each value with its unit and the name of its source."""

from __future__ import annotations

import tomllib
from difflib import get_close_matches
from functools import cache
from importlib.resources import files
from typing import TYPE_CHECKING, Any

from surfacecheck.errors import Fault, SurfaceError
from surfacecheck.provenance import Basis, Source, Value

if TYPE_CHECKING:
    from collections.abc import Iterable

__all__ = ["entry", "known_keys", "nearest", "source", "table"]

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


def known_keys(row: dict[str, Any], allowed: Iterable[str], key: str) -> None:
    """Refuse a key that no reader asks for: a misspelt one would leave its value unknown and say nothing."""
    keys = sorted(allowed)
    odd = [one for one in row if one not in keys]
    if odd:
        close = get_close_matches(odd[0], keys, n=1)
        hint = f'Nearest: "{close[0]}". ' if close else ""
        raise SurfaceError(Fault(f"no key of this table. {hint}Keys: {', '.join(keys)}.", key=f"{key}.{odd[0]}"))


def entry(cell: dict[str, Any] | None, sources: dict[str, Any], key: str) -> Value:
    """Turn ``{ ksi = 42, from = "..." }`` into a value with its source; a missing cell is unknown."""
    if cell is None:
        return Value(None, "?", Source(Basis.NOT_SAID, "no value in the tables at hand"), key)
    units = [name for name in cell if name not in {"from", "note"}]
    if len(units) != 1 or units[0] not in _UNITS:
        found = ", ".join(units) or "nothing"
        message = (
            f"one number with its unit is wanted, beside from and note; found: {found}. Units: {', '.join(_UNITS)}"
        )
        raise SurfaceError(Fault(message, key=key))
    (unit,) = units
    shown, scale = _UNITS[unit]
    said = f"{cell[unit]:g} {shown}".strip()
    return Value(float(cell[unit]) * scale, said, source(cell.get("from"), sources, key, cell.get("note", "")), key)


def source(name: str | None, sources: dict[str, Any], key: str, note: str = "") -> Source:
    """Give a named source, with a note to it."""
    if name not in sources:
        said = "from is not given" if name is None else f'from = "{name}" is no [source] of this table'
        raise SurfaceError(Fault(f"{said}. Sources: {', '.join(sources)}.", key=key))
    found = sources[name]
    if found.get("basis") not in set(Basis) or not found.get("text"):
        message = f"a source wants a text, and as its basis one of: {', '.join(Basis)}"
        raise SurfaceError(Fault(message, key=f"source.{name}"))
    return Source(Basis(found["basis"]), found["text"] + (f"; {note}" if note else ""))


def nearest(word: str, kind: str, names: list[str]) -> SurfaceError:
    """Say that a name is not in a table, and what was probably meant."""
    plain = {name.casefold(): name for name in names}
    close = get_close_matches(word.casefold(), plain, n=1, cutoff=0.4)
    hint = f'Nearest: "{plain[close[0]]}". ' if close else ""
    return SurfaceError(f'{kind} "{word}" is not in the table. {hint}Here: {", ".join(names)}.')
