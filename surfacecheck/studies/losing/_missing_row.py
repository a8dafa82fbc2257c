"""A row with rivets that are not there: what their neighbours get, what the sheet does at the gap, what else carries.

Two ways to share are shown: every gap halved between its neighbours, which rivets that give nowhere would do and none
exceeds; and the spring model of the row, with the flexibility of a rivet by every published formula. The load a length
of row is the largest within the gap and beside it.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.studies.losing._gone_names import line_named, numbers_of
from surfacecheck.studies.losing._missing_gap import Gap, OtherPath, gaps_of, other_paths
from surfacecheck.studies.losing._row_joint import row_margins
from surfacecheck.studies.losing._row_removals import FELT
from surfacecheck.studies.losing._row_springs import RowSprings, springs_of

if TYPE_CHECKING:
    from collections.abc import Sequence

    from numpy.typing import NDArray

    from surfacecheck.assessment import Assessment
    from surfacecheck.quantities import System
    from surfacecheck.studies.losing._row_lines import RowLine
    from surfacecheck.studies.losing._spot_margins import SpotMargins

    Array = NDArray[np.float64]

__all__ = ["MissingRow", "Neighbour", "Shared", "missing_row", "widened"]

BOUND = "halved"
"""Name of the way to share in which every gap is halved between its neighbours."""


@dataclass(frozen=True, slots=True)
class Shared:
    """Load of one rivet by one way to share.

    Attributes
    ----------
    how : str
        ``halved``, or the name of a flexibility formula.
    growth : float
        Times its load as drawn, with the same flow [-].
    shear, pull : float
        At limit, in the case of the largest shear [N].
    case : str
        That case.
    margin : float or None
        Lowest of all cases [-]; None where no strength that counts is given.
    gives : str
        What gives at that margin.
    asks : float or None
        What a rivet of unknown strength must be good for in shear [N].
    """

    how: str
    growth: float
    shear: float
    pull: float
    case: str
    margin: float | None
    gives: str
    asks: float | None


@dataclass(frozen=True, slots=True)
class Neighbour:
    """A rivet that gets more.

    Attributes
    ----------
    number : int
        In the row, from 1.
    place : str
        In words.
    drawn : Shared
        As drawn.
    shared : tuple of Shared
        With the others gone: the bound first, then every formula; only the bound where the springs are not known.
    """

    number: int
    place: str
    drawn: Shared
    shared: tuple[Shared, ...]

    @property
    def bound(self) -> Shared:
        """With every gap halved."""
        return self.shared[0]

    @property
    def springs(self) -> tuple[Shared, ...]:
        """By the formulas."""
        return self.shared[1:]


@dataclass(frozen=True, eq=False)
class MissingRow:
    """A row with rivets out.

    Attributes
    ----------
    assessment : Assessment
        As drawn.
    line : RowLine
        The row, or its rivets on one rib.
    out : tuple of int
        Numbers of the rivets that are not there.
    neighbours : tuple of Neighbour
        Those that get more, in the order of the row.
    gaps : tuple of Gap
        Every stretch without a rivet.
    springs : RowSprings or None
        None where the sheets or the diameter are not known.
    others : tuple of OtherPath
        What else carries.
    """

    assessment: Assessment
    line: RowLine
    out: tuple[int, ...]
    neighbours: tuple[Neighbour, ...]
    gaps: tuple[Gap, ...]
    springs: RowSprings | None
    others: tuple[OtherPath, ...]

    @property
    def worst(self) -> Neighbour:
        """The neighbour with the lowest margin by the bound; of the greatest load where no strength is given."""
        known = [one for one in self.neighbours if one.bound.margin is not None]
        if known:
            return min(known, key=lambda one: one.bound.margin)  # type: ignore[arg-type, return-value]
        return max(self.neighbours, key=lambda one: one.bound.shear)

    @property
    def short(self) -> bool:
        """Whether a neighbour has less than required."""
        return any(s.margin is not None and s.margin < 0.0 for one in self.neighbours for s in one.shared)

    def text(self, system: System = "metric") -> str:
        """Write it for a terminal.

        Parameters
        ----------
        system : {"metric", "inch"}
            Units.

        Returns
        -------
        str
            ASCII lines.
        """
        from surfacecheck.studies.losing._missing_row_shown import missing_row_text

        return missing_row_text(self, system)

    def __str__(self) -> str:
        return self.text("inch" if self.assessment.surface.units == "inch" else "metric")

    def _repr_html_(self) -> str:
        from surfacecheck.studies.losing._missing_row_shown import missing_row_html

        return missing_row_html(self)


def missing_row(assessment: Assessment, row: str, out: Sequence[int]) -> MissingRow:
    """Take rivets out of a row.

    Parameters
    ----------
    assessment : Assessment
        Of the surface as drawn.
    row : str
        Its name, ``left_skin_to_spar`` or ``row.left_skin_to_spar``; of a row on the ribs with the rib,
        ``row.left_skin_to_ribs.rib-3``.
    out : sequence of int
        Numbers of the rivets that are not there, from 1 (on each rib anew), as on the map.

    Returns
    -------
    MissingRow
        Neighbours, gaps, other paths.

    Raises
    ------
    SurfaceError
        Where there is no such row or rivet, or nothing would be left.
    """
    line = line_named(assessment, row)
    gone = numbers_of(out, line.rivets, line.place)
    springs = springs_of(assessment.surface, line.load)
    return MissingRow(
        assessment=assessment,
        line=line,
        out=gone,
        neighbours=tuple(_neighbours(line, gone, springs)),
        gaps=tuple(gaps_of(assessment, line, line.there(gone))),
        springs=springs,
        others=other_paths(assessment, line.load),
    )


def widened(values: Array, there: NDArray[np.intp]) -> Array:
    """Give each rivet the largest load within its reach: over the gap beside it to the next one that is there.

    Parameters
    ----------
    values : ndarray, shape (C, R)
        Load of each place as drawn [any].
    there : ndarray of int, shape (R,)
        Rivets left at each place.

    Returns
    -------
    ndarray, shape (C, R)
        The same beside no gap [as ``values``].
    """
    left = np.flatnonzero(there)
    out = values.copy()
    for i, at in enumerate(left):
        low = left[i - 1] + 1 if i else 0
        high = left[i + 1] if i + 1 < left.size else there.size
        low, high = (low - 1 if 0 < low < at else low), (high + 1 if high > at + 1 else high)
        out[:, at] = values[:, low:high].max(axis=-1)
    return out


def _neighbours(line: RowLine, gone: tuple[int, ...], springs: RowSprings | None) -> list[Neighbour]:
    there = line.there(gone)
    ways = {BOUND: line.bound(there)}
    if springs is not None:
        ways |= {name: line.spring(there, C, springs) for name, C in zip(springs.formulas, springs.C, strict=True)}
    felt = np.flatnonzero(np.any([growth > FELT for growth in ways.values()], axis=0))
    drawn = _shared(line, "as drawn", np.ones(there.size), np.full(there.size, line.abreast), felt)
    found = [_shared(line, how, growth, there, felt) for how, growth in ways.items()]
    out = []
    for i, at in enumerate(felt):
        numbers = [int(n) for n in line.numbers[:, at] if n not in gone]
        out.append(Neighbour(numbers[0], line.places[at], drawn[i], tuple(one[i] for one in found)))
    return out


def _shared(line: RowLine, how: str, growth: Array, there: NDArray[np.intp], felt: NDArray[np.intp]) -> list[Shared]:
    """Work the loads and margins of some rivets by one way to share."""
    C = line.shear.shape[0]
    at, cases = np.repeat(felt, C), np.tile(np.arange(C), felt.size)

    def grown(values: Array) -> Array:
        return np.asarray(widened(values, there)[:, felt] * growth[felt])

    shear, pull = grown(line.shear), grown(line.pull)
    layers = {name: grown(force).T.ravel() for name, force in line.layers.items()}
    every = row_margins(line, at, cases, shear.T.ravel(), pull.T.ravel(), layers, there[at])
    worst = shear.argmax(axis=0)
    names = line.load.cases
    out = []
    for i, place in enumerate(felt):
        spot = i * C + int(every.margin[i * C : (i + 1) * C].argmin())
        c = int(worst[i])
        margin = float(every.margin[spot]) if np.isfinite(every.margin[spot]) else None
        out.append(
            Shared(how, float(growth[place]), float(shear[c, i]), float(pull[c, i]), names[c], margin,
                   every.gives(spot), _asks(every, i * C, (i + 1) * C))
        )  # fmt: skip
    return out


def _asks(every: SpotMargins, low: int, high: int) -> float | None:
    shear = [values for key, values in every.asks.items() if key.endswith("shear")]
    return float(shear[0][low:high].max()) if shear else None
