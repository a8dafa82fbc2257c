"""The ways a surface could be after something happened: as drawn, as it is now, and each option."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

if TYPE_CHECKING:
    from surfacecheck.model import Surface

__all__ = ["Column"]


@dataclass(frozen=True)
class Column:
    """One way a surface could be.

    Attributes
    ----------
    title : str
        ``as drawn``, ``as it is now``, ``next size 4.8 mm`` ...
    kind : str
        ``drawn``, ``now`` or ``option``.
    fully : Surface
        With whatever is not published taken to hold fully.
    nothing : Surface or None
        The same with it taken to hold nothing; None where nothing is left open.
    places : tuple of str
        Names of the places it touches, such as ``hinge.middle.bracket.rivet-3``.
    says : tuple of str
        What was done to the model for it, in plain words.
    not_offered : tuple of str
        Of the surface as it is now: options that the nature of an event offers and that cannot be there, each with why.
    """

    title: str
    kind: Literal["drawn", "now", "option"]
    fully: Surface
    nothing: Surface | None = None
    places: tuple[str, ...] = ()
    says: tuple[str, ...] = ()
    not_offered: tuple[str, ...] = ()
