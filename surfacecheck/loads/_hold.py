"""What holds the torque of a case: a line of force, a couple, or nothing."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from surfacecheck.loads._case import LoadCase
from surfacecheck.loads._from_surface import number
from surfacecheck.loads._horn import HornLine, horn_needs
from surfacecheck.loads._onto_grid import break_at
from surfacecheck.model import DrivenBy, Surface

__all__ = ["Hands", "Hold"]

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


class Hands:
    """Tells what holds the torque of each case.

    Parameters
    ----------
    surface : Surface
        The surface.
    line : HornLine or None
        Of cable or rod; None while the horn is not known.
    breaks : ndarray, shape (..., B)
        Of the beam [m].
    """

    def __init__(self, surface: Surface, line: HornLine | None, breaks: Array) -> None:
        self.surface, self.line, self.breaks = surface, line, breaks
        self._lines: dict[float, Hold] = {}

    def hold(self, case: LoadCase, torque: Array) -> Hold:
        """Work out what holds a case.

        Parameters
        ----------
        case : LoadCase
            The case.
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
            stop = self.surface.controls.stop
            if stop is None or stop.up.si is None or stop.arm.si is None:
                return Hold("not given", needs="controls.stop")
            z = case.swing * number(stop.arm)
            place = break_at(self.breaks, number(stop.up), "stop")
            return Hold("line", place, 0.0, z, (1.0, 0.0, 0.0), one_way=True)
        if self.line is None:
            return Hold("not given", needs=horn_needs(self.surface) or "horn")
        if case.closing == "surface lock" or self.line.driven_by is DrivenBy.TORQUE_TUBE:
            return Hold("couple", self._horn)
        if torque.ndim:
            return self._on_line(self.line, torque)
        way = float(np.sign(torque))  # the size of the torque does not matter
        if way not in self._lines:
            self._lines[way] = self._on_line(self.line, torque)
        return self._lines[way]

    def _on_line(self, line: HornLine, torque: Array) -> Hold:
        side = line.side_for(torque)
        cables = line.driven_by is DrivenBy.TWO_CABLES
        return Hold("line", self._horn, line.x, side * line.off, line.direction(side), one_way=cables)

    @cached_property
    def _horn(self) -> int:
        assert self.line is not None  # noqa: S101 - asked only where there is a horn
        return break_at(self.breaks, self.line.y, "horn")
