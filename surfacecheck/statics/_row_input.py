"""What a person may give for a row of fasteners, checked once for every question asked of it."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike

from surfacecheck.errors import SurfaceError
from surfacecheck.statics._grid import Array
from surfacecheck.statics._row_system import Row, by_bay, row

__all__ = ["lap_row", "one_way", "seam_springs", "slip_before"]

BACKWARD = 1.0e-12
"""Part of the load below which a strip handing on its load backward is rounding [-]."""


def lap_row(C: ArrayLike, k_A: ArrayLike, k_B: ArrayLike, load: ArrayLike) -> tuple[Row, Array, Array]:
    """Return the row, the pull, and what a unit of it stretches A in each bay, (..., R-1)."""
    give, a, b, P = (np.asarray(v, dtype=np.float64) for v in (C, k_A, k_B, load))
    if not (give >= 0.0).all():
        message = "C is negative or not a number somewhere; a flexibility is 0 (rigid) or more, infinite where missing"
        raise SurfaceError(message)
    line = row(give, a, b)
    return line, P, by_bay(1.0 / a, give.shape[-1], "k_A")


def seam_springs(k: ArrayLike, k_A: ArrayLike, k_B: ArrayLike) -> Row:
    """Return a row of rivets given by stiffness."""
    stiff, a, b = (np.asarray(v, dtype=np.float64) for v in (k, k_A, k_B))
    if not (stiff >= 0.0).all():
        message = "k is negative or not a number somewhere; a stiffness is 0 (missing) or more, infinite where rigid"
        raise SurfaceError(message)
    gone = stiff == 0.0
    with np.errstate(over="ignore"):  # next to nothing is nothing
        give = 1.0 / np.where(gone, 1.0, stiff)
    return row(np.where(gone, np.inf, give), a, b)


def slip_before(clearance: ArrayLike) -> Array:
    """Return the clearance of each rivet, one axis at least."""
    gap = np.asarray(clearance, dtype=np.float64)
    if not (np.isfinite(gap).all() and (gap >= 0.0).all()):
        message = f"clearance is {gap.min():.4g} m; a slip before contact must be zero or more: correct it"
        raise SurfaceError(message)
    return gap if gap.ndim else gap[None]


def one_way(line: Row, share: Array) -> None:
    """Refuse strips that would hand load back: contact is then no matter of one set growing with the load."""
    stretches = line.g > 0.0
    in_B = np.where(stretches, share / np.where(stretches, line.g, 1.0), 0.0)  # of a pull, with every slip the same
    if not (in_B >= np.maximum.accumulate(in_B, axis=-1) - BACKWARD)[stretches].all():
        message = (
            "with clearance, k_B / (k_A + k_B) must not fall from one bay to the next (A thinner, or B thicker, "
            "towards the first row): leave the clearance out, or turn the joint round"
        )
        raise SurfaceError(message)
