"""What one event did to a surface."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from surfacecheck.model import Surface

__all__ = ["Done"]


@dataclass(frozen=True)
class Done:
    """A surface with one event worked in.

    Attributes
    ----------
    surface : Surface
        With what changed.
    places : tuple of str
        Names of the places it touches.
    says : tuple of str
        What was done to the model, in plain words.
    left_open : bool
        Whether something about it is not published, so that the other bound differs.
    settles : bool
        Of an option: whether it settles what the event left open; one more rivet beside it does not.
    """

    surface: Surface
    places: tuple[str, ...] = ()
    says: tuple[str, ...] = ()
    left_open: bool = False
    settles: bool = True
