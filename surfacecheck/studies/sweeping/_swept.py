"""What a sweep gave, in memory and in the order of its variants."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.interrupts import undisturbed
from surfacecheck.studies.sweeping._sweep import CHUNK

if TYPE_CHECKING:
    from collections.abc import Callable
    from concurrent.futures import Executor

    from numpy.typing import NDArray

    from surfacecheck.studies.sweeping._sweep import Sweep
    from surfacecheck.studies.sweeping._sweep_work import SweepPart

    Array = NDArray[np.float64]

__all__ = ["Swept", "swept"]


@dataclass(frozen=True, eq=False)
class Swept:
    """Every variant of a sweep; V variants, H hinges.

    Attributes
    ----------
    sweep : Sweep
        What was asked.
    done : ndarray of bool, shape (V,)
        Which variants were worked or refused before it was stopped, all of them where it was not.
    lowest : ndarray, shape (V,)
        Lowest margin anywhere [-]; infinite where there is none, not a number where there is a reason in ``why``.
    governs, case : ndarray of str, shape (V,)
        The check that has it, with its place, and its load case.
    margins : dict of str to ndarray, shape (V,)
        Each margin kept [-].
    pins : ndarray, shape (V, H, 3)
        Largest load on each pin, sideways, fore and aft, along, with its sign [N].
    mass, tail_heavy : ndarray, shape (V,)
        Whole mass [kg]; moment about the pins, level [N m].
    why : dict of int to str
        Variants that cannot exist or cannot be worked, with the reason.
    lost : tuple of str
        What the executor lost on the way and was done again in this process.
    stopped : bool
        Whether it was interrupted.
    """

    sweep: Sweep
    done: NDArray[np.bool_]
    lowest: Array
    governs: NDArray[np.object_]
    case: NDArray[np.object_]
    margins: dict[str, Array]
    pins: Array
    mass: Array
    tail_heavy: Array
    why: dict[int, str]
    lost: tuple[str, ...]
    stopped: bool


def swept(
    sweep: Sweep,
    executor: Executor | None = None,
    *,
    chunk: int = CHUNK,
    progress: bool | None = None,
    each: Callable[[SweepPart], None] | None = None,
) -> Swept:
    """Work a whole sweep and keep all of it.

    Parameters
    ----------
    sweep : Sweep
        From :func:`sweep`.
    executor : concurrent.futures.Executor, optional
        Who works the chunks; this process where there is none.
    chunk : int
        Variants a chunk at most; changes no number [-].
    progress : bool, optional
        As for :meth:`Sweep.parts`.
    each : callable, optional
        Is handed every part as it is finished.

    Returns
    -------
    Swept
        Stopped from the keyboard, with what was finished.
    """
    many, lost = len(sweep), list[str]()

    def empty(*more: int) -> Array:
        return np.full((many, *more), np.nan)

    words = np.full((2, many), "", dtype=np.object_)
    margins = {column.name: empty() for column in sweep.columns}
    done, lowest, mass, tail = np.zeros(many, dtype=bool), empty(), empty(), empty()
    pins, why = empty(len(sweep.hinges), 3), dict[int, str]()
    stopped = False
    try:
        for part in sweep.parts(executor, chunk=chunk, progress=progress, lost=lost):
            with undisturbed():
                at = part.variants
                lowest[at], pins[at], mass[at], tail[at] = part.lowest, part.pins, part.mass, part.tail_heavy
                words[0, at], words[1, at] = part.governs, part.case
                for name, values in part.margins.items():
                    margins[name][at] = values
                why.update(part.why)
                done[at] = True
                if each is not None:
                    each(part)
    except KeyboardInterrupt:
        stopped = True
    return Swept(sweep, done, lowest, words[0], words[1], margins, pins, mass, tail, why, tuple(lost), stopped)
