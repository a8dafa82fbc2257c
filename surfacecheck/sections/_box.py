"""The sections of a surface along its span, with their walls and nodes by name."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.sections._section import Section

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from surfacecheck.model import Surface

    Array = NDArray[np.float64]

__all__ = ["SIDES", "Box", "sides_of"]

SIDES = ("plus", "minus")
"""The +z skin and the -z skin; :func:`sides_of` gives the builder's words."""


@dataclass(frozen=True, eq=False)
class Box:
    """Sections of a surface along its span.

    Attributes
    ----------
    walls : tuple of str
        Names of the walls, along the last axis of every flow.
    nodes : tuple of str
        Names of the nodes.
    closed : Section
        With the nose as a cell where it is closed; leading axes (..., S).
    rear_alone : Section or None
        With the nose open everywhere; None where there is no nose skin.
    modulus, shear_modulus : ndarray, shape (..., 1) or ()
        E and G of the spar, the reference [Pa].
    web_t : ndarray, shape (..., 1) or ()
        Thickness of the bare web [m].
    skin_t : dict of str to ndarray, shape (..., S)
        Thickness of the skins, by side, with doublers that cover them from spar to trailing edge [m].
    doubler_t : ndarray, shape (..., S)
        Thickness of web doublers [m].
    nose_around : ndarray, shape (..., S), or None
        Length of the nose skin from flange to flange [m]; None where there is none.
    rear_closed : bool
        Whether the skins close the cell behind the spar.
    height : ndarray, shape (..., S)
        Depth of the spar between middle lines [m].
    web_x, edge_x, middle_z : ndarray, shape (..., S)
        Web, trailing edge, middle of the depth [m].
    flange : ndarray, shape (..., 1) or ()
        Middle-line width of a flange [m].
    assumptions : tuple of str
        What was taken for granted.
    """

    walls: tuple[str, ...]
    nodes: tuple[str, ...]
    closed: Section
    rear_alone: Section | None
    modulus: Array
    shear_modulus: Array
    web_t: Array
    skin_t: dict[str, Array]
    doubler_t: Array
    nose_around: Array | None
    rear_closed: bool
    height: Array
    web_x: Array
    edge_x: Array
    middle_z: Array
    flange: Array
    assumptions: tuple[str, ...]

    def wall(self, name: str) -> int:
        """Index of a wall.

        Parameters
        ----------
        name : str
            Such as ``skin_plus``.

        Returns
        -------
        int
            Place along the last axis of a flow [-].
        """
        return self.walls.index(name)

    def node(self, name: str) -> int:
        """Index of a node.

        Parameters
        ----------
        name : str
            Such as ``corner_plus``.

        Returns
        -------
        int
            Place along the last axis of node arrays [-].
        """
        return self.nodes.index(name)

    def has(self, name: str) -> bool:
        """Whether there is a wall of this name."""
        return name in self.walls


def sides_of(surface: Surface) -> dict[str, str]:
    """Give the skin of the model on each side of the kernel.

    Parameters
    ----------
    surface : Surface
        Any surface.

    Returns
    -------
    dict of str to str
        ``plus`` and ``minus`` to ``left_skin`` or ``right_skin``.
    """
    plus = "left_skin" if surface.left_is > 0 else "right_skin"
    return {"plus": plus, "minus": "right_skin" if plus == "left_skin" else "left_skin"}
