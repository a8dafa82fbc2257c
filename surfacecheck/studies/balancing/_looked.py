"""Parts of a surface in the order in which to look at them: load of an event over the largest limit load."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.studies.balancing._look_for import look_for

if TYPE_CHECKING:
    from surfacecheck.assessment import Assessment
    from surfacecheck.checks import Finding

__all__ = ["Looked", "parts_by_load"]


@dataclass(frozen=True, slots=True)
class Looked:
    """One part of the list.

    Attributes
    ----------
    place, part : str
        Path and words.
    over_limit : float or None
        Load of the event over the largest load of its kind among the cases of the file [-]; None where those are not
        known. Of several ways to give, the largest.
    used : float or None
        Share of its strength used by the event, factors in [-]; None where no strength is given.
    gives : str
        What would give first.
    look : str
        What to look for.
    """

    place: str
    part: str
    over_limit: float | None
    used: float | None
    gives: str
    look: str


def parts_by_load(worked: Assessment, design: Assessment | None) -> tuple[Looked, ...]:
    """Gather the checks of an event into parts, in the order in which to look at them.

    Parameters
    ----------
    worked : Assessment
        Of the event alone.
    design : Assessment or None
        Of the cases of the file.

    Returns
    -------
    tuple of Looked
        First what would need more than its strength; then by load over limit to a tenth, then by strength used.
    """
    before = {} if design is None else {(f.check.place, f.check.mode): f for f in design.findings}
    groups: dict[str, list[tuple[float | None, float | None, Finding]]] = {}
    for finding in worked.findings:
        if finding.kind == "bound":
            continue
        ratio = _over(finding, before.get((finding.check.place, finding.check.mode)))
        used = None
        if finding.kind == "margin" and finding.margin is not None and np.isfinite(finding.margin):
            used = 1.0 / (1.0 + finding.margin)
        groups.setdefault(finding.check.place, []).append((ratio, used, finding))
    parts = [_looked(place, found) for place, found in groups.items()]
    return tuple(sorted(parts, key=_order))


def _order(one: Looked) -> tuple[float, float, float, str]:
    """First what would need more than its strength, then by load over limit to a tenth, then by strength used."""
    short = one.used if one.used is not None and one.used >= 1.0 else 0.0
    return -round(short, 3), -_rank(one.over_limit, 1), -_rank(one.used), one.part


def _rank(value: float | None, digits: int = 3) -> float:
    """Round for sorting: the rigging pull, which no wind changes, moves the third figure."""
    return -1.0 if value is None else round(value, digits)


def _over(finding: Finding, limit: Finding | None) -> float | None:
    """Load of the event over the largest of the file, for one way to give: by multiples of the load if it has them."""
    if limit is None:
        return None
    if finding.margin is not None and limit.margin is not None:
        if not np.isfinite(finding.margin):
            return 0.0
        return (1.0 + limit.margin) / (1.0 + finding.margin) if np.isfinite(limit.margin) else None
    if finding.required is None or not limit.required:
        return None
    return finding.required / limit.required


def _looked(place: str, found: list[tuple[float | None, float | None, Finding]]) -> Looked:
    ratios = [ratio for ratio, _, _ in found if ratio is not None]
    used = [(share, finding.gives) for _, share, finding in found if share is not None]
    most = max(used) if used else (None, "")
    gives = most[1] or max(found, key=lambda one: _rank(one[0]))[2].gives
    return Looked(place, found[0][2].check.part, max(ratios, default=None), most[0], gives, look_for(place))
