"""Groups of rivets of which some stand apart: their stiffness, their places, the holes they leave across a web."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.axes import over_both
from surfacecheck.checks._apart import apart_in
from surfacecheck.checks._check import Term
from surfacecheck.places import drawn_rivet, spot_of
from surfacecheck.provenance import Value, in_a_row, numbers, over_stations

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from surfacecheck.model import Apart, Bracket, Rivet, Surface

    Array = NDArray[np.float64]

__all__ = ["holes_across", "moved_group", "rivet_weights", "weights"]


def weights(surface: Surface, whole: str, rivet: Rivet, count: int) -> Array | None:
    """Give the stiffness of each rivet of a group, over that of one as drawn.

    Parameters
    ----------
    surface : Surface
        As it is.
    whole : str
        Name of the group.
    rivet : Rivet
        As drawn.
    count : int
        Rivets of the group, R [-].

    Returns
    -------
    ndarray, shape (..., R), or None
        1 for a rivet as drawn, 0 for one that holds nothing, of another size by its area [-]; None where none stands
        apart.

    References
    ----------
    Stiffness by the area of the rivet, as a group's relative stiffness is usually taken: common practice.
    """
    apart = apart_in(surface, whole, count)
    if not apart:
        return None
    return in_a_row([_stiffness(apart[i], rivet) if i in apart else 1.0 for i in range(count)])


def rivet_weights(surface: Surface, place: str, count: int) -> Array:
    """Give the stiffness of each rivet of a bracket or the horn, by the name of the group.

    Parameters
    ----------
    surface : Surface
        As it is.
    place : str
        ``hinge.middle.bracket``, ``horn``.
    count : int
        Its rivets, R [-].

    Returns
    -------
    ndarray, shape (..., R)
        As :func:`weights`; 1 for all where none stands apart [-].
    """
    whole = "horn.rivets" if place == "horn" else place
    drawn = drawn_rivet(surface, spot_of(surface, place))
    found = None if drawn is None else weights(surface, whole, drawn, count)
    return np.ones(count) if found is None else found


def _stiffness(one: Apart, drawn: Rivet) -> Array:
    holds = numbers(one.holds)
    if one.rivet is None or not (one.rivet.diameter.known and drawn.diameter.known):
        return holds
    return np.asarray(holds * (numbers(one.rivet.diameter) / numbers(drawn.diameter)) ** 2)


def moved_group(surface: Surface, whole: str, a: Array, b: Array, left_is: int) -> tuple[Array, Array]:
    """Give the places of a group's rivets where it was turned or moved, or single rivets of it were.

    Parameters
    ----------
    surface : Surface
        As it is.
    whole : str
        Name of the group.
    a, b : ndarray, shape (..., R)
        As drawn, along the line of the rivets and along z (x, z at the horn) from the middle of the group [m].
    left_is : int
        Sign of z to the left [-].

    Returns
    -------
    tuple of ndarray, shape (..., R)
        Turned about the middle of the group, then moved [m].
    """
    group = surface.apart.get(whole)
    if group is not None and group.turned.known:
        turn = over_stations(group.turned)
        left = left_is * b
        a, b = a * np.cos(turn) - left * np.sin(turn), left_is * (a * np.sin(turn) + left * np.cos(turn))
    if group is not None:
        a, b = a + _by(group.moved_along), b + left_is * _by(group.moved_across)
    single = apart_in(surface, whole, a.shape[-1])
    if not any(one.moved_along.known or one.moved_across.known for one in single.values()):
        return a, b
    along, across = (
        in_a_row([_moved(getattr(single[i], way)) if i in single else 0.0 for i in range(a.shape[-1])])
        for way in ("moved_along", "moved_across")
    )
    return a + along, b + left_is * across


def holes_across(surface: Surface, hinge: str, bracket: Bracket, rivet: Rivet) -> Term:
    """Give the width of the holes in the web at a bracket: the mean of the row across it that loses most.

    Parameters
    ----------
    surface : Surface
        As it is.
    hinge : str
        Name of the hinge.
    bracket : Bracket
        Its bracket.
    rivet : Rivet
        As drawn.

    Returns
    -------
    Term
        The drawn hole where none stands apart [m].
    """
    drawn = Term.of(rivet.hole, "length", "hole of the bracket's rivets")
    along, count = bracket.along or 1, (bracket.along or 1) * (bracket.sideways or 1)
    apart = apart_in(surface, f"hinge.{hinge}.bracket", count)
    own = {i: one.across["spar"] for i, one in apart.items() if "spar" in one.across}
    if not own or not rivet.hole.known:
        return drawn
    sizes = in_a_row([numbers(own.get(i, rivet.hole)) for i in range(count)])
    rows = sizes.reshape(*sizes.shape[:-1], -1, along)
    widest = np.where((rows == rows[..., :1, :]).all(axis=-2), rows[..., 0, :], rows.mean(axis=-2)).max(axis=-1)
    return Term(over_both(widest), "length", "holes across the web, mean of the worst row", drawn.source)


def _by(value: Value) -> Array:
    return over_stations(value) if value.known else np.asarray(0.0)


def _moved(value: Value) -> Array:
    return numbers(value) if value.known else np.asarray(0.0)
