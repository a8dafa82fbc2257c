"""A changed surface of which the scale saw only the state before."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from surfacecheck.masses._parts import Array, Piece, over
from surfacecheck.masses._weigh import WHOLE, Masses, weigh
from surfacecheck.model import Surface, Weighed
from surfacecheck.provenance import Basis, Source, Value

__all__ = ["same_weighing", "weigh_after", "weigh_as_changed"]

_SHIFTED = Source(Basis.WORKED_OUT, "the scale before the change, and the parts that changed")


def same_weighing(before: Weighed, after: Weighed) -> bool:
    """Tell whether two states have one and the same weighing.

    Parameters
    ----------
    before, after : Weighed
        Part G of the file, before and after a change.

    Returns
    -------
    bool
        True where something was weighed, and every reading is the same.
    """
    one, other = _readings(before), _readings(after)
    same = len(one) == len(other) and all(_alike(a, b) for a, b in zip(one, other, strict=True))
    return same and any(value.si is not None for value in one)


def _readings(weighed: Weighed) -> list[Value]:
    """List what a scale said; two lists of one weighing have their values in the same places."""
    tipped = () if weighed.tipped is None else (weighed.tipped.edge, *weighed.tipped.rising, *weighed.tipped.sinking)
    level = (weighed.mass, weighed.tail_push, weighed.push_behind, weighed.edge)
    return [*level, *weighed.rising, *weighed.sinking, *tipped]


def _alike(one: Value, other: Value) -> bool:
    if one.si is None or other.si is None:
        return one.si is other.si
    return bool(np.all(np.asarray(one.si) == np.asarray(other.si)))


def weigh_after(before: Surface, after: Surface) -> Masses:
    """Weigh a changed surface; where it was not weighed again, the parts that changed are added to what the scale said.

    Parameters
    ----------
    before : Surface
        As it was weighed.
    after : Surface
        With changes laid over it.

    Returns
    -------
    Masses
        Those of :func:`weigh` where nothing was weighed, or it was weighed again.
    """
    found = weigh(after)
    if not same_weighing(before.weighed, after.weighed):
        return found
    was = weigh(before)
    if [one.name for one in was.left_out] != [one.name for one in found.left_out]:
        return found  # a part that nobody can weigh any more was not taken off
    old, new = _parts(was), _parts(found)
    by_paint, by_paint_first = found.paint - was.paint, found.paint_first - was.paint_first
    by_added, by_added_first = (_sum(found.added, one) - _sum(was.added, one) for one in ("mass", "first"))
    mass = np.asarray(was.mass + (_sum(new, "mass") - _sum(old, "mass")) + by_paint + by_added)
    first = np.asarray(was.first + (_sum(new, "first") - _sum(old, "first")) + by_paint_first + by_added_first)
    return replace(
        found,
        mass=mass,
        first=first,
        mass_source=_SHIFTED,
        first_source=_SHIFTED,
        mass_scale=over(mass, _sum(found.pieces, "mass")),
        first_scale=over(first, _sum(found.pieces, "first")),
    )


def weigh_as_changed(surface: Surface) -> Masses:
    """Weigh a surface; of one with changes laid over it the scale saw the drawn one, unless it was weighed again.

    Parameters
    ----------
    surface : Surface
        As read, or with stacks of variants for numbers.

    Returns
    -------
    Masses
        Those of :func:`weigh` where nothing was laid over it, or nothing was weighed.
    """
    if surface.drawn is None or all(value.si is None for value in _readings(surface.weighed)):
        return weigh(surface)
    return weigh_after(surface.drawn.surface, surface)


def _parts(masses: Masses) -> tuple[Piece, ...]:
    """Give the parts alone: nothing put on, and not the area that stands for them where none is known."""
    parts = masses.pieces[: len(masses.pieces) - len(masses.added)]
    return tuple(piece for piece in parts if piece.name != WHOLE)


def _sum(pieces: tuple[Piece, ...], what: str) -> Array:
    return np.asarray(sum((getattr(piece, what) for piece in pieces), np.asarray(0.0)))
