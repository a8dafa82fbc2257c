"""A comparison of rivets as plain data, for other programs: SI units, every digit."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import numpy as np

from surfacecheck.assessment import CAUTION
from surfacecheck.studies.riveting._rivets_given import AXES
from surfacecheck.studies.riveting._rivets_limits import limits
from surfacecheck.studies.riveting._rivets_shown import rivets_headline, rivets_notes
from surfacecheck.studies.riveting._rivets_words import axis_words, bits, reason_words

if TYPE_CHECKING:
    from surfacecheck.studies.riveting._rivets_comparison import RivetComparison
    from surfacecheck.studies.riveting._rivets_row import RowTable
    from surfacecheck.studies.riveting._rivets_together import Together

__all__ = ["rivets_data"]


def rivets_data(comparison: RivetComparison) -> dict[str, Any]:
    """Turn a comparison into plain data.

    Parameters
    ----------
    comparison : RivetComparison
        Worked.

    Returns
    -------
    dict
        ``form``, ``rows``, ``given`` (the lists), ``headline``, ``asked`` (how many), ``stopped``, ``drawn``,
        ``alternatives`` (each with ``has``, what all rows come to, and ``rows`` one by one, or with ``cannot_be``),
        ``limits``, ``notes``, ``caution``.
    """
    given = comparison.alternatives
    words = {
        axis: [axis_words(comparison, axis, at) for at in range(size)]
        for axis, size in zip(AXES, comparison.shape, strict=True)
    }
    return {
        "form": 1,
        "units": "SI",
        "rows": [table.row.name for table in comparison.rows],
        "given": {
            "pitch": [space.pitch for space in comparison.spaces],
            "count": [space.count for space in comparison.spaces],
            **{name: _listed(getattr(given, name)) for name in ("rivet", "diameter", "lines", "head", "edge", "sheet")},
        },
        "headline": rivets_headline(comparison),
        "asked": comparison.asked,
        "stopped": comparison.stopped,
        "drawn": _alternative(comparison.drawn, comparison.as_drawn, 0),
        "alternatives": [
            {"number": i + 1, "has": {axis: words[axis][at] for axis, at in comparison.index(i).items()},
             "unbeaten": bool(comparison.best[i]), **_alternative(comparison.rows, comparison.whole, i)}
            for i in range(comparison.size)
        ],
        "limits": [
            {"pitch": one.at, "at_most": one.most, "what": one.words, "field": one.field, "source": one.source,
             "counts": one.counts}
            for one in limits(comparison)
        ],
        "notes": rivets_notes(comparison),
        "caution": CAUTION,
    }  # fmt: skip


def _listed(given: object) -> list[Any] | None:
    return None if given is None else list(given)  # type: ignore[call-overload]


def _alternative(rows: tuple[RowTable, ...], whole: Together, i: int) -> dict[str, Any]:
    if not whole.possible[i]:
        why = {table.row.name: reason_words(table.reasons[table.why[i]]) for table in rows if table.why[i]}
        return {"cannot_be": why}
    return {
        "margin": _number(whole.margin[i]),
        "rivets": int(whole.count[i]),
        "mass": _number(whole.mass[i]),
        "tail_heavy_moment": _number(whole.moment[i]),
        "minutes": _number(whole.minutes[i]),
        "rows": {table.row.name: _row(table, i) for table in rows},
    }


def _row(table: RowTable, i: int) -> dict[str, Any]:
    return {
        "pitch": _number(table.pitch[i]),
        "pitch_where_lowest": _number(table.ruling[i]),
        "count": int(table.count[i]),
        "rivets": int(table.total[i]),
        "lines": int(table.lines[i]),
        "left_empty": table.laid.words[table.layout[i]],
        "margin": _number(table.margin[i]),
        "gives": _way(table, int(table.gives[i])),
        "outside_the_method": bool(table.outside[i]),
        "then": _number(table.then[i]),
        "then_gives": _way(table, int(table.next_[i])),
        "shear_known": bool(table.shear_known[i]),
        "pull_known": bool(table.pull_known[i]),
        "must_carry_shear": _number(table.must_shear[i]),
        "must_carry_pull": _number(table.must_pull[i]),
        "skin_edge_lifts_at": _number(table.lifts[i]),
        "does_not_meet": bits(int(table.not_met[i])),
        "not_covered": bits(int(table.not_covered[i])),
        "mass": _number(table.mass[i]),
        "pitch_at_margin_zero": _number(table.zero_pitch[i]),
        "count_at_margin_zero": _number(table.zero_count[i]),
    }


def _way(table: RowTable, which: int) -> dict[str, str] | None:
    return None if which < 0 else dict(zip(("mode", "words"), table.modes[which], strict=True))


def _number(value: float) -> float | None:
    return float(value) if np.isfinite(value) else None
