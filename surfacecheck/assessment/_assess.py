"""The pipeline, in the order of the load path: load, beam, sections, rows and groups, checks."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from surfacecheck.assessment._gaps import find_gaps
from surfacecheck.assessment._remarks import assumptions_of, remarks_of
from surfacecheck.assessment._result import NOT_LOOKED_AT, Assessment
from surfacecheck.assessment._rules import rules_of
from surfacecheck.assessment._statics import horn_pull_of, pins_of, rests_of
from surfacecheck.assessment._work import work
from surfacecheck.checks import (
    Finding,
    Outcome,
    RowLoad,
    find_all,
    plan_row,
)

if TYPE_CHECKING:
    from collections.abc import Sequence

    from surfacecheck.loads import LoadCase
    from surfacecheck.masses import Masses
    from surfacecheck.model import Surface
    from surfacecheck.statics.span import Span

__all__ = ["assess", "straddled"]


def assess(
    surface: Surface,
    *,
    span: Span | None = None,
    masses: Masses | None = None,
    cases: Sequence[LoadCase] | None = None,
) -> Assessment:
    """Follow the design airload of a surface to the pins, and check what carries it.

    Parameters
    ----------
    surface : Surface
        As read from a file; values may be missing.
    span : Span, optional
        Its stations and places; laid out here where not given. One that names fewer hinges or ribs than it was laid
        out for is a surface that has lost them and not their openings and weights.
    masses : Masses, optional
        Its masses; weighed here where not given.
    cases : sequence of LoadCase, optional
        These alone; all that the file gives data for where they are left out.

    Returns
    -------
    Assessment
        Everything that can be worked from what is given, and a list of what is hidden by what is not.

    Raises
    ------
    SurfaceError
        Where there is no outline, no load, or fewer than two hinges.

    Examples
    --------
    >>> import surfacecheck
    >>> assessment = surfacecheck.assess(surfacecheck.read("data/rudder.toml"))  # doctest: +SKIP
    >>> assessment.pins[0].name  # doctest: +SKIP
    'bottom'
    """
    worked = work(surface, span=span, masses=masses, cases=cases)
    span, masses = worked.span, worked.masses
    loaded, box = worked.loaded, worked.box
    rows = worked.rows
    findings = straddled(find_all(worked.checks))
    return Assessment(
        surface=surface,
        span=span,
        cases=worked.cases,
        missing_cases=worked.missing,
        case_titles=loaded.titles,
        beam=loaded.beams[0],
        simple=loaded.beams[1],
        effects=worked.effects,
        fittings=worked.fittings,
        pins=pins_of(surface, span.hinges, span.breaks, loaded),
        horn_pull=horn_pull_of(surface, loaded),
        rows=rows,
        brackets=worked.brackets,
        horn=worked.horn,
        findings=findings,
        rules=rules_of(surface),
        masses=masses,
        rests=rests_of(loaded.titles, loaded.beams[0]),
        gaps=find_gaps(surface, findings, worked.missing, box is None),
        assumptions=assumptions_of(surface, box, loaded),
        remarks=(*_outside(findings), *remarks_of(surface, span, box, loaded)),
        not_looked_at=_not_looked_at(surface, rows, box is not None),
    )


def straddled(findings: tuple[Finding, ...]) -> tuple[Finding, ...]:
    """Where a margin carries and the bound beside it does not, it depends."""
    short = {
        (f.check.place, f.check.mode.removesuffix("-heel"))
        for f in findings
        if f.kind == "bound" and f.margin is not None and f.margin < 0.0
    }
    return tuple(
        replace(f, outcome=Outcome.DEPENDS)
        if f.outcome == Outcome.CARRIES and f.kind == "margin" and (f.check.place, f.check.mode) in short
        else f
        for f in findings
    )


def _outside(findings: tuple[Finding, ...]) -> tuple[str, ...]:
    """Say what the method cannot answer at all."""
    odd = [f for f in findings if f.outcome == Outcome.OUTSIDE and f.margin is None]
    return tuple(f"{f.part}: {f.gives}; {Outcome.OUTSIDE}" for f in odd)


def _not_looked_at(surface: Surface, rows: tuple[RowLoad, ...], sections: bool) -> tuple[str, ...]:
    """List what is never looked at, and rows of this surface that no check knows."""
    known = {load.row.name for load in rows}
    odd = [r for r in surface.rows.values() if sections and r.name not in known and plan_row(surface, r) is not None]
    return (*NOT_LOOKED_AT, *(f"the row {row.name.replace('_', ' ')}" for row in odd))
