"""External loads of a beam on hinges, and the rod that closes its torque."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import ArrayLike

from surfacecheck.axes import mixed
from surfacecheck.errors import SurfaceError
from surfacecheck.statics._grid import Array, Grid

__all__ = ["BeamLoads", "close_with_couple", "close_with_rod", "point_force", "unloaded"]

LEAST_ARM = 1.0e-4
"""Arm of a control rod about the hinge line below which it is taken to hold no moment [m]: 0.1 mm, common practice."""


@dataclass(frozen=True, slots=True, eq=False)
class BeamLoads:
    """External loads without the hinges, about the hinge line; the case axis C is always there.

    Attributes
    ----------
    x, y, z : ndarray, shape (..., C, S)
        Running load: aft, along the hinge line, out of the surface [N/m].
    torque : ndarray, shape (..., C, S)
        Running torque about the hinge line, ``z q_x - x q_z`` [N m/m]: negative for +z pressure aft of it.
    moment_x, moment_z : ndarray, shape (..., C, S)
        Running couples about the x and z axes through the hinge line [N m/m], such as ``-z q_y`` and ``x q_y`` of a
        load along y whose centre lies off the hinge line.
    force : ndarray, shape (..., C, B, 3)
        Force at each break (F_x, F_y, F_z) [N].
    moment : ndarray, shape (..., C, B, 3)
        Moment of that force about the hinge line at the break (M_x, T_y, M_z) [N m], see :func:`point_force`.
    """

    x: Array
    y: Array
    z: Array
    torque: Array
    moment_x: Array
    moment_z: Array
    force: Array
    moment: Array

    def plus(self, b: int, force: ArrayLike, moment: ArrayLike) -> BeamLoads:
        """Add a force and a moment at one break.

        Parameters
        ----------
        b : int
            Index of the break.
        force : array_like, shape (..., C, 3) or (3,)
            (F_x, F_y, F_z) [N].
        moment : array_like, shape (..., C, 3) or (3,)
            (M_x, T_y, M_z) about the hinge line at the break [N m].

        Returns
        -------
        BeamLoads
            New loads.

        Raises
        ------
        SurfaceError
            If the break is not there.
        """
        if not 0 <= b < self.force.shape[-2]:
            message = f"break {b} is not there: breaks are numbered 0 to {self.force.shape[-2] - 1}"
            raise SurfaceError(message)
        return replace(self, force=_added(self.force, b, force), moment=_added(self.moment, b, moment))

    def mixed(self, mix: Array) -> BeamLoads:
        """Make cases out of these, as unit loads.

        Parameters
        ----------
        mix : ndarray, shape (..., C, K)
            How much of each goes into every case [-].

        Returns
        -------
        BeamLoads
            Of C cases.
        """
        runs = {name: mixed(mix, getattr(self, name)) for name in ("x", "y", "z", "torque", "moment_x", "moment_z")}
        jumps = {name: mixed(mix, getattr(self, name).reshape(*self.force.shape[:-2], -1)) for name in _JUMPS}
        tail = self.force.shape[-2:]
        return BeamLoads(**runs, **{name: jump.reshape(*jump.shape[:-1], *tail) for name, jump in jumps.items()})


def _added(whole: Array, b: int, part: ArrayLike) -> Array:
    extra = np.asarray(part, dtype=np.float64)[..., None, :]
    out = np.array(np.broadcast_to(whole, np.broadcast_shapes(whole.shape, (*extra.shape[:-2], 1, 3))))
    out[..., b : b + 1, :] += extra
    return out


def unloaded(stations: Grid, cases: int = 1, **given: ArrayLike) -> BeamLoads:
    """Make loads in which everything that is not given is zero.

    Parameters
    ----------
    stations : Grid
        Points and breaks.
    cases : int
        Number of load cases C [-].
    **given : array_like
        Fields of :class:`BeamLoads`, in shapes that broadcast to theirs [N/m], [N m/m], [N], [N m].

    Returns
    -------
    BeamLoads
        Loads.

    Raises
    ------
    SurfaceError
        For a name that is no field.

    Examples
    --------
    >>> from surfacecheck.statics import grid
    >>> loads = unloaded(grid([0.0, 1.0], cells=1), z=450.0)
    >>> loads.z.shape, loads.force.shape
    ((1, 4), (1, 2, 3))
    """
    runs, jumps = (cases, stations.points), (cases, stations.breaks.shape[-1], 3)
    made = {}
    for name in BeamLoads.__dataclass_fields__:
        value = np.asarray(given.pop(name, 0.0), dtype=np.float64)
        made[name] = np.broadcast_to(value, np.broadcast_shapes(value.shape, jumps if name in _JUMPS else runs))
    if given:
        message = f"{', '.join(given)}: no such load; there are {', '.join(made)}"
        raise SurfaceError(message)
    return BeamLoads(**made)


_JUMPS = ("force", "moment")


def point_force(force: ArrayLike, x: ArrayLike = 0.0, z: ArrayLike = 0.0) -> Array:
    """Moment of a force at (x, z) about the hinge line, at the same distance along it.

    ``(M_x, T_y, M_z) = (-z F_y, z F_x - x F_z, x F_y)``: the right-handed r x F.

    Parameters
    ----------
    force : array_like, shape (..., 3)
        (F_x, F_y, F_z) [N].
    x, z : array_like, shape (...)
        Point of attack, aft of and above the hinge line [m].

    Returns
    -------
    ndarray, shape (..., 3)
        (M_x, T_y, M_z) [N m].

    Examples
    --------
    >>> point_force([0.0, 0.0, 100.0], x=0.3)  # a push along +z aft of the hinge turns about -y
    array([  0., -30.,   0.])
    """
    f = np.asarray(force, dtype=np.float64)
    at_x, at_z = np.asarray(x, dtype=np.float64), np.asarray(z, dtype=np.float64)
    out: Array = np.stack(
        np.broadcast_arrays(0.0 - at_z * f[..., 1], at_z * f[..., 0] - at_x * f[..., 2], at_x * f[..., 1]), axis=-1
    )
    return out


def total_torque(stations: Grid, loads: BeamLoads) -> Array:
    """Torque of all loads about the hinge line [N m], shape (..., C)."""
    out: Array = (loads.torque * stations.weight[..., None, :]).sum(axis=-1) + loads.moment[..., 1].sum(axis=-1)
    return out


def close_with_rod(
    stations: Grid,
    loads: BeamLoads,
    at_break: int,
    point: tuple[ArrayLike, ArrayLike],
    direction: ArrayLike,
) -> tuple[Array, BeamLoads]:
    """Find the force of the control rod or cable that holds the torque of all other loads, and add it to them.

    ``P = -T / (z d_x - x d_z)``; the force P d then loads the hinges in both planes and along the hinge line.

    Parameters
    ----------
    stations : Grid
        Points and breaks.
    loads : BeamLoads
        Everything else that acts on the surface, hinges apart.
    at_break : int
        Break at which the horn stands.
    point : tuple of array_like
        Attachment (x, z) [m], each of a shape that broadcasts to (..., C).
    direction : array_like, shape (..., C, 3) or (3,)
        Direction (d_x, d_y, d_z) of the force on the surface for P > 0; its length does not matter [-].

    Returns
    -------
    rod_force : ndarray, shape (..., C)
        P along the direction [N]; where only a pulling cable is there, the caller checks its sign.
    loads : BeamLoads
        The loads with the rod, whose total torque is zero.

    Raises
    ------
    SurfaceError
        If the line of the rod passes within 0.1 mm of the hinge line, or the direction has no length.

    Examples
    --------
    A cable pulling forward at z = -0.09 m holds 450 N/m acting 0.12 m aft of the hinge line over 0.9 m:

    >>> from surfacecheck.statics import grid
    >>> stations = grid([0.0, 0.9])
    >>> air = unloaded(stations, z=450.0, torque=-54.0)
    >>> force, loads = close_with_rod(stations, air, 0, (0.0, -0.09), (-1.0, 0.0, 0.0))
    >>> float(force[0])
    540.0
    """
    d = np.asarray(direction, dtype=np.float64)
    length = np.sqrt((d * d).sum(axis=-1, keepdims=True))
    if not (np.isfinite(length).all() and (length > 0.0).all()):
        message = f"direction of the rod = {direction!r} has no length: give (d_x, d_y, d_z), aft, up, out"
        raise SurfaceError(message)
    d = d / length
    arm = point_force(d, *point)[..., 1]
    if not (np.abs(arm) > LEAST_ARM).all():
        message = (
            f"the rod has no arm about the hinge line (least {np.abs(arm).min() * 1e3:.4g} mm, more than "
            f"{LEAST_ARM * 1e3:g} mm is needed): it cannot hold the torque; check its point and direction"
        )
        raise SurfaceError(message)
    rod = -total_torque(stations, loads) / arm
    force = rod[..., None] * d
    return rod, loads.plus(at_break, force, point_force(force, *point))


def close_with_couple(stations: Grid, loads: BeamLoads, at_break: int) -> tuple[Array, BeamLoads]:
    """Hold the torque of all loads by a pure couple, as a torque tube does that is assumed to pass nothing else.

    ``T_tube = -T``.

    Parameters
    ----------
    stations : Grid
        Points and breaks.
    loads : BeamLoads
        Everything else that acts on the surface, hinges apart.
    at_break : int
        Break at which the tube is joined.

    Returns
    -------
    couple : ndarray, shape (..., C)
        Torque of the tube on the surface about +y [N m].
    loads : BeamLoads
        The loads with it, whose total torque is zero.
    """
    couple = -total_torque(stations, loads)
    nought = np.zeros_like(couple)
    return couple, loads.plus(at_break, np.zeros(3), np.stack((nought, couple, nought), axis=-1))
