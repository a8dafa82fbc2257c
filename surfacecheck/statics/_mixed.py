"""A beam under cases that are made up of a few unit loads: the units are solved, the cases are sums of them."""

from __future__ import annotations

from dataclasses import fields, replace
from typing import Any

import numpy as np
from numpy.typing import NDArray

from surfacecheck.axes import OverCases, mixed
from surfacecheck.statics._balance import refuse_open_torque
from surfacecheck.statics._beam import Beam, solve_each
from surfacecheck.statics._grid import Array, Grid
from surfacecheck.statics._loads import BeamLoads, total_torque, unloaded
from surfacecheck.statics._supports import BeamStiffness, Supports

__all__ = ["solve_mixed"]


def solve_mixed(
    stations: Grid,
    units: BeamLoads,
    mix: Array,
    stiffness: BeamStiffness,
    supports: Supports,
    coupled: tuple[bool, ...],
) -> tuple[Beam, ...]:
    """Solve a beam under cases that are made up of unit loads, in several idealisations.

    Parameters
    ----------
    stations : Grid
        Points and breaks.
    units : BeamLoads
        K unit loads.
    mix : ndarray, shape (..., C, K)
        How much of each goes into every case [-].
    stiffness : BeamStiffness
        Section at the points.
    supports : Supports
        Hinges, with displacement and thrust of the C cases.
    coupled : tuple of bool
        One for each idealisation, as :func:`solve_each` takes it.

    Returns
    -------
    tuple of Beam
        Of the C cases: what :func:`solve_each` gives for them, but for rounding.

    Raises
    ------
    SurfaceError
        As :func:`solve_each` does.
    """
    torque = total_torque(stations, units)
    refuse_open_torque(
        (mix * torque[..., None, :]).sum(axis=-1), np.abs(mix).max(axis=-1) * np.abs(torque).max(axis=-1)[..., None]
    )
    units, mix, thrust = _by_thrust(units, mix, supports.thrust)
    plain = replace(supports, displacement=None, thrust=thrust)
    solved = solve_each(stations, units, stiffness, plain, coupled, closed=False)
    shifted: tuple[Beam | None, ...] = (None,) * len(coupled)
    if supports.displacement is not None:
        shifted = solve_each(stations, unloaded(stations, mix.shape[-2]), stiffness, supports, coupled)
    return tuple(_cases(one, mix, supports, also) for one, also in zip(solved, shifted, strict=True))


def _by_thrust(
    units: BeamLoads, mix: Array, thrust: NDArray[np.intp] | None
) -> tuple[BeamLoads, Array, NDArray[np.intp] | None]:
    """Leave out unit loads that no case has, and part those along the hinge line by the hinge that takes them."""
    if thrust is None:
        return units, mix, None
    used = (mix != 0.0).reshape(-1, *mix.shape[-2:]).any(axis=0)
    parts: list[tuple[int, int, NDArray[np.bool_]]] = []
    for k in np.flatnonzero(used.any(axis=0)).tolist() or [0]:
        along = _along(units, k)
        takers = np.unique(thrust[used[:, k]]) if along else thrust[:1]
        parts += [(k, int(t), thrust == t if along else np.ones_like(thrust, dtype=bool)) for t in takers]
    which = [k for k, _, _ in parts]
    parted = {f.name: _taken(getattr(units, f.name), which, f.name) for f in fields(BeamLoads)}
    mask = np.stack([keep for _, _, keep in parts], axis=-1)
    return BeamLoads(**parted), np.where(mask, mix[..., which], 0.0), np.array([t for _, t, _ in parts])


def _along(units: BeamLoads, k: int) -> bool:
    return bool(units.y[..., k, :].any() or units.force[..., k, :, 1].any())


def _taken(load: Array, which: list[int], name: str) -> Array:
    return load[..., which, :, :] if name in {"force", "moment"} else load[..., which, :]


def _cases(solved: Beam, mix: Array, supports: Supports, shifted: Beam | None) -> Beam:
    """Sum solved unit loads, and what displaced supports do, into cases."""

    def summed(name: str) -> Any:
        unit = getattr(solved, name)
        flat = mixed(mix, unit.reshape(*unit.shape[:-2], -1))
        out = flat.reshape(*flat.shape[:-1], *unit.shape[-2:])
        return out if shifted is None else out + getattr(shifted, name)

    inside = OverCases(solved.inside.units, mix, None if shifted is None else shifted.inside)
    found = {name: summed(name) for name in ("reactions", "couples")}
    return replace(solved, supports=supports, mix=mix, inside=inside, **found)
