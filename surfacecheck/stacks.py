"""Stacks of variants: any number of a surface may be an array, one entry a variant; one set of formulas serves all.

A number of the file has shape ``(V,)``, what goes along the stations ``(V, S)``, what a check reads ``(V, cases,
spots)``; without a stack the leading axis is simply not there.
"""

from __future__ import annotations

from dataclasses import fields, is_dataclass, replace
from functools import lru_cache
from typing import TYPE_CHECKING, Any, TypeVar, cast

import numpy as np

from surfacecheck.provenance import Value

if TYPE_CHECKING:
    from collections.abc import Sequence

__all__ = ["alike", "one_of", "stacked"]


IGNORED = frozenset(
    {"changes", "drawn", "gaps", "remarks", "sources", "path", "sha256", "name", "drilled_already", "lengths"}
)
"""Fields that may differ between the variants of a stack: they change no number of the load path."""

LOOKED_UP = frozenset({"rivets"})
"""Parts that are only ever looked up by name: a variant may have some that no other has."""

T = TypeVar("T")


def stacked(variants: Sequence[T]) -> T | None:
    """Lay several surfaces, or parts of them, into one whose numbers are stacks.

    Parameters
    ----------
    variants : sequence
        Of one dataclass: the same structure, words and counts; only numbers differ.

    Returns
    -------
    dataclass or None
        The first of them with a stack for each number that differs; None where more than numbers differ.

    Examples
    --------
    >>> stacked([Value(1.0), Value(2.0)]).si
    array([1., 2.])
    """
    try:
        return cast("T", _merged(variants))
    except _Differs:
        return None


def alike(one: Any, other: Any) -> bool:
    """Tell whether two surfaces, or parts of them, can lie in one stack.

    Parameters
    ----------
    one, other : dataclass
        Any.

    Returns
    -------
    bool
        True where only numbers differ.

    Examples
    --------
    >>> alike(Value(1.0), Value(2.0)), alike(Value(1.0), Value(None))
    (True, False)
    """
    if one is other:
        return True
    if type(one) is not type(other):
        return False
    if isinstance(one, Value):
        return bool(one.known == other.known and one.absent == other.absent)
    if names := _names(one):
        return all(
            _alike_where_both(getattr(one, name), getattr(other, name))
            if name in LOOKED_UP
            else alike(getattr(one, name), getattr(other, name))
            for name in names
        )
    if isinstance(one, dict):
        return list(one) == list(other) and all(alike(part, other[key]) for key, part in one.items())
    if isinstance(one, tuple):
        return len(one) == len(other) and all(map(alike, one, other))
    return bool(one == other)


def _alike_where_both(one: dict[str, Any], other: dict[str, Any]) -> bool:
    return all(alike(part, other[key]) for key, part in one.items() if key in other)


def _names(node: Any) -> tuple[str, ...]:
    """Names of what is looked at of a dataclass; none of anything else."""
    kind: Any = type(node)
    return _names_of(kind)


@lru_cache(maxsize=256)
def _names_of(kind: Any) -> tuple[str, ...]:
    return tuple(f.name for f in fields(kind) if f.name not in IGNORED) if is_dataclass(kind) else ()


class _Differs(Exception):
    """A signal inside this module: more than numbers differ."""


def _merged(nodes: Sequence[Any]) -> Any:
    first = nodes[0]
    if all(node is first for node in nodes):
        return first
    if any(type(node) is not type(first) for node in nodes):
        raise _Differs
    if isinstance(first, Value):
        return _one_value(nodes)
    if names := _names(first):
        parts = {
            name: (_merged_by_name if name in LOOKED_UP else _merged)([getattr(node, name) for node in nodes])
            for name in names
        }
        changed = {name: part for name, part in parts.items() if part is not getattr(first, name)}
        return replace(first, **changed) if changed else first
    if isinstance(first, dict):
        if any(list(node) != list(first) for node in nodes):
            raise _Differs
        return {key: _merged([node[key] for node in nodes]) for key in first}
    if isinstance(first, tuple):
        if any(len(node) != len(first) for node in nodes):
            raise _Differs
        return tuple(_merged(part) for part in zip(*nodes, strict=True))
    if any(node != first for node in nodes):
        raise _Differs
    return first


def _merged_by_name(nodes: Sequence[dict[str, Any]]) -> dict[str, Any]:
    """Merge what is looked up by name; where a variant lacks one, nothing of it is read, so any other's will do."""
    every: dict[str, Any] = {}
    for node in nodes:
        every = node | every
    found = {key: _merged([node.get(key, part) for node in nodes]) for key, part in every.items()}
    first = nodes[0]
    return first if len(found) == len(first) and all(found[key] is part for key, part in first.items()) else found


def _one_value(values: Sequence[Value]) -> Value:
    first = values[0]
    if any(value.known != first.known or value.absent != first.absent for value in values):
        raise _Differs
    if first.si is None or all(value.si == first.si for value in values):
        return first
    return replace(first, si=np.array([value.si for value in values], dtype=np.float64))


def one_of(stack: T, variant: int) -> T:
    """Take one surface, or part of one, out of a stack.

    Parameters
    ----------
    stack : dataclass
        Whose numbers may be stacks.
    variant : int
        Which [-].

    Returns
    -------
    dataclass
        With plain numbers.

    Examples
    --------
    >>> one_of(Value(np.array([1.0, 2.0])), 1).si
    2.0
    """
    return cast("T", _one(stack, variant))


def _one(node: Any, variant: int) -> Any:
    if isinstance(node, Value):
        return replace(node, si=float(node.si[variant])) if isinstance(node.si, np.ndarray) else node
    if is_dataclass(node) and not isinstance(node, type):
        parts = {f.name: _one(getattr(node, f.name), variant) for f in fields(node)}
        changed = {name: part for name, part in parts.items() if part is not getattr(node, name)}
        return replace(node, **changed) if changed else node
    if isinstance(node, dict):
        taken = {key: _one(part, variant) for key, part in node.items()}
        return taken if any(taken[key] is not node[key] for key in node) else node
    if isinstance(node, tuple):
        taken_ = tuple(_one(part, variant) for part in node)
        return taken_ if any(a is not b for a, b in zip(taken_, node, strict=True)) else node
    return node
