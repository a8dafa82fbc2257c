"""What is drilled into every part: holes by station, row by row."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from surfacecheck.checks import edge_of
from surfacecheck.provenance import UNKNOWN
from surfacecheck.rules import chamfer_most
from surfacecheck.studies.bench._stacks import thickness_of

if TYPE_CHECKING:
    from collections.abc import Iterator

    from surfacecheck.model import Surface
    from surfacecheck.provenance import Value
    from surfacecheck.studies.bench._seats import Line
    from surfacecheck.studies.bench._stacks import Stretch
    from surfacecheck.studies.bench._takeoff import TakeOff

__all__ = ["PartHoles", "Run", "drilling"]


@dataclass(frozen=True, eq=False)
class Run:
    """Holes of one line in one part.

    Attributes
    ----------
    words : str
        The row or group.
    line : Line
        Where they are.
    numbers : tuple of int
        Which rivets of it.
    rivet : str
        Name in part D.
    edge : Value
        Hole centre to the edge of this part [m].
    """

    words: str
    line: Line
    numbers: tuple[int, ...]
    rivet: str
    edge: Value

    @property
    def count(self) -> int:
        """Holes [-]."""
        return len(self.numbers)

    @property
    def at(self) -> tuple[float, ...]:
        """Places along what ``line.measured`` says [m]; empty where they are not known."""
        if self.line.at is None:
            return ()
        return tuple(float(self.line.at[number - self.line.first]) for number in self.numbers)


@dataclass(frozen=True, eq=False)
class PartHoles:
    """Every hole of one part.

    Attributes
    ----------
    part : str
        ``left_skin``, ``rib 3``, ``spar`` ...
    words : str
        The same in the surface's own words.
    runs : tuple of Run
        Line by line.
    chamfer : float or None
        How deep the edge of a hole may be broken, at most [m].
    """

    part: str
    words: str
    runs: tuple[Run, ...]
    chamfer: float | None

    @property
    def count(self) -> int:
        """Holes [-]."""
        return sum(run.count for run in self.runs)


def drilling(taken: TakeOff) -> tuple[PartHoles, ...]:
    """List the holes of every part.

    Parameters
    ----------
    taken : TakeOff
        Its rows.

    Returns
    -------
    tuple of PartHoles
        Skins and spar first, then ribs from root to tip, doublers, brackets, horn.

    References
    ----------
    MIL-R-47196, as quoted in secondary text, for the chamfer.
    """
    found: dict[str, list[Run]] = {}
    thick: dict[str, Value] = {}
    for row in taken.rows:
        for name in row.stretch.stack.layers:
            for part, run in _runs(taken.surface, row.stretch, name):
                found.setdefault(part, []).append(run)
                thick.setdefault(part, thickness_of(taken.surface, row.stretch.seats, name))
    order = sorted(found, key=lambda part: _rank(part))
    return tuple(
        PartHoles(part, _words(taken.surface, part), tuple(found[part]), _chamfer(thick[part])) for part in order
    )


def _runs(surface: Surface, stretch: Stretch, name: str) -> Iterator[tuple[str, Run]]:
    seats = stretch.seats
    row = surface.rows.get(seats.place.removeprefix("row."))
    edge = edge_of(surface, row, name) if row is not None else _edge(surface, stretch, name)
    for line, numbers in stretch.lines:
        part = name
        if name == "ribs":
            part = "ribs" if line.rib is None else f"rib {line.rib + 1}"
        elif name == "bracket":
            part = seats.words
        yield part, Run(seats.words, line, numbers, stretch.rivet, edge)


def _edge(surface: Surface, stretch: Stretch, name: str) -> Value:
    place = stretch.seats.place
    if place == "horn" and surface.horn is not None:
        return surface.horn.fixed_with.edge
    hinge = surface.hinges.get(place.split(".")[1]) if place.startswith("hinge.") else None
    bracket = None if hinge is None else surface.brackets.get(hinge.bracket)
    return UNKNOWN if bracket is None else bracket.edge.get(name, UNKNOWN)


_FIRST = ("left_skin", "right_skin", "nose_skin", "spar", "ribs")


def _rank(part: str) -> tuple[int, int]:
    """Order of the parts; doublers and fittings keep the order in which they were met."""
    if part in _FIRST:
        return 0, _FIRST.index(part)
    if part.startswith("rib "):
        return 1, int(part.removeprefix("rib "))
    return (2 if "doubler" in part else 3), 0


def _words(surface: Surface, part: str) -> str:
    return surface.said(part).replace("_", " ")


def _chamfer(thickness: Value) -> float | None:
    return chamfer_most(float(thickness.si))[0] if isinstance(thickness.si, float) and thickness.si > 0.0 else None
