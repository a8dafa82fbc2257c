"""Weighed and balanced: what a surface weighs, how tail-heavy it is, and what would level it, before and after."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.errors import SurfaceError
from surfacecheck.loads import part23
from surfacecheck.masses import GRAVITY, nose_arm, read_scales, same_weighing, weigh, weigh_after
from surfacecheck.studies.balancing._balance_criteria import bench_rules, flutter_criteria

if TYPE_CHECKING:
    from surfacecheck.masses import Masses, Readings
    from surfacecheck.model import Surface
    from surfacecheck.studies.balancing._balance_criteria import BenchRule, Criterion

__all__ = ["BalanceChange", "BalanceColumn", "BalanceStudy", "Levelling", "balance", "balance_change"]


@dataclass(frozen=True, slots=True)
class Levelling:
    """The mass at the nose that would level a surface on its pins, more than what is there.

    Attributes
    ----------
    mass : float
        [kg].
    ahead : float
        Its centre ahead of the pins [m].
    whole : float
        With the balance mass that is there already [kg].
    loads : tuple of (str, float)
        What the attachment of the whole, and what holds it, must carry at limit, each direction alone [N].
    """

    mass: float
    ahead: float
    whole: float
    loads: tuple[tuple[str, float], ...]


@dataclass(frozen=True, slots=True)
class BalanceChange:
    """What a change adds, and what it takes at the nose to stay as level as before: paid twice.

    Attributes
    ----------
    mass : float
        Added; negative where mass was taken off [kg].
    moment : float
        Added, tail-heavy [N m].
    nose : float
        Mass more at the nose for the same moment as before; negative is less [kg].
    ahead : float
        Where that sits, ahead of the pins [m].
    """

    mass: float
    moment: float
    nose: float
    ahead: float

    @property
    def paid(self) -> float:
        """All of it together [kg]."""
        return self.mass + self.nose


@dataclass(frozen=True, eq=False, repr=False)
class BalanceColumn:
    """One state of a surface on the scales.

    Attributes
    ----------
    surface : Surface
        As it is in this state.
    masses : Masses
        Of every part, and the whole.
    own : bool
        Whether its weighing is its own; False where the scale saw only the state before, and the parts that changed
        are added.
    """

    surface: Surface
    masses: Masses
    own: bool = True

    def __repr__(self) -> str:
        return f"<{self.surface.name!r} on the scales, {self.surface.title}>"

    @cached_property
    def readings(self) -> Readings | None:
        """What its scale said; None where nothing was read, or only in the state before."""
        return read_scales(self.surface.weighed) if self.own else None

    @cached_property
    def mass(self) -> float | None:
        """The whole, [kg]; None while not one part is known."""
        return _one(self.masses.mass) if self.masses.pieces or self.surface.weighed.mass.known else None

    @cached_property
    def moment(self) -> float | None:
        """Tail-heavy, level [N m]; None while nothing tells it."""
        read = self.masses.pieces or read_scales(self.surface.weighed) is not None
        return _one(self.masses.moment) if read else None

    @cached_property
    def by_parts(self) -> float | None:
        """Moment of the parts alone, without the scale's word [N m]; None where parts are missing or unknown."""
        parts = [piece for piece in self.masses.pieces if piece not in self.masses.added]
        if not parts or self.masses.left_out:
            return None
        return GRAVITY * sum(_one(piece.first) for piece in parts)

    @cached_property
    def bare_mass(self) -> float | None:
        """Mass as it lay on the scale: without paint and what was put on since [kg]; None while not known."""
        if self.mass is None:
            return None
        return self.mass - _one(self.masses.paint) - sum(_one(piece.mass) for piece in self.masses.added)

    @cached_property
    def levelling(self) -> Levelling | None:
        """Mass at the nose that would level it; None where it is nose-heavy, or its nose is not known."""
        ahead, moment = nose_arm(self.surface), self.moment
        if moment is None or moment <= 0.0 or ahead <= 0.0:
            return None
        more = _one(self.masses.nose_mass(np.asarray(ahead)))
        there = self.surface.balance_mass.mass
        whole = more + (0.0 if there.si is None else _one(np.asarray(there.si)))
        loads = tuple((way, float(part23.balance_mass_load(way, whole))) for way in part23.BALANCE_MASS)
        return Levelling(more, ahead, whole, loads)

    @cached_property
    def rules(self) -> tuple[BenchRule, ...]:
        """What published and usual bench rules say of its readings."""
        return bench_rules(self.surface, self.readings, self.moment)

    @cached_property
    def criteria(self) -> tuple[Criterion, ...]:
        """Simplified criteria that need its balance: met, not met, not applicable; never a verdict."""
        return flutter_criteria(self.surface, self.masses, self.moment)


@dataclass(frozen=True, eq=False, repr=False)
class BalanceStudy:
    """A surface on the scales, and the same surface after changes.

    Attributes
    ----------
    columns : tuple of BalanceColumn
        Before, then after each change.
    """

    columns: tuple[BalanceColumn, ...]

    @property
    def surface(self) -> Surface:
        """The surface before any change."""
        return self.columns[0].surface

    @property
    def titles(self) -> tuple[str, ...]:
        """What each column is."""
        return tuple(one.surface.title for one in self.columns)

    @cached_property
    def changes(self) -> tuple[BalanceChange | None, ...]:
        """What each column changes against the first; None where one of them tells no mass or moment."""
        return tuple(_change(self.columns[0], after) for after in self.columns[1:])

    def __repr__(self) -> str:
        return f"<Weighing of {self.surface.name!r}: {', '.join(self.titles)}>"

    def __str__(self) -> str:
        """Write it for a terminal."""
        from surfacecheck.studies.balancing._balance_shown import balance_text

        return balance_text(self, "inch" if self.surface.units == "inch" else "metric")

    def _repr_html_(self) -> str:
        from surfacecheck.studies.balancing._balance_shown import balance_html

        return balance_html(self, "inch" if self.surface.units == "inch" else "metric")


def balance(surface: Surface, *changed: Surface) -> BalanceStudy:
    """Put a surface on the scales, and the same surface after changes.

    Parameters
    ----------
    surface : Surface
        Perhaps half-filled, or with nothing known at all; no load is asked.
    *changed : Surface
        The same with a change laid over each.

    Returns
    -------
    BalanceStudy
        A column for each.

    Raises
    ------
    SurfaceError
        Where paint weighs more than what it is on.

    Examples
    --------
    >>> import surfacecheck
    >>> bare = surfacecheck.read("data/rudder.toml")  # doctest: +SKIP
    >>> print(balance(bare, surfacecheck.read("data/rudder_painted.toml")))  # doctest: +SKIP
    """
    weighed = surface.weighed
    after = (BalanceColumn(one, weigh_after(surface, one), not same_weighing(weighed, one.weighed)) for one in changed)
    return BalanceStudy((BalanceColumn(surface, weigh(surface)), *after))


def balance_change(before: Masses, after: Masses, ahead: float) -> BalanceChange:
    """Work out what a change costs at the scales.

    Parameters
    ----------
    before, after : Masses
        Of one surface in two states.
    ahead : float
        Where nose mass would go, ahead of the pins [m].

    Returns
    -------
    BalanceChange
        All nought where nothing was changed.

    Raises
    ------
    SurfaceError
        Where there is no place ahead of the pins.

    Notes
    -----
    The nose mass m that keeps the moment as it was: m g a = moment added (moments about the pins).
    """
    if not ahead > 0.0:
        message = f"a nose mass {1e3 * ahead:g} mm ahead of the pins levels nothing: give a place ahead of them"
        raise SurfaceError(message)
    first = _one(after.first) - _one(before.first)
    return BalanceChange(_one(after.mass) - _one(before.mass), GRAVITY * first, first / ahead, ahead)


def _change(before: BalanceColumn, after: BalanceColumn) -> BalanceChange | None:
    ahead = nose_arm(after.surface)
    if None in {before.mass, after.mass, before.moment, after.moment} or ahead <= 0.0:
        return None
    return balance_change(before.masses, after.masses, ahead)


def _one(value: np.ndarray) -> float:
    """Give one number; of a stack of variants this study shows the mean."""
    return float(np.mean(value))
