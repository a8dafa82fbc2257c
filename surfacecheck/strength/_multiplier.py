"""How far a load can grow before a part is exhausted, where effect and load do not grow in step.

The margin is the multiplier of the load that just exhausts the part, minus one, with the ultimate state evaluated at
ultimate load. What does not grow with the load (a hinge drilled off line) stays as it is.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.strength._numbers import at_least, floats, ratio

if TYPE_CHECKING:
    from collections.abc import Callable

    from numpy.typing import ArrayLike, NDArray

__all__ = ["LARGEST_MULTIPLIER", "load_multiplier", "set_in_margin"]

LARGEST_MULTIPLIER = 2.0**40
"""Above this a multiplier is reported as infinite: the load does not exhaust the part."""

_BISECTIONS = 100  # enough to halve 2^40 down to the last bit of any multiplier above 1e-9


def load_multiplier(
    utilisation: Callable[[NDArray[np.float64]], ArrayLike], shape: tuple[int, ...] = ()
) -> NDArray[np.float64]:
    """Find the multiplier of the load at which a utilisation reaches 1.

    utilisation(multiplier) = 1

    Parameters
    ----------
    utilisation : callable
        From an array of multipliers [-] (of ``shape``) to an array of utilisations [-]; must not fall as the
        multiplier grows. Factors of safety and all that does not scale belong inside it.
    shape : tuple of int
        Shape of the stack [-].

    Returns
    -------
    ndarray
        Multiplier, of ``shape`` [-]; 0 where the part is exhausted without any load, infinite where no load
        below :data:`LARGEST_MULTIPLIER` exhausts it. The margin is this minus one.

    Notes
    -----
    Halving an interval a fixed number of times: every element takes the same steps, so a stack gives what its members
    give alone, bit for bit.

    References
    ----------
    14 CFR Part 23 (Amdt 23-62), 23.305, for what the ultimate state is; bisection, any numerical text.

    Examples
    --------
    An effect of 2 per unit of load and 1 set in, against a strength of 5:

    >>> float(load_multiplier(lambda m: (2.0 * m + 1.0) / 5.0))
    2.0
    """
    low = np.zeros(shape)
    high = np.full(shape, LARGEST_MULTIPLIER)
    spent = floats(utilisation(low)) >= 1.0
    never = floats(utilisation(high)) < 1.0
    high = np.ones(shape)
    for _ in range(40):  # double until it holds the root, so that halving starts near it
        short = floats(utilisation(high)) < 1.0
        low = np.where(short, high, low)
        high = np.where(short, 2.0 * high, high)
    for _ in range(_BISECTIONS):
        middle = 0.5 * (low + high)
        short = floats(utilisation(middle)) < 1.0
        low = np.where(short, middle, low)
        high = np.where(short, high, middle)
    return np.asarray(np.where(spent, 0.0, np.where(never, np.inf, high)))


def set_in_margin(
    strength: ArrayLike, effect: ArrayLike, set_in: ArrayLike, factor: ArrayLike = 1.0
) -> NDArray[np.float64]:
    """Give the margin of a straight-line effect with a part that does not scale.

    margin = (strength - s) / (factor |effect|) - 1, s = set-in part, positive where it acts with the effect

    Parameters
    ----------
    strength : array_like
        What the part carries in either direction, not negative [any].
    effect : array_like
        Effect of the limit load, signed [same].
    set_in : array_like
        Effect that is there without load, signed [same].
    factor : array_like
        Factor of safety and special factors, on the load only [-].

    Returns
    -------
    ndarray
        Multiplier of the load that exhausts the part, minus one [-]; -1 where the set-in part alone does,
        infinite where nothing grows with the load.

    References
    ----------
    14 CFR Part 23 (Amdt 23-62), 23.303: the factor is on the load; a displacement is no load.

    Examples
    --------
    The set-in part first helps, so the load must undo it:

    >>> float(set_in_margin(500.0, -233.55, 48.975, 1.5))
    0.5670...
    """
    (p,) = at_least(0.0, strength=strength)
    a, s = floats(effect), floats(set_in)
    room = p - np.where(a < 0.0, -s, s)
    multiplier = np.where(a == 0.0, np.inf, ratio(np.maximum(room, 0.0), np.abs(a) * floats(factor)))
    return np.asarray(np.where(np.abs(s) > p, 0.0, multiplier) - 1.0)
