"""Every place that one column touches stands apart in all of them, in the same structure."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Any

from surfacecheck.model import Apart
from surfacecheck.places import drawn_edge, drawn_rivet, spot_of
from surfacecheck.provenance import Basis, Source, Value

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from surfacecheck.changes._columns import Column
    from surfacecheck.model import Surface

__all__ = ["same_bounds", "singled_out"]

_MAPS = ("across", "along", "edge")
_MOVES = ("moved_along", "moved_across", "turned", "shim")
_NOT = Value(0.0, "as drawn", Source(Basis.DRAWING))


def singled_out(columns: Sequence[Column]) -> tuple[Column, ...]:
    """Let every place that stands apart in one column stand apart in all, as the drawing has it where it is as drawn.

    Parameters
    ----------
    columns : sequence of Column
        As worked.

    Returns
    -------
    tuple of Column
        With the same places apart, each with the same layers: only numbers differ, so that they make one stack.
    """
    every = [one for column in columns for one in (column.fully, column.nothing) if one is not None]
    names = dict.fromkeys(name for surface in every for name in surface.apart)
    layers = {name: _layers([s.apart[name] for s in every if name in s.apart]) for name in names}

    def single(surface: Surface) -> Surface:
        return replace(surface, apart={name: _filled(surface, name, layers[name]) for name in names})

    return tuple(
        replace(one, fully=single(one.fully), nothing=None if one.nothing is None else single(one.nothing))
        for one in columns
    )


def same_bounds(fully: Surface, nothing: Surface) -> bool:
    """Tell whether both bounds of a surface are one: the same numbers at every place that stands apart.

    Parameters
    ----------
    fully, nothing : Surface
        With the same events worked in.

    Returns
    -------
    bool
        True where nothing is left open.
    """
    return fully.apart.keys() == nothing.apart.keys() and all(
        _numbers(one) == _numbers(nothing.apart[name]) for name, one in fully.apart.items()
    )


def _numbers(one: Apart) -> tuple[object, ...]:
    sizes = tuple((key, layer, value.si) for key in _MAPS for layer, value in sorted(getattr(one, key).items()))
    return one.holds.si, one.there.si, one.rivet and one.rivet.name, sizes


def _layers(found: Iterable[Apart]) -> dict[str, list[str]]:
    """List the layers that stand apart in any of the columns, and whether another rivet does."""
    found = list(found)
    layers = {key: sorted({layer for one in found for layer in getattr(one, key)}) for key in _MAPS}
    layers["moves"] = [key for key in _MOVES if any(getattr(one, key).known for one in found)]
    layers["rivet"] = ["rivet"] if any(one.rivet is not None for one in found) else []
    return layers


def _filled(surface: Surface, name: str, layers: dict[str, list[str]]) -> Apart:
    """Give what the drawing has where a column says nothing."""
    one = surface.apart.get(name, Apart())
    moves: dict[str, Any] = {key: _NOT for key in layers["moves"] if not getattr(one, key).known}
    one = replace(one, **moves)
    spot = spot_of(surface, name)
    drawn = drawn_rivet(surface, spot) if spot.rivets else None
    if drawn is None:
        return one
    rivet = one.rivet or (drawn if layers["rivet"] else None)
    hole = drawn.hole if one.rivet is None else one.rivet.hole
    edges = {layer: drawn_edge(surface, spot, layer) for layer in layers["edge"]}
    return replace(
        one,
        rivet=rivet,
        across=_put(one.across, dict.fromkeys(layers["across"], hole)),
        along=_put(one.along, dict.fromkeys(layers["along"], hole)),
        edge=_put(one.edge, edges),
    )


def _put(there: dict[str, Value], drawn: dict[str, Value]) -> dict[str, Value]:
    both = {layer: there.get(layer, value) for layer, value in drawn.items()}
    return {layer: value for layer, value in both.items() if value.known}
