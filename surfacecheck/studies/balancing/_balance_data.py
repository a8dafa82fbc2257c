"""A weighing as plain data, for other programs: SI units, every digit."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import numpy as np

from surfacecheck.assessment import CAUTION
from surfacecheck.masses import nose_arm
from surfacecheck.studies.balancing._balance_shown import NOT_WEIGHED

if TYPE_CHECKING:
    from numpy.typing import ArrayLike

    from surfacecheck.studies.balancing._balance import BalanceColumn, BalanceStudy
    from surfacecheck.studies.balancing._balance_criteria import BenchRule, Criterion

__all__ = ["balance_data"]


def balance_data(study: BalanceStudy) -> dict[str, Any]:
    """Turn a weighing into plain data.

    Parameters
    ----------
    study : BalanceStudy
        Worked.

    Returns
    -------
    dict
        ``form``, ``states`` (one a column, before first), ``changes`` (each against the first), ``caution``.
    """
    return {
        "form": 1,
        "units": "SI",
        "surface": study.surface.name,
        "states": [_state(one) for one in study.columns],
        "changes": [
            None
            if one is None
            else {"mass": one.mass, "moment": one.moment, "nose_mass": one.nose, "ahead": one.ahead, "paid": one.paid}
            for one in study.changes
        ],
        "not_looked_at": NOT_WEIGHED,
        "caution": CAUTION,
    }


def _state(column: BalanceColumn) -> dict[str, Any]:
    masses, found, level = column.masses, column.readings, column.levelling
    return {
        "title": column.surface.title,
        "mass": column.mass,
        "moment": column.moment,
        "moment_by_parts": column.by_parts,
        "paint": _one(masses.paint),
        "parts": [
            {"name": piece.name, "mass": _one(piece.mass), "behind": _one(piece.x), "up": _one(piece.y),
             "source": str(piece.source)}
            for piece in masses.pieces
        ],
        "left_out": [{"name": one.name, "key": one.key} for one in masses.left_out],
        "readings": None
        if found is None
        else {
            "rising": _one(found.rising), "sinking": _one(found.sinking), "push": _one(found.push),
            "friction": _one(found.friction), "behind": _one(found.arm), "edge": _one(found.tilt),
            "moment": _one(found.moment), "weight_times_height": _one(found.height),
        },
        "nose_mass": None
        if level is None
        else {
            "mass": level.mass, "ahead": level.ahead, "whole": level.whole,
            "attachment_limit_loads": dict(level.loads),
        },
        "nose_ahead": nose_arm(column.surface),
        "rules": [_judged(one) for one in column.rules],
        "criteria": [_judged(one) for one in column.criteria],
    }  # fmt: skip


def _judged(one: BenchRule | Criterion) -> dict[str, Any]:
    return {"name": one.name, "outcome": one.outcome, "found": one.found, "asked": one.asked, "quantity": one.quantity,
            "says": one.says, "source": str(one.source)}  # fmt: skip


def _one(value: ArrayLike | None) -> float | None:
    return None if value is None else float(np.mean(np.asarray(value, dtype=np.float64)))
