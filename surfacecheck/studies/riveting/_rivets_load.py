"""What one rivet of a row carries in every layout: the worst of all cases and places, found once a row."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cached_property
from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.axes import over_both
from surfacecheck.checks import Joint, Kept, RowPlan, row_joint, row_kept, row_load

if TYPE_CHECKING:
    from collections.abc import Sequence

    from numpy.typing import NDArray

    from surfacecheck.assessment import Assessment
    from surfacecheck.checks import RowLoad
    from surfacecheck.model import Rivet, Row, Surface

    Array = NDArray[np.float64]

__all__ = ["Front", "front_of", "picked_joint", "stacked_plans"]

PROPORTIONAL = {"spar", "edge"}
"""Kinds of row of which every load is a flow times the pitch over the lines."""


@dataclass(frozen=True, eq=False)
class Front:
    """The load of one rivet of a row in L layouts, at the cases and spots that can be worst.

    Attributes
    ----------
    loads : tuple of RowLoad
        For one rivet a metre of one line where everything grows with the pitch; else the layouts by their lines.
    order : ndarray of int, shape (L,)
        Where each layout stands in those, laid one after the other.
    share : ndarray, shape (L,), or None
        Metres of row that one rivet serves, where everything grows with it [m]; None for other rows.
    kept : Kept
        K cases and spots.
    plans : tuple of RowPlan
        L of them.
    """

    loads: tuple[RowLoad, ...]
    order: NDArray[np.intp]
    share: Array | None
    kept: Kept
    plans: tuple[RowPlan, ...]

    @property
    def kind(self) -> str:
        """Kind of row, as in :class:`RowLoad`."""
        return self.loads[0].kind

    def joint(self, surface: Surface, row: Row, rivet: Rivet) -> Joint:
        """Give what one rivet carries in every layout.

        Parameters
        ----------
        surface : Surface
            With that rivet in part D.
        row : Row
            With that rivet, and its edges.
        rivet : Rivet
            Which one.

        Returns
        -------
        Joint
            Loads of shape (L, 1, K).
        """
        joints = [row_joint(surface, replace(load, row=row), rivet, self.kept) for load in self.loads]
        if self.share is not None:
            lines = np.array([plan.lines for plan in self.plans])
            return _scaled(joints[0], over_both(self.share), over_both(self.pitch), over_both(lines))
        return picked_joint(_after_one_another(joints), self.order)

    def ruling(self, spot: NDArray[np.intp]) -> Array:
        """Give the real pitch where a margin is the lowest: of that rib, for rows on the ribs.

        Parameters
        ----------
        spot : ndarray of int, shape (L, E)
            Which of the kept cases and spots [-].

        Returns
        -------
        ndarray, shape (L, E)
            [m].
        """
        if not self.plans[0].rib_pitch.size:
            return np.broadcast_to(self.pitch[:, None], spot.shape)
        return np.take_along_axis(np.stack([plan.rib_pitch for plan in self.plans]), self.kept.spot[spot], axis=1)

    @cached_property
    def pitch(self) -> Array:
        """Real pitch of each layout [m], shape (L,)."""
        return np.array([plan.pitch for plan in self.plans], dtype=np.float64)


def front_of(assessment: Assessment, row: Row, plans: Sequence[RowPlan]) -> Front | None:
    """Find the loads of a row in every layout; nothing else of the surface changes.

    Parameters
    ----------
    assessment : Assessment
        Of the surface as drawn.
    row : Row
        One of its rows.
    plans : sequence of RowPlan
        Its layouts, one at least.

    Returns
    -------
    Front or None
        None where the surface has no such row that a check knows.
    """
    known = next((load for load in assessment.rows if load.row.name == row.name), None)
    if known is None:
        return None
    if known.kind in PROPORTIONAL:
        loads = [row_load(known.effects, row, replace(plans[0], pitch=1.0, lines=1))]
        order = np.zeros(len(plans), dtype=np.intp)
        share = np.array([plan.pitch / plan.lines for plan in plans])
    else:
        groups: dict[int, list[int]] = {}
        for i, plan in enumerate(plans):
            groups.setdefault(plan.lines, []).append(i)
        loads = [row_load(known.effects, row, stacked_plans([plans[i] for i in one])) for one in groups.values()]
        order, share = np.argsort(np.concatenate(list(groups.values()))), None
    found = tuple(load for load in loads if load is not None)
    if len(found) < len(loads):
        return None
    return Front(found, order, share, _kept(found), tuple(plans))


def stacked_plans(plans: Sequence[RowPlan]) -> RowPlan:
    """Lay layouts of one row, all in so many lines, into one whose numbers are stacks.

    Parameters
    ----------
    plans : sequence of RowPlan
        One at least.

    Returns
    -------
    RowPlan
        Numbers of shape (L,), those of the ribs (L, R).
    """
    numbers = {
        name: np.array([getattr(plan, name) for plan in plans])
        for name in ("pitch", "count", "total", "rib_pitch", "rib_count")
    }
    return replace(plans[0], **numbers)  # type: ignore[arg-type]


def _kept(loads: tuple[RowLoad, ...]) -> Kept:
    """Keep what can be worst in any layout, each once, for all of them."""
    found = [row_kept(load) for load in loads]
    both = np.concatenate([np.stack([one.case.ravel(), one.spot.ravel()]) for one in found], axis=1)
    return Kept(*np.unique(both, axis=1))


def _scaled(joint: Joint, share: Array, pitch: Array, lines: Array) -> Joint:
    """Give the joint of one rivet a metre to rivets that serve so many metres each, in so many lines."""
    shear = joint.shear * share
    layers = tuple(
        replace(layer, load=shear if layer.load is joint.shear else layer.load * share) for layer in joint.layers
    )
    return replace(joint, shear=shear, tension=joint.tension * share, layers=layers, pitch=pitch, abreast=lines)


def _after_one_another(joints: list[Joint]) -> Joint:
    first = joints[0]
    if len(joints) == 1:
        return first
    layers = tuple(
        replace(layer, load=np.concatenate([joint.layers[i].load for joint in joints]))
        for i, layer in enumerate(first.layers)
    )
    shear, tension = (np.concatenate([getattr(joint, name) for joint in joints]) for name in ("shear", "tension"))
    return replace(first, shear=shear, tension=tension, layers=layers)


def picked_joint(joint: Joint, at: NDArray[np.intp]) -> Joint:
    """Pick layouts of a joint.

    Parameters
    ----------
    joint : Joint
        Loads of shape (L, 1, K).
    at : ndarray of int, shape (V,)
        Which ones [-].

    Returns
    -------
    Joint
        Loads of shape (V, 1, K).
    """
    shear = joint.shear[at]
    layers = tuple(
        replace(layer, load=shear if layer.load is joint.shear else layer.load[at]) for layer in joint.layers
    )
    pitch = joint.pitch[at] if isinstance(joint.pitch, np.ndarray) else joint.pitch
    abreast = joint.abreast[at] if isinstance(joint.abreast, np.ndarray) else joint.abreast
    return replace(joint, shear=shear, tension=joint.tension[at], layers=layers, pitch=pitch, abreast=abreast)
