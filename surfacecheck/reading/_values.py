"""One answer of the file: a number with unit, side and bracket becomes a Value."""

from __future__ import annotations

import math
import re
from dataclasses import replace

from surfacecheck.errors import SurfaceError
from surfacecheck.model import Spec
from surfacecheck.provenance import UNKNOWN, Basis, Source, Value
from surfacecheck.quantities import GRAVITY, parse, without_unit
from surfacecheck.reading._context import Context
from surfacecheck.reading._plausible import judged
from surfacecheck.reading._tree import Leaf, Node

__all__ = ["bracket_of", "read_value", "source_of"]

_INSTRUMENTS = frozenset({
    "micrometer", "caliper", "calipers", "ruler", "tape", "thread", "scale", "scales", "template", "gauge", "gage",
    "feeler", "drill", "shank", "protractor", "level", "strip", "square", "straightedge", "counted", "measured",
    "weighed",
})  # fmt: skip
_PHRASES = ("pull test", "paper strip", "spring scale")
_DIRECTIONS = frozenset({
    "up", "down", "out", "in", "ahead", "behind", "left", "right", "top", "bottom", "inward", "outward",
})  # fmt: skip


def source_of(words: str | None) -> Source:
    """Tell how a value is known from the words in its bracket.

    The first word ``drawing`` or ``guess`` decides; a listed instrument before the first comma means measured;
    anything else is kept as said; no bracket is not said.

    Examples
    --------
    >>> [str(source_of(one)) for one in ("micrometer", "drawing R-10", "guess, from a photo", "sheet 7", None)]
    ['measured: micrometer', 'drawing: drawing R-10', 'guess: guess, from a photo', 'as said: sheet 7', 'not said']
    """
    text = (words or "").strip()
    if not text:
        return Source(Basis.NOT_SAID)
    found = re.findall(r"[^\W\d_]+", text.partition(",")[0].casefold())
    first = found[0] if found else ""
    if first in {"drawing", "guess"}:
        return Source(Basis(first), text)
    if _INSTRUMENTS.intersection(found) or any(phrase in text.casefold() for phrase in _PHRASES):
        return Source(Basis.MEASURED, text)
    return Source(Basis.AS_SAID, text)


def bracket_of(text: str) -> tuple[str, str | None]:
    """Split an answer from the bracket behind it.

    Examples
    --------
    >>> bracket_of("0.50 mm (micrometer)"), bracket_of("drill")
    (('0.50 mm', 'micrometer'), ('drill', None))
    """
    found = re.fullmatch(r"\s*(.*?)\s*\((.*)\)\s*", text, re.DOTALL)
    return (found[1], found[2]) if found else (text.strip(), None)


def read_value(node: Node, spec: Spec, key: str, context: Context) -> Value:
    """Read one number with its unit; faults, gaps and remarks go to the context.

    Parameters
    ----------
    node : Node
        What stands in the file.
    spec : Spec
        What is asked.
    key : str
        Path of the key.
    context : Context
        Gathers what is found.

    Returns
    -------
    Value
        Unknown where it is ``"?"`` or wrong.
    """
    unknown = replace(UNKNOWN, key=key)
    if not isinstance(node, Leaf):
        context.fault("one value is meant here, not a list or a table", node.place, key)
        return unknown
    try:
        return _read(node, spec, key, context, unknown)
    except SurfaceError as err:
        context.fault(str(err), node.place, key)
        return unknown


def _read(leaf: Leaf, spec: Spec, key: str, context: Context, unknown: Value) -> Value:
    if not isinstance(leaf.value, str):
        return _bare(leaf, spec, key, context)
    text, words = bracket_of(leaf.value)
    source = source_of(words)
    if text == "?":
        context.gaps.append(key)
        return unknown
    if not text:
        message = 'empty: write "?" if it is not known yet'
        raise SurfaceError(message)
    if text.casefold() == "none":
        if not spec.none:
            message = '"none" is no answer here: write "?" if it is not known yet'
            raise SurfaceError(message)
        return Value(0.0, text, source, key, absent=True)
    if re.match(r"-\s*[0-9.]", text):
        raise SurfaceError(_minus(text, spec, context))
    amount, sign = _side(text, spec, key, context)
    si, unit = _parsed(amount, spec)
    context.units.append(unit)
    value = Value(sign * si if sign * si else 0.0, text, source, key)
    judged(value, unit, spec, context)
    return value


def _minus(text: str, spec: Spec, context: Context) -> str:
    if not spec.toward:
        return f'"{text}" is below zero; it is counted from zero up.'
    ways = [context.said(one) for one in spec.toward]
    amount = text.lstrip("- ")
    amount = amount.rpartition(" ")[0] if amount.rpartition(" ")[2] in ways else amount
    return f'"{text}" has a minus. Write the side: "{amount} {ways[0]}" or "{amount} {ways[1]}".'


def _bare(leaf: Leaf, spec: Spec, key: str, context: Context) -> Value:
    number = leaf.value
    if isinstance(number, bool) or not isinstance(number, int | float):
        message = f'{str(number).lower()} is no number with a unit. Write it like "0.63 mm".'
        raise SurfaceError(message)
    if not math.isfinite(number):
        message = f'{number} is no number: write "?" if it is not known yet'
        raise SurfaceError(message)
    if spec.quantity != "number":
        raise SurfaceError(without_unit(str(number), spec.quantity))
    value = Value(parse(str(number), "number")[0], str(number), Source(Basis.NOT_SAID), key)
    if number < 0:
        message = f"{number} is below zero; it is counted from zero up."
        raise SurfaceError(message)
    judged(value, "", spec, context)
    return value


def _side(text: str, spec: Spec, key: str, context: Context) -> tuple[str, int]:
    """Take the word of direction off, and give it a sign."""
    head, _, last = text.rpartition(" ")
    ways = [context.said(one) for one in spec.toward]
    is_unit = last == "in" and re.fullmatch(r"[0-9./\s]+", head) is not None
    if last in ways and not is_unit:
        return head, 1 if last == ways[0] else -1
    if last in _DIRECTIONS and head and last != "in":
        if ways:
            message = f'"{last}" is no way here: write "{head} {ways[0]}" or "{head} {ways[1]}".'
        else:
            message = f'no side is asked here. Write "{head}".'
        raise SurfaceError(message)
    name = key.rpartition(".")[2]
    if ways and spec.toward[0] not in name and ways[0] not in name and re.search("[1-9]", text):
        message = f'which way? Write "{text} {ways[0]}" or "{text} {ways[1]}".'
        raise SurfaceError(message)
    return text, 1


def _parsed(text: str, spec: Spec) -> tuple[float, str]:
    try:
        return parse(text, spec.quantity)
    except SurfaceError as err:
        if not spec.also:
            raise
        try:
            si, unit = parse(text, spec.also)
        except SurfaceError:
            raise err from None
        if (spec.quantity, spec.also) in {("force", "mass"), ("torque", "mass_moment")}:
            return si * GRAVITY, unit
        return si, unit
