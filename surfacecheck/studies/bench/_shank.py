"""Which drill makes the hole of a rivet, and which shanks say whether the hole is in its range."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from surfacecheck.library import drill_gauges, nearest_drills
from surfacecheck.studies.bench._seats import known

if TYPE_CHECKING:
    from surfacecheck.library import Drill
    from surfacecheck.model import Rivet

__all__ = ["Shank", "shank"]


@dataclass(frozen=True)
class Shank:
    """Drills for the hole of one rivet.

    Attributes
    ----------
    hole : float
        As it is to be drilled [m].
    metric, number : Drill
        Nearest by tenths of a millimetre, and by number.
    range : tuple of float, or None
        What the rivet may be set in [m].
    go, stays_out : Drill or None
        Shank that goes into the least hole, and the thinnest that must not go in; None where no range is given.
    """

    hole: float
    metric: Drill
    number: Drill
    range: tuple[float, float] | None = None
    go: Drill | None = None
    stays_out: Drill | None = None

    def within(self, drill: Drill) -> str:
        """Say where a drill lies: ``in the range``, ``below it``, ``above it``; empty without a range.

        Parameters
        ----------
        drill : Drill
            One of the two.

        Returns
        -------
        str
            Words.
        """
        if self.range is None:
            return ""
        low, high = self.range
        return "below it" if drill.size < low - 1e-9 else ("above it" if drill.size > high + 1e-9 else "in the range")


def shank(rivet: Rivet) -> Shank | None:
    """Give the drills for a rivet.

    Parameters
    ----------
    rivet : Rivet
        From the file.

    Returns
    -------
    Shank or None
        None where its hole is not given [m].

    Raises
    ------
    SurfaceError
        For a hole that no listed drill makes.

    References
    ----------
    ASME B94.11M and BS 328 for the drills; the packet for the range.
    """
    hole = known(rivet.hole)
    if hole is None:
        return None
    metric, number = nearest_drills(hole)
    ends = [known(one) for one in rivet.hole_range]
    if len(ends) != 2 or ends[0] is None or ends[1] is None:
        return Shank(hole, metric, number)
    return Shank(hole, metric, number, (ends[0], ends[1]), *drill_gauges(ends[0], ends[1]))
