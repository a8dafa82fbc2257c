"""What bench rules and simplified flutter criteria say of a weighing: figures and their words, never a verdict."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.loads.part23 import section
from surfacecheck.masses import (
    FREE_PLAY,
    FRICTION,
    GATE_MACH,
    GATE_SPEED,
    GRAVITY,
    SCALE_ERROR,
    balance_parameter,
    free_play_share,
    gate_open,
    inertia_by_swing,
)
from surfacecheck.model import Kind
from surfacecheck.provenance import Basis, Source
from surfacecheck.rules import DOES_NOT_MEET, MEETS, NOT_COVERED

if TYPE_CHECKING:
    from collections.abc import Iterator

    from numpy.typing import ArrayLike

    from surfacecheck.masses import Masses, Readings
    from surfacecheck.model import Surface

__all__ = ["MET", "NOT_APPLICABLE", "NOT_MET", "BenchRule", "Criterion", "bench_rules", "flutter_criteria"]

MET, NOT_MET, NOT_APPLICABLE, NOT_GIVEN = "criterion met", "criterion not met", "not applicable", "not given"

_FORM = Source(Basis.COMMON_PRACTICE, "forms of sailplane maintenance manuals for moments of control surfaces")
_MAKER = Source(Basis.AS_SAID, "the maker's range, as typed in weighed.maker_allows")
_REPORT = Source(Basis.FROM_MEMORY, "Airframe and Equipment Engineering Report No. 45 (1955); see the report itself")
_REFERENCE = {Kind.RUDDER: 0.7, Kind.ELEVATOR: 0.5}
"""Place of the semichord as a share of the span: the report, from memory [-]."""
_SOUND = 340.29
"""Speed of sound at sea level: U.S. Standard Atmosphere, 1976 [m/s]."""


@dataclass(frozen=True, slots=True)
class BenchRule:
    """A rule of the bench.

    Attributes
    ----------
    name : str
        In a builder's words.
    outcome : str
        ``meets``, ``does not meet`` or ``not covered``.
    found, asked : float or None
        What there is and what the text asks [SI, by ``quantity``].
    quantity : str
        Of both; ``share`` for a share in per cent.
    says : str
        What it is a share of, or why it is not covered.
    source : Source
        The text.
    """

    name: str
    outcome: str
    found: float | None
    asked: float | None
    quantity: str
    says: str
    source: Source


@dataclass(frozen=True, slots=True)
class Criterion:
    """A published simplified criterion that needs the balance.

    Attributes
    ----------
    name : str
        In words.
    outcome : str
        ``criterion met``, ``criterion not met``, ``not applicable`` or ``not given``.
    found, asked : float or None
        The coefficient here and its limit [SI, by ``quantity``].
    quantity : str
        Of both; ``share`` for a share in per cent, ``speed``, or empty.
    says : str
        What stands behind the number, or the key that is missing.
    source : Source
        The paragraph.
    semichord, second : float or None
        The b and I of gamma [m], [kg m^2].
    """

    name: str
    outcome: str
    found: float | None
    asked: float | None
    quantity: str
    says: str
    source: Source
    semichord: float | None = None
    second: float | None = None


def bench_rules(surface: Surface, readings: Readings | None, moment: float | None) -> tuple[BenchRule, ...]:
    """Hold readings against the rules of the bench.

    Parameters
    ----------
    surface : Surface
        For the scale's step and the maker's range.
    readings : Readings or None
        None where nothing was read.
    moment : float or None
        Tail-heavy [N m].

    Returns
    -------
    tuple of BenchRule
        Friction, step of the scale, the maker's range; those that nothing is known for are left out.
    """
    found: list[BenchRule] = []
    allowed = [_mean(one.si) for one in surface.weighed.maker_allows if one.si is not None]
    if readings is not None and readings.friction_moment is not None:
        found.append(_friction(readings, allowed))
    step = surface.weighed.scale_step
    if readings is not None and step.si is not None:
        found.append(_step(_mean(step.si), _mean(readings.push)))
    if len(allowed) == 2 and moment is not None:
        either = 0.0 if readings is None or readings.friction_moment is None else _mean(readings.friction_moment)
        found.extend(_range(min(allowed), max(allowed), moment, either))
    return tuple(found)


def _friction(readings: Readings, allowed: list[float]) -> BenchRule:
    name = "friction of the hinges"
    greatest = max((abs(one) for one in allowed), default=0.0)
    of = greatest or abs(_mean(readings.moment))
    if of == 0.0:
        says = "the moment is nought and the maker's range not given: no share can be told"
        return BenchRule(name, NOT_COVERED, None, FRICTION, "share", says, _FORM)
    share = (0.0 if readings.friction_moment is None else _mean(readings.friction_moment)) / of
    says = "of the greatest moment the maker allows" if greatest else "of the moment read: the maker's is not given"
    return BenchRule(name, MEETS if share < FRICTION else DOES_NOT_MEET, share, FRICTION, "share", says, _FORM)


def _step(step: float, push: float) -> BenchRule:
    name = "step of the scale"
    if push == 0.0:
        return BenchRule(name, NOT_COVERED, None, SCALE_ERROR, "share", "the push is nought", _FORM)
    share = step / 2.0 / abs(push)
    outcome = MEETS if share <= SCALE_ERROR else DOES_NOT_MEET
    return BenchRule(name, outcome, share, SCALE_ERROR, "share", "half a step, of the push", _FORM)


def _range(least: float, most: float, moment: float, friction: float) -> Iterator[BenchRule]:
    """Hold both readings against the maker's range: the forms ask that both lie in it."""
    says = "tail-heavy is positive" + ("; by the reading nearer to it" if friction else "")
    for name, asked, found, good in (
        ("moment, not more nose-heavy than allowed", least, moment - friction, moment - friction >= least),
        ("moment, not more tail-heavy than allowed", most, moment + friction, moment + friction <= most),
    ):
        yield BenchRule(name, MEETS if good else DOES_NOT_MEET, found, asked, "torque", says, _MAKER)


def flutter_criteria(surface: Surface, masses: Masses, moment: float | None) -> tuple[Criterion, ...]:
    """Work out the coefficients of simplified criteria that need the balance.

    Parameters
    ----------
    surface : Surface
        For speeds, outline, free play, and the limit read from a figure.
    masses : Masses
        For the second moment, where no swing was timed.
    moment : float or None
        Tail-heavy [N m].

    Returns
    -------
    tuple of Criterion
        Each with the figure and its word. Meeting one says nothing of the others, and they still ask for a flight
        flutter test.
    """
    return (_gate(surface), _play(surface), _parallel(surface, masses, moment))


def _gate(surface: Surface) -> Criterion:
    name, source = "simplified criteria may be used: diving speed", section("23.629(d)")
    dive = surface.aeroplane.speed_dive
    if dive.si is None:
        says = f"aeroplane.speed_dive; also below Mach {GATE_MACH}, and no T-tail or unusual masses"
        return Criterion(name, NOT_GIVEN, None, GATE_SPEED, "speed", says, source)
    speed = _mean(dive.si)
    outcome = MET if bool(gate_open(speed, speed / _SOUND)) else NOT_MET
    says = "Mach number taken at sea level; T-tail, unusual masses, fixed fin: not asked here"
    return Criterion(name, outcome, speed, GATE_SPEED, "speed", says, source)


def _play(surface: Surface) -> Criterion:
    name = "free play of the trailing edge, of the chord behind the pins"
    if surface.kind is not Kind.AILERON:
        says = "asked of ailerons and tabs; a tab is not looked at"
        return Criterion(name, NOT_APPLICABLE, None, FREE_PLAY, "share", says, _REPORT)
    play = surface.weighed.free_play
    edges = [float(np.min(one.edge_behind.si)) for one in surface.outline.places if one.edge_behind.si is not None]
    if play.si is None or not edges:
        says = "weighed.free_play" if play.si is None else "outline.at.edge_behind"
        return Criterion(name, NOT_GIVEN, None, FREE_PLAY, "share", says, _REPORT)
    share = float(free_play_share(_mean(play.si), min(edges)))
    says = "of the shortest chord"
    return Criterion(name, MET if share <= FREE_PLAY else NOT_MET, share, FREE_PLAY, "share", says, _REPORT)


def _parallel(surface: Surface, masses: Masses, moment: float | None) -> Criterion:
    name = "balance parameter gamma = b S / I, axes parallel"
    limit = surface.weighed.gamma_allowed
    asked = None if limit.si is None else _mean(limit.si)
    if surface.kind is Kind.AILERON:
        says = "for elevators and rudders; an aileron's K/I needs axes this file does not hold"
        return Criterion(name, NOT_APPLICABLE, None, asked, "", says, _REPORT)
    b, key = _semichord(surface)
    if b is None or moment is None:
        return Criterion(name, NOT_GIVEN, None, asked, "", key or "weighed.tail_push", _REPORT)
    second, how = second_moment(surface, masses, moment)
    if second <= 0.0:
        return Criterion(name, NOT_GIVEN, None, asked, "", "weighed.swing_time, or the parts", _REPORT)
    gamma = float(balance_parameter(b, moment / GRAVITY, second))
    if asked is None:
        how += "; weighed.gamma_allowed: read it in figure 3 of the report, at your speed and frequency"
        return Criterion(name, NOT_GIVEN, gamma, None, "", how, _REPORT, b, second)
    return Criterion(name, MET if gamma <= asked else NOT_MET, gamma, asked, "", how, _REPORT, b, second)


def second_moment(surface: Surface, masses: Masses, moment: float) -> tuple[float, str]:
    """Give the second moment of the mass about the pins, by a timed swing or as an estimate.

    Parameters
    ----------
    surface : Surface
        With its swing, if it was timed.
    masses : Masses
        For the estimate.
    moment : float
        Tail-heavy [N m].

    Returns
    -------
    tuple of (float, str)
        [kg m^2], and how it was got.
    """
    swing = surface.weighed.swing_time
    if swing.si is not None and moment > 0.0:
        return float(inertia_by_swing(moment, _mean(swing.si))), "I by its swing"
    return _mean(masses.second), "I estimated from the parts"


def _semichord(surface: Surface) -> tuple[float | None, str]:
    """Half the whole chord, fixed part and all, at the place of reference; or the key that is missing."""
    places = surface.outline.places
    lines: dict[str, list[float]] = {}
    for name in ("up", "fin_ahead", "edge_behind"):
        values = [getattr(one, name) for one in places]
        gap = next((one for one in values if one.si is None), None)
        if gap is not None or len(values) < 2:
            return None, (gap.key if gap is not None else "") or f"outline.at.{name}"
        lines[name] = [_mean(one.si) for one in values]
    order = np.argsort(lines["up"])
    y, fin, edge = (np.array(lines[name])[order] for name in ("up", "fin_ahead", "edge_behind"))
    at = y[0] + _REFERENCE[surface.kind] * (y[-1] - y[0])
    return float(np.interp(at, y, fin) + np.interp(at, y, edge)) / 2.0, ""


def _mean(value: ArrayLike | None) -> float:
    """Give one number; of a stack of variants the mean."""
    return float(np.mean(np.asarray(value, dtype=np.float64)))
