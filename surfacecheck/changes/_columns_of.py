"""The columns of a deviation: as drawn, as it is now, and one for each option."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Literal

from surfacecheck.changes._columns import Column
from surfacecheck.changes._contradictions import refuse_contradictions
from surfacecheck.changes._events import EventKind, kind_of
from surfacecheck.changes._examples import example_of
from surfacecheck.changes._fits import check_hole_in_sheet, check_some_hold
from surfacecheck.changes._options import is_as_drawn, is_leave_it, option_at
from surfacecheck.changes._single_out import same_bounds, singled_out
from surfacecheck.errors import Fault, SurfaceError
from surfacecheck.places import Spot, spot_of

if TYPE_CHECKING:
    from surfacecheck.changes._done import Done
    from surfacecheck.model import Happened, Surface

__all__ = ["Link", "chain_of", "columns_of"]

LEAVE_IT = "as it is now (leave it)"
Kind = Literal["drawn", "now", "option"]


@dataclass(frozen=True)
class Link:
    """One event of the chain, found on the surface.

    Attributes
    ----------
    event : Happened
        As written.
    kind : EventKind
        What it is.
    spot : Spot
        Where it is.
    file, key : str
        Where it is written.
    """

    event: Happened
    kind: EventKind
    spot: Spot
    file: str
    key: str

    def fault(self, err: SurfaceError) -> SurfaceError:
        """Say of an error where the event that led to it is written."""
        return _written(err, self.event, self.file, self.key)


def _written(err: SurfaceError, event: Happened, file: str, key: str) -> SurfaceError:
    return SurfaceError(*(one if one.file else Fault(one.message, file, event.line, key) for one in err.faults))


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

    Examples
    --------
    >>> import surfacecheck
    >>> found = columns_of(surfacecheck.read("data/rudder_oversize_hole.toml"))  # doctest: +SKIP
    >>> [one.title for one in found]  # doctest: +SKIP
    ['as drawn', 'as it is now (leave it)', 'next size 4.8 mm', 'rivet not there']
    """
    drawn = surface if surface.drawn is None else surface.drawn.surface
    base = replace(surface, changes=tuple(replace(one, happened=()) for one in surface.changes))
    chain = chain_of(surface)
    columns = [Column("as drawn", "drawn", drawn)]
    if surface.changes:
        columns.append(_column(LEAVE_IT, "now", base, chain))
    why: list[str] = []
    for link in chain:
        columns += _options(base, chain, link, why)
    columns[1:2] = [replace(one, not_offered=tuple(dict.fromkeys(why))) for one in columns[1:2]]
    return singled_out(columns)


def chain_of(surface: Surface) -> tuple[Link, ...]:
    """Find every event of a surface on it, in the order of the files.

    Parameters
    ----------
    surface : Surface
        As read with its change files.

    Returns
    -------
    tuple of Link
        One for each event.

    Raises
    ------
    SurfaceError
        With the faults of all events: a place or a kind nobody knows, events that contradict each other.
    """
    found: list[Link] = []
    faults: list[Fault] = []
    for change in surface.changes:
        for at, event in enumerate(change.happened, 1):
            key = f"happened[{at}]"
            try:
                missing = [one for one in ("what", "where") if not getattr(event, one)]
                if missing:
                    raise _not_said(surface, missing[0])
                found.append(Link(event, kind_of(event.what), spot_of(surface, event.where), change.path, key))
            except SurfaceError as err:
                faults += _written(err, event, change.path, key).faults
    if faults:
        raise SurfaceError(*faults)
    refuse_contradictions(found)
    return tuple(found)


def _not_said(surface: Surface, key: str) -> SurfaceError:
    such = {"what": "hole too large", "where": example_of(surface, "hinge middle, bracket rivet 3")}[key]
    return SurfaceError(f'{key} is not said. Write: {key} = "{such}"')


def _options(base: Surface, chain: tuple[Link, ...], link: Link, why: list[str]) -> list[Column]:
    """One column for each option of an event: those it names; or those its nature offers, and why some cannot be."""
    if link.event.options:
        return [_column(one, "option", base, chain, link) for one in link.event.options if not is_leave_it(one)]
    columns = []
    for option in link.kind.offers:
        try:
            columns.append(_column(option, "option", base, chain, link))
        except SurfaceError as err:  # no next size in part D, no row to set extra rivets into: not offered here
            why.append(f"{option}: {err.faults[0].message.removeprefix(f'{option}: ')}")
    return columns


def _column(title: str, kind: Kind, base: Surface, chain: tuple[Link, ...], answered: Link | None = None) -> Column:
    fully = _worked(base, chain, title, answered, fully=True)
    nothing = _worked(base, chain, title, answered, fully=False) if any(one.left_open for one in fully) else None
    if nothing is not None and same_bounds(fully[-1].surface, nothing[-1].surface):
        nothing = None  # an option closed what an event had left open
    places = dict.fromkeys(place for one in fully for place in one.places)
    says = dict.fromkeys(said for one in fully for said in one.says)
    last = fully[-1].surface if fully else base
    return Column(title, kind, last, None if nothing is None else nothing[-1].surface, tuple(places), tuple(says))


def _worked(base: Surface, chain: tuple[Link, ...], title: str, answered: Link | None, *, fully: bool) -> list[Done]:
    """Work every event in, one after the other; and an option instead of, or over, the event it answers."""
    done: list[Done] = []
    for link in chain:
        before = done[-1].surface if done else base
        try:
            done.append(_step(before, link, title if link is answered else "", fully=fully))
        except SurfaceError as err:
            raise link.fault(err) from err
    return done


def _step(before: Surface, link: Link, option: str, *, fully: bool) -> Done:
    worked = link.kind.work(before, link.spot, link.event, fully=fully)
    check_hole_in_sheet(worked.surface, link.spot, link.event)
    check_some_hold(worked.surface, link.spot)
    if not option:
        return worked
    if is_as_drawn(option):
        return replace(worked, surface=before, says=(f"{link.event.where}: as drawn",), left_open=False)
    tried = option_at(worked.surface, link.spot, option, fully=fully)
    check_hole_in_sheet(tried.surface, link.spot, link.event)
    check_some_hold(tried.surface, link.spot)
    if tried.settles:
        return tried
    return replace(tried, says=(*worked.says, *tried.says), left_open=worked.left_open)
