"""The JSON Schema of the file, for editors that complete and check while a builder types.

Draft 4, ``definitions`` and ``enum`` only: what editors of TOML files understand. The reader is stricter.
"""

from __future__ import annotations

import json
from enum import StrEnum
from typing import Any

from surfacecheck.model import FLAT_WORDS, Half, Happened, HeadKind, Kind, NoseSkin, Ribs, Skin, Spar, Spec, specs
from surfacecheck.model import Doubler as DoublerTable
from surfacecheck.quantities import unit_of
from surfacecheck.reading._assemble import FIXED_TABLES, NAMED_TABLES
from surfacecheck.reading._study import LISTS
from surfacecheck.reading._usual import usual_range

__all__ = ["change_schema", "schema_text", "study_schema", "surface_schema"]

Json = dict[str, Any]

_BRACKET = r"(\s*\(.*\))?\s*$"
_NUMBER = r"([0-9]+/[0-9]+|([0-9]+(\.[0-9]*)?|\.[0-9]+)([eE][+-]?[0-9]+)?)"
_TEXT: Json = {"type": "string"}
_NAMES: Json = {"type": "string", "description": "name of a neighbour whose lines are copied; lines beside it win"}


def surface_schema() -> Json:
    """Give the schema of a surface file.

    Returns
    -------
    dict
        JSON Schema, draft 4.
    """
    properties = _top(change=False)
    return _whole("Surface file", properties, ["kind"])


def change_schema() -> Json:
    """Give the schema of a change file.

    Returns
    -------
    dict
        JSON Schema, draft 4.
    """
    head: Json = {
        "based_on": {**_TEXT, "description": "the surface file it changes, in the same folder"},
        "title": {**_TEXT, "description": "what it changes, in a few words"},
        "happened": {"type": "array", "items": _table(Happened, change=False), "description": "what happened"},
    }
    return _whole("Change file", {**head, **_top(change=True)}, ["based_on"])


def study_schema() -> Json:
    """Give the schema of a file that says which rivets to compare.

    Returns
    -------
    dict
        JSON Schema, draft 4.
    """
    entries: dict[str, Json] = {
        "length": {"type": "string", "pattern": rf"^\s*{_NUMBER}\s*(mm|cm|m|in|inch|ft|mil|thou)\s*$"},
        "whole": {"type": "integer", "minimum": 1},
        "text": _TEXT,
        "head": {"enum": [str(one) for one in HeadKind]},
    }
    lists: Json = {
        key: {"type": "array", "minItems": 1, "items": entries[kind], "description": words}
        for key, (kind, words) in LISTS.items()
    }
    head: Json = {
        "based_on": {**_TEXT, "description": "the surface file it is about, in the same folder"},
        "title": {**_TEXT, "description": "what is compared, in a few words"},
        "rows": {"type": "array", "minItems": 1, "items": _TEXT, "description": "names of rows of part E"},
    }
    drilled: Json = {**entries["length"], "description": "pitch at which these rows are drilled already"}
    return _whole("Rivets to compare", {**head, **lists, "drilled_at": drilled}, ["based_on", "rows"])


def schema_text(schema: Json) -> str:
    """Write a schema as it is kept in a file.

    Parameters
    ----------
    schema : dict
        JSON Schema.

    Returns
    -------
    str
        Indented JSON with a line end.
    """
    return json.dumps(schema, indent=1, ensure_ascii=False) + "\n"


def _whole(title: str, properties: Json, required: list[str]) -> Json:
    return {
        "$schema": "http://json-schema.org/draft-04/schema#",
        "title": title,
        "type": "object",
        "properties": properties,
        "required": required,
        "additionalProperties": False,
    }


def _top(*, change: bool) -> Json:
    found: Json = {
        "form": {"enum": [1], "description": "the form this file is written in"},
        "kind": _enum(Kind, "what it is"),
        "half": _enum(Half, "which half; a rudder has none"),
        "name": {**_TEXT, "description": "your own words"},
        "drawing": {**_TEXT, "description": "number and issue"},
        "who_decides": {**_TEXT, "description": "your own words; printed on every sheet"},
    }
    for key, _, cls in FIXED_TABLES:
        found[key] = _table(cls, change=change)
    for key, _, cls in NAMED_TABLES:
        found[key] = {"type": "object", "additionalProperties": _table(cls, change=change)}
    found["sheet"] = _sheet(change=change)
    return found


def _sheet(*, change: bool) -> Json:
    skin = _table(Skin, change=change)
    parts: Json = dict.fromkeys(("left_skin", "right_skin", "top_skin", "bottom_skin"), skin)
    parts |= {key: _table(cls, change=change) for key, cls in (("nose_skin", NoseSkin), ("spar", Spar), ("ribs", Ribs))}
    doubler = {"doubler": _table(DoublerTable, change=change)}
    return {"type": "object", "properties": parts, "patternProperties": doubler, "additionalProperties": False}


def _table(cls: Any, *, change: bool) -> Json:
    properties: Json = {"same_as": _NAMES}
    if change:
        properties["gone"] = {"enum": ["yes", "no"], "description": "takes the item away"}
    for key, (_, spec) in specs(cls).items():
        properties[key] = _answer(spec, change=change)
        if key in FLAT_WORDS:
            properties[FLAT_WORDS[key]] = properties[key]
    return {"type": "object", "properties": properties, "additionalProperties": False}


def _answer(spec: Spec, *, change: bool) -> Json:
    told: Json = {"description": _help(spec)}
    match spec.kind:
        case "measure":
            if spec.quantity == "number":
                return {**told, "oneOf": [_measure(spec), {"type": "number"}]}
            return {**told, **_measure(spec)}
        case "measures":
            size = {"minItems": spec.length, "maxItems": spec.length} if spec.length else {}
            alone = _measure(spec) if spec.lone else _unknown(spec)
            return {**told, "oneOf": [{"type": "array", "items": _measure(spec), **size}, alone]}
        case "measure_map":
            return {**told, "oneOf": [{"type": "object", "additionalProperties": _measure(spec)}, _unknown(spec)]}
        case "word":
            return {**told, **_word(spec.enum)}
        case "words":
            return {**told, "oneOf": [{"type": "array", "items": _word(spec.enum)}, _word(spec.enum)]}
        case "count":
            whole = {"type": "integer", "minimum": int(spec.low or 0), "maximum": int(spec.high or 0)}
            return {**told, "oneOf": [whole, _unknown(spec)]}
        case "texts":
            return {**told, "oneOf": [{"type": "array", "items": _TEXT}, _TEXT]}
        case "part":
            return {**told, **_table(spec.of, change=change)}
        case "part_list":
            return {**told, "oneOf": [{"type": "array", "items": _table(spec.of, change=False)}, _unknown(spec)]}
        case "moves":
            entry = {"oneOf": [{"type": "number"}, _TEXT]}
            lines = {"type": "array", "items": {"type": "array", "items": entry}}
            return {**told, "oneOf": [lines, _unknown(spec)]}
        case "shape":
            percent = {"type": "string", "pattern": rf"^\s*(\?|{_NUMBER}\s*%){_BRACKET}"}
            pressure = {"oneOf": [_measure(spec), {"type": "number", "minimum": 0}]}
            point = {"type": "array", "items": [percent, pressure], "minItems": 2, "maxItems": 2}
            return {**told, "oneOf": [{"type": "array", "items": point, "minItems": 2}, _unknown(spec)]}
        case _:
            return {**told, **_TEXT}


def _unknown(spec: Spec) -> Json:
    words = r"^\s*(\?|none)" if spec.none else r"^\s*\?"
    return {"type": "string", "pattern": words + _BRACKET}


def _measure(spec: Spec) -> Json:
    ways = sorted({word for one in spec.toward for word in (one, FLAT_WORDS.get(one, one))})
    side = rf"(\s+({'|'.join(ways)}))?" if ways else ""
    unit = "" if spec.quantity == "number" else r"\s*[^\s0-9.,(#/][^(]*?"
    none = "|none" if spec.none else ""
    return {"type": "string", "pattern": rf"^\s*(\?{none}|{_NUMBER}{unit}{side}){_BRACKET}"}


def _word(enum: type[StrEnum] | None) -> Json:
    assert enum is not None  # noqa: S101 - declared so in the model
    allowed = [str(one) for one in enum]
    allowed += [FLAT_WORDS[one] for one in allowed if one in FLAT_WORDS]
    bracketed = {"type": "string", "pattern": rf"^({'|'.join(allowed)})\s*\(.*\)\s*$"}
    return {"anyOf": [{"enum": [*allowed, "?"]}, bracketed]}


def _enum(enum: type[StrEnum], help: str) -> Json:
    return {"enum": [str(one) for one in enum], "description": help}


def _help(spec: Spec) -> str:
    if not spec.hint or spec.low is None or spec.high is None:
        return spec.help
    low, high = usual_range(spec.low, spec.high, spec.hint)
    inch = unit_of(spec.quantity, "inch")
    return f"{spec.help}; usually {low} to {high} {spec.hint}" + (f", or in {inch}" if inch != spec.hint else "")
