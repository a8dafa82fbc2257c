"""Holes of different rows in the web of the spar that come nearer to each other than the least pitch."""

from __future__ import annotations

from itertools import combinations
from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.axes import side_by_side
from surfacecheck.rules import pitch_times
from surfacecheck.studies.bench._seats import ALONG, known

if TYPE_CHECKING:
    from collections.abc import Iterator

    from numpy.typing import NDArray

    from surfacecheck.model import Surface
    from surfacecheck.studies.bench._seats import Seats

    Array = NDArray[np.float64]

__all__ = ["crowded", "on_web"]

_IN_WEB = {"rib-spar", "bracket", "doubler"}
SHARED = 0.5e-3
"""Nearer than this two rows mean one hole [m]; our own choice."""


def on_web(seats: Seats) -> Array | None:
    """Give the places of rivets in the web, along the pins and across it.

    Parameters
    ----------
    seats : Seats
        A row or group.

    Returns
    -------
    ndarray, shape (n, 2), or None
        [m]; None where it is not in the web, or a place is not known.
    """
    if seats.kind not in _IN_WEB or not seats.placed:
        return None
    points = []
    for line in seats.lines:
        along, across = (line.at, line.across) if line.measured == ALONG else (line.up, line.at)
        if along is None or across is None:
            return None
        points.append(side_by_side(along, across))
    return np.concatenate([point.reshape(-1, 2) for point in points])


def crowded(surface: Surface, groups: tuple[Seats, ...]) -> Iterator[str]:
    """Name pairs of rows whose holes in the web come nearer than three diameters of the larger.

    Parameters
    ----------
    surface : Surface
        For the rivets.
    groups : tuple of Seats
        Rows and groups.

    Yields
    ------
    str
        A line a pair.

    References
    ----------
    AC 43.13-1B, 4-57: rivets not closer than 3 D.
    """
    placed = [(seats, points) for seats in groups if (points := on_web(seats)) is not None]
    for (one, here), (other, there) in combinations(placed, 2):
        sizes = [known(surface.rivets[name].diameter) for name in (one.rivet, other.rivet) if name in surface.rivets]
        largest = max((size for size in sizes if size is not None), default=None)
        if largest is None:
            continue
        apart = np.hypot(*np.moveaxis(here[:, None, :] - there[None, :, :], -1, 0))
        nearest, asked = float(apart.min()), pitch_times() * largest
        if nearest < SHARED:
            yield f"{one.words} and {other.words} have a hole at one place in the web: one rivet through both?"
        elif nearest < asked - 1e-9:
            words = f"{one.words} and {other.words}: holes in the web down to {nearest * 1e3:.1f} mm from each other"
            yield f"{words}; the text asks {asked * 1e3:.1f} mm (3 D)"
