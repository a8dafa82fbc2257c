"""Parts G and H of the file: scales, and how to calculate."""

# ruff: noqa: RUF009 - these calls declare fields, each a new one
from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from surfacecheck.model._horn import Fixing
from surfacecheck.model._spec import measure, measures, part, part_list, text, word
from surfacecheck.model._words import LoadReachesSpar, SkinsCarry, YesNo
from surfacecheck.provenance import Value

__all__ = ["Added", "Arm", "BalanceMass", "Method", "Tipped", "Weighed"]

_STEEPEST = 0.8
"""Usual tilt of a chord on the scales [rad]."""


@dataclass(frozen=True)
class Added:
    """One thing put on that no other part of the file describes: tab, servo, filler, a doubler of a repair."""

    what: str = text("what it is")
    mass: Value = measure("mass", "what it weighs", low=0.001, high=2.0, hint="kg")
    behind: Value = measure(
        "length", "its centre behind the pins", low=-0.3, high=0.8, hint="mm", toward=("behind", "ahead")
    )
    up: Value = measure("length", "its place along the pins", low=0.0, high=2.0, hint="mm", optional=True)


def _readings(help: str, **more: Any) -> Any:
    return measures("force", help, low=0.0, high=60.0, hint="N", also="mass", lone=True, **more)


def _tilt(help: str, **more: Any) -> Any:
    return measure("angle", help, low=-_STEEPEST, high=_STEEPEST, hint="deg", toward=("high", "low"), **more)


@dataclass(frozen=True)
class Tipped:
    """A second weighing at another tilt: it tells how high the centre of gravity lies."""

    edge: Value = _tilt("trailing edge above or below level")
    rising: tuple[Value, ...] = _readings("scale while the edge on it is lifted slowly")
    sinking: tuple[Value, ...] = _readings("scale while that edge is let down slowly")


@dataclass(frozen=True)
class Weighed:
    """What the scales say."""

    mass: Value = measure("mass", "the whole moving part", low=0.5, high=12.0, hint="kg")
    tail_push: Value = measure(
        "force", "what the scale shows under the trailing edge", low=0.0, high=60.0, hint="N", also="mass"
    )
    push_behind: Value = measure(
        "length",
        "how far behind the pins the scale stands",
        low=-0.3,
        high=0.8,
        hint="mm",
        toward=("behind", "ahead"),
    )
    rising: tuple[Value, ...] = _readings("scale while the edge on it is lifted slowly", optional=True)
    sinking: tuple[Value, ...] = _readings("scale while that edge is let down slowly", optional=True)
    edge: Value = _tilt("trailing edge above or below level when weighed", optional=True, none=True)
    tipped: Tipped | None = part(Tipped, "a second weighing at another tilt", optional=True)
    scale_step: Value = measure(
        "force", "smallest step the scale shows", low=0.001, high=1.0, hint="N", also="mass", optional=True
    )
    maker_allows: tuple[Value, ...] = measures(
        "torque",
        "least and greatest moment the maker allows",
        low=-10.0,
        high=10.0,
        hint="N m",
        also="mass_moment",
        length=2,
        toward=("tail-heavy", "nose-heavy"),
        optional=True,
    )
    paint: Value = measure("mass", "paint not yet on when weighed", low=0.0, high=2.0, hint="kg", none=True)
    paint_by_area: Value = measure(
        "area_mass",
        "paint on each outer side of the skins, not yet on when weighed",
        low=0.12,
        high=0.30,
        hint="kg/m2",
        optional=True,
    )
    added: tuple[Added, ...] | None = part_list(
        Added, "things put on since it was weighed, or that no part describes", none=True, optional=True
    )
    swing_time: Value = measure(
        "time", "hung from its pins, edge down: once there and back", low=0.3, high=3.0, hint="s", optional=True
    )
    free_play: Value = measure(
        "length", "play of the trailing edge, horn held", low=0.0, high=0.02, hint="mm", optional=True, none=True
    )
    gamma_allowed: Value = measure(
        "number",
        "balance parameter that figure 3 of Report 45, or the designer, allows",
        low=0.01,
        high=10.0,
        optional=True,
    )


@dataclass(frozen=True)
class Arm:
    """The arm of the balance mass."""

    thickness: Value = measure("length", "thickness", low=0.0005, high=0.008, hint="mm")
    alloy: str = text("metal")
    wide: Value = measure("length", "width", low=0.005, high=0.1, hint="mm")


@dataclass(frozen=True)
class BalanceMass:
    """Lead or steel ahead of the pins; ``mass`` is absent where there is none."""

    mass: Value = measure("mass", "lead or steel", low=0.05, high=5.0, hint="kg", none=True)
    up: Value = measure("length", "its place along the pins", low=0.0, high=2.0, hint="mm", optional=True)
    ahead: Value = measure(
        "length",
        "its centre ahead of the pins",
        low=0.0,
        high=0.3,
        hint="mm",
        optional=True,
        toward=("ahead", "behind"),
    )
    arm: Arm | None = part(Arm, "its arm", optional=True)
    fixed_with: Fixing | None = part(Fixing, "its rivets", optional=True)


@dataclass(frozen=True)
class Method:
    """How to calculate; stays as it is unless somebody tells the builder."""

    load_reaches_spar: LoadReachesSpar = word(
        LoadReachesSpar, "how the load comes to the spar", LoadReachesSpar.BOTH, optional=True
    )
    skins_carry: SkinsCarry = word(SkinsCarry, "what the skins carry", SkinsCarry.SHEAR_AND_LAP, optional=True)
    fitting_factor_at_yield: YesNo = word(YesNo, "fitting factor 1.15 also at yield", YesNo.YES, optional=True)
    two_hinge_factor: YesNo = word(YesNo, "the sailplane rule for two hinges only", YesNo.NO, optional=True)
