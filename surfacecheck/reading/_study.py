"""A small file that says which rivets to compare: lists, and the rows they are for."""

from __future__ import annotations

from dataclasses import dataclass
from difflib import get_close_matches
from pathlib import Path
from typing import Any

from surfacecheck.errors import Fault, SurfaceError
from surfacecheck.model import HeadKind
from surfacecheck.quantities import parse
from surfacecheck.reading._toml import tree_of
from surfacecheck.reading._tree import Leaf, Node, Rows, Table

__all__ = ["LISTS", "StudyFile", "read_study"]

LISTS = {
    "pitch": ("length", "from rivet to rivet"),
    "count": ("whole", "rivets in a line instead, ends included; on each rib, for rows on the ribs"),
    "rivet": ("text", "names of part D, or of the shipped table"),
    "diameter": ("length", "nominal diameters"),
    "lines": ("whole", "lines side by side"),
    "head": ("head", "kinds of head"),
    "edge": ("length", "hole centre to the edge of the sheets"),
    "sheet": ("length", "thickness of the sheet under the head"),
}
"""Lists of such a file: what an entry is, and what it means."""
_KEYS = ("based_on", "title", "rows", *LISTS, "drilled_at")


@dataclass(frozen=True)
class StudyFile:
    """What is to be compared.

    Attributes
    ----------
    surface : Path
        The surface file, or a change file.
    rows : tuple of str
        Names of rows.
    lists : dict of str to tuple
        The lists given, in SI units.
    drilled_at : float or None
        Pitch at which the rows are drilled already [m].
    """

    surface: Path
    rows: tuple[str, ...]
    lists: dict[str, tuple[Any, ...]]
    drilled_at: float | None


def read_study(path: str | Path) -> StudyFile | None:
    """Read a file that says which rivets to compare.

    Parameters
    ----------
    path : str or Path
        Any file.

    Returns
    -------
    StudyFile or None
        None where it is no such file: it has no list ``rows``, or is not there.

    Raises
    ------
    SurfaceError
        With file, line and key of everything that is wrong in one.

    Examples
    --------
    >>> read_study("data/rudder.toml") is None  # doctest: +SKIP
    True
    """
    file = Path(path)
    if not file.is_file():
        return None
    tree = tree_of(file.read_bytes(), file.name)
    rows = tree.get("rows")
    if not isinstance(rows, Rows):
        return None
    faults: list[Fault] = [_unknown(key, node) for key, node in tree.items() if key not in _KEYS]
    lists = {key: _list(key, tree[key], faults) for key in LISTS if key in tree}
    base = tree.get("based_on")
    if not isinstance(base, Leaf) or not isinstance(base.value, str):
        faults.append(Fault('needs based_on = "rudder.toml": the surface it is about', file.name, 0, "based_on"))
    names = _list("rows", rows, faults)
    drilled = tree.get("drilled_at")
    at = None if drilled is None else _entry("drilled_at", "length", drilled, faults)
    if drilled is not None and at is not None and not at > 0.0:
        message = f"{at * 1e3:g} mm; it must be above 0: measure it again, from hole to hole"
        faults.append(Fault(message, drilled.place.file, drilled.place.line, "drilled_at"))
    if faults:
        raise SurfaceError(*faults)
    assert isinstance(base, Leaf)  # noqa: S101 - looked at above
    return StudyFile(file.parent / base.value, names, lists, at)


def _unknown(key: str, node: Node) -> Fault:
    near = get_close_matches(key, _KEYS, n=1, cutoff=0.5)
    hint = f" Nearest: {near[0]}." if near else ""
    place = node.place
    return Fault(f'unknown word "{key}".{hint} Allowed here: {", ".join(_KEYS)}.', place.file, place.line, key)


def _list(key: str, node: Node, faults: list[Fault]) -> tuple[Any, ...]:
    kind = LISTS.get(key, ("text", ""))[0]
    if isinstance(node, Table):
        faults.append(Fault("a list is meant here, not a table", node.place.file, node.place.line, key))
        return ()
    entries = node if isinstance(node, Rows) else [node]
    if not entries:
        message = "the list is empty; give at least one, or leave the line out: then it stays as drawn"
        faults.append(Fault(message, node.place.file, node.place.line, key))
    found = (_entry(key, kind, entry, faults) for entry in entries)
    return tuple(one for one in found if one is not None)


def _entry(key: str, kind: str, node: Node, faults: list[Fault]) -> Any:
    place = node.place
    try:
        return _value(kind, node)
    except SurfaceError as error:
        faults.append(Fault(str(error), place.file, place.line, key))
        return None


def _value(kind: str, node: Node) -> Any:
    value = node.value if isinstance(node, Leaf) else None
    if kind == "whole":
        if isinstance(value, bool) or not isinstance(value, int):
            message = "a bare whole number is meant here, such as 2"
            raise SurfaceError(message)
        return value
    if not isinstance(value, str):
        message = f"a text is meant here, such as {_SAMPLES[kind]}"
        raise SurfaceError(message)
    return parse(value, "length")[0] if kind == "length" else value


_SAMPLES = {"length": '"25 mm"', "text": '"small"', "head": f'"{HeadKind.PROTRUDING}"'}
