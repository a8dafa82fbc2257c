"""What a take-off takes for granted: how many rivets more, and the minutes of work. Inputs, both."""

from __future__ import annotations

import math
from dataclasses import dataclass

from surfacecheck.errors import SurfaceError
from surfacecheck.provenance import Basis, Source

__all__ = ["OWN", "Spares", "Work"]

USUAL = Source(Basis.COMMON_PRACTICE)
DEMO = Source(Basis.INVENTED, "give your own")
OWN = Source(Basis.AS_SAID, "your own figures")


@dataclass(frozen=True)
class Spares:
    """How many more to order.

    Attributes
    ----------
    share : tuple of float
        Least and most, of the rivets needed [-].
    practice : tuple of int
        Least and most for practice, once a size [-].
    source : Source
        Where that comes from.
    """

    share: tuple[float, float] = (0.10, 0.20)
    practice: tuple[int, int] = (20, 50)
    source: Source = USUAL

    def __post_init__(self) -> None:
        """Look at the shares."""
        low, high = self.share
        if not 0.0 <= low <= high <= 5.0 or not 0 <= self.practice[0] <= self.practice[1] <= 10_000:
            given = f"spares {low:.0%} to {high:.0%}, practice {self.practice[0]} to {self.practice[1]}"
            message = f"{given}: give 0 to 500 % and 0 to 10000 rivets, the least first"
            raise SurfaceError(message)


@dataclass(frozen=True)
class Work:
    """Minutes of work; an input, never a fact.

    Attributes
    ----------
    hole : float
        Drill, take apart, deburr, one hole in one sheet [min].
    rivet : float
        Set, look at, one rivet [min].
    source : Source
        Where the figures come from.
    """

    hole: float = 0.5
    rivet: float = 0.75
    source: Source = DEMO

    def __post_init__(self) -> None:
        """Look at the minutes."""
        for name, minutes in (("a hole", self.hole), ("a rivet", self.rivet)):
            if not (math.isfinite(minutes) and 0.0 <= minutes <= 1000.0):
                message = f"{minutes:g} minutes {name}: give 0 to 1000 minutes"
                raise SurfaceError(message)

    def minutes(self, holes: int, rivets: int) -> float:
        """Give the minutes for holes and rivets.

        Parameters
        ----------
        holes, rivets : int
            How many [-].

        Returns
        -------
        float
            [min]

        Examples
        --------
        >>> Work(0.5, 1.0).minutes(86, 43)
        86.0
        """
        return self.hole * holes + self.rivet * rivets
