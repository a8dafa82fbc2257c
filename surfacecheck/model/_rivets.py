"""Parts D and E of the file: rivets and their rows."""

# ruff: noqa: RUF009 - these calls declare fields, each a new one
from __future__ import annotations

from dataclasses import dataclass

from surfacecheck.model._spec import measure, measure_map, measures, number, part_list, text, texts, word
from surfacecheck.model._words import HeadKind, RivetSet, StrengthIs, YesNo
from surfacecheck.provenance import Value

__all__ = ["Rivet", "RivetLength", "Row"]


@dataclass(frozen=True)
class RivetLength:
    """A length in which a rivet comes, and the stack that length is meant for."""

    length: Value = measure("length", "of the body, under the head", low=3e-3, high=0.03, hint="mm")
    grip: tuple[Value, ...] = measures(
        "length", "least and largest thickness this length joins", length=2, low=0.2e-3, high=25e-3, hint="mm"
    )


@dataclass(frozen=True)
class Rivet:
    """One kind of rivet, from its packet and data sheet."""

    set: RivetSet | None = word(RivetSet, "pulled or solid")
    alloy: str = text("metal of the rivet", optional=True)
    head_kind: HeadKind | None = word(HeadKind, "kind of head", optional=True)
    diameter: Value = measure("length", "nominal diameter", low=2.3e-3, high=5.0e-3, hint="mm")
    hole: Value = measure("length", "hole as drilled", low=2.3e-3, high=5.3e-3, hint="mm")
    hole_range: tuple[Value, ...] = measures(
        "length", "least and largest hole", length=2, low=2.3e-3, high=5.3e-3, hint="mm"
    )
    head: Value = measure("length", "diameter of the head", low=4e-3, high=12e-3, hint="mm")
    grip: tuple[Value, ...] = measures(
        "length", "least and largest thickness it may join", length=2, low=0.2e-3, high=15e-3, hint="mm"
    )
    lengths: tuple[RivetLength, ...] | None = part_list(
        RivetLength, "lengths in the packet, with the thickness each joins", optional=True
    )
    shear: Value = measure("force", "shear strength of one rivet", low=300.0, high=6000.0, hint="N")
    pull: Value = measure("force", "pull strength of one rivet", low=300.0, high=6000.0, hint="N")
    strength_is: StrengthIs | None = word(StrengthIs, "what the figures of the data sheet are")
    one_weighs: Value = measure("mass", "mass of one", low=0.1e-3, high=3e-3, hint="g")
    name: str = ""

    @property
    def sunk(self) -> bool:
        """Whether the head lies in the sheet: cut into it or dimpled."""
        return self.head_kind in {HeadKind.COUNTERSUNK, HeadKind.DIMPLED}

    @property
    def rule_head(self) -> str:
        """What the rules of edge distance call the head: ``countersunk`` or ``protruding``."""
        return "countersunk" if self.sunk else "protruding"


@dataclass(frozen=True)
class Row:
    """One row of rivets; ``joins`` names the parts from the rivet head inwards."""

    joins: tuple[str, ...] = texts("parts it joins, from the rivet head inwards")
    rivet: str = text("name of the rivet in part D")
    start: Value = measure(
        "length", "first rivet along the pins", key="from", low=0.0, high=2.0, hint="mm", optional=True
    )
    to: Value = measure("length", "last rivet along the pins", low=0.0, high=2.0, hint="mm", optional=True)
    first_behind_web: Value = measure(
        "length", "first rivet of a rib row behind the web", low=0.005, high=0.2, hint="mm", optional=True
    )
    last_before_edge: Value = measure(
        "length", "last rivet of a rib row before the trailing edge", low=0.005, high=0.3, hint="mm", optional=True
    )
    pitch: Value = measure("length", "from rivet to rivet", low=0.01, high=0.08, hint="mm", optional=True)
    count: int | None = number("number of rivets", high=10_000, optional=True)
    lines: int | None = number("lines side by side", high=10, optional=True)
    line_gap: Value = measure("length", "between the lines", low=0.008, high=0.15, hint="mm", optional=True)
    gap: Value = measure(
        "length", "from rivet to rivet, where only a count is given", low=0.008, high=0.15, hint="mm", optional=True
    )
    edge: dict[str, Value] = measure_map(
        "length", "hole centre to the edge of that sheet", low=0.004, high=0.05, hint="mm", optional=True
    )
    edge_from_rim: dict[str, Value] = measure_map(
        "length", "rim of the hole to the edge of that sheet", low=0.002, high=0.05, hint="mm", optional=True
    )
    drilled_already: YesNo | None = word(YesNo, "old holes stay, rivets can only be left out", optional=True)
    name: str = ""
