"""Where a value comes from: no number in the package goes without it."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.axes import side_by_side
from surfacecheck.errors import SurfaceError

if TYPE_CHECKING:
    from collections.abc import Sequence

    from numpy.typing import ArrayLike, NDArray

__all__ = [
    "NOT_SAID",
    "UNKNOWN",
    "WORKED_OUT",
    "Basis",
    "Source",
    "Value",
    "in_a_row",
    "numbers",
    "over_spots",
    "over_stations",
    "plain",
]


class Basis(StrEnum):
    """How a value is known."""

    PUBLISHED = "published"
    COMMON_PRACTICE = "common practice"
    FROM_MEMORY = "from memory"
    INVENTED = "invented for the demo"
    MEASURED = "measured"
    DRAWING = "drawing"
    GUESS = "guess"
    AS_SAID = "as said"
    NOT_SAID = "not said"
    ASSUMED = "assumed"
    WORKED_OUT = "worked out"


@dataclass(frozen=True, slots=True)
class Source:
    """A basis, and the title, table, instrument or words that go with it.

    Examples
    --------
    >>> str(Source(Basis.MEASURED, "micrometer"))
    'measured: micrometer'
    """

    basis: Basis
    text: str = ""

    def __str__(self) -> str:
        """Give the basis, then the text."""
        return f"{self.basis}: {self.text}" if self.text else str(self.basis)

    @property
    def doubtful(self) -> bool:
        """Whether a reader should be told that this may be wrong."""
        return self.basis in {Basis.GUESS, Basis.NOT_SAID, Basis.FROM_MEMORY}


NOT_SAID = Source(Basis.NOT_SAID)
"""Nobody said how it is known."""

WORKED_OUT = Source(Basis.WORKED_OUT)
"""Worked out here."""


@dataclass(frozen=True, slots=True, eq=False)
class Value:
    """A number as the builder gave it, or the mark that it is not known.

    Attributes
    ----------
    si : float, ndarray or None
        The value in SI units (an array is a stack of variants); None is "not known yet".
    said : str
        The text as typed, with its unit.
    source : Source
        How it is known.
    key : str
        Path of the key it came from, such as ``sheet.left_skin.thickness``.
    absent : bool
        True for ``"none"``: looked for and not there (``si`` is then 0 or None, as the key says).
    """

    si: float | NDArray[np.float64] | None
    said: str = ""
    source: Source = NOT_SAID
    key: str = ""
    absent: bool = False

    @property
    def known(self) -> bool:
        """Whether there is a number."""
        return self.si is not None


UNKNOWN = Value(None, "?")
"""A value nobody has given."""


def numbers(value: Value) -> NDArray[np.float64]:
    """Give the number of a value that must be known, one or a stack.

    Parameters
    ----------
    value : Value
        From a file or a table.

    Returns
    -------
    ndarray, shape (...)
        In SI units.

    Raises
    ------
    SurfaceError
        Where it is not known.
    """
    if value.si is None:
        message = f'{value.key or "a value"} is "?": it is needed here, give it with its unit'
        raise SurfaceError(message)
    return np.asarray(value.si, dtype=np.float64)


def over_spots(value: Value) -> NDArray[np.float64]:
    """Give the number of a value that must be known, ready to stand beside anything over cases and spots.

    Parameters
    ----------
    value : Value
        From a file or a table.

    Returns
    -------
    ndarray, shape (..., 1, 1), or () for a single number
        In SI units.

    Raises
    ------
    SurfaceError
        Where it is not known.

    Examples
    --------
    >>> over_spots(Value(np.array([1.0, 2.0]))).shape
    (2, 1, 1)
    """
    found = numbers(value)
    return found[..., None, None] if found.ndim else found


def over_stations(value: Value) -> NDArray[np.float64]:
    """Give the number of a value that must be known, ready to stand beside anything over stations.

    Parameters
    ----------
    value : Value
        From a file or a table.

    Returns
    -------
    ndarray, shape (..., 1), or () for a single number
        In SI units.

    Raises
    ------
    SurfaceError
        Where it is not known.
    """
    found = numbers(value)
    return found[..., None] if found.ndim else found


def in_a_row(values: Sequence[ArrayLike]) -> NDArray[np.float64]:
    """Lay values along a new last axis.

    Parameters
    ----------
    values : sequence of array_like, each of shape (...)
        One for each place on that axis [any].

    Returns
    -------
    ndarray, shape (..., N)
        The values.

    Examples
    --------
    >>> in_a_row([1.0, np.array([2.0, 3.0])])
    array([[1., 2.],
           [1., 3.]])
    """
    if all(isinstance(value, float) for value in values):
        return np.array(values, dtype=np.float64)
    arrays = [np.asarray(value, dtype=np.float64) for value in values]
    if all(array.ndim == 0 for array in arrays):
        return np.array([array.item() for array in arrays], dtype=np.float64)
    return side_by_side(*arrays)


def plain(value: Value) -> float:
    """Give the one number of a value that must be known.

    Parameters
    ----------
    value : Value
        From a file or a table.

    Returns
    -------
    float
        In SI units.

    Raises
    ------
    SurfaceError
        Where it is not known, or is a stack of variants.

    Examples
    --------
    >>> plain(Value(0.025, "25 mm"))
    0.025
    """
    if isinstance(value.si, float):
        return value.si
    found = numbers(value)
    if found.size != 1:
        message = f"{value.key or 'a value'} is a stack of {found.size} variants: one number is needed here, take one"
        raise SurfaceError(message)
    return float(found.item())
