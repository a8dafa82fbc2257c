"""Which measured values go into the margins of a deviation, and how far each may be off."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING

from surfacecheck.provenance import Basis, Value
from surfacecheck.studies._readings import Reading, reading_of
from surfacecheck.studies._values import Path, walk_values
from surfacecheck.studies.deviating._here import group_name

if TYPE_CHECKING:
    from collections.abc import Iterator

    from surfacecheck.studies.deviating._deviation import Deviation

__all__ = ["Measured", "measured_in"]

MOST = 6
"""Values that are tried, those of the events first."""


@dataclass(frozen=True)
class Measured:
    """A measured value and what its tool leaves open.

    Attributes
    ----------
    value : Value
        As given.
    reading : Reading
        How far it may be off.
    paths : tuple
        Where it stands; lines that say the same of the same thing are one.
    moves : tuple of float
        What that does to each margin that is followed, the way that moves it more [-].
    """

    value: Value
    reading: Reading
    paths: tuple[Path, ...]
    moves: tuple[float, ...] = ()


def measured_in(deviation: Deviation) -> tuple[list[Measured], list[str]]:
    """List the measured values that go into the margins here and anywhere.

    Parameters
    ----------
    deviation : Deviation
        Worked.

    Returns
    -------
    tuple of (list of Measured, list of str)
        Those to try, what the events measured first; and keys of those that are too many, or were measured with a tool
        that is not listed.
    """
    ranks = _ranks(deviation)
    found: dict[tuple[int, str, str, str], Measured] = {}
    odd: list[str] = []
    for path, value in walk_values(deviation.surface):
        rank = next((at for at, fits in enumerate(ranks) if fits.fullmatch(value.key)), None)
        if rank is None or value.source.basis is not Basis.MEASURED:
            continue
        reading = reading_of(value)
        if reading is None:
            odd += [] if value.absent or not value.si else [value.key]
            continue
        word = value.key.rsplit(".", 1)[-1] if rank else value.key
        before = found.get(key := (rank, word, value.said, str(value.source)))
        found[key] = Measured(value, reading, (*(before.paths if before else ()), path))
    order = [found[key] for key in sorted(found, key=lambda key: key[0])]
    return order[:MOST], odd + [one.value.key for one in order[MOST:]]


def _ranks(deviation: Deviation) -> tuple[re.Pattern[str], ...]:
    """Patterns of keys, in the order in which they are tried."""
    here, anywhere = (_named(deviation, here=one) for one in (True, False))
    return tuple(re.compile(one) for one in (r"happened\[.*", _any(here), _any(anywhere), _any(_parts(deviation))))


def _any(patterns: Iterator[str]) -> str:
    return "|".join(dict.fromkeys(patterns)) or r"(?!)"


def _named(deviation: Deviation, *, here: bool) -> Iterator[str]:
    """Keys in the workings of the lowest margins."""
    now = deviation.now
    lowest = now.here(deviation.places) if here else tuple(next(iter(one.margins), None) for one in now.bounds)
    return (re.escape(t.key) for f in lowest if f is not None for t in f.check.terms.values() if t.key)


def _parts(deviation: Deviation) -> Iterator[str]:
    """Keys that describe the touched parts."""
    surface = deviation.surface
    for place in deviation.places:
        kind, _, rest = group_name(place).partition(".")
        name = rest.partition(".")[0]
        if kind == "hinge" and name in surface.hinges:
            yield rf"bracket\.{re.escape(surface.hinges[name].bracket)}\.(?!pin\.).*"
            yield r"outline\.at\[\d+\]\.web_behind"
        elif kind == "row" and name in surface.rows:
            sheets = "|".join(map(re.escape, surface.rows[name].joins))
            yield rf"row\.{re.escape(name)}\..*|sheet\.({sheets})\.thickness"
        else:
            yield rf"(sheet\.)?{re.escape(kind)}\.[a-z_]+"
