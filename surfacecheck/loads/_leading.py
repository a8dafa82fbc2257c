"""Which load cases can decide anything: of cases that differ in size alone, the greatest."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.loads._case import LoadCase, kind_of
from surfacecheck.provenance import WORKED_OUT

if TYPE_CHECKING:
    from collections.abc import Sequence

    from numpy.typing import NDArray

    from surfacecheck.model import Surface

    Array = NDArray[np.float64]

__all__ = ["AT_REST", "leading"]

AT_REST = "at rest"
"""Title of the case that stands for no load at all: rigging pull, and pins that are off line."""
_LESS = 1.0 - 1e-9
"""A load that is nearer than this to another's size is kept beside it: rounding might turn the two round."""
_SAME = 1e-12


def leading(cases: Sequence[LoadCase], surface: Surface) -> tuple[LoadCase, ...]:
    """Leave out loads that are smaller ones of the same shape, sense and hold as another.

    Such a load lies on the straight line between the greater one and the surface at rest. What a part can carry is
    convex (of two states that it carries it carries every mixture), so that the smaller load uses up no more than the
    worse of the two. The surface at rest is put at the end of the list; where it decides something, all cases must be
    looked at.

    Parameters
    ----------
    cases : sequence of LoadCase
        Of a surface, or of a stack of variants.
    surface : Surface
        For whether the fin's bending, which has its own share in each case, moves the hinges at all.

    Returns
    -------
    tuple of LoadCase
        Those that can decide, in their order, then :data:`AT_REST`; all of them where none can be left out. Of a stack,
        a case is left out only where it is the smaller one in every variant.

    References
    ----------
    A convex function on a line has its maximum at an end: Boyd and Vandenberghe, Convex Optimization (2004), chapter 3.
    """
    alike: dict[tuple[object, ...], list[int]] = {}
    for c, case in enumerate(cases):
        if case.air is not None and case.inertia is None and case.point is None and case.pilot is None:
            size = _size(case)
            if (way := 1 if (size > 0.0).all() else -1 if (size < 0.0).all() else 0) != 0:
                key = (kind_of(case.air), way, case.reads, case.closing, case.swing, case.thrust, case.scales)
                alike.setdefault(key, []).append(c)
    bends = any(hinge.fin_bends.known and np.any(hinge.fin_bends.si) for hinge in surface.hinges.values())
    smaller = {
        c
        for same in alike.values()
        for c in same
        if any(_less(cases, c, other) and (not bends or _as_fin(cases[c], cases[other])) for other in same)
    }
    if not smaller:
        return tuple(cases)
    rest = LoadCase("at-rest", AT_REST, WORKED_OUT, "ground", notes=("stands for no load at all",))
    return (*(case for c, case in enumerate(cases) if c not in smaller), rest)


def _less(cases: Sequence[LoadCase], one: int, other: int) -> bool:
    """Whether a case is the same as another but smaller; or the very same, and later in the list."""
    size, greater = _size(cases[one]), _size(cases[other])
    return bool((size / greater < _LESS).all() or (one > other and (size == greater).all()))


def _as_fin(one: LoadCase, other: LoadCase) -> bool:
    """Whether the fin bends as much less as the load is smaller."""
    least = np.asarray(one.fin) * _size(other) - np.asarray(other.fin) * _size(one)
    return bool((np.abs(least) <= _SAME * np.abs(_size(one))).all())


def _size(case: LoadCase) -> Array:
    """Pressure with its sense, shape (...) [Pa]."""
    return np.asarray(0.0 if case.air is None else case.air.pressure * case.factor)
