"""Rows of fasteners as springs between two strips that stretch: a lap joint along the pull, a seam along a shear flow.

Strip A hands its load to strip B. Rivets are numbered from the end where A is fully loaded (lap joint) or from either
end (seam); bay i lies between rivets i and i + 1. Linear, in one line, strips that only stretch: no bending of the lap,
no friction, no rivet beyond its elastic range.

References
----------
Tate, M. B., and Rosenfeld, S. J.: Preliminary Investigation of the Loads Carried by Individual Bolts in Bolted Joints,
NACA TN 1051 (1946), for the spring model of rows along the pull (as quoted in secondary text); a later recurrence is
NACA TN 1458. The seam under a flow is the same balance and compatibility with the flow as the load: own derivation.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike

from surfacecheck.statics._grid import Array
from surfacecheck.statics._row_input import lap_row, one_way, seam_springs, slip_before
from surfacecheck.statics._row_lengths import layout, own_lengths
from surfacecheck.statics._row_system import contact, linear

__all__ = ["SeamRow", "lap_joint", "seam_row"]


@dataclass(frozen=True, slots=True, eq=False)
class SeamRow:
    """What the rivets of a seam carry.

    Attributes
    ----------
    loads : ndarray, shape (..., R)
        Load of each rivet [N]; 0 where it is missing.
    complete : ndarray, shape (..., R)
        Flow times the length that is each rivet's own when none is missing [N].
    tributary : ndarray, shape (..., R)
        Flow times the length that is its own with the gaps there are: the load if rivets did not give at all [N].
    strip : ndarray, shape (..., R-1)
        Mean extra force in strip A in each bay because rivets do not carry where the flow comes in; in B the opposite
        [N].
    """

    loads: Array
    complete: Array
    tributary: Array
    strip: Array

    @property
    def factor(self) -> Array:
        """Load over that of the complete row [-], shape (..., R); 0 where no load is handed on."""
        idle = self.complete == 0.0
        out: Array = np.where(idle, 0.0, self.loads / np.where(idle, 1.0, self.complete))
        return out


def lap_joint(C: ArrayLike, k_A: ArrayLike, k_B: ArrayLike, load: ArrayLike, clearance: ArrayLike = 0.0) -> Array:
    """Share a pull between rows of fasteners one behind the other.

    ``C_i F_i + S_i / k_B = (P - S_i) / k_A + C_(i+1) F_(i+1)``, S_i = F_1 + ... + F_i, S_R = P

    Parameters
    ----------
    C : array_like, shape (..., R)
        Flexibility of each row [m/N]: 0 rigid, infinite missing.
    k_A, k_B : array_like, scalar or shape (..., R-1) or (..., 1)
        E A / pitch of each strip between rows [N/m]; A is fully loaded ahead of the first row, B behind the last.
    load : array_like, shape (...)
        P [N].
    clearance : array_like, scalar or shape (..., R)
        Slip of each row before it carries, in the direction of the pull [m].

    Returns
    -------
    ndarray, shape (..., R)
        Load of each row [N]; they add up to P.

    Raises
    ------
    SurfaceError
        If every row is missing, rigid rows join rigid strips, a value is negative or no number, or a row has clearance
        where the strips are tapered against the flow of the load (A thinner towards its loaded end).

    References
    ----------
    NACA TN 1051 (1946), as quoted in secondary text.

    Examples
    --------
    Three equal rows as stiff as a strip between them carry 2/5, 1/5, 2/5:

    >>> lap_joint([1.0, 1.0, 1.0], 1.0, 1.0, 100.0)
    array([40., 20., 40.])
    """
    line, P, share = lap_row(C, k_A, k_B, load)
    gap = slip_before(clearance)
    if not gap.any():
        return linear(line, share * P[..., None], P)
    one_way(line, share)
    out: Array = np.sign(P)[..., None] * contact(line, share * np.abs(P)[..., None], np.abs(P), gap)
    return out


def seam_row(
    k: ArrayLike,
    k_A: ArrayLike,
    k_B: ArrayLike,
    flow: ArrayLike,
    pitch: ArrayLike,
    overhang: ArrayLike | None = None,
    clearance: ArrayLike = 0.0,
) -> SeamRow:
    """Share a uniform shear flow between the rivets of a straight seam, some of them missing, softer or loose.

    ``(slip_(i+1) - slip_i) k_A k_B / (k_A + k_B) = F_1 + ... + F_i - Q_i``, F = k slip, Q_i the flow handed in up to
    the middle of bay i

    Parameters
    ----------
    k : array_like, shape (..., R)
        Stiffness of each rivet [N/m]: 0 missing, infinite rigid.
    k_A, k_B : array_like, scalar or shape (..., R-1) or (..., 1)
        E A / pitch of the strip on each side that the seam stretches, bay by bay [N/m]. Its width is a choice: one
        pitch is common practice.
    flow : array_like, shape (...)
        Shear flow the seam hands from A to B [N/m].
    pitch : array_like, scalar or shape (..., R-1) or (..., 1)
        Distance between rivets [m].
    overhang : array_like, shape (...), optional
        Length of the seam beyond the first and the last rivet [m]; half the bay beside it if not given, so that a
        complete row of equal rivets has no end effect.
    clearance : array_like, scalar or shape (..., R)
        Slip of each rivet before it carries, in the direction of the flow [m].

    Returns
    -------
    SeamRow
        Loads, what the complete row would give, the tributary bound, extra force in the strips.

    Raises
    ------
    SurfaceError
        If every rivet is missing, rigid rivets join rigid strips, or a value is negative or no number.

    Notes
    -----
    A pull along the seam on top (one strip ending beside it) is :func:`lap_joint`; without clearance the loads add.

    References
    ----------
    Spring model of NACA TN 1051 (1946), as quoted in secondary text, with a flow as the load (own derivation).

    Examples
    --------
    41 rivets 25 mm apart, 20 kN/mm each, strips 0.5 x 25 mm of aluminium alloy; the middle one is missing. Its
    neighbour gets 1.32 times its share, against 1.5 by halving the gap:

    >>> k = np.full(41, 20e6)
    >>> k[20] = 0.0
    >>> found = seam_row(k, 34.15e6, 34.15e6, 4000.0, 0.025)
    >>> found.factor[18:22].round(3).tolist()
    [1.115, 1.322, 0.0, 1.322]
    >>> float(found.tributary[19]), float(found.complete[19])
    (150.0, 100.0)
    """
    line = seam_springs(k, k_A, k_B)
    places = layout(line.C.shape[-1], pitch, overhang)
    own = own_lengths(np.ones(line.C.shape[-1], dtype=np.bool_), *places)
    q = np.asarray(flow, dtype=np.float64)
    complete, total = q[..., None] * own, q * own.sum(axis=-1)
    handed = np.cumsum(complete, axis=-1)[..., :-1]
    gap = slip_before(clearance)
    if gap.any():
        way = np.sign(q)[..., None]
        loads = way * contact(line, line.g * np.abs(handed), np.abs(total), gap)
    else:
        loads = linear(line, line.g * handed, total)
    shape = np.broadcast_shapes(loads.shape, complete.shape)
    bound = q[..., None] * own_lengths(np.isfinite(line.C), *places)
    strip: Array = handed - np.cumsum(loads, axis=-1)[..., :-1]
    return SeamRow(loads, np.broadcast_to(complete, shape), np.broadcast_to(bound, shape), strip)
