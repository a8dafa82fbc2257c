"""Displacements and slopes of a solved beam; kept apart, because a sweep of variants does not need them."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from surfacecheck.statics._beam import Beam
from surfacecheck.statics._grid import Array, running
from surfacecheck.statics._redundants import given_way
from surfacecheck.statics._strains import curvature, shear_and_twist

__all__ = ["Deflections", "deflections"]


@dataclass(frozen=True, slots=True, eq=False)
class Deflections:
    """Displacements of the hinge line.

    Attributes
    ----------
    w, u : ndarray, shape (..., C, S)
        Displacement out of the surface (z) and aft (x) [m].
    slope_w, slope_u : ndarray, shape (..., C, S)
        Rotation of the section that goes with each plane, theta_x and -theta_z [rad]; without shear flexibility the
        slopes dw/dy and du/dy.
    twist : ndarray, shape (..., C, S)
        Rotation about +y [rad], zero at the break that was asked for.
    hinge_w, hinge_u, hinge_slope_w, hinge_slope_u : ndarray, shape (..., C, H)
        The same at the hinges [m], [rad].
    """

    w: Array
    u: Array
    slope_w: Array
    slope_u: Array
    twist: Array
    hinge_w: Array
    hinge_u: Array
    hinge_slope_w: Array
    hinge_slope_u: Array


def deflections(beam: Beam, untwisted: int = 0) -> Deflections:
    """Integrate the strains of a solved beam.

    ``theta_x' = kappa_x, w' = theta_x + gamma_z + x_s theta_y'`` and ``-theta_z' = -kappa_z,
    u' = -theta_z + gamma_x - z_s theta_y'``; the first and the last hinge fix the rest.

    Parameters
    ----------
    beam : Beam
        What :func:`solve` returned; shear and twist bend the hinge line only if it was solved ``coupled``.
    untwisted : int
        Break whose twist is zero: where the horn is held [-].

    Returns
    -------
    Deflections
        Displacements [m] and rotations [rad].

    Examples
    --------
    Tip of a cantilever under 1 N, length 1 m, EI 1 N m2: 1/3 m.

    >>> from surfacecheck.statics import Supports, beam_stiffness, grid, solve, unloaded
    >>> stations = grid([0.0, 1.0], cells=1)
    >>> loads = unloaded(stations).plus(1, [0.0, 0.0, 1.0], [0.0, 0.0, 0.0])
    >>> held = Supports(hinges=(0,), slopes_held=(0,))
    >>> beam = solve(stations, loads, beam_stiffness(1.0, 1.0), held, coupled=False)
    >>> deflections(beam).w[0, -1:]
    array([0.33333333])
    """
    stations, supports = beam.stations, beam.supports
    M = np.stack([beam.M_x, -beam.M_z], axis=-3)
    V = np.stack([beam.V_z, beam.V_x], axis=-3)
    bent = curvature(beam.stiffness, M, beam.N)
    sheared, rate = shear_and_twist(beam.stiffness, V, beam.T_0)
    turned = _from_root(beam, bent)
    moved = _from_root(beam, turned + sheared if beam.coupled else turned)
    twist = _from_root(beam, rate)
    twist = twist - twist[..., [_point(beam, untwisted)]]

    at = [_point(beam, b) for b in supports.hinges]
    target = _support_displacement(beam)
    miss = target - moved[..., at]
    y = stations.breaks[..., list(supports.hinges)] - stations.breaks[..., :1]
    if len(at) > 1:
        slope = (miss[..., -1] - miss[..., 0]) / (y[..., -1] - y[..., 0])[..., None, None]
    else:
        slope = -turned[..., at[0]]
    start = miss[..., 0] - slope * y[..., 0][..., None, None]
    along = (stations.y - stations.breaks[..., :1])[..., None, None, :]
    turned = turned + slope[..., None]
    moved = moved + start[..., None] + slope[..., None] * along
    return Deflections(
        w=moved[..., 0, :, :],
        u=moved[..., 1, :, :],
        slope_w=turned[..., 0, :, :],
        slope_u=turned[..., 1, :, :],
        twist=twist,
        hinge_w=moved[..., 0, :, :][..., at],
        hinge_u=moved[..., 1, :, :][..., at],
        hinge_slope_w=turned[..., 0, :, :][..., at],
        hinge_slope_u=turned[..., 1, :, :][..., at],
    )


def _from_root(beam: Beam, rate: Array) -> Array:
    lead, points = beam.M_x.shape[:-2], rate.shape[-1]
    to_tip = running(beam.stations, rate.reshape(*lead, -1, points))  # planes and cases are rows, variants are not
    out: Array = (to_tip[..., :1] - to_tip).reshape(rate.shape)
    return out


def _point(beam: Beam, b: int) -> int:
    return beam.stations.after(b) if b < len(beam.stations.cells) else beam.stations.before(b)


def _support_displacement(beam: Beam) -> Array:
    """Where the supports are, given displacement and give together, shape (..., 2, C, H)."""
    R = np.stack([beam.reactions[..., 2], beam.reactions[..., 0]], axis=-3)
    out = np.zeros(R.shape)
    if beam.supports.compliance is not None:
        out = out - given_way(beam.supports.compliance, R)
    if beam.supports.displacement is not None:
        out = out + np.moveaxis(beam.supports.displacement, -1, -3)
    return out
