"""Several surfaces assessed together: those that differ in numbers alone go through the load path as one stack."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cached_property
from typing import TYPE_CHECKING, Any

import numpy as np

from surfacecheck.assessment._assess import assess, straddled
from surfacecheck.assessment._gather import box_at
from surfacecheck.assessment._result import Assessment
from surfacecheck.assessment._rules import rules_of
from surfacecheck.assessment._statics import horn_pull_of, pins_of
from surfacecheck.assessment._work import Worked, work
from surfacecheck.axes import variant_of
from surfacecheck.checks import StackFindings, find_stack, row_loads
from surfacecheck.errors import SurfaceError
from surfacecheck.loads import AT_REST
from surfacecheck.masses import weigh_as_changed
from surfacecheck.stacks import alike, stacked
from surfacecheck.statics.span import span_of

if TYPE_CHECKING:
    from collections.abc import Sequence

    from surfacecheck.assessment._found import HornPull, PinLoad
    from surfacecheck.assessment._load import Loaded
    from surfacecheck.checks import Effects, Finding, RowLoad
    from surfacecheck.masses import Masses
    from surfacecheck.model import Surface
    from surfacecheck.rules import RuleResult

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


def assess_stack(surface: Surface, variants: int, *, every_case: bool = True) -> StackAssessment:
    """Follow the design airload of a stack of variants to the pins, and check what carries it.

    Parameters
    ----------
    surface : Surface
        Its numbers may be arrays of shape (V,).
    variants : int
        V [-].
    every_case : bool
        False lets load cases be left out that can decide nothing: for what asks only for what decides [-].

    Returns
    -------
    StackAssessment
        Bit for bit the margins that each variant has alone.

    Raises
    ------
    SurfaceError
        As :func:`assess`; and where the variants differ in the order of their places along the pins.
    """
    worked = work(surface, every_case=every_case)
    found = find_stack(worked.checks, variants)
    if _rest_decides(worked, found):
        return assess_stack(surface, variants)
    return StackAssessment(worked, variants, found)


def _rest_decides(worked: Worked, found: StackFindings) -> bool:
    """Whether the surface at rest, if it stands for loads that were left out, uses up or loads anything the most."""
    if worked.cases[-1].title != AT_REST:
        return False
    rest = np.array([case.title == AT_REST for case in worked.loaded.cases])
    on_pins = np.abs(worked.loaded.beams[0].reactions)
    most = on_pins[..., ~rest, :, :].max(axis=-3)
    return bool((on_pins[..., rest, :, :].max(axis=-3) > most).any()) or found.decided_by(AT_REST)


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
    groups: list[tuple[Surface, list[int]]] = []
    for i, surface in enumerate(surfaces):
        for at, (first, group) in enumerate(groups):
            if alike(first, surface):
                every_rivet = replace(first, rivets=surface.rivets | first.rivets)  # the next is held against them all
                groups[at] = every_rivet, [*group, i]
                break
        else:
            groups.append((surface, [i]))
    return [group for _, group in groups]


def _together(surfaces: list[Surface]) -> list[Assessment] | None:
    """Assess surfaces as one stack; None where their places along the pins stand in another order."""
    stack, drawn = stacked(surfaces), [one.drawn for one in surfaces if one.drawn is not None]
    if stack is None or any(one is not drawn[0] for one in drawn):
        return None
    try:  # the scale saw the drawn one, also where that is the first of them
        whole = assess_stack(replace(stack, drawn=drawn[0] if drawn else None), len(surfaces))
    except SurfaceError:  # one of them is at fault, or has another order: alone each says its own
        return None
    return [_Varied(surface, whole, v) for v, surface in enumerate(surfaces)]


class _Varied(Assessment):
    """One variant of a stack: read from the stack when it is asked for, and what only a page asks for worked alone."""

    _stack: StackAssessment
    _variant: int

    def __init__(self, surface: Surface, stack: StackAssessment, variant: int) -> None:
        for name, value in {"surface": surface, "_stack": stack, "_variant": variant}.items():
            object.__setattr__(self, name, value)

    @cached_property
    def findings(self) -> tuple[Finding, ...]:
        """Every check of this variant."""
        return straddled(self._stack.findings.of(self._variant))

    @cached_property
    def pins(self) -> tuple[PinLoad, ...]:
        """Worst load of each kind at each pin."""
        span = self._stack.worked.span
        return pins_of(self.surface, span.hinges, variant_of(span.breaks, self._variant, 1), self._loaded)

    @cached_property
    def horn_pull(self) -> HornPull | None:
        """Largest pull of a cable or rod."""
        loaded = self._loaded
        return horn_pull_of(self.surface, loaded)

    @cached_property
    def rules(self) -> tuple[RuleResult, ...]:
        """Rules at every place."""
        return rules_of(self.surface)

    @cached_property
    def masses(self) -> Masses:
        """Every part weighed."""
        return weigh_as_changed(self.surface)

    @cached_property
    def effects(self) -> Effects:
        """What the checks read."""
        span = span_of(self.surface)
        box = None if self._stack.worked.box is None else box_at(self.surface, span)
        return self._stack.worked.effects.of(self._variant, self.surface, span, box)

    @cached_property
    def fittings(self) -> Effects:
        """What the checks of brackets, pins and horn read."""
        effects = self.effects
        return self._stack.worked.fittings.of(self._variant, self.surface, effects.span, effects.box)

    @cached_property
    def rows(self) -> tuple[RowLoad, ...]:
        """Rivet loads of every row."""
        effects = self.effects.only(self._loaded.counts)
        return tuple(row_loads(effects)) if effects.box is not None else ()

    @property
    def mass(self) -> float | None:
        """The whole."""
        return self._stack.worked.masses.whole(self._variant)[0]

    @property
    def tail_heavy(self) -> float | None:
        """Moment about the pins, level."""
        return self._stack.worked.masses.whole(self._variant)[1]

    @cached_property
    def _loaded(self) -> Loaded:
        return self._stack.worked.loaded.of(self._variant)

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
