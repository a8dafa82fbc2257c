"""What is to be compared: lists of pitch, rivet, lines and more, and how many alternatives they make."""

from __future__ import annotations

import math
from dataclasses import dataclass, fields
from difflib import get_close_matches
from typing import TYPE_CHECKING, Any

from surfacecheck.errors import SurfaceError
from surfacecheck.model import HeadKind

if TYPE_CHECKING:
    from collections.abc import Sequence

__all__ = ["AXES", "LENGTHS", "MOST", "Alternatives", "Space", "looked_at"]

MOST = 100_000
"""Alternatives that are worked without being asked twice [-]; our own choice, a second or two."""
_CEILING = 5_000_000
"""Alternatives, counted row by row, that are worked at all in one go [-]: about 1 GB of tables; our own choice."""

AXES = ("sheet", "rivet", "head", "lines", "space", "edge")
"""Order in which the alternatives vary, the last one fastest."""

LENGTHS = {"pitch": (1e-3, 10.0), "diameter": (1e-3, 20e-3), "edge": (0.5e-3, 0.5), "sheet": (0.1e-3, 10e-3)}
"""What is looked at, least and most [m]: ten times what a light aeroplane has, either way."""


@dataclass(frozen=True)
class Space:
    """How the rivets of a row are spaced: by a pitch, by a number, or as drawn.

    Attributes
    ----------
    pitch : float or None
        As asked for [m].
    count : int or None
        Rivets in a line, ends included (on each rib, for rows on the ribs).
    """

    pitch: float | None = None
    count: int | None = None


@dataclass(frozen=True)
class Alternatives:
    """Lists of what a row could have; the alternatives are their product. None leaves it as drawn.

    Attributes
    ----------
    pitch : sequence of float or None
        From rivet to rivet, as asked for [m].
    count : sequence of int or None
        Rivets in a line instead (on each rib, for rows on the ribs).
    rivet : sequence of str or None
        Names of part D of the file, of the shipped table (``"AD 1/8"``), or of a family of it (``"ISO 15977 H"``).
    diameter : sequence of float or None
        Nominal diameters; the rivet of that size, of the same kind [m].
    lines : sequence of int or None
        Lines side by side.
    head : sequence of str or None
        ``protruding``, ``countersunk`` or ``dimpled``.
    edge : sequence of float or None
        Hole centre to the edge of every sheet of which it is given [m].
    sheet : sequence of float or None
        Thickness of the sheet under the head [m].

    Raises
    ------
    SurfaceError
        For an empty list, or a figure that no row has.

    Examples
    --------
    >>> given = Alternatives(pitch=(0.025, 0.030), rivet=("small", "large"))
    >>> given.shape
    (1, 2, 1, 1, 2, 1)
    """

    pitch: Sequence[float] | None = None
    count: Sequence[int] | None = None
    rivet: Sequence[str] | None = None
    diameter: Sequence[float] | None = None
    lines: Sequence[int] | None = None
    head: Sequence[str] | None = None
    edge: Sequence[float] | None = None
    sheet: Sequence[float] | None = None

    def __post_init__(self) -> None:
        """Look at every list, and take what stands twice in it once."""
        for one in fields(self):
            given = getattr(self, one.name)
            if given is not None:
                object.__setattr__(self, one.name, tuple(dict.fromkeys(_looked_at(one.name, tuple(given)))))

    @property
    def spaces(self) -> tuple[Space, ...]:
        """Spacings, in the order given."""
        found = (*(Space(pitch=one) for one in self.pitch or ()), *(Space(count=one) for one in self.count or ()))
        return found or (Space(),)

    @property
    def shape(self) -> tuple[int, ...]:
        """How many there are along each axis of :data:`AXES`."""
        kinds = len(self.rivet or ("",)) * len(self.diameter or ("",))
        lists = (self.sheet, None, self.head, self.lines, self.spaces, self.edge)
        return tuple(kinds if name == "rivet" else len(one or ("",)) for name, one in zip(AXES, lists, strict=True))

    def words(self) -> str:
        """Say which lists there are, and how long each is."""
        lists = {one.name: getattr(self, one.name) for one in fields(self)}
        return ", ".join(f"{len(found)} {name}" for name, found in lists.items() if found is not None) or "as drawn"


def looked_at(alternatives: Alternatives, most: int, rows: int = 1, more: int = 0) -> int:
    """Count the alternatives, and refuse a number that nobody can have meant.

    Parameters
    ----------
    alternatives : Alternatives
        The lists.
    most : int
        How many may be worked [-].
    rows : int
        For how many rows [-].
    more : int
        Spacings that come on top of those asked for [-].

    Returns
    -------
    int
        How many there are [-].

    Raises
    ------
    SurfaceError
        Where there are more than may be worked, with their number.
    """
    shape = dict(zip(AXES, alternatives.shape, strict=True))
    count = math.prod((shape | {"space": shape["space"] + more}).values())
    ceiling = _CEILING // max(rows, 1)
    if count > min(most, ceiling):
        again = f"shorten a list, or say --most {count}" if count <= ceiling else "shorten the lists"
        ends = f"; at most {ceiling} go at once" if count > ceiling else ""
        message = f"{count} alternatives ({alternatives.words()}); {min(most, ceiling)} are worked{ends}: {again}"
        raise SurfaceError(message)
    return count


def _looked_at(name: str, given: tuple[Any, ...]) -> tuple[Any, ...]:
    if not given:
        message = f"{name}: the list is empty; give at least one, or leave it out: then it stays as drawn"
        raise SurfaceError(message)
    if name in LENGTHS:
        return tuple(_length(name, one) for one in given)
    if name in {"count", "lines"}:
        return tuple(_whole(name, one) for one in given)
    return tuple(_head(one) for one in given) if name == "head" else given


def _length(name: str, value: float) -> float:
    low, high = LENGTHS[name]
    if not (math.isfinite(value) and low <= value <= high):
        message = f"{name} {value * 1e3:g} mm; {low * 1e3:g} to {high * 1e3:g} mm is looked at. Is the unit right?"
        raise SurfaceError(message)
    return float(value)


def _whole(name: str, value: int) -> int:
    low, high = (1, 10) if name == "lines" else (1, 10_000)
    if value != int(value) or not low <= value <= high:
        message = f"{name} {value:g}; a whole number from {low} to {high} is looked at"
        raise SurfaceError(message)
    return int(value)


def _head(word: str) -> str:
    allowed = [str(one) for one in HeadKind]
    if word not in allowed:
        near = get_close_matches(word, allowed, n=1, cutoff=0.5)
        hint = f" Nearest: {near[0]}." if near else ""
        message = f'head "{word}" is no kind of head.{hint} Allowed: {", ".join(allowed)}'
        raise SurfaceError(message)
    return word
