"""Can a rivet be set: room for head, nose and body of the tool beside a wall, and behind the sheet.

A wall stands square to the sheet the rivet is in, with a bend between them: the web beside a flange, a flange beside
the web, the leg of a bracket. Distances run from the rivet's axis to the wall's outer face, as on a drawing.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.errors import SurfaceError
from surfacecheck.rules._spacing import edge_times

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, NDArray

__all__ = [
    "MOST_WEDGE",
    "NOSE_GAP",
    "TAIL_ROOM",
    "least_flange",
    "nose_room",
    "tail_room",
    "tool_tilt",
]

NOSE_GAP = 1.0e-3
"""Air wanted between the nose of a tool and a wall without a bend [m]; common practice."""
MOST_WEDGE = float(np.deg2rad(20.0))
"""Largest wedge a pulled rivet is set on [rad]: 10 to 20 degrees are usual; common practice."""
TAIL_ROOM = 2.0e-3
"""Room wanted behind the body of a blind rivet before it is pulled [m]; common practice."""


def _lengths(*, above: bool = False, **lengths: ArrayLike) -> tuple[NDArray[np.float64], ...]:
    arrays = []
    for name, value in lengths.items():
        array = np.asarray(value, dtype=np.float64)
        if not (array > 0.0 if above else array >= 0.0).all():
            least = "above 0" if above else "0 or more"
            message = (
                f"{name.replace('_', ' ')} is {float(np.min(array)) * 1e3:g} mm; it must be {least}: measure again"
            )
            raise SurfaceError(message)
        arrays.append(array)
    return tuple(arrays)


def nose_room(thickness: ArrayLike, inside: ArrayLike, nose: ArrayLike) -> NDArray[np.float64]:
    """Give the least distance of a rivet from a wall at which the nose of a tool stands flat beside it.

    a >= t + R_n + max(r, 1 mm)

    Parameters
    ----------
    thickness : array_like
        Of the wall [m].
    inside : array_like
        Inside bend radius between wall and sheet; 0 for none [m].
    nose : array_like
        Radius of the nose [m].

    Returns
    -------
    ndarray
        Rivet axis to the wall's outer face [m].

    Raises
    ------
    SurfaceError
        For a length below zero, or a nose without width.

    Notes
    -----
    The nose is flat and stands on the flat of the sheet, so it ends where the bend begins; where there is no bend, or
    a sharp one, it keeps 1 mm off the wall.

    References
    ----------
    Common practice.

    Examples
    --------
    0.8 mm, bent round 2.0 mm, a nose of 6 mm radius:

    >>> float(nose_room(0.8e-3, 2.0e-3, 6.0e-3)).__round__(5)
    0.0088
    """
    t, r = _lengths(thickness=thickness, inside_radius=inside)
    (R_n,) = _lengths(above=True, nose_radius=nose)
    return np.asarray(t + R_n + np.maximum(r, NOSE_GAP))


def tool_tilt(
    distance: ArrayLike, thickness: ArrayLike, height: ArrayLike, body: ArrayLike, nose_long: ArrayLike
) -> NDArray[np.float64]:
    """Give the angle at which the body of a tool must lean away from a wall.

    theta = atan((R_b - (a - t)) / z), 0 where the body clears the wall or begins above it

    Parameters
    ----------
    distance : array_like
        Rivet axis to the wall's outer face, a [m].
    thickness : array_like
        Of the wall, t [m].
    height : array_like
        Of the wall above the sheet the nose stands on; infinite for one higher than any tool [m].
    body : array_like
        Radius of the body, R_b [m].
    nose_long : array_like
        Sheet to where the body begins, z [m].

    Returns
    -------
    ndarray
        The angle [rad]; a wedge of that angle goes under the nose.

    Raises
    ------
    SurfaceError
        For a length below zero, or a tool without a nose.

    References
    ----------
    Common practice.

    Examples
    --------
    12 mm from the outer face of a 0.8 mm wall; body 18 mm in radius, 22 mm behind the nose:

    >>> np.rad2deg(tool_tilt(12e-3, 0.8e-3, np.inf, 18e-3, 22e-3)).round(1).tolist()
    17.2
    """
    a, t, h = _lengths(distance=distance, thickness=thickness, wall_height=height)
    R_b, z = _lengths(above=True, body_radius=body, nose_long=nose_long)
    over = np.maximum(R_b - (a - t), 0.0)
    return np.asarray(np.where(h > z, np.arctan2(over, z), 0.0))


def least_flange(
    thickness: ArrayLike,
    inside: ArrayLike,
    diameter: ArrayLike,
    head: ArrayLike,
    nose: ArrayLike | None = None,
    *,
    kind: str = "protruding",
) -> NDArray[np.float64]:
    """Give the least width of a bent flange that takes a rivet: room for head or nose, and the edge distance.

    w >= t + max(r + d_head/2, nose room - t) + 2 D

    Parameters
    ----------
    thickness : array_like
        Of the bent sheet [m].
    inside : array_like
        Inside bend radius [m].
    diameter : array_like
        Nominal rivet diameter [m].
    head : array_like
        Diameter of what lies on the inner side of the flange, head or tail [m].
    nose : array_like, optional
        Radius of the nose of the tool, where it stands on the inner side [m].
    kind : str
        Of the head, for the edge distance.

    Returns
    -------
    ndarray
        Outer face of the bend to the free edge [m].

    Raises
    ------
    SurfaceError
        For a length below zero, or a head that no rule names.

    References
    ----------
    AC 43.13-1B, 4-57 (edge distance); common practice.

    Examples
    --------
    3.2 mm rivet, head 2.1 D, 0.63 mm sheet bent round 1.6 mm: by the head, and with a nose of 5 mm radius inside

    >>> for nose in (None, 5e-3):
    ...     print((1e3 * least_flange(0.63e-3, 1.6e-3, 3.2e-3, 2.1 * 3.2e-3, nose)).round(1))
    12.0
    13.6
    """
    t, r, d_h = _lengths(thickness=thickness, inside_radius=inside, head=head)
    (D,) = _lengths(above=True, diameter=diameter)
    room = t + r + d_h / 2.0
    if nose is not None:
        room = np.maximum(room, nose_room(t, r, nose))
    return np.asarray(room + edge_times(kind) * D)


def tail_room(length: ArrayLike, under_head: ArrayLike) -> NDArray[np.float64]:
    """Give the room a blind rivet wants behind its stack before it is pulled.

    body length - stack + 2 mm, for the head of the stem that stands out of the body

    Parameters
    ----------
    length : array_like
        Body under the head [m].
    under_head : array_like
        Stack it goes through [m].

    Returns
    -------
    ndarray
        Back of the stack to the nearest thing behind it [m].

    Raises
    ------
    SurfaceError
        For a length below zero.

    References
    ----------
    Common practice.

    Examples
    --------
    >>> float(tail_room(8e-3, 1e-3)).__round__(4)
    0.009
    """
    body, stack = _lengths(body_length=length, stack=under_head)
    return np.asarray(np.maximum(body - stack, 0.0) + TAIL_ROOM)
