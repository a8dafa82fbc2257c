"""What happened, beside the drawing: every way the surface could be now, here, anywhere, by the rules, in balance."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cached_property
from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.assessment import assess_each
from surfacecheck.changes import columns_of
from surfacecheck.checks import Outcome
from surfacecheck.errors import SurfaceError
from surfacecheck.rules import DOES_NOT_MEET
from surfacecheck.studies.balancing._cautions import cautions_for
from surfacecheck.studies.comparing._compare import compare
from surfacecheck.studies.deviating._deviation_here import here_lines
from surfacecheck.studies.deviating._here import at_place, group_name, in_group, lowest_of, outside_somewhere
from surfacecheck.studies.deviating._passing import passing

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from surfacecheck.assessment import Assessment
    from surfacecheck.changes import Column
    from surfacecheck.checks import Finding
    from surfacecheck.model import Surface
    from surfacecheck.rules import RuleResult
    from surfacecheck.studies.comparing._compare import Changed, Comparison
    from surfacecheck.studies.deviating._bands import Bands
    from surfacecheck.studies.deviating._passing import Passing

__all__ = ["DEPENDS", "Deviation", "Way", "deviation", "judged", "worked_ways"]

DEPENDS = "depends on what it still holds: ask"
"""Outcome where the margin carries if what is not published holds fully, and does not if it holds nothing."""


@dataclass(frozen=True, eq=False)
class Way:
    """One way the surface could be, worked.

    Attributes
    ----------
    column : Column
        What was done to the model for it.
    fully : Assessment
        With whatever is not published taken to hold fully.
    nothing : Assessment or None
        The same with it taken to hold nothing; None where nothing is left open.
    """

    column: Column
    fully: Assessment
    nothing: Assessment | None = None

    @property
    def bounds(self) -> tuple[Assessment, ...]:
        """One assessment, or both bounds: holds fully first."""
        return (self.fully,) if self.nothing is None else (self.fully, self.nothing)

    def here(self, places: Iterable[str]) -> tuple[Finding | None, ...]:
        """Give the lowest margin at some places and their groups.

        Parameters
        ----------
        places : iterable of str
            Names of places.

        Returns
        -------
        tuple of (Finding or None)
            One a bound.
        """
        wanted = tuple({group_name(place): place for place in places}.values())
        return tuple(lowest_of(tuple(f for place in wanted for f in in_group(one, place))) for one in self.bounds)

    def outside(self, places: Iterable[str]) -> tuple[str, ...]:
        """Name what gives in checks of the touched places themselves that are outside the method, by either bound.

        Parameters
        ----------
        places : iterable of str
            Names of places.

        Returns
        -------
        tuple of str
            Each once; empty where the method answers for all of them.
        """
        found = (f for one in self.bounds for place in places for f in at_place(one, place))
        asked = (f for f in found if f.kind == "margin" and np.isfinite(f.margin or 0.0))
        gives = (f.gives for f in asked if f.outcome == Outcome.OUTSIDE or outside_somewhere(f))
        return tuple(dict.fromkeys(gives))

    def not_given(self, places: Iterable[str]) -> tuple[str, ...]:
        """Name what might give at the touched places and cannot be worked, since a strength or a size is not given."""
        found = (f for one in self.bounds for place in places for f in at_place(one, place))
        return tuple(dict.fromkeys(f.gives for f in found if f.kind == "margin" and f.outcome == Outcome.NOT_GIVEN))

    @property
    def broken(self) -> tuple[RuleResult, ...]:
        """Rules that it does not meet, and that count."""
        return tuple(rule for rule in self.fully.rules if rule.counts and rule.outcome == DOES_NOT_MEET)


@dataclass(frozen=True, eq=False)
class Deviation:
    """A surface as drawn, as it is now, and with each option.

    Attributes
    ----------
    surface : Surface
        With what happened written down in its changes.
    ways : tuple of Way
        As drawn, as it is now, then the options; "leave it as it is" is the second.
    places : tuple of str
        Places that are touched.
    comparison : Comparison
        Every bound of every way, one after the other.
    here : tuple of Changed
        Margins at the touched places, and what their unknown strengths must carry; over the same bounds.
    passing : tuple of Passing
        What each of these places carries at limit.
    """

    surface: Surface
    ways: tuple[Way, ...]
    places: tuple[str, ...]
    comparison: Comparison
    here: tuple[Changed, ...]
    passing: tuple[Passing, ...]

    @property
    def now(self) -> Way:
        """As it is now."""
        return self.ways[1]

    @property
    def cautions(self) -> tuple[str, ...]:
        """What no margin looks at and this kind of event touches: fatigue, flutter, corrosion, workmanship."""
        return cautions_for(self.in_words)

    @property
    def in_words(self) -> str:
        """What happened, and where, as it was written down."""
        return "; ".join(f"{one.what}, {one.where}" for one in self.surface.happened)

    def of(self, group: str, *, moved: bool = False) -> tuple[Changed, ...]:
        """Give the lines of one group.

        Parameters
        ----------
        group : str
            ``place`` for the touched places; the others as in :class:`Changed`.
        moved : bool
            Only those that differ from the drawing in some way.

        Returns
        -------
        tuple of Changed
            Each with a value for every bound of every way.
        """
        lines = (line for line in (*self.here, *self.comparison.lines) if line.group == group)
        return tuple(line for line in lines if line.moved or not moved)

    def by_way(self, line: Changed) -> tuple[tuple[float | str | None, ...], ...]:
        """Part the values of a line by way.

        Parameters
        ----------
        line : Changed
            One of the lines.

        Returns
        -------
        tuple of tuple
            One for each way: its value, or the two of its bounds.
        """
        values = iter(line.values)
        return tuple(tuple(next(values) for _ in way.bounds) for way in self.ways)

    def outcome(self, way: Way) -> str:
        """Give the word of outcome of a way, here.

        Parameters
        ----------
        way : Way
            One of the ways.

        Returns
        -------
        str
            One of the words of outcome of a margin: of the lowest here, or anywhere where no check is here; outside
            the method where one check of a touched place is.
        """
        if way.outside(self.places):
            return Outcome.OUTSIDE
        return judged(self.lowest(way))

    def lowest(self, way: Way) -> tuple[Finding | None, ...]:
        """Give the lowest margin of each bound of a way: here, or anywhere where no check is of a touched place."""
        here = way.here(self.places)
        return here if self.judged_at(way) == "here" else tuple(_lowest(one) for one in way.bounds)

    def judged_at(self, way: Way) -> str:
        """Say what the outcome of a way is of: ``here``, or ``anywhere`` where no check is of a touched place."""
        return "anywhere" if all(one is None for one in way.here(self.places)) else "here"

    @cached_property
    def bands(self) -> Bands:
        """What the measurements leave open; worked when it is first asked for."""
        from surfacecheck.studies.deviating._bands import bands

        return bands(self)

    def __str__(self) -> str:
        """Write it for a terminal."""
        from surfacecheck.studies.deviating._deviation_shown import deviation_text

        return deviation_text(self, "inch" if self.surface.units == "inch" else "metric")

    def _repr_html_(self) -> str:
        from surfacecheck.studies.deviating._deviation_shown import deviation_html

        return deviation_html(self, "inch" if self.surface.units == "inch" else "metric")


def deviation(surface: Surface) -> Deviation:
    """Work every way a surface could be after something happened to it.

    Parameters
    ----------
    surface : Surface
        With a change laid over it that says what happened.

    Returns
    -------
    Deviation
        As drawn, as it is now, and each option, all assessed at once; options are shown, none is recommended.

    Raises
    ------
    SurfaceError
        Where nothing happened, or one of the ways cannot be worked.
    """
    columns = columns_of(surface)
    if len(columns) < 2 or (not surface.happened and _same(columns[0].fully, columns[1].fully)):
        message = "nothing happened to this surface: write it in a change file, or let the command happened ask"
        raise SurfaceError(message)
    places = tuple(dict.fromkeys(place for one in columns for place in one.places))
    ways = worked_ways(columns)
    flat = tuple(one for way in ways for one in way.bounds)
    passes = (passing(ways[0].fully, place, ways[1]) for place in places)
    found = tuple(one for one in passes if one is not None)
    return Deviation(surface, ways, places, compare(*flat), tuple(here_lines(flat, places)), found)


def _same(drawn: Surface, now: Surface) -> bool:
    """Whether nothing was laid over a surface but a title."""
    laid = {one: getattr(drawn, one) for one in ("changes", "path", "sha256", "gaps", "remarks")}
    return repr(replace(now, **laid)) == repr(drawn)


def worked_ways(columns: Sequence[Column]) -> tuple[Way, ...]:
    """Assess both bounds of every column, all in one go."""
    surfaces = [one for column in columns for one in (column.fully, column.nothing) if one is not None]
    found = iter(assess_each(surfaces))
    return tuple(Way(one, next(found), None if one.nothing is None else next(found)) for one in columns)


def judged(bounds: tuple[Finding | None, ...]) -> str:
    """Say the outcome of a margin, or of the two bounds of one.

    Parameters
    ----------
    bounds : tuple of (Finding or None)
        The lowest if it holds fully, then if it holds nothing; one of them where nothing is left open.

    Returns
    -------
    str
        A word of :class:`Outcome` where both say the same, or where one of them is outside the method or not given;
        otherwise that it depends.
    """
    words = [Outcome.NOT_GIVEN if one is None else one.outcome for one in bounds]
    for word in (Outcome.OUTSIDE, Outcome.NOT_GIVEN):
        if word in words:
            return word
    return words[0] if len(set(words)) == 1 else DEPENDS


def _lowest(assessment: Assessment) -> Finding | None:
    return assessment.margins[0] if assessment.margins else None
