"""An assessment as plain data, for other programs: SI units, every digit, form 1.

The form grows by new keys only; a key that changes its meaning makes form 2.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import numpy as np

from surfacecheck.assessment._sentence import needed
from surfacecheck.assessment._summary import counts

if TYPE_CHECKING:
    from surfacecheck.assessment._result import Assessment, Worst
    from surfacecheck.checks import Finding

__all__ = ["FORM", "as_data", "finding_data"]

FORM = 1
"""Version of the form."""


def as_data(assessment: Assessment) -> dict[str, Any]:
    """Turn an assessment into numbers, texts, lists and dicts.

    Parameters
    ----------
    assessment : Assessment
        Worked.

    Returns
    -------
    dict
        ``form``, ``units`` (SI: N, m, kg, Pa), ``surface`` (name, title, file, sha256, changes), ``pins``, ``horn``,
        ``margins`` (lowest first), ``not_given`` (with what each must carry), ``bounds``, ``statements``, ``rules``,
        ``balance``, ``equilibrium``, ``gaps``, ``counts``, ``missing_cases``, ``assumptions``, ``remarks``,
        ``not_looked_at``, ``caution``. Loads are at limit; a margin is allowable over what is required, less one.
    """
    surface, masses = assessment.surface, assessment.masses
    pull = assessment.horn_pull
    return {
        "form": FORM,
        "units": "SI",
        "surface": {
            "name": surface.name,
            "kind": str(surface.kind),
            "title": surface.title,
            "file": surface.path,
            "sha256": surface.sha256,
            "changes": [{"title": c.title, "file": c.path, "sha256": c.sha256} for c in surface.changes],
        },
        "load_cases": list(assessment.case_titles),
        "pins": [
            {
                "name": pin.name,
                "up": pin.up,
                "sideways": _worst(pin.sideways),
                "fore_aft": _worst(pin.fore_aft),
                "along": _worst(pin.along),
                "turned_sideways": _worst(pin.turned_sideways),
                "turned_fore_aft": _worst(pin.turned_fore_aft),
                "methods_apart": _worst(pin.apart),
                "ways_apart": None if pin.ways is None else _worst(pin.ways),
            }
            for pin in assessment.pins
        ],
        "horn": None if pull is None else {"kind": pull.kind, "up": pull.up, "pull": _worst(pull.pull)},
        "margins": [finding_data(f) for f in assessment.margins],
        "not_given": [finding_data(f) for f in assessment.not_given],
        "bounds": [finding_data(f) for f in assessment.bounds],
        "statements": [finding_data(f) for f in assessment.statements],
        "rules": [
            {
                "name": rule.name,
                "place": rule.place,
                "outcome": rule.outcome,
                "found": float(rule.found),
                "asked": float(rule.asked),
                "quantity": rule.quantity,
                "field": rule.field,
                "counts": rule.counts,
                "source": str(rule.source),
            }
            for rule in assessment.rules
        ],
        "balance": {
            "mass": float(np.mean(masses.mass)),
            "mass_moment": float(np.mean(masses.first)),
            "tail_heavy_moment": float(np.mean(masses.moment)),
            "left_out": [{"part": one.name, "key": one.key} for one in masses.left_out],
        },
        "equilibrium": [
            {"case": one.case, "applied": list(one.applied), "held": list(one.held), "rest": one.rest}
            for one in assessment.rests
        ],
        "gaps": [{"key": gap.key, "hides": gap.hides} for gap in assessment.gaps],
        "counts": counts(assessment),
        "missing_cases": [
            {"name": one.name, "needs": one.needs, "reason": one.reason} for one in assessment.missing_cases
        ],
        "assumptions": list(assessment.assumptions),
        "remarks": list(assessment.remarks),
        "not_looked_at": list(assessment.not_looked_at),
        "caution": assessment.caution,
    }


def _worst(worst: Worst) -> dict[str, Any]:
    return {"value": float(worst.value), "case": worst.case}


def finding_data(finding: Finding) -> dict[str, Any]:
    """Turn one finding into plain data.

    Parameters
    ----------
    finding : Finding
        One check at its worst spot.

    Returns
    -------
    dict
        With the formula's two sides and its letters; ``margin`` is None where it is not given, or nothing is required.
    """
    check = finding.check
    least = needed(finding) if finding.margin is None else None
    texts = [text for text in (check.available, check.required, check.proof) if text]
    return {
        "name": finding.name,
        "part": finding.part,
        "gives": finding.gives,
        "kind": finding.kind,
        "margin": _finite(finding.margin),
        "outcome": finding.outcome,
        "case": finding.case,
        "required": _finite(finding.required),
        "available": _finite(finding.available),
        "formula": {"available": check.available, "required": check.required, "proof": check.proof},
        "steps": dict(finding.steps(*texts)),
        "letters": {
            s.name: {"value": s.si, "quantity": s.quantity, "means": s.means, "source": str(s.source)}
            for s in finding.symbols(*texts, *(text for _, text in finding.steps(*texts)))
        },
        "factors": check.factors,
        "source": str(check.source),
        "notes": list(check.notes),
        "missing": list(finding.missing),
        "must_be_at_least": None
        if least is None
        else {"key": least.key, "value": least.si, "quantity": least.quantity, "means": least.means},
    }


def _finite(value: float | None) -> float | None:
    return None if value is None or not np.isfinite(value) else float(value)
