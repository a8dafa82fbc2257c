"""Bytes to a tree, and what to say where they are no TOML."""

from __future__ import annotations

import re
import tomllib
from typing import Any

from surfacecheck.errors import Fault, SurfaceError
from surfacecheck.reading._lines import lines_of
from surfacecheck.reading._tree import Table, planted

__all__ = ["LARGEST", "tree_of"]

LARGEST = 1_000_000
"""No file of this kind is larger [bytes]."""
_DEEPEST = 12


def tree_of(data: bytes, name: str) -> Table:
    """Read the bytes of a file.

    Parameters
    ----------
    data : bytes
        The file.
    name : str
        Its name, for messages.

    Returns
    -------
    Table
        The tree, each leaf with its place.

    Raises
    ------
    SurfaceError
        Where the file is empty, too large, not UTF-8, or no TOML.
    """
    if len(data) > LARGEST:
        raise SurfaceError(Fault(f"{len(data) / 1e6:.1f} MB is too large; such a file is a few kB", name))
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError as err:
        line = data.count(b"\n", 0, err.start) + 1
        message = 'not UTF-8 text: save it again as UTF-8 (the editor\'s "save as" asks for the encoding)'
        raise SurfaceError(Fault(message, name, line)) from err
    if not text.strip():
        raise SurfaceError(
            Fault("the file is empty: start with one that is filled in (the command `new` writes it)", name)
        )
    try:
        raw = tomllib.loads(text)
        _not_too_deep(raw)
        return _as_table(planted(raw, lines_of(text), name))
    except tomllib.TOMLDecodeError as err:
        raise SurfaceError(_explained(str(err), text, name)) from err
    except RecursionError as err:
        raise SurfaceError(Fault("brackets within brackets without end", name)) from err
    except ValueError as err:
        if isinstance(err, SurfaceError):
            raise SurfaceError(*(Fault(one.message, name) for one in err.faults)) from err
        raise SurfaceError(Fault("a number in it is too long to be read", name)) from err


def _as_table(node: Any) -> Table:
    assert isinstance(node, Table)  # noqa: S101 - a TOML document is a table
    return node


def _not_too_deep(raw: Any) -> None:
    level: list[Any] = [raw]
    for _ in range(_DEEPEST):
        level = [
            child
            for node in level
            for child in (node.values() if isinstance(node, dict) else node)
            if isinstance(child, dict | list)
        ]
        if not level:
            return
    message = "brackets within brackets without end"
    raise SurfaceError(message)


def _explained(said: str, text: str, name: str) -> Fault:
    """Turn the reader's message into one that says what to write."""
    lines = text.splitlines() or [""]
    found = re.search(r"at line (\d+)", said)
    number = min(int(found[1]), len(lines)) if found else len(lines)
    if not found:  # the end of the file was reached: the first line with an open quote began it
        number = next((at for at, line in enumerate(lines, 1) if _quote_open(line)), number)
    line = lines[number - 1]
    while not line.strip() and number > 1:
        number -= 1
        line = lines[number - 1]
    return Fault(_advice(said, line), name, number)


def _advice(said: str, line: str) -> str:
    value = line.partition("=")[2].strip()
    if any(mark in value for mark in "“”„‘’«»") and not value.startswith('"'):
        return 'typographic quotes: write plain ones, "0.5 mm".'
    if _quote_open(line):
        return 'quote missing: the line starts with " and never closes it.'
    if "twice" in said or "overwrite" in said or "duplicate" in said.lower() or "immutable" in said:
        key = line.partition("=")[0].strip()
        return f"{key} stands twice: keep one."
    bare = re.match(r"[^\[{\"'#][^#\"',]*", value)
    if bare and "=" in line:
        word = bare[0].strip()
        return f'{word} needs quotes: "{word}".'
    if "=" not in line and not line.lstrip().startswith("["):
        return f'"{line.strip()[:40]}" is no line of such a file: a line is `key = "value"` or `[table]`.'
    if "nclosed array" in said or "nclosed inline table" in said:
        mark = "]" if "array" in said else "}"
        return f"not readable from here: a {mark} is missing, here or above."
    return f"not readable: {said[0].lower()}{said[1:]}."


def _quote_open(line: str) -> bool:
    bare = re.sub(r"'[^']*'", "", line)
    for found in re.finditer(r'"(?:[^"\\]|\\.)*"|#|"', bare):
        if found[0] == "#":
            return False
        if found[0] == '"':
            return True
    return False
