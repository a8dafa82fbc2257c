"""What to look for on a part after a storm or an over-travel: common practice of inspection, by the kind of part."""

from __future__ import annotations

import re

__all__ = ["ALSO_LOOK", "look_for"]

_LOOK = (
    (r"hinge\..*\.pin$", "pin out and rolled on glass; bush or hole oval, rim pressed up; turns freely by hand"),
    (r"hinge\..*\.bracket\.lug$", "hole oval by two calipers; crack from the hole to the end; paint cracked round it"),
    (r"hinge\..*\.bracket\.leg$", "bent leg against a square; crack in the bend radius; both legs alike"),
    (r"hinge\..*\.bracket\.web$", "web dished or cracked beside the bracket, also from behind; dye on the corners"),
    (r"hinge\..*\.bracket$", "rivets tipped, loose or with a dark streak; holes drawn; bracket square to the spar"),
    (r"horn", "horn bent, by a straight edge; bolt hole oval; rivets tipped; the rib it sits on"),
    (r"row\..*ribs", "rivets tipped or streaked; skin drawn round the heads; rib flange bent, most at the horn's rib"),
    (
        r"row\.trailing_edge",
        "edge waved or hooked, by a straight edge; laps moved, paint line between them broken",
    ),
    (r"row\.", "a finger nail along the row: heads lifted, tipped, dark streaks; skin drawn round them"),
    (r"spar", "flanges for a kink or a wave, by a straight edge along the span; crack in the bend radius"),
    (r"panel\.", "wrinkles that stayed, by a lamp held flat; creases, most of all a crease through a rivet row"),
)

ALSO_LOOK = (
    "the lock and where it took hold; a lock that let go has been loaded",
    "stops, their faces and rivets; cables, pulleys, push rods, turnbuckles, pedals or stick",
    "fixed side of the hinges: fin, stabiliser or wing, its spar and what holds that",
    "twist of the surface against the mirror side, by two straight edges and a level",
    "line of the pins by a thread; swing by hand from stop to stop, no binding, no click",
    "balance: weigh again, water or a broken weight moves it",
    "the tab, its hinge and its rod",
    "a change of trim that somebody noticed since: a sign that something moved",
)
"""What no margin of the surface speaks of: common practice."""


def look_for(place: str) -> str:
    """Say what to look for on a part.

    Parameters
    ----------
    place : str
        Path of a check, such as ``hinge.bottom.pin``.

    Returns
    -------
    str
        Common practice; empty for a place of no known kind.

    Examples
    --------
    >>> look_for("spar.web").partition(",")[0]
    'flanges for a kink or a wave'
    """
    return next((says for pattern, says in _LOOK if re.match(pattern, place)), "")
