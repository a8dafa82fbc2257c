"""What is gathered while a file is read: faults, gaps, remarks, how words are known."""

from __future__ import annotations

import difflib
from collections.abc import Iterable
from dataclasses import dataclass, field

from surfacecheck.errors import Fault
from surfacecheck.model import FLAT_WORDS, Kind, said
from surfacecheck.provenance import Source
from surfacecheck.reading._tree import Node, Place, Table

__all__ = ["Context", "nearest"]

_ENOUGH = 50
"""Nobody reads so many faults: from there on no nearest word is looked for."""
_BACK = {flat: upright for upright, flat in FLAT_WORDS.items()}


def nearest(word: str, allowed: Iterable[str]) -> str:
    """Give the allowed word that looks most like one, or nothing."""
    found = difflib.get_close_matches(word.casefold(), [one.casefold() for one in allowed], 1, 0.6)
    return next((one for one in allowed if found and one.casefold() == found[0]), "")


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
