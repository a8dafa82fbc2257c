"""Pieces that have mass: spread along the hinge line, or at one place.

x is measured aft of the pins, y along them; the mass is taken to lie in the middle plane, so that only mass and
first moment about the hinge line matter.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from surfacecheck.provenance import Source, Value

__all__ = ["Array", "LeftOut", "Piece", "Spread", "Unknown", "at_point", "known", "over", "spread"]

Array = NDArray[np.float64]

_NODES, _WEIGHTS = np.polynomial.legendre.leggauss(8)


class Unknown(Exception):
    """A signal inside this package: a value that a piece needs is not known; carries the key."""

    def __init__(self, key: str) -> None:
        self.key = key
        super().__init__(key)


@dataclass(frozen=True, slots=True)
class LeftOut:
    """A part whose mass is not in the sum, and the first key that hides it.

    Attributes
    ----------
    name : str
        The part.
    key : str
        Key of the file that is not known.
    """

    name: str
    key: str


@dataclass(frozen=True, slots=True, eq=False)
class Spread:
    """Mass spread along the hinge line.

    Attributes
    ----------
    y : ndarray, shape (..., K)
        Stations between which the lines are straight [m].
    lines : tuple of ndarray, shape (..., K)
        Lengths at the stations, handed to the law [m].
    law : callable
        Turns the lines at any points into running mass [kg/m] and running first moment about the pins [kg].
    own : callable or None
        Turns them into the square of the radius of gyration about the strip's own centre [m^2]; None for a strip so
        narrow that it counts nothing.
    """

    y: Array
    lines: tuple[Array, ...]
    law: Callable[..., tuple[Array, Array]]
    own: Callable[..., Array] | None = None

    def between(self, low: Array, high: Array) -> tuple[Array, Array]:
        """Mass and first moment between places along the hinge line.

        Parameters
        ----------
        low, high : ndarray, shape (..., N)
            Ends of each range; what lies outside the part counts nothing [m].

        Returns
        -------
        mass : ndarray, shape (..., N)
            [kg].
        first : ndarray, shape (..., N)
            Mass times distance aft of the pins [kg m].
        """
        values, weight = self._at_nodes(low, high)
        mass, first = self.law(*values)
        return np.asarray(np.sum(mass * weight, axis=(-2, -1))), np.asarray(np.sum(first * weight, axis=(-2, -1)))

    def second(self) -> Array:
        """Second moment of all of it about the pins.

        Returns
        -------
        ndarray, shape (...)
            [kg m^2].
        """
        values, weight = self._at_nodes(self.y[..., :1], self.y[..., -1:])
        mass, first = self.law(*values)
        own = 0.0 if self.own is None else mass * self.own(*values)
        about_pins = first**2 / np.where(mass != 0.0, mass, 1.0) + own
        return np.asarray(np.sum(about_pins * weight, axis=(-3, -2, -1)))

    def centre(self) -> Array:
        """Centre of all of it along the hinge line: the integral of y dm over the mass.

        Returns
        -------
        ndarray, shape (...)
            [m]; 0 where there is no mass.
        """
        values, weight = self._at_nodes(self.y[..., :1], self.y[..., -1:])
        mass = self.law(*values)[0] * weight
        low, length = self.y[..., None, :-1, None], np.diff(self.y)[..., None, :, None]
        y = low + length * (1.0 + _NODES) / 2.0
        total, about = (np.asarray(np.sum(one, axis=(-3, -2, -1))) for one in (mass, mass * y))
        some = total != 0.0
        return np.asarray(np.where(some, about / np.where(some, total, 1.0), 0.0))

    def _at_nodes(self, low: Array, high: Array) -> tuple[list[Array], Array]:
        """Give the lines, and the weights, at the points at which ranges are summed: (..., N, K - 1, points)."""
        y0, y1 = self.y[..., None, :-1], self.y[..., None, 1:]
        start = np.minimum(np.maximum(low[..., None], y0), y1)
        half = (np.minimum(np.maximum(high[..., None], y0), y1) - start)[..., None] / 2.0
        u = (start[..., None] + half * (1.0 + _NODES) - y0[..., None]) / (y1 - y0)[..., None]
        values = [v[..., None, :-1, None] * (1.0 - u) + v[..., None, 1:, None] * u for v in self.lines]
        return values, half * _WEIGHTS


@dataclass(frozen=True, slots=True, eq=False)
class Piece:
    """One part of the mass sum.

    Attributes
    ----------
    name : str
        The part, as the file calls it.
    mass : ndarray, shape (...)
        [kg].
    first : ndarray, shape (...)
        Mass times distance aft of the pins [kg m].
    place : ndarray, shape (...), or None
        Place along the pins of a piece at one place [m]; None for one that is spread.
    source : Source
        How the mass was got.
    along : Spread or None
        How it lies along the hinge line; None for a piece at one place.
    own : ndarray, shape (...)
        Second moment about its own centre, of a piece at one place [kg m^2]; 0 where its width counts nothing.
    """

    name: str
    mass: Array
    first: Array
    place: Array | None
    source: Source
    along: Spread | None = None
    own: Array = field(default_factory=lambda: np.asarray(0.0))

    @property
    def y(self) -> Array:
        """Centre along the pins, shape (...) [m]; 0 for a spread piece of no mass."""
        if self.along is not None:
            return self.along.centre()
        return np.asarray(0.0 if self.place is None else self.place)

    @property
    def second(self) -> Array:
        """Second moment about the pins, shape (...) [kg m^2]."""
        if self.along is not None:
            return self.along.second()
        return np.asarray(self.first * self.x + self.own)

    @property
    def x(self) -> Array:
        """Centre aft of the pins [m]; 0 for a piece of no mass."""
        some = self.mass != 0.0
        return np.asarray(np.where(some, self.first / np.where(some, self.mass, 1.0), 0.0))


def spread(name: str, along: Spread, source: Source) -> Piece:
    """Make a piece of a spread mass."""
    mass, first = along.between(along.y[..., :-1], along.y[..., 1:])
    return Piece(name, np.asarray(np.sum(mass, axis=-1)), np.asarray(np.sum(first, axis=-1)), None, source, along)


def at_point(name: str, mass: Array, x: Array, y: Array, source: Source) -> Piece:
    """Make a piece that sits at one place."""
    mass, x, y = (np.asarray(v, dtype=np.float64) for v in (mass, x, y))
    return Piece(name, mass, np.asarray(mass * x), y, source)


def over(above: Array, below: Array) -> Array:
    """Divide; where there is nothing to divide by, the scale is one [-]."""
    some = np.asarray(below != 0.0)
    return np.asarray(np.where(some, above / np.where(some, below, 1.0), 1.0))


def known(value: Value, key: str) -> Array:
    """Give the number of a value, or raise the key that is missing; "none" is zero."""
    if value.absent and value.si is None:
        return np.asarray(0.0)
    if value.si is None:
        raise Unknown(key=value.key or key)
    return np.asarray(value.si, dtype=np.float64)
