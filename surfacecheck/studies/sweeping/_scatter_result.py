"""What a scatter found: how every margin lies, what drives it, how often a rule is not met."""

from __future__ import annotations

from dataclasses import dataclass
from difflib import get_close_matches
from functools import cached_property
from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.errors import SurfaceError
from surfacecheck.studies.sweeping._drives import least_share

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from surfacecheck.model import Surface
    from surfacecheck.studies.sweeping._scatter_rules import RuleScatter
    from surfacecheck.studies.sweeping._tolerances import Spread

    Array = NDArray[np.float64]

__all__ = ["Driver", "MarginScatter", "Scatter"]

STILL = 0.01
"""A margin of which nine samples in ten lie closer together than this is not said to be driven by anything."""


@dataclass(frozen=True)
class Driver:
    """A number that moves a margin.

    Attributes
    ----------
    key : str
        Of the file.
    share : float
        First-order share: the part of the scatter, of ranks, that is gone where this number is held [-].
    rank : float
        Rank correlation with the margin, Spearman's: +1 where the margin always rises with it, -1 where it falls [-].
    """

    key: str
    share: float
    rank: float

    @property
    def way(self) -> str:
        """What more of it does: ``raises``, ``lowers``, or ``either way`` where it has a best value in between."""
        if self.rank**2 < 0.5 * self.share:
            return "either way"
        return "raises" if self.rank > 0.0 else "lowers"


@dataclass(frozen=True, eq=False)
class MarginScatter:
    """How one margin scatters.

    Attributes
    ----------
    name : str
        Place and mode.
    part, gives : str
        In words.
    given : float
        Of the surface as described [-].
    values : ndarray, shape (n,)
        Of every sample [-].
    drivers : tuple of Driver
        Those that drive it most first.
    """

    name: str
    part: str
    gives: str
    given: float
    values: Array
    drivers: tuple[Driver, ...]

    def at(self, share: float) -> float:
        """Give the margin that a share of the samples lies at or below.

        Parameters
        ----------
        share : float
            0 to 1 [-].

        Returns
        -------
        float
            [-]; the margin of a sample.
        """
        return float(np.quantile(self.values, share, method="inverted_cdf"))

    @property
    def told(self) -> tuple[Driver, ...]:
        """Drivers that stand out from chance; none where nine samples in ten lie within a hundredth."""
        least = least_share(self.values.size)
        moves = self.at(0.95) - self.at(0.05) >= STILL
        return tuple(driver for driver in self.drivers if moves and driver.share >= least)

    @property
    def below(self) -> float:
        """Share of the samples with less than required [-]."""
        return float(np.mean(self.values < 0.0))


@dataclass(frozen=True, eq=False, repr=False)
class Scatter:
    """A surface whose numbers vary within their tolerances.

    Attributes
    ----------
    surface : Surface
        As described.
    spreads : tuple of Spread
        What varies, and how far.
    seed, asked : int
        Of the samples, and how many there were to be.
    numbers : dict of str to ndarray, shape (n,)
        What varied, by key [SI].
    margins : tuple of MarginScatter
        Every check with a margin, those lowest in a twentieth of the samples first.
    lowest : MarginScatter
        The lowest margin anywhere.
    governs : dict of str to float
        Share of the samples in which each check has the lowest margin [-].
    rules : tuple of RuleScatter
        Rules that are counted, place by place.
    why : dict of int to str
        Samples that cannot exist, with the reason; they are left out of everything else.
    not_varied : tuple of str
        Strengths that stay what they are.
    stopped : bool
        Whether it was interrupted; then it holds what was finished.
    """

    surface: Surface
    spreads: tuple[Spread, ...]
    seed: int
    asked: int
    numbers: dict[str, Array]
    margins: tuple[MarginScatter, ...]
    lowest: MarginScatter
    governs: dict[str, float]
    rules: tuple[RuleScatter, ...]
    why: dict[int, str]
    not_varied: tuple[str, ...]
    stopped: bool

    def __len__(self) -> int:
        """How many samples are in it."""
        return self.lowest.values.size

    @cached_property
    def by_part(self) -> tuple[MarginScatter, ...]:
        """Of each part the margin that is lowest in a twentieth of the samples."""
        seen: dict[str, MarginScatter] = {}
        for one in self.margins:
            seen.setdefault(one.name.partition(":")[0], one)
        return tuple(seen.values())

    def margin(self, name: str) -> MarginScatter:
        """Find a margin by its name, or the start of it.

        Parameters
        ----------
        name : str
            Such as ``hinge.bottom.pin:bearing``, or ``hinge.bottom.pin`` for the lowest there.

        Returns
        -------
        MarginScatter
            The lowest of those that fit.

        Raises
        ------
        SurfaceError
            Where none fits, with the nearest.
        """
        for one in self.margins:
            if one.name == name or one.name.startswith(name):
                return one
        near = get_close_matches(name, [one.name for one in self.margins], n=1, cutoff=0.3)
        hint = f" Nearest: {near[0]}." if near else ""
        message = f'no margin of this scatter is called "{name}".{hint}'
        raise SurfaceError(message)

    def __repr__(self) -> str:
        return f"<Scatter of {self.surface.name!r}: {len(self)} samples, seed {self.seed}, {len(self.spreads)} vary>"

    def __str__(self) -> str:
        from surfacecheck.studies.sweeping._scatter_shown import scatter_text

        return scatter_text(self)

    def _repr_html_(self) -> str:
        from surfacecheck.studies.sweeping._scatter_shown import scatter_html

        return scatter_html(self)
