"""What else a load case asks for once a value is there: found by supposing one, and asking again."""

from __future__ import annotations

import re
from dataclasses import fields, is_dataclass, replace
from typing import TYPE_CHECKING, Any

from surfacecheck.errors import SurfaceError
from surfacecheck.loads import load_cases
from surfacecheck.masses import weigh
from surfacecheck.model import Horn, Leaves, specs
from surfacecheck.provenance import Value

if TYPE_CHECKING:
    from surfacecheck.model import Spec, Surface

__all__ = ["chain_of"]

_LONGEST = 24
SOME_METAL = "2024-T3"
_TABLES = {"hinge": "hinges", "rivet": "rivets", "tool": "tools", "row": "rows", "bracket": "brackets"}


def chain_of(surface: Surface, key: str, case: str) -> tuple[str, ...]:
    """List what a load case that waits for a value will ask for after it.

    Parameters
    ----------
    surface : Surface
        Half-filled.
    key : str
        The value it waits for now.
    case : str
        Its name.

    Returns
    -------
    tuple of str
        Other keys, in the order it asks; as far as a plausible answer leads. Empty where the one value is enough.

    Notes
    -----
    What is supposed (a value within the usual range, the first word) never leaves this function: only keys do.
    """
    keys = [key]
    supposed = surface
    for step in range(_LONGEST):
        further = _with(supposed, keys[-1], 0.3 + 0.4 * step / _LONGEST)
        if further is None:
            break
        supposed = further
        try:  # no two supposed values are alike, as they may be the ends of one length
            _, missing = load_cases(supposed, weigh(supposed))
        except SurfaceError:  # two supposed values do not suit each other
            break
        needs = next((one.needs for one in missing if one.name == case), "")
        if not needs or needs in keys:
            break
        keys.append(needs)
    return tuple(keys[1:])


def _with(surface: Surface, key: str, share: float) -> Surface | None:
    """Give the surface with something plausible at a key; None where that cannot be supposed."""
    table, *way = (part for part in re.split(r"[.\[\]]+", key) if part)
    name = _TABLES.get(table, table)
    node = Horn() if table == "horn" and surface.horn is None else getattr(surface, name, None)
    changed = _set(surface, node, way, share) if way else None
    return None if changed is None else replace(surface, **{name: changed})


def _set(surface: Surface, node: Any, way: list[str], share: float) -> Any:
    first, *rest = way
    if isinstance(node, dict):
        inner = _set(surface, node[first], rest, share) if first in node and rest else None
        return None if inner is None else {**node, first: inner}
    if isinstance(node, tuple):
        at = int(first) - 1 if first.isdigit() else -1
        inner = _set(surface, node[at], rest, share) if 0 <= at < len(node) and rest else None
        return None if inner is None else (*node[:at], inner, *node[at + 1 :])
    if not is_dataclass(node) or isinstance(node, type):
        return None
    known: dict[str, tuple[str, Spec | None]] = {one.name: (one.name, None) for one in fields(node)}
    known |= specs(type(node))
    for key, (name, spec) in known.items():
        if surface.said(key) == surface.said(first):
            inner = _set(surface, getattr(node, name), rest, share) if rest else _plausible(key, spec, share)
            return None if inner is None else replace(node, **{name: inner})
    return None


def _plausible(key: str, spec: Spec | None, share: float) -> Any:
    if spec is None:
        return None
    match spec.kind:
        case "measure":
            low, high = max(spec.low or 0.0, 0.0), spec.high or 1.0
            return Value(low + share * (high - low), "supposed")
        case "word":
            return next(iter(spec.enum)) if spec.enum is not None else None
        case "words":
            return (next(iter(spec.enum)),) if spec.enum is not None else None
        case "count":
            return 2
        case "text" if key == "alloy":
            return SOME_METAL
        case "leaves":
            return Leaves(True, Value(0.0, "supposed"), Value(0.0, "supposed"))
        case _:
            return None
