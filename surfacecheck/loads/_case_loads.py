"""What every case puts on the points and breaks of a beam."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from surfacecheck.axes import mixed
from surfacecheck.loads._hold import Hold
from surfacecheck.loads._sums import UnitLoads

__all__ = ["CaseLoads"]

Array = NDArray[np.float64]


@dataclass(frozen=True, eq=False)
class CaseLoads:
    """External loads of every case, hinges and what holds the torque apart; the case axis C is always there.

    Attributes
    ----------
    names : tuple of str
        Cases, in order.
    units : UnitLoads
        What the cases are made up of.
    mix : ndarray, shape (..., C, K)
        How much of each goes into every case [-].
    rigging_force, rigging_moment : ndarray, shape (..., C, B, 3)
        The part of force and moment that is rigging pull: it does not grow with the load [N], [N m].
    holds : tuple of Hold
        What holds the torque of each case.
    """

    names: tuple[str, ...]
    units: UnitLoads
    mix: Array
    rigging_force: Array
    rigging_moment: Array
    holds: tuple[Hold, ...]

    @property
    def x(self) -> Array:
        """Running load aft [N/m], shape (..., C, S): none."""
        return np.broadcast_to(np.float64(0.0), self.z.shape)

    moment_x = x

    @cached_property
    def y(self) -> Array:
        """Running load along the hinge line [N/m], shape (..., C, S)."""
        return mixed(self.mix, self.units.y)

    @cached_property
    def z(self) -> Array:
        """Running load out of the surface [N/m], shape (..., C, S)."""
        return mixed(self.mix, self.units.z)

    @cached_property
    def torque(self) -> Array:
        """Running torque about the hinge line [N m/m], shape (..., C, S)."""
        return mixed(self.mix, self.units.torque)

    @cached_property
    def moment_z(self) -> Array:
        """Running couple about z through the hinge line [N m/m], shape (..., C, S)."""
        return mixed(self.mix, self.units.moment_z)

    @cached_property
    def force(self) -> Array:
        """Force at each break, the rigging pull included [N], shape (..., C, B, 3)."""
        return self._jump(self.units.force)

    @cached_property
    def moment(self) -> Array:
        """Moment of that force about the hinge line, (M_x, T_y, M_z) [N m], shape (..., C, B, 3)."""
        return self._jump(self.units.moment)

    def _jump(self, unit: Array) -> Array:
        flat = mixed(self.mix, unit.reshape(*unit.shape[:-2], -1))
        return flat.reshape(*flat.shape[:-1], *unit.shape[-2:])
