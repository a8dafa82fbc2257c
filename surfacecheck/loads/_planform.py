"""The outline of a surface: straight between measured stations, and its exact integrals.

Axes: y along the hinge line from root to tip, x aft of the hinge line. A *strip* is the part of the local chord that
ends at the trailing edge and starts at the fin's leading edge, the nose, the pins or the web.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import numpy as np
from numpy.typing import ArrayLike, NDArray

from surfacecheck.errors import SurfaceError

__all__ = ["Planform", "Start"]

Array = NDArray[np.float64]
Start = Literal["fin", "nose", "pins", "web"]


def _finite(name: str, values: ArrayLike) -> Array:
    array = np.asarray(values, dtype=np.float64)
    if not np.all(np.isfinite(array)):
        message = f"outline: {name} = {array} holds something that is no number: give a length at every station"
        raise SurfaceError(message)
    return array


@dataclass(frozen=True, slots=True, eq=False)
class Planform:
    """Chord lines of a surface at stations along the hinge line.

    Attributes
    ----------
    y : ndarray, shape (..., K)
        Stations, strictly rising, K at least 2 [m].
    nose, web, edge : ndarray, shape (..., K)
        Nose ahead of the pins, web behind them, trailing edge behind them [m].
    fin : ndarray, shape (..., K), or None
        Leading edge of the fixed part ahead of the pins [m]; None where it is not known.
    """

    y: Array
    nose: Array
    web: Array
    edge: Array
    fin: Array | None = None

    @classmethod
    def of(
        cls,
        y: ArrayLike,
        edge: ArrayLike,
        web: ArrayLike = 0.0,
        nose: ArrayLike = 0.0,
        fin: ArrayLike | None = None,
    ) -> Planform:
        """Build a planform from plain numbers, checked.

        Parameters
        ----------
        y : array_like, shape (..., K)
            Stations [m].
        edge : array_like, shape (..., K)
            Trailing edge behind the pins [m].
        web : array_like
            Web behind the pins [m].
        nose : array_like
            Nose ahead of the pins [m].
        fin : array_like, optional
            Leading edge of the fixed part ahead of the pins [m].

        Returns
        -------
        Planform
            With all lines at one common shape.

        Raises
        ------
        SurfaceError
            Where stations do not rise, a chord is not positive, or a number is missing.

        Examples
        --------
        >>> float(Planform.of([0.0, 1.10], [0.42, 0.30]).area("pins"))
        0.396
        """
        given = {"y": y, "edge": edge, "web": web, "nose": nose} | ({} if fin is None else {"fin": fin})
        lines = {name: _finite(name, values) for name, values in given.items()}
        shape = np.broadcast_shapes(*(line.shape for line in lines.values()))
        if not shape or shape[-1] < 2:
            message = "outline: one station makes no surface: give at least two, root and tip"
            raise SurfaceError(message)
        full = {name: np.array(np.broadcast_to(line, shape)) for name, line in lines.items()}
        made = cls(**full)
        made._check()
        return made

    def _check(self) -> None:
        if np.any(np.diff(self.y, axis=-1) <= 0.0):
            message = f"outline: stations {self.y} m do not rise: list them from root to tip, each once"
            raise SurfaceError(message)
        if np.any(self.edge <= self.web) or np.any(self.edge <= 0.0):
            message = f"outline: edge_behind {self.edge} m must lie behind web_behind {self.web} m and behind the pins"
            raise SurfaceError(message)
        if np.any(self.nose < 0.0) or np.any(-self.nose > self.web):
            message = f"outline: nose_ahead {self.nose} m must be 0 or more, and ahead of web_behind {self.web} m"
            raise SurfaceError(message)
        if self.fin is not None and np.any(self.fin < 0.0):
            message = f"outline: fin_ahead {self.fin} m must be 0 or more"
            raise SurfaceError(message)

    @property
    def span(self) -> Array:
        """Distance from first to last station, shape (...) [m]."""
        return np.asarray(self.y[..., -1] - self.y[..., 0])

    def front(self, start: Start) -> Array:
        """Where a strip starts along the chord.

        Parameters
        ----------
        start : {"fin", "nose", "pins", "web"}
            Which strip.

        Returns
        -------
        ndarray, shape (..., K)
            x of its front, aft of the pins [m].

        Raises
        ------
        SurfaceError
            Where the fixed part is asked for and not known.
        """
        if start == "fin":
            if self.fin is None:
                message = "outline: fin_ahead is not given, and the chord of fin and rudder needs it"
                raise SurfaceError(message)
            return -self.fin
        if start == "nose":
            return -self.nose
        return self.web if start == "web" else np.zeros_like(self.web)

    def chord(self, start: Start) -> Array:
        """Length of a strip at the stations, shape (..., K) [m]."""
        return np.asarray(self.edge - self.front(start))

    def bays(self, y: Array) -> NDArray[np.intp]:
        """Bay of each point, by counting the inner stations below it.

        Meant for points strictly inside a bay (middles of cells): a point on a station belongs to either side.

        Parameters
        ----------
        y : ndarray, shape (..., S)
            Points [m].

        Returns
        -------
        ndarray of int, shape (..., S)
            0 for the bay next to the root.
        """
        inner = self.y[..., None, 1:-1]
        return np.asarray(np.sum(y[..., :, None] > inner, axis=-1), dtype=np.intp)

    def at(self, line: Array, y: Array, bay: NDArray[np.intp]) -> Array:
        """Value of a chord line at points whose bays are known.

        The bay decides the side of a kink, never a comparison of coordinates.

        Parameters
        ----------
        line : ndarray, shape (..., K)
            A line of this planform, such as ``edge`` [m].
        y : ndarray, shape (..., S)
            Points [m].
        bay : ndarray of int, shape (S,) or (..., S)
            Bay of each point.

        Returns
        -------
        ndarray, shape (..., S)
            The line there [m].
        """
        if bay.ndim == 1:  # the same bays in every variant
            y0, v0 = self.y[..., bay], line[..., bay]
            return np.asarray(v0 + (line[..., bay + 1] - v0) * ((y - y0) / (self.y[..., bay + 1] - y0)))
        lead = np.broadcast_shapes(line.shape[:-1], y.shape[:-1], bay.shape[:-1])
        index = np.broadcast_to(bay, (*lead, bay.shape[-1]))

        def pick(values: Array, shift: int) -> Array:
            wide = np.broadcast_to(values, (*lead, values.shape[-1]))
            return np.asarray(np.take_along_axis(wide, index + shift, axis=-1))

        y0, y1, v0, v1 = pick(self.y, 0), pick(self.y, 1), pick(line, 0), pick(line, 1)
        return np.asarray(v0 + (v1 - v0) * ((y - y0) / (y1 - y0)))

    def area(self, start: Start) -> Array:
        """Area of a strip, shape (...) [m^2]."""
        c = self.chord(start)
        return np.asarray(np.sum(np.diff(self.y) * (c[..., :-1] + c[..., 1:]) / 2.0, axis=-1))

    def chord_squared(self, start: Start) -> Array:
        """Integral of the strip's chord squared along the span, shape (...) [m^3].

        Exact on a taper, where mean chord times area falls short of it.

        Examples
        --------
        >>> float(Planform.of([0.0, 4.0], [1.5, 1.0]).chord_squared("pins"))  # 6.25 by mean chord times area
        6.33333
        """
        c = self.chord(start)
        a, b = c[..., :-1], c[..., 1:]
        return np.asarray(np.sum(np.diff(self.y) * (a * a + a * b + b * b) / 3.0, axis=-1))

    def spanwise_moment(self, start: Start) -> Array:
        """First moment of the strip's area about y = 0, shape (...) [m^3]."""
        c = self.chord(start)
        y0, y1 = self.y[..., :-1], self.y[..., 1:]
        terms = (y1 - y0) * (c[..., :-1] * (2.0 * y0 + y1) + c[..., 1:] * (y0 + 2.0 * y1)) / 6.0
        return np.asarray(np.sum(terms, axis=-1))

    def chordwise_moment(self, start: Start) -> Array:
        """First moment of the strip's area about the hinge line, shape (...) [m^3]; what lies ahead counts minus."""
        e, f = self.edge, self.front(start)
        squares = (e[..., :-1] ** 2 + e[..., :-1] * e[..., 1:] + e[..., 1:] ** 2) - (
            f[..., :-1] ** 2 + f[..., :-1] * f[..., 1:] + f[..., 1:] ** 2
        )
        return np.asarray(np.sum(np.diff(self.y) * squares / 6.0, axis=-1))
