"""What a picture of a touched rivet shows: its group or its row from one side, the forces, the hole, the edges."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, NamedTuple

from surfacecheck.report._places import number
from surfacecheck.studies import group_name

if TYPE_CHECKING:
    from collections.abc import Callable

    import numpy as np
    from matplotlib.axes import Axes
    from numpy.typing import NDArray

    from surfacecheck.model import Rivet
    from surfacecheck.studies import Deviation

    Array = NDArray[np.float64]

__all__ = ["Edge", "Edges", "Scene", "edge_now", "hole_now", "rivet_at", "touched_of"]


class Edge(NamedTuple):
    """An edge of a sheet: how far from the rivet [m], and of which sheet where there are several."""

    distance: float
    sheet: str = ""


Edges = tuple[Edge | None, Edge | None, Edge | None, Edge | None]


@dataclass(frozen=True, eq=False)
class Scene:
    """A group of rivets as it is seen, in metres from its middle.

    Attributes
    ----------
    view : str
        In words.
    frame : tuple of float
        Half width and half height that hold everything [m].
    ground : callable
        Draws sheet, bracket, plate below the rivets.
    right, up : ndarray, shape (R,)
        Places of the rivets on the page [m].
    first : int
        Number of the first.
    at : int
        Which of them the picture is about.
    touched : tuple of int
        All that are touched.
    force : ndarray, shape (R, 2)
        In the plane of the picture, right and up [N]; nothing where only the size is known.
    pull : ndarray, shape (R,)
        Towards the head [N].
    either : bool
        Whether a force acts this way and, in another case, that way.
    rivet : Rivet
        From the file: its diameter, hole and head are drawn.
    hole : tuple of float or None
        Largest hole as it is now, right and up on the page [m].
    edges : tuple of (Edge or None)
        Of the sheet on the left, right, below, above of the rivet.
    edge_now : float or None
        Nearest edge as it is now, where it is not as drawn [m].
    """

    view: str
    frame: tuple[float, float]
    ground: Callable[[Axes], object]
    right: Array
    up: Array
    first: int
    at: int
    touched: tuple[int, ...]
    force: Array
    pull: Array
    either: bool
    rivet: Rivet
    hole: tuple[float, float] | None
    edges: Edges
    edge_now: float | None


def rivet_at(place: str) -> int:
    """Give the number of a rivet in its group, from zero.

    Examples
    --------
    >>> rivet_at("hinge.middle.bracket.rivet-3")
    2
    """
    return int(place.rpartition("-")[2]) - 1


def touched_of(deviation: Deviation, place: str) -> tuple[int, ...]:
    """Give the rivets of the group of one that are touched, from zero.

    Parameters
    ----------
    deviation : Deviation
        Worked.
    place : str
        One of its places.

    Returns
    -------
    tuple of int
        In the order they are named.
    """
    group = group_name(place)
    return tuple(rivet_at(one) for one in deviation.places if group_name(one) == group != one)


def hole_now(deviation: Deviation, place: str, *, flat: bool) -> tuple[float, float] | None:
    """Give the largest hole of any layer as it is now.

    Parameters
    ----------
    deviation : Deviation
        Worked.
    place : str
        One of its places.
    flat : bool
        Whether its row lies flat on the page.

    Returns
    -------
    tuple of float or None
        Right and up on the page [m]; None where it is as drawn.
    """
    apart = deviation.now.fully.surface.apart.get(place)
    if apart is None:
        return None
    across = [one for value in apart.across.values() if (one := number(value)) is not None]
    along = [one for value in apart.along.values() if (one := number(value)) is not None]
    if not across or not along:
        return None
    return (max(along), max(across)) if flat else (max(across), max(along))


def edge_now(deviation: Deviation, place: str) -> float | None:
    """Give the nearest edge of any layer as it is now.

    Parameters
    ----------
    deviation : Deviation
        Worked.
    place : str
        One of its places.

    Returns
    -------
    float or None
        [m]; None where it is as drawn.
    """
    apart = deviation.now.fully.surface.apart.get(place)
    found = [one for value in (apart.edge.values() if apart else ()) if (one := number(value)) is not None]
    return min(found, default=None)
