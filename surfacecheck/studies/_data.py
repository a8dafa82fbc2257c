"""Studies as plain data, for other programs: SI units, every digit."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from surfacecheck.assessment import CAUTION, as_data, finding_data
from surfacecheck.studies.single_row._row_shown import headline

if TYPE_CHECKING:
    from surfacecheck.studies.comparing._compare import Comparison
    from surfacecheck.studies.single_row._row import RowStudy

__all__ = ["comparison_data", "row_data"]


def comparison_data(comparison: Comparison) -> dict[str, Any]:
    """Turn a comparison into plain data.

    Parameters
    ----------
    comparison : Comparison
        Worked.

    Returns
    -------
    dict
        ``form``, ``titles``, ``lines`` (each with its values, before then after), ``assessments`` in full.
    """
    return {
        "form": 1,
        "units": "SI",
        "titles": list(comparison.titles),
        "lines": [
            {
                "group": line.group,
                "name": line.name,
                "quantity": line.quantity,
                "values": list(line.values),
                "says": list(line.says),
                "moved": line.moved,
            }
            for line in comparison.lines
        ],
        "assessments": [as_data(one) for one in (comparison.base, *comparison.changed)],
        "caution": CAUTION,
    }


def row_data(study: RowStudy) -> dict[str, Any]:
    """Turn a row on its own into plain data.

    Parameters
    ----------
    study : RowStudy
        Worked.

    Returns
    -------
    dict
        ``form``, what was given, ``headline``, and one entry of ``options`` for each pitch.
    """
    return {
        "form": 1,
        "units": "SI",
        "given": {
            "diameter": study.diameter,
            "sheet": study.sheet,
            "load_per_length": study.load_per_length,
            "length": study.length,
            "drilled_at": study.drilled_at,
            "alloy": study.alloy or None,
        },
        "headline": headline(study),
        "options": [
            {
                "asked": option.asked,
                "pitch": option.pitch,
                "count": option.count,
                "left_out": option.left_out,
                "rivet_load": option.load,
                "must_carry": option.must_carry,
                "buckling_stress": None if option.buckling is None else list(option.buckling),
                "buckling_strain": list(option.strain),
                "checks": [finding_data(found) for found in option.findings],
                "rules": [
                    {
                        "name": r.name,
                        "outcome": r.outcome,
                        "found": r.found,
                        "asked": r.asked,
                        "field": r.field,
                        "counts": r.counts,
                    }
                    for r in option.rules
                ],
            }
            for option in study.options
        ],
        "factors": study.factors,
        "assumptions": list(study.assumptions),
        "caution": CAUTION,
    }
