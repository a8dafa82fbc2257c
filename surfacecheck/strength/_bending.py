"""Plates bent out of their plane: a bracket leg, a horn, a bare strip of web behind a bracket.

Elastic: above yield these are bounds that say "this goes far past yield", no prediction.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.provenance import Basis, Source
from surfacecheck.strength._numbers import at_least, floats

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, NDArray

__all__ = [
    "BENDING_SOURCE",
    "plate_edge_bending",
    "plate_flat_bending",
    "plate_stress",
    "strip_moment_clamped",
    "strip_moment_supported",
]

BENDING_SOURCE = Source(Basis.COMMON_PRACTICE, "beam theory, elastic; a loose leaf bends by itself")


def plate_flat_bending(moment: ArrayLike, width: ArrayLike, thickness: ArrayLike) -> NDArray[np.float64]:
    """Give the stress of a plate bent flatwise, as a bracket leg at its bend.

    s = 6 M / (w t^2)

    Parameters
    ----------
    moment : array_like
        Moment about the weak axis, sign free [N m].
    width : array_like
        Width that bends [m].
    thickness : array_like
        Thickness [m].

    Returns
    -------
    ndarray
        Stress at the face, not negative [Pa].

    References
    ----------
    Beam theory, elastic.

    Examples
    --------
    A strip of web 40 mm wide, 0.8 mm thick, 3.78 N m, in MPa:

    >>> float(plate_flat_bending(3.78, 0.040, 0.0008)) / 1e6
    885.94
    """
    w, t = at_least(0.0, above=True, width=width, thickness=thickness)
    return np.asarray(6.0 * np.abs(floats(moment)) / (w * t * t))


def plate_edge_bending(moment: ArrayLike, width: ArrayLike, thickness: ArrayLike) -> NDArray[np.float64]:
    """Give the stress of a plate bent edgewise, as a horn under its rod.

    s = 6 M / (t w^2)

    Parameters
    ----------
    moment : array_like
        Moment in the plane of the plate, sign free [N m].
    width : array_like
        Width of the plate, less holes [m].
    thickness : array_like
        Thickness [m].

    Returns
    -------
    ndarray
        Stress at the edge, not negative [Pa].

    References
    ----------
    Beam theory, elastic.

    Examples
    --------
    >>> float(plate_edge_bending(60.0, 0.030, 0.002)) / 1e6
    200.0
    """
    w, t = at_least(0.0, above=True, width=width, thickness=thickness)
    return np.asarray(6.0 * np.abs(floats(moment)) / (t * w * w))


def plate_stress(
    force: ArrayLike, flat_moment: ArrayLike, edge_moment: ArrayLike, width: ArrayLike, thickness: ArrayLike
) -> NDArray[np.float64]:
    """Give the largest direct stress in a rectangular plate section, all at one corner.

    s = |N|/(w t) + 6 |M_flat|/(w t^2) + 6 |M_edge|/(t w^2)

    Parameters
    ----------
    force : array_like
        Force along the plate, sign free [N].
    flat_moment, edge_moment : array_like
        Moments about the weak and the strong axis, sign free [N m].
    width, thickness : array_like
        Section [m].

    Returns
    -------
    ndarray
        Stress, not negative [Pa].

    References
    ----------
    Beam theory, elastic.

    Examples
    --------
    >>> float(plate_stress(600.0, 0.0, 60.0, 0.030, 0.002)) / 1e6
    210.0
    """
    w, t = at_least(0.0, above=True, width=width, thickness=thickness)
    return np.asarray(
        np.abs(floats(force)) / (w * t) + plate_flat_bending(flat_moment, w, t) + plate_edge_bending(edge_moment, w, t)
    )


def _strip(
    forces: ArrayLike, places: ArrayLike, span: ArrayLike
) -> tuple[NDArray[np.float64], NDArray[np.float64], NDArray[np.float64]]:
    f, a = np.broadcast_arrays(floats(forces), floats(places))
    (length,) = at_least(0.0, above=True, span=span)
    length = length[..., np.newaxis]
    at_least(0.0, places=a, places_from_far_end=length - a)
    return f, a, length


def _moments_at_loads(
    f: NDArray[np.float64], a: NDArray[np.float64], near: NDArray[np.float64], start: NDArray[np.float64]
) -> NDArray[np.float64]:
    """Moment under every line load: end moment, near reaction, and what stands between."""
    arm = np.maximum(a[..., :, np.newaxis] - a[..., np.newaxis, :], 0.0)
    return np.asarray(start + near * a - np.sum(f[..., np.newaxis, :] * arm, axis=-1))


def strip_moment_supported(forces: ArrayLike, places: ArrayLike, span: ArrayLike) -> NDArray[np.float64]:
    """Give the largest moment in a strip on two supports under line loads.

    M_j = R a_j - sum over i of F_i max(a_j - a_i, 0), R = sum of F_i (L - a_i)/L

    Parameters
    ----------
    forces : array_like
        Loads of the rivet rows across the strip, last axis the rows, signed [N].
    places : array_like
        Their distances from one support, last axis the rows [m].
    span : array_like
        Distance of the supports, without the last axis [m].

    Returns
    -------
    ndarray
        Largest moment in size, without the last axis [N m].

    References
    ----------
    Statics of a beam on two supports.

    Examples
    --------
    Three rivet rows on a web strip, in N and mm:

    >>> float(strip_moment_supported([350.625, 210.0, 69.375], [8.0, 20.0, 32.0], 40.0))
    3780.0
    """
    f, a, length = _strip(forces, places, span)
    near = np.sum(f * (length - a) / length, axis=-1, keepdims=True)
    return np.asarray(np.max(np.abs(_moments_at_loads(f, a, near, np.zeros_like(near))), axis=-1))


def strip_moment_clamped(forces: ArrayLike, places: ArrayLike, span: ArrayLike) -> NDArray[np.float64]:
    """Give the largest moment in a strip clamped at both ends under line loads.

    M_0 = sum of F a (L - a)^2/L^2, M_L = sum of F a^2 (L - a)/L^2, and the moments under the loads

    Parameters
    ----------
    forces : array_like
        Loads of the rivet rows across the strip, last axis the rows, signed [N].
    places : array_like
        Their distances from one end, last axis the rows [m].
    span : array_like
        Length of the strip, without the last axis [m].

    Returns
    -------
    ndarray
        Largest moment in size, without the last axis [N m].

    References
    ----------
    Fixed-end moments of a beam; any table of beams.

    Examples
    --------
    >>> float(strip_moment_clamped([350.625, 210.0, 69.375], [8.0, 20.0, 32.0], 40.0))
    2934.0
    """
    f, a, length = _strip(forces, places, span)
    b = length - a
    square = length * length
    first = np.sum(f * a * b * b / square, axis=-1, keepdims=True)
    last = np.sum(f * a * a * b / square, axis=-1, keepdims=True)
    near = np.sum(f * b / length, axis=-1, keepdims=True) + (first - last) / length
    inside = np.max(np.abs(_moments_at_loads(f, a, near, -first)), axis=-1)
    ends = np.maximum(np.abs(first), np.abs(last))[..., 0]
    return np.asarray(np.maximum(inside, ends))
