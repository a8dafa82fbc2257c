"""What stands on the page in words and tables: checks with their workings, rules, load cases, sources."""

from __future__ import annotations

import platform
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

import surfacecheck
from surfacecheck.assessment import (
    ShownFormula,
    case_words,
    finding_sentence,
    in_system,
    margin_text,
    place_words,
    shown_formulas,
)
from surfacecheck.quantities import show
from surfacecheck.rules import DOES_NOT_MEET, NOT_COVERED
from surfacecheck.tables import Table

if TYPE_CHECKING:
    from surfacecheck.assessment import Assessment
    from surfacecheck.checks import Finding
    from surfacecheck.quantities import System
    from surfacecheck.report._mini import Mini

__all__ = [
    "CheckBlock",
    "case_table",
    "check_block",
    "check_blocks",
    "first_lines",
    "load_of_rows",
    "rule_table",
    "versions",
]


@dataclass(frozen=True, slots=True)
class CheckBlock:
    """One check as it stands on the page.

    Attributes
    ----------
    anchor, name : str
        Id on the page; path and mode as the terminal takes them.
    margin, part, gives : str
        For its heading.
    outcome, case, factors : str
        In words.
    sentence : str
        The finding.
    formulas : tuple of ShownFormula
        With letters, numbers, units and sources.
    notes : tuple of str
        What was taken for granted, bounds beside it.
    low : bool
        Whether it is among the lowest of their parts, and printed open.
    spot : tuple of int or None
        Place on the small outline.
    """

    anchor: str
    name: str
    margin: str
    part: str
    gives: str
    outcome: str
    case: str
    factors: str
    sentence: str
    formulas: tuple[ShownFormula, ...]
    notes: tuple[str, ...]
    low: bool
    spot: tuple[int, int] | None


def check_blocks(assessment: Assessment, system: System, mini: Mini | None = None) -> dict[str, list[CheckBlock]]:
    """Write out every check.

    Parameters
    ----------
    assessment : Assessment
        Worked.
    system : {"metric", "inch"}
        Units.
    mini : Mini, optional
        Small outline on which the places lie.

    Returns
    -------
    dict of str to list of CheckBlock
        ``margins``, ``not given``, ``statements``, ``bounds``; the lowest margin first.
    """
    low = {id(f) for f in assessment.lowest_by_part[:5]}
    kinds = {
        "margins": assessment.margins,
        "not given": assessment.not_given,
        "statements": assessment.statements,
        "bounds": assessment.bounds,
    }
    out: dict[str, list[CheckBlock]] = {}
    for kind, findings in kinds.items():
        prefix = kind.replace(" ", "-")
        out[kind] = [
            check_block(assessment, f, f"{prefix}-{i + 1}", id(f) in low, system, mini) for i, f in enumerate(findings)
        ]
    return out


def check_block(
    assessment: Assessment, finding: Finding, anchor: str, low: bool, system: System, mini: Mini | None
) -> CheckBlock:
    """Write out one check."""
    check = finding.check
    notes = [f"taken for granted: {note}" for note in check.notes]
    if finding.kind == "margin" and finding.margin is not None:
        notes += [
            f"bound beside it: {bound.gives}, {margin_text(bound.margin)} ({'; '.join(bound.check.notes)})"
            for bound in assessment.bounds
            if bound.place == finding.place and bound.margin is not None
        ]
    if finding.missing:
        notes.append(f"not given: {', '.join(finding.missing)}")
    margin = "not given" if finding.margin is None else margin_text(finding.margin)
    if finding.kind == "statement" and finding.margin is not None:
        margin = f"{finding.margin + 1.0:.2f} of limit"
    outcome = finding.outcome if finding.kind == "margin" else f"a {finding.kind}, not a margin"
    return CheckBlock(
        anchor,
        finding.name,
        margin,
        in_system(finding.part, system),
        finding.gives,
        outcome,
        finding.case,
        check.factors,
        in_system(finding_sentence(finding, assessment, system), system),
        shown_formulas(finding, system),
        tuple(notes),
        low,
        None if mini is None else mini.spot(finding),
    )


def first_lines(assessment: Assessment) -> list[tuple[str, str, str]]:
    """Give the counts below the lowest margin: words, figure, where to."""
    margins = [f.margin for f in assessment.margins if f.margin is not None]
    counted = [rule for rule in assessment.rules if rule.counts]
    less, outside = sum(m < 0.0 for m in margins), sum(f.outcome.startswith("outside") for f in assessment.margins)
    lines = [("less than required", f"{less} of {len(margins)}", "checks")]
    if outside:
        lines.append(("outside the method: ask", str(outside), "checks"))
    lines += [
        ("rules: does not meet", str(sum(rule.outcome == DOES_NOT_MEET for rule in counted)), "rules"),
        ("rules: not covered", str(sum(rule.outcome == NOT_COVERED for rule in counted)), "rules"),
        ("not given", f"{len(assessment.not_given)} check{'' if len(assessment.not_given) == 1 else 's'}", "not-given"),
    ]
    return lines


def rule_table(assessment: Assessment, system: System) -> Table:
    """Give every rule with its figures and the field it was written for, alike ones once; what is not met first."""
    order = {DOES_NOT_MEET: 0, NOT_COVERED: 1}
    rules = sorted(assessment.rules, key=lambda rule: (not rule.counts, order.get(rule.outcome, 2)))
    places: dict[tuple[str, ...], list[str]] = {}
    for rule in rules:
        outcome = rule.outcome if rule.counts else f"{rule.outcome} (not counted)"
        figures = rule.said(lambda si, quantity: show(si, quantity, system))
        said = (rule.name, outcome, figures, rule.field, str(rule.source))
        places.setdefault(said, []).append(place_words(rule.place))
    rows = tuple((*said[:3], ", ".join(where), *said[3:]) for said, where in places.items())
    return Table(("rule", "outcome", "figures", "where", "written for", "text"), rows, "llllll")


def case_table(assessment: Assessment, system: System) -> tuple[Table, Table]:
    """Give the load cases with what asks for them, and the equilibrium of each.

    Returns
    -------
    tuple of Table
        Cases with rule and resultant; and sums of forces, with what is left over.
    """
    loads, weight = assessment.beam.loads, assessment.span.stations.weight
    force = (loads.z * weight).sum(axis=-1)
    torque = (loads.torque * weight).sum(axis=-1)
    rows = []
    for i, case in enumerate(assessment.cases):
        some = abs(force[i]) > 1e-6
        acts = show(-torque[i] / force[i], "length", system) if some else "-"
        air = show(abs(force[i]), "force", system) if some else "-"
        pressure = getattr(case.air, "pressure", None)
        mean = (
            "-" if pressure is None else show(abs(float(np.mean(pressure) * np.mean(case.factor))), "pressure", system)
        )
        reads = "fittings" if case.reads == "control" else "everything"
        rows.append((str(i + 1), case.title, mean, air, acts, case.closing, reads, str(case.source)))
    heads = ("", "case", "mean pressure", "air load", "behind the pins", "held by", "read for", "asked for by")
    cases = Table(
        heads,
        tuple(rows),
        "rlrrllll",
        note="limit loads; the factor of the case is in its figures; fittings: horn, brackets and pins",
    )
    sums = tuple(
        (str(i + 1), rest.case, *(_signed(v, system) for v in (*rest.applied, *rest.held)), _rest(rest.rest, system))
        for i, rest in enumerate(assessment.rests)
    )
    summed = ("", "case", "on: aft", "on: along", "on: side", "pins: aft", "pins: along", "pins: side", "left over")
    side = assessment.surface.said("left" if assessment.surface.left_is > 0 else "right")
    note = (
        f"on: air, mass, cable and rod together; side is plus to the {side}; "
        "left over: largest of forces, and of moments over the span"
    )
    return cases, Table(summed, sums, "rlrrrrrrr", note=note)


def _signed(si: float, system: System) -> str:
    return show(si if abs(si) > 1e-6 else 0.0, "force", system)


def _rest(si: float, system: System) -> str:
    return show(si, "force", system) if si >= 0.01 else f"under {show(0.01, 'force', system, 1)}"


def load_of_rows(assessment: Assessment, system: System) -> Table:
    """Give the most loaded spot of every row: load a length of row, and of one rivet."""
    rows = []
    for load in assessment.rows:
        case, spot = (
            int(i) for i in np.unravel_index(int(np.argmax(np.hypot(load.shear, load.tension))), load.shear.shape)
        )
        unit = "force" if load.kind == "rib-spar" else "line_load"
        rows.append(
            (
                load.row.name.replace("_", " "),
                in_system(load.spots[spot], system),
                show(float(load.flow[case, spot]), unit, system),
                f"{load.plan.total} at {show(load.plan.pitch, 'length', system)}",
                show(float(load.shear[case, spot]), "force", system),
                show(float(load.tension[case, spot]), "force", system),
                case_words(load.cases[case]),
            )
        )
    heads = ("row", "where", "row carries (shear flow)", "rivets", "shear of one", "pull of one", "case")
    return Table(
        heads,
        tuple(rows),
        "llrlrrl",
        note="at limit, without factors; rows along the span spread evenly between first and last rivet",
    )


def versions(assessment: Assessment) -> list[tuple[str, str]]:
    """Say with what it was worked, and from what."""
    surface = assessment.surface
    return [
        ("surfacecheck", surfacecheck.__version__),
        ("numpy", np.__version__),
        ("Python", platform.python_version()),
        ("file", surface.path.replace("\\", "/").rsplit("/", 1)[-1]),
        ("its sha256", surface.sha256),
        *(("change laid over it", change.title) for change in surface.changes),
    ]
