"""The next size of rivet in a hole that is too large for its own."""

from __future__ import annotations

from typing import TYPE_CHECKING

from surfacecheck.changes._done import Done
from surfacecheck.changes._examples import size_example
from surfacecheck.changes._holes import BOUNDS, HOLDS_NOTHING
from surfacecheck.errors import SurfaceError
from surfacecheck.model import Apart, Rivet
from surfacecheck.places import apart_at, layers_at, rivet_at, with_apart
from surfacecheck.provenance import Basis, Source, Value, numbers
from surfacecheck.quantities import parse

if TYPE_CHECKING:
    from surfacecheck.model import Surface
    from surfacecheck.places import Spot

__all__ = ["next_size"]

SAME_SIZE = 5e-5
"""Two diameters that differ by less are one size [m]: half of the 0.1 mm to which packets give them."""


def next_size(surface: Surface, spot: Spot, size: str | None, *, fully: bool) -> Done:
    """Drill out for a larger rivet of the same kind, and set it.

    Parameters
    ----------
    surface : Surface
        With everything that happened.
    spot : Spot
        The rivets.
    size : str or None
        Diameter as typed; None for the next larger one of part D.
    fully : bool
        Which bound is asked for, where the old hole is still too large [-].

    Returns
    -------
    Done
        With that rivet; one that part D does not have has no strength yet: what it must carry is shown.

    Raises
    ------
    SurfaceError
        Where no rivet is described there, or the size is none that is larger.
    """
    says, left_open = [], False
    if not spot.rivets:
        message = f"next size: at a rivet only, not at {spot.words[0]}"
        raise SurfaceError(message)
    for name, words in zip(spot.names, spot.words, strict=True):
        before = rivet_at(surface, spot, name)
        if before is None or not before.diameter.known:
            message = f"next size: the rivet of {words} is not described; give its diameter in [rivet]"
            raise SurfaceError(message)
        rivet = _of_size(surface, before, size)
        apart = apart_at(surface, name)
        holes = {
            way: {layer: _cleaned(rivet, getattr(apart, way).get(layer)) for layer in layers_at(surface, spot)}
            for way in ("across", "along")
        }
        left = any(_beyond(rivet, hole) for sizes in holes.values() for hole in sizes.values())
        fresh = Apart()
        holds = HOLDS_NOTHING if left and not fully else fresh.holds
        surface = with_apart(surface, name, rivet=rivet, holds=holds, there=fresh.there, **holes)
        says.append(f"{words}: rivet {rivet.diameter.said} in a hole of {rivet.hole.said}")
        if left:
            says.append(f"{words}: the old hole is wider than that rivet is made for: {BOUNDS}")
        left_open = left_open or left
    return Done(surface, spot.names, tuple(says), left_open)


def _of_size(surface: Surface, before: Rivet, size: str | None) -> Rivet:
    same = [r for r in surface.rivets.values() if r.set == before.set and r.diameter.known]
    now = float(numbers(before.diameter).max())
    if size is None:
        larger = [r for r in same if float(numbers(r.diameter).min()) > now + SAME_SIZE]
        if larger:
            return min(larger, key=lambda r: float(numbers(r.diameter).min()))
        message = f'part D has no larger rivet than {before.diameter.said}. Write its size: "{size_example(surface)}"'
        raise SurfaceError(message)
    wanted = float(parse(size, "length")[0])
    if wanted <= now + SAME_SIZE:
        message = f"next size {size} is no larger than the rivet there ({before.diameter.said}): write a larger one"
        raise SurfaceError(message)
    for rivet in same:
        if abs(float(numbers(rivet.diameter).min()) - wanted) < SAME_SIZE:
            return rivet
    source = Source(Basis.AS_SAID, "option")
    diameter = Value(wanted, size, source)
    hole = Value(wanted, f"{size}, its own size", Source(Basis.ASSUMED, "no packet: the hole as wide as the rivet"))
    return Rivet(
        set=before.set, alloy=before.alloy, head_kind=before.head_kind, diameter=diameter, hole=hole, name=size
    )


def _cleaned(rivet: Rivet, hole: Value | None) -> Value:
    """Give the hole after drilling for a rivet: its own, or the old one where that is larger."""
    if hole is None or not hole.known or not (numbers(hole) > numbers(rivet.hole) * (1.0 + 1e-9)).any():
        return rivet.hole
    return hole


def _beyond(rivet: Rivet, hole: Value) -> bool:
    widest = rivet.hole_range[-1] if rivet.hole_range and rivet.hole_range[-1].known else rivet.hole
    return bool((numbers(hole) > numbers(widest) * (1.0 + 1e-9)).any())
