"""Part C of the file: the sheet metal parts and their metals."""

# ruff: noqa: RUF009 - these calls declare fields, each a new one
from __future__ import annotations

from dataclasses import dataclass

from surfacecheck.model._spec import measure, measures, part_list, text, word, words
from surfacecheck.model._words import FlangesPoint, RibFlangesPoint, YesNo
from surfacecheck.provenance import Value

__all__ = ["Alloy", "Doubler", "NoseSkin", "RibHole", "Ribs", "Skin", "Spar", "WebHole"]


@dataclass(frozen=True)
class Skin:
    """The left or the right skin (top or bottom of a flat half)."""

    thickness: Value = measure("length", "bare metal, paint subtracted", low=0.3e-3, high=1.2e-3, hint="mm", none=True)
    alloy: str = text("metal")


@dataclass(frozen=True)
class NoseSkin:
    """The skin round the nose; ``thickness`` is absent where there is none."""

    thickness: Value = measure("length", "bare metal, paint subtracted", low=0.3e-3, high=1.2e-3, hint="mm", none=True)
    alloy: str = text("metal")
    cut_at_hinge: Value = measure(
        "length", "length along the pins of the opening at each hinge", low=0.02, high=0.2, hint="mm", none=True
    )


@dataclass(frozen=True)
class WebHole:
    """A lightening hole in the web of the spar."""

    up: Value = measure("length", "its centre along the pins", low=0.0, high=2.0, hint="mm")
    across: Value = measure("length", "its diameter", low=0.005, high=0.1, hint="mm")


@dataclass(frozen=True)
class RibHole:
    """A lightening hole, the same in every rib."""

    behind: Value = measure("length", "its centre behind the pins", low=0.0, high=0.8, hint="mm")
    across: Value = measure("length", "its diameter", low=0.005, high=0.1, hint="mm")


@dataclass(frozen=True)
class Spar:
    """The formed channel."""

    thickness: Value = measure("length", "bare metal, paint subtracted", low=0.3e-3, high=2.5e-3, hint="mm")
    alloy: str = text("metal")
    flange: Value = measure("length", "outside of web to free edge", low=0.01, high=0.04, hint="mm")
    flanges_point: FlangesPoint | None = word(FlangesPoint, "from the web")
    lip: Value = measure(
        "length", "second small bend at the free edge: its height", low=0.003, high=0.02, hint="mm", none=True
    )
    bend_inside: Value = measure("length", "inside radius of the bends", low=0.5e-3, high=6e-3, hint="mm")
    holes: tuple[WebHole, ...] | None = part_list(WebHole, "lightening holes in the web", none=True)


@dataclass(frozen=True)
class Ribs:
    """The ribs, all of one sheet."""

    thickness: Value = measure("length", "bare metal, paint subtracted", low=0.3e-3, high=2.5e-3, hint="mm")
    alloy: str = text("metal")
    up: tuple[Value, ...] = measures("length", "face of each rib's web along the pins", low=0.0, high=2.0, hint="mm")
    flange: Value = measure("length", "outside of web to free edge", low=0.008, high=0.03, hint="mm")
    flanges_point: tuple[RibFlangesPoint, ...] = words(RibFlangesPoint, "which way, one word for each rib", each=True)
    bend_inside: Value = measure("length", "inside radius of the bends", low=0.5e-3, high=6e-3, hint="mm")
    in_nose: YesNo | None = word(YesNo, "ribs go on ahead of the web")
    holes: tuple[RibHole, ...] | None = part_list(RibHole, "lightening holes, the same in every rib", none=True)


@dataclass(frozen=True)
class Doubler:
    """A second sheet over part of another."""

    on: str = text("what it lies on: spar web, spar flange (one on each), a skin, or a rib")
    thickness: Value = measure("length", "bare metal, paint subtracted", low=0.3e-3, high=2.5e-3, hint="mm")
    alloy: str = text("metal")
    start: Value = measure("length", "its lower end along the pins", key="from", low=0.0, high=2.0, hint="mm")
    to: Value = measure("length", "its upper end along the pins", low=0.0, high=2.0, hint="mm")
    wide: Value = measure("length", "its width", low=0.01, high=0.3, hint="mm")
    name: str = ""


@dataclass(frozen=True)
class Alloy:
    """A metal of the builder's own."""

    tension: Value = measure("stress", "ultimate tension", low=5e7, high=2e9, hint="MPa")
    yield_: Value = measure("stress", "yield", key="yield", low=2e7, high=2e9, hint="MPa")
    shear: Value = measure("stress", "ultimate shear", low=3e7, high=1.2e9, hint="MPa")
    crushing: Value = measure(
        "stress", "ultimate bearing, hole centre two diameters from the edge", low=8e7, high=3e9, hint="MPa"
    )
    crushing_yield: Value = measure(
        "stress",
        "yield in bearing, hole centre two diameters from the edge",
        low=5e7,
        high=3e9,
        hint="MPa",
        optional=True,
    )
    compression_yield: Value = measure("stress", "yield in compression", low=2e7, high=2e9, hint="MPa", optional=True)
    stiffness: Value = measure("stress", "E", low=4e10, high=2.2e11, hint="GPa")
    density: Value = measure("density", "mass for its volume", low=1500.0, high=9000.0, hint="kg/m3", optional=True)
    where_from: str = text("where these figures come from", key="from", raw=True)
    name: str = ""
