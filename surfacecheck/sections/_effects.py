"""What a section does under load: flows, wall forces, direct stress, twist; signs as in ``_section``.

Loads have one axis more than the section: shape (..., C), the cases last, against leading axes (...). Plain numbers
are one case without an axis.
"""

from __future__ import annotations

from functools import reduce
from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from surfacecheck.errors import SurfaceError
from surfacecheck.sections._flow import WallFlow

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, NDArray

    from surfacecheck.sections._section import Section

__all__ = ["WallForce", "direct_stress", "flow", "open_torsion_stress", "resultant", "twist_rate", "wall_force"]


class WallForce(NamedTuple):
    """Force of each wall's flow on the section, and its torque about the hinge line (x = z = 0).

    Attributes
    ----------
    F_x, F_z : ndarray, shape (..., W)
        Force [N].
    T : ndarray, shape (..., W)
        Torque about x = z = 0, clockwise positive [N m].
    """

    F_x: NDArray[np.float64]
    F_z: NDArray[np.float64]
    T: NDArray[np.float64]


class _Cases:
    """Loads as arrays of (..., C), and the section's arrays with room for C."""

    def __init__(self, section: Section, **loads: ArrayLike) -> None:
        arrays = {name: np.asarray(load, dtype=np.float64) for name, load in loads.items()}
        self.axis = any(array.ndim for array in arrays.values())
        for name, array in arrays.items():
            if not np.isfinite(array).all():
                message = f"{name} = {array[~np.isfinite(array)][0]}: give a number"
                raise SurfaceError(message)
            try:
                np.broadcast_shapes(array.shape[:-1], section.shape)
            except ValueError as err:
                message = (
                    f"{name} has shape {array.shape}, the sections {section.shape}: loads have the sections' leading "
                    "axes and one more, the cases"
                )
                raise SurfaceError(message) from err
        self.loads = tuple(arrays.values())

    def room(self, array: NDArray[np.float64], keep: int = 0) -> NDArray[np.float64]:
        """Add the axis of the cases before the last ``keep`` axes."""
        return np.expand_dims(array, -1 - keep) if self.axis else array


def _about_shear_centre(
    section: Section, cases: _Cases, about: tuple[ArrayLike, ArrayLike] | None
) -> NDArray[np.float64]:
    """Torque about the shear centre: T at (a, b) plus (x_s - a) V_z - (z_s - b) V_x."""
    v_x, v_z, torque = cases.loads
    if about is None:
        return np.asarray(np.broadcast_arrays(torque, v_x, v_z)[0])
    a, b = (np.asarray(place, dtype=np.float64) for place in about)
    arm_x, arm_z = np.asarray(section.x_s - a), np.asarray(section.z_s - b)
    return np.asarray(torque + cases.room(arm_x) * v_z - cases.room(arm_z) * v_x)


def flow(
    section: Section, V_x: ArrayLike, V_z: ArrayLike, T: ArrayLike, *, about: tuple[ArrayLike, ArrayLike] | None = None
) -> WallFlow:
    """Shear flow of every wall under shear forces and torque.

    Parameters
    ----------
    section : Section
        Sections with leading axes (...).
    V_x, V_z : array_like, shape (..., C) or plain numbers
        Shear forces that the flows add up to [N].
    T : array_like, shape (..., C) or a plain number
        Torque, clockwise positive [N m].
    about : (array_like, array_like), each of shape (...), optional
        x and z of the point that T is about [m]; the shear centre where not given. The hinge line is ``(0.0, 0.0)``.

    Returns
    -------
    WallFlow, parts of shape (..., C, W), or (..., W) for plain numbers
        Flow, positive from the first to the second node of each wall [N/m].

    Raises
    ------
    SurfaceError
        Where a load is not a number, or shapes do not go together.

    Notes
    -----
    Where ``section.chordwise_defined`` or ``lateral_defined`` is False that shear force is not balanced by the flow.

    Examples
    --------
    A square tube 0.1 m wide under 100 N m: T / (2 A), less the sliver that the sheet's own twisting takes.

    >>> from surfacecheck.sections import Topology, section
    >>> tube = section(Topology(4, ((0, 1), (1, 2), (2, 3), (3, 0))), [0, 0, 0.1, 0.1], [0, 0.1, 0.1, 0], 0.001)
    >>> flow(tube, 0.0, 0.0, 100.0).mean.round(1).tolist()
    [4999.3, 4999.3, 4999.3, 4999.3]
    """
    cases = _Cases(section, V_x=V_x, V_z=V_z, T=T)
    torque = _about_shear_centre(section, cases, about)
    v_x, v_z, t_s = (array[..., None] for array in (cases.loads[0], cases.loads[1], torque))
    mean, slope, curvature = (
        cases.room(one, 1) * v_x + cases.room(other, 1) * v_z
        for one, other in zip(section.unit_x, section.unit_z, strict=True)
    )
    return WallFlow(mean + cases.room(section.unit_T, 1) * t_s, slope, curvature)


def twist_rate(
    section: Section,
    V_x: ArrayLike,
    V_z: ArrayLike,
    T: ArrayLike,
    *,
    G: ArrayLike,
    about: tuple[ArrayLike, ArrayLike] | None = None,
) -> NDArray[np.float64]:
    """Twist a metre of span, ``T_s / (G J)``, positive about +y.

    Parameters
    ----------
    section, V_x, V_z, T, about
        As in :func:`flow` [N, N m, m].
    G : array_like, broadcast against (...)
        Reference shear modulus [Pa].

    Returns
    -------
    ndarray, shape (..., C) or (...)
        Twist rate [rad/m].
    """
    cases = _Cases(section, V_x=V_x, V_z=V_z, T=T)
    stiffness = np.asarray(np.asarray(G, dtype=np.float64) * section.J)
    return np.asarray(_about_shear_centre(section, cases, about) / cases.room(stiffness))


def direct_stress(
    section: Section, x: ArrayLike, z: ArrayLike, M_x: ArrayLike, M_z: ArrayLike, N: ArrayLike = 0.0
) -> NDArray[np.float64]:
    """Direct stress at places of the section, with the product of inertia.

    ``s = (alpha M_z - beta M_x) x + (beta M_z - gamma M_x) z + N / A``; without product of inertia
    ``-M_x z / I_xx + M_z x / I_zz + N / A``.

    Parameters
    ----------
    section : Section
        Sections with leading axes (...).
    x, z : array_like, shape (..., P)
        Places in the axes of the nodes (not from the centroid) [m].
    M_x, M_z : array_like, shape (..., C) or plain numbers
        Moments about the centroid, by the external loads at larger y [N m].
    N : array_like, shape (..., C) or a plain number
        Axial force at the centroid, tension positive [N].

    Returns
    -------
    ndarray, shape (..., C, P), or (..., P) for plain numbers
        Stress at the reference modulus, tension positive [Pa]; times E / E_ref for a place of another modulus.

    Raises
    ------
    SurfaceError
        Where a load is not a number, or shapes do not go together.
    """
    cases = _Cases(section, M_x=M_x, M_z=M_z, N=N)
    m_x, m_z, n = cases.loads
    alpha, beta, gamma = (cases.room(part) for part in (section.alpha, section.beta, section.gamma))
    by_x = np.asarray(alpha * m_z - beta * m_x)[..., None]
    by_z = np.asarray(beta * m_z - gamma * m_x)[..., None]
    area = np.where(section.area > 0.0, section.area, 1.0)
    carried = np.where(cases.room(section.area) > 0.0, n / cases.room(area), 0.0)[..., None]
    arm_x = np.asarray(x, dtype=np.float64) - section.x_c[..., None]
    arm_z = np.asarray(z, dtype=np.float64) - section.z_c[..., None]
    return np.asarray(by_x * cases.room(arm_x, 1) + by_z * cases.room(arm_z, 1) + carried)


def open_torsion_stress(section: Section, T: ArrayLike) -> NDArray[np.float64]:
    """Shear stress at the faces of each wall from its own twisting, ``G_r T t / J``.

    It is the whole torsion stress of an open section; in a closed cell it comes on top of q/t and is small.

    Parameters
    ----------
    section : Section
        Sections with leading axes (...).
    T : array_like, shape (..., C) or a plain number
        Torque about the shear centre [N m].

    Returns
    -------
    ndarray, shape (..., C, W) or (..., W)
        Stress [Pa].

    References
    ----------
    T. H. G. Megson, Aircraft Structures for Engineering Students, 4th ed., section 18.2 (number from memory).
    """
    cases = _Cases(section, T=T)
    unit = section.shear_ratio * section.t / section.J[..., None]
    return np.asarray(cases.loads[0][..., None] * cases.room(unit, 1))


def wall_force(section: Section, walls: WallFlow) -> WallForce:
    """Force and torque that each wall's flow makes.

    Parameters
    ----------
    section : Section
        Sections with leading axes (...).
    walls : WallFlow
        Result of :func:`flow` for these sections, with or without cases [N/m].

    Returns
    -------
    WallForce, parts of shape (..., C, W) or (..., W)
        Forces [N] and torque about x = z = 0 [N m].
    """
    cases = walls.mean.ndim > len(section.shape) + 1
    sweep = section.sweep + section.z_c[..., None] * section.step_x - section.x_c[..., None] * section.step_z
    step_x, step_z, sweep = (
        np.expand_dims(part, -2) if cases else part for part in (section.step_x, section.step_z, sweep)
    )
    return WallForce(walls.mean * step_x, walls.mean * step_z, walls.mean * sweep)


def resultant(section: Section, walls: WallFlow) -> WallForce:
    """Sum of the walls' forces: what the flow balances.

    Parameters
    ----------
    section : Section
        Sections with leading axes (...).
    walls : WallFlow
        Result of :func:`flow` for these sections [N/m].

    Returns
    -------
    WallForce, parts of shape (..., C) or (...)
        V_x, V_z [N], and the torque about x = z = 0 [N m].
    """
    parts = wall_force(section, walls)
    return WallForce(*(np.asarray(reduce(np.add, np.moveaxis(part, -1, 0))) for part in parts))
