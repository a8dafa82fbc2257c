"""A sweep cut into chunks that can be worked as one stack each."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from surfacecheck.sections.box import box_needs, web_covered
from surfacecheck.statics.span import layout_of
from surfacecheck.studies.sweeping._impossible import impossible
from surfacecheck.studies.sweeping._numbers import number_places, with_numbers

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from numpy.typing import NDArray

    from surfacecheck.model import Surface

    Array = NDArray[np.float64]

__all__ = ["WINDOW", "Chunk", "chunks_of", "taken"]

WINDOW = 1280
"""Variants that are looked at together: a chunk never holds two that lie farther apart than this."""


class Chunk(NamedTuple):
    """Variants that are worked together.

    Attributes
    ----------
    variants : ndarray of int, shape (v,)
        Which of the sweep they are [-].
    numbers : dict of str to ndarray, shape (v,)
        Their numbers by key [SI].
    refused : dict of int to str
        Variants of the sweep that cannot exist, with the reason; they are none of ``variants``.
    """

    variants: NDArray[np.intp]
    numbers: dict[str, Array]
    refused: dict[int, str]


def taken(numbers: Mapping[str, Array], at: NDArray[np.intp] | slice) -> dict[str, Array]:
    """Take some of the variants.

    Parameters
    ----------
    numbers : mapping of str to ndarray, shape (V,)
        By key [SI].
    at : ndarray of int, or slice
        Which [-].

    Returns
    -------
    dict of str to ndarray
        The same keys [SI].
    """
    return {key: values[at] for key, values in numbers.items()}


def chunks_of(surface: Surface, numbers: Mapping[str, Array], size: int) -> Iterator[Chunk]:
    """Cut a sweep into chunks whose variants share one order of places, of stations and of walls.

    Parameters
    ----------
    surface : Surface
        What is varied.
    numbers : mapping of str to ndarray, shape (V,)
        By key [SI].
    size : int
        Variants a chunk at most [-].

    Yields
    ------
    Chunk
        In the order of the variants, but for those of another layout inside a window.
    """
    places = number_places(surface)
    many = len(next(iter(numbers.values())))
    for start in range(0, many, WINDOW):
        window = np.arange(start, min(start + WINDOW, many))
        part = taken(numbers, slice(start, start + WINDOW))
        refused = impossible(with_numbers(surface, part), part, places)
        good = np.delete(np.arange(window.size), list(refused))
        groups = _groups(with_numbers(surface, taken(part, good)), good.size) if good.size else []
        late = {start + v: why for v, why in refused.items()}
        for group in groups:
            for cut in np.array_split(
                group, -(-group.size // size)
            ):  # evenly: a small chunk takes as long as a half one
                at = good[cut]
                yield Chunk(window[at], taken(part, at), late)
                late = {}
        if late:
            yield Chunk(window[:0], taken(part, slice(0, 0)), late)


def _groups(surface: Surface, many: int) -> list[NDArray[np.intp]]:
    """Sort variants by what they must share, each group in their own order."""
    layout = layout_of(surface)
    walls = np.zeros(()) if box_needs(surface) else web_covered(surface)
    if layout.ndim == 1 and walls.ndim == 0:
        return [np.arange(many)]
    rows = np.concatenate(
        [np.broadcast_to(layout, (many, layout.shape[-1])), np.broadcast_to(walls, many)[:, None]], axis=-1
    )
    _, first, group = np.unique(rows, axis=0, return_index=True, return_inverse=True)
    return [np.flatnonzero(group.reshape(-1) == which) for which in np.argsort(first)]
