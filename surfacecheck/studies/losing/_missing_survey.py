"""Each rivet of a row or a group taken out in turn, and each pair, ranked by what is left."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import combinations
from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.studies.losing._gone_names import line_named, row_named
from surfacecheck.studies.losing._rivet_group import group_of, without
from surfacecheck.studies.losing._row_lines import lines_of
from surfacecheck.studies.losing._row_removals import removals_of
from surfacecheck.studies.losing._row_springs import springs_of

if TYPE_CHECKING:
    from surfacecheck.assessment import Assessment
    from surfacecheck.quantities import System
    from surfacecheck.studies.losing._rivet_group import Group

__all__ = ["Removal", "Survey", "survey_group", "survey_row"]


@dataclass(frozen=True, slots=True)
class Removal:
    """One or two rivets taken out.

    Attributes
    ----------
    out : tuple of int
        Their numbers.
    rib : int
        The rib they are on, from 1; 0 where the row runs along the pins, and of a group.
    holds : bool
        False where what is left cannot hold the load: nothing, or one line under a couple.
    growth : tuple of float
        Largest growth of a load: by the spring model least and most, and with every gap halved; of a group three times
        the same [-].
    load : float
        Largest shear of one rivet then, at limit [N].
    margin : float or None
        Lowest then [-]; None where no strength that counts is given.
    at : int
        Number of the rivet with that margin, or with the largest load; 0 where nothing holds.
    gives : str
        What gives at that margin.
    asks : float or None
        What a rivet of unknown shear strength must then be good for [N].
    """

    out: tuple[int, ...]
    rib: int
    holds: bool
    growth: tuple[float, float, float]
    load: float
    margin: float | None
    at: int
    gives: str
    asks: float | None

    @property
    def worst_first(self) -> tuple[bool, float, float]:
        """Key of the order: what does not hold, then the lowest margin, then the largest load."""
        return self.holds, np.inf if self.margin is None else self.margin, -self.load


@dataclass(frozen=True, eq=False)
class Survey:
    """Every rivet of a row or group taken out, and every pair.

    Attributes
    ----------
    assessment : Assessment
        As drawn.
    place, part : str
        ``row.left_skin_to_spar``, and words.
    rivets : int
        How many there are.
    removals : tuple of Removal
        Every one, then every pair that shares a load; the worst first.
    drawn : float or None
        Lowest margin with all of them in [-].
    drawn_asks : float or None
        What a rivet of unknown shear strength must be good for with all of them in [N].
    notes : tuple of str
        How it was worked.
    """

    assessment: Assessment
    place: str
    part: str
    rivets: int
    removals: tuple[Removal, ...]
    drawn: float | None
    drawn_asks: float | None
    notes: tuple[str, ...]

    def of(self, size: int) -> tuple[Removal, ...]:
        """Give the removals of one rivet, or of two, the worst first."""
        return tuple(one for one in self.removals if len(one.out) == size)

    @property
    def short(self) -> bool:
        """Whether a margin is less than required without one or two of them."""
        return any(one.margin is not None and one.margin < 0.0 for one in self.removals)

    def capacity(self, one: Removal) -> float | None:
        """Give the load multiplier of a removal over that as drawn [-]; None where a margin is not known.

        Of a group it can exceed one: by the elastic method a rivet that takes its share early can hold the others back.
        """
        if one.margin is None or self.drawn is None or self.drawn <= -1.0:
            return None
        return (1.0 + one.margin) / (1.0 + self.drawn)

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
        from surfacecheck.studies.losing._survey_shown import survey_text

        return survey_text(self, system)

    def __str__(self) -> str:
        return self.text("inch" if self.assessment.surface.units == "inch" else "metric")

    def _repr_html_(self) -> str:
        from surfacecheck.studies.losing._survey_shown import survey_html

        return survey_html(self)


def survey_row(assessment: Assessment, row: str) -> Survey:
    """Take every rivet of a row out in turn, and every pair.

    All of them are one array: (removals, rivets).

    Parameters
    ----------
    assessment : Assessment
        Of the surface as drawn.
    row : str
        Its name; of a row on the ribs with or without the rib.

    Returns
    -------
    Survey
        Pairs within a line only: on two ribs they are two single ones.

    Raises
    ------
    SurfaceError
        Where there is no such row, or its loads are not known.
    """
    load, rib = row_named(assessment, row)
    springs = springs_of(assessment.surface, load)
    lines = (line_named(assessment, row),) if rib else lines_of(load)
    found = [removals_of(line, springs) for line in lines]
    removals = [
        Removal(
            out=tuple(int(n) for n in numbers if n),
            rib=line.rib,
            holds=bool(one.holds[i]),
            growth=(float(one.least[i]), float(one.most[i]), float(one.bound[i])),
            load=float(one.load[i]),
            margin=float(one.margin[i]) if np.isfinite(one.margin[i]) else None,
            at=int(one.at[i]),
            gives=one.gives[i],
            asks=None if one.asks is None else float(one.asks[i]),
        )
        for line, one in zip(lines, found, strict=True)
        for i, numbers in enumerate(one.out)
    ]
    margins = [one.drawn for one in found if np.isfinite(one.drawn)]
    asks = [one.drawn_asks for one in found if one.drawn_asks is not None]
    notes = ["lowest margin by the larger of the spring model and every gap halved, rivet by rivet"]
    if len(lines) > 1:
        notes.append("pairs on one rib only; on two ribs they are two single ones")
    return Survey(
        assessment, lines[0].place if rib else f"row.{load.row.name}",
        lines[0].part if rib else load.row.name.replace("_", " "), sum(line.rivets for line in lines),
        tuple(sorted(removals, key=lambda one: one.worst_first)), min(margins, default=None),
        max(asks, default=None), tuple(notes),
    )  # fmt: skip


def survey_group(assessment: Assessment, name: str) -> Survey:
    """Take every rivet of a bracket or the horn out in turn, and every pair.

    Parameters
    ----------
    assessment : Assessment
        Of the surface as drawn.
    name : str
        ``hinge.middle.bracket`` or ``horn``.

    Returns
    -------
    Survey
        Elastic method, a rigid plate on equal rivets.

    Raises
    ------
    SurfaceError
        Where there is no such group, or its loads are not known.
    """
    group = group_of(assessment, name)
    drawn = without(group, ())
    assert drawn is not None  # noqa: S101 - its loads as drawn are known
    numbers = range(1, group.count + 1)
    outs = [*combinations(numbers, 1), *combinations(numbers, 2)]
    removals = [_of_group(group, out) for out in outs if len(out) < group.count]
    lowest = drawn.lowest
    return Survey(
        assessment, group.place, group.part, group.count, tuple(sorted(removals, key=lambda one: one.worst_first)),
        None if lowest is None else lowest.margin, drawn.asks,
        ("elastic: a rigid plate on equal rivets, no heel; the plate keeps its holes",),
    )  # fmt: skip


def _of_group(group: Group, out: tuple[int, ...]) -> Removal:
    left = without(group, out)
    if left is None:
        return Removal(out, 0, False, (np.inf, np.inf, np.inf), 0.0, None, 0, "", None)
    before, after = group.load.shear.max(axis=0), left.shear.max(axis=0)
    with np.errstate(divide="ignore", invalid="ignore"):
        growth = float(np.where(before > 1e-9 * before.max(), after / before, 0.0).max())
    lowest = left.lowest
    at = int(after.argmax()) + 1
    if lowest is not None and lowest.spot.startswith("rivet "):
        at = int(lowest.spot.split()[1])
    return Removal(
        out, 0, True, (growth, growth, growth), float(after.max()), None if lowest is None else lowest.margin, at,
        "" if lowest is None else lowest.gives, left.asks,
    )  # fmt: skip
