"""After a storm at the tie-down, or a surface forced past its stop: what to look at first; a list, no all-clear."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Literal

import numpy as np

from surfacecheck.assessment import assess
from surfacecheck.errors import Fault, SurfaceError
from surfacecheck.loads import airload_totals, planform_of, stop_moment, swing_energy, wind_cases
from surfacecheck.model import StopAt
from surfacecheck.provenance import Value
from surfacecheck.studies.balancing._looked import Looked, parts_by_load

if TYPE_CHECKING:
    from surfacecheck.assessment import Assessment
    from surfacecheck.loads import LoadCase
    from surfacecheck.model import Surface

__all__ = ["GIVES", "LOCKS", "Aftermath", "Blow", "Event", "aftermath"]

Lock = Literal["held", "let go", "none"]
LOCKS: tuple[Lock, ...] = ("held", "let go", "none")
"""What the gust lock did."""
GIVES = tuple(float(angle) for angle in np.radians((1.0, 3.0, 10.0)))
"""Angles by which a stop may give, shown where nobody knows it [rad]: sizes to look at, no typical values."""

_STRONGEST = 100.0
"""Wind above which a unit is asked about [m/s]: stronger than any tropical storm's mean wind; common practice."""
_UNIT_WIND = 10.0
"""Wind whose moments are scaled where only a moment is known [m/s]."""


@dataclass(frozen=True, slots=True)
class Event:
    """What happened.

    Attributes
    ----------
    wind : float or None
        Steady or gust, as far as anybody knows [m/s].
    lock : str
        ``held``, ``let go`` or ``none``.
    swing : float or None
        Free swing before the stop [rad]; None: from stop to stop, by the file.
    past_stop : float or None
        How far past its stop it went, all that gave together, at the end far from the horn [rad].
    """

    wind: float | None = None
    lock: Lock = "held"
    swing: float | None = None
    past_stop: float | None = None


@dataclass(frozen=True, slots=True)
class Blow:
    """The blow at the stop, an upper bound.

    Attributes
    ----------
    give : float
        How far past its stop the surface went, or might have [rad].
    by_swing : float or None
        Bound by the energy of the swing [N m]; None where nothing swung, or not known how far.
    by_twist : float or None
        Bound by what it takes to twist the surface itself by that angle, under a load that lies as the wind's [N m];
        None where the angle or the sheet is not known.
    """

    give: float
    by_swing: float | None
    by_twist: float | None

    @property
    def moment(self) -> float:
        """The lower of both [N m]."""
        return min(bound for bound in (self.by_swing, self.by_twist) if bound is not None)


@dataclass(frozen=True, eq=False, repr=False)
class Aftermath:
    """An event, and the order in which to look.

    Attributes
    ----------
    surface : Surface
        As it was before.
    event : Event
        What happened.
    steady : float or None
        Hinge moment of the wind [N m]; None without one.
    limit : float or None
        Largest hinge moment of the air loads of the file [N m]; None where it holds none.
    limit_case : str
        Its case.
    energy : float or None
        Of a free swing, at most [J]; None where nothing swung, or the angle is not known.
    blows : tuple of Blow
        At the stop; several where nobody knows how far it gave.
    counted : float
        Hinge moment the list is worked for [N m].
    parts : tuple of Looked
        In the order in which to look.
    missing : str
        Key or option that would tell more; empty where nothing is missing.
    """

    surface: Surface
    event: Event
    steady: float | None
    limit: float | None
    limit_case: str
    energy: float | None
    blows: tuple[Blow, ...]
    counted: float
    parts: tuple[Looked, ...]
    missing: str = ""

    def __repr__(self) -> str:
        return f"<Aftermath of {self.surface.name!r}: {len(self.parts)} parts to look at>"

    def __str__(self) -> str:
        """Write it for a terminal."""
        from surfacecheck.studies.balancing._aftermath_shown import aftermath_text

        return aftermath_text(self, "inch" if self.surface.units == "inch" else "metric")

    def _repr_html_(self) -> str:
        from surfacecheck.studies.balancing._aftermath_shown import aftermath_html

        return aftermath_html(self, "inch" if self.surface.units == "inch" else "metric")


def aftermath(
    surface: Surface,
    wind: float | None = None,
    lock: Lock | None = None,
    swing: float | None = None,
    past_stop: float | None = None,
) -> Aftermath:
    """List what to look at after a wind at the tie-down, or after a surface was forced past its stop.

    Parameters
    ----------
    surface : Surface
        Its outline and two hinges must be known; the more is known, the longer the list.
    wind : float, optional
        [m/s].
    lock : {"held", "let go", "none"}, optional
        What the gust lock did; a surface that was free swings against its stop. Asked with a wind.
    swing : float, optional
        Angle of that swing; from stop to stop, by the file, where it is left out [rad].
    past_stop : float, optional
        How far past its stop it went, all that gave together, at the end far from the horn [rad].

    Returns
    -------
    Aftermath
        Parts ordered by their load over its largest limit load, then by the share of strength used.

    Raises
    ------
    SurfaceError
        Where nothing happened, a number is out of reach, or outline or hinges are not known.

    Notes
    -----
    The wind acts as the rule's tie-down wind does (K c S q, K assumed). A blow, or a surface forced past its stop, is
    taken as that load grown until its hinge moment is that of the blow: an upper bound for the parts on the way from
    the surface to the stop, and more than an upper bound for the others.
    """
    event = _event(wind, lock, swing, past_stop)
    unit = _cases(surface, event)
    moment = _moment(surface, unit[0])
    steady = None if event.wind is None else (moment if event.wind else 0.0)
    energy = _energy(surface, event, steady)
    blows = _blows(surface, event, energy, steady)
    counted = steady or 0.0 if event.past_stop is None else blows[0].moment
    design = _design(surface)
    limit, name = _limit(design)
    cases = [replace(case, factor=counted / moment) for case in unit]
    missing = ""
    if event.lock != "held" and energy is None and steady is not None:
        missing = "outline.swings_left and swings_right, or the swing of the event: how far it could swing"
    return Aftermath(surface, event, steady, limit, name, energy, blows, counted,
                     parts_by_load(assess(surface, cases=cases), design), missing)  # fmt: skip


def _cases(surface: Surface, event: Event) -> list[LoadCase]:
    """Build the wind on the parked surface; one that swung stands on its stop, where the file has it."""
    if event.lock == "held":
        return list(wind_cases(surface, event.wind or _UNIT_WIND))
    loose = replace(surface, controls=replace(surface.controls, locked_at=StopAt.NONE))
    stop = surface.controls.stop
    cases = wind_cases(loose, event.wind or _UNIT_WIND)
    if stop is None or stop.up.si is None or stop.arm.si is None:
        return list(cases)
    on_stop = []
    for case in cases:
        towards = 1 if case.air is not None and _torque(loose, case) < 0.0 else -1
        on_stop.append(replace(case, closing="stop", swing=towards))
    return on_stop


def _torque(surface: Surface, case: LoadCase) -> float:
    """Torque about +y of the air load of a case; a push to +z behind the pins gives a negative one."""
    if case.air is None:
        return 0.0
    return float(np.mean(np.asarray(airload_totals(case.air, planform_of(surface))[1]) * case.factor))


def _moment(surface: Surface, case: LoadCase) -> float:
    return abs(_torque(surface, case))


def _energy(surface: Surface, event: Event, steady: float | None) -> float | None:
    """Energy of a free swing: from where it was said to be, else from stop to stop."""
    if steady is None or event.lock == "held":
        return None
    travel = event.swing
    sides = (surface.outline.swings_left.si, surface.outline.swings_right.si)
    if travel is None and None not in sides:
        travel = float(np.mean(np.asarray(sides[0])) + np.mean(np.asarray(sides[1])))
    return None if travel is None else float(swing_energy(steady, travel))


def _event(wind: float | None, lock: Lock | None, swing: float | None, past_stop: float | None) -> Event:
    if wind is None and past_stop is None:
        message = "say what happened: a wind, how far the surface went past its stop, or both"
        raise SurfaceError(message)
    if lock not in {*LOCKS, None} or (wind is not None and lock is None):
        found = "not said" if lock is None else f'"{lock}"'
        message = f"what the lock did: {found}. Allowed: {', '.join(LOCKS)}; ask, never guess"
        raise SurfaceError(Fault(message, key="lock"))
    if wind is not None and not 0.0 <= wind <= _STRONGEST:
        message = (
            f"{wind:.0f} m/s ({wind * 3600 / 1852:.0f} knots): 0 to {_STRONGEST:.0f} m/s is allowed. Is the unit right?"
        )
        raise SurfaceError(Fault(message, key="wind"))
    for key, value, most in (("swing", swing, 120.0), ("past-stop", past_stop, 45.0)):
        if value is not None and not 0.0 < np.degrees(value) <= most:
            message = f"{np.degrees(value):g} deg: above 0 and up to {most:g} deg is allowed; leave it out if not known"
            raise SurfaceError(Fault(message, key=key))
    return Event(wind, lock or "held", swing, past_stop)


def _design(surface: Surface) -> Assessment | None:
    """Work the cases of the file; None where it holds none."""
    try:
        return assess(surface)
    except SurfaceError:
        return None


def _limit(design: Assessment | None) -> tuple[float | None, str]:
    if design is None:
        return None, ""
    groups = {"flight", "ground"}
    found = [(_moment(design.surface, case), case.title) for case in design.cases if case.air and case.group in groups]
    return max(found) if found else (None, "")


def _blows(surface: Surface, event: Event, energy: float | None, steady: float | None) -> tuple[Blow, ...]:
    """Bound the blow by the energy of the swing, and by the twist of the surface where its angle is known."""
    given = event.past_stop
    if given is None:
        return () if energy is None else tuple(_by_energy(energy, steady, give, None) for give in GIVES)
    twist = _by_twist(surface, event, given)
    if energy is None and twist is None:
        message = "past-stop alone tells a moment only where the sheet is known: give the wind too, or the sheet"
        raise SurfaceError(message)
    return (Blow(given, None, twist) if energy is None else _by_energy(energy, steady, given, twist),)


def _by_energy(energy: float, steady: float | None, give: float, twist: float | None) -> Blow:
    return Blow(give, float(stop_moment(energy, give, steady or 0.0)), twist)


def _by_twist(surface: Surface, event: Event, angle: float) -> float | None:
    """Hinge moment that twists the surface alone by an angle, from the horn to its farther end.

    The load lies as the wind does. Whatever else gave took its share of the angle; a push at the far end takes less,
    one near the horn more.
    """
    slack = replace(surface.controls, rigging_pull=Value(0.0, "none", absent=True))
    quiet = replace(surface, controls=slack)
    cases = _cases(quiet, Event(event.wind or _UNIT_WIND, event.lock))
    worked = assess(quiet, cases=cases)
    turned, span = worked.deflections, worked.span
    if turned is None:
        return None
    horn = float(span.breaks[span.root if span.horn is None else span.horn])
    ends = float(span.breaks[span.root]), float(span.breaks[span.tip])
    far = int(np.argmin(np.abs(span.y - max(ends, key=lambda end: abs(end - horn)))))
    least = float(np.min(np.abs(turned.twist[..., far])))
    return angle * _moment(quiet, cases[0]) / least if least > 0.0 else None
