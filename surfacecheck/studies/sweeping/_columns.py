"""Which margins are kept of every variant of a sweep."""

from __future__ import annotations

from difflib import get_close_matches
from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from surfacecheck.assessment import assess, assess_stack
from surfacecheck.errors import Fault, SurfaceError
from surfacecheck.studies.sweeping._chunks import taken
from surfacecheck.studies.sweeping._impossible import impossible
from surfacecheck.studies.sweeping._numbers import number_places, with_numbers

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from numpy.typing import NDArray

    from surfacecheck.checks import Finding
    from surfacecheck.model import Surface

    Array = NDArray[np.float64]

__all__ = ["Column", "columns_of", "first_worked"]

_LOOKED = 64
"""How many of the first variants are looked at for one that can exist."""


class Column(NamedTuple):
    """A margin that is kept of every variant.

    Attributes
    ----------
    name : str
        ``hinge.bottom.pin`` for the lowest of a part, ``hinge.bottom.pin:bearing`` for one check.
    place, mode : str
        The same in two; no mode for the lowest of a part.
    part, gives : str
        In words.
    """

    name: str
    place: str
    mode: str
    part: str
    gives: str


def first_worked(surface: Surface, numbers: Mapping[str, Array]) -> tuple[Finding, ...]:
    """Give the findings of the first variant that can exist; of the surface as it is, where none of the first can.

    Parameters
    ----------
    surface : Surface
        What is varied.
    numbers : mapping of str to ndarray, shape (V,)
        By key [SI].

    Returns
    -------
    tuple of Finding
        Of one variant.

    Raises
    ------
    SurfaceError
        Where not even the surface as it is can be worked.
    """
    few = taken(numbers, slice(0, _LOOKED))
    refused = impossible(with_numbers(surface, few), few, number_places(surface))
    for v in range(len(next(iter(few.values())))):
        if v not in refused:
            try:
                return assess_stack(with_numbers(surface, taken(few, slice(v, v + 1))), 1).findings.of(0)
            except SurfaceError:
                continue
    return assess(surface).findings


def columns_of(findings: Sequence[Finding], want: str | Sequence[str]) -> tuple[Column, ...]:
    """Choose the margins to keep.

    Parameters
    ----------
    findings : sequence of Finding
        Of one variant.
    want : str or sequence of str
        As for :func:`sweep`.

    Returns
    -------
    tuple of Column
        In the order of the checks.

    Raises
    ------
    SurfaceError
        For a name that is no part and no check, with the nearest.
    """
    known = [f for f in findings if f.kind == "margin" and f.margin is not None]
    parts = {f.check.place: Column(f.check.place, f.check.place, "", f.check.part, "") for f in known}
    checks = {}
    for f in known:
        name = f"{f.check.place}:{f.check.mode}"
        checks[name] = Column(name, f.check.place, f.check.mode, f.check.part, f.gives)
    if want == "parts":
        return tuple(parts.values())
    if want == "all":
        return tuple(checks.values())
    every, names = parts | checks, [want] if isinstance(want, str) else list(want)
    faults = [_none_such(name, list(every)) for name in names if name not in every]
    if faults:
        raise SurfaceError(*faults)
    return tuple(every[name] for name in names)


def _none_such(name: str, names: list[str]) -> Fault:
    near = get_close_matches(name, names, n=1, cutoff=0.4)
    hint = f" Nearest: {near[0]}." if near else ""
    return Fault(f'no margin of this surface is called "{name}".{hint}')
