"""Parts G and H of the file: scales, and how to calculate."""

# ruff: noqa: RUF009 - these calls declare fields, each a new one
from __future__ import annotations

from dataclasses import dataclass

from surfacecheck.model._horn import Fixing
from surfacecheck.model._spec import measure, part, text, word
from surfacecheck.model._words import LoadReachesSpar, SkinsCarry, YesNo
from surfacecheck.provenance import Value

__all__ = ["Arm", "BalanceMass", "Method", "Weighed"]


@dataclass(frozen=True)
class Weighed:
    """What the scales say."""

    mass: Value = measure("mass", "the whole moving part", low=0.5, high=12.0, hint="kg")
    tail_push: Value = measure(
        "force", "what the scale shows under the trailing edge", low=0.0, high=60.0, hint="N", also="mass"
    )
    push_behind: Value = measure("length", "how far behind the pins the scale stands", low=0.05, high=0.8, hint="mm")
    paint: Value = measure("mass", "paint not yet on when weighed", low=0.0, high=2.0, hint="kg", none=True)


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
