"""What is done with one chunk of a sweep, in whatever process: worked as a stack, and reduced to a few numbers each."""

from __future__ import annotations

from contextlib import contextmanager, suppress
from dataclasses import dataclass
from functools import lru_cache
from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.assessment import StackAssessment, assess_stack
from surfacecheck.checks import name_at
from surfacecheck.errors import SurfaceError
from surfacecheck.studies.sweeping._chunks import taken
from surfacecheck.studies.sweeping._numbers import with_numbers

if TYPE_CHECKING:
    from collections.abc import Iterator

    from numpy.typing import NDArray

    from surfacecheck.checks import StackFindings
    from surfacecheck.model import Surface
    from surfacecheck.studies.sweeping._chunks import Chunk
    from surfacecheck.studies.sweeping._columns import Column

    Array = NDArray[np.float64]

__all__ = ["WAYS", "SweepPart", "work_chunk"]

WAYS = ("sideways", "fore_aft", "along")
"""Components of the load at a pin, z, x and y."""
_AS_SAID = [2, 0, 1]
_KEPT = ((-1, 2**29), (-3, 2**25))
"""Parameters of ``mallopt`` (glibc, malloc.h) and their values [bytes]: M_TRIM_THRESHOLD and M_MMAP_THRESHOLD. The C
library else gives large blocks back to the system between two steps, and a stack pays for fresh pages at each of them:
an eighth of its time, and three quarters where it is told to give them back at once, as Dask tells it (measured)."""
_RUN = 1024
"""NumPy's buffer in elements, 8,192 if nobody says otherwise: about the cases times the stations of one variant. What
stands beside a stack and has no cases of its own is then copied once a variant and in reach: 4 to 8 % (measured)."""


@dataclass(frozen=True, eq=False)
class SweepPart:
    """What a chunk gives; v variants, H hinges.

    Attributes
    ----------
    variants : ndarray of int, shape (v,)
        Which of the sweep [-].
    lowest : ndarray, shape (v,)
        Lowest margin anywhere [-]; infinite where there is none, not a number for a variant that cannot exist.
    governs, case : list of str
        The check that has it, with its place, and the load case.
    margins : dict of str to ndarray, shape (v,)
        Each margin wanted [-].
    pins : ndarray, shape (v, H, 3)
        Largest load of the surface on each pin, sideways, fore and aft, along, with its sign [N].
    mass, tail_heavy : ndarray, shape (v,)
        Whole mass [kg]; moment about the pins, level [N m].
    why : dict of int to str
        Variants that cannot exist or cannot be worked, with the reason.
    """

    variants: NDArray[np.intp]
    lowest: Array
    governs: list[str]
    case: list[str]
    margins: dict[str, Array]
    pins: Array
    mass: Array
    tail_heavy: Array
    why: dict[int, str]


def work_chunk(surface: Surface, columns: tuple[Column, ...], chunk: Chunk) -> SweepPart:
    """Work one chunk.

    Parameters
    ----------
    surface : Surface
        What is varied.
    columns : tuple of Column
        Margins wanted.
    chunk : Chunk
        Variants that share a layout.

    Returns
    -------
    SweepPart
        In the order of the variants, those that cannot exist among them.
    """
    _keep_memory()
    whole = _nothing(surface, columns, np.sort(np.append(chunk.variants, [*chunk.refused])))
    whole.why.update(chunk.refused)
    with _short_runs():
        for at, stack in _assessed(surface, chunk.numbers, np.arange(chunk.variants.size)):
            variants = chunk.variants[at]
            if isinstance(stack, SurfaceError):
                whole.why[int(variants[0])] = str(stack)
            else:
                _put(whole, np.searchsorted(whole.variants, variants), columns, stack)
    return whole


@contextmanager
def _short_runs() -> Iterator[None]:
    """Let NumPy go through one variant at a time where it lays something out again to stand beside another array."""
    before = np.setbufsize(_RUN)
    try:
        yield
    finally:
        np.setbufsize(before)


@lru_cache(maxsize=1)
def _keep_memory() -> None:
    """Let the C library keep what is freed between two steps."""
    from ctypes import CDLL

    with suppress(AttributeError, OSError, TypeError):  # another C library
        library = CDLL(None)
        for parameter in _KEPT:
            library.mallopt(*parameter)


def _nothing(surface: Surface, columns: tuple[Column, ...], variants: NDArray[np.intp]) -> SweepPart:
    """Give the table of a chunk before anything is in it."""
    many, hinges = variants.size, sum(hinge.up.known for hinge in surface.hinges.values())

    def empty(*more: int) -> Array:
        return np.full((many, *more), np.nan)

    margins = {column.name: empty() for column in columns}
    return SweepPart(
        variants.astype(np.intp), empty(), [""] * many, [""] * many, margins, empty(hinges, 3), empty(), empty(), {}
    )


def _assessed(
    surface: Surface, numbers: dict[str, Array], at: NDArray[np.intp]
) -> Iterator[tuple[NDArray[np.intp], StackAssessment | SurfaceError]]:
    """Work a stack; where that fails, its halves, until the variants at fault stand alone."""
    if not at.size:
        return
    try:
        yield at, assess_stack(with_numbers(surface, taken(numbers, at)), at.size, every_case=False)
    except SurfaceError as fault:
        if at.size == 1:
            yield at, fault
            return
        for half in np.array_split(at, 2):
            yield from _assessed(surface, numbers, half)


def _put(whole: SweepPart, rows: NDArray[np.intp], columns: tuple[Column, ...], stack: StackAssessment) -> None:
    """Put what one stack gives into its rows of the table."""
    found, masses = stack.findings, stack.worked.masses
    lowest, which = found.lowest()
    whole.lowest[rows] = lowest
    for row, (governs, case) in zip(rows.tolist(), _governing(found, which, lowest), strict=True):
        whole.governs[row], whole.case[row] = governs, case
    of = _rows_of(found)
    for column in columns:
        there = of.get((column.place, column.mode), [])
        whole.margins[column.name][rows] = np.fmin.reduce(found.margin[there], axis=0) if there else np.inf
    whole.pins[rows] = _pin_loads(stack)
    whole.mass[rows], whole.tail_heavy[rows] = masses.mass, masses.moment


def _rows_of(found: StackFindings) -> dict[tuple[str, str], list[int]]:
    """Find the checks that are margins, by place and mode, and by place alone."""
    of: dict[tuple[str, str], list[int]] = {}
    for m, check in enumerate(found.checks):
        if check.kind == "margin":
            of.setdefault((check.place, check.mode), []).append(m)
            of.setdefault((check.place, ""), []).append(m)
    return of


def _governing(found: StackFindings, which: NDArray[np.intp], lowest: Array) -> Iterator[tuple[str, str]]:
    """Name the check of the lowest margin, with its spot, and its case, variant by variant."""
    index = found.index[which, np.arange(which.size)]
    for v, (m, margin, (case, spot)) in enumerate(zip(which.tolist(), lowest.tolist(), index.tolist(), strict=True)):
        if margin == np.inf:
            yield "", ""
            continue
        check = found.checks[m]
        name = name_at(check.spots, v, spot)
        place = f"{check.place}.{name.replace(' ', '-')}" if name else check.place
        yield (
            f"{place}:{check.mode}",
            name_at(check.spot_cases, v, spot) if len(check.spot_cases) else check.cases[case],
        )


def _pin_loads(stack: StackAssessment) -> Array:
    """Largest load on each pin over the cases that count, with its sign; (v, H, 3) or what broadcasts to it."""
    loaded = stack.worked.loaded
    on_pin = -loaded.beams[0].reactions[..., loaded.counts, :, :]
    at = np.abs(on_pin).argmax(axis=-3)
    return np.take_along_axis(on_pin, at[..., None, :, :], axis=-3)[..., 0, :, :][..., _AS_SAID]
