"""Which rivet an alternative has: one of the file, of the shipped table, or of a family of it in another size."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from difflib import get_close_matches
from itertools import product
from typing import TYPE_CHECKING, Any

from surfacecheck.errors import SurfaceError
from surfacecheck.library import rivet_type, rivets
from surfacecheck.library.metals import SAME_SIZE
from surfacecheck.model import HeadKind, Rivet, RivetSet
from surfacecheck.provenance import UNKNOWN, Value, numbers, plain
from surfacecheck.quantities import show
from surfacecheck.rules import length

if TYPE_CHECKING:
    from collections.abc import Sequence

    from surfacecheck.library import RivetType
    from surfacecheck.model import Row, Surface
    from surfacecheck.studies.riveting._rivets_given import Alternatives

__all__ = ["Kind", "kinds_of", "with_head"]

_SIZE = re.compile(r"\s+[0-9./]+(\s*(in|mm))?$")


@dataclass(frozen=True, eq=False)
class Kind:
    """One rivet to compare.

    Attributes
    ----------
    name : str
        Of the file, or of the table.
    rivet : Rivet or None
        As part D would have it; None where there is none.
    why : str
        Then: why not.
    """

    name: str
    rivet: Rivet | None
    why: str = ""


def kinds_of(surface: Surface, row: Row, alternatives: Alternatives) -> tuple[Kind, ...]:
    """List the rivets to compare for a row, as many for every row.

    Parameters
    ----------
    surface : Surface
        For part D.
    row : Row
        For its own rivet, where no name is given.
    alternatives : Alternatives
        Names and diameters.

    Returns
    -------
    tuple of Kind
        For each name each diameter.

    Raises
    ------
    SurfaceError
        For a name that neither the file nor the table has.
    """
    names: Sequence[str] = alternatives.rivet or (row.rivet,)
    sizes: Sequence[float | None] = alternatives.diameter or (None,)
    return tuple(_kind(surface, row, name, size) for name, size in product(names, sizes))


def _kind(surface: Surface, row: Row, name: str, size: float | None) -> Kind:
    own = surface.rivets.get(name)
    if own is not None:
        return Kind(name, own) if size is None or _same(own, size) else _of_file(surface, own, size)
    if not name:
        return Kind("", None, f"the rivet of row.{row.name} is not given")
    family = _family(name)
    if size is None and (exact := _exact(name)) is not None:
        return Kind(exact.name, _as_rivet(exact))
    if not family:
        raise SurfaceError(_nobody(surface, name))
    wanted = size if size is not None else _own_size(surface, row)
    if wanted is None:
        return Kind(name, None, f"{name} has several sizes: give a diameter")
    fits = [one for one in family if one.diameter.known and abs(plain(one.diameter) / wanted - 1.0) < SAME_SIZE]
    # of two that are near, the nearer (3.0 and 3.2 are apart by more than the share)
    best = min(fits, key=lambda one: abs(plain(one.diameter) - wanted), default=None)
    if best is not None:
        return Kind(best.name, _as_rivet(best))
    sizes = ", ".join(one.diameter.said for one in family)
    return Kind(name, None, f"{_stem(family[0].name)} is not in the table at {length(wanted)}; there: {sizes}")


def _same(rivet: Rivet, size: float) -> bool:
    return rivet.diameter.known and abs(float(numbers(rivet.diameter).min()) / size - 1.0) < SAME_SIZE


def _own_size(surface: Surface, row: Row) -> float | None:
    own = surface.rivets.get(row.rivet)
    return plain(own.diameter) if own is not None and own.diameter.known else None


def _of_file(surface: Surface, own: Rivet, size: float) -> Kind:
    """Find the rivet of part D that is like another but for its size."""

    def kind(one: Rivet) -> tuple[object, object]:
        return one.set, one.head_kind or HeadKind.PROTRUDING

    for name, one in surface.rivets.items():
        if _same(one, size) and kind(one) == kind(own):
            return Kind(name, one)
    words = str(own.set or "such")
    why = f"part D has no {words} rivet of {length(size)}; describe one there, or name one of the table"
    return Kind(own.name, None, why)


def _stem(name: str) -> str:
    return _SIZE.sub("", name)


def _exact(name: str) -> RivetType | None:
    try:
        return rivet_type(name)
    except SurfaceError:
        return None


def _family(name: str) -> list[RivetType]:
    exact = _exact(name)
    stem = (name if exact is None else _stem(exact.name)).casefold().strip()
    return [one for one in rivets().values() if _stem(one.name).casefold() == stem]


def _nobody(surface: Surface, name: str) -> str:
    table = rivets()
    every = [*surface.rivets, *dict.fromkeys(_stem(one) for one in table), *table]
    near = get_close_matches(name, every, n=1, cutoff=0.4)
    hint = f' Nearest: "{near[0]}".' if near else ""
    here = ", ".join(surface.rivets) or "none"
    families = ", ".join(dict.fromkeys(_stem(one) for one in table))
    return f'no rivet is called "{name}".{hint} In part D: {here}. In the table: {families}'


def _as_rivet(found: RivetType) -> Rivet:
    """Write a rivet of the table as part D would have it."""
    ends = tuple(found.grips)
    grip: tuple[Value, ...] = ()
    if ends and found.grips_source is not None:
        least, most = min(one.least for one in ends), max(one.most for one in ends)
        grip = tuple(Value(si, show(si, "length"), found.grips_source) for si in (least, most))
    return Rivet(
        set=RivetSet(found.set),
        alloy=found.alloy,
        head_kind=HeadKind(found.head_kind),
        diameter=found.diameter,
        hole=found.hole,
        hole_range=(found.hole_least, found.hole_most),
        head=found.head,
        grip=grip,
        shear=found.shear,
        pull=found.pull,
        name=found.name,
    )


def with_head(rivet: Rivet, head: str | None) -> Rivet:
    """Give a rivet another head: what its data sheet says of its strength goes with the head it has.

    Parameters
    ----------
    rivet : Rivet
        As it is.
    head : str or None
        Kind of head; None leaves it.

    Returns
    -------
    Rivet
        With strengths not given where the head is another: nobody's sheet says what it carries then.

    Examples
    --------
    >>> small = Rivet(shear=Value(750.0))
    >>> with_head(small, "protruding").shear.known, with_head(small, "countersunk").shear.known
    (True, False)
    """
    if head is None or HeadKind(head) is (rivet.head_kind or HeadKind.PROTRUDING):
        return rivet
    keys = {name: f"rivet.{rivet.name}.{name}, {head}" for name in ("shear", "pull")}
    unknown: dict[str, Any] = {name: replace(UNKNOWN, key=key) for name, key in keys.items()}
    return replace(rivet, head_kind=HeadKind(head), head=UNKNOWN, alloy="" if _solid(rivet) else rivet.alloy, **unknown)


def _solid(rivet: Rivet) -> bool:
    return rivet.set is RivetSet.SOLID
