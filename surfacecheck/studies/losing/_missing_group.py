"""A hinge bracket or the horn with rivets that are not there: what the others then carry."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.studies.losing._gone_names import numbers_of
from surfacecheck.studies.losing._rivet_group import Group, Without, group_of, without

if TYPE_CHECKING:
    from collections.abc import Sequence

    from surfacecheck.assessment import Assessment
    from surfacecheck.quantities import System

__all__ = ["GroupRivet", "MissingGroup", "missing_group"]


@dataclass(frozen=True, slots=True)
class GroupRivet:
    """One rivet of a group, as drawn and with others gone.

    Attributes
    ----------
    number : int
        From 1, as on the map.
    drawn_shear, shear : float
        Largest of all cases at limit [N].
    drawn_pull, pull : float
        Largest of all cases at limit [N].
    case : str
        Case of that shear.
    """

    number: int
    drawn_shear: float
    shear: float
    drawn_pull: float
    pull: float
    case: str

    @property
    def growth(self) -> float:
        """Shear over that as drawn [-]."""
        return self.shear / self.drawn_shear if self.drawn_shear > 0.0 else np.inf


@dataclass(frozen=True, eq=False)
class MissingGroup:
    """A group with rivets out.

    Attributes
    ----------
    assessment : Assessment
        As drawn.
    group : Group
        The group.
    out : tuple of int
        Numbers of the rivets that are not there.
    drawn : Without
        With none out.
    now : Without or None
        None where what is left cannot hold the couple of the load without a heel: outside the method.
    """

    assessment: Assessment
    group: Group
    out: tuple[int, ...]
    drawn: Without
    now: Without | None

    @property
    def rivets(self) -> tuple[GroupRivet, ...]:
        """Those that are left, in order; empty where the method does not hold."""
        if self.now is None:
            return ()
        names = self.group.effects.cases
        worst = self.now.shear.argmax(axis=0)
        was, now, was_pull, pull = (
            v.max(axis=0).tolist() for v in (self.drawn.shear, self.now.shear, self.drawn.pull, self.now.pull)
        )
        return tuple(
            GroupRivet(i + 1, was[i], now[i], was_pull[i], pull[i], names[worst[i]])
            for i in range(self.group.count)
            if i + 1 not in self.out
        )

    @property
    def short(self) -> bool:
        """Whether what is left has less than required, or depends."""
        found = [] if self.now is None else [self.now.lowest, self.now.heel]
        return any(f is not None and f.margin is not None and f.margin < 0.0 for f in found)

    def text(self, system: System = "metric") -> str:
        """Write it for a terminal.

        Parameters
        ----------
        system : {"metric", "inch"}
            Units.

        Returns
        -------
        str
            ASCII lines.
        """
        from surfacecheck.studies.losing._missing_group_shown import missing_group_text

        return missing_group_text(self, system)

    def __str__(self) -> str:
        return self.text("inch" if self.assessment.surface.units == "inch" else "metric")

    def _repr_html_(self) -> str:
        from surfacecheck.studies.losing._missing_group_shown import missing_group_html

        return missing_group_html(self)


def missing_group(assessment: Assessment, name: str, out: Sequence[int]) -> MissingGroup:
    """Take rivets out of a bracket or the horn.

    Parameters
    ----------
    assessment : Assessment
        Of the surface as drawn.
    name : str
        ``hinge.middle.bracket`` or ``horn``.
    out : sequence of int
        Numbers of the rivets that are not there, from 1, as on the map.

    Returns
    -------
    MissingGroup
        With what is left.

    Raises
    ------
    SurfaceError
        Where there is no such group or rivet, or nothing would be left.
    """
    group = group_of(assessment, name)
    gone = numbers_of(out, group.count, group.place)
    drawn = without(group, ())
    assert drawn is not None  # noqa: S101 - its loads as drawn are known
    return MissingGroup(assessment, group, gone, drawn, without(group, gone))
