"""Rows and groups with rivets out as plain data, for other programs: SI units, every digit."""

from __future__ import annotations

from dataclasses import asdict
from typing import TYPE_CHECKING, Any

import numpy as np

from surfacecheck.assessment import CAUTION, finding_data
from surfacecheck.studies.losing._missing_group import MissingGroup
from surfacecheck.studies.losing._missing_survey import Survey

if TYPE_CHECKING:
    from surfacecheck.studies.losing._missing_gap import Gap
    from surfacecheck.studies.losing._missing_row import MissingRow

__all__ = ["missing_data"]


def missing_data(study: MissingRow | MissingGroup | Survey) -> dict[str, Any]:
    """Turn a row or a group with rivets out, or a survey of them, into plain data.

    Parameters
    ----------
    study : MissingRow, MissingGroup or Survey
        Worked.

    Returns
    -------
    dict
        ``form``, ``place``; of a row ``out``, ``neighbours``, ``gaps``, ``springs``, ``other_paths``; of a group
        ``out``, ``held``, ``rivets``, ``lowest``, ``lowest_drawn``, ``bound``; of a survey ``rivets``, ``drawn``,
        ``drawn_asks``, ``removals`` (the worst first), ``notes``.
    """
    own = (
        _survey(study)
        if isinstance(study, Survey)
        else _group(study)
        if isinstance(study, MissingGroup)
        else _row(study)
    )
    return {"form": 1, "units": "SI", **own, "caution": CAUTION}


def _row(study: MissingRow) -> dict[str, Any]:
    springs = study.springs
    return {
        "place": study.line.place,
        "out": list(study.out),
        "neighbours": [asdict(one) for one in study.neighbours],
        "gaps": [_gap(gap) for gap in study.gaps],
        "springs": None
        if springs is None
        else {
            "flexibility": dict(zip(springs.formulas, springs.C, strict=True)),
            "k_A": springs.k_A,
            "k_B": springs.k_B,
        },
        "other_paths": [
            {
                "words": path.words,
                "rows": list(path.rows),
                "lowest": None if path.lowest is None else finding_data(path.lowest),
            }
            for path in study.others
        ],
    }


def _gap(gap: Gap) -> dict[str, Any]:
    return {
        "before": gap.before,
        "after": gap.after,
        "length": gap.length,
        "pitch": gap.pitch,
        "buckles": gap.buckles,
        "buckles_drawn": gap.drawn,
        "pressed": gap.pressed,
        "share_of_limit": gap.share,
    }


def _group(study: MissingGroup) -> dict[str, Any]:
    now = study.now
    found = {"lowest": None, "bound": None} if now is None else {"lowest": now.lowest, "bound": now.heel}
    drawn = study.drawn.lowest
    return {
        "place": study.group.place,
        "out": list(study.out),
        "held": now is not None,
        "rivets": [asdict(one) for one in study.rivets],
        "lowest_drawn": None if drawn is None else finding_data(drawn),
        **{name: None if one is None else finding_data(one) for name, one in found.items()},
    }


def _survey(survey: Survey) -> dict[str, Any]:
    return {
        "place": survey.place,
        "rivets": survey.rivets,
        "drawn": survey.drawn,
        "drawn_asks": survey.drawn_asks,
        "removals": [
            {
                **asdict(one),
                "growth": [v if np.isfinite(v) else None for v in one.growth],
                "of_drawn": survey.capacity(one),
            }
            for one in survey.removals
        ],
        "notes": list(survey.notes),
    }
