"""The horn: what turns the surface, and how it is fixed."""

# ruff: noqa: RUF009 - these calls declare fields, each a new one
from __future__ import annotations

from dataclasses import dataclass

from surfacecheck.model._spec import counted, measure, number, part, text, word
from surfacecheck.model._words import DrivenBy, Side, YesNo
from surfacecheck.provenance import UNKNOWN, Value

__all__ = ["Fixing", "Horn", "HornPlate", "Leaves"]


@dataclass(frozen=True)
class Leaves:
    """How cable or rod leaves the bolt.

    Attributes
    ----------
    ahead : bool
        True where it leaves ahead, False where it leaves behind.
    inward : Value
        Angle out of straight, towards the line of the pins [rad]; outward is negative.
    up : Value
        Angle out of straight, along the pins towards the tip [rad]; down is negative.
    """

    ahead: bool = True
    inward: Value = UNKNOWN
    up: Value = UNKNOWN


@dataclass(frozen=True)
class HornPlate:
    """The plate of the horn."""

    thickness: Value = measure("length", "thickness", low=0.001, high=0.008, hint="mm")
    alloy: str = text("metal")
    narrowest: Value = measure("length", "width where it is narrowest", low=0.01, high=0.1, hint="mm")
    bolt_hole: Value = measure("length", "hole for the cable bolt", low=0.003, high=0.01, hint="mm")
    bolt_edge: Value = measure("length", "centre of that hole to the edge", low=0.004, high=0.03, hint="mm")


@dataclass(frozen=True)
class Fixing:
    """A square pattern of rivets that lies across the pins: fore and aft by sideways."""

    rivet: str = text("name of the rivet in part D")
    fore_aft: int | None = number("rivets one behind the other", high=20)
    gap_fore_aft: Value = measure("length", "between them", low=0.01, high=0.06, hint="mm")
    sideways: int | None = number("rivets side by side", high=20)
    gap_sideways: Value = measure("length", "between them", low=0.01, high=0.1, hint="mm")
    first_behind: Value = measure(
        "length", "pins to the first rivet", low=-0.1, high=0.3, hint="mm", toward=("behind", "ahead")
    )
    edge: Value = measure("length", "hole centre to the nearest edge", low=0.005, high=0.03, hint="mm")


@dataclass(frozen=True)
class Horn:
    """Where cable, rod or torque tube take hold."""

    driven_by: DrivenBy | None = word(DrivenBy, "what turns the surface")
    turns_other_half: YesNo | None = word(YesNo, "the torque tube goes on to the other half", optional=True)
    up: Value = measure("length", "place along the pins", low=-0.1, high=2.0, hint="mm")
    arm: Value = measure("length", "pins to cable bolt, square to the cable", low=0.04, high=0.2, hint="mm")
    side: Side | None = word(Side, "side of the bolt")
    bolt_behind: Value = measure(
        "length", "bolt behind the pins", low=-0.1, high=0.1, hint="mm", toward=("behind", "ahead"), none=True
    )
    leaves: Leaves | None = counted("leaves", "how cable or rod leaves the bolt: straight ahead, or 12 deg inward")
    joined_to: str = text("the part it is riveted to: bottom rib, top rib, rib 2, spar")
    plate: HornPlate = part(HornPlate, "the plate")
    fixed_with: Fixing = part(Fixing, "its rivets")

    @property
    def against_itself(self) -> str:
        """What side and drive say against each other; empty where they agree or are not known."""
        if self.side is None or self.driven_by in {None, DrivenBy.TORQUE_TUBE}:
            return ""
        if (self.driven_by is DrivenBy.TWO_CABLES) == (self.side is Side.BOTH):
            return ""
        told = 'two cables take hold on both sides ("both"), a rod on one.'
        return f'this side does not go with driven_by = "{self.driven_by}": {told}'
