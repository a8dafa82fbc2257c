"""Every combination of a few choices, with a limit: a list too many makes a thousand millions of them."""

from __future__ import annotations

from math import prod
from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.errors import SurfaceError

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from numpy.typing import NDArray

__all__ = ["MOST", "combinations", "too_many"]

MOST = 1_000_000
"""Variants that are worked without being asked for twice: about half an hour of one core (sweeps.md beside this)."""


def combinations(
    choices: Mapping[str, Sequence[float] | NDArray[np.float64]], most: int = MOST
) -> dict[str, NDArray[np.float64]]:
    """Combine every choice of each number with every choice of the others.

    Parameters
    ----------
    choices : mapping of str to sequence of float
        By key [SI].
    most : int
        Combinations at most [-].

    Returns
    -------
    dict of str to ndarray, shape (V,)
        By key [SI]; the last key runs fastest.

    Raises
    ------
    SurfaceError
        For an empty list, and with their count where there are more than ``most``.

    Examples
    --------
    >>> both = combinations({"rivet.large.hole": [4.1e-3, 4.2e-3], "sheet.spar.thickness": [0.8e-3, 1.0e-3]})
    >>> both["sheet.spar.thickness"]
    array([0.0008, 0.001 , 0.0008, 0.001 ])
    """
    lists = {key: np.asarray(values, dtype=np.float64).reshape(-1) for key, values in choices.items()}
    for key, values in lists.items():
        if not values.size:
            message = f"{key}: an empty list has no combinations; give one value at least, or leave the key out"
            raise SurfaceError(message)
    if not lists:
        message = "no key is varied: give one at least, with its values"
        raise SurfaceError(message)
    count = prod(values.size for values in lists.values())
    too_many(count, most, " x ".join(f"{values.size} of {key}" for key, values in lists.items()))
    grids = np.meshgrid(*lists.values(), indexing="ij")
    return {key: grid.reshape(-1) for key, grid in zip(lists, grids, strict=True)}


def too_many(count: int, most: int, of: str) -> None:
    """Refuse more variants than were allowed.

    Parameters
    ----------
    count, most : int
        Asked for, and allowed [-].
    of : str
        What they are made of.

    Raises
    ------
    SurfaceError
        With the count.
    """
    if count > most:
        message = f"{count:,} variants ({of}) are asked for, {most:,} allowed: take fewer values, or say most={count}"
        raise SurfaceError(message)
