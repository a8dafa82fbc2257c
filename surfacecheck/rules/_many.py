"""The same rules asked of many figures at once: who does not meet them, and whom they do not cover.

Each function takes what the rule of the same text takes, and its answer is that rule's outcome for every entry.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.rules._bends import RADIUS_TIMES, SHEET_THICKNESS
from surfacecheck.rules._result import SLACK
from surfacecheck.rules._spacing import GAP_TIMES, edge_times, pitch_times
from surfacecheck.strength import LEAST_T_OVER_D

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, NDArray

    Flags = NDArray[np.bool_]

__all__ = [
    "bend_clearance_short",
    "bend_radius_short",
    "edge_short",
    "gap_short",
    "outside_range",
    "pitch_short",
    "sheet_too_thin",
]


def _f(value: ArrayLike) -> NDArray[np.float64]:
    return np.asarray(value, dtype=np.float64)


def edge_short(edge: ArrayLike, diameter: ArrayLike, head: str = "protruding") -> Flags:
    """Tell which edge distances do not meet the 2 D (protruding) or 2.5 D (countersunk) of the texts.

    Parameters
    ----------
    edge : array_like
        Hole centre to the edge of that sheet [m].
    diameter : array_like
        Nominal rivet diameter [m].
    head : str
        ``"protruding"`` or ``"countersunk"``.

    Returns
    -------
    ndarray of bool
        Where :func:`edge_distance` says ``"does not meet"`` [-].

    References
    ----------
    AC 43.13-1B, 4-57; FAA-H-8083-31.

    Examples
    --------
    >>> edge_short([7.0e-3, 5.5e-3], 3.2e-3)
    array([False,  True])
    """
    return np.asarray(_f(edge) < edge_times(head) * _f(diameter) - SLACK)


def pitch_short(pitch: ArrayLike, diameter: ArrayLike, lines: int = 1) -> Flags:
    """Tell which pitches do not meet the least the texts ask.

    Parameters
    ----------
    pitch : array_like
        Distance of rivets in a line [m].
    diameter : array_like
        Nominal rivet diameter [m].
    lines : int
        Lines side by side [-].

    Returns
    -------
    ndarray of bool
        Where :func:`least_pitch` says ``"does not meet"`` [-].

    References
    ----------
    AC 43.13-1B, 4-57 and figure 4-5.

    Examples
    --------
    >>> pitch_short([9.5e-3, 9.6e-3], 3.2e-3)
    array([ True, False])
    """
    return np.asarray(_f(pitch) < pitch_times(lines) * _f(diameter) - SLACK)


def gap_short(gap: ArrayLike, diameter: ArrayLike) -> Flags:
    """Tell which lines of rivets are closer than the texts ask.

    Parameters
    ----------
    gap : array_like
        Distance of the lines [m].
    diameter : array_like
        Nominal rivet diameter [m].

    Returns
    -------
    ndarray of bool
        Where :func:`row_gap` says ``"does not meet"`` [-].

    References
    ----------
    FAA-H-8083-31, rivet layout.

    Examples
    --------
    >>> gap_short([7.9e-3, 8.0e-3], 3.2e-3)
    array([ True, False])
    """
    return np.asarray(_f(gap) < GAP_TIMES * _f(diameter) - SLACK)


def outside_range(found: ArrayLike, least: ArrayLike | None, most: ArrayLike | None) -> Flags:
    """Tell which holes or stacks lie outside the range of their rivet, an end that is not given holding nothing back.

    Parameters
    ----------
    found : array_like
        Hole, or all layers together [m].
    least, most : array_like or None
        Range of the rivet [m].

    Returns
    -------
    ndarray of bool
        Where :func:`hole_range` and :func:`grip_range` say ``"does not meet"`` [-].

    References
    ----------
    The rivet's data sheet.

    Examples
    --------
    >>> outside_range([4.05e-3, 4.1e-3, 4.45e-3], 4.1e-3, 4.2e-3)
    array([ True, False,  True])
    """
    value = _f(found)
    low = np.zeros(value.shape, dtype=bool) if least is None else value < _f(least) - SLACK
    return np.asarray(low if most is None else low | (value > _f(most) + SLACK))


def sheet_too_thin(thinnest: ArrayLike, diameter: ArrayLike) -> Flags:
    """Tell which sheets the rivet tables do not cover: t/D under 0.18.

    Parameters
    ----------
    thinnest : array_like
        Thinner sheet [m].
    diameter : array_like
        Nominal rivet diameter [m].

    Returns
    -------
    ndarray of bool
        Where :func:`sheet_range` says ``"not covered"`` [-].

    References
    ----------
    MIL-HDBK-5J (2003), 8.1.2.1, as quoted in secondary text.

    Examples
    --------
    >>> sheet_too_thin([0.5e-3, 0.6e-3], 3.2e-3)
    array([ True, False])
    """
    return np.asarray(_f(thinnest) < LEAST_T_OVER_D * _f(diameter) - SLACK)


def bend_radius_short(alloy: str, thickness: ArrayLike, inside: ArrayLike) -> tuple[Flags, Flags]:
    """Tell which inside bend radii are under the least one recommended, and which sheets the table does not hold.

    Parameters
    ----------
    alloy : str
        Alloy and temper.
    thickness : array_like
        Sheet thickness [m].
    inside : array_like
        Inside radius [m].

    Returns
    -------
    short, uncovered : ndarray of bool
        Where :func:`bend_radius` says ``"does not meet"``, and where ``"not covered"`` [-].

    References
    ----------
    AC 43.13-1B, Table 4-6.

    Examples
    --------
    >>> bend_radius_short("2024-T3 clad", [0.8e-3, 1.2e-3], 2.0e-3)
    (array([False,  True]), array([False, False]))
    """
    t, radius = np.broadcast_arrays(_f(thickness), _f(inside))
    row = RADIUS_TIMES.get(alloy.removesuffix(" clad").removesuffix(" bare"))
    if row is None:
        return np.zeros(t.shape, dtype=bool), np.ones(t.shape, dtype=bool)
    held = (t >= SHEET_THICKNESS[0] - SLACK) & (t <= SHEET_THICKNESS[-1] + SLACK)
    return np.asarray(held & (radius < np.interp(t, SHEET_THICKNESS, row[0]) * t - SLACK)), np.asarray(~held)


def bend_clearance_short(from_bend: ArrayLike, thickness: ArrayLike, inside: ArrayLike, head: ArrayLike) -> Flags:
    """Tell which rivet heads do not stand clear of a bend.

    Parameters
    ----------
    from_bend : array_like
        Hole centre to the outer face of the other leg [m].
    thickness : array_like
        Sheet thickness [m].
    inside : array_like
        Inside bend radius [m].
    head : array_like
        Diameter of the head or tail on the inner side [m].

    Returns
    -------
    ndarray of bool
        Where :func:`bend_clearance` says ``"does not meet"`` [-].

    References
    ----------
    Common practice.

    Examples
    --------
    >>> bend_clearance_short([8.0e-3, 6.0e-3], 0.8e-3, 2.4e-3, 6.5e-3)
    array([False,  True])
    """
    return np.asarray(_f(from_bend) < _f(thickness) + _f(inside) + _f(head) / 2.0 - SLACK)
