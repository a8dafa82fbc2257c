"""A scatter as plain data, for other programs: SI units, every digit."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from surfacecheck.assessment import CAUTION
from surfacecheck.studies.sweeping._scatter_shown import scatter_headline, scatter_notes

if TYPE_CHECKING:
    from surfacecheck.studies.sweeping._scatter_result import MarginScatter, Scatter

__all__ = ["scatter_data"]

SHARES = (0.0, 0.01, 0.05, 0.25, 0.5, 0.75, 0.95, 0.99, 1.0)


def scatter_data(scatter: Scatter) -> dict[str, Any]:
    """Turn a scatter into plain data.

    Parameters
    ----------
    scatter : Scatter
        Worked.

    Returns
    -------
    dict
        ``form``, ``samples``, ``seed``, ``varies``, ``lowest``, ``governs``, ``margins`` (lowest first), ``rules``,
        ``cannot_exist``, ``assumptions``; no sample itself.
    """
    return {
        "form": 1,
        "units": "SI",
        "surface": {"name": scatter.surface.name, "title": scatter.surface.title, "sha256": scatter.surface.sha256},
        "headline": scatter_headline(scatter),
        "seed": scatter.seed,
        "samples": len(scatter),
        "asked": scatter.asked,
        "stopped": scatter.stopped,
        "varies": [
            {"key": s.key, "given": s.value.si, "low": s.low, "high": s.high, "shape": "bell" if s.bell else "even",
             "within": s.text, "source": str(s.source)} for s in scatter.spreads
        ],
        "lowest": _margin(scatter.lowest),
        "governs": scatter.governs,
        "margins": [_margin(one) for one in scatter.margins],
        "rules": [
            {"name": one.rule.name, "place": one.rule.place, "outcome": one.rule.outcome, "does_not_meet": one.broken,
             "not_covered": one.uncovered} for one in scatter.rules
        ],
        "cannot_exist": {str(sample): why for sample, why in scatter.why.items()},
        "assumptions": list(scatter_notes(scatter)),
        "caution": CAUTION,
    }  # fmt: skip


def _margin(one: MarginScatter) -> dict[str, Any]:
    """Give one margin; what nothing is asked of in a sample is infinite, and that is no number of JSON."""
    at = {f"{100 * share:g} %": _finite(one.at(share)) for share in SHARES}
    drivers = [{"key": d.key, "share": d.share, "rank_correlation": d.rank} for d in one.drivers[:10]]
    return {
        "name": one.name,
        "part": one.part,
        "gives": one.gives,
        "given": _finite(one.given),
        "at": at,
        "below_zero": one.below,
        "drivers": drivers,
    }


def _finite(margin: float) -> float | None:
    return margin if abs(margin) < float("inf") else None
