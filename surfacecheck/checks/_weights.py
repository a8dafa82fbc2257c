"""How much of each rivet of a group or row counts, from what stands apart in a surface."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.provenance import in_a_row, numbers

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from surfacecheck.model import Surface

__all__ = ["rivet_weights"]


def rivet_weights(surface: Surface, place: str, count: int) -> NDArray[np.float64]:
    """Give the share of each rivet that counts: 1 where nothing is said, 0 where it holds nothing.

    Parameters
    ----------
    surface : Surface
        For ``apart``.
    place : str
        ``hinge.middle.bracket``, ``horn``, ``row.left_skin_to_spar``.
    count : int
        Rivets at that place.

    Returns
    -------
    ndarray, shape (..., count)
        Leading axes where a share is a stack of variants [-].
    """
    apart = surface.apart
    if not apart:
        return np.ones(count)
    named = (apart.get(f"{place}.rivet-{i + 1}") for i in range(count))
    return in_a_row([1.0 if one is None else numbers(one.holds) for one in named])
