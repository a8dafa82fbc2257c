"""The chordwise shape that somebody types: points along the loaded chord, beside each the pressure there."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

from surfacecheck.errors import SurfaceError
from surfacecheck.model import Spec
from surfacecheck.provenance import Value
from surfacecheck.quantities import parse
from surfacecheck.reading._context import Context
from surfacecheck.reading._tree import Leaf, Node, Rows
from surfacecheck.reading._values import bracket_of, read_value, source_of

__all__ = ["read_shape"]

_LIKE = '[["0 %", "1"], ["40 %", "1"], ["100 %", "0"]]'


def read_shape(node: Node, spec: Spec, key: str, context: Context) -> tuple[tuple[Value, Value], ...] | None:
    """Read points such as ``["40 %", "1"]``: how far along the loaded chord, and the pressure there on any scale.

    The pressure is straight between points and never negative: a shape that presses both ways is no shape of one
    mean pressure, and belongs in a case of its own.

    Parameters
    ----------
    node : Node
        A list of pairs, or ``"?"``.
    spec : Spec
        What is asked.
    key : str
        Path of the key.
    context : Context
        Gathers faults and gaps.

    Returns
    -------
    tuple of (Value, Value), or None
        Fraction of the loaded chord, rising from 0 to 1, and relative pressure [-]; None where it is not known.
    """
    if isinstance(node, Leaf) and isinstance(node.value, str) and bracket_of(node.value)[0] == "?":
        context.gaps.append(key)
        return None
    if not isinstance(node, Rows) or not all(isinstance(pair, Rows) and len(pair) == 2 for pair in node):
        context.fault(f"points along the chord are meant here, in pairs: {_LIKE}", node.place, key)
        return None
    before = len(context.faults)
    points = []
    for at, pair in enumerate(node, 1):
        assert isinstance(pair, Rows)  # noqa: S101 - looked at above
        place, pressure = f"{key}[{at}][1]", f"{key}[{at}][2]"
        points.append((_along(pair[0], place, context), _pressure(pair[1], spec, pressure, context)))
    if len(context.faults) > before:
        return None
    if any(not one.known for pair in points for one in pair):
        context.gaps.append(key)
        return None
    fault = _fault(points)
    if fault:
        context.fault(fault, node.place, key)
        return None
    return tuple(points)


def _along(node: Node, key: str, context: Context) -> Value:
    """Read a place along the loaded chord, such as ``"40 %"``."""
    unknown = Value(None, "?", key=key)
    text, words = bracket_of(node.value) if isinstance(node, Leaf) and isinstance(node.value, str) else ("", None)
    if text == "?":
        return unknown
    if not text.endswith("%"):
        shown = text or (str(node.value) if isinstance(node, Leaf) else "a list or a table")
        message = f'"{shown[:20]}" is no place along the chord: write "40 %", with the % and with quotes'
        context.fault(message, node.place, key)
        return unknown
    if text.startswith("-"):
        context.fault(_off(text), node.place, key)
        return unknown
    try:
        fraction = parse(text[:-1].strip(), "number")[0] / 100.0
    except SurfaceError as err:
        context.fault(str(err), node.place, key)
        return unknown
    if fraction > 1.0:
        context.fault(_off(text), node.place, key)
        return unknown
    return Value(fraction, text, source_of(words), key)


def _off(text: str) -> str:
    return f'"{text}" is not on the loaded chord: 0 % is where the load begins, 100 % the trailing edge.'


def _pressure(node: Node, spec: Spec, key: str, context: Context) -> Value:
    typed = node.value if isinstance(node, Leaf) else None
    if (isinstance(typed, str) and typed.strip().startswith("-")) or (
        isinstance(typed, int | float) and not isinstance(typed, bool) and typed < 0
    ):
        message = f'"{typed}" has a minus: a typed shape presses one way all along. Both ways are run by themselves.'
        context.fault(message, node.place, key)
        return Value(None, "?", key=key)
    value = read_value(node, replace(spec, kind="measure"), key, context)
    if not value.known and context.gaps and context.gaps[-1] == key:
        context.gaps.pop()  # the whole shape is what is not known
    return value


def _fault(points: list[tuple[Value, Value]]) -> str:
    if len(points) < 2:
        return f"one point is no shape: give two or more, such as {_LIKE}"
    places = [place for place, _ in points]
    for ahead, behind in pairwise(places):
        if float(behind.si or 0.0) <= float(ahead.si or 0.0):
            return (
                f'"{behind.said}" comes after "{ahead.said}": points go from 0 % to 100 %, each beyond the one before.'
            )
    for one, end, where in ((places[0], 0.0, "begins"), (places[-1], 1.0, "ends")):
        if one.si != end:
            return f'the shape {where} at "{one.said}": give the pressure at "{end * 100:.0f} %" too; nothing is "0".'
    if not any(pressure.si for _, pressure in points):
        return "the pressure is 0 all along: above 0 at one point at least, or there is no load to lay out."
    return ""
