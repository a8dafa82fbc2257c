"""Every value of a surface with its path, and a surface with another value at a path."""

from __future__ import annotations

from dataclasses import fields, is_dataclass, replace
from typing import TYPE_CHECKING, Any

from surfacecheck.model import Alloy
from surfacecheck.provenance import Value

if TYPE_CHECKING:
    from collections.abc import Iterator

__all__ = ["Path", "walk_values", "with_value"]

Path = tuple[str | int, ...]
"""Fields, names and numbers that lead to a value."""


def walk_values(node: Any, path: Path = ()) -> Iterator[tuple[Path, Value]]:
    """Go through every value of a surface, or of a part of one; those of a metal of the builder's own are left out.

    Parameters
    ----------
    node : object
        Surface or part.
    path : tuple of (str or int)
        Where it stands.

    Yields
    ------
    tuple
        Path and value.
    """
    if isinstance(node, Value):
        yield path, node
    elif isinstance(node, Alloy) and node.where_from:  # one line says for all of it where it is from
        return
    elif is_dataclass(node):
        for one in fields(node):
            yield from walk_values(getattr(node, one.name), (*path, one.name))
    elif isinstance(node, dict):
        for name, inner in node.items():
            yield from walk_values(inner, (*path, name))
    elif isinstance(node, tuple):
        for at, inner in enumerate(node):
            yield from walk_values(inner, (*path, at))


def with_value(node: Any, path: Path, value: Value) -> Any:
    """Put a value in its place in a surface.

    Parameters
    ----------
    node : object
        Surface or part.
    path : tuple of (str or int)
        Where the value stands.
    value : Value
        The new one.

    Returns
    -------
    object
        A copy with it.
    """
    if not path:
        return value
    first, rest = path[0], path[1:]
    if isinstance(node, dict):
        return {**node, first: with_value(node[first], rest, value)}
    if isinstance(node, tuple) and isinstance(first, int):
        return (*node[:first], with_value(node[first], rest, value), *node[first + 1 :])
    return replace(node, **{str(first): with_value(getattr(node, str(first)), rest, value)})
