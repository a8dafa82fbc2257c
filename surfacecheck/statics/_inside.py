"""Loads inside a beam, by the names that the theory gives them."""

from __future__ import annotations

from dataclasses import dataclass

from surfacecheck.axes import OverCases
from surfacecheck.statics._grid import Array

__all__ = ["INSIDE", "InternalLoads"]

INSIDE = ("V_x", "V_z", "N", "M_x", "M_z", "T_0")


@dataclass(frozen=True, eq=False)
class InternalLoads:
    """Sums at larger y, of C cases; each is worked when it is first asked for.

    Attributes
    ----------
    inside : OverCases
        Of all six, by name; points S along the last axis.
    """

    inside: OverCases

    @property
    def V_x(self) -> Array:
        """Shear aft [N], shape (..., C, S)."""
        return self.inside["V_x"]

    @property
    def V_z(self) -> Array:
        """Shear out of the surface [N], shape (..., C, S)."""
        return self.inside["V_z"]

    @property
    def N(self) -> Array:
        """Axial force [N], shape (..., C, S)."""
        return self.inside["N"]

    @property
    def M_x(self) -> Array:
        """Moment about an axis aft through the hinge line [N m], shape (..., C, S)."""
        return self.inside["M_x"]

    @property
    def M_z(self) -> Array:
        """Moment about an axis out of the surface through the hinge line [N m], shape (..., C, S)."""
        return self.inside["M_z"]

    @property
    def T_0(self) -> Array:
        """Torque about the hinge line [N m], shape (..., C, S)."""
        return self.inside["T_0"]
