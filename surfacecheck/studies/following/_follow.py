"""Follow one given force from where it is put to the pins and to what turns the surface."""

from __future__ import annotations

from contextlib import contextmanager
from dataclasses import dataclass, replace
from functools import cached_property
from typing import TYPE_CHECKING, Literal

import numpy as np

from surfacecheck.assessment import Assessment, Carried, PutForce, carry
from surfacecheck.axes import OverCases
from surfacecheck.checks import RowLoad, bracket_loads, horn_load, row_loads
from surfacecheck.errors import Fault, SurfaceError
from surfacecheck.quantities import parse
from surfacecheck.statics import INSIDE, point_force
from surfacecheck.studies.following._follow_cuts import Cut, cuts_of
from surfacecheck.studies.following._follow_place import Place, Way, place_of, way_of
from surfacecheck.studies.following._follow_steps import PARTS, Step, steps_of

if TYPE_CHECKING:
    from collections.abc import Iterator

    from surfacecheck.checks import BracketLoad, Effects, HornLoad
    from surfacecheck.model import Surface

__all__ = ["Following", "follow"]

_KEPT = {"sideways": ("V_z", "M_x"), "fore-aft": ("V_x", "M_z"), "along": ("N",), "torque": ("T_0",)}
_AXIS = {"sideways": 2, "fore-aft": 0, "along": 1}
_APART = 0.1
"""Difference of the two idealisations, over the largest hinge load, from which it is said."""


@dataclass(frozen=True, eq=False)
class Following:
    """One force, followed.

    Attributes
    ----------
    place : Place
        Where it is put.
    way : Way
        Which way it acts.
    load : float
        Along that way [N], or about it [N m].
    carried : Carried
        Beam, sections and what holds, of this force alone.
    effects : Effects
        What rows, brackets and horn are read from: all of it, or one part.
    part : str
        ``sideways``, ``fore-aft``, ``along`` or ``torque`` where one is shown apart; empty for all together.
    """

    place: Place
    way: Way
    load: float
    carried: Carried
    effects: Effects
    part: str = ""

    @property
    def surface(self) -> Surface:
        """The surface, without its rigging pull."""
        return self.carried.surface

    @cached_property
    def rows(self) -> tuple[RowLoad, ...]:
        """Rivet rows, as the checks have them; none while the sheet is not known."""
        return tuple(row_loads(self.effects)) if self.effects.box is not None else ()

    @cached_property
    def brackets(self) -> tuple[BracketLoad, ...]:
        """Rivets of the hinge brackets."""
        return tuple(bracket_loads(self.effects))

    @cached_property
    def horn(self) -> HornLoad | None:
        """Rivets of the horn."""
        return horn_load(self.effects)

    @cached_property
    def steps(self) -> tuple[Step, ...]:
        """What the force passes through, in order, with what is handed on."""
        return steps_of(self)

    @cached_property
    def cuts(self) -> tuple[Cut, ...]:
        """Sums at a cut in every bay, from the root to the tip; what walls make of them, of the part that is shown."""
        return cuts_of(self.carried, self.effects)

    @cached_property
    def parts(self) -> tuple[str, ...]:
        """Parts that are not nought anywhere along the span."""
        least = 1e-9 * abs(self.load)
        axes = {"sideways": "V_z", "fore-aft": "V_x", "along": "N", "torque": "T_0"}
        return tuple(p for p in PARTS if np.abs(getattr(self.carried.effects, axes[p])).max() > least)

    @property
    def apart(self) -> float:
        """Largest difference of both idealisations at a pin, over the largest pin load [-]."""
        both = self.carried.beam.reactions, self.carried.simple.reactions
        largest = float(np.abs(both[0]).max())
        return float(np.abs(both[0] - both[1]).max()) / largest if largest > 0.0 else 0.0

    @property
    def notes(self) -> tuple[str, ...]:
        """What was taken for granted."""
        said = ["this force alone: no air load, no rigging pull, pins in line"]
        if self.place.ribs:
            said.append("the sheet hands it to its ribs by the lever rule")
        elif self.way.axis == "y":
            said.append("a force along the pins stays in skins and spar where it is put: no rib is asked")
        if self.carried.box is None:
            said.append("sheet not known: bending alone, even stiffness; no flow and no rivets of rows")
        elif self.apart > _APART:
            said.append(f"bending alone would give the pins {100 * self.apart:.0f} % of the largest otherwise")
        if self.carried.hold.how == "not given":
            said.append(f"{self.carried.hold.needs} is not given: the torque is held by a couple at the root")
        said.append("near the horn, for about one chord, the theory is a guide only")
        return tuple(said)

    def only(self, part: Literal["sideways", "fore-aft", "along", "torque"]) -> Following:
        """Show one part apart: what shear sideways, fore and aft, force along, or torque about the pins does alone.

        Parameters
        ----------
        part : {"sideways", "fore-aft", "along", "torque"}
            Of the loads inside; flows and forces of the four parts add up to the whole.

        Returns
        -------
        Following
            The same force, with that part of what it does.

        Raises
        ------
        SurfaceError
            For any other word.
        """
        if part not in PARTS:
            message = f'"{part}" is no part; parts are {", ".join(PARTS)}'
            raise SurfaceError(message)
        whole = self.carried.effects
        mask = np.array([float(_AXIS.get(part) == axis) for axis in range(3)])
        effects = replace(
            whole,
            inside=OverCases({name: float(name in _KEPT[part]) * whole.inside[name] for name in INSIDE}),
            reactions=mask * whole.reactions,
            horn_force=mask * whole.horn_force,
            ribs=OverCases({name: mask[2] * whole.ribs[name] for name in ("load", "air")}),
            found={},
        )
        return replace(self, effects=effects, part=part)

    def __str__(self) -> str:
        """Write it for a terminal."""
        from surfacecheck.studies.following._follow_shown import following_text

        return following_text(self, "inch" if self.surface.units == "inch" else "metric")

    def _repr_html_(self) -> str:
        from surfacecheck.studies.following._follow_shown import following_html

        return following_html(self, "inch" if self.surface.units == "inch" else "metric")


def follow(
    surface_or_assessment: Surface | Assessment, place: str, load: str | float, direction: str = "sideways"
) -> Following:
    """Put one force on a surface, alone, and follow it to the pins.

    Parameters
    ----------
    surface_or_assessment : Surface or Assessment
        Its outline and two hinges must be known; the more is known, the more steps are shown.
    place : str
        ``trailing edge, between rib 2 and 3``; ``trailing edge``, ``spar`` or ``nose``, then ``at rib 2``,
        ``at 325 mm`` or ``at hinge top``; ``hinge top`` (on the spar at its bracket); ``horn``.
    load : str or float
        Force with its unit, ``"100 N"``, or in SI [N]; of a torque ``"10 N m"`` or [N m].
    direction : str
        ``sideways`` (to the left, or the top of a flat half), ``fore-and-aft`` (behind), ``along`` (up or out),
        ``torque`` (about the pins), or a word: left, right, up, down, ahead, behind; top, bottom, out, in.

    Returns
    -------
    Following
        Steps in order, sums at cuts, and everything behind them.

    Raises
    ------
    SurfaceError
        For a place or direction that is not there, a load without unit or of nothing, or an outline or hinges that
        are not known.

    Examples
    --------
    >>> import surfacecheck
    >>> from surfacecheck.studies import follow
    >>> one = follow(surfacecheck.read("data/rudder.toml"), "trailing edge, at rib 3", "100 N")  # doctest: +SKIP
    >>> one.steps[0].words  # doctest: +SKIP
    'trailing edge, at rib 3'
    """
    given = surface_or_assessment
    surface = given.surface if isinstance(given, Assessment) else given
    with _named("direction"):
        way = way_of(surface, direction)
    with _named("load"):
        value = _value(load, "torque" if way.axis == "torque" else "force")
    with _named("place"):
        at = place_of(surface, place)
    if way.axis == "torque" and at.on_horn:
        message = f"{at.words}: a bolt takes no torque. Put a force on it, or the torque on the spar"
        raise SurfaceError(Fault(message, key="place"))
    if way.axis == "y":
        at = replace(at, ribs=())  # ribs are soft along the pins: such a force stays in skins and lap
    signed = way.sign * value
    force = tuple(signed if way.axis == axis else 0.0 for axis in "xyz")
    put = _puts(at, (force[0], force[1], force[2]), signed if way.axis == "torque" else 0.0)
    carried = carry(surface, put, f"{at.words}: a force followed")
    return Following(at, way, value, carried, carried.effects)


@contextmanager
def _named(key: str) -> Iterator[None]:
    """Say which of the words is meant."""
    try:
        yield
    except SurfaceError as error:
        raise SurfaceError(*(replace(fault, key=key) for fault in error.faults)) from error


def _value(load: str | float, quantity: str) -> float:
    value = parse(load, quantity)[0] if isinstance(load, str) else float(load)
    if not (np.isfinite(value) and value != 0.0):
        unit = "N m" if quantity == "torque" else "N"
        message = f'"{load}" is nothing to follow: write how much, such as "100 {unit}"'
        raise SurfaceError(message)
    return value


def _puts(place: Place, force: tuple[float, float, float], torque: float) -> tuple[PutForce, ...]:
    """Hand a force over to its ribs; where the edge bends between them, each takes its share of what is left over."""
    if not place.ribs:
        return (PutForce(place.y, place.x, place.z, force, (0.0, torque, 0.0), on_horn=place.on_horn),)
    whole = point_force(force, place.x, place.z) + np.array([0.0, torque, 0.0])
    brought = sum((one.share * point_force(force, one.x, place.z) for one in place.ribs), np.zeros(3))
    rest = whole - brought
    return tuple(
        PutForce(
            one.y,
            one.x,
            place.z,
            (one.share * force[0], one.share * force[1], one.share * force[2]),
            (one.share * float(rest[0]), one.share * float(rest[1]), one.share * float(rest[2])),
            one.rib,
        )
        for one in place.ribs
    )
