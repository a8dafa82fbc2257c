"""One rivet that is not as its row or its bracket says."""

from __future__ import annotations

from dataclasses import dataclass, field

from surfacecheck.provenance import UNKNOWN, Basis, Source, Value

__all__ = ["Apart"]

FULLY = Value(1.0, "holds fully", Source(Basis.ASSUMED))
"""It holds what its strength says."""


@dataclass(frozen=True)
class Apart:
    """What differs at one rivet of a row, a bracket or the horn; what is not said is as its row says.

    Attributes
    ----------
    holds : Value
        Share of its stiffness and strength that counts: 1 holds fully, 0 holds nothing [-].
    rivet : str
        Name of another rivet of part D; empty for the same.
    across, along : dict of str to Value
        Size of its hole in each layer that has another one: square to the row's line, and along it [m].
    edge : dict of str to Value
        Hole centre to the edge of each layer that has another one [m].
    moved_along, moved_across : Value
        How far it stands from its place: up the line of the pins, and to the left of it (top, where the surface lies
        flat) [m].
    """

    holds: Value = FULLY
    rivet: str = ""
    across: dict[str, Value] = field(default_factory=dict)
    along: dict[str, Value] = field(default_factory=dict)
    edge: dict[str, Value] = field(default_factory=dict)
    moved_along: Value = UNKNOWN
    moved_across: Value = UNKNOWN
