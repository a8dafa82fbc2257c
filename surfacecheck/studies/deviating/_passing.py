"""What passes through a place at limit, and what else could carry it."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.assessment import case_words, finding_sentence
from surfacecheck.checks import row_kind
from surfacecheck.quantities import show
from surfacecheck.studies.deviating._group_at import Group, Ways, group_at, ways_of
from surfacecheck.studies.deviating._here import at_place, group_name, lowest_of
from surfacecheck.studies.deviating._path import others_of, path_of, prose_of

if TYPE_CHECKING:
    from surfacecheck.assessment import Assessment
    from surfacecheck.checks import Finding
    from surfacecheck.model import Surface
    from surfacecheck.quantities import System
    from surfacecheck.studies.deviating._deviation import Way

__all__ = ["Passing", "passing"]

_ALONG = {"rib": "along the rib, this way or that", "rib-spar": "sideways, this way or that"}


@dataclass(frozen=True)
class Passing:
    """What one place carries at limit, as drawn.

    Attributes
    ----------
    place, part : str
        Name, and words for a sentence.
    lowest : Finding
        The lowest margin there, or what must be carried where no strength is given.
    path : tuple of str
        What the load goes through, from where it comes to where it is held.
    others : str
        What else could carry it, in words; empty where nothing is known of it.
    ways : tuple of (str, float)
        Of a rivet: force by direction, the largest first, "to the left" and how much [N].
    shear, pull : float
        Of a rivet: across it, and along it towards its head [N].
    brought : tuple of (str, tuple, tuple)
        What brings the load to the whole group in that case, its force [N], and how far from the middle of the rivets
        it takes hold [m], both by direction.
    most : float or None
        What the most loaded of the others carries once this rivet carries nothing [N]; None where it still does.
    drawn : bool
        Whether the drawing has such a place; otherwise all of this is as it is now.
    """

    place: str
    part: str
    lowest: Finding
    path: tuple[str, ...]
    others: str
    ways: Ways = ()
    shear: float = 0.0
    pull: float = 0.0
    brought: tuple[tuple[str, Ways, Ways], ...] = ()
    most: float | None = None
    drawn: bool = True

    @property
    def case(self) -> str:
        """Load case of the lowest margin there."""
        return self.lowest.case

    @property
    def size(self) -> float:
        """Whole force [N]."""
        return float(np.hypot(self.shear, self.pull))

    def carries(self, system: System = "metric") -> str:
        """Say what it carries at limit; of what is no rivet, how its lowest margin comes about.

        Parameters
        ----------
        system : {"metric", "inch"}
            Units.

        Returns
        -------
        str
            One sentence.
        """
        if not self.ways:
            told = finding_sentence(self.lowest, None, system)
            start = "At limit "
            if not told.startswith(start):
                return told
            part = self.lowest.part
            which = "at limit, as drawn, " if self.drawn else "at limit, as it is now, "
            return f"{part[:1].upper()}{part[1:]}: {which}{told.removeprefix(start)}"
        parts = [f"{show(value, 'force', system)} {words}" for words, value in self.ways]
        whole = f"{show(self.size, 'force', system)}: " if len(parts) > 1 else ""
        return f"At limit {self.part} carries, as drawn, {whole}{', '.join(parts)} ({case_words(self.case)})."

    def brings(self, system: System = "metric") -> str:
        """Say what brings the load to the whole group in that case.

        Parameters
        ----------
        system : {"metric", "inch"}
            Units.

        Returns
        -------
        str
            One sentence; empty where that is not known.
        """
        told = []
        for what, ways, at in self.brought:
            parts = [f"{show(value, 'force', system, 4)} {words}" for words, value in ways]
            off = [f"{show(value, 'length', system)} {words.removeprefix('to the ')}" for words, value in at]
            where = f", from {' and '.join(off)} of their middle" if off else ""
            told += [f"{what} brings {' and '.join(parts)}{where}"] if parts else []
        return f"To the whole group {'; '.join(told)}." if told else ""

    def else_carried(self, system: System = "metric") -> str:
        """Say what else could carry it.

        Parameters
        ----------
        system : {"metric", "inch"}
            Units.

        Returns
        -------
        str
            One sentence.
        """
        if not self.others:
            return ""
        if self.most is None:
            return f"What else could carry it: {self.others}."
        most = show(self.most, "force", system)
        return f"If it carries nothing: {self.others}, up to {most} each."


def passing(drawn: Assessment, place: str, now: Way | None = None) -> Passing | None:
    """Find what passes through a place at limit.

    Parameters
    ----------
    drawn : Assessment
        As drawn.
    place : str
        Name of the place.
    now : Way, optional
        As it is now: for what the others get, and for a place that the drawing does not have.

    Returns
    -------
    Passing or None
        In the case of the lowest margin there; None where no check knows the place.
    """
    found = at_place(drawn, place)
    there = bool(found)
    for one in () if found or now is None else now.bounds:
        found = found or at_place(one, place)
    lowest = lowest_of(found) or next((one for one in found if one.required is not None), None)
    if lowest is None:
        return None
    surface = drawn.surface
    words, others = prose_of(surface, place), others_of(surface, place)
    bare = Passing(place, words, lowest, path_of(surface, place), others, drawn=there)
    left = None if now is None else now.bounds[-1]
    if group_name(place) == place:
        return bare
    group = group_at(drawn, place)
    if group is None:
        return _of_row(bare, surface, found, left)
    return _of_group(bare, surface, group, None if left is None else group_at(left, place))


def _of_group(bare: Passing, surface: Surface, group: Group, left: Group | None) -> Passing:
    """Fill in what a rivet of a bracket or of the horn carries, and the others once it carries nothing."""
    at = int(bare.place.rpartition("-")[2]) - 1
    sizes = np.hypot(group.shear, group.tension)
    known = bare.lowest.case in group.cases
    case = group.cases.index(bare.lowest.case) if known else int(np.argmax(sizes[:, at]))
    most = None
    if left is not None and group.cases[case] in left.cases and not np.hypot(left.shear, left.tension)[:, at].any():
        same = left.cases.index(group.cases[case])  # a gust brings cases of its own, so that the others count anew
        most = float(np.hypot(left.shear, left.tension)[same].max())
    pull = float(group.tension[case, at])
    return replace(
        bare,
        ways=ways_of(surface, group.share[case, at], group.axis, pull),
        shear=float(group.shear[case, at]),
        pull=pull,
        others=others_of(surface, bare.place, group.shear.shape[-1]),
        brought=tuple((what, ways_of(surface, force[case]), off) for what, force, off in group.brought),
        most=most,
    )


def _of_row(bare: Passing, surface: Surface, found: tuple[Finding, ...], left: Assessment | None) -> Passing:
    """Fill in what a rivet of a row carries: its largest shear, and its largest pull; neither has a sign."""
    shear, pull = (_effect(found, mode) for mode in ("rivet-shear", "rivet-pull"))
    head, _, number = bare.place.rpartition("-")
    beside = [f"{head}-{int(number) + step}" for step in (-1, 1)]
    near = [_effect(at_place(left, one), "rivet-shear") for one in beside] if left is not None else []
    gone = left is not None and _effect(at_place(left, bare.place), "rivet-shear") == 0.0
    row = surface.rows.get(bare.place.split(".")[1])
    way = _ALONG.get("" if row is None else row_kind(surface, row), "along the row, this way or that")
    said = ((way, shear), ("pulling at its head", pull))
    ways = tuple(sorted((one for one in said if one[1] > 0.0), key=lambda one: -one[1]))
    return replace(bare, ways=ways, shear=shear, pull=pull, most=max(near, default=0.0) or None if gone else None)


def _effect(found: tuple[Finding, ...], mode: str) -> float:
    """Load of one rivet by one of its checks [N]; nought where it has none."""
    for one in found:
        if one.check.mode == mode:
            value = one.value(one.check.effect)
            return 0.0 if value is None else abs(value)
    return 0.0
