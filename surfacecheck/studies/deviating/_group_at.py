"""Rivet loads of the bracket or horn that a place belongs to, and directions in a builder's words."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.studies.deviating._here import group_name
from surfacecheck.studies.following._follow_place import side_words

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, NDArray

    from surfacecheck.assessment import Assessment
    from surfacecheck.checks import Effects, HornLoad
    from surfacecheck.model import Surface

    Array = NDArray[np.float64]

__all__ = ["Group", "Ways", "group_at", "ways_of"]

_NOISE = 5e-3
"""Share of the largest part of a force below which the others are not told."""
_LEAST = 1e-5
"""Distance below which something is in the middle [m]."""
Ways = tuple[tuple[str, float], ...]
"""Words of a direction, and how much that way."""
_TOWARD = {"aft": "aft", "fwd": "ahead", "up": "up", "down": "down", "out": "outwards", "in": "inwards"}


@dataclass(frozen=True, eq=False)
class Group:
    """Loads of the rivets of a bracket or of the horn at limit, in the cases that their margins are read in.

    Attributes
    ----------
    cases : tuple of str
        Names along C.
    share : ndarray, shape (C, R, 3)
        Force on the sheet through each rivet, (x, y, z) [N].
    shear, tension : ndarray, shape (C, R)
        Shear and pull of each [N].
    axis : int
        Of the rivets, among (x, y, z).
    brought : tuple of (str, ndarray of shape (C, 3), tuple)
        What brings the load, its force [N], and how far from the middle of the rivets it takes hold, by direction [m].
    """

    cases: tuple[str, ...]
    share: Array
    shear: Array
    tension: Array
    axis: int = 0
    brought: tuple[tuple[str, Array, Ways], ...] = ()


def group_at(assessment: Assessment, place: str) -> Group | None:
    """Give the rivet loads of the bracket or horn a place belongs to.

    Parameters
    ----------
    assessment : Assessment
        Worked.
    place : str
        Name of a rivet.

    Returns
    -------
    Group or None
        None where it is no rivet of a group, or its loads could not be worked.
    """
    group = group_name(place)
    effects = assessment.fittings
    if group == "horn.rivets" and assessment.horn is not None:
        return _horn_group(effects, assessment.horn)
    for load in assessment.brackets:
        if group == f"hinge.{load.hinge.name}.bracket":
            brought = (("the pin", load.force, _from(effects.surface, load.offset)),)
            return Group(effects.cases, load.share, load.shear, load.tension, 0, brought)
    return None


def _horn_group(effects: Effects, horn: HornLoad) -> Group:
    surface, middle = effects.surface, float(horn.x.mean())
    plus, minus = side_words(surface)["z"]
    brought = tuple(
        (
            f"the {plus if z > 0.0 else minus} bolt",
            effects.horn_force[:, point],
            _from(surface, (x - middle, 0.0, z)),
        )
        for point, (x, z) in enumerate(effects.horn_points)
    )
    return Group(effects.cases, horn.share, horn.shear, horn.tension, 1, brought)


def _from(surface: Surface, offset: ArrayLike) -> Ways:
    return tuple(one for one in ways_of(surface, offset) if one[1] > _LEAST)


def ways_of(surface: Surface, force: ArrayLike, axis: int = -1, pull: float = 0.0) -> Ways:
    """Write a force as parts along the surface's own directions, the largest first; along a rivet by what it does."""
    words, said = side_words(surface), []
    for i, (name, part) in enumerate(zip("xyz", np.asarray(force, dtype=np.float64).tolist(), strict=True)):
        way = words[name][0 if part > 0.0 else 1]
        toward = _TOWARD.get(way, f"to the {way}")
        if i == axis:
            toward = "pulling at its head" if pull > 0.0 else "pressing the sheets together"
        said.append((toward, abs(part)))
    least = _NOISE * max(size for _, size in said)
    return tuple(sorted((one for one in said if one[1] > least), key=lambda one: -one[1]))
