"""Every value of the file as it was given, by part of the file, with how it is known."""

from __future__ import annotations

from dataclasses import fields, is_dataclass
from typing import TYPE_CHECKING

from surfacecheck.provenance import Basis, Value
from surfacecheck.tables import Table

if TYPE_CHECKING:
    from collections.abc import Iterator

    from surfacecheck.assessment import Assessment
    from surfacecheck.model import Surface

__all__ = ["PARTS", "doubted_table", "given_values", "how_known", "input_tables"]

PARTS = (
    ("A papers", ("load", "aeroplane", "controls")),
    ("B tape and thread", ("outline", "hinge", "fin", "horn")),
    ("C micrometer", ("sheet", "alloy")),
    ("D rivet packet", ("rivet", "tool")),
    ("E rivet rows", ("row",)),
    ("F brackets and pins", ("bracket",)),
    ("G scales", ("weighed", "balance_mass")),
    ("H how to calculate", ()),
)
"""Parts of the file, each with the first words of its keys; what is left over goes to the last."""
_DOUBTED = {Basis.GUESS, Basis.NOT_SAID}
_HEADS = ("key", "value as given", "how known", "with what")


def values_of(node: object) -> Iterator[Value]:
    """Walk through every value of a surface."""
    if isinstance(node, Value):
        yield node
    elif is_dataclass(node):
        for one in fields(node):
            yield from values_of(getattr(node, one.name))
    elif isinstance(node, dict):
        for inner in node.values():
            yield from values_of(inner)
    elif isinstance(node, tuple):
        for inner in node:
            yield from values_of(inner)


def given_values(surface: Surface) -> tuple[Value, ...]:
    """List every value that the file gives, each key once."""
    found = (v for v in values_of(surface) if v.key and (v.known or v.absent))
    return tuple({value.key: value for value in found}.values())


def how_known(value: Value) -> tuple[str, str]:
    """Say how a value is known, and with what: ``measured``, ``micrometer``."""
    text = value.source.text
    return str(value.source.basis), "" if text == value.source.basis else text


def _row(value: Value) -> tuple[str, ...]:
    return (value.key, value.said, *how_known(value))


def doubted_table(assessment: Assessment) -> Table:
    """Give the values that are guessed or without a word how known."""
    doubted = (v for v in given_values(assessment.surface) if v.source.basis in _DOUBTED)
    return Table(_HEADS, tuple(_row(v) for v in doubted), "llll")


def input_tables(assessment: Assessment) -> dict[str, Table]:
    """Give every value of the file, part by part.

    Parameters
    ----------
    assessment : Assessment
        Perhaps of a half-filled surface.

    Returns
    -------
    dict of str to Table
        By the name of the part with the counts of how its values are known; parts without a value are left out.
    """
    parts: dict[str, list[Value]] = {name: [] for name, _ in PARTS}
    home = {word: name for name, words in PARTS for word in words}
    for value in given_values(assessment.surface):
        parts[home.get(value.key.split(".")[0], PARTS[-1][0])].append(value)
    out = {}
    for name, values in parts.items():
        counts: dict[str, int] = {}
        for value in values:
            counts[str(value.source.basis)] = counts.get(str(value.source.basis), 0) + 1
        said = ", ".join(f"{count} {basis}" for basis, count in counts.items())
        if values:
            out[f"{name}: {said}"] = Table(_HEADS, tuple(_row(v) for v in values), "llll")
    return out
