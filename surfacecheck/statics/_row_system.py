"""The equations of a row of fasteners between two strips: linear, with missing and rigid ones, and with clearance.

Between fasteners i and i + 1 the slips differ by what the two strips stretch: slip_(i+1) - slip_i = g_i S_i - h_i,
where S_i is what the first i fasteners carry, g_i = 1/k_A + 1/k_B, and h_i the stretch that the load would cause with
no fastener to the left. A fastener takes x = f + kappa (slip - clearance) as its unknown, with one kappa for the row,
so that a rigid one (slip 0) and a missing one (force 0) are plain numbers: no huge stiffness stands in for either.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from surfacecheck.errors import SurfaceError
from surfacecheck.statics._grid import Array

__all__ = ["Row", "by_bay", "contact", "linear", "pick_up", "row"]

ALIKE = 1.0e-6
"""Least flexibility of the strips over that of the stiffest fastener in the choice of the unknowns [-]."""

SLIPS = 1.0e-12
"""Part of the fastest slip below which a fastener does not move towards contact: rounding leaves 1e-15 [-]."""


@dataclass(frozen=True, slots=True, eq=False)
class Row:
    """A row as its equations need it.

    Attributes
    ----------
    C : ndarray, shape (..., R)
        Flexibility [m/N]; infinite where the fastener is missing, zero where it is rigid.
    g : ndarray, shape (..., R-1)
        Flexibility of both strips of a bay in series [m/N].
    scale : ndarray, shape (..., 1)
        1/kappa, the flexibility of the strips, which makes the unknowns alike in size [m/N].
    """

    C: Array
    g: Array
    scale: Array


def row(C: Array, k_A: Array, k_B: Array) -> Row:
    """Check a row and prepare its equations."""
    if C.ndim == 0 or C.shape[-1] == 0:
        message = "a row needs at least one rivet: give the flexibility or stiffness of each along the last axis"
        raise SurfaceError(message)
    there = np.isfinite(C)
    if not there.any(axis=-1).all():
        message = "every rivet of the row is missing, so that nothing joins the two strips: leave at least one in"
        raise SurfaceError(message)
    for name, k in (("k_A", k_A), ("k_B", k_B)):
        if not (k > 0.0).all():
            message = f"{name} is {k.min():.4g} N/m; a strip's stiffness E A / pitch must be above zero: correct it"
            raise SurfaceError(message)
    g = by_bay(1.0 / k_A + 1.0 / k_B, C.shape[-1], "k_A and k_B")
    if (C == 0.0).any() and (g == 0.0).any():
        message = "rigid rivets between rigid strips share in no one way: give the rivets or the strips a flexibility"
        raise SurfaceError(message)
    least = np.where(there & (C > 0.0), C, np.inf).min(axis=-1, keepdims=True)
    least = np.where(np.isfinite(least), least, 0.0)
    stretch = g.max(axis=-1, keepdims=True) if g.shape[-1] else np.zeros(least.shape)
    scale = np.maximum(stretch, ALIKE * least)
    return Row(C, g, np.where(scale > 0.0, scale, 1.0))


def by_bay(values: Array, rivets: int, name: str) -> Array:
    """Lay one value, or one a bay, along the bays of a row: shape (..., R-1)."""
    if values.ndim and values.shape[-1] not in (1, rivets - 1):
        message = f"{name}: {values.shape[-1]} values for {rivets - 1} bays between {rivets} rivets; give one a bay"
        raise SurfaceError(message)
    if rivets == 1:
        return np.zeros((*values.shape[:-1], 0))
    return np.broadcast_to(values, (*values.shape[:-1], rivets - 1))


def _solve(line: Row, held: NDArray[np.bool_], h: Array, clearance: Array, total: Array) -> tuple[Array, Array]:
    """Return force [N] and x [N] of each fastener when those ``held`` carry and the others hang free."""
    C, scale = np.where(held, line.C, 0.0), line.scale
    a = np.where(held, scale / (scale + C), 0.0)  # force per x
    b = np.where(held, C / (scale + C), 1.0)  # kappa times (slip - clearance) per x
    stretch = line.g / scale
    rivets = a.shape[-1]
    size = 1.0 + stretch  # of a bay's equation
    here, after = np.eye(rivets - 1, rivets), np.eye(rivets - 1, rivets, 1)
    bays = b[..., None, :] * (after - here) - stretch[..., None] * a[..., None, :] * np.tri(rivets - 1, rivets)
    bays = bays / size[..., None]
    equations = np.concatenate([bays, np.broadcast_to(a[..., None, :], (*bays.shape[:-2], 1, rivets))], axis=-2)
    right = -(h + np.diff(clearance, axis=-1)) / scale / size
    lead = np.broadcast_shapes(right.shape[:-1], total.shape)
    right = np.broadcast_to(right, (*lead, rivets - 1))
    right = np.concatenate([right, np.broadcast_to(total, lead)[..., None]], axis=-1)
    x = np.linalg.solve(equations, right[..., None])[..., 0]
    return np.asarray(a * x), x


def linear(line: Row, h: Array, total: Array) -> Array:
    """Give the force of each fastener without clearance, shape (..., R) [N]."""
    return finite(_solve(line, np.isfinite(line.C), h, np.zeros(line.C.shape), total)[0])


def contact(line: Row, h: Array, total: Array, clearance: Array) -> Array:
    """Give the force of each fastener when each first slips by its clearance.

    All start as carrying; those that would push back let go; again until none does. With every strip handing on its
    load to the right (the callers see to it) the equations are convex and their inverse has no negative entry, so the
    sets only shrink, never more often than there are fasteners, and end at the one answer.
    """
    rivets = line.C.shape[-1]
    lead = np.broadcast_shapes(line.C.shape[:-1], line.g.shape[:-1], h.shape[:-1], total.shape, clearance.shape[:-1])
    held = np.broadcast_to(np.isfinite(line.C), (*lead, rivets))
    at_rest = np.broadcast_to(total == 0.0, lead)
    acting, stretch = np.where(at_rest, 1.0, total), np.where(at_rest[..., None], 0.0, h)
    force = np.zeros(held.shape)
    for _ in range(rivets):
        force, x = _solve(line, held, stretch, clearance, acting)
        still = held & (x >= 0.0)
        if (still == held).all():
            break
        held = still
    return finite(np.where(at_rest[..., None], 0.0, force))


def pick_up(line: Row, h: Array, clearance: Array) -> Array:
    """Give the load at which each fastener begins to carry, for stretches h per unit of load, shape (..., R).

    From one event to the next everything is a straight line in the load; at an event the fastener that is touched first
    joins in and stays. Infinite for one that is missing or is never touched.
    """
    rivets = line.C.shape[-1]
    lead = np.broadcast_shapes(line.C.shape[:-1], line.g.shape[:-1], h.shape[:-1], clearance.shape[:-1])
    there = np.broadcast_to(np.isfinite(line.C), (*lead, rivets))
    gap = np.broadcast_to(clearance, (*lead, rivets))
    least = np.where(there, gap, np.inf).min(axis=-1, keepdims=True)
    held = there & (gap == least)
    start = np.where(held, 0.0, np.inf)
    now, one, none = np.zeros((*lead, 1)), np.ones(lead), np.zeros(lead)
    for _ in range(rivets - 1):
        if (held == there).all():
            break
        rate = _solve(line, held, np.broadcast_to(h, (*lead, rivets - 1)), np.zeros(gap.shape), one)[1]
        fixed = _solve(line, held, np.zeros((*lead, rivets - 1)), gap, none)[1]
        waiting = there & ~held & (rate > SLIPS * np.abs(rate).max(axis=-1, keepdims=True))
        at = np.where(waiting, np.maximum(-fixed / np.where(waiting, rate, 1.0), now), np.inf)
        next_load = at.min(axis=-1, keepdims=True)
        joins = waiting & (at == next_load)
        start = np.where(joins, next_load, start)
        held = held | joins
        now = np.where(np.isfinite(next_load), next_load, now)
    return start


def finite(out: Array) -> Array:
    """Return what was found, or say that a value given was no number."""
    if not np.isfinite(out).all():
        message = "load, flow, stiffness or clearance of the row holds a value that is not a finite number: give all"
        raise SurfaceError(message)
    return out
