"""Which length of rivet a stack takes: from the packet's own list, or by the rule for solid ones."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from surfacecheck.errors import SurfaceError
from surfacecheck.model import RivetSet
from surfacecheck.provenance import Basis, Source
from surfacecheck.rules import DOES_NOT_MEET, grip_range
from surfacecheck.studies.bench._seats import known

if TYPE_CHECKING:
    from collections.abc import Iterable

    from surfacecheck.model import Rivet
    from surfacecheck.provenance import Value

__all__ = ["Chosen", "rivet_length"]

STEP = 0.0254 / 16
"""Solid rivets come in lengths of whole sixteenths of an inch [m] (AC 43.13-1B, 4-57: part numbers)."""
SOLID = Source(Basis.PUBLISHED, "NAVEDTRA 14018, chapter 13: grip and 1.5 D; up to the next sixteenth of an inch")
MIDDLE = Source(
    Basis.COMMON_PRACTICE, "of the lengths that hold the stack, the one whose middle is nearest to it; else the shorter"
)


@dataclass(frozen=True)
class Chosen:
    """A length for a stack.

    Attributes
    ----------
    length : float
        Under the head [m].
    source : Source
        By what it was taken.
    others : tuple of float
        Further lengths that hold the stack [m].
    """

    length: float
    source: Source
    others: tuple[float, ...] = ()


ASK = ". Another length, another rivet, or measure again"


def rivet_length(rivet: Rivet, stack: float) -> Chosen | None:
    """Give the length of a rivet that a stack takes.

    Parameters
    ----------
    rivet : Rivet
        From the file.
    stack : float
        All sheets under it [m].

    Returns
    -------
    Chosen or None
        None where the packet's lengths are not given [m].

    Raises
    ------
    SurfaceError
        Where no length of the packet holds the stack, naming what they hold; for a stack not above zero; for a solid
        rivet of unknown diameter.

    References
    ----------
    NAVEDTRA 14018, chapter 13, for solid rivets; the packet, and common practice among several, for pulled ones.

    Examples
    --------
    A 1/8 in solid rivet through 0.08 in: 0.08 + 0.1875 = 0.2675, so 5/16 in

    >>> from surfacecheck.model import Rivet
    >>> from surfacecheck.provenance import Value
    >>> solid = Rivet(set=RivetSet.SOLID, diameter=Value(0.125 * 0.0254), name="skin")
    >>> round(rivet_length(solid, 0.08 * 0.0254).length / 0.0254, 4)
    0.3125
    """
    if not (math.isfinite(stack) and stack > 0.0):
        message = f"stack is {stack * 1e3:g} mm; it must be above 0: the sheets under the rivet together"
        raise SurfaceError(message)
    if rivet.set is RivetSet.SOLID:
        return _solid(rivet, stack)
    if not rivet.lengths:
        _look(rivet, stack)
        return None
    offers = [(one, *_ends(one.grip)) for one in rivet.lengths if one.length.known]
    holding = [(one, low, high) for one, low, high in offers if _holds(stack, low, high)]
    if not holding:
        told = ", ".join(f"{one.length.said} {_said(one.grip)}" for one, _, _ in offers)
        message = f"rivet.{rivet.name}: no length holds a stack of {stack * 1e3:.2f} mm; in the packet: {told}{ASK}"
        raise SurfaceError(message)
    best = min(holding, key=lambda one: (_off_middle(stack, one[1], one[2]), one[0].length.si or 0.0))[0]
    others = tuple(float(one.length.si or 0.0) for one, _, _ in holding if one is not best)
    return Chosen(float(best.length.si or 0.0), MIDDLE if others else best.length.source, others)


def _solid(rivet: Rivet, stack: float) -> Chosen:
    diameter = known(rivet.diameter)
    if diameter is None:
        message = f"rivet.{rivet.name}.diameter is not given: a solid rivet is as long as its grip and 1.5 diameters"
        raise SurfaceError(message)
    sixteenths = math.ceil((stack + 1.5 * diameter) / STEP - 1e-9)
    return Chosen(sixteenths * STEP, SOLID)


def _ends(grip: Iterable[Value]) -> tuple[float | None, float | None]:
    ends = [known(one) for one in grip]
    return (ends[0], ends[1]) if len(ends) == 2 else (None, None)


def _holds(stack: float, low: float | None, high: float | None) -> bool:
    if low is None and high is None:
        return False
    return grip_range(stack, low, high).outcome != DOES_NOT_MEET


def _off_middle(stack: float, low: float | None, high: float | None) -> float:
    """How far from the middle of the grip, in halves of it."""
    if low is None or high is None or high <= low:
        return 1.0
    return round(abs(stack - 0.5 * (low + high)) / (0.5 * (high - low)), 9)


def _said(grip: tuple[Value, ...]) -> str:
    return "(grip ?)" if len(grip) != 2 else f"({grip[0].said} to {grip[1].said})"


def _look(rivet: Rivet, stack: float) -> None:
    """Without lengths, hold the stack against the whole range of the rivet."""
    low, high = _ends(rivet.grip)
    if (low is not None or high is not None) and grip_range(stack, low, high).outcome == DOES_NOT_MEET:
        message = f"rivet.{rivet.name}: grip {_said(rivet.grip)} does not hold a stack of {stack * 1e3:.2f} mm{ASK}"
        raise SurfaceError(message)
