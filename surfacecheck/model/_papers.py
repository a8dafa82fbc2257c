"""Part A of the file: letter, drawing, flight manual."""

# ruff: noqa: RUF009 - these calls declare fields, each a new one
from __future__ import annotations

from dataclasses import dataclass

from surfacecheck.model._spec import counted, measure, part, word, words
from surfacecheck.model._words import (
    BeginsAt,
    Category,
    FadesAft,
    Level,
    Over,
    PilotMoves,
    Rule,
    Side,
    StopAt,
)
from surfacecheck.provenance import Value

__all__ = ["Aeroplane", "Controls", "Load", "Stop"]


@dataclass(frozen=True)
class Load:
    """The design airload: one of ``pressure``, ``total`` or ``rule``."""

    pressure: Value = measure("pressure", "mean pressure", low=570.0, high=2500.0, hint="kPa", optional=True)
    total: Value = measure("force", "whole load on the surface", low=100.0, high=2500.0, hint="N", optional=True)
    rule: Rule | None = word(Rule, "published rule that gives the mean pressure", optional=True)
    over: Over | None = word(Over, "area the pressure is the mean of")
    level: Level | None = word(Level, "limit or ultimate: ask, never guess")
    begins_at: BeginsAt | None = word(BeginsAt, "where the load starts along the chord")
    fades_aft: tuple[FadesAft, ...] = words(FadesAft, "how the pressure falls off behind; each is a load case")
    shape: tuple[tuple[Value, Value], ...] | None = counted(
        "shape",
        'only for "as typed": [["0 %", "1"], ["40 %", "1"], ["100 %", "0"]]; 0 % is where the load begins, 100 % the '
        "trailing edge, beside each the pressure there on any scale",
        quantity="number",
        optional=True,
    )
    wind_at_tiedown: Value = measure(
        "speed", "wind on the parked surface", low=10.0, high=60.0, hint="knots", optional=True, none=True
    )


@dataclass(frozen=True)
class Aeroplane:
    """The whole machine; only for loads by rule."""

    weight: Value = measure("mass", "greatest take-off mass", low=300.0, high=1000.0, hint="kg", optional=True)
    wing_area: Value = measure("area", "area of the wing", low=5.0, high=25.0, hint="m2", optional=True)
    category: Category | None = word(Category, "category", optional=True)
    load_factor: Value = measure("number", "positive limit load factor", low=3.8, high=6.0, optional=True)
    speed_full_controls: Value = measure(
        "speed", "speed up to which full controls are allowed", low=30.0, high=120.0, hint="knots", optional=True
    )
    speed_cruise: Value = measure("speed", "design cruising speed", low=30.0, high=120.0, hint="knots", optional=True)
    speed_dive: Value = measure("speed", "design diving speed", low=30.0, high=120.0, hint="knots", optional=True)


@dataclass(frozen=True)
class Stop:
    """A stop that touches the surface itself."""

    up: Value = measure("length", "place of the stop along the pins", low=0.0, high=2.0, hint="mm")
    arm: Value = measure("length", "from the pins to where it touches", low=0.02, high=0.3, hint="mm")
    side: Side | None = word(Side, "side it stops")


@dataclass(frozen=True)
class Controls:
    """From the cockpit to the horn."""

    pilot_moves: PilotMoves | None = word(PilotMoves, "what the pilot moves")
    wheel_across: Value = measure("length", "diameter of the wheel", low=0.2, high=0.5, hint="mm", optional=True)
    horn_per_pilot: Value = measure("number", "pull at the horn for each 1 of push at pedal or grip", low=0.3, high=5.0)
    rigging_pull: Value = measure(
        "force", "pull in each cable at rest", low=20.0, high=500.0, hint="N", none=True, optional=True
    )
    locked_at: StopAt | None = word(StopAt, "where the gust lock sits")
    stopped_at: StopAt | None = word(StopAt, "where the stops sit")
    stop: Stop | None = part(Stop, "the stop, where it touches the surface", optional=True)
