"""Warping of sections: sectorial coordinate, warping constant, and when holding it back matters.

Under a twist rate theta' a section moves along the span by ``u = -omega theta'``. For an open section omega is twice
the area swept from the shear centre; round a cell the shear strain of Bredt's flow is taken off, so that omega closes.
"""

from __future__ import annotations

from functools import reduce
from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from surfacecheck.errors import SurfaceError

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, NDArray

    from surfacecheck.sections._section import Section

__all__ = ["RESTRAINT_SHARE", "Warping", "restraint_matters", "restraint_share", "warping", "warping_parameter"]

RESTRAINT_SHARE = 0.1
"""Share of the twist that a held root must take away to be worth a remark [-] (common practice: a tenth)."""


class Warping(NamedTuple):
    """Sectorial coordinate and warping constant.

    Attributes
    ----------
    omega : ndarray, shape (..., N)
        Sectorial coordinate at the nodes about the shear centre, with no mean over the area that carries direct
        stress; linear along straight walls [m^2].
    C_w : ndarray, shape (...)
        Integral of omega squared over that area [m^6].
    """

    omega: NDArray[np.float64]
    C_w: NDArray[np.float64]


def warping(section: Section) -> Warping:
    """Sectorial coordinate and warping constant of a section.

    ``C_w = integral of omega^2 dA``; for an open section Vlasov's (Wagner's) constant.

    Parameters
    ----------
    section : Section
        Sections with leading axes (...).

    Returns
    -------
    Warping
        Sectorial coordinate [m^2] and warping constant [m^6].

    Notes
    -----
    For a section with cells omega is the warping that goes with Bredt's flow. Both need the shear centre, so bending
    must be defined in both planes.

    References
    ----------
    T. H. G. Megson, Aircraft Structures for Engineering Students, 4th ed., sections 18.2 and 27.2 (from memory).

    Examples
    --------
    A channel 3 x 1 of thickness 0.04: the published form gives C_w = t b^3 h^2 (3 b + 2 h) / (12 (6 b + h)) = 0.03.

    >>> from surfacecheck.sections import Topology, section
    >>> channel = section(Topology(4, ((0, 1), (1, 2), (2, 3))), [1, 0, 0, 1], [-1.5, -1.5, 1.5, 1.5], 0.04)
    >>> sectorial = warping(channel)
    >>> f"{sectorial.C_w:.6f}", sectorial.omega.round(6).tolist()
    ('0.030000', [-1.0, 0.5, -0.5, 1.0])
    """
    topology = section.topology
    flexibility = section.length / (section.shear_ratio * section.t)
    arm_x, arm_z = section.x_c - section.x_s, section.z_c - section.z_s
    growth = section.sweep + arm_z[..., None] * section.step_x - arm_x[..., None] * section.step_z
    growth = growth - section.unit_T * section.J[..., None] * flexibility
    omega = np.zeros((topology.nodes, *section.shape))
    for node, parent, wall, leaves in reversed(topology.tree):
        omega[node] = omega[parent] - growth[..., wall] if leaves else omega[parent] + growth[..., wall]

    strip, boom = np.moveaxis(section.strip, -1, 0), np.moveaxis(section.boom, -1, 0)
    middle = 0.5 * (omega[topology.starts] + omega[topology.ends])
    step = omega[topology.ends] - omega[topology.starts]
    area = np.where(section.area > 0.0, section.area, 1.0)
    mean = (reduce(np.add, strip * middle) + reduce(np.add, boom * omega)) / area
    omega, middle = omega - mean, middle - mean
    c_w = reduce(np.add, strip * (middle * middle + step * step / 12.0)) + reduce(np.add, boom * omega * omega)
    return Warping(np.moveaxis(omega, 0, -1), np.asarray(c_w))


def warping_parameter(G: ArrayLike, J: ArrayLike, E: ArrayLike, C_w: ArrayLike) -> NDArray[np.float64]:
    """How fast the effect of a held section dies out along the span.

    ``mu = sqrt(G J / (E C_w))``; a section that does not warp has ``inf``: it dies out at once.

    Parameters
    ----------
    G, E : array_like, shape (...)
        Reference moduli [Pa].
    J : array_like, shape (...)
        Torsion constant [m^4].
    C_w : array_like, shape (...)
        Warping constant [m^6].

    Returns
    -------
    ndarray, shape (...)
        mu [1/m].

    Raises
    ------
    SurfaceError
        Where a modulus or J is not above zero, or C_w is negative.

    References
    ----------
    H. Wagner's torsion-bending equation, as in T. H. G. Megson, Aircraft Structures for Engineering Students, 4th ed.,
    section 27.2 (number from memory).

    Examples
    --------
    >>> f"{float(warping_parameter(26e9, 16e-12, 68e9, 2.3e-13)):.2f} 1/m"
    '5.16 1/m'
    """
    given = {"G": G, "J": J, "E": E, "C_w": C_w}
    g, j, e, c_w = (np.asarray(value, dtype=np.float64) for value in given.values())
    for name, value, low in (("G", g, g > 0.0), ("J", j, j > 0.0), ("E", e, e > 0.0), ("C_w", c_w, c_w >= 0.0)):
        if not low.all():
            message = f"{name} = {value[~low].flat[0]:.6g}: give a number above zero"
            raise SurfaceError(message)
    warps = c_w > 0.0
    return np.asarray(np.where(warps, np.sqrt(g * j / (e * np.where(warps, c_w, 1.0))), np.inf))


def restraint_share(mu: ArrayLike, length: ArrayLike) -> NDArray[np.float64]:
    """Share of the twist that a root held against warping takes away.

    ``tanh(mu L) / (mu L)``: a length L twisted by a torque at its free end, its other end held flat.

    Parameters
    ----------
    mu : array_like, shape (...)
        From :func:`warping_parameter` [1/m].
    length : array_like, shape (...)
        Length from the held section [m].

    Returns
    -------
    ndarray, shape (...)
        Share, 0 (no effect) to 1 (nothing twists) [-].

    References
    ----------
    Solution of the torsion-bending equation: T. H. G. Megson, Aircraft Structures for Engineering Students, 4th ed.,
    section 27.2 (number from memory).
    """
    reach = np.asarray(mu, dtype=np.float64) * np.asarray(length, dtype=np.float64)
    if not (reach > 0.0).all():
        message = f"mu times length is {reach[~(reach > 0.0)].flat[0]:.6g}: both must be above zero"
        raise SurfaceError(message)
    return np.asarray(np.tanh(reach) / reach)


def restraint_matters(mu: ArrayLike, length: ArrayLike) -> NDArray[np.bool_]:
    """Whether St Venant torsion alone misses more than a tenth of the twist of an open length.

    True where ``tanh(mu L) / (mu L) > 0.1``, that is where mu L is below 10. Common practice: no text states the
    tenth.

    Parameters
    ----------
    mu : array_like, shape (...)
        From :func:`warping_parameter` [1/m].
    length : array_like, shape (...)
        Length of the open part [m].

    Returns
    -------
    ndarray of bool, shape (...)
        True where a remark is due.
    """
    return np.asarray(restraint_share(mu, length) > RESTRAINT_SHARE)
