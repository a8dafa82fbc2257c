"""Where cable or rod takes hold of the horn, and which way it pulls.

A cable only pulls; which of two cables works is decided by the torque it has to hold. With the air load reversed the
other one pulls the same way along the chord, so the chordwise force does not change sign.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from surfacecheck.errors import SurfaceError
from surfacecheck.loads._from_surface import number
from surfacecheck.model import DrivenBy, Side, Surface
from surfacecheck.provenance import Value, in_a_row

__all__ = ["HornLine", "horn_line", "horn_needs"]

Array = NDArray[np.float64]


@dataclass(frozen=True, slots=True, eq=False)
class HornLine:
    """Line of cable or rod on the horn's two sides (+1 at +z, -1 at -z).

    Attributes
    ----------
    driven_by : DrivenBy
        Two cables, rod or torque tube.
    y : ndarray, shape (...)
        Place along the pins [m].
    x, off : ndarray, shape (...)
        Bolt aft of the pins, and off the line of the pins towards its side (z = side x off) [m].
    chordwise, inward, along : ndarray, shape (...)
        Unit direction of a pull: along x; towards the line of the pins; along y [-].
    side : int
        Side of a rod; 0 for two cables, which have both.
    """

    driven_by: DrivenBy
    y: Array
    x: Array
    off: Array
    chordwise: Array
    inward: Array
    along: Array
    side: int

    def direction(self, side: Array) -> Array:
        """Give the unit pull on a side, shape (..., 3) for side of shape (...) [-]."""
        parts = (self.chordwise, self.along, 0.0 - side * self.inward)
        return in_a_row(parts)

    def moment(self, side: Array) -> Array:
        """Moment of a unit pull about the hinge line at the horn, (M_x, T_y, M_z), shape (..., 3) [m]."""
        d = self.direction(side)
        z = side * self.off
        parts = (0.0 - z * d[..., 1], z * d[..., 0] - self.x * d[..., 2], self.x * d[..., 1])
        return in_a_row(parts)

    def side_for(self, torque: Array) -> Array:
        """Side that holds a torque of the other loads by pulling; a rod has only one.

        Parameters
        ----------
        torque : ndarray, shape (...)
            About the hinge line [N m].

        Returns
        -------
        ndarray, shape (...)
            +1 or -1 [-].
        """
        if self.side:
            return np.broadcast_to(np.float64(self.side), np.shape(torque))
        plus = self.moment(np.asarray(1.0))[..., 1]
        return np.asarray(np.where(torque * plus > 0.0, -1.0, 1.0))


def horn_needs(surface: Surface) -> str | None:
    """Tell the first key without which the horn cannot hold the surface; None where all is known.

    Parameters
    ----------
    surface : Surface
        The surface.

    Returns
    -------
    str or None
        Key of the file.
    """
    horn = surface.horn
    if horn is None or horn.driven_by is None:
        return "horn.driven_by"
    if horn.up.si is None:
        return horn.up.key or "horn.up"
    if horn.driven_by is DrivenBy.TORQUE_TUBE:
        return None
    if horn.arm.si is None:
        return horn.arm.key or "horn.arm"
    if horn.side is None:
        return "horn.side"
    if horn.bolt_behind.si is None and not horn.bolt_behind.absent:
        return horn.bolt_behind.key or "horn.bolt_behind"
    return "horn.leaves" if horn.leaves is None else None


def _angle(value: Value) -> Array:
    return np.asarray(0.0 if value.si is None else value.si, dtype=np.float64)


def horn_line(surface: Surface) -> HornLine:
    """Work out the line of cable or rod.

    ``arm`` is square to the cable, so that the lever about the pins is the arm whatever the angle:
    off = (arm +- x_bolt sin a) / cos a.

    Parameters
    ----------
    surface : Surface
        With a horn that is known.

    Returns
    -------
    HornLine
        Its line.

    Raises
    ------
    SurfaceError
        Where something is not known, or side and drive contradict each other.
    """
    gap = horn_needs(surface)
    horn = surface.horn
    if gap is not None or horn is None or horn.driven_by is None:
        message = f"{gap} is not given: without it nothing holds the surface against turning"
        raise SurfaceError(message)
    y, nought = number(horn.up), np.asarray(0.0)
    if horn.driven_by is DrivenBy.TORQUE_TUBE:
        return HornLine(horn.driven_by, y, nought, nought, nought, nought, nought, 0)
    cables = horn.driven_by is DrivenBy.TWO_CABLES
    if horn.against_itself:
        raise SurfaceError(*(f"horn: {horn.against_itself}",))
    side = 0 if cables else surface.left_is * (1 if horn.side is Side.LEFT else -1)
    leaves = horn.leaves
    if leaves is None:  # told by horn_needs already; for the type checker
        raise SurfaceError(*("horn.leaves is not given",))
    a, b = _angle(leaves.inward), _angle(leaves.up)
    ahead = -1.0 if leaves.ahead else 1.0
    x = _angle(horn.bolt_behind)
    off = (number(horn.arm) - ahead * x * np.sin(a)) / np.cos(a)
    return HornLine(horn.driven_by, y, x, off, ahead * np.cos(a) * np.cos(b), np.sin(a) * np.cos(b), np.sin(b), side)
