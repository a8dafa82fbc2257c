"""The whole of what a builder describes."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass, field
from functools import cached_property

from surfacecheck.model._apart import Apart
from surfacecheck.model._axes import left_is, said
from surfacecheck.model._brackets import Bracket
from surfacecheck.model._change import ChangeLaid, Happened
from surfacecheck.model._horn import Horn
from surfacecheck.model._mark import Mark
from surfacecheck.model._outline import Fin, Hinge, Outline
from surfacecheck.model._papers import Aeroplane, Controls, Load
from surfacecheck.model._rivets import Rivet, Row
from surfacecheck.model._scales import BalanceMass, Method, Weighed
from surfacecheck.model._sheet import Alloy, Doubler, NoseSkin, Ribs, Skin, Spar
from surfacecheck.model._tools import Tool
from surfacecheck.model._words import Half, Kind, Units
from surfacecheck.provenance import UNKNOWN, Source, Value

__all__ = ["Drawn", "Sheet", "Surface", "Swung"]

_NAMED = {"hinge", "bracket", "rivet", "row", "alloy", "tool"}


@dataclass(frozen=True)
class Sheet:
    """Part C: everything cut from sheet, by the names the rows use."""

    left_skin: Skin = field(default_factory=Skin)
    right_skin: Skin = field(default_factory=Skin)
    nose_skin: NoseSkin = field(default_factory=NoseSkin)
    spar: Spar = field(default_factory=Spar)
    ribs: Ribs = field(default_factory=Ribs)
    doublers: dict[str, Doubler] = field(default_factory=dict)


@dataclass(frozen=True)
class Swung:
    """A wind that took hold of the surface on the ground.

    Attributes
    ----------
    wind : Value
        Its speed [m/s].
    swing : Value
        How far the surface swung free before it met its stop [rad].
    gives : Value
        How far stop and cables then gave [rad].
    """

    wind: Value
    swing: Value = UNKNOWN
    gives: Value = UNKNOWN


class Drawn:
    """A surface before anything was laid over it; a holder, so that nobody counts its values a second time.

    Parameters
    ----------
    work : callable
        Gives the surface; called when it is first asked for.
    """

    def __init__(self, work: Callable[[], Surface]) -> None:
        self._work = work

    @cached_property
    def surface(self) -> Surface:
        """The surface as drawn."""
        return self._work()


@dataclass(frozen=True)
class Surface:
    """A control surface as its builder describes it.

    Field names are the keys of the file; ``from`` is ``start`` (``where_from`` in an alloy), ``yield`` is ``yield_``,
    ``try`` is ``options``. Every number is a :class:`~surfacecheck.provenance.Value`, positive towards the key's
    own word (up or out, behind, left or top; ``nose_ahead`` and ``ahead`` positive ahead); every word is an enum
    member or None where it is not known; every bare count an int or None.

    Attributes
    ----------
    hinges : dict of str to Hinge
        Sorted by ``up``, lowest first (hinges of unknown place last).
    horn : Horn or None
        None where the file has no horn.
    sheet : Sheet
        Skins, nose skin, spar, ribs, doublers.
    apart : dict of str to Apart
        Rivets that are not as their row or bracket says, by the name of their place: ``hinge.middle.bracket.rivet-3``,
        ``row.left_skin_to_spar.rivet-12``, ``horn.rivets.rivet-2``; whole brackets and rows that are off their place
        by the name of the whole. No key of the file: what happened puts them there.
    marks : dict of str to Mark
        Nicks, holes and thin spots of sheets, by the name of their place; no key of the file either.
    swung : Swung or None
        A wind that took hold of the surface; None where none did.
    sources : dict of str to Source
        How a *word* is known, by its key, where a bracket said so (``sheet.left_skin.alloy``).
    gaps : tuple of str
        Keys that are not known: answered ``"?"``, or left out where an answer is wanted.
    remarks : tuple of str
        Values outside the usual range, and other things to look at twice.
    path, sha256 : str
        The file and the hash of its bytes.
    changes : tuple of ChangeLaid
        What was laid over it, in order.
    drawn : Drawn or None
        The same before anything was laid over it; None where nothing was.
    """

    form: int = 1
    kind: Kind = Kind.RUDDER
    half: Half = Half.NONE
    name: str = ""
    drawing: str = ""
    who_decides: str = ""
    load: Load = field(default_factory=Load)
    aeroplane: Aeroplane = field(default_factory=Aeroplane)
    controls: Controls = field(default_factory=Controls)
    outline: Outline = field(default_factory=Outline)
    hinges: dict[str, Hinge] = field(default_factory=dict)
    fin: Fin = field(default_factory=Fin)
    horn: Horn | None = None
    sheet: Sheet = field(default_factory=Sheet)
    alloys: dict[str, Alloy] = field(default_factory=dict)
    rivets: dict[str, Rivet] = field(default_factory=dict)
    tools: dict[str, Tool] = field(default_factory=dict)
    rows: dict[str, Row] = field(default_factory=dict)
    brackets: dict[str, Bracket] = field(default_factory=dict)
    weighed: Weighed = field(default_factory=Weighed)
    balance_mass: BalanceMass = field(default_factory=BalanceMass)
    method: Method = field(default_factory=Method)
    apart: dict[str, Apart] = field(default_factory=dict)
    marks: dict[str, Mark] = field(default_factory=dict)
    swung: Swung | None = None
    sources: dict[str, Source] = field(default_factory=dict)
    gaps: tuple[str, ...] = ()
    remarks: tuple[str, ...] = ()
    units: Units = Units.METRIC
    path: str = ""
    sha256: str = ""
    changes: tuple[ChangeLaid, ...] = ()
    drawn: Drawn | None = field(default=None, repr=False, compare=False)

    @property
    def title(self) -> str:
        """The titles of the changes laid over it; ``as drawn`` where there is none."""
        return ", ".join(change.title for change in self.changes) or "as drawn"

    @property
    def happened(self) -> tuple[Happened, ...]:
        """Everything that happened, of all changes laid over it."""
        return tuple(one for change in self.changes for one in change.happened)

    @property
    def left_is(self) -> int:
        """Sign of z for a number that is positive to the left (top): +1 or -1."""
        return left_is(self.kind, self.half)

    def said(self, word: str) -> str:
        """Give this surface's word for a rudder's word (``left`` is ``top`` where it lies flat)."""
        return said(word, self.kind)

    def in_file(self, key: str) -> str:
        """Give a key in the words of this surface's file: ``hinge.inner.up`` is ``hinge.inner.out`` of a half."""
        parts = key.split(".")
        named = parts[0] in _NAMED  # the second part is then a name that the builder gave
        return ".".join(
            part if named and i == 1 else re.sub(r"^\w+", lambda found: self.said(found[0]), part)
            for i, part in enumerate(parts)
        )

    def sheet_words(self, name: str) -> str:
        """Name a sheet as this surface does: the left skin is the top skin of one that lies flat."""
        return "rib" if name == "ribs" else self.said(name).replace("_", " ")
