"""The numbers of a surface by their keys: where each stands, and the same surface with others in their place."""

from __future__ import annotations

from dataclasses import dataclass, fields, is_dataclass, replace
from difflib import get_close_matches
from typing import TYPE_CHECKING, Any, TypeAlias

from surfacecheck.errors import Fault, SurfaceError
from surfacecheck.model import Spec, specs
from surfacecheck.provenance import Value

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping

    import numpy as np
    from numpy.typing import NDArray

    from surfacecheck.model import Surface

__all__ = ["NumberPlace", "known_keys", "number_places", "with_numbers"]

Path: TypeAlias = "tuple[str | int, ...]"


@dataclass(frozen=True, slots=True)
class NumberPlace:
    """A number of a surface.

    Attributes
    ----------
    key : str
        Its line of the file, such as ``sheet.left_skin.thickness``.
    path : tuple
        Where it stands in the model: names and indices.
    value : Value
        As given.
    spec : Spec or None
        What the file's line may hold.
    """

    key: str
    path: Path
    value: Value
    spec: Spec | None


def number_places(surface: Surface) -> dict[str, NumberPlace]:
    """List the numbers of a surface.

    Parameters
    ----------
    surface : Surface
        As read.

    Returns
    -------
    dict of str to NumberPlace
        By key, in the order of the file; those not known yet among them. A line that gives two numbers, as the way a
        cable leaves its bolt, is none of them.
    """
    every: dict[str, list[NumberPlace]] = {}
    for path, value, spec in _walk(surface, (), None):
        every.setdefault(value.key, []).append(NumberPlace(value.key, path, value, spec))
    found = {}
    for key, places in every.items():
        given = [place for place in places if place.value.known] or places
        if key and len(given) == 1:
            found[key] = given[0]
    return found


def known_keys(keys: Iterable[str], places: Mapping[str, NumberPlace]) -> None:
    """Refuse keys that are none of a surface, each with the nearest that is.

    Parameters
    ----------
    keys : iterable of str
        As given.
    places : mapping of str to NumberPlace
        From :func:`number_places`.

    Raises
    ------
    SurfaceError
        With a fault for each key that is not there.
    """
    faults = []
    for key in keys:
        if key not in places:
            near = get_close_matches(key, places, n=1, cutoff=0.4)
            hint = f" Nearest: {near[0]}." if near else ""
            faults.append(Fault(f"no number of this surface has that name.{hint}", key=key))
    if faults:
        raise SurfaceError(*faults)


def with_numbers(surface: Surface, numbers: Mapping[str, float | NDArray[np.float64]]) -> Surface:
    """Put other numbers in their places.

    Parameters
    ----------
    surface : Surface
        As read.
    numbers : mapping of str to (float, ndarray of shape (V,))
        By key [SI]; arrays make a stack of variants.

    Returns
    -------
    Surface
        The same with these numbers.

    Raises
    ------
    SurfaceError
        Where a key is none of the surface.
    """
    places = number_places(surface)
    known_keys(numbers, places)
    tree: dict[str | int, Any] = {}
    for key, si in numbers.items():
        *steps, last = places[key].path
        branch = tree
        for step in steps:
            branch = branch.setdefault(step, {})
        branch[last] = replace(places[key].value, si=si, absent=False)
    made: Surface = _grafted(surface, tree)
    return made


def _walk(node: Any, path: Path, spec: Spec | None) -> Iterator[tuple[Path, Value, Spec | None]]:
    """Go through every value of a surface, with what its line may hold."""
    if isinstance(node, Value):
        yield path, node, spec
    elif is_dataclass(node) and not isinstance(node, type):
        lines = dict(specs(type(node)).values())
        for one in fields(node):
            yield from _walk(getattr(node, one.name), (*path, one.name), lines.get(one.name))
    elif isinstance(node, dict | tuple):
        for name, inner in node.items() if isinstance(node, dict) else enumerate(node):
            yield from _walk(inner, (*path, name), spec)


def _grafted(node: Any, tree: Any) -> Any:
    """Put the leaves of a tree of steps in their places."""
    if not isinstance(tree, dict):
        return tree
    if isinstance(node, dict):
        return node | {name: _grafted(node[name], branch) for name, branch in tree.items()}
    if isinstance(node, tuple):
        return tuple(_grafted(part, tree[at]) if at in tree else part for at, part in enumerate(node))
    return replace(node, **{name: _grafted(getattr(node, name), branch) for name, branch in tree.items()})
