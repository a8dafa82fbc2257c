"""The horn: its pull over its rivets."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.checks._apart_group import weights
from surfacecheck.errors import SurfaceError
from surfacecheck.model import DrivenBy
from surfacecheck.provenance import over_stations
from surfacecheck.statics import share_group

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from surfacecheck.checks._effects import Effects
    from surfacecheck.model import Surface

    Array = NDArray[np.float64]


__all__ = ["HornLoad", "horn_load", "horn_needs"]


@dataclass(frozen=True, eq=False)
class HornLoad:
    """What each rivet of the horn passes to the part it is riveted to.

    Attributes
    ----------
    x, z : ndarray, shape (..., R)
        Places of the rivets [m].
    share : ndarray, shape (..., C, R, 3)
        (x, y, z) of each rivet [N].
    shear, tension : ndarray, shape (..., C, R)
        [N].
    """

    x: Array
    z: Array
    share: Array
    shear: Array
    tension: Array


def horn_needs(surface: Surface) -> tuple[str, ...]:
    """List the keys that hide the rivet loads of the horn.

    Parameters
    ----------
    surface : Surface
        Perhaps half-filled.

    Returns
    -------
    tuple of str
        Empty where they can be worked.
    """
    horn = surface.horn
    if horn is None:
        return ("horn",)
    fixing = horn.fixed_with
    wanted = {
        "rivet": fixing.rivet in surface.rivets,
        "fore_aft": fixing.fore_aft is not None,
        "sideways": fixing.sideways is not None,
        "gap_fore_aft": fixing.gap_fore_aft.known or fixing.fore_aft == 1,
        "gap_sideways": fixing.gap_sideways.known or fixing.sideways == 1,
        "first_behind": fixing.first_behind.known,
    }
    return tuple(f"horn.fixed_with.{key}" for key, known in wanted.items() if not known)


def horn_load(effects: Effects) -> HornLoad | None:
    """Share the pull at the horn over its rivets.

    Parameters
    ----------
    effects : Effects
        With horn forces.

    Returns
    -------
    HornLoad or None
        None where there is no horn plate, its pattern is not known, or it cannot hold the pull without a heel.
    """
    surface = effects.surface
    horn = surface.horn
    if horn is None or horn.driven_by is DrivenBy.TORQUE_TUBE or horn_needs(surface) or not effects.horn_points.size:
        return None
    fixing = horn.fixed_with
    n_x, n_z = fixing.fore_aft or 1, fixing.sideways or 1
    gap_x, gap_z = (over_stations(gap) if gap.known else 0.0 for gap in (fixing.gap_fore_aft, fixing.gap_sideways))
    x = over_stations(fixing.first_behind) + gap_x * np.repeat(np.arange(n_x), n_z)
    z = np.tile(np.arange(n_z) - 0.5 * (n_z - 1), n_x) * gap_z
    weight = weights(surface, "horn.rivets", surface.rivets[fixing.rivet], n_x * n_z)
    if weight is not None:
        x, z, weight = np.broadcast_arrays(x, z, weight)
    share = np.zeros((len(effects.cases), n_x * n_z, 3))
    for p in range(effects.horn_points.shape[-2]):
        F, at = effects.horn_force[..., p, :], effects.horn_points[..., p, :]
        offset = np.stack([np.zeros_like(at[..., 0]), at[..., 1], at[..., 0]], axis=-1)
        try:
            part = share_group(z, x, F[..., [1, 2, 0]], offset=offset, weight=weight)
        except SurfaceError:  # one rivet, or one line of them, holds no couple: horn_checks says so
            return None
        share = share + part[..., [2, 0, 1]]
    return HornLoad(x, z, share, np.hypot(share[..., 0], share[..., 2]), np.abs(share[..., 1]))
