"""The columns of a deviation: as drawn, as it is now, and one for each option."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from surfacecheck.changes._columns import Column
from surfacecheck.changes._events import EventKind, kind_of
from surfacecheck.changes._options import is_leave_it, option_at
from surfacecheck.errors import Fault, SurfaceError
from surfacecheck.model import Apart
from surfacecheck.places import Spot, spot_of

if TYPE_CHECKING:
    from surfacecheck.changes._done import Done
    from surfacecheck.model import Happened, Surface

__all__ = ["columns_of"]

LEAVE_IT = "as it is now (leave it)"


@dataclass(frozen=True)
class _Link:
    """One event of the chain, found on the surface."""

    event: Happened
    kind: EventKind
    spot: Spot
    file: str
    key: str

    def fault(self, err: SurfaceError) -> SurfaceError:
        return SurfaceError(*(Fault(f.message, self.file, self.event.line, self.key) for f in err.faults))


def columns_of(surface: Surface) -> tuple[Column, ...]:
    """Give the ways a surface could be: as drawn, as it is now, and each option.

    Parameters
    ----------
    surface : Surface
        As read with its change files; what happened is not worked in yet.

    Returns
    -------
    tuple of Column
        ``as drawn`` first, then ``as it is now (leave it)`` with every event of the chain together, then one for each
        option that the change files name or that the nature of an event offers. Every place that one of them touches
        stands apart in all of them, so that it has margins of its own in each.

    Raises
    ------
    SurfaceError
        For a place or an event that nobody knows, or that cannot be: file, line and what to write.
    """
    drawn = surface if surface.drawn is None else surface.drawn.surface
    base = replace(surface, changes=tuple(replace(one, happened=()) for one in surface.changes))
    chain = _chain(surface)
    columns = [Column("as drawn", "drawn", drawn)]
    if surface.changes:
        columns.append(_column(LEAVE_IT, "now", base, chain))
    columns += [
        _column(option, "option", base, chain, link)
        for link in chain
        for option in link.event.options or link.kind.offers
        if not is_leave_it(option)
    ]
    return _singled_out(columns)


def _chain(surface: Surface) -> tuple[_Link, ...]:
    found = []
    for change in surface.changes:
        for at, event in enumerate(change.happened, 1):
            key = f"happened[{at}]"
            try:
                found.append(_Link(event, kind_of(event.what), spot_of(surface, event.where), change.path, key))
            except SurfaceError as err:
                raise SurfaceError(*(Fault(f.message, change.path, event.line, key) for f in err.faults)) from err
    return tuple(found)


def _column(title: str, kind: str, base: Surface, chain: tuple[_Link, ...], answered: _Link | None = None) -> Column:
    fully = _worked(base, chain, title, answered, fully=True)
    nothing = _worked(base, chain, title, answered, fully=False) if any(one.left_open for one in fully) else None
    places = dict.fromkeys(place for one in fully for place in one.places)
    says = dict.fromkeys(said for one in fully for said in one.says)
    last = fully[-1].surface if fully else base
    return Column(title, kind, last, nothing[-1].surface if nothing else None, tuple(places), tuple(says))  # type: ignore[arg-type]


def _worked(base: Surface, chain: tuple[_Link, ...], title: str, answered: _Link | None, *, fully: bool) -> list[Done]:
    """Work every event in, one after the other, and an option over the event it answers."""
    done: list[Done] = []
    for link in chain:
        try:
            before = done[-1].surface if done else base
            worked = link.kind.work(before, link.spot, link.event, fully=fully)
            if link is answered:
                worked = option_at(worked.surface, link.spot, title, fully=fully)
        except SurfaceError as err:
            raise link.fault(err) from err
        done.append(worked)
    return done


def _singled_out(columns: Iterable[Column]) -> tuple[Column, ...]:
    """Let every place that stands apart in one column stand apart in all, as its row says where it is as drawn."""
    columns = tuple(columns)
    every = [s for one in columns for s in (one.fully, one.nothing) if s is not None]
    names = dict.fromkeys(name for surface in every for name in surface.apart)

    def single(surface: Surface) -> Surface:
        return replace(surface, apart={name: surface.apart.get(name, Apart()) for name in names})

    return tuple(
        replace(one, fully=single(one.fully), nothing=None if one.nothing is None else single(one.nothing))
        for one in columns
    )
