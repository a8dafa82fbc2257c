"""The two answers with a form of their own: how the cable leaves the horn, and how the fin moves."""

from __future__ import annotations

import re

from surfacecheck.errors import SurfaceError
from surfacecheck.model import Leaves, Spec
from surfacecheck.provenance import Source, Value
from surfacecheck.quantities import parse
from surfacecheck.reading._context import Context
from surfacecheck.reading._tree import Leaf, Node, Rows
from surfacecheck.reading._values import bracket_of, read_value, source_of

__all__ = ["read_leaves", "read_moves"]


def read_leaves(node: Node, key: str, context: Context) -> Leaves | None:
    """Read ``"straight ahead"``, ``"12 deg inward"``, ``"12 deg inward, 5 deg up"``, ``"straight behind"``.

    Parameters
    ----------
    node : Node
        What stands in the file.
    key : str
        Path of the key.
    context : Context
        Gathers faults and gaps.

    Returns
    -------
    Leaves or None
        None where it is not known.
    """
    if not isinstance(node, Leaf) or not isinstance(node.value, str):
        context.fault('write it like "straight ahead" or "12 deg inward"', node.place, key)
        return None
    text, words = bracket_of(node.value)
    if text == "?":
        context.gaps.append(key)
        return None
    try:
        return _leaves(text, source_of(words), key, context)
    except SurfaceError as err:
        context.fault(str(err), node.place, key)
        return None


def _leaves(text: str, source: Source, key: str, context: Context) -> Leaves:
    zero = Value(0.0, text, source, key)  # said as a whole: the page shows what stands in the file
    inward, up, ahead = zero, zero, True
    ways = {"inward": ("inward", 1), "outward": ("inward", -1)}
    ways |= {context.said("up"): ("up", 1), context.said("down"): ("up", -1)}
    for piece in re.split(r"\s*,\s*|\s+and\s+", text):
        straight = re.fullmatch(r"(?:straight\s+)?(ahead|behind)", piece)
        if straight:
            ahead = straight[1] == "ahead"
            continue
        amount, _, way = piece.rpartition(" ")
        if way not in ways:
            message = f'"{text}": write "straight ahead", or an angle out of it such as "12 deg inward" '
            raise SurfaceError(message + f"({', '.join(ways)}).")
        name, sign = ways[way]
        si, unit = parse(amount, "angle")
        if not 0 <= si < 1.5708:
            message = f'"{piece}": an angle out of straight is 0 to 89 deg'
            raise SurfaceError(message)
        context.units.append(unit)
        value = Value(sign * si, text, source, key)
        inward, up = (value, up) if name == "inward" else (inward, value)
    return Leaves(ahead, inward, up)


def read_moves(node: Node, spec: Spec, key: str, context: Context) -> tuple[tuple[Value, ...], ...] | None:
    """Read how far each pin moves for a force at each pin; bare numbers are mm/kN.

    Parameters
    ----------
    node : Node
        A list of lists.
    spec : Spec
        What is asked.
    key : str
        Path of the key.
    context : Context
        Gathers faults and gaps.

    Returns
    -------
    tuple of tuple of Value or None
        A square table [m/N]; None where it is not known.
    """
    if isinstance(node, Leaf) and node.value == "?":
        context.gaps.append(key)
        return None
    if not isinstance(node, Rows) or not all(isinstance(row, Rows) and len(row) == len(node) for row in node):
        context.fault("a line for each hinge, and in it a number for each hinge, in mm/kN", node.place, key)
        return None
    lines = []
    for at, row in enumerate(node, 1):
        assert isinstance(row, Rows)  # noqa: S101 - looked at above
        lines.append(tuple(_entry(one, spec, f"{key}[{at}][{to}]", context) for to, one in enumerate(row, 1)))
    moves = tuple(lines)
    _symmetric(moves, node, key, context)
    return moves


def _entry(node: Node, spec: Spec, key: str, context: Context) -> Value:
    plain = node.value if isinstance(node, Leaf) else None
    if isinstance(plain, int | float) and not isinstance(plain, bool):
        node = Leaf(f"{plain} {spec.hint}", node.place)
    if not isinstance(node, Leaf) or not isinstance(node.value, str) or bracket_of(node.value)[0] in {"?", "none"}:
        return read_value(node, spec, key, context)
    text, words = bracket_of(node.value)
    try:
        si, unit = parse(text, spec.quantity)
    except SurfaceError as err:
        context.fault(str(err), node.place, key)
        return Value(None, "?", key=key)
    context.units.append(unit)
    return Value(si, text, source_of(words), key)


def _symmetric(moves: tuple[tuple[Value, ...], ...], node: Node, key: str, context: Context) -> None:
    for i, row in enumerate(moves):
        for j, one in enumerate(row[:i]):
            other = moves[j][i]
            if one.si is None or other.si is None:
                continue
            if abs(float(one.si) - float(other.si)) > 0.02 * max(abs(float(one.si)), abs(float(other.si))):
                message = f"pin {i + 1} for a force at pin {j + 1} moves {one.said}, the other way round "
                message += f"{other.said}: of one and the same fin both are equal"
                context.fault(message, node.place, key)
                return
