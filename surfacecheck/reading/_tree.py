"""A TOML file as a tree whose every leaf knows its file and line."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

__all__ = ["Leaf", "Node", "Place", "Rows", "Table", "planted"]


@dataclass(frozen=True, slots=True)
class Place:
    """Where something stands.

    Attributes
    ----------
    file : str
        Name of the file.
    line : int
        Line, counted from 1; 0 where it is not known.
    """

    file: str = ""
    line: int = 0


@dataclass(frozen=True, slots=True)
class Leaf:
    """One value as the TOML reader gave it."""

    value: Any
    place: Place


class Table(dict[str, "Node"]):
    """A table; the nodes by their keys."""

    def __init__(self, place: Place = Place()) -> None:
        super().__init__()
        self.place = place


class Rows(list["Node"]):
    """A list of values or of tables."""

    def __init__(self, place: Place) -> None:
        super().__init__()
        self.place = place


Node = Leaf | Table | Rows


def planted(raw: Any, lines: dict[tuple[str | int, ...], int], file: str, path: tuple[str | int, ...] = ()) -> Node:
    """Make the tree from plain TOML data.

    Parameters
    ----------
    raw : Any
        What ``tomllib`` gave.
    lines : dict
        Line of each path, as :func:`surfacecheck.reading._lines.lines_of` gives it.
    file : str
        Name of the file.
    path : tuple
        Path of ``raw``.

    Returns
    -------
    Node
        The same data with places.
    """
    place = Place(file, lines.get(path, 0))
    if isinstance(raw, dict):
        table = Table(place)
        for key, value in raw.items():
            table[key] = planted(value, lines, file, (*path, key))
        return table
    if isinstance(raw, list):
        rows = Rows(place)
        for at, value in enumerate(raw):
            rows.append(planted(value, lines, file, (*path, at)))
        return rows
    return Leaf(raw, place)
