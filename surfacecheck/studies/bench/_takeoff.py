"""What a surface takes: every row by its stack, rivets to buy, mass, holes, minutes."""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.errors import SurfaceError
from surfacecheck.masses import rivet_mass
from surfacecheck.provenance import numbers
from surfacecheck.studies.bench._lengths import rivet_length
from surfacecheck.studies.bench._seats import known
from surfacecheck.studies.bench._seats_fittings import seats_of
from surfacecheck.studies.bench._stacks import stretches
from surfacecheck.studies.bench._tail import short_of_room
from surfacecheck.studies.bench._takeoff_basis import Spares, Work

if TYPE_CHECKING:
    from collections.abc import Iterator

    from surfacecheck.model import Rivet, Surface
    from surfacecheck.provenance import Source
    from surfacecheck.studies.bench._lengths import Chosen
    from surfacecheck.studies.bench._stacks import Stretch

__all__ = ["Purchase", "TakeOff", "Taken", "takeoff"]

BARE = (
    "stacks are bare metal: paint, sealant and a shim come on top (paint 0.05 to 0.15 mm or 0.002 to 0.006 in a side: "
    "common practice)"
)
ONE_SCRAP = "drill and set the first of each size in scrap of the same stack: a drill cuts oversize in thin sheet"


@dataclass(frozen=True, eq=False)
class Taken:
    """Rivets of a row that go through one stack.

    Attributes
    ----------
    stretch : Stretch
        Which rivets, and what they go through.
    chosen : Chosen or None
        Length it takes; None where the packet's lengths or the stack are not given.
    mass : float or None
        All of them [kg].
    mass_source : Source or None
        How one rivet's mass is known.
    problem : str
        What stands against it, in one line; empty for nothing.
    notes : tuple of str
        What to look at.
    """

    stretch: Stretch
    chosen: Chosen | None
    mass: float | None
    mass_source: Source | None
    problem: str = ""
    notes: tuple[str, ...] = ()

    @property
    def count(self) -> int:
        """Rivets [-]."""
        return self.stretch.count

    @property
    def holes(self) -> int:
        """Holes, one in each sheet for each rivet [-]."""
        return self.count * len(self.stretch.stack.layers)


@dataclass(frozen=True, eq=False)
class Purchase:
    """One line of an order: one rivet in one length, or for one stack where lengths are not given.

    Attributes
    ----------
    rivet : str
        Name in part D.
    kind : Rivet
        As described there.
    length : float or None
        [m]; None where it is not given.
    stack : float or None
        For which stack, where no length is given [m].
    needed : int
        Rivets [-].
    spare : tuple of int
        Least and most to order, without practice [-].
    mass : float or None
        Of those needed [kg].
    rows : tuple of str
        Where they go, in words.
    """

    rivet: str
    kind: Rivet
    length: float | None
    stack: float | None
    needed: int
    spare: tuple[int, int]
    mass: float | None
    rows: tuple[str, ...]

    @property
    def diameter(self) -> float | None:
        """Nominal diameter [m]."""
        return known(self.kind.diameter)


@dataclass(frozen=True, eq=False)
class TakeOff:
    """Everything to buy, drill and set.

    Attributes
    ----------
    surface : Surface
        As described.
    rows : tuple of Taken
        Row by row and group by group, taken apart by stack.
    lines : tuple of Purchase
        What to order, by size, then length.
    spares, work : Spares, Work
        Taken for granted.
    waiting : tuple of (str, tuple of str)
        Rows nothing can be listed of, and the keys that hide them.
    notes : tuple of str
        What holds for all of it.
    """

    surface: Surface
    rows: tuple[Taken, ...]
    lines: tuple[Purchase, ...]
    spares: Spares
    work: Work
    waiting: tuple[tuple[str, tuple[str, ...]], ...] = ()
    notes: tuple[str, ...] = field(default=(BARE, ONE_SCRAP))

    @property
    def count(self) -> int:
        """Rivets [-]."""
        return sum(row.count for row in self.rows)

    @property
    def holes(self) -> int:
        """Holes, one in each sheet [-]."""
        return sum(row.holes for row in self.rows)

    @property
    def mass(self) -> float | None:
        """All rivets [kg]; None where one kind is not known."""
        masses = [row.mass for row in self.rows]
        return None if not masses or None in masses else float(sum(mass for mass in masses if mass is not None))

    @property
    def minutes(self) -> float:
        """Work, on the basis of ``work`` [min]."""
        return self.work.minutes(self.holes, self.count)

    @property
    def problems(self) -> tuple[str, ...]:
        """What stands against it, a line each, each once."""
        return tuple(dict.fromkeys(f"{row.stretch.seats.words}: {row.problem}" for row in self.rows if row.problem))

    @property
    def sizes(self) -> tuple[tuple[float | None, tuple[Purchase, ...]], ...]:
        """Purchase lines by nominal diameter, thin to thick; those of unknown diameter last."""
        found: dict[float | None, list[Purchase]] = {}
        for line in self.lines:
            found.setdefault(line.diameter, []).append(line)
        order = sorted(found, key=lambda d: np.inf if d is None else d)
        return tuple((diameter, tuple(found[diameter])) for diameter in order)


def takeoff(surface: Surface, spares: Spares | None = None, work: Work | None = None) -> TakeOff:
    """List what a surface takes: rivets, lengths, holes, mass, minutes.

    Parameters
    ----------
    surface : Surface
        Perhaps half-filled: what is not known is named, the rest is listed.
    spares : Spares, optional
        How many more to order; common practice where they are not given.
    work : Work, optional
        Minutes a hole and a rivet; invented for the demo where they are not given.

    Returns
    -------
    TakeOff
        Row by row, and by purchase line.

    Raises
    ------
    SurfaceError
        Where a value is a stack of variants.

    References
    ----------
    NAVEDTRA 14018, chapter 13 (length of solid rivets); common practice (spares); mass as ``masses.one_rivet``.
    """
    seats = seats_of(surface)
    rows = [_taken(surface, one) for group in seats for one in stretches(surface, group)]
    waiting = tuple((group.place, group.missing or ("its rivets",)) for group in seats if not group.lines)
    more = spares or Spares()
    return TakeOff(surface, tuple(rows), tuple(_purchases(surface, rows, more)), more, work or Work(), waiting)


def _taken(surface: Surface, stretch: Stretch) -> Taken:
    rivet, stack = surface.rivets.get(stretch.rivet), stretch.stack
    chosen, problem = None, ""
    if rivet is not None and stack.thickness is not None:
        try:
            chosen = rivet_length(rivet, stack.thickness)
        except SurfaceError as error:
            problem = str(error)
    elif rivet is None:
        problem = f'rivet "{stretch.rivet}" is not described in part D' if stretch.rivet else "its rivet is not given"
    one = rivet_mass(surface, stretch.rivet)
    mass = None if one.si is None else float(numbers(one)) * stretch.count
    source = one.source if one.known else None
    notes = (
        *_of_apart(surface, stretch),
        *_of_perhaps(rivet, stretch, chosen),
        *short_of_room(surface, stretch, chosen),
    )
    return Taken(stretch, chosen, mass, source, problem, notes)


def _of_apart(surface: Surface, stretch: Stretch) -> Iterator[str]:
    apart = [number for number in stretch.numbers if stretch.seats.name_of(number) in surface.apart]
    if apart:
        yield f"rivet {', '.join(map(str, apart))} is not as the row says"


def _of_perhaps(rivet: Rivet | None, stretch: Stretch, chosen: Chosen | None) -> Iterator[str]:
    stack = stretch.stack.thickness
    for name, thickness in stretch.stack.perhaps:
        words = f"where the {name.replace('_', ' ')} lies under them too"
        if thickness is None or stack is None:
            yield f"{words}: its thickness is not given"
        else:
            whole = stack + thickness
            yield f"{words}: a stack of {whole * 1e3:.2f} mm{_then(rivet, whole, chosen)}"


def _then(rivet: Rivet | None, stack: float, chosen: Chosen | None) -> str:
    """Say that another length goes with a thicker stack."""
    if rivet is None or chosen is None:
        return ""
    try:
        other = rivet_length(rivet, stack)
    except SurfaceError:
        return ", which no length holds"
    return "" if other is None or other.length == chosen.length else f", length then {other.length * 1e3:.1f} mm"


def _purchases(surface: Surface, rows: list[Taken], spares: Spares) -> Iterator[Purchase]:
    """Gather rows that take the same rivet in the same length."""
    found: dict[tuple[str, float | None, float | None], list[Taken]] = {}
    for row in rows:
        length = None if row.chosen is None else row.chosen.length
        stack = row.stretch.stack.thickness if length is None else None
        found.setdefault((row.stretch.rivet, length, None if stack is None else round(stack, 7)), []).append(row)

    def order(key: tuple[str, float | None, float | None]) -> tuple[float, str, float, float]:
        kind = surface.rivets.get(key[0])
        diameter = None if kind is None else known(kind.diameter)
        return tuple(np.inf if one is None else one for one in (diameter, key[0], key[1], key[2]))  # type: ignore[return-value]

    for name, length, stack in sorted(found, key=order):
        group, kind = found[name, length, stack], surface.rivets.get(name)
        if kind is None:
            continue
        needed = sum(row.count for row in group)
        masses = [row.mass for row in group]
        mass = None if None in masses else float(sum(one for one in masses if one is not None))
        least, most = (math.ceil(round(needed * (1.0 + share), 9)) for share in spares.share)
        words = tuple(dict.fromkeys(row.stretch.seats.words for row in group))
        yield Purchase(name, kind, length, stack, needed, (least, most), mass, words)
