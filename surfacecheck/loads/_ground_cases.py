"""Ground gust, and the wind on a tied-down aeroplane."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np
from numpy.typing import ArrayLike, NDArray

from surfacecheck.loads._case import AirLoad, Closing, LoadCase, MissingCase
from surfacecheck.loads._chordwise import EVEN, STRAIGHT, Shape
from surfacecheck.loads._controls import GROUND_GUST, ground_gust_moment, ground_gust_speed
from surfacecheck.loads._flight import dynamic_pressure, section
from surfacecheck.loads._from_surface import number, outline_of, planform_of, side_word
from surfacecheck.loads._planform import Planform
from surfacecheck.loads._swing import stop_moment, swing_energy
from surfacecheck.loads._units import GRAVITY
from surfacecheck.model import StopAt, Surface
from surfacecheck.provenance import Basis, Source

__all__ = ["ground_cases", "ground_gust_pressure", "wind_cases"]

Array = NDArray[np.float64]

_SHAPE = "the rule gives a moment only; even and straight to zero are both run (common practice)"
_TIED = "the rule gives no K for the tied-down aeroplane: K = 0.75 as in the ground gust is assumed"
_LOCK = "the lock on the surface is taken as a pure couple at the horn: its place is not asked"
_SWUNG = (
    "swung free into its stop: the whole work of the wind, held by what gives in a straight line, and spread as that "
    "wind presses: a bound, without damping"
)
_LOOSE = "no gust lock: the moment is taken at the horn, as if somebody or a stop in the cockpit held it"


def ground_gust_pressure(planform: Planform, k: float, q: Array, shape: Shape) -> Array:
    """Mean pressure that gives the rule's hinge moment exactly, on a taper too.

    p = K c S q / (a int r^2 dy): r behind the pins, S its area, c = S over span, a the arm of the shape

    Parameters
    ----------
    planform : Planform
        The outline.
    k : float
        K of the rule [-].
    q : ndarray, shape (...)
        Dynamic pressure [Pa].
    shape : Shape
        How the pressure lies from the pins to the trailing edge.

    Returns
    -------
    ndarray, shape (...)
        Mean pressure behind the pins [Pa].

    References
    ----------
    14 CFR 23.415(a)(2), Amdt 23-62.
    """
    area = planform.area("pins")
    moment = ground_gust_moment(k, area / planform.span, area, q)
    return np.asarray(moment / (shape.arm * planform.chord_squared("pins")))


def ground_cases(surface: Surface) -> Iterator[LoadCase | MissingCase]:
    """Build ground gust and tie-down wind, even and straight to zero, both signs."""
    outline = outline_of(surface)
    if outline.planform is None:
        yield MissingCase("wind on the ground", next(iter(outline.hidden.values())), "the outline is not known")
        return
    plane = surface.aeroplane
    gap = next((key for key in ("weight", "wing_area") if getattr(plane, key).si is None), None)
    if gap is None:
        q = dynamic_pressure(ground_gust_speed(number(plane.weight) * GRAVITY / number(plane.wing_area)))
        yield from _winds(surface, outline.planform, q, "ground gust", section("23.415(a)"), ())
    else:
        yield MissingCase("ground gust", f"aeroplane.{gap}", "its speed goes by the wing loading")
    yield from _of_event(surface, outline.planform)
    wind = surface.load.wind_at_tiedown
    if wind.absent:
        return
    if wind.si is None:
        yield MissingCase("wind at tie-down", wind.key or "load.wind_at_tiedown", "the wind is not given")
        return
    source = Source(Basis.PUBLISHED, f"{section('23.415(c)').text}; K assumed")
    yield from _winds(surface, outline.planform, dynamic_pressure(number(wind)), "wind at tie-down", source, (_TIED,))


def wind_cases(surface: Surface, speed: ArrayLike) -> tuple[LoadCase, ...]:
    """Build one given wind on the parked surface, steady, as the rule does for the tied-down aeroplane.

    H = K c S q, even and straight to zero, to both sides

    Parameters
    ----------
    surface : Surface
        Its outline must be known.
    speed : array_like, shape (...)
        Of the wind [m/s].

    Returns
    -------
    tuple of LoadCase
        In the manner of 14 CFR 23.415(c), Amdt 23-62; K is assumed.

    Raises
    ------
    SurfaceError
        Where the outline is not known.
    """
    q = dynamic_pressure(np.asarray(speed, dtype=np.float64))
    source = Source(Basis.ASSUMED, f"in the manner of {section('23.415(c)').text}; K assumed")
    return tuple(_winds(surface, planform_of(surface), q, "wind of the event", source, (_TIED,)))


def _of_event(surface: Surface, planform: Planform) -> Iterator[LoadCase]:
    """Build the cases of a wind that took hold of the surface, and of its swing into the stop."""
    swung = surface.swung
    if swung is None:
        return
    if not (swung.swing.known and swung.gives.known):
        yield from wind_cases(surface, number(swung.wind))
        return
    times = stop_moment(swing_energy(1.0, number(swung.swing)), number(swung.gives), 1.0)
    source = Source(Basis.ASSUMED, f"in the manner of {section('23.415(c)').text}; K assumed")
    q = dynamic_pressure(number(swung.wind)) * times
    yield from _winds(surface, planform, q, "wind of the event, into the stop", source, (_TIED, _SWUNG))


def _winds(
    surface: Surface, planform: Planform, q: Array, word: str, source: Source, notes: tuple[str, ...]
) -> Iterator[LoadCase]:
    closing: Closing = "surface lock" if surface.controls.locked_at is StopAt.SURFACE else "horn"
    if closing == "surface lock":
        notes = (*notes, _LOCK)
    elif surface.controls.locked_at is StopAt.NONE:
        notes = (*notes, _LOOSE)
    k = max(GROUND_GUST[surface.kind.value])
    for shape in (EVEN, STRAIGHT):
        p = ground_gust_pressure(planform, k, q, shape)
        for sign in (1, -1):
            side = side_word(surface, sign)
            name = f"{word.replace(' ', '-')}-{side}-{shape.name.split()[0]}"
            air = AirLoad(sign * p, "pins", "pins", shape)
            title = f"{word}, to the {side}, {shape.name}"
            yield LoadCase(name, title, source, "ground", air=air, closing=closing, notes=(*notes, _SHAPE))
