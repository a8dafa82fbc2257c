"""Part F of the file: brackets and pins."""

# ruff: noqa: RUF009 - these calls declare fields, each a new one
from __future__ import annotations

from dataclasses import dataclass

from surfacecheck.model._spec import measure, measure_map, number, part, text, word
from surfacecheck.model._words import Face, Held, TurnsIn
from surfacecheck.provenance import UNKNOWN, Value

__all__ = ["Bracket", "Pin"]


@dataclass(frozen=True)
class Pin:
    """The pin of a hinge and the end of the leg it sits in.

    ``crushing_strength`` holds a stress; the maker's load of a bearing, typed under the same key, is ``bearing_load``.
    """

    diameter: Value = measure("length", "diameter", low=0.003, high=0.01, hint="mm")
    alloy: str = text("metal of the pin")
    shear_strength: Value = measure("stress", "shear strength of its metal", low=5e7, high=1.2e9, hint="N/mm2")
    turns_in: TurnsIn | None = word(TurnsIn, "what the pin turns in")
    turns_on: Value = measure("length", "how much of its length turns there", low=0.001, high=0.03, hint="mm")
    crushing_strength: Value = measure(
        "stress",
        "of the softer of the two; of a bearing: its maker's load",
        low=5e7,
        high=2e9,
        hint="N/mm2",
        also="force",
    )
    held: Held | None = word(Held, "by the fin")
    gap: Value = measure("length", "between bracket leg and fin lug", low=0.0, high=0.005, hint="mm", none=True)
    edge: Value = measure("length", "pin centre to the end of the leg", low=0.005, high=0.03, hint="mm")
    wide: Value = measure("length", "leg at the pin", low=0.01, high=0.06, hint="mm")
    bearing_load: Value = UNKNOWN


@dataclass(frozen=True)
class Bracket:
    """A bracket; rivet 1 is lowest left seen from behind, count up, then the next column right."""

    on_face: Face | None = word(Face, "face of the web it sits on")
    thickness: Value = measure("length", "thickness", low=0.001, high=0.006, hint="mm")
    alloy: str = text("metal")
    rivet: str = text("name of the rivet in part D")
    along: int | None = number("rivets along the line of the pins", high=20)
    gap_along: Value = measure("length", "between them", low=0.008, high=0.06, hint="mm")
    sideways: int | None = number("rivets side by side", high=20)
    gap_sideways: Value = measure("length", "between them", low=0.008, high=0.06, hint="mm")
    edge: dict[str, Value] = measure_map(
        "length", "hole centre to the edge: bracket, spar", low=0.004, high=0.05, hint="mm"
    )
    heads: Face | None = word(Face, "side of the web the rivet heads are on", optional=True)
    legs: int | None = number("plates that carry the pin", high=2)
    legs_apart: Value = measure("length", "between two legs, inside", low=0.008, high=0.1, hint="mm", optional=True)
    leg_off_rivets: Value = measure(
        "length",
        "middle of the leg to middle of the rivets, along the pins",
        low=-0.05,
        high=0.05,
        hint="mm",
        toward=("up", "down"),
        none=True,
    )
    leg_wide: Value = measure("length", "leg at its bend", low=0.01, high=0.08, hint="mm")
    bend_inside: Value = measure("length", "inside radius of the bend", low=0.0, high=0.01, hint="mm", none=True)
    pin: Pin = part(Pin, "the pin")
    name: str = ""
