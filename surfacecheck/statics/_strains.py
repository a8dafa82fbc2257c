"""From internal loads to strains, with both planes alike: plane 0 pairs V_z with M_x, plane 1 pairs V_x with -M_z."""

from __future__ import annotations

from typing import TypeAlias

import numpy as np

from surfacecheck.axes import side_by_side
from surfacecheck.statics._grid import Array
from surfacecheck.statics._supports import BeamStiffness

__all__ = ["Symmetric", "bending_compliance", "curvature", "shear_and_twist", "shear_compliance"]

Symmetric: TypeAlias = tuple[Array, Array, Array]
"""The entries 00, 01, 11 of a symmetric 2 x 2 matrix between the planes."""


def bending_compliance(b: BeamStiffness) -> Symmetric:
    """Curvature per moment; the sign turns off the diagonal because plane 1 carries -M_z."""
    return b.b_xx, -b.b_xz, b.b_zz


def shear_compliance(b: BeamStiffness) -> Symmetric:
    """Slope of the hinge line per force on it: shear strain, and twist about the shear centre times its arm."""
    x_s, z_s, twist = b.x_s, b.z_s, b.torsion
    return b.s_zz + x_s * x_s * twist, b.s_xz - x_s * z_s * twist, b.s_xx + z_s * z_s * twist


def curvature(b: BeamStiffness, M: Array, N: Array) -> Array:
    """Curvatures theta_x' and -theta_z' [1/m], shape (..., 2, C, S), from moments about the hinge line.

    The moment about the centroid is ``M_x + z_c N`` and ``M_z - x_c N``.
    """
    if np.any(N):
        M = M + N[..., None, :, :] * side_by_side(b.z_c, b.x_c, axis=-2)[..., None, :]
    return _times(bending_compliance(b), M)


def shear_and_twist(b: BeamStiffness, V: Array, T: Array) -> tuple[Array, Array]:
    """Slopes u_z' and u_x' of the hinge line beside the rotation [-], and twist rate [1/m].

    ``theta_y' = T_s / (G J)`` with ``T_s = T_0 + x_s V_z - z_s V_x``.
    """
    x_s, z_s = b.x_s[..., None, :], b.z_s[..., None, :]
    rate = b.torsion[..., None, :] * (T + x_s * V[..., 0, :, :] - z_s * V[..., 1, :, :])
    slope = _times((b.s_zz, b.s_xz, b.s_xx), V)
    slope[..., 0, :, :] += x_s * rate
    slope[..., 1, :, :] -= z_s * rate
    return slope, rate


def _times(matrix: Symmetric, state: Array) -> Array:
    a, b, c = (v[..., None, :] for v in matrix)
    first, second = state[..., 0, :, :], state[..., 1, :, :]
    out: Array = side_by_side(a * first + b * second, b * first + c * second, axis=-3)
    return out
