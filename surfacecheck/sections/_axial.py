"""Shear flow where load along the span enters a section: inertia along the hinge line, thrust at a hinge."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from surfacecheck.errors import SurfaceError
from surfacecheck.sections._cells import close_cells, cut_flow
from surfacecheck.sections._flow import WallFlow
from surfacecheck.sections._walls import Layout, total

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, NDArray

    from surfacecheck.sections._section import Section

__all__ = ["AxialFlow", "axial_flow"]


class AxialFlow(NamedTuple):
    """Flow for a running load of 1 N/m along +y.

    Attributes
    ----------
    flow : WallFlow, parts of shape (..., W)
        Flow for each N/m that enters [-].
    torque : ndarray, shape (...)
        Torque about the shear centre that goes with it [m]: twist rate ``torque n / (G J)`` for n [N/m].
    """

    flow: WallFlow
    torque: NDArray[np.float64]


def axial_flow(section: Section, share: ArrayLike) -> AxialFlow:
    """Shear flow by which load along the span, entering at nodes, spreads into the whole section.

    A running load n along +y on the section changes the direct stress by
    ``ds_y/dy = -n (1 / A + (alpha a + beta b) x + (beta a + gamma b) z)``, its place (a, b) and x, z from the
    centroid; the flow carries what enters at the nodes to where that stress takes it up.

    Parameters
    ----------
    section : Section
        Sections with leading axes (...).
    share : array_like, shape (..., N)
        Share of the load that enters at each node, such as by mass; sums to 1 [-].

    Returns
    -------
    AxialFlow
        Flow of no resultant force and no torque, for 1 N/m. It comes on top of that of V_x, V_z and T.

    Raises
    ------
    SurfaceError
        Where the shares do not sum to 1, or a section carries no direct stress.

    Notes
    -----
    A thrust hinge takes its force over the length of its fitting's rivets: n is that force over that length. Nearer
    than about a depth to the fitting engineering theory is a guide only.

    Examples
    --------
    Two booms on a web, 1 N/m entering half way between them: half goes to each.

    >>> from surfacecheck.sections import Topology, section
    >>> web = Topology(3, ((0, 1), (1, 2)))
    >>> beam = section(web, 0.0, [-0.02, 0.0, 0.02], 8e-4, t_direct=0.0, boom=[1e-5, 0.0, 1e-5])
    >>> axial_flow(beam, [0.0, 1.0, 0.0]).flow.mean.tolist()
    [0.5, -0.5]
    """
    topology, layout = section.topology, Layout(section.shape)
    nodes, walls = topology.nodes, len(topology.walls)
    if not (section.area > 0.0).all():
        message = "a section carries no direct stress: load along the span has nowhere to go"
        raise SurfaceError(message)
    try:
        entering = layout.flat("share of node", share, nodes)
    except ValueError as err:
        if isinstance(err, SurfaceError):
            raise
        message = f"share has shape {np.shape(share)}: give {nodes} nodes last, and no more axes than {section.shape}"
        raise SurfaceError(message) from err
    whole = total(entering)
    if not (np.abs(whole - 1.0) <= 1e-9).all():
        message = f"the shares of the nodes sum to {whole[np.argmax(np.abs(whole - 1.0))]:.6g}: they must sum to 1"
        raise SurfaceError(message)

    def rows(values: NDArray[np.float64], count: int) -> NDArray[np.float64]:
        return layout.flat("value", values, count)

    x = rows(section.x - section.x_c[..., None], nodes)
    z = rows(section.z - section.z_c[..., None], nodes)
    strip, boom = rows(section.strip, walls), rows(section.boom, nodes)
    one_over_a, alpha, beta, gamma = (
        rows(np.asarray(part)[..., None], 1)[0]
        for part in (1.0 / section.area, section.alpha, section.beta, section.gamma)
    )
    a, b = total(entering * x), total(entering * z)
    at_node = one_over_a + (alpha * a + beta * b) * x + (beta * a + gamma * b) * z
    first, second = at_node[topology.starts], at_node[topology.ends]
    change = 0.5 * strip * (first + second)
    curvature = strip * (second - first) / 12.0
    cut = cut_flow(topology, change[:, None], curvature[:, None], (boom * at_node - entering)[:, None])
    flexibility = rows(section.length / (section.shear_ratio * section.t), walls)
    sweep = rows(section.sweep, walls)
    mean, _, _ = close_cells(topology, cut.mean, flexibility, sweep)
    torque = -total(mean[:, 0] * sweep)
    mean_ = mean[:, 0] + rows(section.unit_T, walls) * torque
    parts = (mean_, cut.slope[:, 0], cut.curvature[:, 0])
    return AxialFlow(WallFlow(*(layout.rows(part) for part in parts)), layout.single(torque))
