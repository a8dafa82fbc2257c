"""Part B of the file: tape and thread."""

# ruff: noqa: RUF009 - these calls declare fields, each a new one
from __future__ import annotations

from dataclasses import dataclass

from surfacecheck.model._spec import counted, measure, part_list, text, word
from surfacecheck.model._words import TrailingEdge, YesNo
from surfacecheck.provenance import Value

__all__ = ["Fin", "Hinge", "Outline", "OutlinePlace"]


@dataclass(frozen=True)
class OutlinePlace:
    """What was measured at one place; straight between places."""

    up: Value = measure("length", "place along the pins, from the lowest edge", low=0.0, high=2.0, hint="mm")
    fin_ahead: Value = measure(
        "length", "pins to the front edge of the fin", low=0.0, high=1.5, hint="mm", optional=True, none=True
    )
    nose_ahead: Value = measure(
        "length", "pins to the nose of the surface", low=0.0, high=0.15, hint="mm", toward=("ahead", "behind")
    )
    nose_around: Value = measure(
        "length", "paper strip round the nose, row to row", low=0.03, high=0.5, hint="mm", optional=True, none=True
    )
    web_behind: Value = measure(
        "length", "pins to the web of the spar", low=0.0, high=0.1, hint="mm", toward=("behind", "ahead")
    )
    edge_behind: Value = measure("length", "pins to the trailing edge", low=0.15, high=0.8, hint="mm")
    spar_depth: Value = measure("length", "spar over its flanges, skins off", low=0.02, high=0.15, hint="mm")


@dataclass(frozen=True)
class Outline:
    """The shape of the surface."""

    at: tuple[OutlinePlace, ...] | None = part_list(OutlinePlace, "one line for each place measured")
    trailing_edge: TrailingEdge | None = word(TrailingEdge, "how the skins meet behind")
    lap: Value = measure(
        "length", "how far the skins lie on each other at the trailing edge", low=0.006, high=0.04, hint="mm", none=True
    )
    pins_off_middle: Value = measure(
        "length",
        "pins off the middle of the spar depth",
        low=-0.05,
        high=0.05,
        hint="mm",
        toward=("left", "right"),
        none=True,
    )
    swings_left: Value = measure("angle", "greatest swing to the left", low=0.1745, high=0.7854, hint="deg")
    swings_right: Value = measure("angle", "greatest swing to the right", low=0.1745, high=0.7854, hint="deg")

    @property
    def places(self) -> tuple[OutlinePlace, ...]:
        """The places measured; empty where there are none yet."""
        return self.at or ()


@dataclass(frozen=True)
class Hinge:
    """One hinge on the line of the pins."""

    up: Value = measure(
        "length", "middle of the bracket's leg at the pin, along the pins", low=0.0, high=2.0, hint="mm"
    )
    bracket: str = text("name of its bracket in part F")
    rib_behind: YesNo | None = word(YesNo, "a rib riveted through web and bracket")
    takes_along: YesNo | None = word(YesNo, "has a face that stops the surface sliding along the pins")
    out_of_line: Value = measure(
        "length",
        "pin off the line through the outer pins, sideways, as drilled",
        low=-0.003,
        high=0.003,
        hint="mm",
        toward=("left", "right"),
        none=True,
    )
    out_of_line_aft: Value = measure(
        "length",
        "pin off the line through the outer pins, fore and aft, as drilled",
        low=-0.003,
        high=0.003,
        hint="mm",
        toward=("behind", "ahead"),
        none=True,
    )
    gives_sideways: Value = measure(
        "compliance", "how far fin and bracket spring sideways", low=0.0, high=2e-5, hint="mm/kN", none=True
    )
    gives_fore_aft: Value = measure(
        "compliance", "how far fin and bracket spring fore and aft", low=0.0, high=2e-5, hint="mm/kN", none=True
    )
    fin_bends: Value = measure(
        "length",
        "how far the loaded fin carries this pin, at the level of [load]",
        low=-0.02,
        high=0.02,
        hint="mm",
        toward=("left", "right"),
        none=True,
    )
    name: str = ""


@dataclass(frozen=True)
class Fin:
    """What carries the hinges, if the designer gives it; replaces ``gives_...`` and ``fin_bends``.

    ``moves`` is a square tuple of tuples [m/N]: sideways movement of each pin (row) for a sideways force at
    each pin (column), hinges in the order of ``Surface.hinges``.
    """

    bending_stiffness: Value = measure(
        "bending_stiffness", "E I of the fin", low=2e3, high=5e5, hint="N m2", optional=True, none=True
    )
    moves: tuple[tuple[Value, ...], ...] | None = counted(
        "moves", "how far each pin moves for a force at each pin", quantity="compliance", hint="mm/kN", optional=True
    )
