"""Several surfaces assessed together: those that differ in numbers alone go through the load path as one stack."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING, Any

from surfacecheck.assessment._assess import assess, straddled
from surfacecheck.assessment._result import Assessment
from surfacecheck.assessment._rules import rules_of
from surfacecheck.assessment._statics import horn_pull_of, pins_of
from surfacecheck.assessment._work import Worked, work
from surfacecheck.checks import StackFindings, find_stack
from surfacecheck.errors import SurfaceError
from surfacecheck.masses import weigh
from surfacecheck.stacks import stacked

if TYPE_CHECKING:
    from collections.abc import Sequence

    from surfacecheck.model import Surface

__all__ = ["StackAssessment", "assess_each", "assess_stack"]


@dataclass(frozen=True, eq=False)
class StackAssessment:
    """A stack of variants, assessed in one go.

    Attributes
    ----------
    worked : Worked
        The load path; arrays have the variants first.
    variants : int
        How many.
    findings : StackFindings
        Every check of every variant.
    """

    worked: Worked
    variants: int
    findings: StackFindings

    @property
    def surface(self) -> Surface:
        """As described, with stacks for numbers."""
        return self.worked.surface


def assess_stack(surface: Surface, variants: int) -> StackAssessment:
    """Follow the design airload of a stack of variants to the pins, and check what carries it.

    Parameters
    ----------
    surface : Surface
        Its numbers may be arrays of shape (V,).
    variants : int
        V [-].

    Returns
    -------
    StackAssessment
        Bit for bit the margins that each variant has alone.

    Raises
    ------
    SurfaceError
        As :func:`assess`; and where the variants differ in the order of their places along the pins.
    """
    worked = work(surface)
    return StackAssessment(worked, variants, find_stack(worked.checks, variants))


def assess_each(surfaces: Sequence[Surface]) -> tuple[Assessment, ...]:
    """Assess several surfaces.

    Parameters
    ----------
    surfaces : sequence of Surface
        One at least. Those of one structure, next to each other in it, are worked as one stack.

    Returns
    -------
    tuple of Assessment
        In the same order, each with the margins it has alone; what only a page asks for is worked when it is asked.

    Raises
    ------
    SurfaceError
        As :func:`assess`.
    """
    found: list[Assessment | None] = [None] * len(surfaces)
    for group in _alike(surfaces):
        together = None if len(group) < 2 else _together([surfaces[i] for i in group])
        each = [assess(surfaces[i]) for i in group] if together is None else together
        for i, one in zip(group, each, strict=True):
            found[i] = one
    return tuple(one for one in found if one is not None)


def _alike(surfaces: Sequence[Surface]) -> list[list[int]]:
    """Sort surfaces into groups that differ in numbers alone."""
    groups: list[list[int]] = []
    for i, surface in enumerate(surfaces):
        for group in groups:
            if stacked([surfaces[group[0]], surface]) is not None:
                group.append(i)
                break
        else:
            groups.append([i])
    return groups


def _together(surfaces: list[Surface]) -> list[Assessment] | None:
    """Assess surfaces as one stack; None where their places along the pins stand in another order."""
    stack = stacked(surfaces)
    if stack is None:
        return None
    try:
        whole = assess_stack(stack, len(surfaces))
    except SurfaceError:  # one of them is at fault, or has another order: alone each says its own
        return None
    return [_Varied(surface, whole, v) for v, surface in enumerate(surfaces)]


class _Varied(Assessment):
    """One variant of a stack: its margins, pins, rules and masses are there, the rest is worked when asked for."""

    def __init__(self, surface: Surface, stack: StackAssessment, variant: int) -> None:
        span, loaded = stack.worked.span, stack.worked.loaded.of(variant)
        breaks = span.breaks[variant] if span.breaks.ndim > 1 else span.breaks
        given: dict[str, Any] = {
            "surface": surface,
            "findings": straddled(stack.findings.of(variant)),
            "pins": pins_of(surface, span.hinges, breaks, loaded),
            "horn_pull": horn_pull_of(surface, loaded.titles, loaded.horn_force, loaded.beams[0]),
            "rules": rules_of(surface),
            "masses": weigh(surface),
        }
        for name, value in given.items():
            object.__setattr__(self, name, value)

    @cached_property
    def alone(self) -> Assessment:
        """The same surface worked by itself, with everything a page asks for."""
        return assess(self.surface)

    @property
    def remarks(self) -> tuple[str, ...]:
        """Things to look at twice."""
        return self.alone.remarks

    @property
    def not_looked_at(self) -> tuple[str, ...]:
        """What is not looked at."""
        return self.alone.not_looked_at

    def __getattr__(self, name: str) -> Any:
        if name.startswith("__") or name not in Assessment.__dataclass_fields__:
            raise AttributeError(name)
        return getattr(self.alone, name)

    def show(self, name: str | int = 1, system: Any = "metric") -> str:
        """Write out how a number was worked, as :meth:`Assessment.show` does."""
        return self.alone.show(name, system)
