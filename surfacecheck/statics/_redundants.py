"""The redundant moments at the hinges: of all states in balance, the one with the least complementary energy."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from surfacecheck.axes import side_by_side
from surfacecheck.errors import SurfaceError
from surfacecheck.statics._balance import Balance
from surfacecheck.statics._grid import Array, Grid, plain, rows_times
from surfacecheck.statics._strains import bending_compliance, curvature, shear_and_twist, shear_compliance
from surfacecheck.statics._supports import BeamStiffness, Plan, Supports

__all__ = ["Units", "given_way", "redundants", "unit_functions"]


@dataclass(frozen=True, slots=True, eq=False)
class Units:
    """What a redundant of 1 N m does, the same in both planes."""

    hats: Array  # (..., K, S): moment
    shears: Array  # (..., K, H + 1): shear in each run
    hinges: Array  # (..., K, H): force on the beam at each hinge


def unit_functions(layout: Plan, free: Balance) -> Units:
    """Lay the hat functions over the points."""
    side = free.xi[..., None, :]
    hats = plain(layout.start_at_point * (1.0 - side) + layout.end_at_point * side)
    shears = np.zeros((*free.length.shape[:-1], *layout.at_start.shape))
    inner = slice(1, -1)  # a redundant leaves the overhangs alone
    shears[..., inner] = (layout.at_start - layout.at_end)[:, inner] / free.length[..., None, inner]
    return Units(hats, shears, plain(shears[..., :-1] - shears[..., 1:]))


def redundants(
    stations: Grid,
    stiffness: BeamStiffness,
    supports: Supports,
    layout: Plan,
    free: Balance,
    units: Units,
    coupled: bool,
) -> Array:
    """Solve ``F m = gap`` for the redundant moments, shape (..., 2, C, K)."""
    F, gap = _bending(stations, stiffness, free, units)
    if coupled:
        softer, wider = _shear_and_twist(stations, stiffness, layout, free, units)
        F, gap = F + softer, gap + wider
    if supports.compliance is not None:
        softer, wider = _soft_supports(supports.compliance, free, units)
        F, gap = F + softer, gap + wider
    if supports.displacement is not None:
        given = np.moveaxis(supports.displacement, -1, -3)
        gap = gap + _against(given, units.hinges)
    return _solved(F, gap)


def _bending(stations: Grid, b: BeamStiffness, free: Balance, units: Units) -> tuple[Array, Array]:
    w = stations.weight
    strain = curvature(b, free.M, free.N) * w[..., None, None, :]
    return _flexibility(units.hats, [c * w for c in bending_compliance(b)]), -_against(strain, units.hats)


def _shear_and_twist(
    stations: Grid, b: BeamStiffness, layout: Plan, free: Balance, units: Units
) -> tuple[Array, Array]:
    w = stations.weight
    strain = shear_and_twist(b, free.V, free.T)[0] * w[..., None, None, :]
    # a unit shear is constant in a run, so that three sums a run say all about it
    per_run = np.stack([c * w for c in shear_compliance(b)], axis=-2) @ layout.run_mask
    inner = units.shears[..., 1:-1]
    return _flexibility(inner, [per_run[..., i, :] for i in range(3)]), -_against(
        rows_times(strain, layout.run_mask), inner
    )


def _soft_supports(compliance: Array, free: Balance, units: Units) -> tuple[Array, Array]:
    R, turned = units.hinges, np.swapaxes(units.hinges, -1, -2)
    n = R.shape[-1]
    c = [[compliance[..., i * n : (i + 1) * n, j * n : (j + 1) * n] for j in (0, 1)] for i in (0, 1)]
    F = _joined(R @ c[0][0] @ turned, R @ c[0][1] @ turned, R @ c[1][1] @ turned)
    return F, -_against(given_way(compliance, free.V_run[..., :-1] - free.V_run[..., 1:]), R)


def given_way(compliance: Array, R: Array) -> Array:
    """How far supports give way to forces (..., 2, C, H) along those forces [m]; summed without linear algebra."""
    n = R.shape[-1]
    parts = [
        (R[..., j, :, None, :] * compliance[..., None, i * n : (i + 1) * n, j * n : (j + 1) * n]).sum(axis=-1)
        for i in (0, 1)
        for j in (0, 1)
    ]
    out: Array = np.stack([parts[0] + parts[1], parts[2] + parts[3]], axis=-3)
    return out


def _against(strain: Array, units: Array) -> Array:
    return rows_times(strain, np.swapaxes(units, -1, -2))


def _flexibility(units: Array, weights: list[Array]) -> Array:
    K, width = units.shape[-2:]
    weighted = units[..., None, :, :] * side_by_side(*weights, axis=-2)[..., None, :]
    rows = plain(weighted.reshape(*weighted.shape[:-3], 3 * K, width)) @ np.swapaxes(units, -1, -2)
    return _joined(rows[..., :K, :], rows[..., K : 2 * K, :], rows[..., 2 * K :, :])


def _joined(zz: Array, zx: Array, xx: Array) -> Array:
    K = zz.shape[-1]
    out = np.empty((*np.broadcast_shapes(zz.shape[:-2], zx.shape[:-2], xx.shape[:-2]), 2 * K, 2 * K))
    out[..., :K, :K], out[..., :K, K:] = zz, zx
    out[..., K:, :K], out[..., K:, K:] = np.swapaxes(zx, -1, -2), xx
    return out


def _solved(F: Array, gap: Array) -> Array:
    *lead, _, cases, K = gap.shape
    columns = np.swapaxes(np.swapaxes(gap, -3, -2).reshape(*lead, cases, 2 * K), -1, -2)
    try:
        m = np.linalg.solve(F, columns)
    except np.linalg.LinAlgError as error:
        message = "the hinges do not hold the beam in one way only: are two of them the same?"
        raise SurfaceError(message) from error
    out: Array = np.swapaxes(np.swapaxes(m, -1, -2).reshape(*m.shape[:-2], cases, 2, K), -3, -2)
    return out
