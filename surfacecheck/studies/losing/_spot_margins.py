"""The lowest margin at every spot of a joint by itself, where a check alone keeps the worst spot only."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.checks._check import quiet

if TYPE_CHECKING:
    from collections.abc import Iterable

    from numpy.typing import NDArray

    from surfacecheck.checks import Check

    Array = NDArray[np.float64]

__all__ = ["SpotMargins", "spot_margins"]


@dataclass(frozen=True, eq=False)
class SpotMargins:
    """Margins of a joint, spot by spot.

    Attributes
    ----------
    margin : ndarray, shape (K,)
        Lowest of all ways it gives and all cases [-]; infinite where none is known or nothing is asked.
    outside : ndarray of bool, shape (K,)
        Whether the method does not hold for it [-].
    asks : dict of str to ndarray, shape (K,)
        What each strength that is not given must be good for, by its key; only those a load asks for directly [N].
    checks : tuple of Check
        The ways it gives.
    which : ndarray of int, shape (K,)
        Which of them is the lowest, -1 where none is known.
    """

    margin: Array
    outside: NDArray[np.bool_]
    asks: dict[str, Array]
    checks: tuple[Check, ...]
    which: NDArray[np.intp]

    def gives(self, spot: int) -> str:
        """Name what gives at a spot; empty where no margin is known."""
        return str(self.checks[self.which[spot]].gives) if self.which[spot] >= 0 else ""


def spot_margins(checks: Iterable[Check], spots: int) -> SpotMargins:
    """Take the lowest margin of each spot.

    Parameters
    ----------
    checks : iterable of Check
        Of one joint, over (cases, K); bounds and statements are passed over.
    spots : int
        K.

    Returns
    -------
    SpotMargins
        With what gives.
    """
    best, outside = np.full(spots, np.inf), np.zeros(spots, dtype=bool)
    which = np.full(spots, -1)
    asks: dict[str, Array] = {}
    every = tuple(check for check in checks if check.kind == "margin")
    at = np.arange(spots)
    for i, check in enumerate(every):
        margins = check.margins()
        if margins is None:
            asks |= _asked(check, spots)
            continue
        worst = np.argmin(margins, axis=0)
        least = margins[worst, at]
        lower = least < best
        best, which = np.where(lower, least, best), np.where(lower, i, which)
        outside = np.where(lower, np.broadcast_to(check.outside, margins.shape)[worst, at], outside)
    return SpotMargins(best, outside, asks, every, which)


def _asked(check: Check, spots: int) -> dict[str, Array]:
    """Give what a rivet of unknown strength must be good for, of the two ways that ask for it directly."""
    if check.mode not in {"rivet-shear", "rivet-pull"} or check.needs(check.required):
        return {}
    with quiet():
        required = check.sides()[1]
    assert required is not None  # noqa: S101 - nothing of it is missing
    whole = np.broadcast_to(required, (len(check.cases), spots))
    return {check.missing[0]: whole.max(axis=0)}
