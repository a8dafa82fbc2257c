"""A beam on hinges in two planes, by the force method: unknowns are the moments at the inner hinges.

Signs: y along the hinge line from root to tip, x aft, z = x cross y; the pins are at x = z = 0. Internal loads at y
are sums of all external loads at larger y, moments right-handed about axes through the hinge line; reactions are
forces on the surface. Inside, both planes are alike: plane 0 pairs V_z with M_x, plane 1 pairs V_x with -M_z.

References
----------
Timoshenko, S.: Strength of Materials, part I, chapter on statically indeterminate beams (force method, three moments).
Megson, T. H. G.: Aircraft Structures for Engineering Students, chapter 5 (total complementary energy, flexibility).
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from surfacecheck.errors import SurfaceError
from surfacecheck.statics._grid import Array, Grid, inboard_of, running
from surfacecheck.statics._loads import BeamLoads
from surfacecheck.statics._supports import (
    BeamStiffness,
    Plan,
    Supports,
    check_stiffness,
    check_supports,
    gaps,
    plan,
)

__all__ = ["Beam", "solve"]

TORQUE_REST = 1.0e-6
"""Part of the largest torque that may be left over at the root [-]; a closed rod leaves 1e-15."""


@dataclass(frozen=True, slots=True, eq=False)
class Beam:
    """A solved beam.

    Attributes
    ----------
    reactions : ndarray, shape (..., C, H, 3)
        Force of each hinge on the surface (x, y, z) [N].
    couples : ndarray, shape (..., C, K, 2)
        Couple (M_x, M_z) on the surface at each of the K ends that hold slope [N m].
    V_x, V_z, N : ndarray, shape (..., C, S)
        Sums of forces at larger y [N].
    M_x, M_z, T_0 : ndarray, shape (..., C, S)
        Sums of moments at larger y about axes through the hinge line at y [N m].
    stations, loads, stiffness, supports, coupled
        What it was solved from.
    """

    reactions: Array
    couples: Array
    V_x: Array
    V_z: Array
    N: Array
    M_x: Array
    M_z: Array
    T_0: Array
    stations: Grid
    loads: BeamLoads
    stiffness: BeamStiffness
    supports: Supports
    coupled: bool


@dataclass(frozen=True, slots=True, eq=False)
class _Statics:
    """A state in balance with the load: simple spans between the hinges. Plane axis third from the end."""

    M: Array  # (..., 2, C, S)
    V: Array  # (..., 2, C, S)
    N: Array  # (..., C, S)
    T: Array  # (..., C, S)
    V_run: Array  # (..., 2, C, H + 1): shear that the hinges make in each run
    starts: Array  # (..., 2, C, H + 1): moment that the hinges make at the start and at the end of each run
    ends: Array
    thrust: Array  # (..., C, H)
    length: Array  # (..., H + 1)
    xi: Array  # (..., S): 0 to 1 along the run


def solve(stations: Grid, loads: BeamLoads, stiffness: BeamStiffness, supports: Supports, coupled: bool) -> Beam:
    """Share the load between the hinges and find the internal loads everywhere.

    ``F m = sum_h R_h (d_h - c R_h0) - integral (kappa_0 m_i + gamma_0 v_i + T_0' t_i) dy``: of all states in balance
    with the load, that with the least complementary energy.

    Parameters
    ----------
    stations : Grid
        Points and breaks.
    loads : BeamLoads
        Everything but the hinges; its total torque must be zero (:func:`close_with_rod`).
    stiffness : BeamStiffness
        Section at the points.
    supports : Supports
        Hinges.
    coupled : bool
        False: bending alone, planes apart (a product of inertia is kept). True: with shear flexibility and with the
        twist that comes of a hinge line off the shear centre.

    Returns
    -------
    Beam
        Reactions and internal loads. A stack of variants gives bit for bit what single runs give.

    Raises
    ------
    SurfaceError
        If the beam is a mechanism, a property is out of its range, the torque is not closed, or a value is missing.

    Examples
    --------
    A beam on three hinges under 1 N/m: 3/8, 10/8, 3/8 of the load on a span.

    >>> from surfacecheck.statics import Supports, beam_stiffness, grid, unloaded
    >>> stations = grid([0.0, 1.0, 2.0], cells=1)
    >>> beam = solve(stations, unloaded(stations, z=1.0), beam_stiffness(1.0, 1.0), Supports((0, 1, 2)), coupled=False)
    >>> beam.reactions[0, :, 2]
    array([-0.375, -1.25 , -0.375])
    """
    layout = plan(stations.cells, supports.hinges, supports.slopes_held)
    check_stiffness(stiffness, coupled)
    check_supports(supports, loads.z.shape[-2])
    free = _balance(stations, loads, supports, layout)
    count = layout.at_start.shape[0]
    V_run, starts, ends, M, V = free.V_run, free.starts, free.ends, free.M, free.V
    if count:
        hats = layout.start_at_point * (1.0 - free.xi[..., None, :]) + layout.end_at_point * free.xi[..., None, :]
        shears = np.zeros((*free.length.shape[:-1], *layout.at_start.shape))
        inner = slice(1, -1)
        shears[..., inner] = (layout.at_start - layout.at_end)[:, inner] / free.length[..., None, inner]
        m = _redundants(stations, stiffness, supports, layout, free, hats, shears, coupled)
        starts, ends = starts + m @ layout.at_start, ends + m @ layout.at_end
        extra = m @ shears[..., None, :, :]
        V_run = V_run + extra
        M = M + m @ hats[..., None, :, :]
        V = V + np.take(extra, layout.run, axis=-1)
    side = V_run[..., :-1] - V_run[..., 1:]
    reactions = np.stack(np.broadcast_arrays(side[..., 1, :, :], free.thrust, side[..., 0, :, :]), axis=-1)
    held = list(layout.held)
    jump = np.moveaxis(ends[..., :-1][..., held] - starts[..., 1:][..., held], -3, -1) * (1.0, -1.0)
    found = Beam(
        reactions=reactions,
        couples=jump,
        V_x=V[..., 1, :, :],
        V_z=V[..., 0, :, :],
        N=free.N,
        M_x=M[..., 0, :, :],
        M_z=0.0 - M[..., 1, :, :],
        T_0=free.T,
        stations=stations,
        loads=loads,
        stiffness=stiffness,
        supports=supports,
        coupled=coupled,
    )
    if not (np.isfinite(reactions).all() and np.isfinite(M).all() and np.isfinite(free.T).all()):
        raise SurfaceError(_missing(loads, stiffness, supports))
    return found


def _balance(stations: Grid, loads: BeamLoads, supports: Supports, layout: Plan) -> _Statics:
    """Sum the loads from the tip, and hold them by simple spans."""
    length = gaps(stations, layout)
    n = len(supports.hinges)
    lead = np.broadcast_shapes(
        *(getattr(loads, f).shape[:-2] for f in ("x", "y", "z", "torque", "moment_x", "moment_z")),
        *(getattr(loads, f).shape[:-3] for f in ("force", "moment")),
        stations.y.shape[:-1],
    )
    cases, points = loads.z.shape[-2:]
    run = np.empty((*lead, 6, cases, points))
    run[..., 0, :, :], run[..., 1, :, :], run[..., 2, :, :] = loads.z, loads.x, loads.y
    run[..., 3, :, :], run[..., 4, :, :] = loads.torque, loads.moment_x
    np.negative(loads.moment_z, out=run[..., 5, :, :])
    at_break = np.empty((*lead, 6, cases, loads.force.shape[-2]))
    at_break[..., 0, :, :], at_break[..., 1, :, :] = loads.force[..., 2], loads.force[..., 0]
    at_break[..., 2, :, :], at_break[..., 3, :, :] = loads.force[..., 1], loads.moment[..., 1]
    at_break[..., 4, :, :] = loads.moment[..., 0]
    np.negative(loads.moment[..., 2], out=at_break[..., 5, :, :])
    # components and cases are the rows of the matrix product, variants never: see the tests of bit-equal stacks
    inboard = inboard_of(stations)
    total = running(stations, run.reshape(*lead, 6 * cases, points))
    total += at_break.reshape(*lead, 6 * cases, -1) @ inboard
    sums = total.reshape(*lead, 6, cases, points)
    V, N, T = sums[..., :2, :, :], sums[..., 2, :, :], sums[..., 3, :, :]
    M = running(stations, V.reshape(*lead, 2 * cases, points)).reshape(V.shape) + sums[..., 4:, :, :]
    root = sums[..., 0] + at_break[..., 0]
    _check_torque(root[..., 3, :], T, at_break[..., 3, :, :])

    thrust = np.zeros((*lead, cases, n))
    who = np.zeros(cases, dtype=np.intp) if supports.thrust is None else supports.thrust
    along = 0.0 - root[..., 2, :]
    thrust[..., np.arange(cases), who] = along
    N = N + along[..., None] * inboard[np.asarray(supports.hinges)[who]]

    starts, ends, V_run = np.zeros((3, *lead, 2, cases, n + 1))
    V_run[..., 0] = 0.0 - root[..., :2, :]
    starts[..., 0] = 0.0 - (M[..., 0] + at_break[..., 4:, :, 0])
    ends[..., 0] = starts[..., 0] + root[..., :2, :] * length[..., None, None, 0]
    if n > 1:
        starts[..., 1] = ends[..., 0]
        starts[..., 2:-1] = ends[..., 1:-2] = 0.0 - M[..., list(layout.starts[1:])]
        V_run[..., 1:-1] = (starts[..., 1:-1] - ends[..., 1:-1]) / length[..., None, None, 1:-1]
    begin = stations.breaks[..., layout.knots[layout.run]]
    xi = (stations.y - begin) / np.maximum(length[..., layout.run], np.finfo(float).tiny)  # an overhang may have none
    side = xi[..., None, None, :]
    M = M + np.take(starts, layout.run, axis=-1) * (1.0 - side) + np.take(ends, layout.run, axis=-1) * side
    V = V + np.take(V_run, layout.run, axis=-1)
    return _Statics(M, V, N, T, V_run, starts, ends, thrust, length, xi)


def _redundants(
    stations: Grid,
    stiffness: BeamStiffness,
    supports: Supports,
    layout: Plan,
    free: _Statics,
    hats: Array,
    shears: Array,
    coupled: bool,
) -> Array:
    """Solve for the redundant moments, shape (..., 2, C, K)."""
    b, w = stiffness, stations.weight
    K = hats.shape[-2]
    xx, xz, zz = b.b_xx * w, -b.b_xz * w, b.b_zz * w  # the second plane carries -M_z
    hats_t, shears_t = np.swapaxes(hats, -1, -2), np.swapaxes(shears[..., 1:-1], -1, -2)
    F = _blocks(hats, (xx, xz, zz), hats_t)
    M = free.M
    if np.any(free.N):
        arms = np.stack(np.broadcast_arrays(b.z_c, b.x_c), axis=-2)[..., None, :]
        M = M + free.N[..., None, :, :] * arms
    rest = _work(M, (xx, xz, zz)) @ hats_t[..., None, :, :]
    if coupled:
        x_s, z_s, twist = b.x_s, b.z_s, b.torsion * w
        T_s = free.T + x_s[..., None, :] * free.V[..., 0, :, :] - z_s[..., None, :] * free.V[..., 1, :, :]
        strain = _work(free.V, (b.s_zz * w, b.s_xz * w, b.s_xx * w))
        strain[..., 0, :, :] += (x_s * twist)[..., None, :] * T_s
        strain[..., 1, :, :] -= (z_s * twist)[..., None, :] * T_s
        a = np.stack(
            np.broadcast_arrays(
                b.s_zz * w + x_s * x_s * twist, b.s_xz * w - x_s * z_s * twist, b.s_xx * w + z_s * z_s * twist
            ),
            axis=-2,
        )
        per_run = a @ layout.run_mask
        F = F + _blocks(shears[..., 1:-1], (per_run[..., 0, :], per_run[..., 1, :], per_run[..., 2, :]), shears_t)
        rest = rest + (strain @ layout.run_mask) @ shears_t[..., None, :, :]
    R = shears[..., :-1] - shears[..., 1:]
    R0 = free.V_run[..., :-1] - free.V_run[..., 1:]
    n = R.shape[-1]
    gap = 0.0
    if supports.compliance is not None:
        c = supports.compliance
        R_t = np.swapaxes(R, -1, -2)
        blocks = [[R @ c[..., i * n : (i + 1) * n, j * n : (j + 1) * n] for j in (0, 1)] for i in (0, 1)]
        F = F + _square([[blocks[i][j] @ R_t for j in (0, 1)] for i in (0, 1)], K)
        gives = [
            sum(R0[..., j, :, :] @ c[..., j * n : (j + 1) * n, i * n : (i + 1) * n] for j in (0, 1)) for i in (0, 1)
        ]
        gap = gap - np.stack(gives, axis=-3)
    if supports.displacement is not None:
        gap = gap + np.moveaxis(supports.displacement, -1, -3)
    rhs = (gap @ np.swapaxes(R, -1, -2)[..., None, :, :] if np.ndim(gap) else 0.0) - rest
    return _solved(F, rhs, K)


def _blocks(u: Array, weights: tuple[Array, Array, Array], v: Array) -> Array:
    zz, zx, xx = (u * a[..., None, :] @ v for a in weights)
    return _square([[zz, zx], [np.swapaxes(zx, -1, -2), xx]], u.shape[-2])


def _square(parts: list[list[Array]], K: int) -> Array:
    lead = np.broadcast_shapes(*(p.shape[:-2] for row in parts for p in row))
    out = np.empty((*lead, 2 * K, 2 * K))
    for i in (0, 1):
        for j in (0, 1):
            out[..., i * K : (i + 1) * K, j * K : (j + 1) * K] = parts[i][j]
    return out


def _work(state: Array, weights: tuple[Array, Array, Array]) -> Array:
    """Weighted strains of both planes: [[a, b], [b, c]] times the state."""
    a, b, c = (v[..., None, :] for v in weights)
    first, second = state[..., 0, :, :], state[..., 1, :, :]
    return np.stack(np.broadcast_arrays(a * first + b * second, b * first + c * second), axis=-3)


def _solved(F: Array, rhs: Array, K: int) -> Array:
    cases = rhs.shape[-2]
    columns = np.swapaxes(np.moveaxis(rhs, -3, -2).reshape(*rhs.shape[:-3], cases, 2 * K), -1, -2)
    try:
        m = np.linalg.solve(F, columns)
    except np.linalg.LinAlgError as error:
        raise SurfaceError("the hinges do not hold the beam in one way only: are two of them the same?") from error
    return np.moveaxis(np.swapaxes(m, -1, -2).reshape(*m.shape[:-2], cases, 2, K), -2, -3)


def _check_torque(left: Array, T: Array, at_break: Array) -> None:
    size = np.maximum(np.abs(T).max(axis=-1), np.abs(at_break).max(axis=-1))
    open_ = np.abs(left) > TORQUE_REST * size
    if open_.any():
        worst = left[open_].flat[0]
        raise SurfaceError(
            f"the torque about the hinge line is not held: {worst:.4g} N m are left over at the root. Pins hold none: a "
            "horn, a torque tube or a stop is missing, or its force does not fit the loads"
        )


def _missing(*groups: BeamLoads | BeamStiffness | Supports) -> str:
    for group in groups:
        for name in group.__dataclass_fields__:
            value = getattr(group, name)
            if isinstance(value, np.ndarray) and not np.isfinite(value).all():
                return f"{type(group).__name__}.{name} has a value that is not a finite number: give every value"
    return "a value is not a finite number, or so large that the sums overflow: check loads and stiffness"
