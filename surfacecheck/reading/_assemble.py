"""A whole tree becomes a Surface."""

from __future__ import annotations

import math
from dataclasses import replace
from enum import StrEnum
from typing import Any

from surfacecheck.errors import Fault, SurfaceError
from surfacecheck.model import (
    Aeroplane,
    Alloy,
    BalanceMass,
    Bracket,
    Controls,
    Doubler,
    Fin,
    Half,
    Hinge,
    Horn,
    Kind,
    Load,
    Method,
    NoseSkin,
    Outline,
    Ribs,
    Rivet,
    Row,
    Sheet,
    Skin,
    Spar,
    Surface,
    Tool,
    Units,
    Weighed,
)
from surfacecheck.quantities import system_of
from surfacecheck.reading._context import Context
from surfacecheck.reading._cross import check_layout
from surfacecheck.reading._fields import build, read_named, read_text_of, read_word
from surfacecheck.reading._finish import finished
from surfacecheck.reading._joins import check_rows, without_absent
from surfacecheck.reading._names import check_names
from surfacecheck.reading._tree import Leaf, Table
from surfacecheck.reading._weighing import check_weighed

__all__ = ["FIXED_TABLES", "NAMED_TABLES", "assembled"]

_MOST_FAULTS = 5

#: Tables with fixed keys: key of the file, field, class.
FIXED_TABLES: tuple[tuple[str, str, Any], ...] = (
    ("load", "load", Load),
    ("aeroplane", "aeroplane", Aeroplane),
    ("controls", "controls", Controls),
    ("outline", "outline", Outline),
    ("fin", "fin", Fin),
    ("horn", "horn", Horn),
    ("weighed", "weighed", Weighed),
    ("balance_mass", "balance_mass", BalanceMass),
    ("method", "method", Method),
)
#: Tables of tables by the builder's own names.
NAMED_TABLES: tuple[tuple[str, str, Any], ...] = (
    ("hinge", "hinges", Hinge),
    ("alloy", "alloys", Alloy),
    ("rivet", "rivets", Rivet),
    ("tool", "tools", Tool),
    ("row", "rows", Row),
    ("bracket", "brackets", Bracket),
)
FORM = 1
"""Of the file: a key that changes its meaning makes the next one."""
_PLAIN = ("name", "drawing", "who_decides")
_HEAD = ("form", "kind", "half", *_PLAIN)
_MAY_MISS = {"aeroplane", "fin", "method", "alloy", "balance_mass", "tool"}


def assembled(tree: Table) -> Surface:
    """Make a Surface from a tree with everything resolved.

    Parameters
    ----------
    tree : Table
        The file, changes laid over.

    Returns
    -------
    Surface
        Without path, hash and changes.

    Raises
    ------
    SurfaceError
        With up to five faults.
    """
    context = Context(tree)
    _of_this_form(tree, context)
    head = _head(tree, context)
    allowed = [*_HEAD, *(one[0] for one in (*FIXED_TABLES, *NAMED_TABLES)), "sheet"]
    for key in tree:
        if key not in allowed:
            _stray(key, tree, allowed, context)
    given: dict[str, Any] = {}
    for key, field, cls in FIXED_TABLES:
        if key in tree:
            given[field] = build(cls, tree[key], key, context)
        elif key not in _MAY_MISS:
            context.gaps.append(key)
    for key, field, cls in NAMED_TABLES:
        if key in tree:
            given[field] = read_named(cls, tree[key], key, context)
        elif key not in _MAY_MISS:
            context.gaps.append(key)
    given["sheet"] = _sheet(tree, context)
    given["hinges"] = _sorted(given.get("hinges", {}))
    surface = without_absent(Surface(**head, **given), context)
    for check in (check_layout, check_names, check_rows, check_weighed):
        check(surface, context)
    context.settle()
    if context.faults:
        raise SurfaceError(*_few(context.faults))
    surface = finished(surface, context)
    return replace(
        surface,
        sources=dict(context.sources),
        gaps=tuple(dict.fromkeys(context.gaps)),
        remarks=tuple(dict.fromkeys(context.remarks)),
        units=_units(context.units),
    )


def _few(faults: list[Fault]) -> list[Fault]:
    """Take the first five in the order of the file; a line copied by ``same_as`` is at fault once."""
    once: dict[tuple[str, int, str, str], Fault] = {}
    for one in sorted(faults, key=lambda one: (one.file, one.line)):
        once.setdefault((one.file, one.line, one.key.rpartition(".")[2], one.message.partition(". ")[0]), one)
    found = list(once.values())
    left = len(found) - _MOST_FAULTS
    return [*found[:_MOST_FAULTS], Fault(f"and {left} more")] if left > 0 else found


def _of_this_form(tree: Table, context: Context) -> None:
    """Stop at a file of a newer form: whatever else it says is not for this program to judge."""
    form = tree.get("form")
    value = form.value if isinstance(form, Leaf) else None
    if form is None or (value == FORM and value is not True):
        return
    newer = isinstance(value, int) and value > FORM
    told = f"form {value} is of a newer surfacecheck; this one reads {FORM}: fetch the newer one" if newer else ""
    context.wrong(told or f"form is {FORM}: the form this file is written in", "form")
    if newer:
        raise SurfaceError(*context.faults)


def _head(tree: Table, context: Context) -> dict[str, Any]:
    kind = _word(Kind, "kind", tree, context)
    half = _word(Half, "half", tree, context) or Half.NONE  # before the words of a flat half come to hold
    context.kind = kind or Kind.RUDDER
    if kind is None and "kind" not in tree:
        context.wrong(f"kind is missing: write one of {', '.join(Kind)}", "kind")
    if kind is not None and kind is not Kind.RUDDER and half is Half.NONE:
        context.wrong(f'an {kind} has halves: write half = "left" or half = "right"', "half")
    if kind is Kind.RUDDER and half is not Half.NONE:
        context.wrong('a rudder has no halves: write half = "none"', "half")
    plain = {key: read_text_of(tree[key], key, context, raw=True) for key in _PLAIN if key in tree}
    return {"kind": context.kind, "half": half, **plain}


def _word(enum: type[StrEnum], key: str, tree: Table, context: Context) -> Any:
    if key not in tree:
        return None
    found = read_word(tree[key], enum, key, context)
    if isinstance(found, enum):
        return found
    if isinstance(tree[key], Leaf) and tree[key].value == "?":  # type: ignore[union-attr]
        context.wrong(f'{key} decides what every word means, it cannot be "?": {", ".join(enum)}', key)
    return None


def _stray(key: str, tree: Table, allowed: list[str], context: Context) -> None:
    if key in {"based_on", "title", "happened", "gone"}:
        message = f'{key} belongs to a change file, which begins with based_on = "the file it changes"'
        context.fault(message, tree[key].place, key)
    else:
        context.unknown(key, allowed, tree[key].place, key)


def _sheet(tree: Table, context: Context) -> Sheet:
    node = tree.get("sheet")
    if node is None:
        context.gaps.append("sheet")
        return Sheet()
    if not isinstance(node, Table):
        context.fault("tables are meant here: [sheet.spar] with lines below it", node.place, "sheet")
        return Sheet()
    fixed = {"left_skin": Skin, "right_skin": Skin, "nose_skin": NoseSkin, "spar": Spar, "ribs": Ribs}
    given: dict[str, Any] = {}
    for name, cls in fixed.items():
        key = context.said(name)
        if key in node:
            given[name] = build(cls, node[key], f"sheet.{key}", context)
        else:
            context.gaps.append(f"sheet.{key}")
    doublers = Table(node.place)
    for key, inner in node.items():
        if key in {context.said(name) for name in fixed}:
            continue
        if "doubler" in key:
            doublers[key] = inner
        else:
            allowed = [*(context.said(name) for name in fixed), "... _doubler"]
            context.unknown(key, allowed, inner.place, f"sheet.{key}")
    return Sheet(**given, doublers=read_named(Doubler, doublers, "sheet", context))


def _sorted(hinges: dict[str, Hinge]) -> dict[str, Hinge]:
    def up(item: tuple[str, Hinge]) -> float:
        return math.inf if item[1].up.si is None else float(item[1].up.si)

    return dict(sorted(hinges.items(), key=up))


def _units(seen: list[str]) -> Units:
    inch = sum(system_of(unit) == "inch" for unit in seen)
    return Units.INCH if 2 * inch > len(seen) else Units.METRIC
