"""From what a rivet passes on to shear and tension; and the bounds when a bracket turns about its edge."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike

from surfacecheck.errors import SurfaceError
from surfacecheck.statics._grid import Array

__all__ = ["heel_bound", "prying_bound", "shear_and_tension"]


def shear_and_tension(shares: Array, side: int) -> tuple[Array, Array]:
    """Split what each rivet passes to the sheet into shear and tension.

    ``shear = hypot(f_a, f_b)``, ``tension = max(side f_n, 0)``: what pulls the bracket off is tension, what presses it
    on is borne by contact.

    Parameters
    ----------
    shares : ndarray, shape (..., R, 3)
        (f_n, f_a, f_b) of :func:`share_group` [N].
    side : int
        +1 if the bracket lies on the +n side of the sheet, -1 if on the other [-].

    Returns
    -------
    shear, tension : ndarray, shape (..., R)
        Both 0 or more [N].

    Raises
    ------
    SurfaceError
        If the side is neither +1 nor -1.

    Examples
    --------
    >>> shear_and_tension(np.array([[-28.3, -10.3, -19.5]]), side=-1)[1]
    array([28.3])
    """
    _check_side(side)
    tension: Array = np.maximum(side * shares[..., 0], 0.0)
    shear: Array = np.hypot(shares[..., 1], shares[..., 2])
    return shear, tension


def heel_bound(
    a: ArrayLike,
    b: ArrayLike,
    force: ArrayLike,
    offset: ArrayLike,
    heel: tuple[ArrayLike, ArrayLike],
    inward: tuple[ArrayLike, ArrayLike],
    side: int,
    moment: ArrayLike = (0.0, 0.0, 0.0),
    weight: ArrayLike | None = None,
) -> tuple[Array, Array]:
    """Tension of each rivet if the bracket turns about a stated edge, where it bears on the sheet.

    ``T_i = w_i d_i m / sum w d^2`` with d the distance from the heel and m the moment of the load about it that lifts;
    rivets behind the heel are slack, and a load that presses on lifts nothing.

    Parameters
    ----------
    a, b : array_like, shape (..., R)
        Places of the rivets [m].
    force : array_like, shape (..., C, 3)
        (F_n, F_a, F_b) [N].
    offset : array_like, shape (3,), (..., 3) or (..., C, 3)
        Point (n, a, b) it acts at, n from the faying face [m].
    heel : tuple of array_like, shape (...)
        A point (a, b) of the edge [m].
    inward : tuple of array_like, shape (...)
        Direction (a, b) in the sheet, square to the edge, from it towards the rivets; its length does not matter [-].
    side : int
        +1 if the bracket lies on the +n side of the sheet, -1 if on the other [-].
    moment : array_like, shape (..., C, 3)
        (M_n, M_a, M_b) beside it [N m].
    weight : array_like, shape (..., R), optional
        Relative stiffness of the rivets [-]; 0 for one that is not there.

    Returns
    -------
    tension : ndarray, shape (..., C, R)
        Tension of each rivet [N].
    contact : ndarray, shape (..., C)
        Force with which the heel then presses on the sheet [N]. Where it is negative the bracket is pulled off
        bodily, there is no heel, and :func:`share_group` is the answer.

    Raises
    ------
    SurfaceError
        If no rivet lies in front of the heel, or a value is missing.

    Examples
    --------
    A pull of 100 N on a line 40 mm from the heel, one rivet at 20 mm: 200 N, and 100 N at the heel.

    >>> tension, contact = heel_bound([0.02], [0.0], [[100.0, 0.0, 0.0]], (0.0, 0.04, 0.0), (0.0, 0.0), (1.0, 0.0), 1)
    >>> tension, contact
    (array([[200.]]), array([100.]))
    """
    _check_side(side)
    F, M, at = (np.asarray(v, dtype=np.float64) for v in (force, moment, offset))
    at = at if at.ndim >= F.ndim or at.ndim == 1 else at[..., None, :]
    i_a, i_b = (np.asarray(v, dtype=np.float64)[..., None] for v in inward)
    length = np.hypot(i_a, i_b)
    if not (length > 0.0).all():
        message = f"inward = {inward}: it must point from the heel towards the rivets"
        raise SurfaceError(message)
    i_a, i_b = i_a / length, i_b / length
    h_a, h_b = (np.asarray(v, dtype=np.float64)[..., None] for v in heel)
    d = np.maximum((np.asarray(a, dtype=np.float64) - h_a) * i_a + (np.asarray(b, dtype=np.float64) - h_b) * i_b, 0.0)
    w = np.ones(d.shape) if weight is None else np.asarray(weight, dtype=np.float64)
    stiff = (w * d * d).sum(axis=-1)
    if not (stiff > 0.0).all():
        message = "no rivet lies in front of the heel: turn `inward` round, or move the heel to the other edge"
        raise SurfaceError(message)
    r_n, r_a, r_b = at[..., 0], at[..., 1] - h_a, at[..., 2] - h_b
    m_a = M[..., 1] + r_b * F[..., 0] - r_n * F[..., 2]
    m_b = M[..., 2] + r_n * F[..., 1] - r_a * F[..., 0]
    lifts = np.maximum(side * (i_b * m_a - i_a * m_b), 0.0)
    tension: Array = (w * d)[..., None, :] * (lifts / stiff[..., None])[..., None]
    contact: Array = tension.sum(axis=-1) - side * F[..., 0]
    if not (np.isfinite(tension).all() and np.isfinite(contact).all()):
        message = "force, offset, moment or weight of the group holds a value that is not a finite number: give all"
        raise SurfaceError(message)
    return tension, contact


def prying_bound(tension: ArrayLike, leg: ArrayLike, toe: ArrayLike) -> Array:
    """Tension of a rivet through a bent leg that bears on its toe, at most.

    ``T (a + b) / a``, a = toe, b = leg: balance of a rigid leg about its toe.

    Parameters
    ----------
    tension : array_like
        Pull on the leg for each rivet [N].
    leg : array_like
        b, distance from the line of the pull to the rivet [m].
    toe : array_like
        a, distance from the rivet to the edge the leg bears on [m].

    Returns
    -------
    ndarray
        Tension of the rivet [N].

    Raises
    ------
    SurfaceError
        If the toe is not positive or the leg is negative.

    Examples
    --------
    >>> prying_bound(100.0, leg=0.010, toe=0.008)
    array(225.)
    """
    pull, b, a = (np.asarray(v, dtype=np.float64) for v in (tension, leg, toe))
    if not ((a > 0.0).all() and (b >= 0.0).all()):
        message = f"toe must be longer than 0 and leg not shorter: least toe {a.min():.4g} m, leg {b.min():.4g} m"
        raise SurfaceError(message)
    return np.asarray(pull * (a + b) / a)


def _check_side(side: int) -> None:
    if side not in (1, -1):
        message = f"side = {side}: +1 is a bracket on the +n side of the sheet, -1 on the other; nothing else"
        raise SurfaceError(message)
