"""A change laid over a surface, and what happened."""

# ruff: noqa: RUF009 - these calls declare fields, each a new one
from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from surfacecheck.model._horn import Leaves
from surfacecheck.model._spec import counted, measure, measure_map, number, text, texts, word
from surfacecheck.model._words import Around, YesNo
from surfacecheck.provenance import Value

__all__ = ["ChangeLaid", "Happened"]


def _length(help: str, low: float, high: float, **more: Any) -> Any:
    return measure("length", help, low=low, high=high, hint="mm", optional=True, **more)


@dataclass(frozen=True)
class Happened:
    """One thing that happened at the bench.

    Every kind of event asks for some of these; ``line`` is where it stands in its file, 0 where that is not known.
    """

    where: str = text("place, as on the printed map", raw=True)
    what: str = text("what happened", raw=True)
    layers: tuple[str, ...] = texts("the layers that have it", optional=True)
    smallest: Value = _length("smallest size measured", 2e-3, 0.03)
    largest: Value = _length("largest size measured", 2e-3, 0.03)
    largest_points: Around | None = word(Around, "which way the largest size points", optional=True)
    edge: Value = _length("hole centre to the nearest edge", 0.0, 0.05)
    edges: dict[str, Value] = measure_map(
        "length", "hole centre to the edge of each sheet", low=0.0, high=0.05, hint="mm", optional=True
    )
    edge_first: Value = _length("edge at the first rivet of the row", 0.0, 0.05)
    edge_last: Value = _length("edge at its last rivet", 0.0, 0.05)
    spacing: Value = _length("centre to centre of two holes", 0.0, 0.05)
    second_lies: Around | None = word(Around, "which way the second hole lies from the first", optional=True)
    across: Value = _length("diameter of the second, stray or lightening hole", 2e-3, 0.1)
    rivet: str = text("name of the rivet in part D that is in there", optional=True)
    rivet_in: YesNo | None = word(YesNo, "the rivet is still in", optional=True)
    pitch: Value = _length("from rivet to rivet, as it was laid out", 0.01, 0.08)
    count: int | None = number("rivets, as they were laid out", high=10_000, optional=True)
    off_along: Value = _length("off its place, along the pins", -0.05, 0.05, toward=("up", "down"))
    off_sideways: Value = _length("off its place, sideways", -0.03, 0.03, toward=("left", "right"))
    turned: Value = measure(
        "angle",
        "turned, its upper end leaning this way",
        low=-0.35,
        high=0.35,
        hint="deg",
        toward=("left", "right"),
        optional=True,
    )
    out_of_line: Value = _length(
        "pin off the line through the outer pins, sideways", -0.003, 0.003, toward=("left", "right")
    )
    out_of_line_aft: Value = _length(
        "pin off the line through the outer pins, fore and aft", -0.003, 0.003, toward=("behind", "ahead")
    )
    radius: Value = _length("radius of the corner or of the nick's bottom", 1e-4, 0.02)
    depth: Value = _length("how far it goes in from the edge, or into the sheet", 5e-5, 0.03)
    thickness: Value = _length("of the other sheet, of the shim, or what is left", 1e-4, 5e-3)
    alloy: str = text("metal of the other sheet", optional=True)
    start: Value = _length("lower end of the doubler", 0.0, 2.0, key="from")
    to: Value = _length("upper end of the doubler", 0.0, 2.0)
    wide: Value = _length("width of the doubler", 0.01, 0.3)
    lines: int | None = number("lines of rivets side by side", high=10, optional=True)
    arm: Value = _length("arm of the horn or the stop", 0.02, 0.3)
    leaves: Leaves | None = counted("leaves", "how cable or rod leaves the bolt", optional=True)
    mass: Value = measure("mass", "of paint, filler, tab or servo", low=0.0, high=2.0, hint="kg", optional=True)
    behind: Value = _length("its centre behind the pins", -0.3, 0.8, toward=("behind", "ahead"))
    wind: Value = measure("speed", "wind it stood in", low=5.0, high=60.0, hint="knots", optional=True)
    swung: Value = measure("angle", "how far it swung free", low=0.0, high=1.6, hint="deg", optional=True)
    stop_gives: Value = measure(
        "angle", "how far stop and cables then gave", low=0.005, high=0.5, hint="deg", optional=True
    )
    done_since: str = text("what has been done to it since", raw=True, optional=True)
    reached_from: str = text("from where it can be reached", raw=True, optional=True)
    note: str = text("anything else", raw=True, optional=True)
    options: tuple[str, ...] = texts("what might be done, each is shown", key="try", raw=True, optional=True)
    line: int = 0


@dataclass(frozen=True)
class ChangeLaid:
    """A change file that was laid over the surface."""

    title: str
    path: str = ""
    sha256: str = ""
    happened: tuple[Happened, ...] = ()
