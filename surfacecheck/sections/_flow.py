"""Shear flow along walls: mean, slope and curvature, and what is read from them."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

import numpy as np

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, NDArray

__all__ = ["FlowPeak", "WallFlow", "flow_at", "flow_ends", "flow_peak", "flow_size", "flow_spread"]


class WallFlow(NamedTuple):
    """Shear flow along each wall, exact for a straight wall of constant thickness.

    With u running from -1 at the first node to +1 at the second,
    ``q = mean + slope u + curvature (3 u**2 - 1) / 2``: the first three Legendre polynomials, so that ``mean`` alone
    makes the wall's force.

    Attributes
    ----------
    mean, slope, curvature : ndarray, shape (..., W)
        Parts of the flow [N/m].
    """

    mean: NDArray[np.float64]
    slope: NDArray[np.float64]
    curvature: NDArray[np.float64]


class FlowPeak(NamedTuple):
    """The flow of greatest size along each wall, and where it is.

    Attributes
    ----------
    value : ndarray, shape (..., W)
        Flow with its sign [N/m].
    fraction : ndarray, shape (..., W)
        Place as a fraction of the wall's length from its first node [-].
    """

    value: NDArray[np.float64]
    fraction: NDArray[np.float64]


def flow_ends(flow: WallFlow) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Flow at the first and at the second node of each wall.

    Parameters
    ----------
    flow : WallFlow
        Flow of the walls [N/m].

    Returns
    -------
    tuple of ndarray, each of shape (..., W)
        Flow at the first and at the second node [N/m].
    """
    middle = flow.mean + flow.curvature
    return middle - flow.slope, middle + flow.slope


def flow_at(flow: WallFlow, fraction: ArrayLike) -> NDArray[np.float64]:
    """Flow at a place along each wall.

    Parameters
    ----------
    flow : WallFlow
        Flow of the walls [N/m].
    fraction : array_like, broadcast against (..., W)
        Place as a fraction of the wall's length from its first node, 0 to 1 [-].

    Returns
    -------
    ndarray, shape (..., W)
        Flow there [N/m].
    """
    u = 2.0 * np.asarray(fraction, dtype=np.float64) - 1.0
    return np.asarray(flow.mean + flow.slope * u + flow.curvature * (1.5 * u * u - 0.5))


def flow_peak(flow: WallFlow) -> FlowPeak:
    """Flow of greatest size along each wall: at an end, or at the vertex between them.

    The vertex lies at the fraction ``1/2 - slope / (6 curvature)`` of the length.

    Parameters
    ----------
    flow : WallFlow
        Flow of the walls [N/m].

    Returns
    -------
    FlowPeak
        Value with its sign [N/m] and place [-].

    Examples
    --------
    A web with 4 N/mm at its ends and a parabola that adds 3 N/mm in the middle:

    >>> peak = flow_peak(WallFlow(np.array([6.0]), np.array([0.0]), np.array([-2.0])))
    >>> float(peak.value[0]), float(peak.fraction[0])
    (7.0, 0.5)
    """
    first, second = flow_ends(flow)
    # u = -slope / (3 curvature): inside the wall only if the slope is the smaller of the two
    inside = np.abs(flow.slope) < 3.0 * np.abs(flow.curvature)
    u = -flow.slope / (3.0 * np.where(inside, flow.curvature, 1.0))
    vertex = flow.mean + 0.5 * (flow.slope * u - flow.curvature)
    value = np.where(np.abs(second) > np.abs(first), second, first)
    fraction = np.where(np.abs(second) > np.abs(first), 1.0, 0.0)
    higher = inside & (np.abs(vertex) > np.abs(value))
    return FlowPeak(np.where(higher, vertex, value), np.where(higher, 0.5 + 0.5 * u, fraction))


def flow_spread(
    slope: NDArray[np.float64], curvature: NDArray[np.float64]
) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Least and most that the flow along each wall differs from its mean.

    At the ends ``curvature -+ slope``; at the vertex, where it lies inside, ``-slope^2 / (6 curvature) - curvature/2``.

    Parameters
    ----------
    slope, curvature : ndarray, shape (...)
        Parts of :class:`WallFlow` [N/m].

    Returns
    -------
    tuple of ndarray, each of shape (...)
        Least and most [N/m].

    Examples
    --------
    >>> [float(one) for one in flow_spread(np.array(0.0), np.array(2.0))]
    [-1.0, 2.0]
    """
    first, second = curvature - slope, curvature + slope
    least, most = np.minimum(first, second), np.maximum(first, second)
    bent = np.abs(slope) < 3.0 * np.abs(curvature)  # the vertex lies inside the wall
    if bent.any():
        vertex = np.divide(slope * slope, -6.0 * curvature, out=np.zeros_like(least), where=bent) - 0.5 * curvature
        least = np.where(bent, np.minimum(least, vertex), least)
        most = np.where(bent, np.maximum(most, vertex), most)
    return least, most


def flow_size(flow: WallFlow) -> NDArray[np.float64]:
    """Size of the greatest flow along each wall: what :func:`flow_peak` finds, without its sign and place.

    Parameters
    ----------
    flow : WallFlow
        Flow of the walls, each part of shape (...) [N/m].

    Returns
    -------
    ndarray, shape (...)
        Size [N/m].

    Examples
    --------
    >>> float(flow_size(WallFlow(np.array(-6.0), np.array(0.0), np.array(2.0))))
    7.0
    """
    least, most = flow_spread(flow.slope, flow.curvature)
    return np.asarray(np.maximum(flow.mean + most, -(flow.mean + least)))
