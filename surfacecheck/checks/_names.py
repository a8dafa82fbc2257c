"""Names of cases and spots: plain texts for one surface, made when asked for in a stack of variants."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import TYPE_CHECKING, Any, TypeAlias

import numpy as np

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Array = NDArray[np.float64]

__all__ = ["Names", "StackNames", "called", "name_at", "picked", "pretty_place", "rib_names", "station_names"]


@dataclass(frozen=True, eq=False)
class StackNames(Sequence[str]):
    """Names that differ from variant to variant; taken as a plain sequence, those of the first.

    Attributes
    ----------
    size : int
        How many each variant has.
    make : callable
        Gives the name for a variant and an index.
    of : Names, or None
        What they were picked from.
    at : ndarray of int, shape (K,) or (V, K), or None
        Which of those they are.
    """

    size: int
    make: Callable[[int, int], str]
    of: Names | None = None
    at: NDArray[np.intp] | None = None

    def __len__(self) -> int:
        """How many names each variant has."""
        return self.size

    def __getitem__(self, index: Any) -> Any:
        """Give a name of the first variant."""
        return self.make(0, range(self.size)[index])


Names: TypeAlias = Sequence[str]


def name_at(names: Names, variant: int, index: int) -> str:
    """Give one name.

    Parameters
    ----------
    names : Names
        Of one surface, or of a stack.
    variant, index : int
        Which variant (any, where all share their names), and which name [-].

    Returns
    -------
    str
        The name.
    """
    return names.make(variant, index) if isinstance(names, StackNames) else names[index]


def picked(names: Names, at: NDArray[np.intp]) -> Names:
    """Pick names by index.

    Parameters
    ----------
    names : Names
        All of them.
    at : ndarray of int, shape (K,) or (V, K)
        Which ones [-].

    Returns
    -------
    Names
        K of them.
    """
    if at.ndim == 1 and not isinstance(names, StackNames):
        return tuple(names[i] for i in at)

    def make(variant: int, index: int) -> str:
        return name_at(names, variant, int(at[variant, index] if at.ndim > 1 else at[index]))

    return StackNames(at.shape[-1], make, names, at)


def called(names: Names, index: NDArray[np.intp], start: str) -> NDArray[np.bool_]:
    """Tell which variants have a name with a certain start at an index.

    Parameters
    ----------
    names : Names
        Plain ones, or picked from plain ones.
    index : ndarray of int, shape (V,)
        Of each variant [-].
    start : str
        Of the name sought.

    Returns
    -------
    ndarray of bool, shape (V,)
        True where it is.

    Examples
    --------
    >>> import numpy as np
    >>> names = picked(("gust", "at rest"), np.array([[1, 0], [0, 1]]))
    >>> called(names, np.array([0, 0]), "at").tolist()
    [True, False]
    """
    if isinstance(names, StackNames) and names.of is not None and names.at is not None:
        return called(names.of, names.at[index] if names.at.ndim == 1 else names.at[range(len(index)), index], start)
    return _starting(tuple(names), start)[index]


@lru_cache(maxsize=16)
def _starting(names: tuple[str, ...], start: str) -> NDArray[np.bool_]:
    """Which names start so: the checks of a surface share a few lists of cases."""
    return np.array([name.startswith(start) for name in names])


def pretty_place(metres: float) -> str:
    """Name a place along the pins: ``at 325 mm``."""
    return f"at {metres * 1e3:.0f} mm"


def rib_names(y: Array) -> Names:
    """Name ribs by their number and place: ``rib 2 at 90 mm``.

    Parameters
    ----------
    y : ndarray, shape (R,) or (V, R)
        Places [m].

    Returns
    -------
    Names
        R of them.
    """
    if y.ndim == 1:
        return tuple(f"rib {i + 1} {pretty_place(one)}" for i, one in enumerate(y))
    return StackNames(y.shape[-1], lambda variant, i: f"rib {i + 1} {pretty_place(float(y[variant, i]))}")


def station_names(y: Array) -> Names:
    """Name stations by their place along the pins.

    Parameters
    ----------
    y : ndarray, shape (S,) or (V, S)
        Places [m].

    Returns
    -------
    Names
        S of them.
    """
    if y.ndim == 1:
        return tuple(pretty_place(one) for one in y)
    return StackNames(y.shape[-1], lambda variant, index: pretty_place(float(y[variant, index])))
