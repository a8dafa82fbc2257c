"""A wall beside a rivet, and a side from which rivets are pulled."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

__all__ = ["Side", "Wall"]


@dataclass(frozen=True, eq=False)
class Wall:
    """Something that stands square to the sheet beside the rivets of a line.

    Attributes
    ----------
    words : str
        What it is.
    toward : str
        On which side of the rivets.
    distance : ndarray, shape (n,)
        Rivet axis to its outer face [m].
    thickness, inside : float
        Of the wall, and inside radius of the bend at its foot [m].
    height : float
        Above the sheet the nose stands on [m]; infinite for one higher than any tool.
    note : str
        What is said where it stands nearest.
    """

    words: str
    toward: str
    distance: NDArray[np.float64]
    thickness: float
    inside: float
    height: float = math.inf
    note: str = ""


@dataclass(frozen=True, eq=False)
class Side:
    """A side from which rivets are pulled.

    Attributes
    ----------
    words : str
        ``from behind``, ``from the left`` ...
    walls : tuple of Wall
        What stands beside them there.
    missing : tuple of str
        Keys that hide a wall.
    notes : tuple of str
        What was not looked at.
    """

    words: str
    walls: tuple[Wall, ...] = ()
    missing: tuple[str, ...] = ()
    notes: tuple[str, ...] = ()
