"""The stations of a beam: cells between breaks, four points a cell, and the running sums from the tip."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from itertools import accumulate
from typing import Any, TypeAlias

import numpy as np
from numpy.typing import ArrayLike, NDArray

from surfacecheck.errors import SurfaceError

__all__ = ["POINTS_A_CELL", "Array", "Grid", "grid", "inboard_of", "plain", "rows_times", "running"]

Array: TypeAlias = NDArray[np.float64]

POINTS_A_CELL = 4
_LOBATTO = np.array([0.0, (1.0 - 1.0 / np.sqrt(5.0)) / 2.0, (1.0 + 1.0 / np.sqrt(5.0)) / 2.0, 1.0])
_LOBATTO_WEIGHTS = np.array([1.0, 5.0, 5.0, 1.0]) / 12.0


@dataclass(frozen=True, slots=True, eq=False)
class Grid:
    """Stations along the hinge line, from root to tip.

    Breaks are the places where something may jump or kink: hinges, ribs, the horn, doubler ends, planform kinks, both
    ends. Between breaks lie cells with four Gauss-Lobatto points each, the ends among them, so that every inner break
    is there twice: once as the last point inboard of it and once as the first point outboard.

    Attributes
    ----------
    breaks : ndarray, shape (..., B)
        Distance along the hinge line [m], never decreasing.
    y : ndarray, shape (..., S)
        Points [m].
    h : ndarray, shape (..., S)
        Length of the point's cell [m].
    weight : ndarray, shape (..., S)
        Weight of the point in an integral over the whole span [m].
    cells : tuple of int
        Cells in each bay between two breaks.

    References
    ----------
    Abramowitz, M., and Stegun, I. A.: Handbook of Mathematical Functions, National Bureau of Standards AMS 55, 1964,
    section 25.4.32 (Lobatto's integration formula; four points are exact up to the fifth degree).
    """

    breaks: Array
    y: Array
    h: Array
    weight: Array
    cells: tuple[int, ...]

    @property
    def points(self) -> int:
        """Number of points S."""
        return POINTS_A_CELL * sum(self.cells)

    def after(self, b: int) -> int:
        """Index of the point just outboard of a break, found by counting and never by comparing distances.

        Parameters
        ----------
        b : int
            Index of the break, from 0; the last one has nothing outboard of it.

        Returns
        -------
        int
            Index into the last axis of everything with shape (..., S).

        Raises
        ------
        SurfaceError
            For the last break, and for an index that is not there.

        Examples
        --------
        >>> stations = grid([0.0, 0.5, 2.0], cells=1)
        >>> stations.before(1), stations.after(1)
        (3, 4)
        """
        self._must_exist(b)
        if b == len(self.cells):
            message = f"break {b} is the tip: there is no point outboard of it, everything there is zero"
            raise SurfaceError(message)
        return POINTS_A_CELL * sum(self.cells[:b])

    def before(self, b: int) -> int:
        """Index of the point just inboard of a break; the first break has none.

        Parameters
        ----------
        b : int
            Index of the break, from 0.

        Returns
        -------
        int
            Index into the last axis of everything with shape (..., S).

        Raises
        ------
        SurfaceError
            For the first break, and for an index that is not there.
        """
        self._must_exist(b)
        if b == 0:
            message = "break 0 is the root: there is no point inboard of it, everything there is zero"
            raise SurfaceError(message)
        return POINTS_A_CELL * sum(self.cells[:b]) - 1

    def _must_exist(self, b: int) -> None:
        if not 0 <= b <= len(self.cells):
            message = f"break {b} is not there: breaks are numbered 0 to {len(self.cells)}"
            raise SurfaceError(message)


@dataclass(frozen=True, slots=True, eq=False)
class _Layout:
    """What depends on the number of cells alone."""

    bay: NDArray[np.intp]
    fraction: Array
    share: Array
    weights: Array
    inboard: Array


@lru_cache(maxsize=256)
def _layout(cells: tuple[int, ...]) -> _Layout:
    if not cells or min(cells) < 1:
        message = f"cells = {cells}: every bay needs at least one cell"
        raise SurfaceError(message)
    bay = np.repeat(np.arange(len(cells)), [POINTS_A_CELL * n for n in cells])
    fraction = np.concatenate([(np.arange(n)[:, None] + _LOBATTO).ravel() / n for n in cells])
    share = np.repeat(1.0 / np.asarray(cells, dtype=np.float64), [POINTS_A_CELL * n for n in cells])
    total = sum(cells)
    first_outboard = np.array([0, *accumulate(POINTS_A_CELL * n for n in cells)])
    inboard = (np.arange(POINTS_A_CELL * total) < first_outboard[:, None]).astype(np.float64)
    return _Layout(bay, fraction, share, np.tile(_LOBATTO_WEIGHTS, total), inboard)


def _within_cell() -> Array:
    """Return W[j, i]: what a value at point j adds to the integral from point i to the cell's end (cubic through 4)."""
    out = np.empty((POINTS_A_CELL, POINTS_A_CELL))
    for j in range(POINTS_A_CELL):
        others = np.delete(_LOBATTO, j)
        primitive = np.polyint(np.poly(others) / np.prod(_LOBATTO[j] - others))
        out[j] = np.polyval(primitive, 1.0) - np.polyval(primitive, _LOBATTO)
    out[:, 0], out[:, -1] = _LOBATTO_WEIGHTS, 0.0
    return out


_WITHIN_CELL = _within_cell()


def grid(breaks: ArrayLike, cells: int | tuple[int, ...] = 2) -> Grid:
    """Lay points between breaks.

    One cell a bay is exact for loads linear and torques quadratic in y on a stiffness that is constant in each cell;
    a stiffness that varies converges with the sixth order.

    Parameters
    ----------
    breaks : array_like, shape (..., B)
        Distance along the hinge line from root to tip [m]; two breaks may coincide, none may run back.
    cells : int or tuple of int
        Cells in every bay, or in each.

    Returns
    -------
    Grid
        With S = 4 x (number of cells) points.

    Raises
    ------
    SurfaceError
        If there are fewer than two breaks, if they are not ordered or not finite, or if cells do not fit them.

    Examples
    --------
    >>> grid([0.0, 1.0], cells=1).y
    array([0.       , 0.2763932, 0.7236068, 1.       ])
    """
    at = np.asarray(breaks, dtype=np.float64)
    if at.ndim == 0 or at.shape[-1] < 2:
        message = f"breaks = {breaks!r}: at least two are needed, the root and the tip"
        raise SurfaceError(message)
    bays = at.shape[-1] - 1
    counts = (cells,) * bays if isinstance(cells, int) else tuple(cells)
    if len(counts) != bays:
        message = f"cells has {len(counts)} entries for {bays} bays: give one number, or one a bay"
        raise SurfaceError(message)
    length = np.diff(at, axis=-1)
    if not (np.isfinite(length).all() and (length >= 0.0).all() and (at[..., -1] > at[..., 0]).all()):
        message = f"breaks run from root to tip, finite and never decreasing, but there is {_first_bad(at)}: sort them"
        raise SurfaceError(message)
    layout = _layout(counts)
    left, right = at[..., layout.bay], at[..., layout.bay + 1]
    y = left * (1.0 - layout.fraction) + right * layout.fraction
    h = (right - left) * layout.share
    return Grid(at, y, h, h * layout.weights, counts)


def _first_bad(breaks: Array) -> str:
    rows = breaks.reshape(-1, breaks.shape[-1])
    good = np.isfinite(rows).all(axis=-1) & (np.diff(rows, axis=-1) >= 0.0).all(axis=-1) & (rows[:, -1] > rows[:, 0])
    return np.array2string(rows[int(np.argmin(good))], precision=6)


def running(stations: Grid, q: Array) -> Array:
    """Integrate from every point to the tip.

    ``I(y) = integral of q dy' from y to the tip``; exact for q up to the third degree in each cell.

    Parameters
    ----------
    stations : Grid
        Points.
    q : ndarray, shape (..., C, S)
        Anything per metre [x/m]. The case axis C is always there, even for one case: stacks of variants then
        give the same last bit as single runs.

    Returns
    -------
    ndarray, shape (..., C, S)
        The integrals [x].

    Examples
    --------
    >>> stations = grid([0.0, 2.0], cells=1)
    >>> running(stations, np.full((1, 4), 3.0))[0, [0, -1]]
    array([6., 0.])
    """
    cells = (q * stations.h[..., None, :]).reshape(*q.shape[:-1], q.shape[-1] // POINTS_A_CELL, POINTS_A_CELL)
    out = cells @ _WITHIN_CELL  # the cells of one line are the rows: the same sums for one and for many
    beyond = np.cumsum(out[..., :0:-1, 0], axis=-1)[..., ::-1]  # whole cells outboard of each cell
    out[..., :-1, :] += beyond[..., None]
    return out.reshape(q.shape)


def inboard_of(stations: Grid) -> NDArray[Any]:
    """Return which points lie inboard of which break, counted and not compared.

    Parameters
    ----------
    stations : Grid
        Points.

    Returns
    -------
    ndarray, shape (B, S)
        1 [-] where the point is inboard of the break, so that a force at the break belongs to its sum; else 0.
    """
    return _layout(stations.cells).inboard


def plain(values: Array) -> Array:
    """Copy into memory laid out the plain way.

    An axis of length one has a stride that nobody chose, and the linear algebra takes another way by it: without this
    a stack could differ from single runs in the last bit.
    """
    return np.array(values, order="C", copy=True)


def rows_times(state: Array, matrix: Array) -> Array:
    """Multiply (..., 2, C, X) by (..., X, Y); planes and cases together are the rows, two at least."""
    *lead, planes, cases, width = state.shape
    out = plain(state.reshape(*lead, planes * cases, width)) @ matrix
    return out.reshape(*out.shape[:-2], planes, cases, matrix.shape[-1])
