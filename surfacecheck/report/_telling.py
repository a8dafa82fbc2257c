"""Which load case and which stations a picture shows when nobody says."""

from __future__ import annotations

from itertools import pairwise
from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.errors import SurfaceError

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from surfacecheck.assessment import Assessment

__all__ = ["case_index", "cases_read", "group_case", "station_at", "telling_case", "telling_places"]


def cases_read(assessment: Assessment) -> NDArray[np.bool_]:
    """Tell which cases count for the whole surface: not those read for the control system alone, each once."""
    effects = assessment.effects
    return ~effects.control


def telling_case(assessment: Assessment) -> int:
    """Choose the case with the largest bending moment among those that count for the whole surface, spread evenly."""
    effects = assessment.effects
    count = cases_read(assessment)
    worst = np.abs(effects.M_x).max(axis=-1)
    for keep in (count & effects.evenly, count):
        if keep.any():
            return int(np.argmax(np.where(keep, worst, -1.0)))
    return int(np.argmax(worst))


def case_index(assessment: Assessment, case: str | int | None) -> int:
    """Find a case by its name, by the start or a part of it, or by its number from 1.

    Raises
    ------
    SurfaceError
        Where there is none of that name.
    """
    return telling_case(assessment) if case is None else _index_in(assessment.effects.cases, case)


def _index_in(names: tuple[str, ...], case: str | int) -> int:
    """Find a case among names, as :func:`case_index` says."""
    if isinstance(case, int):
        if 1 <= case <= len(names):
            return case - 1
        message = f"case {case} is not there: cases are numbered 1 to {len(names)}"
        raise SurfaceError(message)
    for fits in (str.__eq__, str.startswith, str.__contains__):
        for i, name in enumerate(names):
            if fits(name, case):
                return i
    message = f'no load case is called "{case}"; there are: {"; ".join(names)}'
    raise SurfaceError(message)


def group_case(
    assessment: Assessment, shear: NDArray[np.float64], tension: NDArray[np.float64], case: str | int | None
) -> int:
    """Choose the case of a rivet group: the one named, or that with the most loaded rivet; arrays (C, R)."""
    if case is not None:
        return _index_in(assessment.fittings.cases, case)
    return int(np.argmax(np.hypot(shear, tension).max(axis=-1)))


def telling_places(assessment: Assessment) -> tuple[float, ...]:
    """Choose stations for sections: the middle of the bay next to the horn, beside each of the outer hinges, between.

    Returns
    -------
    tuple of float
        Three or four places along the pins [m], rising.
    """
    span = assessment.span
    breaks = span.breaks
    hinges = sorted(span.hinges.values())
    inner = [b for b in range(span.root, span.tip)]
    middles = {b: float(0.5 * (breaks[b] + breaks[b + 1])) for b in inner if breaks[b + 1] - breaks[b] > 5e-3}
    if not middles:
        return (float(breaks[span.root]),)
    wanted = [float(breaks[span.root])]
    wanted += [0.5 * float(breaks[a] + breaks[b]) for a, b in pairwise(hinges)]
    wanted.append(float(breaks[hinges[-1]]) + 0.5 * float(breaks[span.tip] - breaks[hinges[-1]]))
    chosen = {min(middles.values(), key=lambda y: (abs(y - w), y)) for w in wanted}
    rising = sorted(chosen)
    while len(rising) > 4:
        del rising[int(np.argmin(np.diff(rising)[1:-1])) + 1]
    return tuple(rising)


def station_at(assessment: Assessment, at: float | None) -> int:
    """Find the station nearest to a place; without one, where the moment of the telling case is largest."""
    if at is None:
        return int(np.argmax(np.abs(assessment.effects.M_x[telling_case(assessment)])))
    return int(np.argmin(np.abs(assessment.span.y - at)))
