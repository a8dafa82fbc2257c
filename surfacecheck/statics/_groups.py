"""How a group of rivets shares a force and a moment: elastic, rigid bracket.

Axes (n, a, b) are right-handed, n square to the sheet. What is returned is what each rivet passes on to the sheet: the
sum over the rivets is the load, and so is the sum of their moments.

References
----------
Bruhn, E. F.: Analysis and Design of Flight Vehicle Structures, chapter D1 (eccentrically loaded fastener groups).
Budynas, R. G., and Nisbett, J. K.: Shigley's Mechanical Engineering Design, chapter 8 (joints loaded in shear). Both
from memory; the derivation from balance and a rigid bracket is in the docstrings.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike

from surfacecheck.axes import side_by_side
from surfacecheck.errors import SurfaceError
from surfacecheck.statics._grid import Array

__all__ = ["share_group", "share_in_plane"]

LINE = 1.0e-12
"""A group is one line when its second moments multiply to less than this part of their sum squared [-]."""

CARRIED = 1.0e-9
"""Part of the moments in play that may be left when a group cannot carry a moment [-]; rounding leaves 1e-15."""


@dataclass(frozen=True, slots=True, eq=False)
class _Group:
    weight: Array  # (..., 1, R)
    total: Array  # (..., 1)
    centre: tuple[Array, Array]  # (..., 1) each
    a: Array  # (..., 1, R) from the centre
    b: Array
    S_aa: Array  # (..., 1)
    S_ab: Array
    S_bb: Array


def _group(a: ArrayLike, b: ArrayLike, weight: ArrayLike | None) -> _Group:
    stiff = 1.0 if weight is None else weight
    at_a, at_b, w = np.broadcast_arrays(*(np.asarray(one, dtype=np.float64) for one in (a, b, stiff)))
    if at_a.ndim == 0 or at_a.shape[-1] == 0:
        message = "a group needs at least one rivet: give a and b of each"
        raise SurfaceError(message)
    if not (np.isfinite(at_a).all() and np.isfinite(at_b).all()):
        message = "a rivet of the group has no finite place: give a and b of each"
        raise SurfaceError(message)
    total = w.sum(axis=-1)
    if not ((w >= 0.0).all() and (total > 0.0).all() and np.isfinite(total).all()):
        message = (
            f"weights of the rivets must be 0 or more, not all 0; the least is {w.min():.4g}: give relative stiffness"
        )
        raise SurfaceError(message)
    centre_a, centre_b = (w * at_a).sum(axis=-1) / total, (w * at_b).sum(axis=-1) / total
    da, db = at_a - centre_a[..., None], at_b - centre_b[..., None]
    moments = ((w * da * da).sum(axis=-1), (w * da * db).sum(axis=-1), (w * db * db).sum(axis=-1))
    S_aa, S_ab, S_bb = (s[..., None] for s in moments)
    return _Group(
        w[..., None, :],
        total[..., None],
        (centre_a[..., None], centre_b[..., None]),
        da[..., None, :],
        db[..., None, :],
        S_aa,
        S_ab,
        S_bb,
    )


def share_in_plane(
    a: ArrayLike,
    b: ArrayLike,
    force: ArrayLike,
    offset: ArrayLike = (0.0, 0.0),
    moment: ArrayLike = 0.0,
    weight: ArrayLike | None = None,
) -> Array:
    """Share a force in the plane of the group by the elastic vector method.

    ``f_i = w_i (F / sum w + m x r_i / sum w r^2)``, m about the weighted centre: a rigid plate on equal springs.

    Parameters
    ----------
    a, b : array_like, shape (..., R)
        Places of the rivets [m].
    force : array_like, shape (..., C, 2)
        (F_a, F_b) [N]; the case axis is always there.
    offset : array_like, shape (2,), (..., 2) or (..., C, 2)
        Point (a, b) the force goes through [m].
    moment : array_like, shape (..., C)
        Moment beside it, from a to b, about n [N m].
    weight : array_like, shape (..., R), optional
        Relative stiffness or area of the rivets [-]; 0 for one that is not there.

    Returns
    -------
    ndarray, shape (..., C, R, 2)
        (f_a, f_b) of each rivet [N].

    Raises
    ------
    SurfaceError
        If there is no rivet, a value is missing, or the group is one rivet and cannot carry the moment.

    Examples
    --------
    >>> share_in_plane([0.0, 0.1], [0.0, 0.0], [[0.0, 100.0]], offset=(0.1, 0.0))[0]
    array([[0., 0.],
           [0., 100.]])
    """
    group = _group(a, b, weight)
    F = _rows(force, 2, "force")
    at = _offset(offset, F, 2)
    m = np.asarray(moment, dtype=np.float64)
    arm_a, arm_b = at[..., 0] - group.centre[0], at[..., 1] - group.centre[1]
    m = m + arm_a * F[..., 1] - arm_b * F[..., 0]
    size = np.abs(m) + np.hypot(F[..., 0], F[..., 1]) * (np.abs(arm_a) + np.abs(arm_b))
    out: Array = side_by_side(*_turned(group, F[..., 0], F[..., 1], m, size))
    return _finite(out)


def _turned(group: _Group, F_a: Array, F_b: Array, m: Array, size: Array) -> tuple[Array, Array]:
    polar = group.S_aa + group.S_bb
    spread = polar > LINE * (group.centre[0] ** 2 + group.centre[1] ** 2) * group.total
    left = np.where(spread, 0.0, np.abs(m))
    if (left > CARRIED * size).any():
        message = (
            f"one rivet cannot hold the plate from turning: a moment of {left.max():.4g} N m about it is left over; "
            "give the group a second rivet or take the load through the first"
        )
        raise SurfaceError(message)
    rate = np.where(spread, m / np.where(spread, polar, 1.0), 0.0)[..., None]
    f_a = group.weight * ((F_a / group.total)[..., None] - rate * group.b)
    f_b = group.weight * ((F_b / group.total)[..., None] + rate * group.a)
    return f_a, f_b


def share_group(
    a: ArrayLike,
    b: ArrayLike,
    force: ArrayLike,
    offset: ArrayLike = (0.0, 0.0, 0.0),
    moment: ArrayLike = (0.0, 0.0, 0.0),
    weight: ArrayLike | None = None,
) -> Array:
    """Share a force and a moment in space between the rivets of a flat group: rigid bracket, no heel.

    In the plane the elastic vector method; across it ``f_n = w (F_n / sum w + p a + q b)``, a and b from the weighted
    centre, with p and q from ``sum b f_n = m_a`` and ``sum a f_n = -m_b`` (product of second moments included).

    Parameters
    ----------
    a, b : array_like, shape (..., R)
        Places of the rivets [m].
    force : array_like, shape (..., C, 3)
        (F_n, F_a, F_b) [N]; the case axis is always there.
    offset : array_like, shape (3,), (..., 3) or (..., C, 3)
        Point (n, a, b) it acts at, n from the faying face [m].
    moment : array_like, shape (..., C, 3)
        (M_n, M_a, M_b) beside it [N m].
    weight : array_like, shape (..., R), optional
        Relative stiffness of the rivets [-]; 0 for one that is not there.

    Returns
    -------
    ndarray, shape (..., C, R, 3)
        (f_n, f_a, f_b) that each rivet, or the contact beside it, passes to the sheet [N].

    Raises
    ------
    SurfaceError
        If there is no rivet, a value is missing, or rivets in one line (or one rivet) cannot carry the moment.

    Examples
    --------
    >>> share_group([-0.01, 0.01], [0.0, 0.0], [[100.0, 0.0, 0.0]], offset=(0.0, 0.01, 0.0))[0, :, 0]
    array([  0., 100.])
    """
    group = _group(a, b, weight)
    F = _rows(force, 3, "force")
    M = np.asarray(moment, dtype=np.float64)
    at = _offset(offset, F, 3)
    r_n, r_a, r_b = at[..., 0], at[..., 1] - group.centre[0], at[..., 2] - group.centre[1]
    F_n, F_a, F_b = F[..., 0], F[..., 1], F[..., 2]
    m_n = M[..., 0] + r_a * F_b - r_b * F_a
    m_a = M[..., 1] + r_b * F_n - r_n * F_b
    m_b = M[..., 2] + r_n * F_a - r_a * F_n
    reach = np.abs(r_n) + np.abs(r_a) + np.abs(r_b)
    size = np.abs(M).sum(axis=-1) + np.sqrt(F_n * F_n + F_a * F_a + F_b * F_b) * reach
    p, q = _tilt(group, m_a, m_b, size)
    f_n = group.weight * ((F_n / group.total)[..., None] + p[..., None] * group.a + q[..., None] * group.b)
    f_a, f_b = _turned(group, F_a, F_b, m_n, size)
    return _finite(side_by_side(f_n, f_a, f_b))


def _tilt(group: _Group, m_a: Array, m_b: Array, size: Array) -> tuple[Array, Array]:
    """Solve [S_aa S_ab; S_ab S_bb] (p, q) = (-m_b, m_a); in one line, only along it."""
    S_aa, S_ab, S_bb = group.S_aa, group.S_ab, group.S_bb
    det, polar = S_aa * S_bb - S_ab * S_ab, S_aa + S_bb
    flat = det > LINE * polar * polar
    safe = np.where(flat, det, 1.0)
    p, q = -(m_b * S_bb + m_a * S_ab) / safe, (m_a * S_aa + m_b * S_ab) / safe
    if flat.all():
        return np.broadcast_arrays(p, q)[0], np.broadcast_arrays(p, q)[1]
    angle = 0.5 * np.arctan2(2.0 * S_ab, S_aa - S_bb)
    e_a, e_b = np.cos(angle), np.sin(angle)
    held = e_b * m_a - e_a * m_b
    spread = polar > LINE * (group.centre[0] ** 2 + group.centre[1] ** 2) * group.total
    along = np.where(spread, held / np.where(spread, polar, 1.0), 0.0)
    left = np.where(flat, 0.0, np.abs(e_a * m_a + e_b * m_b) + np.where(spread, 0.0, np.abs(held)))
    if (left > CARRIED * size).any():
        what = (
            "rivets in one line cannot hold a moment about that line" if spread.all() else "one rivet holds no moment"
        )
        message = f"{what}: {left.max():.4g} N m are left over; a heel must take it (heel_bound), or a second row"
        raise SurfaceError(message)
    return np.where(flat, p, along * e_a), np.where(flat, q, along * e_b)


def _rows(force: ArrayLike, count: int, name: str) -> Array:
    F = np.asarray(force, dtype=np.float64)
    if F.ndim < 2 or F.shape[-1] != count:
        message = f"{name} has shape {F.shape}: it must end in (cases, {count}), one case included"
        raise SurfaceError(message)
    return F


def _offset(offset: ArrayLike, F: Array, count: int) -> Array:
    at = np.asarray(offset, dtype=np.float64)
    if at.ndim == 0 or at.shape[-1] != count:
        message = f"offset has shape {at.shape}: its last axis must hold {count} distances"
        raise SurfaceError(message)
    return at if at.ndim >= F.ndim or at.ndim == 1 else at[..., None, :]


def _finite(out: Array) -> Array:
    if not np.isfinite(out).all():
        message = "force, offset, moment or weight of the group holds a value that is not a finite number: give all"
        raise SurfaceError(message)
    return out
