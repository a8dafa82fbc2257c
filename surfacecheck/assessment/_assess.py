"""The pipeline, in the order of the load path: load, beam, sections, rows and groups, checks."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.assessment._gaps import find_gaps
from surfacecheck.assessment._load import Loaded, put_on
from surfacecheck.assessment._remarks import assumptions_of, remarks_of
from surfacecheck.assessment._result import NOT_LOOKED_AT, Assessment
from surfacecheck.assessment._rules import rules_of
from surfacecheck.assessment._statics import horn_pull_of, pins_of, rests_of
from surfacecheck.checks import (
    Effects,
    Finding,
    Outcome,
    RowLoad,
    bracket_checks,
    bracket_loads,
    find,
    horn_checks,
    horn_load,
    panel_checks,
    pin_checks,
    plan_row,
    row_checks,
    row_loads,
    spar_checks,
)
from surfacecheck.errors import SurfaceError
from surfacecheck.loads import CaseLoads, load_cases
from surfacecheck.masses import weigh
from surfacecheck.sections import WallFlow, flow
from surfacecheck.sections.box import Box, box_needs, box_of
from surfacecheck.statics.span import Span, span_of

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from surfacecheck.model import Surface

    Array = NDArray[np.float64]

__all__ = ["assess"]

NOSE_OPEN = ", nose taken as open"


def assess(surface: Surface) -> Assessment:
    """Follow the design airload of a surface to the pins, and check what carries it.

    Parameters
    ----------
    surface : Surface
        As read from a file; values may be missing.

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
    span = span_of(surface)
    masses = weigh(surface)
    cases, missing = load_cases(surface, masses)
    if not cases:
        reasons = "; ".join(f"{m.needs}: {m.reason}" for m in missing) or "give load.pressure, load.total or load.rule"
        message = f"no load case can be built: {reasons}"
        raise SurfaceError(message)
    box = None if box_needs(surface) else _box(surface, span)
    loaded = put_on(surface, span, tuple(cases), masses, box)
    effects = _effects(surface, span, box, loaded)
    whole = effects.only(~effects.rear_alone)
    rows = tuple(row_loads(effects)) if effects.flow is not None else ()
    brackets = tuple(bracket_loads(whole))
    horn = horn_load(whole)
    checks = [
        *pin_checks(whole),
        *bracket_checks(whole, brackets),
        *horn_checks(whole, horn),
        *spar_checks(effects),
        *row_checks(effects, rows),
        *panel_checks(effects),
    ]
    findings = tuple(find(check) for check in checks)
    return Assessment(
        surface=surface,
        span=span,
        cases=tuple(cases),
        missing_cases=tuple(missing),
        case_titles=loaded.titles,
        beam=loaded.beams[0],
        simple=loaded.beams[1],
        effects=effects,
        pins=pins_of(surface, span, loaded.titles, loaded.beams),
        horn_pull=horn_pull_of(surface, loaded.titles, loaded.horn_force, loaded.beams[0]),
        rows=rows,
        brackets=brackets,
        horn=horn,
        findings=findings,
        rules=rules_of(surface, span, rows),
        masses=masses,
        rests=rests_of(loaded.titles, loaded.beams[0]),
        gaps=find_gaps(surface, findings, missing, box is None),
        assumptions=assumptions_of(surface, box, loaded),
        remarks=(*_outside(findings), *remarks_of(surface, span, box, loaded)),
        not_looked_at=_not_looked_at(surface, rows, box is not None),
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


def _box(surface: Surface, span: Span) -> Box:
    doubled = {
        name: span.between(plain(d.start) - 1e-9, plain(d.to) + 1e-9)
        for name, d in surface.sheet.doublers.items()
        if d.start.known and d.to.known
    }
    return box_of(surface, span.y, doubled, span.nose_closed)


def _effects(surface: Surface, span: Span, box: Box | None, loaded: Loaded) -> Effects:
    """Gather what the checks read; where there is a nose, once more with the rear cell alone."""
    beam, given = loaded.beams[0], loaded.given
    states = [False, True] if box is not None and box.rear_alone is not None else [False]
    names = tuple(t + (NOSE_OPEN if state else "") for state in states for t in loaded.titles)
    flows = None
    if box is not None:
        parts = []
        for state in states:
            one = box.rear_alone if state else box.closed
            assert one is not None  # noqa: S101 - states say so
            parts.append(
                WallFlow(
                    *(np.moveaxis(p, 0, 1) for p in flow(one, beam.V_x.T, beam.V_z.T, beam.T_0.T, about=(0.0, 0.0)))
                )
            )
        flows = WallFlow(*(np.concatenate([getattr(p, n) for p in parts]) for n in WallFlow._fields))
    spar_pull, edge_pull, air = _pulls(span, box, given, loaded.by_ribs)
    again = len(states)

    def twice(array: Kind) -> Kind:
        return np.concatenate([array] * again) if again > 1 else array  # type: ignore[return-value]

    ribs = given.force[:, list(span.ribs), 2] if span.ribs else np.zeros((len(loaded.cases), 0))
    return Effects(
        surface=surface,
        span=span,
        box=box,
        cases=names,
        control=twice(np.array([c.reads == "control" for c in loaded.cases])),
        by_ribs=twice(loaded.by_ribs),
        rear_alone=np.repeat(np.array(states), len(loaded.titles)),
        V_x=twice(beam.V_x),
        V_z=twice(beam.V_z),
        N=twice(beam.N),
        M_x=twice(beam.M_x),
        M_z=twice(beam.M_z),
        T_0=twice(beam.T_0),
        flow=flows,
        spar_pull=twice(spar_pull),
        edge_pull=twice(edge_pull),
        panel_load=twice(air),
        reactions=twice(beam.reactions),
        horn_force=twice(loaded.horn_force),
        horn_points=loaded.horn_points,
        rib_load=twice(ribs),
    )


def _pulls(span: Span, box: Box | None, given: CaseLoads, by_ribs: NDArray[np.bool_]) -> tuple[Array, Array, Array]:
    """Edge reactions of the skin as a strip from spar to trailing edge, all pressure on one skin, no help from ribs.

    The pressure is the same however the load then comes to the spar: read from the evenly spread twin of each case.
    """
    even = np.flatnonzero(~by_ribs)
    twin = np.empty(by_ribs.size, dtype=np.intp)
    twin[even] = even
    twin[by_ribs] = even[: int(by_ribs.sum())]
    air, torque = given.z[twin], given.torque[twin]
    web = box.web_x if box is not None else np.zeros_like(span.y)
    edge = box.edge_x if box is not None else np.ones_like(span.y)
    at_edge = (-torque - web * air) / (edge - web)
    return np.abs(air - at_edge), np.abs(at_edge), np.abs(air)
