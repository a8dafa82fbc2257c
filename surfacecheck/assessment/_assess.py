"""The pipeline, in the order of the load path: load, beam, sections, rows and groups, checks."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.assessment._gaps import find_gaps
from surfacecheck.assessment._result import Assessment
from surfacecheck.assessment._rules import rules_of
from surfacecheck.assessment._statics import horn_pull_of, pins_of, rests_of
from surfacecheck.checks import (
    Effects,
    bracket_checks,
    bracket_loads,
    find,
    horn_checks,
    horn_load,
    panel_checks,
    pin_checks,
    row_checks,
    row_loads,
    spar_checks,
)
from surfacecheck.errors import SurfaceError
from surfacecheck.loads import CaseLoads, LoadCase, apply, horn_line, horn_needs, load_cases
from surfacecheck.masses import Masses, weigh
from surfacecheck.model import DrivenBy, LoadReachesSpar
from surfacecheck.sections import WallFlow, flow
from surfacecheck.sections.box import Box, box_needs, box_of
from surfacecheck.sections.stiffness import stiffness_of
from surfacecheck.statics import Beam, beam_stiffness, solve
from surfacecheck.statics.held import beam_loads, hold_torque, supports_of
from surfacecheck.statics.span import Span, span_of

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from surfacecheck.model import Surface

    Array = NDArray[np.float64]

__all__ = ["assess"]

THROUGH_RIBS = ", through the ribs"
NOSE_OPEN = ", nose taken as open"


@dataclass(frozen=True, eq=False)
class _Loaded:
    """Load cases put on the stations and held against turning; every case evenly, then through the ribs."""

    titles: tuple[str, ...]
    cases: tuple[LoadCase, ...]
    by_ribs: NDArray[np.bool_]
    given: CaseLoads
    beams: tuple[Beam, Beam]
    horn_force: Array
    horn_points: Array


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
    loaded = _load(surface, span, tuple(cases), masses, box)
    effects = _effects(surface, span, box, loaded)
    whole = effects.only(~effects.rear_alone)
    rows = tuple(row_loads(effects)) if effects.flow is not None else ()
    brackets = tuple(bracket_loads(whole))
    horn = horn_load(whole)
    checks = [
        *pin_checks(whole), *bracket_checks(whole, brackets), *horn_checks(whole, horn),
        *spar_checks(effects), *row_checks(effects, rows), *panel_checks(effects),
    ]  # fmt: skip
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
        assumptions=_assumptions(surface, box, loaded),
        remarks=_remarks(surface, span, loaded),
    )


def _box(surface: Surface, span: Span) -> Box:
    doubled = {
        name: span.between(float(d.start.si) - 1e-9, float(d.to.si) + 1e-9)  # type: ignore[arg-type]
        for name, d in surface.sheet.doublers.items()
        if d.start.known and d.to.known
    }
    return box_of(surface, span.y, doubled, span.nose_closed)


def _load(surface: Surface, span: Span, cases: tuple[LoadCase, ...], masses: Masses, box: Box | None) -> _Loaded:
    """Put the cases on the beam, spread evenly and through the ribs, and solve both idealisations."""
    ways = [False]
    if len(span.ribs) > 1 and surface.method.load_reaches_spar is not LoadReachesSpar.EVENLY:
        ways.append(True)
    parts = [apply(cases, surface, span.y, span.breaks, span.bay, through_ribs=way, masses=masses) for way in ways]
    given = _joined(parts)
    every = cases * len(ways)
    titles = tuple(c.title + (THROUGH_RIBS if way else "") for way in ways for c in cases)
    loads, force, side, _ = hold_torque(span.stations, beam_loads(given), given)
    stiffness = beam_stiffness(np.ones(span.y.size), np.ones(span.y.size)) if box is None else stiffness_of(box)
    supports = supports_of(surface, span, every, springs=box is not None)
    beams = tuple(solve(span.stations, loads, stiffness, supports, coupled) for coupled in (box is not None, False))
    horn_force, points = _at_horn(surface, every, force, side)
    by_ribs = np.repeat(np.array(ways), len(cases))
    return _Loaded(titles, every, by_ribs, given, beams, horn_force, points)  # type: ignore[arg-type]


def _joined(parts: list[CaseLoads]) -> CaseLoads:
    if len(parts) == 1:
        return parts[0]
    arrays = {n: np.concatenate([getattr(p, n) for p in parts]) for n in CaseLoads.__dataclass_fields__ if n not in {"names", "holds"}}
    return CaseLoads(names=sum((p.names for p in parts), ()), holds=sum((p.holds for p in parts), ()), **arrays)


def _at_horn(surface: Surface, cases: tuple[LoadCase, ...], force: Array, side: Array) -> tuple[Array, Array]:
    """Force at each bolt of the horn: what holds the torque, the rigging pull, the pilot's feet; (C, P, 3) and (P, 2)."""
    if horn_needs(surface) is not None:
        return np.zeros((len(cases), 0, 3)), np.zeros((0, 2))
    line = horn_line(surface)
    if line.driven_by is DrivenBy.TORQUE_TUBE:
        return np.zeros((len(cases), 0, 3)), np.zeros((0, 2))
    sides = (line.side,) if line.side else (1, -1)
    out = np.zeros((len(cases), len(sides), 3))
    pull = surface.controls.rigging_pull.si if line.driven_by is DrivenBy.TWO_CABLES else None
    for p, s in enumerate(sides):
        direction = line.direction(np.asarray(float(s)))
        closing = np.array([c.closing != "stop" for c in cases])
        out[:, p] += np.where(((side == s) & closing)[:, None], force, 0.0)
        if pull is not None:
            out[:, p] += pull * direction
        for c, case in enumerate(cases):
            if case.pilot is not None and s in case.pilot.sides:
                out[c, p] += case.pilot.pull * direction
    return out, np.array([[float(line.x), s * float(line.off)] for s in sides])


def _effects(surface: Surface, span: Span, box: Box | None, loaded: _Loaded) -> Effects:
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
            parts.append(WallFlow(*(np.moveaxis(p, 0, 1) for p in flow(one, beam.V_x.T, beam.V_z.T, beam.T_0.T, about=(0.0, 0.0)))))
        flows = WallFlow(*(np.concatenate([getattr(p, n) for p in parts]) for n in WallFlow._fields))
    half = len(loaded.cases) // (2 if loaded.by_ribs.any() else 1)
    spar_pull, edge_pull, air = _pulls(surface, span, box, given, half)
    again = len(states)

    def twice(array: Array) -> Array:
        return np.concatenate([array] * again)

    ribs = given.force[:, list(span.ribs), 2] if span.ribs else np.zeros((len(loaded.cases), 0))
    return Effects(
        surface=surface,
        span=span,
        box=box,
        cases=names,
        control=twice(np.array([c.reads == "control" for c in loaded.cases])),
        by_ribs=twice(loaded.by_ribs),
        rear_alone=np.repeat(np.array(states), len(loaded.titles)),
        V_x=twice(beam.V_x), V_z=twice(beam.V_z), N=twice(beam.N), M_x=twice(beam.M_x), M_z=twice(beam.M_z), T_0=twice(beam.T_0),
        flow=flows,
        spar_pull=twice(spar_pull), edge_pull=twice(edge_pull), panel_load=twice(air),
        reactions=twice(beam.reactions),
        horn_force=twice(loaded.horn_force),
        horn_points=loaded.horn_points,
        rib_load=twice(ribs),
    )  # fmt: skip


def _pulls(surface: Surface, span: Span, box: Box | None, given: CaseLoads, half: int) -> tuple[Array, Array, Array]:
    """Edge reactions of the skin as a strip from spar to trailing edge, all pressure on one skin, no help from ribs."""
    air, torque = given.z[:half], given.torque[:half]
    copies = given.z.shape[0] // half
    web = box.web_x if box is not None else np.zeros_like(span.y)
    edge = box.edge_x if box is not None else np.ones_like(span.y)
    at_edge = (-torque - web * air) / (edge - web)
    parts = (np.abs(air - at_edge), np.abs(at_edge), np.abs(air))
    return tuple(np.concatenate([p] * copies) for p in parts)  # type: ignore[return-value]


def _assumptions(surface: Surface, box: Box | None, loaded: _Loaded) -> tuple[str, ...]:
    out = ["margins use the beam with shear flexibility and twist; bending alone stands beside it at the pins"]
    if box is None:
        out = ["pin loads of a beam of constant stiffness, bending alone, stiff hinges: the sheet is not known yet"]
    else:
        out += box.assumptions
        out.append("middle lines; skins meet the spar at its corners; no help from the taper of the spar")
    if loaded.by_ribs.any():
        out.append("every case is worked twice, the load spread evenly and handed over at the ribs; the worse counts")
    out.append("all of the net pressure pulls on either skin in turn; skins rest on spar and trailing edge as strips")
    if surface.controls.rigging_pull.known:
        out.append("the rigging pull of the cables acts in every case, with the factor of the case")
    notes = dict.fromkeys(note for case in loaded.cases for note in case.notes)
    return tuple([*out, *notes])


def _remarks(surface: Surface, span: Span, loaded: _Loaded) -> tuple[str, ...]:
    out = list(surface.remarks)
    if surface.horn is not None and span.horn is not None and span.horn not in span.ribs and span.ribs:
        out.append("no rib stands at the horn: its couple has no path into the box; outside the method: ask")
    for name in span.hinges:
        if surface.hinges[name].rib_behind is None:
            out.append(f"{name} hinge: whether a rib stands behind its bracket is not said; without one the web must be checked")
    if any(h.how == "not given" for h in loaded.given.holds):
        out.append("the horn is not known: its torque is taken off as a couple at the root; fore-and-aft loads are missing")
    out.append("near the horn, for about one chord, this theory is a guide only")
    return tuple(out)
