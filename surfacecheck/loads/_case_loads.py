"""What every case puts on the points and breaks of a beam."""

from __future__ import annotations

from dataclasses import dataclass, replace
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
    def rigged(self) -> bool:
        """Whether there is a rigging pull: then it is the last of the units."""
        return bool(self.rigging_force.any() or self.rigging_moment.any())

    def of(self, cases: slice, *, slack: bool = False) -> CaseLoads:
        """Take some of the cases, with or without their rigging pull."""
        mix, force, moment = (
            self.mix[..., cases, :],
            self.rigging_force[..., cases, :, :],
            self.rigging_moment[..., cases, :, :],
        )
        if slack and self.rigged:
            mix = np.concatenate([mix[..., :-1], np.zeros((*mix.shape[:-1], 1))], axis=-1)
            force, moment = np.zeros_like(force), np.zeros_like(moment)
        return replace(
            self,
            names=self.names[cases],
            mix=mix,
            rigging_force=force,
            rigging_moment=moment,
            holds=self.holds[cases],
        )

    def after(self, before: CaseLoads) -> CaseLoads:
        """Lay these cases after others of the same units."""
        return replace(
            self,
            names=before.names + self.names,
            mix=np.concatenate([before.mix, self.mix], axis=-2),
            rigging_force=np.concatenate([before.rigging_force, self.rigging_force], axis=-3),
            rigging_moment=np.concatenate([before.rigging_moment, self.rigging_moment], axis=-3),
            holds=before.holds + self.holds,
        )

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
