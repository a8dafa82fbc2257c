r"""Properties and unit shear flows of thin-walled sections, open or with any number of cells.

Sections are seen from the root towards the tip: x to the right, z up. Torque and shear flow are positive clockwise
(from +z to +x); a wall's flow is positive from its first to its second node; the resultant of all wall flows is
(V_x, V_z). Direct stress is ``s = -M_x z / I_xx + M_z x / I_zz`` from the centroid (no product of inertia), so that

    dq/ds = -t (V_z z / I_xx + V_x x / I_zz).

The flow that node equilibrium leaves open (one constant a cell) follows from zero twist, and torque from Bredt's
formulas for several cells. Each is textbook material: T. H. G. Megson, Aircraft Structures for Engineering Students,
4th ed., ch. 16 to 20 and 23 (numbers from memory); the Legendre form of the flow along a wall is worked out from it.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.errors import SurfaceError
from surfacecheck.sections._cells import close_cells, cut_flow
from surfacecheck.sections._flow import WallFlow
from surfacecheck.sections._walls import lay_out, total

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, NDArray

    from surfacecheck.sections._topology import Topology

__all__ = ["Section", "section"]

_SINGULAR = 1e-12
"""Below this share of the squared sum of both second moments their determinant is rounding."""


@dataclass(frozen=True, eq=False)
class Section:
    """A thin-walled section, or a stack of them, with everything that does not depend on load.

    W walls, N nodes; ``...`` are the leading axes (variants, stations) of what was given.

    Attributes
    ----------
    topology : Topology
        Nodes and walls.
    x, z : ndarray, shape (..., N)
        Places of the nodes as given [m].
    length, t : ndarray, shape (..., W)
        Length and shear thickness of the walls [m].
    shear_ratio : ndarray, shape (..., W)
        G of the wall over the reference G [-].
    strip : ndarray, shape (..., W)
        Area of each wall that carries direct stress, at the reference modulus [m^2].
    boom : ndarray, shape (..., N)
        Area at each node that carries direct stress beside the walls, at the reference modulus [m^2].
    area : ndarray, shape (...)
        Area that carries direct stress, at the reference modulus [m^2].
    x_c, z_c : ndarray, shape (...)
        Centroid [m].
    I_xx, I_zz, I_xz : ndarray, shape (...)
        Integrals of z^2, x^2 and x z over the area, about the centroid [m^4].
    alpha, beta, gamma : ndarray, shape (...)
        Inverse ``[alpha beta; beta gamma]`` of ``[I_zz I_xz; I_xz I_xx]`` [1/m^4].
    chordwise_defined, lateral_defined : ndarray of bool, shape (...)
        Whether anything carries chordwise (V_x, M_z) and lateral (V_z, M_x) bending. Where not, that bending has no
        stress and no flow here and is *not balanced*: say so, do not print the zero.
    x_s, z_s : ndarray, shape (...)
        Shear centre [m]; the centroid's coordinate where the bending that would show it is not defined.
    J : ndarray, shape (...)
        Torsion constant at the reference G: cells by Bredt plus the open part [m^4].
    J_cells, J_open : ndarray, shape (...)
        The two parts of it [m^4].
    cell_area : ndarray, shape (..., cells)
        Area inside each loop of the topology, positive where the loop runs clockwise [m^2].
    unit_x, unit_z : WallFlow, each of shape (..., W)
        Flow for a unit shear force along x and along z through the shear centre [1/m].
    unit_T : ndarray, shape (..., W)
        Flow for a unit torque, constant along each wall [1/m^2].
    s_xx, s_xz, s_zz : ndarray, shape (...)
        Shear compliance at the reference G: ``1/GA = s/G`` [1/m^2].
    step_x, step_z, sweep : ndarray, shape (..., W)
        From first to second node [m], and torque of a unit flow about the centroid (twice the area swept) [m^2].
    """

    topology: Topology
    x: NDArray[np.float64]
    z: NDArray[np.float64]
    length: NDArray[np.float64]
    t: NDArray[np.float64]
    shear_ratio: NDArray[np.float64]
    strip: NDArray[np.float64]
    boom: NDArray[np.float64]
    area: NDArray[np.float64]
    x_c: NDArray[np.float64]
    z_c: NDArray[np.float64]
    I_xx: NDArray[np.float64]
    I_zz: NDArray[np.float64]
    I_xz: NDArray[np.float64]
    alpha: NDArray[np.float64]
    beta: NDArray[np.float64]
    gamma: NDArray[np.float64]
    chordwise_defined: NDArray[np.bool_]
    lateral_defined: NDArray[np.bool_]
    x_s: NDArray[np.float64]
    z_s: NDArray[np.float64]
    J: NDArray[np.float64]
    J_cells: NDArray[np.float64]
    J_open: NDArray[np.float64]
    cell_area: NDArray[np.float64]
    unit_x: WallFlow
    unit_z: WallFlow
    unit_T: NDArray[np.float64]
    s_xx: NDArray[np.float64]
    s_xz: NDArray[np.float64]
    s_zz: NDArray[np.float64]
    step_x: NDArray[np.float64]
    step_z: NDArray[np.float64]
    sweep: NDArray[np.float64]

    @property
    def shape(self) -> tuple[int, ...]:
        """Leading axes."""
        return self.area.shape


def section(
    topology: Topology,
    x: ArrayLike,
    z: ArrayLike,
    t: ArrayLike,
    *,
    t_direct: ArrayLike | None = None,
    boom: ArrayLike | None = None,
    shear_ratio: ArrayLike | None = None,
    modulus_ratio: ArrayLike | None = None,
    length: ArrayLike | None = None,
    swept: ArrayLike | None = None,
    open_torsion: ArrayLike = 1.0,
) -> Section:
    """Work the properties and unit flows of a section or a stack of sections.

    Parameters
    ----------
    topology : Topology
        N nodes and W walls.
    x, z : array_like, shape (..., N)
        Places of the nodes [m].
    t : array_like, shape (..., W)
        Thickness that carries shear [m].
    t_direct : array_like, shape (..., W), optional
        Thickness that carries direct stress [m]; ``t`` where not given, zero for a wall in shear only.
    boom : array_like, shape (..., N), optional
        Areas at the nodes that carry direct stress, already weighted by their modulus ratio [m^2].
    shear_ratio, modulus_ratio : array_like, shape (..., W), optional
        G and E of each wall over the reference G and E [-].
    length : array_like, shape (..., W), optional
        Developed length of curved walls in shear only, 0 for straight ones [m].
    swept : array_like, shape (..., W), optional
        Area between arc and chord of curved walls; positive where the arc passes clockwise round it [m^2].
    open_torsion : array_like, shape (..., W), optional
        Share of each wall's ``l t^3 / 3`` that counts in J [-]; 0 is Bredt alone, as textbooks work closed cells.

    Returns
    -------
    Section
        All leading axes broadcast together.

    Raises
    ------
    SurfaceError
        For a wall without thickness or length, a negative area or ratio, a curved wall with direct stress, or a
        section with no torsional stiffness at all.

    Notes
    -----
    A round nose is one wall from the top of the web to its bottom: exact for flow, twist and torque if it carries no
    direct stress. A seam that came open is best another topology; where stacks are mixed, a short shear-only wall with
    ``shear_ratio=1e-12`` stands for it. The open part of J is of the size that thin-wall theory neglects in a cell.

    Examples
    --------
    A channel 40 x 16 x 0.8 mm, flanges aft of the web: its shear centre lies ahead of it by 3 b^2 / (h + 6 b).

    >>> from surfacecheck.sections import Topology
    >>> channel = Topology(4, ((0, 1), (1, 2), (2, 3)))
    >>> spar = section(channel, [0.016, 0, 0, 0.016], [-0.02, -0.02, 0.02, 0.02], 0.0008)
    >>> f"{1e3 * spar.x_s:.4f} mm"
    '-5.6471 mm'
    """
    layout, walls = lay_out(
        topology,
        x,
        z,
        t,
        t_direct=t_direct,
        boom=boom,
        shear_ratio=shear_ratio,
        modulus_ratio=modulus_ratio,
        length=length,
        swept=swept,
    )
    counted = layout.flat("open_torsion of wall", open_torsion, len(topology.walls))

    strip, boom_, step = walls.strip[:, None], walls.boom[:, None], walls.step
    area = total(walls.strip) + total(walls.boom)
    carries = area > 0.0
    # a section that carries no direct stress at all still has torsion: its "centroid" is the mean of its nodes
    centroid = np.where(
        carries,
        (total(strip * walls.middle) + total(boom_ * walls.place)) / np.where(carries, area, 1.0),
        total(walls.place) / topology.nodes,
    )
    place, middle = walls.place - centroid, walls.middle - centroid
    second = total(strip * (middle * middle + step * step / 12.0)) + total(boom_ * place * place)
    mixed = total(walls.strip * (middle[:, 0] * middle[:, 1] + step[:, 0] * step[:, 1] / 12.0))
    mixed = mixed + total(walls.boom * place[:, 0] * place[:, 1])
    inverse, chordwise, lateral = _inverse(second[0], second[1], mixed)

    basis = cut_flow(topology, -strip * middle, strip * step / -12.0, -boom_ * place)
    flexibility = walls.length / (walls.shear_ratio * walls.t)
    sweep = middle[:, 1] * step[:, 0] - middle[:, 0] * step[:, 1] + 2.0 * walls.swept
    mean, torsion, enclosed = close_cells(topology, basis.mean, flexibility, sweep)
    j_cells = total(torsion * sweep)
    j_open = total(counted * walls.shear_ratio * walls.length * walls.t * walls.t * walls.t / 3.0)
    j = j_cells + j_open
    if not (j > 0.0).all():
        message = "the section has no torsional stiffness: an open section needs open_torsion above zero"
        raise SurfaceError(message)

    alpha, beta, gamma = inverse
    closed = WallFlow(mean, basis.slope, basis.curvature)
    unit_x = WallFlow(*(alpha * part[:, 0] + beta * part[:, 1] for part in closed))
    unit_z = WallFlow(*(beta * part[:, 0] + gamma * part[:, 1] for part in closed))

    def compliance(one: WallFlow, other: WallFlow) -> NDArray[np.float64]:
        ends = one.slope * other.slope / 3.0 + one.curvature * other.curvature / 5.0
        return layout.single(total(flexibility * (one.mean * other.mean + ends)))

    single, rows = layout.single, layout.rows
    return Section(
        topology=topology,
        x=rows(walls.place[:, 0]),
        z=rows(walls.place[:, 1]),
        length=rows(walls.length),
        t=rows(walls.t),
        shear_ratio=rows(walls.shear_ratio),
        strip=rows(walls.strip),
        boom=rows(walls.boom),
        area=single(area),
        x_c=single(centroid[0]),
        z_c=single(centroid[1]),
        I_xx=single(second[1]),
        I_zz=single(second[0]),
        I_xz=single(mixed),
        alpha=single(alpha),
        beta=single(beta),
        gamma=single(gamma),
        chordwise_defined=single(chordwise),
        lateral_defined=single(lateral),
        x_s=single(centroid[0] - total(unit_z.mean * sweep)),
        z_s=single(centroid[1] + total(unit_x.mean * sweep)),
        J=single(j),
        J_cells=single(j_cells),
        J_open=single(j_open),
        cell_area=rows(0.5 * enclosed),
        unit_x=WallFlow(*(rows(part) for part in unit_x)),
        unit_z=WallFlow(*(rows(part) for part in unit_z)),
        unit_T=rows(torsion / j),
        s_xx=compliance(unit_x, unit_x),
        s_xz=compliance(unit_x, unit_z),
        s_zz=compliance(unit_z, unit_z),
        step_x=rows(step[:, 0]),
        step_z=rows(step[:, 1]),
        sweep=rows(sweep),
    )


def _inverse(
    i_zz: NDArray[np.float64], i_xx: NDArray[np.float64], i_xz: NDArray[np.float64]
) -> tuple[tuple[NDArray[np.float64], ...], NDArray[np.bool_], NDArray[np.bool_]]:
    """Inverse of the second moments, or the pseudo-inverse where all direct stress lies on one line."""
    trace = i_xx + i_zz
    determinant = i_xx * i_zz - i_xz * i_xz
    regular = determinant > _SINGULAR * trace * trace
    # on one line the matrix is trace times u u^T, and its pseudo-inverse is the matrix itself over trace squared
    scale = np.where(regular, determinant, np.where(trace > 0.0, trace * trace, 1.0))
    alpha = np.where(regular, i_xx, i_zz) / scale
    gamma = np.where(regular, i_zz, i_xx) / scale
    beta = np.where(regular, -i_xz, i_xz) / scale
    line = (~regular) & (trace > 0.0)
    chordwise = regular | (line & (i_zz >= (1.0 - 1e-9) * trace))
    lateral = regular | (line & (i_xx >= (1.0 - 1e-9) * trace))
    return (alpha, beta, gamma), chordwise, lateral
