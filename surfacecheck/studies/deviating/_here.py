"""Margins at one place: every check of an assessment there, at its worst case."""

from __future__ import annotations

from dataclasses import replace
from itertools import takewhile
from typing import TYPE_CHECKING, Any

import numpy as np

from surfacecheck.checks import find, name_at

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, NDArray

    from surfacecheck.assessment import Assessment
    from surfacecheck.checks import Check, Finding

__all__ = ["at_place", "gives_at", "group_name", "in_group", "lowest_of", "outside_somewhere", "part_of"]

PARTS = ", "
"""Stands between the words of a whole and of a part of it."""


def group_name(place: str) -> str:
    """Give the group a rivet belongs to; any other place is its own.

    Examples
    --------
    >>> group_name("hinge.middle.bracket.rivet-3"), group_name("hinge.middle")
    ('hinge.middle.bracket', 'hinge.middle')
    """
    head, _, last = place.rpartition(".")
    return head if last.startswith("rivet-") else place


def part_of(place: str, findings: tuple[Finding, ...]) -> str:
    """Name a place in the words of its checks, "middle hinge, bracket, rivet 3"; where there are none, as it is."""
    group = group_name(place)
    part = next((one.check.part for one in findings if one.check.place in {place, group}), "")
    part = part or _whole_of(findings) or next((one.check.part for one in findings), "") or place
    last = place.removeprefix(f"{group}.") if group != place else ""
    spot = last.replace("-", " ")
    return part if not spot or part.endswith(spot) else f"{part}, {spot}"


def _whole_of(findings: tuple[Finding, ...]) -> str:
    """Give the words that all parts of a place begin with: "middle hinge" of its pin and its bracket."""
    parts = [one.check.part.split(PARTS) for one in findings]
    same = takewhile(lambda words: len(set(words)) == 1, zip(*parts, strict=False))
    return PARTS.join(words[0] for words in same)


def gives_at(part: str, finding: Finding) -> str:
    """Say what gives at a place, and which part of it where the place has several.

    Parameters
    ----------
    part : str
        The place in words, of :func:`part_of`.
    finding : Finding
        Of a check there.

    Returns
    -------
    str
        "rivet shears" at "middle hinge, bracket, rivet 3"; "leg of the bracket: breaks in bending" at "middle hinge".
    """
    own, there = finding.check.part.split(PARTS), part.split(PARTS)
    shared = sum(1 for _ in takewhile(lambda pair: pair[0] == pair[1], zip(own, there, strict=False)))
    rest = PARTS.join(own[shared:])
    return f"{rest}: {finding.gives}" if rest else finding.gives


def in_group(assessment: Assessment, place: str) -> tuple[Finding, ...]:
    """Find what every check says of all rivets of the group of one; of any other place the same as :func:`at_place`."""
    group = group_name(place)
    found = at_place(assessment, group)
    return found if group == place else tuple(one for one in found if one.place.startswith(f"{group}.rivet"))


def at_place(assessment: Assessment, place: str) -> tuple[Finding, ...]:
    """Find what every check says at one place.

    Parameters
    ----------
    assessment : Assessment
        Worked.
    place : str
        ``hinge.middle.bracket.rivet-3``; ``hinge.middle`` for everything of that hinge.

    Returns
    -------
    tuple of Finding
        Of all kinds, each at the worst spot and case of that place.
    """
    return tuple(found for one in assessment.findings if (found := _at(one, place)) is not None)


def _at(finding: Finding, place: str) -> Finding | None:
    check = finding.check
    if check.place == place or check.place.startswith(f"{place}."):
        return finding
    if not place.startswith(f"{check.place}."):
        return None
    spot = place.removeprefix(f"{check.place}.")
    names = [name_at(check.spots, finding.variant, at) for at in range(len(check.spots))]
    chosen = [at for at, name in enumerate(names) if name.replace(" ", "-") == spot]
    if not chosen:
        return None
    return finding if len(chosen) == len(names) else find(_only(finding, chosen))


def _only(finding: Finding, spots: list[int]) -> Check:
    """Keep some of the spots of a check, and of a stack the one variant."""
    check, variant, many = finding.check, finding.variant, len(finding.check.spots)

    def kept(values: ArrayLike) -> NDArray[Any]:
        array = np.asarray(values)
        if array.ndim == 3:
            array = array[variant if len(array) > 1 else 0]
        return array[..., spots] if array.ndim and array.shape[-1] == many else array

    cases = [name_at(check.spot_cases, variant, at) for at in spots] if len(check.spot_cases) else []
    return replace(
        check,
        terms={
            name: term if term.values is None else term._replace(values=kept(term.values))
            for name, term in check.terms.items()
        },
        spots=tuple(name_at(check.spots, variant, at) for at in spots),
        spot_cases=tuple(cases),
        outside=kept(check.outside),
    )


def lowest_of(findings: tuple[Finding, ...]) -> Finding | None:
    """Give the lowest margin among findings.

    Parameters
    ----------
    findings : tuple of Finding
        Of any kind.

    Returns
    -------
    Finding or None
        None where none of them is a margin that is known; one of which nothing is required comes last.
    """
    margins = [one for one in findings if one.kind == "margin" and one.margin is not None]
    return min(margins, key=lambda one: np.inf if one.margin is None else one.margin, default=None)


def outside_somewhere(finding: Finding) -> bool:
    """Say whether a check is outside the method at any of its spots, the worst one or another.

    Parameters
    ----------
    finding : Finding
        Of a surface, or of one of a stack.

    Returns
    -------
    bool
        Whether it is.
    """
    outside = np.asarray(finding.check.outside)
    return bool(outside[finding.variant if len(outside) > 1 else 0].any() if outside.ndim == 3 else outside.any())
