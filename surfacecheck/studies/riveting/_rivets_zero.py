"""What a pitch would have to be for margin zero: by a straight line where every load grows with it, else by a root."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.checks import Term, factors_of, given_of, joint_drafts, work
from surfacecheck.studies.riveting._rivets_laid import by_count
from surfacecheck.studies.riveting._rivets_load import front_of, picked_joint
from surfacecheck.studies.riveting._rivets_work import at_edges

if TYPE_CHECKING:
    from collections.abc import Sequence

    from numpy.typing import ArrayLike, NDArray

    from surfacecheck.assessment import Assessment
    from surfacecheck.checks import Joint, RowPlan
    from surfacecheck.studies.riveting._rivets_load import Front
    from surfacecheck.studies.riveting._rivets_work import Setting

    Array = NDArray[np.float64]

__all__ = ["Zero", "at_pitch", "longest", "used_up", "zero_of"]

CLOSER = "between-holes"
"""The one way to give that asks for rivets farther apart; it bounds a pitch from below."""
_SHARES = (0.02, 1.0)  # of the longest row, between which a root is looked for


@dataclass(frozen=True, eq=False)
class Zero:
    """For N lines and E edges: the pitch, or the number of rivets, at which nothing is left over.

    Attributes
    ----------
    pitch : ndarray, shape (N, E)
        Widest pitch with a margin not below zero [m]; infinite where even the longest holds, not a number where
        nothing is given, or the row goes by number.
    count : ndarray, shape (N, E)
        Least number of rivets, for rows that go by number [-]; not a number for others.
    gives : ndarray of int, shape (N, E)
        What gives there, as in the drafts; -1 where nothing is given.
    """

    pitch: Array
    count: Array
    gives: NDArray[np.intp]


def used_up(setting: Setting, joint: Joint) -> tuple[Array, NDArray[np.intp]]:
    """Say how much of each variant is used up at ultimate load, and in which way.

    Parameters
    ----------
    setting : Setting
        Rivet and row.
    joint : Joint
        Loads of shape (V, 1, K).

    Returns
    -------
    used : ndarray, shape (V,)
        1 is a margin of zero [-]; wrinkled sheet as it is at ultimate load.
    gives : ndarray of int, shape (V,)
        Which draft; -1 where nothing is given.
    """
    drafts = joint_drafts(setting.surface, joint, factors_of(setting.surface, setting.rivet))
    given = [i for i in given_of(drafts) if drafts[i].mode != CLOSER]
    variants = len(joint.shear)
    if not given:
        return np.full(variants, np.nan), np.full(variants, -1)
    every = np.empty((len(given), variants))
    for out, one in zip(every, (drafts[i] for i in given), strict=True):
        if one.wrinkled is None:
            share = work(one.required, one.terms) / work(one.available, one.terms)
        else:
            share = work(one.wrinkled.proof, one.terms | {"lam": Term(1.0, "", "")})
            share = np.sqrt(share) if one.available == "1" else share  # a sum of squares, of shear and pull
        out[:] = np.broadcast_to(share, joint.shear.shape).max(axis=(-1, -2))
    return every.max(axis=0), np.asarray(given)[every.argmax(axis=0)]


def zero_of(assessment: Assessment, front: Front, setting: Setting, first: Sequence[int]) -> Zero:
    """Find the pitch for margin zero of one rivet, for every number of lines and every edge.

    Parameters
    ----------
    assessment : Assessment
        Of the surface.
    front : Front
        Loads of the row.
    setting : Setting
        Rivet, row, edges.
    first : sequence of int
        For each number of lines one of its layouts; -1 where it has none.

    Returns
    -------
    Zero
        Of shape (N, E).
    """
    shape = len(first), len(setting.edges)
    pitch, count = np.full(shape, np.nan), np.full(shape, np.nan)
    gives = np.full(shape, -1)
    there = [n for n, layout in enumerate(first) if layout >= 0]
    if not there:
        return Zero(pitch, count, gives)
    line, edge = np.repeat(there, shape[1]), np.tile(np.arange(shape[1]), len(there))
    layout = np.asarray(first)[line]
    joint = front.joint(setting.surface, setting.row, setting.rivet)
    used, which = used_up(setting, at_edges(setting, picked_joint(joint, layout), edge))
    gives[line, edge] = which
    with np.errstate(divide="ignore"):
        if by_count(setting.surface, setting.row):
            each = np.array([plan.count for plan in front.plans], dtype=np.float64)[layout]
            count[line, edge] = np.maximum(np.ceil(each * used - 1e-9), 1.0)
        elif front.share is not None:
            pitch[line, edge] = front.pitch[layout] / used
        elif not np.isnan(used).any():
            found, which = _root(assessment, setting, [front.plans[i] for i in layout], edge)
            pitch[line, edge], gives[line, edge] = found, which
    return Zero(pitch, count, gives)


def at_pitch(plan: RowPlan, pitch: float) -> RowPlan:
    """Lay a row out at a pitch that need not divide it.

    Parameters
    ----------
    plan : RowPlan
        As it is.
    pitch : float
        [m].

    Returns
    -------
    RowPlan
        With parts of a rivet where the pitch does not divide the row.
    """
    if plan.rib_pitch.size:
        long = plan.rib_pitch * np.maximum(plan.rib_count - 1.0, 1.0)
        return replace(plan, pitch=pitch, rib_pitch=np.full_like(long, pitch), rib_count=long / pitch + 1.0)
    long = plan.pitch * (plan.count - 1)
    return replace(plan, pitch=pitch, count=long / pitch + 1.0)


def longest(plan: RowPlan) -> float:
    """Give the length of a row from first rivet to last, on its longest rib [m]."""
    if plan.rib_pitch.size:
        return float((plan.rib_pitch * np.maximum(plan.rib_count - 1.0, 1.0)).max())
    return float(plan.pitch * (plan.count - 1))


def _root(
    assessment: Assessment, setting: Setting, plans: list[RowPlan], edge: NDArray[np.intp]
) -> tuple[Array, NDArray[np.intp]]:
    """Find the pitch at which just all is used up, for rows whose loads do not all grow with it."""
    from scipy.optimize.elementwise import find_root

    def used(pitch: Array, which: ArrayLike) -> tuple[Array, NDArray[np.intp]]:
        at = np.asarray(which, dtype=np.intp).ravel()
        laid = [at_pitch(plans[i], float(p)) for i, p in zip(at, np.ravel(pitch), strict=True)]
        front = front_of(assessment, setting.row, laid)
        assert front is not None  # noqa: S101 - it was found before, at another pitch
        joint = front.joint(setting.surface, setting.row, setting.rivet)
        return used_up(setting, at_edges(setting, joint, edge[at]))

    every = np.arange(len(plans))
    low, high = (share * np.array([longest(plan) for plan in plans]) for share in _SHARES)
    found, (most, gives) = np.full(len(plans), np.nan), used(high, every)
    found[most <= 1.0] = np.inf
    bracketed = (most > 1.0) & (used(low, every)[0] < 1.0)
    if bracketed.any():
        ends = (low[bracketed], high[bracketed])

        def over(pitch: Array, which: Array) -> Array:
            return used(pitch, which)[0] - 1.0

        found[bracketed] = find_root(over, ends, args=(every[bracketed].astype(np.float64),)).x
        gives = np.where(bracketed, used(np.where(bracketed, found, high), every)[1], gives)
    return found, gives
