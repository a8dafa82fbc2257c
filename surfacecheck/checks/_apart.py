"""Rivets that stand apart from their row or bracket: their share, and a joint of their own."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.checks._check import Term
from surfacecheck.checks._layers import Hole, Joint
from surfacecheck.library import rivet_strength
from surfacecheck.model import RivetSet
from surfacecheck.provenance import UNKNOWN, Value, numbers, over_spots

if TYPE_CHECKING:
    from collections.abc import Iterator

    from numpy.typing import NDArray

    from surfacecheck.checks._apart_rows import RowLine
    from surfacecheck.checks._layers import Layer
    from surfacecheck.checks._row_load import RowLoad
    from surfacecheck.model import Apart, Rivet, Surface

    Array = NDArray[np.float64]

__all__ = ["apart_in", "differing", "drifts", "edges_along", "hole_in", "joints_of", "some"]


BY_AREA = "of another size than its neighbours: its share by its area (common practice)"


def apart_in(surface: Surface, whole: str, count: int) -> dict[int, Apart]:
    """List the rivets of a group or a row that stand apart.

    Parameters
    ----------
    surface : Surface
        As it is.
    whole : str
        Name of the group, such as ``hinge.middle.bracket``.
    count : int
        Its rivets [-].

    Returns
    -------
    dict of int to Apart
        By their number, from 0.
    """
    if not surface.apart:
        return {}
    found = ((i, surface.apart.get(f"{whole}.rivet-{i + 1}")) for i in range(count))
    return {i: one for i, one in found if one is not None}


def hole_in(layer: str, apart: Apart, rivet: Rivet, along: Array | None) -> Hole | None:
    """Give the hole that a layer has at a rivet, as its load meets it.

    An oval is taken as an ellipse: what bears is its width square to the load, ``sqrt((a c)^2 + (b s)^2)``, and what is
    missing towards the edge its width along the load, ``sqrt((b c)^2 + (a s)^2)``; a across, b along, c and s cosine
    and sine of the load to the line of the rivets.

    Parameters
    ----------
    layer : str
        Name of the layer.
    apart : Apart
        What differs at the rivet.
    rivet : Rivet
        The rivet that sits there.
    along : ndarray, shape (..., cases, 1), or None
        Part of the load that acts along the line of the rivets, of the whole load, 0 to 1 [-]; None where the load may
        point either way: then the narrower width bears and the wider one is missing.

    Returns
    -------
    Hole or None
        None where the layer's hole is as its rivet says.
    """
    across_, along_ = (size.get(layer, rivet.hole) for size in (apart.across, apart.along))
    beside = apart.beside.get(layer, UNKNOWN)
    drawn = not ({layer} & {*apart.across, *apart.along, *apart.beside})
    if drawn or not (across_.known and along_.known):
        return None
    square, in_line = _widths(over_spots(across_), over_spots(along_), along)
    widest = rivet.hole_range[-1] if rivet.hole_range else UNKNOWN
    pulled = rivet.set is not RivetSet.SOLID and widest.known
    bears = np.minimum(square, over_spots(widest)) if pulled else square
    return Hole(
        Term(bears, "length", "hole square to the load, no more than the rivet is made for", across_.source),
        Term(in_line, "length", "hole along the load", along_.source),
        Term(
            over_spots(along_) + (over_spots(beside) if beside.known else 0.0),
            "length",
            "hole along the row, with an open one beside it" if beside.known else "hole along the row",
            along_.source,
        ),
        bool(pulled and np.any(square > over_spots(widest))),
    )


def _widths(a: Array, b: Array, along: Array | None) -> tuple[Array, Array]:
    """Widths of an oval square to its load and along it; a round hole keeps its diameter to the last digit."""
    if along is None:
        return np.minimum(a, b), np.maximum(a, b)
    sine = np.sqrt(np.maximum(1.0 - along * along, 0.0))
    square, in_line = np.hypot(a * along, b * sine), np.hypot(b * along, a * sine)
    return np.where(a == b, a, square), np.where(a == b, a, in_line)


def joints_of(surface: Surface, joint: Joint, along: Array) -> Iterator[Joint]:
    """Part a group into the rivets that are as drawn, and one joint for each that stands apart.

    Parameters
    ----------
    surface : Surface
        As it is.
    joint : Joint
        The whole group, one spot a rivet.
    along : ndarray, shape (..., cases, R)
        Load of each rivet along the line of the group [N].

    Yields
    ------
    Joint
        The whole group as it came where no rivet stands apart.
    """
    apart = apart_in(surface, joint.place, len(joint.spots))
    if not apart:
        yield joint
        return
    rest = [i for i in range(len(joint.spots)) if i not in apart]
    if rest:
        yield some(joint, rest)
    for i, one in apart.items():
        single = some(joint, [i])
        with np.errstate(divide="ignore", invalid="ignore"):
            share = np.minimum(np.abs(along[..., [i]]) / single.shear, 1.0)
        yield differing(surface, single, one, np.where(single.shear > 0.0, share, 1.0))


def some(joint: Joint, kept: list[int]) -> Joint:
    """Keep some of the spots of a joint.

    Parameters
    ----------
    joint : Joint
        One spot a rivet.
    kept : list of int
        Spots, from 0.

    Returns
    -------
    Joint
        With the loads of those alone.
    """
    return replace(
        joint,
        layers=tuple(
            replace(
                layer,
                load=layer.load[..., kept],
                edges=None if layer.edges is None else layer.edges[..., kept],
            )
            for layer in joint.layers
        ),
        shear=joint.shear[..., kept],
        tension=joint.tension[..., kept],
        spots=tuple(joint.spots[i] for i in kept),
        wrinkle=None if joint.wrinkle is None else joint.wrinkle[..., kept],
        abreast=joint.abreast[..., kept] if isinstance(joint.abreast, np.ndarray) else joint.abreast,
    )


def differing(surface: Surface, joint: Joint, one: Apart, along: Array | None) -> Joint:
    """Lay what stands apart over the joint of one rivet.

    Parameters
    ----------
    surface : Surface
        As it is.
    joint : Joint
        Of one rivet.
    one : Apart
        What differs there.
    along : ndarray or None
        As in :func:`hole_in`.

    Returns
    -------
    Joint
        With its own rivet, holes and edges.
    """
    rivet = one.rivet or joint.rivet
    layers = tuple(
        replace(
            layer,
            edge=one.edge.get(layer.name, layer.edge),
            edges=None if layer.name in one.edge else layer.edges,
            hole=hole_in(layer.name, one, rivet, along),
        )
        for layer in joint.layers
    )
    notes = (*joint.notes, BY_AREA) if joint.pitch is None and _other_size(one, joint.rivet) else joint.notes
    return replace(joint, rivet=_left(surface, rivet, one.holds), layers=layers, notes=notes)


def drifts(surface: Surface, load: RowLoad) -> bool:
    """Tell whether the edge of a row is not the same all along."""
    row = surface.apart.get(f"row.{load.row.name}")
    return row is not None and bool(row.edge_last)


def edges_along(surface: Surface, line: RowLine, layer: Layer) -> Array | None:
    """Give the edge of a layer at every rivet of a row that runs off.

    Parameters
    ----------
    surface : Surface
        As it is.
    line : RowLine
        The row.
    layer : Layer
        One of its sheets.

    Returns
    -------
    ndarray, shape (..., 1, lines * R), or None
        Straight from the first rivet to the last [m]; None where the edge is the same all along.
    """
    row = surface.apart.get(line.place)
    if row is None or layer.name not in row.edge_last:
        return None
    first, last = (over_spots(edges[layer.name]) for edges in (row.edge, row.edge_last))
    share = np.tile(np.array(line.slots) / max(line.count - 1, 1), line.lines)
    return np.asarray(first + (last - first) * share[None, :])


def _other_size(one: Apart, drawn: Rivet) -> bool:
    if one.rivet is None or not (one.rivet.diameter.known and drawn.diameter.known):
        return False
    return bool(np.any(numbers(one.rivet.diameter) != numbers(drawn.diameter)))


def _left(surface: Surface, rivet: Rivet, holds: Value) -> Rivet:
    """Give a rivet the part of its strength that it has left; one that holds nothing has no load to hold either."""
    if np.all(numbers(holds) == 1.0):
        return rivet
    part = np.where(numbers(holds) > 0.0, numbers(holds), 1.0)
    shear, pull = (
        replace(value, si=_one(numbers(value) * part)) if value.known else value
        for value in rivet_strength(surface, rivet)
    )
    return replace(rivet, shear=shear, pull=pull)


def _one(array: Array) -> float | Array:
    return array if array.ndim else float(array)
