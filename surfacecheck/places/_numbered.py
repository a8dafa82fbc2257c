"""Rivets by their numbers: how many there are, and which of them are meant."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.errors import SurfaceError
from surfacecheck.places._layout import plan_row

if TYPE_CHECKING:
    from surfacecheck.model import Surface

__all__ = ["numbered", "rivets_of_bracket", "rivets_of_horn", "rivets_of_row"]


def rivets_of_bracket(surface: Surface, hinge: str) -> int:
    """Count the rivets of a hinge's bracket; 0 while they are not described."""
    bracket = surface.brackets.get(surface.hinges[hinge].bracket)
    return 0 if bracket is None else (bracket.along or 0) * (bracket.sideways or 0)


def rivets_of_horn(surface: Surface) -> int:
    """Count the rivets of the horn; 0 while they are not described."""
    if surface.horn is None:
        return 0
    return (surface.horn.fixed_with.fore_aft or 0) * (surface.horn.fixed_with.sideways or 0)


def rivets_of_row(surface: Surface, name: str, rib: int, text: str = "", listed: str | None = None) -> int:
    """Count the rivets of a row, or of one rib of it.

    Parameters
    ----------
    surface : Surface
        Whose row.
    name : str
        Its name in the file.
    rib : int
        Number of the rib, from 1; 0 for none [-].
    text : str
        The whole as typed, for messages.
    listed : str, optional
        The rivets asked for; where some are, a row of ribs must say which rib.

    Returns
    -------
    int
        0 while the row cannot be laid out.

    Raises
    ------
    SurfaceError
        Where a row on ribs does not say on which, or another one does.
    """
    plan = plan_row(surface, surface.rows[name])
    if plan is None:
        return 0
    if plan.rib_count.size:
        if listed and not rib:
            message = (
                f'"{text}": this row is on every rib. Write which: {name.replace("_", " ")}, rib 3, rivet {listed}'
            )
            raise SurfaceError(message)
        return int(plan.rib_count[..., rib - 1].max()) * plan.lines if rib else int(np.max(plan.total))
    if rib:
        message = f'"{text}": this row runs along the pins, not on ribs. Write: {name.replace("_", " ")}, rivet 12'
        raise SurfaceError(message)
    return int(np.max(plan.total))


def numbered(listed: str | None, count: int, text: str) -> tuple[int, ...]:
    """Read ``3``; ``3 and 4``; ``12, 13 and 20``; ``12 to 15``.

    Parameters
    ----------
    listed : str or None
        As typed, in plain words; None for no list.
    count : int
        Rivets there are [-].
    text : str
        The whole as typed, for messages.

    Returns
    -------
    tuple of int
        Each once, in the order typed; empty where none was listed.

    Raises
    ------
    SurfaceError
        For what is no list of numbers, or a rivet that is not there.

    Examples
    --------
    >>> numbered("12 13 and 20 to 22", 43, "")
    (12, 13, 20, 21, 22)
    """
    if listed is None:
        return ()
    found: list[int] = []
    spread = re.sub(r"\s*(?:to|-)\s*", "-", re.sub(r"\s*(?:,|\+|\band\b|\brivets?\b)\s*", " ", listed))
    for one in spread.split():
        ends = re.fullmatch(r"(\d{1,5})(?:-(\d{1,5}))?", one)
        if ends is None or int(ends[2] or ends[1]) < int(ends[1]):
            message = f'"{text}": "{listed}" is no list of rivets. Write: rivet 3; rivets 3 and 4; rivets 12 to 15'
            raise SurfaceError(message)
        found += range(int(ends[1]), int(ends[2] or ends[1]) + 1)
    wrong = next((one for one in found if not 1 <= one <= count), None)
    if wrong is not None:
        here = f"there are rivet 1 to rivet {count}" if count else "its rivets are not described yet"
        message = f'"{text}": there is no rivet {wrong}; {here}'
        raise SurfaceError(message)
    return tuple(dict.fromkeys(found))
