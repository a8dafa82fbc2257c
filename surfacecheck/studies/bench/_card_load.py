"""Which way the load of a row goes, and where the sheet buckles between its rivets: read from an assessment."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.assessment import case_words
from surfacecheck.quantities import show
from surfacecheck.rules import MEETS, RuleResult
from surfacecheck.strength import INTER_RIVET_SOURCE

if TYPE_CHECKING:
    from collections.abc import Iterator

    from numpy.typing import NDArray

    from surfacecheck.assessment import Assessment
    from surfacecheck.quantities import System
    from surfacecheck.studies.bench._seats import Seats

__all__ = ["load_line", "pitch_by_buckling"]

WRINKLED = "; the skin wrinkles below limit: what that adds pulls across the edge"
_WAYS = {
    "spar": "along the row, which is along the edge of its sheets",
    "edge": "along the row, which is along the edge of its sheets",
    "rib": "along the rib, which is along the edge of its flange",
    "rib-spar": "across the web, which is along the edge of the rib's flange",
    "doubler": "in the web, along and across the pins",
}


def load_line(assessment: Assessment, seats: Seats, system: System = "metric") -> str:
    """Say what one rivet carries at limit, and which way.

    Parameters
    ----------
    assessment : Assessment
        Of the surface.
    seats : Seats
        The row or group.
    system : {"metric", "inch"}
        Units.

    Returns
    -------
    str
        One sentence; empty where its load could not be worked.
    """
    if seats.kind == "bracket":
        return _bracket(assessment, seats, system)
    if seats.kind == "horn" and assessment.horn is not None:
        share = assessment.horn.share
        return _in_plane(assessment, share[..., [0, 2]], ("behind", "ahead"), seats, system)
    load = next((one for one in assessment.rows if f"row.{one.row.name}" == seats.place), None)
    if load is None or load.kind not in _WAYS:
        return ""
    case = _worst(load.shear)[-2]
    pull = float(load.tension.max())
    words = f"at limit {show(float(load.shear.max()), 'force', system)} in shear, {_WAYS[load.kind]}"
    case_said = case_words(load.cases[case])
    tail = f"; {show(pull, 'force', system)} of pull along the rivet" if pull > 0.0 else ""
    wrinkled = load.wrinkle is not None and float(load.wrinkle.max()) > 1.0
    return f"{words} ({case_said}){tail}{WRINKLED if wrinkled else ''}"


def _worst(values: NDArray[np.float64]) -> tuple[int, ...]:
    return tuple(int(one) for one in np.unravel_index(int(np.argmax(values)), values.shape))


def _bracket(assessment: Assessment, seats: Seats, system: System) -> str:
    load = next((one for one in assessment.brackets if one.hinge.name == seats.place.split(".")[1]), None)
    if load is None:
        return ""
    surface = assessment.surface
    ways = (surface.said("up"), surface.said("down"))
    return _in_plane(assessment, load.share[..., [1, 2]], ways, seats, system)


def _in_plane(
    assessment: Assessment, share: NDArray[np.float64], ways: tuple[str, str], seats: Seats, system: System
) -> str:
    """Worst rivet of a pattern, and which way it is pushed: share of (first axis, z) in the plane of the sheet."""
    size = np.hypot(share[..., 0], share[..., 1])
    at = _worst(size)
    first, across = share[at][0], share[at][1] * assessment.surface.left_is
    left, right = (assessment.surface.said(word) for word in ("left", "right"))
    parts = [
        f"{show(abs(float(value)), 'force', system)} {word}"
        for value, word in ((first, ways[0] if first > 0 else ways[1]), (across, left if across > 0 else right))
        if abs(value) > 0.05 * float(size[at])
    ]
    case = case_words(assessment.fittings.cases[at[-2]])
    return f"at limit rivet {at[-1] + 1} carries most: {' and '.join(parts)} ({case})"


def pitch_by_buckling(assessment: Assessment, seats: Seats) -> Iterator[RuleResult]:
    """Give the pitch at which the skin edge just buckles between the rivets at limit: the bound of an aircraft skin.

    Parameters
    ----------
    assessment : Assessment
        Of the surface.
    seats : Seats
        The row.

    Yields
    ------
    RuleResult
        Of a spar row; a statement, it never counts [m].
    """
    for finding in assessment.findings:
        if finding.check.place != seats.place or finding.check.mode != "between-rivets":
            continue
        pitch, margin = finding.value("p"), finding.margin
        if pitch is None or margin is None or not np.isfinite(margin) or margin <= -1.0:
            continue
        bound = pitch * float(np.sqrt(1.0 + margin))
        outcome = MEETS if margin >= 0.0 else "does not meet"
        words = "pitch {found}; the skin edge buckles between rivets at limit from {asked} on"
        yield RuleResult(
            "greatest pitch, buckling", outcome, pitch, bound, "length", "aircraft", INTER_RIVET_SOURCE,
            f"{seats.place}.pitch", words, counts=False,
        )  # fmt: skip
