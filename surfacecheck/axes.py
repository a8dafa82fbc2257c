"""The axes of arrays: variants first, then cases, then stations; what stands beside what, and sums over cases."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any

import numpy as np

if TYPE_CHECKING:
    from collections.abc import Mapping

    from numpy.typing import ArrayLike, NDArray

    Array = NDArray[np.float64]

__all__ = ["OverCases", "as_wide", "by_case", "line_at", "mixed", "over_both", "side_by_side", "variant_of"]


def by_case(array: NDArray[Any]) -> NDArray[Any]:
    """Make room for the case axis in something over stations.

    Parameters
    ----------
    array : ndarray, shape (..., S) or ()
        The same for every case [any].

    Returns
    -------
    ndarray, shape (..., 1, S) or ()
        Ready to stand beside (..., C, S).
    """
    return array[..., None, :] if array.ndim else array


def as_wide(array: NDArray[Any], shape: tuple[int, ...]) -> NDArray[Any]:
    """Broadcast to a shape; what has it already is handed back as it is, which is most of what is asked here.

    Parameters
    ----------
    array : ndarray
        What broadcasts to the shape [any].
    shape : tuple of int
        Wanted [-].

    Returns
    -------
    ndarray
        Of that shape.
    """
    return array if array.shape == shape else np.broadcast_to(array, shape)


def side_by_side(*arrays: ArrayLike, axis: int = -1) -> Array:
    """Lay arrays along a new axis, each broadcast to what they have in common.

    Parameters
    ----------
    *arrays : array_like, N of them, each of shape (...)
        [any].
    axis : int
        Where the new axis stands, counted from the end [-].

    Returns
    -------
    ndarray, shape (..., N) for ``axis=-1``
        [any].

    Examples
    --------
    >>> side_by_side(0.0, np.array([1.0, 2.0]))
    array([[0., 1.],
           [0., 2.]])
    """
    given = [np.asarray(array, dtype=np.float64) for array in arrays]
    shape = given[0].shape
    if any(array.shape != shape for array in given):
        shape = np.broadcast_shapes(*(array.shape for array in given))
    before = len(shape) + 1 + axis
    out = np.empty((*shape[:before], len(given), *shape[before:]))
    at: tuple[Any, ...] = (slice(None),) * before
    for i, array in enumerate(given):
        out[(*at, i)] = array
    return out


def over_both(number: ArrayLike) -> Array:
    """Make room for cases and spots in something that is one number a variant.

    Parameters
    ----------
    number : array_like, shape (V,) or ()
        [any].

    Returns
    -------
    ndarray, shape (V, 1, 1) or ()
        Ready to stand beside (..., C, S).
    """
    array = np.asarray(number, dtype=np.float64)
    return array[..., None, None] if array.ndim else array


def mixed(mix: Array, units: Array) -> Array:
    """Sum unit loads into cases.

    Parameters
    ----------
    mix : ndarray, shape (..., C, K)
        How much of each goes into every case [-].
    units : ndarray, shape (..., K, X)
        What each does [any].

    Returns
    -------
    ndarray, shape (..., C, X)
        What every case does: to the last bit the same whatever other cases stand beside it.

    Examples
    --------
    >>> mixed(np.array([[2.0, 0.0], [1.0, -1.0]]), np.array([[1.0, 3.0], [5.0, 7.0]]))
    array([[ 2.,  6.],
           [-4., -4.]])
    """
    cases = mix.shape[-2]
    if cases % 2:  # the linear algebra sums the odd row at the end another way
        mix = np.concatenate([mix, np.zeros((*mix.shape[:-2], 1, mix.shape[-1]))], axis=-2)
    return np.asarray((mix @ units)[..., :cases, :])


@dataclass(frozen=True, eq=False)
class OverCases:
    """Lines over C cases, each summed of those of K unit loads when it is first asked for.

    Attributes
    ----------
    units : mapping of str to ndarray, each of shape (..., K, X) or (..., C, X)
        What each unit load does, or each case where there is no ``mix`` [any].
    mix : ndarray, shape (..., C, K), or None
        How much of each goes into every case [-].
    besides : OverCases or None
        What is added in each case [any].

    Examples
    --------
    >>> lines = OverCases({"force": np.array([[1.0, 3.0], [5.0, 7.0]])}, np.array([[2.0, 0.0], [1.0, -1.0]]))
    >>> lines["force"]
    array([[ 2.,  6.],
           [-4., -4.]])
    >>> lines.only(slice(1, 2))["force"]
    array([[-4., -4.]])
    """

    units: Mapping[str, Array]
    mix: Array | None = None
    besides: OverCases | None = None
    _found: dict[str, Array] = field(default_factory=dict, repr=False)

    def __getitem__(self, name: str) -> Array:
        """Give one line in every case, shape (..., C, X)."""
        if name not in self._found:
            line = self.units[name] if self.mix is None else mixed(self.mix, self.units[name])
            self._found[name] = line if self.besides is None else line + self.besides[name]
        return self._found[name]

    def only(self, cases: Any) -> OverCases:
        """Keep some of the cases, by a slice or their indices."""
        besides = None if self.besides is None else self.besides.only(cases)
        if self.mix is None:
            units = {name: line[..., cases, :] for name, line in self.units.items()}
            return OverCases(units, None, besides)
        return OverCases(self.units, self.mix[..., cases, :], besides)

    def of(self, variant: int) -> OverCases:
        """Take one variant out of a stack."""
        units = {name: variant_of(line, variant, 2) for name, line in self.units.items()}
        mix = None if self.mix is None else variant_of(self.mix, variant, 2)
        return OverCases(units, mix, None if self.besides is None else self.besides.of(variant))


def variant_of(array: NDArray[Any], variant: int, axes: int) -> NDArray[Any]:
    """Take one variant out of what may be a stack.

    Parameters
    ----------
    array : ndarray, shape (V, ...) or (...)
        With variants, or the same for all of them [any].
    variant : int
        Which [-].
    axes : int
        How many axes it has without them [-].

    Returns
    -------
    ndarray, shape (...)
        Of that variant.

    Examples
    --------
    >>> variant_of(np.array([[1.0, 2.0], [3.0, 4.0]]), 1, 1), variant_of(np.array([5.0, 6.0]), 1, 1)
    (array([3., 4.]), array([5., 6.]))
    """
    return np.asarray(array[variant]) if array.ndim > axes else array


def line_at(stations: Array, line: Array, y: Array) -> Array:
    """Value of a line that is straight between stations, at one place; beyond the ends it stays level.

    Parameters
    ----------
    stations, line : ndarray, shape (..., K)
        The line [m], [any].
    y : ndarray, shape (...)
        Place [m].

    Returns
    -------
    ndarray, shape (...)
        [any].

    Examples
    --------
    >>> line_at(np.array([0.0, 1.0, 2.0]), np.array([5.0, 7.0, 3.0]), np.array(1.5))
    array(5.)
    """
    part = (y[..., None] - stations[..., :-1]) / (stations[..., 1:] - stations[..., :-1])
    part = np.minimum(np.maximum(part, 0.0), 1.0)
    return np.asarray(line[..., 0] + ((line[..., 1:] - line[..., :-1]) * part).sum(axis=-1))
