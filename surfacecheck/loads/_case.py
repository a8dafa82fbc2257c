"""What a load case is: frozen descriptions, before anything is put on a grid.

+z is the way z points on this surface (``Surface.left_is``). All loads are limit loads.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, TypeAlias

import numpy as np
from numpy.typing import NDArray

from surfacecheck.loads._chordwise import Shape
from surfacecheck.loads._planform import Start
from surfacecheck.provenance import Source

__all__ = [
    "AirLoad",
    "Closing",
    "FigureA7Load",
    "Group",
    "Inertia",
    "LoadCase",
    "MissingCase",
    "PilotPull",
    "PointInertia",
    "Strip",
    "kind_of",
]

Array = NDArray[np.float64]
Group: TypeAlias = Literal["flight", "control", "ground", "inertia", "balance", "hands"]
Closing: TypeAlias = Literal["horn", "surface lock", "stop", "pedals"]


@dataclass(frozen=True, slots=True, eq=False)
class AirLoad:
    """A mean pressure on a strip, lying along the loaded chord by a shape.

    Running load = pressure x chord of the strip ``over``; it lies from ``start`` to the trailing edge.

    Attributes
    ----------
    pressure : ndarray, shape (...)
        Mean, towards +z [Pa].
    over : {"fin", "nose", "pins", "web"}
        Front of the strip whose chord the pressure is the mean of.
    start : {"nose", "pins", "web"}
        Where the load begins along the chord.
    shape : Shape
        How it lies from there to the trailing edge.
    """

    pressure: Array
    over: Start
    start: Start
    shape: Shape


@dataclass(frozen=True, slots=True, eq=False)
class FigureA7Load:
    """The rudder's part of Figure A7: from P2 at the hinge line straight to zero.

    Attributes
    ----------
    pressure : ndarray, shape (...)
        Mean over fin and rudder, towards +z [Pa].
    d : float
        Centre of pressure behind the leading edge over the whole chord [-].
    """

    pressure: Array
    d: float


@dataclass(frozen=True, slots=True, eq=False)
class Inertia:
    """All mass of the surface accelerated along the hinge line.

    Attributes
    ----------
    along : float
        Acceleration over g, towards the tip [-].
    """

    along: float


@dataclass(frozen=True, slots=True, eq=False)
class PointInertia:
    """A concentrated mass accelerated by itself.

    Attributes
    ----------
    mass, y, x : ndarray, shape (...)
        Mass [kg], its place along the pins and aft of them [m].
    g : tuple of float
        Acceleration over g along x, y, z [-].
    """

    mass: Array
    y: Array
    x: Array
    g: tuple[float, float, float]


@dataclass(frozen=True, slots=True, eq=False)
class PilotPull:
    """Forces that the pilot puts on the horn, as multiples of one pull along the cable or rod.

    Attributes
    ----------
    pull : ndarray, shape (...)
        At the horn [N].
    sides : tuple of int
        Sides of the horn that are pulled: +1 at +z, -1 at -z.
    """

    pull: Array
    sides: tuple[int, ...]


Strip: TypeAlias = AirLoad | FigureA7Load


def kind_of(air: Strip) -> tuple[object, ...]:
    """Give what tells strips apart, the pressure aside.

    Parameters
    ----------
    air : AirLoad or FigureA7Load
        A strip.

    Returns
    -------
    tuple
        The same for strips that differ in pressure alone.
    """
    return (air.d,) if isinstance(air, FigureA7Load) else (air.over, air.start, air.shape)


@dataclass(frozen=True, slots=True, eq=False)
class LoadCase:
    """One load case.

    Attributes
    ----------
    name : str
        Stable slug, such as ``side-left-straight``.
    title : str
        In plain words.
    source : Source
        Rule or letter that asks for it.
    group : str
        flight, control, ground, inertia, balance or hands.
    air : AirLoad, FigureA7Load or None
        Airload.
    inertia : Inertia or None
        Whole-surface inertia.
    point : PointInertia or None
        Inertia of the balance mass alone.
    pilot : PilotPull or None
        Given pull at the horn.
    factor : ndarray, shape (...)
        Multiplies everything of the case, the rigging pull apart (1.25 for the control system) [-].
    scales : bool
        Whether the whole case grows with the load multiplier of a margin (the rigging pull never does).
    fin : ndarray, shape (...)
        Share of the typed ``fin_bends`` that belongs to this case: plus or minus one for the typed flight load (over
        1.5 where it is typed as ultimate), times ``factor``; 0 where the fin's bending is not known [-].
    reads : str
        Items it is read for: ``surface`` (all) or ``control`` (horn, its rivets and rib, brackets and pins).
    closing : str
        What holds the torque: horn, surface lock, stop or pedals (nothing is left to hold).
    swing : int
        Way the surface is swung when it stands on its stop: +1 trailing edge to +z, -1 to -z; 0 for neutral [-].
    thrust : str or None
        Hinge that alone takes the load along the hinge line; None: any that takes it.
    notes : tuple of str
        Assumptions, in plain words.
    """

    name: str
    title: str
    source: Source
    group: Group
    air: Strip | None = None
    inertia: Inertia | None = None
    point: PointInertia | None = None
    pilot: PilotPull | None = None
    factor: Array | float = 1.0
    scales: bool = True
    fin: Array | float = 0.0
    reads: Literal["surface", "control"] = "surface"
    closing: Closing = "horn"
    swing: int = 0
    thrust: str | None = None
    notes: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class MissingCase:
    """A case that cannot be built yet.

    Attributes
    ----------
    name : str
        What it would be, in plain words.
    needs : str
        Key of the one value that hides it.
    reason : str
        One sentence.
    """

    name: str
    needs: str
    reason: str
