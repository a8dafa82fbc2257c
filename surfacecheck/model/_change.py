"""A change laid over a surface, and what happened."""

# ruff: noqa: RUF009 - these calls declare fields, each a new one
from __future__ import annotations

from dataclasses import dataclass

from surfacecheck.model._spec import measure, text, texts, word
from surfacecheck.model._words import Around, YesNo
from surfacecheck.provenance import Value

__all__ = ["ChangeLaid", "Happened"]


@dataclass(frozen=True)
class Happened:
    """One thing that happened at the bench."""

    where: str = text("place, as on the printed map", raw=True)
    what: str = text("what happened", raw=True)
    layers: tuple[str, ...] = texts("the layers that have it", optional=True)
    smallest: Value = measure("length", "smallest size measured", low=2e-3, high=0.03, hint="mm", optional=True)
    largest: Value = measure("length", "largest size measured", low=2e-3, high=0.03, hint="mm", optional=True)
    largest_points: Around | None = word(Around, "which way the largest size points", optional=True)
    edge: Value = measure("length", "hole centre to the nearest edge", low=0.0, high=0.05, hint="mm", optional=True)
    rivet_in: YesNo | None = word(YesNo, "the rivet is still in", optional=True)
    done_since: str = text("what has been done to it since", raw=True, optional=True)
    reached_from: str = text("from where it can be reached", raw=True, optional=True)
    note: str = text("anything else", raw=True, optional=True)
    options: tuple[str, ...] = texts("what might be done, each is shown", key="try", raw=True, optional=True)


@dataclass(frozen=True)
class ChangeLaid:
    """A change file that was laid over the surface."""

    title: str
    path: str = ""
    sha256: str = ""
    happened: tuple[Happened, ...] = ()
