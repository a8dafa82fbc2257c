"""A table of the file becomes a dataclass of the model, key by key, by what its fields say of themselves."""

from __future__ import annotations

import re
from enum import StrEnum
from typing import Any

from surfacecheck.model import Spec, specs
from surfacecheck.provenance import Value
from surfacecheck.reading._context import Context
from surfacecheck.reading._shape import read_shape
from surfacecheck.reading._special import read_leaves, read_moves
from surfacecheck.reading._tree import Leaf, Node, Rows, Table
from surfacecheck.reading._usual import usual_range
from surfacecheck.reading._values import bracket_of, read_value, source_of

__all__ = ["build", "read_named", "read_text_of", "read_word"]

_WRONG = object()


def build(cls: Any, node: Node, path: str, context: Context, **more: Any) -> Any:
    """Make one dataclass of the model from its table.

    Parameters
    ----------
    cls : type
        Dataclass whose fields carry a Spec.
    node : Node
        The table.
    path : str
        Path of the table, such as ``sheet.spar``.
    context : Context
        Gathers faults, gaps and remarks.
    **more : Any
        Fields that do not come from keys (``name``).

    Returns
    -------
    dataclass
        An instance of ``cls``; what is wrong or not known stays at its default.
    """
    if not isinstance(node, Table):
        context.fault(f"a table is meant here: [{path}] with lines below it", node.place, path)
        return cls(**more)
    known = {context.said(key): named for key, named in specs(cls).items()}
    for key in node:
        if key not in known:
            context.unknown(key, known, node[key].place, f"{path}.{key}")
    given: dict[str, Any] = {}
    for key, (name, spec) in known.items():
        here = f"{path}.{key}" if path else key
        if key not in node:
            if not spec.optional:
                context.gaps.append(here)
            continue
        answer = _answer(node[key], spec, here, context)
        if answer is not _WRONG:
            given[name] = answer
    return cls(**given, **more)


def _answer(node: Node, spec: Spec, key: str, context: Context) -> Any:
    match spec.kind:
        case "measure":
            return read_value(node, spec, key, context)
        case "measures":
            return _list_of_values(node, spec, key, context)
        case "measure_map":
            return _map_of_values(node, spec, key, context)
        case "word":
            return read_word(node, spec.enum, key, context)
        case "words":
            return _list_of_words(node, spec, key, context)
        case "count":
            return _count(node, spec, key, context)
        case "text":
            return read_text_of(node, key, context, raw=spec.raw)
        case "texts":
            return _list_of_texts(node, spec, key, context)
        case "part":
            return build(_of(spec), node, key, context)
        case "part_list":
            return _list_of_parts(node, spec, key, context)
        case "leaves":
            return read_leaves(node, key, context)
        case "moves":
            return read_moves(node, spec, key, context)
        case "shape":
            return read_shape(node, spec, key, context)
        case _:
            return _WRONG


def _of(spec: Spec) -> Any:
    assert spec.of is not None  # noqa: S101 - declared so in the model
    return spec.of


def read_named(cls: Any, node: Node, path: str, context: Context) -> dict[str, Any]:
    """Read tables by their own names (``[hinge.top]``)."""
    if not isinstance(node, Table):
        context.fault(f"a table is meant here: [{path}.your_name] with lines below it", node.place, path)
        return {}
    found: dict[str, Any] = {}
    for name, inner in node.items():
        if not re.fullmatch(r"[\w-]+", name):
            context.fault(f'"{name[:40]}" is no name: letters, figures, _ and - only', inner.place, path)
        else:
            found[name] = build(cls, inner, f"{path}.{name}", context, name=name)
    return found


def read_text_of(node: Node, key: str, context: Context, *, raw: bool = False) -> str:
    """Read words; ``"?"`` gives an empty text and is a gap."""
    if not isinstance(node, Leaf) or not isinstance(node.value, str):
        such = "small"
        if isinstance(node, Leaf) and isinstance(node.value, bool):
            such = "yes" if node.value else "no"
        context.fault(f'words in quotes are meant here, such as "{such}"', node.place, key)
        return ""
    if raw and node.value.strip() != "?":
        return node.value.strip()
    text, words = bracket_of(node.value)
    if text in {"?", ""}:
        context.gaps.append(key)
        return ""
    if words:
        context.sources[key] = source_of(words)
    return context.meant(text)


def read_word(node: Node, enum: type[StrEnum] | None, key: str, context: Context) -> Any:
    """Read one word out of a few."""
    assert enum is not None  # noqa: S101 - declared so in the model
    if not read_text_of(node, key, context):
        return _WRONG
    assert isinstance(node, Leaf)  # noqa: S101 - words were found
    typed = bracket_of(node.value)[0]
    allowed = {context.said(str(one)): one for one in enum}
    found = {shown.casefold(): one for shown, one in allowed.items()}.get(typed.casefold())
    if found is None:
        context.unknown(typed, allowed, node.place, key)
        return _WRONG
    return found


def _listed(node: Node, spec: Spec, key: str, context: Context) -> list[Node] | None:
    """Give the entries; None for ``"?"`` and for what is no list."""
    if isinstance(node, Rows):
        if spec.length and len(node) != spec.length:
            context.fault(f"{spec.length} values are meant here ({spec.help}), not {len(node)}", node.place, key)
            return None
        return list(node)
    if isinstance(node, Leaf) and isinstance(node.value, str):
        text = bracket_of(node.value)[0]
        if text == "?":
            context.gaps.append(key)
            return None
        if text.casefold() == "none" and spec.none:
            return []
        if spec.kind == "words" and "," in text:
            words = ", ".join(f'"{one.strip()}"' for one in text.split(","))
            context.fault(f"several words are a list: write [{words}]", node.place, key)
            return None
        if spec.kind in {"words", "texts"} or spec.lone:
            return [node]
    message = f"a list in square brackets is meant here ({spec.help}), such as {listed_like(spec, context)}"
    context.fault(message, node.place, key)
    return None


def listed_like(spec: Spec, context: Context) -> str:
    """Write a list as it may stand there.

    Parameters
    ----------
    spec : Spec
        Of a list.
    context : Context
        For the surface's words.

    Returns
    -------
    str
        With figures of the usual range; three dots where a figure is the builder's.
    """
    if spec.kind == "part_list":
        of: Any = spec.of
        keys = ", ".join(f'{context.said(name)} = "... {one.hint}"' for name, (_, one) in specs(of).items())
        return f"[{{ {keys} }}]"
    if spec.enum is not None:
        return "[" + ", ".join(f'"{context.said(str(one))}"' for one in spec.enum) + "]"
    if spec.low is not None and spec.high is not None and spec.hint:
        return "[" + ", ".join(f'"{one} {spec.hint}"' for one in usual_range(spec.low, spec.high, spec.hint)) + "]"
    return '["...", "..."]'


def _list_of_values(node: Node, spec: Spec, key: str, context: Context) -> tuple[Value, ...]:
    entries = _listed(node, spec, key, context) or []
    return tuple(read_value(one, spec, f"{key}[{at}]", context) for at, one in enumerate(entries, 1))


def _list_of_words(node: Node, spec: Spec, key: str, context: Context) -> tuple[StrEnum, ...]:
    found = [read_word(one, spec.enum, key, context) for one in _listed(node, spec, key, context) or []]
    known = tuple(one for one in found if isinstance(one, StrEnum))
    return () if spec.each and len(known) < len(found) else known


def _list_of_texts(node: Node, spec: Spec, key: str, context: Context) -> tuple[str, ...]:
    found = [read_text_of(one, key, context, raw=spec.raw) for one in _listed(node, spec, key, context) or []]
    return tuple(one for one in found if one)


def _list_of_parts(node: Node, spec: Spec, key: str, context: Context) -> tuple[Any, ...] | None:
    entries = _listed(node, spec, key, context)
    if entries is None:
        return None
    return tuple(build(_of(spec), one, f"{key}[{at}]", context) for at, one in enumerate(entries, 1))


def _map_of_values(node: Node, spec: Spec, key: str, context: Context) -> dict[str, Value]:
    if isinstance(node, Leaf) and node.value == "?":
        context.gaps.append(key)
        return {}
    if not isinstance(node, Table):
        context.fault(f'a value for each part is meant here: {{ spar = "7.0 mm" }} ({spec.help})', node.place, key)
        return {}
    return {context.meant(name): read_value(one, spec, f"{key}.{name}", context) for name, one in node.items()}


def _count(node: Node, spec: Spec, key: str, context: Context) -> int | None:
    value = node.value if isinstance(node, Leaf) else None
    if isinstance(value, str) and bracket_of(value)[0] == "?":
        context.gaps.append(key)
        return None
    if isinstance(value, bool) or not isinstance(value, int):
        shown = f"{value!r} is counted: " if isinstance(value, int | float) and not isinstance(value, bool) else ""
        if isinstance(value, str):
            shown = f'"{value[:20]}" is counted: '
        meant = bracket_of(value)[0] if isinstance(value, str) else ""
        such = f"without quotes: {int(meant)}" if re.fullmatch("[0-9]{1,4}", meant) else "such as 3"
        context.fault(f"{shown}write a bare whole number, {such}", node.place, key)
        return None
    low, high = int(spec.low or 0), int(spec.high or 0)
    if not low <= value <= high:
        context.fault(f"{value} is not a number of {spec.help}: {low} to {high}", node.place, key)
        return None
    return value
