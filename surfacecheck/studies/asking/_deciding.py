"""What was found about doubtful inputs, and how it is said."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.assessment import in_system, margin_text
from surfacecheck.quantities import show

if TYPE_CHECKING:
    from collections.abc import Iterable

    from surfacecheck.provenance import Source
    from surfacecheck.quantities import System

__all__ = ["SHOWN", "Decided", "Deciding", "Moved", "in_order"]

SHOWN = 1e-3
"""Least move of a margin that is told."""
FAR_SHARE, FAR_AMOUNT = 0.5, 10.0
"""Share of an input, and steps of one that is nought, beyond which a straight line through one step says nothing."""
MANY = 8
"""Keys that are listed in a sentence."""
ONE_WAY = {"compliance", "mass"}
"""Quantities of which there is no less than nought."""


@dataclass(frozen=True, slots=True)
class Moved:
    """One low margin, as it is and with one step more of an input.

    Attributes
    ----------
    name, part, gives : str
        Of the finding.
    before, after : float
        Margins [-].
    """

    name: str
    part: str
    gives: str
    before: float
    after: float

    @property
    def by(self) -> float:
        """How far one step moves it [-]."""
        return self.after - self.before

    @property
    def steps(self) -> float:
        """How many steps bring it to nought, by a straight line; infinite where it does not move [-]."""
        return -self.before / self.by if self.by else np.inf


@dataclass(frozen=True, slots=True)
class Deciding:
    """A doubtful input that moves a low margin.

    Attributes
    ----------
    key, said : str
        Line of the file (or of the shipped tables), and the text as typed.
    source : Source
        Why it is doubtful.
    lines : int
        Lines with the same words for the same thing, changed together [-].
    step : float
        Step: a share of the number [-] where ``quantity`` is empty, else an amount [SI].
    quantity : str
        Quantity of an amount.
    named : bool
        Whether it stands in the working of such a margin itself; otherwise it acts through the load.
    moves : tuple of Moved
        Margins, the one that is brought to nought in the fewest steps first.
    """

    key: str
    said: str
    source: Source
    lines: int
    step: float
    quantity: str
    named: bool
    moves: tuple[Moved, ...]

    def sentence(self, system: System = "metric") -> str:
        """Say it.

        Parameters
        ----------
        system : {"metric", "inch"}
            Units.

        Returns
        -------
        str
            One sentence, without its stop.
        """
        most = self.moves[0]
        told = f"{self._input()}: {self._step(system)} moves {in_system(most.part, system)}, {most.gives}, "
        told += f"by {most.by:+z.3f} from {margin_text(most.before)}"
        others = sum(abs(one.by) >= SHOWN for one in self.moves[1:])
        return told + (f", and {others} more of the lowest" if others else "") + self._used_up(most, system)

    @property
    def nearest(self) -> float:
        """How many steps, this way or the other, bring a margin to nought [-]."""
        return _steps(self.moves[0], self.quantity)

    def _input(self) -> str:
        """Say which input, and why it is doubtful."""
        text = "" if self.source.text == self.source.basis else self.source.text
        how = ": ".join(part for part in (str(self.source.basis), text) if part)
        lines = f", on {self.lines} lines" if self.lines > 1 else ""
        return f"{self.key}{f' = {self.said}' if self.said else ''} ({how}{lines})"

    def _step(self, system: System) -> str:
        word = "more" if self.step > 0.0 else "less"
        size = show(abs(self.step), self.quantity, system, 1) if self.quantity else f"{100 * abs(self.step):.0f} %"
        return f"{size} {word}"

    def _used_up(self, most: Moved, system: System) -> str:
        """Say how much of it would bring the margin to nought, by a straight line through the step."""
        amount = most.steps * self.step
        if not self.nearest <= (FAR_AMOUNT if self.quantity else FAR_SHARE / abs(self.step)):
            return ""
        size = show(abs(amount), self.quantity, system, 2) if self.quantity else f"{100 * abs(amount):.0f} %"
        return f"; about {size} {'more' if amount > 0.0 else 'less'} would bring it to nought"


@dataclass(frozen=True, slots=True)
class Decided:
    """What was found about the doubtful inputs of a surface.

    Attributes
    ----------
    lowest : tuple of str
        Names of the margins that were looked at.
    deciding : tuple of Deciding
        Inputs that move one of them, the one of which the fewest steps bring one to nought first.
    still : tuple of str
        Keys that move none of them by as much as 0.001.
    untried : tuple of str
        Keys that were not tried: too many, or the step cannot be worked.
    """

    lowest: tuple[str, ...]
    deciding: tuple[Deciding, ...]
    still: tuple[str, ...]
    untried: tuple[str, ...]

    def sentences(self, system: System = "metric") -> list[str]:
        """Say everything, what matters most first.

        Parameters
        ----------
        system : {"metric", "inch"}
            Units.

        Returns
        -------
        list of str
            A sentence an input, then one on the rest; empty where there is no margin.
        """
        if not self.lowest:
            return []
        many = f"the {len(self.lowest)} lowest margins" if len(self.lowest) > 1 else "the one margin"
        told = [f"{one.sentence(system)}." for one in self.deciding]
        if self.still:
            told.append(f"Moves none of {many} by 0.001, one step more: {_listed(self.still)}.")
        if self.untried:
            told.append(f"Doubtful too, not tried: {_listed(self.untried)}.")
        return told or [f"Nothing that is guessed, unsaid or from memory was found behind {many}."]


def in_order(moves: Iterable[Moved], quantity: str) -> tuple[Moved, ...]:
    """Put the margin first that is brought to nought in the fewest steps; those that hardly move last.

    Parameters
    ----------
    moves : iterable of Moved
        Margins.
    quantity : str
        Quantity of the step where it starts from nought; empty for a share.

    Returns
    -------
    tuple of Moved
        The same.
    """
    return tuple(sorted(moves, key=lambda one: (abs(one.by) < SHOWN, _steps(one, quantity), -abs(one.by))))


def _steps(one: Moved, quantity: str) -> float:
    """Count steps to nought; infinite where they would go the way that is not there."""
    return np.inf if one.steps < 0.0 and quantity in ONE_WAY else abs(one.steps)


def _listed(keys: tuple[str, ...]) -> str:
    return ", ".join(keys[:MANY]) + (f" and {len(keys) - MANY} more" if len(keys) > MANY else "")
