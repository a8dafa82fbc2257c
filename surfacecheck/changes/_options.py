"""What might be done about it: each option is shown, none is recommended."""

from __future__ import annotations

import re
from dataclasses import replace
from typing import TYPE_CHECKING

from surfacecheck.changes._done import Done
from surfacecheck.changes._holes import HOLDS_NOTHING
from surfacecheck.errors import SurfaceError
from surfacecheck.model import Rivet
from surfacecheck.places import drawn_rivet, layers_at, plain_words, with_apart
from surfacecheck.provenance import UNKNOWN, Basis, Source, Value, numbers
from surfacecheck.quantities import parse

if TYPE_CHECKING:
    from surfacecheck.model import Surface
    from surfacecheck.places import Spot

__all__ = ["is_leave_it", "option_at"]

OPTIONS = "leave it, next size 4.8 mm, rivet not there"
_OPEN = Value(0.0, "open hole", Source(Basis.ASSUMED))


def is_leave_it(text: str) -> bool:
    """Tell whether an option is to leave it."""
    return plain_words(text) in {"leave it", "leave as is", "leave it as it is", "leave"}


def option_at(surface: Surface, spot: Spot, text: str, *, fully: bool) -> Done:
    """Work one option in, over the event it answers.

    Parameters
    ----------
    surface : Surface
        With everything that happened.
    spot : Spot
        Where the event is.
    text : str
        Such as ``next size 4.8 mm``.
    fully : bool
        Which bound is asked for [-].

    Returns
    -------
    Done
        As it would be.

    Raises
    ------
    SurfaceError
        For an option nobody knows.
    """
    asked = plain_words(text)
    if asked in {"rivet not there", "leave it out", "no rivet"}:
        return _not_there(surface, spot)
    size = re.fullmatch(r"(?:next size|rivet)(?: (.+))?", asked)
    if size is not None:
        return _next_size(surface, spot, size[1], fully=fully)
    message = f'try = "{text}" is not known. Such as: {OPTIONS}'
    raise SurfaceError(message)


def _not_there(surface: Surface, spot: Spot) -> Done:
    for name in spot.names:
        surface = with_apart(surface, name, holds=HOLDS_NOTHING, there=_OPEN)
    return Done(surface, spot.names, tuple(f"{name}: the rivet is not there" for name in spot.names))


def _next_size(surface: Surface, spot: Spot, size: str | None, *, fully: bool) -> Done:
    before = drawn_rivet(surface, spot)
    if before is None:
        message = f"the rivet of {spot.whole} is not described: give it in [rivet]"
        raise SurfaceError(message)
    rivet = _of_size(surface, before, size)
    says, open_ = [], False
    for name in spot.names:
        apart = surface.apart[name]
        layers = layers_at(surface, spot)
        holes = {
            key: {n: _cleaned(rivet, getattr(apart, key).get(n, UNKNOWN)) for n in layers}
            for key in ("across", "along")
        }
        left = any(_beyond(rivet, one) for sizes in holes.values() for one in sizes.values())
        holds = HOLDS_NOTHING if left and not fully else type(apart)().holds
        surface = with_apart(surface, name, rivet=rivet, holds=holds, there=type(apart)().there, **holes)
        says.append(f"{name}: rivet {rivet.diameter.said}, hole {rivet.hole.said}")
        if left:
            says.append(f"{name}: that rivet does not clean the hole up: holds fully and holds nothing are the bounds")
        open_ = open_ or left
    return Done(surface, spot.names, tuple(says), open_)


def _of_size(surface: Surface, before: Rivet, size: str | None) -> Rivet:
    """Find the next rivet of the same kind in the packets described; one that is not there has no strength yet."""
    same = [r for r in surface.rivets.values() if r.set == before.set and r.diameter.known]
    now = numbers(before.diameter)
    if size is None:
        larger = sorted((r for r in same if (numbers(r.diameter) > now).all()), key=lambda r: numbers(r.diameter).min())
        if larger:
            return larger[0]
        message = (
            f'next size: no rivet in [rivet] is larger than {before.diameter.said}. Write its size: "next size 4.8 mm"'
        )
        raise SurfaceError(message)
    wanted, _ = parse(size, "length")
    for rivet in same:
        if (abs(numbers(rivet.diameter) - wanted) < 0.05e-3).all():
            return rivet
    diameter = Value(float(wanted), size, Source(Basis.AS_SAID, "option"))
    hole = replace(diameter, si=float(wanted) + 0.1e-3, said=f"{size} + 0.1 mm", source=Source(Basis.COMMON_PRACTICE))
    return Rivet(
        set=before.set, alloy=before.alloy, head_kind=before.head_kind, diameter=diameter, hole=hole, name=size
    )


def _cleaned(rivet: Rivet, hole: Value) -> Value:
    """Give the hole after drilling for a rivet: its own hole, or the old one where that is larger."""
    if not hole.known:
        return rivet.hole
    return hole if (numbers(hole) > numbers(rivet.hole) * (1.0 + 1e-9)).any() else rivet.hole


def _beyond(rivet: Rivet, hole: Value) -> bool:
    widest = rivet.hole_range[-1] if rivet.hole_range and rivet.hole_range[-1].known else rivet.hole
    return bool((numbers(hole) > numbers(widest) * (1.0 + 1e-9)).any())
