"""What is told of everything that was taken away, one at a time."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.checks import Outcome

if TYPE_CHECKING:
    from surfacecheck.assessment import Assessment
    from surfacecheck.checks import Finding

__all__ = ["GoneItem", "Growth", "OneGone"]


@dataclass(frozen=True, slots=True)
class Growth:
    """The load that grows most.

    Attributes
    ----------
    what : str
        In words.
    before, after : float
        Worst of all cases at limit [N].
    """

    what: str
    before: float
    after: float

    @property
    def times(self) -> float:
        """After over before [-]."""
        return self.after / self.before if self.before > 0.0 else np.inf


@dataclass(frozen=True, slots=True)
class GoneItem:
    """One thing taken away.

    Attributes
    ----------
    kind : str
        ``hinge``, ``rib``, ``bracket`` or ``horn``: what it is, or the group a rivet belongs to.
    name, part : str
        ``hinge.middle``, ``rib-3``, ``hinge.middle.bracket.rivet-3``, ``horn.rivet-2``; and in words.
    number : int
        Of a rib or rivet, from 1; 0 for a hinge.
    free : str
        What then moves freely or cannot be held, in words; empty where everything is held.
    lowest : Finding or None
        Lowest margin anywhere; None where nothing holds, or no margin is known.
    here : Finding or None
        Lowest margin of what its loss changes.
    growth : Growth or None
        Load that grows most; None where none does.
    asks : Growth or None
        What a strength that is not given must be good for, as drawn and now, where that grows most.
    lost : tuple of Finding
        What the method cannot answer without it.
    notes : tuple of str
        What goes with the numbers.
    """

    kind: str
    name: str
    part: str
    number: int
    free: str = ""
    lowest: Finding | None = None
    here: Finding | None = None
    growth: Growth | None = None
    asks: Growth | None = None
    lost: tuple[Finding, ...] = ()
    notes: tuple[str, ...] = ()

    @property
    def margin(self) -> float | None:
        """Lowest margin anywhere [-]; None where nothing holds, or none is known."""
        return None if self.lowest is None else self.lowest.margin

    @property
    def outcome(self) -> str:
        """One of the words of outcome."""
        if self.free or self.lost:
            return Outcome.OUTSIDE
        return Outcome.NOT_GIVEN if self.lowest is None else self.lowest.outcome

    @property
    def worst_first(self) -> tuple[bool, float, float]:
        """Key of the order: what is outside the method, then by the lowest margin anywhere, then of what it changes."""
        here = self.here.margin if self.here is not None and self.here.margin is not None else np.inf
        return not (self.free or self.lost), np.inf if self.margin is None else self.margin, here


@dataclass(frozen=True, eq=False)
class OneGone:
    """Everything of a surface taken away, one at a time.

    Attributes
    ----------
    assessment : Assessment
        As drawn.
    items : tuple of GoneItem
        Hinges, ribs, rivets of the brackets, rivets of the horn, from root to tip.
    left_out : tuple of str
        Groups that could not be looked at, with what hides them.
    """

    assessment: Assessment
    items: tuple[GoneItem, ...]
    left_out: tuple[str, ...]

    @property
    def short(self) -> bool:
        """Whether anything is less than required without one of them, or depends."""
        return any(one.outcome in {Outcome.LESS, Outcome.DEPENDS} for one in self.items)

    def of(self, kind: str) -> tuple[GoneItem, ...]:
        """Give the items of one kind, in order."""
        return tuple(one for one in self.items if one.kind == kind)

    def __str__(self) -> str:
        """Write it for a terminal."""
        from surfacecheck.studies.losing._gone_shown import gone_text

        return gone_text(self, "inch" if self.assessment.surface.units == "inch" else "metric")

    def _repr_html_(self) -> str:
        from surfacecheck.studies.losing._gone_shown import gone_html

        return gone_html(self, "inch" if self.assessment.surface.units == "inch" else "metric")
