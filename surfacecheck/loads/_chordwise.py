"""How a running load lies along the chord: shapes with mean one, and what they do about the hinge line.

Pressure is positive towards +z. A +z load aft of the hinge gives a **negative** torque about +y, so the running
torque is minus load times arm; what lies ahead of the hinge takes away from it by itself.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from surfacecheck.errors import SurfaceError
from surfacecheck.provenance import Basis, Source

__all__ = ["CURVED", "EVEN", "SHAPES", "STRAIGHT", "Shape", "running_torque"]

Array = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Shape:
    """A chordwise shape: relative pressure over the fraction of the loaded chord, scaled so that its mean is one.

    Piecewise a parabola: on piece i, with u from 0 to 1, pressure is ``p0 + p1 u + p2 u^2``.

    Attributes
    ----------
    name : str
        Builder's words.
    knots : tuple of float
        Fractions of the chord where pieces meet, 0 to 1 [-].
    pieces : tuple of (float, float, float)
        Coefficients p0, p1, p2 of each piece [-].
    source : Source
        Where the shape comes from.
    """

    name: str
    knots: tuple[float, ...]
    pieces: tuple[tuple[float, float, float], ...]
    source: Source

    @classmethod
    def from_points(cls, name: str, points: list[tuple[float, float]], source: Source) -> Shape:
        """Build a shape that somebody typed: straight between points, scaled so that the mean is one.

        Parameters
        ----------
        name : str
            What to call it.
        points : list of (float, float)
            Fraction of the loaded chord from its front (first 0, last 1, rising), relative pressure (any scale) [-].
        source : Source
            How it is known.

        Returns
        -------
        Shape
            With mean one.

        Raises
        ------
        SurfaceError
            Where the fractions do not run from 0 to 1, or the mean is zero or negative.

        Examples
        --------
        >>> two_to_one = Shape.from_points("trapezoid", [(0.0, 2.0), (1.0, 1.0)], Source(Basis.AS_SAID))
        >>> two_to_one.arm
        0.4444
        """
        s = [float(point[0]) for point in points]
        p = [float(point[1]) for point in points]
        rising = all(b > a for a, b in pairwise(s))
        if len(s) < 2 or s[0] != 0.0 or s[-1] != 1.0 or not rising or not all(np.isfinite(p)):
            message = f"chordwise shape {points}: fractions of the chord must rise from 0 to 1, each with a pressure"
            raise SurfaceError(message)
        mean = sum((b - a) * (u + v) / 2.0 for a, b, u, v in zip(s, s[1:], p, p[1:], strict=False))
        if mean <= 0.0:
            message = f"chordwise shape {points}: its mean is {mean:g}; it must be above zero to be scaled to the load"
            raise SurfaceError(message)
        pieces = tuple((u / mean, (v - u) / mean, 0.0) for u, v in pairwise(p))
        return cls(name, tuple(s), pieces, source)

    @property
    def arm(self) -> float:
        """Centre of the load behind the front of the loaded chord, as a fraction of it [-]."""
        return _arm(self)

    def _local(self, s: Array) -> tuple[NDArray[np.intp], Array, Array]:
        knots = np.asarray(self.knots)
        piece = np.clip(np.searchsorted(knots, s, side="right") - 1, 0, len(self.pieces) - 1)
        width = np.diff(knots)[piece]
        return np.asarray(piece, dtype=np.intp), (s - knots[piece]) / width, width

    def pressure(self, s: Array) -> Array:
        """Relative pressure at fractions of the loaded chord.

        Parameters
        ----------
        s : ndarray
            Fractions, 0 at the front, 1 at the trailing edge; outside there is no load [-].

        Returns
        -------
        ndarray
            Pressure over mean pressure, same shape [-].
        """
        s = np.asarray(s, dtype=np.float64)
        piece, u, _ = self._local(s)
        p = np.asarray(self.pieces)[piece]
        inside = (s >= 0.0) & (s <= 1.0)
        return np.asarray(np.where(inside, p[..., 0] + u * (p[..., 1] + u * p[..., 2]), 0.0))

    def share(self, s: Array) -> tuple[Array, Array]:
        """Part of the load that lies ahead of fractions of the loaded chord.

        Parameters
        ----------
        s : ndarray
            Fractions [-].

        Returns
        -------
        force : ndarray
            Load ahead of s, over the whole load [-].
        moment : ndarray
            Its first moment about the front, over whole load times loaded chord [-].
        """
        s = np.clip(np.asarray(s, dtype=np.float64), 0.0, 1.0)
        piece, u, width = self._local(s)
        knots, whole = np.asarray(self.knots), np.diff(np.asarray(self.knots))
        p = np.asarray(self.pieces)

        def parts(c: Array, upto: Array, front: Array, wide: Array) -> tuple[Array, Array]:
            force = wide * upto * (c[..., 0] + upto * (c[..., 1] / 2.0 + upto * c[..., 2] / 3.0))
            about = wide * wide * upto**2 * (c[..., 0] / 2.0 + upto * (c[..., 1] / 3.0 + upto * c[..., 2] / 4.0))
            return force, front * force + about

        force, moment = parts(p, np.ones(len(whole)), knots[:-1], whole)
        before = np.concatenate([[0.0], np.cumsum(force)]), np.concatenate([[0.0], np.cumsum(moment)])
        own = parts(p[piece], u, knots[piece], width)
        return np.asarray(before[0][piece] + own[0]), np.asarray(before[1][piece] + own[1])


@lru_cache(maxsize=256)
def _arm(shape: Shape) -> float:
    return float(shape.share(np.array([1.0]))[1][0])


_PRACTICE = Source(Basis.COMMON_PRACTICE, "net pressure even along the loaded chord")
EVEN = Shape("even", (0.0, 1.0), ((1.0, 0.0, 0.0),), _PRACTICE)
"""The same pressure all along; arm 1/2."""

STRAIGHT = Shape(
    "straight to zero",
    (0.0, 1.0),
    ((2.0, -2.0, 0.0),),
    Source(Basis.PUBLISHED, "14 CFR 23, Amdt 23-62, Appendix A, Figure A7: straight from the hinge line to zero"),
)
"""Twice the mean at the front, zero at the trailing edge; arm 1/3."""

CURVED = Shape(
    "curved to zero",
    (0.0, 1.0),
    ((3.0, -6.0, 3.0),),
    Source(Basis.PUBLISHED, "14 CFR 23, Amdt 23-62, A23.11(c)(1)(v): P(x) = 3 w (c - x)^2 / cf^2"),
)
"""Three times the mean at the front, a parabola to zero; arm 1/4."""

SHAPES: dict[str, Shape] = {shape.name: shape for shape in (EVEN, STRAIGHT, CURVED)}
"""The shapes that a builder can name."""


def running_torque(load: Array, front: Array, edge: Array, shape: Shape) -> Array:
    """Work out the running torque of a running load about the hinge line.

    t = -w (x_front + a (x_edge - x_front))

    Parameters
    ----------
    load : ndarray, shape (..., S)
        Running load towards +z [N/m].
    front, edge : ndarray, shape (..., S)
        Front of the loaded chord and trailing edge, aft of the pins [m].
    shape : Shape
        How the load lies between them.

    Returns
    -------
    ndarray, shape (..., S)
        Running torque about +y [N m/m]; negative for a load aft of the hinge.

    Examples
    --------
    >>> running_torque(np.array([450.0]), np.array([0.020]), np.array([0.320]), STRAIGHT)
    array([-54.])
    """
    return np.asarray(-load * (front + shape.arm * (edge - front)))
