"""The load path itself, in order: load, beam, sections, rows and groups, checks; of one surface or of a stack."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from surfacecheck.assessment._gather import box_at, effects_of
from surfacecheck.assessment._load import put_on
from surfacecheck.checks import (
    bracket_checks,
    bracket_loads,
    horn_checks,
    horn_load,
    mark_checks,
    panel_checks,
    pin_checks,
    row_checks,
    row_loads,
    spar_checks,
)
from surfacecheck.errors import SurfaceError
from surfacecheck.loads import leading, load_cases
from surfacecheck.masses import weigh_as_changed
from surfacecheck.sections.box import box_needs
from surfacecheck.statics.span import span_of

if TYPE_CHECKING:
    from collections.abc import Sequence

    from surfacecheck.assessment._load import Loaded
    from surfacecheck.checks import BracketLoad, Check, Effects, HornLoad, RowLoad
    from surfacecheck.loads import LoadCase, MissingCase
    from surfacecheck.masses import Masses
    from surfacecheck.model import Surface
    from surfacecheck.sections.box import Box
    from surfacecheck.statics.span import Span

__all__ = ["Worked", "work"]


@dataclass(frozen=True, eq=False)
class Worked:
    """A surface, or a stack of variants, followed from the airload to its checks.

    Attributes
    ----------
    surface, span, masses, cases, missing, box, loaded, effects, fittings, rows, brackets, horn
        As in :class:`Assessment`; arrays of a stack have its axis first.
    checks : tuple of Check
        Every check, not yet reduced to its worst.
    """

    surface: Surface
    span: Span
    masses: Masses
    cases: tuple[LoadCase, ...]
    missing: tuple[MissingCase, ...]
    box: Box | None
    loaded: Loaded
    effects: Effects
    fittings: Effects
    rows: tuple[RowLoad, ...]
    brackets: tuple[BracketLoad, ...]
    horn: HornLoad | None
    checks: tuple[Check, ...]


def work(
    surface: Surface,
    *,
    span: Span | None = None,
    masses: Masses | None = None,
    cases: Sequence[LoadCase] | None = None,
    every_case: bool = True,
) -> Worked:
    """Follow the design airload to the pins and lay out everything that is checked.

    Parameters
    ----------
    surface : Surface
        As read from a file, or with stacks of variants for numbers.
    span, masses, cases : Span, Masses, sequence of LoadCase, optional
        As :func:`~surfacecheck.assessment.assess` takes them.
    every_case : bool
        False leaves out the load cases that can decide nothing, see :func:`~surfacecheck.loads.leading`, and the beam
        of bending alone, which only stands beside the other [-].

    Returns
    -------
    Worked
        With every check.

    Raises
    ------
    SurfaceError
        Where there is no outline, no load, or fewer than two hinges.
    """
    span = span_of(surface) if span is None else span
    masses = weigh_as_changed(surface) if masses is None else masses
    found, missing = load_cases(surface, masses) if cases is None else (list(cases), [])
    if not found:
        reasons = "; ".join(f"{m.needs}: {m.reason}" for m in missing) or "give load.pressure, load.total or load.rule"
        message = f"no load case can be built: {reasons}"
        raise SurfaceError(message)
    found = found if every_case else list(leading(found, surface))
    box = None if box_needs(surface) else box_at(surface, span)
    loaded, also_slack = put_on(surface, span, tuple(found), masses, box, bending_alone=every_case)
    effects = effects_of(surface, span, box, loaded)
    counted = effects.only(loaded.counts)
    rows = tuple(row_loads(counted)) if box is not None else ()
    fittings = counted
    if also_slack is not loaded:
        fittings = effects_of(surface, span, box, also_slack).only(also_slack.counts)
    brackets = tuple(bracket_loads(fittings))
    horn = horn_load(fittings)
    checks = (
        *pin_checks(fittings),
        *bracket_checks(fittings, brackets),
        *horn_checks(fittings, horn),
        *spar_checks(counted),
        *row_checks(counted, rows),
        *panel_checks(counted),
        *mark_checks(counted),
    )
    return Worked(
        surface,
        span,
        masses,
        tuple(found),
        tuple(missing),
        box,
        loaded,
        effects,
        fittings,
        rows,
        brackets,
        horn,
        checks,
    )
