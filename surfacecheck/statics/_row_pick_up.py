"""In which order the rivets of a mixed row begin to carry: snug ones first, loose ones as the others give."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike

from surfacecheck.statics._grid import Array
from surfacecheck.statics._row_input import lap_row, one_way, seam_springs, slip_before
from surfacecheck.statics._row_lengths import layout, own_lengths
from surfacecheck.statics._row_system import pick_up

__all__ = ["lap_pick_up", "seam_pick_up"]


def lap_pick_up(C: ArrayLike, k_A: ArrayLike, k_B: ArrayLike, clearance: ArrayLike) -> Array:
    """Give the load at which each row of a lap joint begins to carry: the order in which rows pick up.

    Between pick-ups each load is a straight line in P; a row that carries goes on carrying.

    Parameters
    ----------
    C : array_like, shape (..., R)
        Flexibility of each row [m/N]: 0 rigid, infinite missing.
    k_A, k_B : array_like, scalar or shape (..., R-1) or (..., 1)
        E A / pitch of each strip between rows [N/m].
    clearance : array_like, scalar or shape (..., R)
        Slip of each row before it carries [m].

    Returns
    -------
    ndarray, shape (..., R)
        Pull P at which the row is touched [N]; 0 for the first, infinite for a missing or never touched one.

    Raises
    ------
    SurfaceError
        As :func:`lap_joint`.

    References
    ----------
    That of :func:`lap_joint`, with clearance as slip before contact (own derivation).

    Examples
    --------
    Two rows between strips that hardly stretch, the second loose by 1: the first carries alone up to 1/C.

    >>> lap_pick_up([2.0, 2.0], 1e12, 1e12, [0.0, 1.0])
    array([0. , 0.5])
    """
    line, _, share = lap_row(C, k_A, k_B, 0.0)
    one_way(line, share)
    return pick_up(line, share, slip_before(clearance))


def seam_pick_up(
    k: ArrayLike,
    k_A: ArrayLike,
    k_B: ArrayLike,
    pitch: ArrayLike,
    clearance: ArrayLike,
    overhang: ArrayLike | None = None,
) -> Array:
    """Give the flow at which each rivet of a seam begins to carry: the order in which rivets pick up.

    Parameters
    ----------
    k : array_like, shape (..., R)
        Stiffness of each rivet [N/m]: 0 missing, infinite rigid.
    k_A, k_B : array_like, scalar or shape (..., R-1) or (..., 1)
        E A / pitch of each strip [N/m].
    pitch : array_like, scalar or shape (..., R-1) or (..., 1)
        Distance between rivets [m].
    clearance : array_like, scalar or shape (..., R)
        Slip of each rivet before it carries [m].
    overhang : array_like, shape (...), optional
        Length of the seam beyond the end rivets [m].

    Returns
    -------
    ndarray, shape (..., R)
        Flow at which the rivet is touched [N/m]; 0 for the tightest, infinite for a missing or never touched one.

    Raises
    ------
    SurfaceError
        As :func:`seam_row`.

    References
    ----------
    That of :func:`seam_row`, with clearance as slip before contact (own derivation).

    Examples
    --------
    A snug rivet 10 mm from a loose one, strips that hardly stretch: 20 N, 1 kN/m on 20 mm, close
    the 0.02 mm.

    >>> print(f"{seam_pick_up([1e6, 1e6], 1e16, 1e16, 0.01, [0.0, 2e-5])[1]:.3f}")
    1000.000
    """
    line = seam_springs(k, k_A, k_B)
    rivets = line.C.shape[-1]
    own = own_lengths(np.ones(rivets, dtype=np.bool_), *layout(rivets, pitch, overhang))
    whole = own.sum(axis=-1, keepdims=True)
    handed = np.cumsum(own / whole, axis=-1)[..., :-1]
    return np.asarray(pick_up(line, line.g * handed, slip_before(clearance)) / whole)
