"""One rivet, or one group of rivets, that is not as its row or its bracket says."""

from __future__ import annotations

from dataclasses import dataclass, field

from surfacecheck.model._rivets import Rivet
from surfacecheck.provenance import UNKNOWN, Basis, Source, Value

__all__ = ["Apart"]

FULLY = Value(1.0, "holds fully", Source(Basis.ASSUMED))
"""It holds what its strength says."""

THERE = Value(1.0, "in its hole", Source(Basis.ASSUMED))
"""The rivet is there."""


@dataclass(frozen=True)
class Apart:
    """What differs at one rivet of a row, a bracket or the horn; what is not said is as its row says.

    Attributes
    ----------
    holds : Value
        Share of its stiffness and strength that counts: 1 holds fully, 0 holds nothing [-].
    there : Value
        1 where a rivet sits in the hole, 0 where the hole is open: for its mass [-].
    rivet : Rivet or None
        Another rivet; None for the one of its row.
    across, along : dict of str to Value
        Size of its hole in each layer that has another one: square to the line of the pins, and along it; in a rib row
        square to the rib, and along it; at the horn sideways, and fore and aft [m].
    edge : dict of str to Value
        Hole centre to the edge of each layer that has another one [m].
    beside : dict of str to Value
        Diameter of an open hole between this rivet and the next, in each layer that has one [m].
    extra : Value
        1 where one more rivet of the row's kind was put in half-way to either neighbour [-].
    moved_along, moved_across : Value
        How far it stands from its place: up the line of the pins (behind, in a rib row and at the horn), and to the
        left of it (top, where the surface lies flat) [m].
    turned : Value
        Of a whole bracket: how far its rivets are turned, its upper (outer) end leaning to the left (top) [rad].
    edge_last : dict of str to Value
        Of a whole row: edge at its last rivet; ``edge`` is then that at its first, straight between [m].
    shim : Value
        Of a whole row: thickness of a shim between its sheets [m].
    """

    holds: Value = FULLY
    there: Value = THERE
    rivet: Rivet | None = None
    across: dict[str, Value] = field(default_factory=dict)
    along: dict[str, Value] = field(default_factory=dict)
    edge: dict[str, Value] = field(default_factory=dict)
    beside: dict[str, Value] = field(default_factory=dict)
    extra: Value = UNKNOWN
    moved_along: Value = UNKNOWN
    moved_across: Value = UNKNOWN
    turned: Value = UNKNOWN
    edge_last: dict[str, Value] = field(default_factory=dict)
    shim: Value = UNKNOWN
