"""Part D of the file, too: what sets the rivets, by its dimensions."""

# ruff: noqa: RUF009 - these calls declare fields, each a new one
from __future__ import annotations

from dataclasses import dataclass

from surfacecheck.model._spec import measure, measures
from surfacecheck.provenance import Value

__all__ = ["Tool"]


@dataclass(frozen=True)
class Tool:
    """A tool that pulls rivets: its nose stands on the sheet, its body is wider and begins further back.

    A nose of another size is another tool. Leaving the table out, or a line of it, is no gap.
    """

    nose_radius: Value = measure(
        "length", "half the width of its nose, where it stands on the sheet", low=2e-3, high=0.015, hint="mm",
        optional=True,
    )  # fmt: skip
    nose_long: Value = measure(
        "length", "from the sheet to where its body begins", low=5e-3, high=0.15, hint="mm", optional=True
    )
    body_radius: Value = measure("length", "half the width of its body", low=5e-3, high=0.06, hint="mm", optional=True)
    tips: tuple[Value, ...] = measures(
        "length", "diameters of the rivets its tips fit", low=2.3e-3, high=6.5e-3, hint="mm", optional=True
    )
    name: str = ""
