"""What holds the torque of a case: a line of force, a couple, or nothing."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from surfacecheck.loads._case import LoadCase
from surfacecheck.loads._from_surface import number
from surfacecheck.loads._horn import HornLine, horn_needs
from surfacecheck.loads._onto_grid import break_at
from surfacecheck.model import DrivenBy, Surface

__all__ = ["Hold", "hold_of"]

Array = NDArray[np.float64]


@dataclass(frozen=True, slots=True, eq=False)
class Hold:
    """What closes the moment about the hinge line.

    Attributes
    ----------
    how : {"line", "couple", "nothing", "not given"}
        A force along a line (cable, rod, stop), a pure couple, nothing left to hold, or not known.
    at_break : int
        Where, as index of the break; -1 for nothing or not given.
    x, z : ndarray, shape (...)
        Point of a line, aft of the pins and towards +z [m].
    direction : ndarray, shape (..., 3)
        Unit force on the surface for a positive result [-].
    one_way : bool
        Whether only a positive force can be (cables pull, a stop pushes); a rod does both.
    needs : str
        Key that hides it.
    """

    how: Literal["line", "couple", "nothing", "not given"]
    at_break: int = -1
    x: Array | float = 0.0
    z: Array | float = 0.0
    direction: Array | tuple[float, float, float] = (0.0, 0.0, 0.0)
    one_way: bool = False
    needs: str = ""


def hold_of(case: LoadCase, surface: Surface, line: HornLine | None, breaks: Array, torque: Array) -> Hold:
    """Work out what holds a case.

    Parameters
    ----------
    case : LoadCase
        The case.
    surface : Surface
        The surface.
    line : HornLine or None
        Of cable or rod; None while the horn is not known.
    breaks : ndarray, shape (..., B)
        Of the beam [m].
    torque : ndarray, shape (...)
        Of everything else about the hinge line; it decides which of two cables works [N m].

    Returns
    -------
    Hold
        The hold.
    """
    if case.closing == "pedals":
        return Hold("nothing")
    if case.closing == "stop":
        stop = surface.controls.stop
        if stop is None or stop.up.si is None or stop.arm.si is None:
            return Hold("not given", needs="controls.stop")
        z = case.swing * number(stop.arm)
        place = break_at(breaks, number(stop.up), "stop")
        return Hold("line", place, 0.0, z, (1.0, 0.0, 0.0), one_way=True)
    if line is None:
        return Hold("not given", needs=horn_needs(surface) or "horn")
    place = break_at(breaks, line.y, "horn")
    if case.closing == "surface lock" or line.driven_by is DrivenBy.TORQUE_TUBE:
        return Hold("couple", place)
    side = line.side_for(torque)
    cables = line.driven_by is DrivenBy.TWO_CABLES
    return Hold("line", place, line.x, side * line.off, line.direction(side), one_way=cables)
