"""A sweep: many variants of one surface through the whole load path and every check, chunk by chunk.

    choices = combinations({"sheet.spar.thickness": [0.8e-3, 1.0e-3], "row.trailing_edge.pitch": [0.020, 0.025, 0.030]})
    found = swept(sweep(surface, choices))            # in memory
    write_sweep(sweep(surface, choices), "all.csv")   # or streamed to a file

Every variant has, to the last bit, the numbers it has alone, whatever chunk it lies in and whoever works it.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import partial
from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.errors import SurfaceError
from surfacecheck.studies.sweeping._carry_out import carry_out
from surfacecheck.studies.sweeping._chunks import chunks_of
from surfacecheck.studies.sweeping._columns import Column, columns_of, first_worked
from surfacecheck.studies.sweeping._combinations import MOST, too_many
from surfacecheck.studies.sweeping._numbers import known_keys, number_places
from surfacecheck.studies.sweeping._sweep_work import work_chunk

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence
    from concurrent.futures import Executor

    from numpy.typing import ArrayLike, NDArray

    from surfacecheck.model import Surface
    from surfacecheck.studies.sweeping._sweep_work import SweepPart

    Array = NDArray[np.float64]

__all__ = ["CHUNK", "Sweep", "sweep"]

CHUNK = 256
"""Variants that are worked as one stack where nothing else is said: as fast as any other number that was tried."""


@dataclass(frozen=True, eq=False)
class Sweep:
    """Variants of a surface, ready to be worked.

    Attributes
    ----------
    surface : Surface
        What is varied.
    numbers : dict of str to ndarray, shape (V,)
        By key, one entry a variant [SI].
    columns : tuple of Column
        Margins that are kept of every variant.
    """

    surface: Surface
    numbers: dict[str, Array]
    columns: tuple[Column, ...]

    def __len__(self) -> int:
        """How many variants."""
        return len(next(iter(self.numbers.values())))

    @property
    def hinges(self) -> tuple[str, ...]:
        """Names of the hinges, as they stand along the pins."""
        return tuple(name for name, hinge in self.surface.hinges.items() if hinge.up.known)

    def parts(
        self,
        executor: Executor | None = None,
        *,
        chunk: int = CHUNK,
        progress: bool | None = None,
        lost: list[str] | None = None,
    ) -> Iterator[SweepPart]:
        """Work the variants, chunk by chunk.

        Parameters
        ----------
        executor : concurrent.futures.Executor, optional
            Who works the chunks; this process where there is none.
        chunk : int
            Variants a chunk at most; changes no number [-].
        progress : bool, optional
            Whether a bar shows how far it is, from the first second on; where not said, on a terminal only.
        lost : list of str, optional
            Takes a line for whatever the executor lost, which was then done in this process.

        Yields
        ------
        SweepPart
            One a chunk, always in the same order.

        Raises
        ------
        SurfaceError
            Where ``chunk`` is no count.
        """
        if chunk < 1:
            message = f"chunk is {chunk}: one variant at least is worked at a time"
            raise SurfaceError(message)
        from tqdm import tqdm

        work = partial(work_chunk, self.surface, self.columns)
        hidden = None if progress is None else not progress
        with tqdm(total=len(self), unit=" variants", unit_scale=True, delay=1.0, disable=hidden, leave=False) as bar:
            for part in carry_out(work, chunks_of(self.surface, self.numbers, chunk), executor, lost):
                bar.update(part.variants.size)
                yield part


def sweep(
    surface: Surface, numbers: Mapping[str, ArrayLike], want: str | Sequence[str] = "parts", *, most: int = MOST
) -> Sweep:
    """Lay out a sweep.

    Parameters
    ----------
    surface : Surface
        What is varied.
    numbers : mapping of str to array_like, shape (V,)
        Numbers by their key in the file, one entry a variant [SI]; from :func:`combinations`, or any arrays.
    want : str or sequence of str
        Margins that are kept of every variant: ``"parts"``, the lowest of each part; ``"all"``, every check; or names
        of parts and checks, such as ``hinge.bottom.pin`` and ``hinge.bottom.pin:bearing``.
    most : int
        Variants at most [-].

    Returns
    -------
    Sweep
        Nothing of it is worked yet but one variant, which says what checks there are.

    Raises
    ------
    SurfaceError
        Where a key or a name is none of this surface (with the nearest that is), arrays differ in length, or there
        are more variants than ``most``.

    Examples
    --------
    >>> import surfacecheck
    >>> surface = surfacecheck.read("data/rudder.toml")  # doctest: +SKIP
    >>> len(sweep(surface, {"sheet.spar.thickness": [0.8e-3, 1.0e-3]}))  # doctest: +SKIP
    2
    """
    arrays = {key: np.atleast_1d(np.asarray(values, dtype=np.float64)) for key, values in numbers.items()}
    if not arrays:
        message = "no key is varied: give one at least, with its values"
        raise SurfaceError(message)
    known_keys(arrays, number_places(surface))
    sizes = {key: values.size for key, values in arrays.items()}
    if len(set(sizes.values())) > 1 or any(values.ndim > 1 for values in arrays.values()) or 0 in sizes.values():
        counts = ", ".join(f"{size} of {key}" for key, size in sizes.items())
        message = f"every key needs one value a variant, and there are {counts}; combinations() makes all of them"
        raise SurfaceError(message)
    too_many(next(iter(sizes.values())), most, "as many values of each key")
    return Sweep(surface, arrays, columns_of(first_worked(surface, arrays), want))
