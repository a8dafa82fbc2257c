"""A change that names a table almost as the file does: mistyped, not new."""

from __future__ import annotations

from typing import Any

from surfacecheck.errors import Fault, SurfaceError
from surfacecheck.model import FLAT_WORDS, Doubler, Kind, said, specs
from surfacecheck.reading._assemble import NAMED_TABLES
from surfacecheck.reading._context import nearest
from surfacecheck.reading._tree import Leaf, Table

__all__ = ["refuse_mistyped"]

_PARTS = ("left_skin", "right_skin", "nose_skin", "spar", "ribs")
"""Names that ``[sheet]`` has of its own; any other is a doubler."""
_ENOUGH = 0.5
"""Share of the keys a table needs, and two at least, from which on it is a new one [-]: a slip comes with one or two
lines, a new table with most of its own."""
_MANY = 4
"""Lines from which on it is a new one whatever they are: a packet of rivets says size, hole, set and metal."""


def refuse_mistyped(base: Table, change: Table) -> None:
    """Refuse a table that is not in the file, is called almost as one that is, and has few of the keys it needs.

    Laid over the file it would stand beside the table that is meant: a row that joins nothing, or one hinge more.

    Parameters
    ----------
    base : Table
        The file.
    change : Table
        What is laid over it, ``same_as`` resolved.

    Raises
    ------
    SurfaceError
        For each such table its nearest name, and what a new one needs.
    """
    faults = []
    kind = _kind_of(base)
    for family, _, cls in (*NAMED_TABLES, ("sheet", "", Doubler)):
        there, new = base.get(family), change.get(family)
        if not isinstance(there, Table) or not isinstance(new, Table):
            continue
        parts = {said(one, kind) for one in _PARTS} if family == "sheet" else set()
        for name, node in new.items():
            near = nearest(name, [*there, *sorted(parts - set(there))])
            needed = _needed(cls, kind)
            if name in {*there, *parts} or not near or not isinstance(node, Table) or "gone" in node:
                continue
            few = sum(key in node for key in needed) < max(2, _ENOUGH * len(needed))
            if few and len(node) < _MANY:
                what = "doubler" if family == "sheet" else family
                message = f'unknown {family} "{name[:40]}". Nearest: {near}. Here: {", ".join(there)}. '
                message += f"A new {what} needs {', '.join(needed)}."
                faults.append(Fault(message, node.place.file, node.place.line, f"{family}.{name}"))
    if faults:
        raise SurfaceError(*faults)


def _kind_of(base: Table) -> Kind:
    leaf = base.get("kind")
    named = leaf.value if isinstance(leaf, Leaf) else None
    return Kind(named) if named in list(Kind) else Kind.RUDDER


def _needed(cls: Any, kind: Kind) -> list[str]:
    """Give the keys a table cannot go without, in the words of this kind of surface."""
    keys = [key for key, (_, spec) in specs(cls).items() if not spec.optional]
    return keys if kind is Kind.RUDDER else [FLAT_WORDS.get(key, key) for key in keys]
