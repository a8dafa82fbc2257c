"""Drills by number and by tenths of a millimetre: which one makes a hole, and which stay within its range."""

from __future__ import annotations

import math
from dataclasses import dataclass

from surfacecheck.errors import SurfaceError
from surfacecheck.library._read import table

__all__ = ["Drill", "drill_gauges", "drills_within", "nearest_drills", "number_drill"]


_INCH = 0.0254
_LEAST, _MOST = 1.0e-3, 13.9e-3
_SAME = 1e-9


@dataclass(frozen=True, slots=True)
class Drill:
    """A drill and its size.

    Attributes
    ----------
    name : str
        ``#30`` or ``3.3 mm``.
    size : float
        Diameter [m].
    """

    name: str
    size: float

    @property
    def said(self) -> str:
        """Name with its size in the other system: ``#30 (3.26 mm)``, ``3.3 mm (0.130 in)``."""
        other = f"{self.size * 1e3:.2f} mm" if self.name.startswith("#") else f"{self.size / _INCH:.3f} in"
        return f"{self.name} ({other})"


def number_drill(number: int) -> Drill:
    """Give a drill by its number.

    Parameters
    ----------
    number : int
        1 to 51, the larger the thinner.

    Returns
    -------
    Drill
        The drill.

    Raises
    ------
    SurfaceError
        For a number that is not in the table.

    Examples
    --------
    >>> number_drill(30).said
    '#30 (3.26 mm)'
    """
    sizes = table("drills.toml")["number"]
    if str(number) not in sizes:
        message = f"drill #{number} is not in the table: it holds #1 to #{len(sizes)}"
        raise SurfaceError(message)
    return Drill(f"#{number}", sizes[str(number)] * _INCH)


def _numbers() -> list[Drill]:
    return [Drill(f"#{number}", size * _INCH) for number, size in table("drills.toml")["number"].items()]


def _metric(size: float) -> Drill:
    return Drill(f"{size * 1e3:g} mm", size)


def _tenths(low: float, high: float) -> list[Drill]:
    """Drills by tenths of a millimetre from the one at or below ``low`` to the one at or above ``high``."""
    first, last = math.floor(low * 1e4 + 1e-6), math.ceil(high * 1e4 - 1e-6)
    return [_metric(round(one * 1e-4, 7)) for one in range(first, last + 1)]


def _looked_at(hole: float) -> None:
    if not _LEAST <= hole <= _MOST:
        message = (
            f"no drill for a hole of {hole * 1e3:g} mm: drills of {_LEAST * 1e3:g} to {_MOST * 1e3:g} mm are listed. "
            "Is the unit right?"
        )
        raise SurfaceError(message)


def drills_within(least: float, most: float) -> tuple[Drill, ...]:
    """List the drills whose size lies within the range of a hole.

    Parameters
    ----------
    least, most : float
        Range of the hole [m].

    Returns
    -------
    tuple of Drill
        From thin to thick; empty where none fits.

    Raises
    ------
    SurfaceError
        For a hole that no drill here makes, or a range the wrong way round.

    Examples
    --------
    A pulled rivet of 3.2 mm, hole 3.3 to 3.4 mm; and a 1/8 in one, 0.129 to 0.133 in:

    >>> [d.name for d in drills_within(3.3e-3, 3.4e-3)], [d.name for d in drills_within(0.129 * 0.0254, 0.133 * 0.0254)]
    (['3.3 mm', '3.4 mm'], ['3.3 mm'])
    """
    _looked_at(least)
    _looked_at(most)
    if most < least:
        message = f"hole range {least * 1e3:g} to {most * 1e3:g} mm: the least comes first, turn them round"
        raise SurfaceError(message)
    every = [*_numbers(), *_tenths(least, most)]
    return tuple(sorted((d for d in every if least - _SAME <= d.size <= most + _SAME), key=lambda d: d.size))


def nearest_drills(hole: float) -> tuple[Drill, Drill]:
    """Give the drills nearest to a hole: by tenths of a millimetre, and by number.

    Parameters
    ----------
    hole : float
        Diameter wanted [m].

    Returns
    -------
    tuple of Drill
        In millimetres, and by number.

    Raises
    ------
    SurfaceError
        For a hole that no drill here makes.

    Examples
    --------
    >>> [d.said for d in nearest_drills(3.3e-3)]
    ['3.3 mm (0.130 in)', '#30 (3.26 mm)']
    """
    _looked_at(hole)

    def off(drill: Drill) -> float:
        return abs(drill.size - hole)

    return min(_tenths(hole, hole), key=off), min(_numbers(), key=off)


def drill_gauges(least: float, most: float) -> tuple[Drill | None, Drill | None]:
    """Give the go and no-go shanks for a hole: the thickest drill at most its least size, the thinnest above its most.

    Parameters
    ----------
    least, most : float
        Range of the hole [m].

    Returns
    -------
    tuple of (Drill or None, Drill or None)
        Goes in, does not go in; None where the table ends.

    Raises
    ------
    SurfaceError
        For a hole that no drill here makes.

    Examples
    --------
    >>> [d.name for d in drill_gauges(3.3e-3, 3.4e-3)]
    ['3.3 mm', '#29']
    """
    _looked_at(least)
    _looked_at(most)
    every = [*_numbers(), *_tenths(least - 1e-4, most + 1.01e-4)]
    go = max((d for d in every if d.size <= least + _SAME), key=lambda d: d.size, default=None)
    stays_out = min((d for d in every if d.size > most + _SAME), key=lambda d: d.size, default=None)
    return go, stays_out
