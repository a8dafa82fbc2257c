"""Events of one chain that cannot both be."""

from __future__ import annotations

from itertools import combinations
from typing import TYPE_CHECKING

from surfacecheck.errors import Fault, SurfaceError

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from surfacecheck.changes._columns_of import Link

__all__ = ["refuse_contradictions"]

NEEDS_A_RIVET = {"hole", "rivet", "how it sits"}
"""What can be told only of a rivet that is there, or was."""


EVERY = "every layer"


def refuse_contradictions(chain: Sequence[Link]) -> None:
    """Refuse events that tell two different things of one place.

    Parameters
    ----------
    chain : sequence of Link
        Every event.

    Raises
    ------
    SurfaceError
        Naming both, at the place of the later one.
    """
    faults = [
        Fault(message, later.file, later.event.line, later.key)
        for earlier, later in combinations(chain, 2)
        for message in _between(earlier, later)
    ]
    if faults:
        raise SurfaceError(*faults)


def _between(earlier: Link, later: Link) -> Iterator[str]:
    both = f'{earlier.key} of {earlier.file} ("{earlier.event.what}")'
    shared = sorted(set(earlier.spot.names) & set(later.spot.names))
    tells = {earlier.kind.tells, later.kind.tells}
    if shared and earlier.kind.tells == later.kind.tells:
        what = later.kind.tells if later.kind.tells == "how it sits" else f"its {later.kind.tells}"
        yield f"{shared[0]}: {both} tells {what} already. Keep the one that holds now"
    elif shared and "there" in tells and tells & NEEDS_A_RIVET:
        yield f"{shared[0]}: a rivet that is missing cannot be {_other(earlier, later)} too: see {both}. Keep one"
    elif shared and _same_edge(_edges(earlier), _edges(later)):
        yield f"{shared[0]}: {both} tells its edge already. Keep the one that holds now"
    elif "pitch" in tells and _one_row(earlier, later) and (earlier.spot.rivets or later.spot.rivets):
        yield f"{later.spot.whole}: its pitch changed, so its rivets count anew: see {both}. Keep one of the two"


def _other(earlier: Link, later: Link) -> str:
    return f'"{(later if earlier.kind.tells == "there" else earlier).event.what}"'


def _one_row(earlier: Link, later: Link) -> bool:
    return earlier.spot.sort == later.spot.sort == "row" and earlier.spot.owner == later.spot.owner


def _edges(link: Link) -> set[str]:
    """Layers of which an event tells an edge; where it does not say of which, of every one."""
    event = link.event
    told = event.layers or (EVERY,)
    return {*event.edges, *(told if event.edge.known or event.edge_first.known else ())}


def _same_edge(one: set[str], other: set[str]) -> bool:
    return bool(one & other) or bool(one and other and EVERY in one | other)
