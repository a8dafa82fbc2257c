"""Room behind the skin: a blind rivet sticks out before it is pulled, and a surface runs to a wedge."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.provenance import plain
from surfacecheck.rules import tail_room
from surfacecheck.studies.bench._seats import BEHIND

if TYPE_CHECKING:
    from collections.abc import Iterator

    from surfacecheck.model import Surface
    from surfacecheck.studies.bench._lengths import Chosen
    from surfacecheck.studies.bench._stacks import Stretch

__all__ = ["short_of_room"]


def short_of_room(surface: Surface, stretch: Stretch, chosen: Chosen | None) -> Iterator[str]:
    """Name the rivets of a rib row that find no room behind the skin towards the trailing edge.

    Parameters
    ----------
    surface : Surface
        For outline and skins.
    stretch : Stretch
        Rivets of a row from a skin into the ribs.
    chosen : Chosen or None
        Their length [m].

    Yields
    ------
    str
        One line where some find none.

    References
    ----------
    Common practice: :func:`surfacecheck.rules.tail_room`.
    """
    stack = stretch.stack.thickness
    places = [p for p in surface.outline.places if p.edge_behind.known and p.web_behind.known and p.spar_depth.known]
    if chosen is None or stack is None or not places or stretch.seats.kind != "rib":
        return
    head = getattr(surface.sheet, stretch.seats.joins[0], None)
    outer = plain(head.thickness) if head is not None and head.thickness.known else 0.0
    wanted = float(tail_room(chosen.length, stack))
    short, least = 0, np.inf
    for line, numbers in stretch.lines:
        if line.measured != BEHIND or line.at is None or line.up is None:
            continue
        at = [plain(p.up) for p in places]
        chord = np.interp(line.up, at, [plain(p.edge_behind) - plain(p.web_behind) for p in places])
        depth = np.interp(line.up, at, [plain(p.spar_depth) for p in places])
        behind = line.at[[number - line.first for number in numbers]]
        room = depth * (1.0 - behind / chord) + outer - stack
        short += int((room < wanted - 1e-9).sum())
        least = min(least, float(room.min()))
    if short:
        left = f"{short} nearest the trailing edge have down to {max(least, 0.0) * 1e3:.1f} mm behind the stack"
        yield f"{left}; a rivet of {chosen.length * 1e3:.1f} mm wants {wanted * 1e3:.1f} mm before it is pulled"
