"""What a rivet goes through: its stack, rivet by rivet, so that a row that crosses two stacks comes apart."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.provenance import UNKNOWN, plain
from surfacecheck.quantities import parse
from surfacecheck.studies.bench._seats import ALONG, known

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from surfacecheck.model import Doubler, Surface
    from surfacecheck.provenance import Value
    from surfacecheck.studies.bench._seats import Line, Seats

__all__ = ["Stack", "Stretch", "stretches", "thickness_of"]


@dataclass(frozen=True)
class Stack:
    """Sheets one on the other under a rivet.

    Attributes
    ----------
    layers : tuple of str
        Names of the parts.
    thickness : float or None
        All of them together, bare metal [m]; None where one is not known.
    missing : tuple of str
        Keys that hide it.
    perhaps : tuple of (str, float or None)
        What may lie under the rivet as well, by its name and thickness [m]: the file does not say how far it reaches.
    """

    layers: tuple[str, ...]
    thickness: float | None
    missing: tuple[str, ...] = ()
    perhaps: tuple[tuple[str, float | None], ...] = ()


@dataclass(frozen=True, eq=False)
class Stretch:
    """Rivets of one row or group that are of one kind and go through one stack.

    Attributes
    ----------
    seats : Seats
        The row or group.
    stack : Stack
        What they go through.
    rivet : str
        Name of the rivet in part D.
    lines : tuple of (Line, tuple of int)
        Lines it has a part in, with the numbers of the rivets.
    split : bool
        Whether the row has further stretches.
    """

    seats: Seats
    stack: Stack
    rivet: str
    lines: tuple[tuple[Line, tuple[int, ...]], ...]
    split: bool = False

    @property
    def count(self) -> int:
        """Rivets [-]."""
        return sum(len(numbers) for _, numbers in self.lines)

    @property
    def numbers(self) -> tuple[int, ...]:
        """Numbers of its rivets."""
        return tuple(number for _, numbers in self.lines for number in numbers)

    @property
    def pitch(self) -> float | None:
        """Largest real pitch of its lines [m]; None where none is known."""
        return max((line.pitch for line, _ in self.lines if line.pitch is not None), default=None)


@dataclass
class _Gathered:
    perhaps: tuple[tuple[str, float | None], ...]
    lines: list[tuple[Line, tuple[int, ...]]] = field(default_factory=list)


def stretches(surface: Surface, seats: Seats) -> tuple[Stretch, ...]:
    """Take a row or group apart by what its rivets go through, and by kind of rivet.

    Parameters
    ----------
    surface : Surface
        For the sheets.
    seats : Seats
        Where the rivets sit.

    Returns
    -------
    tuple of Stretch
        One where all are alike, in the order of the rivets; none where not even their number is known.
    """
    found: dict[tuple[str, tuple[str, ...], tuple[tuple[str, float | None], ...]], _Gathered] = {}
    for line in seats.lines:
        sure, perhaps = _extra(surface, seats, line)
        for index, number in enumerate(line.numbers):
            names = (*seats.joins, *(name for name, under in sure if under[index]))
            maybe = tuple((name, thick) for name, thick, under in perhaps if under[index])
            apart = surface.apart.get(seats.name_of(number)) if surface.apart else None
            rivet = seats.rivet if apart is None or apart.rivet is None else apart.rivet.name
            group = found.setdefault((rivet, names, maybe), _Gathered(maybe))
            if group.lines and group.lines[-1][0] is line:
                group.lines[-1] = (line, (*group.lines[-1][1], number))
            else:
                group.lines.append((line, (number,)))
    return tuple(
        Stretch(seats, _stack(surface, seats, names, group.perhaps), rivet, tuple(group.lines), len(found) > 1)
        for (rivet, names, _), group in found.items()
    )


def _stack(
    surface: Surface, seats: Seats, names: tuple[str, ...], perhaps: tuple[tuple[str, float | None], ...]
) -> Stack:
    sheets = [(thickness_of(surface, seats, name), name) for name in names]
    missing = [value.key or _key(surface, name) for value, name in sheets if not value.known]
    if len(names) < 2:
        missing.append(f"{seats.place}.joined_to" if seats.kind == "horn" else f"what the {names[0]} is riveted to")
    whole = None if missing else sum(plain(value) for value, _ in sheets)
    return Stack(names, whole, tuple(missing), perhaps)


def _key(surface: Surface, name: str) -> str:
    return f"sheet.{surface.said(name)}.thickness"


def thickness_of(surface: Surface, seats: Seats, name: str) -> Value:
    """Give the thickness of a part by the name it has in a stack.

    Parameters
    ----------
    surface : Surface
        As described.
    seats : Seats
        The row or group the part is in.
    name : str
        ``left_skin``, ``bracket``, ``horn plate`` ...

    Returns
    -------
    Value
        Unknown where it is not given [m].
    """
    if name == "bracket":
        hinge = surface.hinges.get(seats.place.split(".")[1])
        bracket = None if hinge is None else surface.brackets.get(hinge.bracket)
        return UNKNOWN if bracket is None else bracket.thickness
    if name == "horn plate":
        return UNKNOWN if surface.horn is None else surface.horn.plate.thickness
    if name == "balance arm":
        return UNKNOWN if surface.balance_mass.arm is None else surface.balance_mass.arm.thickness
    part = surface.sheet.doublers.get(name) or getattr(surface.sheet, name, None)
    return UNKNOWN if part is None else part.thickness


def _extra(
    surface: Surface, seats: Seats, line: Line
) -> tuple[list[tuple[str, NDArray[np.bool_]]], list[tuple[str, float | None, NDArray[np.bool_]]]]:
    """List what lies under the rivets of a line beside what the row names: what is sure, and what may."""
    sure: list[tuple[str, NDArray[np.bool_]]] = []
    perhaps: list[tuple[str, float | None, NDArray[np.bool_]]] = []
    for name, doubler in surface.sheet.doublers.items():
        if name in seats.joins:
            continue
        under, told = _beneath(doubler, line)
        if _carries(doubler, seats) and told:
            sure.append((name, under & _wide_enough(doubler, line)))
        elif _carries(doubler, seats) or _may(surface, doubler, seats, line):
            perhaps.append((name, known(doubler.thickness), under))
    if seats.kind == "bracket" and _rib_behind(surface, seats):
        rib = known(surface.sheet.ribs.thickness)
        perhaps.append(("flange of the rib behind", rib, np.ones(line.count, dtype=bool)))
    return sure, perhaps


def _carries(doubler: Doubler, seats: Seats) -> bool:
    """Whether a doubler lies on the very sheet that the rivets go through."""
    if doubler.on == "spar flange":
        return seats.kind == "spar"
    return doubler.on == "spar web" and seats.kind in {"rib-spar", "bracket", "doubler"}


def _may(surface: Surface, doubler: Doubler, seats: Seats, line: Line) -> bool:
    """Whether a doubler lies on a sheet of the row, but nobody said where on it."""
    if doubler.on in {"left_skin", "right_skin", "nose_skin"}:
        return doubler.on in seats.joins
    if doubler.on == "a rib":
        return "ribs" in seats.joins
    if not doubler.on.startswith("rib at ") or line.rib is None:
        return False
    up = known(surface.sheet.ribs.up[line.rib])
    return up is not None and abs(parse(doubler.on.removeprefix("rib at "), "length")[0] - up) < 1e-3


def _beneath(doubler: Doubler, line: Line) -> tuple[NDArray[np.bool_], bool]:
    """Which rivets of a line lie within the length of a doubler along the pins, and whether that is known."""
    low, high = known(doubler.start), known(doubler.to)
    along = line.at if line.measured == ALONG else line.up
    if along is None or low is None or high is None:
        return np.ones(line.count, dtype=bool), False
    at = np.broadcast_to(np.asarray(along, dtype=np.float64), (line.count,))
    return np.asarray((at >= low - 1e-6) & (at <= high + 1e-6)), True


def _wide_enough(doubler: Doubler, line: Line) -> NDArray[np.bool_]:
    """Which rivets lie within the width of a doubler on the web; it is taken to lie in the middle."""
    wide = known(doubler.wide)
    across = line.across if line.measured == ALONG else line.at
    if doubler.on != "spar web" or wide is None or across is None:
        return np.ones(line.count, dtype=bool)
    off = np.broadcast_to(np.abs(np.asarray(across, dtype=np.float64)), (line.count,))
    return np.asarray(off <= 0.5 * wide + 1e-6)


def _rib_behind(surface: Surface, seats: Seats) -> bool:
    hinge = surface.hinges.get(seats.place.split(".")[1])
    return hinge is not None and hinge.rib_behind == "yes"
