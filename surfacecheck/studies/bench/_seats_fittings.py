"""Where the rivets of brackets, horn and balance arm sit."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.checks import bracket_needs, rivet_places
from surfacecheck.model import DrivenBy
from surfacecheck.provenance import plain
from surfacecheck.studies.bench._seats import ACROSS, ALONG, Line, Seats, known, row_seats

if TYPE_CHECKING:
    from collections.abc import Iterator

    from surfacecheck.model import Bracket, Fixing, Hinge, Surface

__all__ = ["horn_rib", "seats_of"]


def seats_of(surface: Surface) -> tuple[Seats, ...]:
    """Lay out every rivet of a surface: rows, then brackets from root to tip, horn, balance arm.

    Parameters
    ----------
    surface : Surface
        Perhaps half-filled.

    Returns
    -------
    tuple of Seats
        Every row and every group.
    """
    groups = [*row_seats(surface), *(_bracket(surface, hinge) for hinge in surface.hinges.values())]
    horn = surface.horn
    if horn is not None and horn.driven_by is not DrivenBy.TORQUE_TUBE:
        part = "spar" if horn.joined_to == "spar" else "ribs"
        joins = ("horn plate", part) if horn.joined_to else ("horn plate",)
        rib = horn_rib(surface)
        up = known(surface.sheet.ribs.up[rib]) if rib is not None else known(horn.up)
        groups.append(_pattern("horn", "horn plate", "horn", horn.fixed_with, joins, up, rib, surface.left_is))
    arm = surface.balance_mass.fixed_with
    if arm is not None:
        where = ("balance_mass", "arm of the balance mass", "arm")
        groups.append(_pattern(*where, arm, ("balance arm",), known(surface.balance_mass.up), None, surface.left_is))
    return tuple(groups)


def horn_rib(surface: Surface) -> int | None:
    """Tell which rib the horn is riveted to.

    Parameters
    ----------
    surface : Surface
        With its horn.

    Returns
    -------
    int or None
        From 0 at the root [-]; None for the spar, or where ribs or their places are not known.
    """
    ribs = surface.sheet.ribs.up
    joined = surface.horn.joined_to if surface.horn is not None else ""
    if not ribs or "rib" not in joined:
        return None
    if not joined.startswith("rib at"):
        return 0 if joined.startswith("bottom") else len(ribs) - 1
    if surface.horn is None or not surface.horn.up.known or not all(up.known for up in ribs):
        return None
    return int(np.argmin([abs(plain(up) - plain(surface.horn.up)) for up in ribs]))


def _bracket(surface: Surface, hinge: Hinge) -> Seats:
    place = f"hinge.{hinge.name}.bracket"
    words = f"{hinge.name} hinge bracket"
    bracket = surface.brackets.get(hinge.bracket)
    if bracket is None:
        return Seats(place, words, "bracket", "", ("bracket", "spar"), (), (f"hinge.{hinge.name}.bracket",))
    lines = tuple(_columns(surface, hinge, bracket))
    needs = tuple(
        key
        for key in bracket_needs(surface, hinge)
        if key.rpartition(".")[2] in {"along", "sideways", "gap_along", "gap_sideways", "rivet"}
    )
    return Seats(place, words, "bracket", bracket.rivet, ("bracket", "spar"), lines, needs)


def _columns(surface: Surface, hinge: Hinge, bracket: Bracket) -> Iterator[Line]:
    """Columns along the pins: 1 lowest left seen from behind, count up, then the next column right."""
    along, sideways = bracket.along, bracket.sideways
    if along is None or sideways is None:
        return
    pattern = (bracket.gap_along.known or along == 1) and (bracket.gap_sideways.known or sideways == 1)
    a, b = rivet_places(surface, bracket)
    middle = known(hinge.up)
    for column in range(sideways):
        here = slice(column * along, (column + 1) * along)
        at = a[here] + middle if pattern and middle is not None else None
        across = float(surface.left_is * b[here][0]) if pattern else None
        label = f"column {column + 1}" if sideways > 1 else ""
        yield Line(label, ALONG, along, 1 + column * along, at, None, across)


def _pattern(
    place: str,
    words: str,
    kind: str,
    fixing: Fixing,
    joins: tuple[str, ...],
    up: float | None,
    rib: int | None,
    left: int,
) -> Seats:
    """Lay out rows across the pins, one behind the other; rivets are counted row by row, as the horn's loads are."""
    wanted = {
        "rivet": bool(fixing.rivet),
        "fore_aft": fixing.fore_aft is not None,
        "sideways": fixing.sideways is not None,
        "gap_fore_aft": fixing.gap_fore_aft.known or fixing.fore_aft == 1,
        "gap_sideways": fixing.gap_sideways.known or fixing.sideways == 1,
        "first_behind": fixing.first_behind.known,
    }
    needs = tuple(f"{place}.fixed_with.{key}" for key, there in wanted.items() if not there)
    if fixing.fore_aft is None or fixing.sideways is None:
        return Seats(place, words, kind, fixing.rivet, joins, (), needs)
    laid = all(wanted.values())
    z = (np.arange(fixing.sideways) - 0.5 * (fixing.sideways - 1)) * (known(fixing.gap_sideways) or 0.0)
    lines = []
    for row in range(fixing.fore_aft):
        behind = plain(fixing.first_behind) + row * (known(fixing.gap_fore_aft) or 0.0) if laid else None
        label = f"row {row + 1}" if fixing.fore_aft > 1 else ""
        number = 1 + row * fixing.sideways
        at = np.asarray(left * z, dtype=np.float64) if laid else None
        lines.append(Line(label, ACROSS, fixing.sideways, number, at, up, None, behind, rib))
    return Seats(place, words, kind, fixing.rivet, joins, tuple(lines), needs)
