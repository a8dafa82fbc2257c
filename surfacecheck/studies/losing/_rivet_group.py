"""A hinge bracket or the horn as a group of rivets, and the same without some of them."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from surfacecheck.assessment import straddled
from surfacecheck.checks import BracketLoad, bracket_checks, find_all, horn_checks, rivet_weights
from surfacecheck.errors import SurfaceError
from surfacecheck.model import Face
from surfacecheck.provenance import UNKNOWN, plain
from surfacecheck.statics import heel_bound, prying_bound, share_group, shear_and_tension
from surfacecheck.studies.losing._gone_names import group_named

if TYPE_CHECKING:
    from collections.abc import Sequence

    from numpy.typing import NDArray

    from surfacecheck.assessment import Assessment
    from surfacecheck.checks import Effects, Finding, HornLoad

    Array = NDArray[np.float64]

__all__ = ["Group", "Without", "group_of", "without"]


@dataclass(frozen=True, eq=False)
class Group:
    """A group of rivets as drawn.

    Attributes
    ----------
    place, part : str
        ``hinge.middle.bracket`` and words.
    load : BracketLoad or HornLoad
        With the loads as drawn.
    effects : Effects
        The cases they are of.
    """

    place: str
    part: str
    load: BracketLoad | HornLoad
    effects: Effects

    @property
    def count(self) -> int:
        """Rivets."""
        return int(self.load.shear.shape[-1])


class Without(NamedTuple):
    """A group without some of its rivets.

    Attributes
    ----------
    shear, pull : ndarray, shape (C, R)
        Of each rivet at limit [N].
    findings : tuple of Finding
        Of the group, and of the web behind a bracket that no rib holds; bounds among them.
    """

    shear: Array
    pull: Array
    findings: tuple[Finding, ...]

    @property
    def lowest(self) -> Finding | None:
        """The lowest margin; None where no strength is given."""
        known = [f for f in self.findings if f.kind == "margin" and f.margin is not None]
        return min(known, key=lambda f: f.margin, default=None)  # type: ignore[arg-type, return-value]

    @property
    def heel(self) -> Finding | None:
        """The lowest bound, with heel and prying; None where none is worked."""
        known = [f for f in self.findings if f.kind == "bound" and f.margin is not None]
        return min(known, key=lambda f: f.margin, default=None)  # type: ignore[arg-type, return-value]

    @property
    def asks(self) -> float | None:
        """What a rivet of unknown shear strength must be good for [N]."""
        return next((f.required for f in self.findings if f.check.mode == "rivet-shear" and f.margin is None), None)


def group_of(assessment: Assessment, name: str) -> Group:
    """Find a group of rivets.

    Parameters
    ----------
    assessment : Assessment
        Worked.
    name : str
        ``hinge.middle.bracket`` or ``horn``.

    Returns
    -------
    Group
        With its loads.

    Raises
    ------
    SurfaceError
        Where there is none, or its loads are not known.
    """
    load = group_named(assessment, name)
    place, part = "horn", "horn"
    if isinstance(load, BracketLoad):
        place, part = f"hinge.{load.hinge.name}.bracket", f"{load.hinge.name} hinge, bracket"
    return Group(place, part, load, assessment.fittings)


def without(group: Group, out: Sequence[int]) -> Without | None:
    """Share the load of a group between the rivets that are left, and check them.

    Parameters
    ----------
    group : Group
        As drawn.
    out : sequence of int
        Numbers of those that are not there.

    Returns
    -------
    Without or None
        None where those that are left hold no couple without a heel: one of them, or one line.
    """
    weight = rivet_weights(group.effects.surface, group.place, group.count)
    weight = np.where(np.isin(np.arange(group.count) + 1, list(out)), 0.0, weight)
    try:
        load = _bracket(group.load, weight) if isinstance(group.load, BracketLoad) else _horn(group, group.load, weight)
    except SurfaceError:  # what is left stands in one line, or alone
        return None
    if isinstance(load, BracketLoad):
        every = bracket_checks(group.effects, (load,))
        kept = {group.place, f"{group.place}.web"}
    else:
        every = horn_checks(group.effects, load)
        kept = {"horn.rivets"}
    return Without(load.shear, load.tension, straddled(find_all(check for check in every if check.place in kept)))


def _bracket(load: BracketLoad, weight: Array) -> BracketLoad:
    side = 1 if load.bracket.on_face is Face.BEHIND else -1
    share = share_group(load.a, load.b, load.force, load.offset, weight=weight)
    shear, tension = shear_and_tension(share, side)
    bound = _bound(load, tension, weight, side)
    return replace(load, share=share, shear=shear, tension=tension, bound=bound)


def _bound(load: BracketLoad, tension: Array, weight: Array, side: int) -> Array:
    """Pull with heel on any of the four edges, and the toe of the leg prying; the bracket is as wide as before."""
    edge = load.bracket.edge.get("bracket", UNKNOWN)
    if not edge.known:
        return tension
    e, y, z = plain(edge), load.a, load.b
    heel = (y.min() - e, y.max() + e, 0.0, 0.0), (0.0, 0.0, z.min() - e, z.max() + e)
    inward = (1.0, -1.0, 0.0, 0.0), (0.0, 0.0, 1.0, -1.0)
    pull, contact = heel_bound(y, z, load.force, load.offset, heel, inward, side, weight=weight)
    worst = np.maximum(tension, np.where(contact[..., None] > 0.0, pull, 0.0).max(axis=0))
    nearest = np.abs(np.abs(y) - abs(load.offset[1])) if load.bracket.legs == 1 else np.zeros_like(y)
    out: Array = np.maximum(worst, prying_bound(tension, float(nearest.min()), e))
    return out


def _horn(group: Group, load: HornLoad, weight: Array) -> HornLoad:
    share = np.zeros_like(load.share)
    for p, (x, z) in enumerate(group.effects.horn_points):
        force = group.effects.horn_force[:, p][:, [1, 2, 0]]
        share += share_group(load.z, load.x, force, (0.0, z, x), weight=weight)[..., [2, 0, 1]]
    return replace(load, share=share, shear=np.hypot(share[..., 0], share[..., 2]), tension=np.abs(share[..., 1]))
