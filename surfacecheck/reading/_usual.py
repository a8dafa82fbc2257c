"""The usual range of a value in figures that a person would write: 60 to 230 knots, never 58 to 233."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from surfacecheck.quantities import to_unit

if TYPE_CHECKING:
    from collections.abc import Callable

__all__ = ["usual_range"]


def usual_range(low: float, high: float, unit: str) -> tuple[str, str]:
    """Write the ends of a usual range.

    Parameters
    ----------
    low, high : float
        Ends [SI].
    unit : str
        Unit shown; empty for bare numbers.

    Returns
    -------
    tuple of str
        An end of up to three figures in that unit as it is. Another comes from the other system of units: it is moved
        inwards to two figures, from 30 on to 5 or 0 in the second, so that what lies outside the range lies outside
        its figures, too.

    Examples
    --------
    >>> usual_range(30.0, 120.0, "knots"), usual_range(0.0003, 0.0012, "mm"), usual_range(0.0003, 0.0012, "in")
    (('60', '230'), ('0.3', '1.2'), ('0.012', '0.045'))
    """
    first, last = (to_unit(one, unit) if unit else one for one in (low, high))
    return _written(first, math.ceil), _written(last, math.floor)


def _written(value: float, inwards: Callable[[float], int]) -> str:
    if not math.isclose(value, float(f"{value:.3g}"), rel_tol=1e-9):
        size = 10.0 ** (math.floor(math.log10(abs(value))) - 1)
        step = size if abs(value) < 30 * size else 5 * size
        value = inwards(value / step) * step
    return f"{value:.10g}"
