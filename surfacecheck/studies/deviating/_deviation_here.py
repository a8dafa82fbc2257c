"""The lines of a deviation at the touched places: the lowest margin, and what strengths nobody gave must be."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.assessment import needed
from surfacecheck.studies.comparing._compare import Changed
from surfacecheck.studies.deviating._here import at_place, gives_at, group_name, in_group, lowest_of, part_of

if TYPE_CHECKING:
    from collections.abc import Iterator

    from surfacecheck.assessment import Assessment, Needed
    from surfacecheck.checks import Finding

__all__ = ["MUST_CARRY", "NOTHING_ASKED", "NOT_THERE", "here_lines"]

NOTHING_ASKED = "nothing is required of it"
"""Said of a place that carries nothing, in the place of what gives first."""
MUST_CARRY = "must carry"
"""Ends the name of a line whose strength is not given."""
NOT_THERE = "no check of it"
"""Said where a way has no such place: a nick that the drawing does not have."""


def here_lines(flat: tuple[Assessment, ...], places: tuple[str, ...]) -> Iterator[Changed]:
    """Give the lowest margin at every touched place and in its group, and what strengths nobody gave must be.

    Parameters
    ----------
    flat : tuple of Assessment
        Every bound of every way, one after the other.
    places : tuple of str
        Places that are touched.

    Yields
    ------
    Changed
        Of the group ``place``, over the same bounds.
    """
    groups = dict.fromkeys(group_name(place) for place in places)
    for group in groups:
        for place in (one for one in places if group_name(one) == group != one):
            yield from _lines(place, [at_place(one, place) for one in flat])
        first = next(one for one in places if group_name(one) == group)
        yield from _lines(group, [in_group(one, first) for one in flat])


def _lines(place: str, found: list[tuple[Finding, ...]]) -> Iterator[Changed]:
    if not any(found):  # a stop, say: nothing is checked there
        return
    part = part_of(place, tuple(f for one in found for f in one))
    lowest = [lowest_of(one) for one in found]
    says = tuple(_gives(part, one, all_) for one, all_ in zip(lowest, found, strict=True))
    yield Changed("place", part, "margin", tuple(_finite(one) for one in lowest), says)
    least = [_asked(part, one) for one in found]
    for gives in dict.fromkeys(gives for one in least for gives in one):
        quantity = next(one[gives].quantity for one in least if gives in one)
        values = tuple(one[gives].si if gives in one else None for one in least)
        if any(values):  # a strength that nothing asks for need not be known
            yield Changed("place", f"{part}: {gives}, {MUST_CARRY}", quantity, values)


def _asked(part: str, found: tuple[Finding, ...]) -> dict[str, Needed]:
    """Turn every strength that is not given round, by what gives: the most that is asked of any rivet."""
    most: dict[str, Needed] = {}
    for finding in found:
        need = needed(finding) if finding.kind == "margin" and finding.margin is None else None
        gives = gives_at(part, finding)
        if need is not None and (gives not in most or need.si > most[gives].si):
            most[gives] = need
    return most


def _gives(part: str, lowest: Finding | None, found: tuple[Finding, ...]) -> str:
    """Say what gives first; or that nothing is asked of the place, or that there is no check of it."""
    if lowest is None:
        return "" if found else NOT_THERE
    return gives_at(part, lowest) if _finite(lowest) is not None else NOTHING_ASKED


def _finite(finding: Finding | None) -> float | None:
    return None if finding is None or finding.margin is None or np.isinf(finding.margin) else finding.margin
