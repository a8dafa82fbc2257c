"""What is gathered while a file is read: faults, gaps, remarks, how words are known."""

from __future__ import annotations

import difflib
from collections.abc import Iterable
from dataclasses import dataclass, field

from surfacecheck.errors import Fault
from surfacecheck.model import FLAT_WORDS, Kind, said
from surfacecheck.provenance import Source, Value
from surfacecheck.reading._tree import Node, Place, Table

__all__ = ["Context", "nearest"]

_ENOUGH = 50
"""Nobody reads so many faults: from there on no nearest word is looked for."""
_SEVERAL = 3
"""From so many places outside the surface on, its own end is what is wrong."""
_BACK = {flat: upright for upright, flat in FLAT_WORDS.items()}


def nearest(word: str, allowed: Iterable[str]) -> str:
    """Give the allowed word that looks most like one, or nothing."""
    found = difflib.get_close_matches(word.casefold(), [one.casefold() for one in allowed], 1, 0.6)
    return next((one for one in allowed if found and one.casefold() == found[0]), "")


@dataclass(frozen=True, slots=True)
class Outside:
    """Something that lies beyond an end of the surface.

    Attributes
    ----------
    what, value : str, Value
        ``hinge.top``, and its place.
    verb : str
        ``is at``, ``runs to``.
    end : Value
        Where the surface ends or begins.
    above : bool
        Beyond its end, not before its beginning.
    """

    what: str
    value: Value
    verb: str
    end: Value
    above: bool


@dataclass
class Context:
    """Gathers while one file is read.

    Attributes
    ----------
    tree : Table
        The tree that is read, to find the line of a key.
    kind : Kind
        Rudder, elevator or aileron: which words it uses.
    """

    tree: Table
    kind: Kind = Kind.RUDDER
    faults: list[Fault] = field(default_factory=list)
    gaps: list[str] = field(default_factory=list)
    remarks: list[str] = field(default_factory=list)
    sources: dict[str, Source] = field(default_factory=dict)
    units: list[str] = field(default_factory=list)
    outside: list[Outside] = field(default_factory=list)

    def said(self, word: str) -> str:
        """Give this surface's word for a rudder's word."""
        return said(word, self.kind)

    def meant(self, word: str) -> str:
        """Give the rudder's word for this surface's word."""
        return word if self.kind is Kind.RUDDER else _BACK.get(word, word)

    def foreign(self, word: str) -> str:
        """Give the word to use instead, where a word belongs to the other kind of surface."""
        if self.kind is Kind.RUDDER:
            return _BACK.get(word, "")
        return FLAT_WORDS.get(word, "")

    def fault(self, message: str, place: Place, key: str) -> None:
        """Note that something is wrong."""
        self.faults.append(Fault(message, place.file, place.line, key))

    def wrong(self, message: str, key: str) -> None:
        """Note that something is wrong, and find its line by its key."""
        self.fault(message, self.place_of(key), key)

    def place_of(self, key: str) -> Place:
        """Find the place of a key, or of the nearest table above it."""
        node: Node = self.tree
        place = self.tree.place
        for part in key.replace("[", ".").replace("]", "").split("."):
            if isinstance(node, Table) and part in node:
                node = node[part]
            elif isinstance(node, list) and part.isdigit() and 0 < int(part) <= len(node):
                node = node[int(part) - 1]
            else:
                break
            place = node.place if node.place.line else place
        return place

    def settle(self) -> None:
        """Note what lies outside the surface: one thing as its own fault, several as one of the outline."""
        for above in (True, False):
            found = [one for one in self.outside if one.above is above]
            verb = "ends" if above else "begins"
            if len({one.value.si for one in found}) < _SEVERAL:
                for one in found:
                    message = f"{one.what} {one.verb} {one.value.said}, the surface {verb} at {one.end.said}."
                    self.wrong(message, one.value.key)
                continue
            first = "; ".join(f"{one.what} {one.verb} {one.value.said}" for one in found[:_SEVERAL])
            more = f"; and {len(found) - _SEVERAL} more" if len(found) > _SEVERAL else ""
            said = f"the surface {verb} at {found[0].end.said}, and {len(found)} places lie outside: {first}{more}."
            self.wrong(f"{said} Is this place right?", found[0].end.key)
        self.outside.clear()

    def unknown(self, word: str, allowed: Iterable[str], place: Place, key: str, where: str = "") -> None:
        """Note a word that is not one of those allowed here."""
        allowed = list(allowed)
        instead = self.foreign(word)
        near = nearest(word[:40], allowed) if len(self.faults) < _ENOUGH else ""
        if instead in allowed:
            article = "an" if self.kind is not Kind.RUDDER else "a"
            message = f'{article} {self.kind} says "{instead}" where another surface says "{word}".'
        else:
            told = f" Nearest: {near}." if near else ""
            message = f'unknown word "{word[:40]}".{told} Allowed {where or "here"}: {", ".join(allowed)}.'
        self.fault(message, place, key)
