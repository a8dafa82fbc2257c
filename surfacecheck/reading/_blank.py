"""The lines of a blank file, made from what the model says of each key."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from surfacecheck.library import materials
from surfacecheck.model import (
    Aeroplane,
    BalanceMass,
    Bracket,
    Controls,
    Fin,
    Half,
    Hinge,
    Horn,
    Kind,
    Load,
    Method,
    NoseSkin,
    Outline,
    OutlinePlace,
    Ribs,
    Rivet,
    Row,
    Skin,
    Spar,
    Spec,
    Stop,
    Tool,
    Units,
    Weighed,
    said,
    specs,
)
from surfacecheck.quantities import unit_of
from surfacecheck.reading._usual import usual_range

__all__ = ["PARTS", "Blank", "head_lines", "hinge_names", "row_lines", "table_lines", "tool_lines"]

_NOTE_AT = 34
#: Parts of the file in measuring order: heading, tables.
PARTS: tuple[tuple[str, tuple[tuple[str, Any], ...]], ...] = (
    ("A  PAPERS: letter, drawing, flight manual", (("load", Load), ("aeroplane", Aeroplane), ("controls", Controls))),
    ("B  TAPE AND THREAD", (("outline", Outline), ("hinge", Hinge), ("fin", Fin), ("horn", Horn))),
    (
        "C  MICROMETER: bare metal, subtract the paint",
        (
            ("sheet.left_skin", Skin),
            ("sheet.right_skin", Skin),
            ("sheet.nose_skin", NoseSkin),
            ("sheet.spar", Spar),
            ("sheet.ribs", Ribs),
        ),
    ),
    ("D  RIVET PACKET AND ITS DATA SHEET", (("rivet.small", Rivet), ("rivet.large", Rivet))),
    ("E  RIVET ROWS: ruler; edge is hole CENTRE to the edge of that sheet", (("row", Row),)),
    ("F  BRACKETS AND PINS: caliper", (("bracket.plate", Bracket),)),
    (
        "G  SCALES: lines for more readings stand on the sheet that weigh writes",
        (("weighed", Weighed), ("balance_mass", BalanceMass)),
    ),
    ("H  HOW TO CALCULATE: stay as they are unless somebody tells you", (("method", Method),)),
)
#: Answers that are a name and not a measurement.
_FILLED = {
    "hinge.bracket": "plate",
    "bracket.rivet": "large",
    "horn.fixed_with.rivet": "large",
    "outline.trailing_edge": "?",
}
_ON_THE_SCALE = ("mass", "tail_push", "push_behind", "paint")
"""What a new file asks of the scales; the rest stands on the weighing sheet, which ``weigh`` writes."""
_SKIP = {"controls.stop", "balance_mass.arm", "balance_mass.fixed_with", "fin.moves", "rivet.alloy",
         "rivet.head_kind", "rivet.lengths", "bracket.heads", "bracket.legs_apart", "horn.turns_other_half",
         "controls.wheel_across",
         *(f"weighed.{one}" for one in specs(Weighed) if one not in _ON_THE_SCALE)}  # fmt: skip

_LIKE_ANOTHER = {"sheet.right_skin": "left_skin"}
"""Tables that copy a neighbour until somebody writes lines beside that."""
_BESIDE = "measured, and the same? What differs stands beside this line, and wins"

#: Rows nearly every surface has: name, parts from the rivet head inwards, keys; without keys it is as the left one.
_ROWS: tuple[tuple[str, tuple[str, ...], tuple[str, ...]], ...] = (
    ("left_skin_to_spar", ("left_skin", "nose_skin", "spar"), ("from", "to", "pitch", "lines")),
    ("right_skin_to_spar", ("right_skin", "nose_skin", "spar"), ()),
    ("left_skin_to_ribs", ("left_skin", "ribs"), ("first_behind_web", "last_before_edge", "pitch", "lines")),
    ("right_skin_to_ribs", ("right_skin", "ribs"), ()),
    ("nose_skin_to_ribs", ("nose_skin", "ribs"), ("count",)),
    ("trailing_edge", ("left_skin", "right_skin"), ("from", "to", "pitch", "lines")),
    ("ribs_to_spar", ("ribs", "spar"), ("count", "gap")),
)


@dataclass(frozen=True, slots=True)
class Blank:
    """For what a blank file is made."""

    kind: Kind
    units: Units


def _noted(line: str, note: str) -> str:
    return f"{line:<{_NOTE_AT}} # {note}" if note else line


def head_lines(blank: Blank, half: Half | str, name: str) -> list[str]:
    """Write the habits and the first lines."""
    kind = blank.kind
    up, left, right = (said(one, kind) for one in ("up", "left", "right"))
    edge = "the lowest edge" if kind is Kind.RUDDER else "the innermost edge"
    seen = " as seen from behind" if kind is Kind.RUDDER else ".  fin = what it hangs on: tailplane or wing"
    sample, less = ('"0.63 mm (micrometer)"', '"8 mm ahead"')
    if blank.units is Units.INCH:
        sample, less = ('"0.025 in (micrometer)"', '"0.31 in ahead"')
    title = name or f"{kind} of ..."
    return [
        "#:schema ./surface.schema.json",
        "# Five habits and you can fill this in:",
        f"#  1 number, unit, and in brackets how you know: {sample}  (drawing)  (guess)",
        '#    No bracket = "not said".  Things you count are bare: 3.  Plain numbers in quotes: "3.8 (manual)"',
        '#  2 "?" = not known yet.  "none" = I looked, there is none.  A line left out counts as "?"',
        f"#  3 Zero is {edge} of anything that moves, on the line of the pins.  {up} = along that line;",
        f"#    ahead, behind = square to it, from pin centres; {left}, {right}{seen}.",
        f"#    A place on the other side gets its word: {less}.  Never a minus.",
        '#  4 same_as = "name" copies the lines of that neighbour; lines written beside it win.',
        "#  5 a / b / c after a line: one of these words.  After part B you have the loads at the pins.",
        "form = 1",
        f'kind = "{kind}"',
        f'half = "{Half(half)}"',
        f"name = {_quoted(title)}",
        _noted('drawing = "?"', "number and issue"),
        _noted('who_decides = "?"', "your own words; printed on every sheet"),
    ]


def _quoted(text: str) -> str:
    """Write a text so that TOML reads it back."""
    escaped = "".join(
        f"\\u{ord(one):04x}" if ord(one) < 32 or ord(one) == 127 else {"\\": "\\\\", '"': '\\"'}.get(one, one)
        for one in text
    )
    return f'"{escaped}"'


def hinge_names(kind: Kind, count: int) -> list[str]:
    """Name so many hinges in a builder's words."""
    low, high = ("bottom", "top") if kind is Kind.RUDDER else ("inner", "outer")
    if count <= 3:
        return [low, "middle", high] if count == 3 else [low, high]
    numbers = ["second", "third", "fourth", "fifth", "sixth", "seventh"]
    return [low, *numbers[: count - 2], high]


def table_lines(blank: Blank, path: str, cls: Any, ribs: int) -> list[str]:
    """Write one table with every key unknown."""
    shown = ".".join(said(part, blank.kind) for part in path.split("."))
    lines, below = [f"[{shown}]"], []
    if path in _LIKE_ANOTHER:
        return [*lines, _noted(f'same_as = "{said(_LIKE_ANOTHER[path], blank.kind)}"', _BESIDE)]
    family = path.split(".")[0] if path.split(".")[0] in {"hinge", "rivet", "bracket"} else path
    for key, (_, spec) in specs(cls).items():
        where = f"{family}.{key}"
        if where in _SKIP:
            continue
        word = said(key, blank.kind)
        if spec.kind == "part":
            below += table_lines(blank, f"{path}.{key}", spec.of, ribs)
        elif spec.of is OutlinePlace:
            lines += _places(blank)
        else:
            lines.append(_noted(f"{word} = {_empty(spec, where, ribs)}", _note(spec, blank) + _more(where, blank)))
    return lines + below


def _more(where: str, blank: Blank) -> str:
    """Add what a line needs to be answered: names of metals at the first, what a stop at the surface asks."""
    if where == "sheet.left_skin.alloy":
        own = "your own: [alloy.mine] with tension, yield, shear, crushing, stiffness, from"
        return f": {', '.join(materials())}; {own}"
    if where == "horn.plate.alloy":
        return ": names stand in part C"
    if where == "controls.stopped_at":
        keys = ", ".join(f'{said(key, blank.kind)} = "..."' for key in specs(Stop))
        return f"; surface: add the line stop = {{ {keys} }}"
    return ""


def _empty(spec: Spec, where: str, ribs: int) -> str:
    if where in _FILLED:
        return f'"{_FILLED[where]}"'
    if where.startswith("method."):
        return _default_of(where)
    match spec.kind:
        case "measures":
            return "[" + ", ".join(['"?"'] * (spec.length or ribs)) + "]"
        case "measure_map":
            return '{ bracket = "?", spar = "?" }'
        case _:
            return '"?"'


def _default_of(where: str) -> str:
    return f'"{getattr(Method(), where.partition(".")[2])}"'


def _note(spec: Spec, blank: Blank) -> str:
    if spec.enum is not None:
        return f"{spec.help}: {' / '.join(said(str(one), blank.kind) for one in spec.enum)}"
    note = spec.help
    if spec.kind == "part_list":
        one: Any = spec.of
        keys = ", ".join(f'{said(key, blank.kind)} = "..."' for key in specs(one))
        note += f": none, or [{{ {keys} }}]"
    if blank.kind is not Kind.RUDDER:
        note = note.replace("lowest edge", "innermost edge").replace("to the left", "to the top")
        note = note.replace("to the right", "to the bottom")
        for rib in ("bottom rib", "top rib"):
            note = note.replace(rib, said(rib, blank.kind))
    if spec.toward and spec.low != 0:
        note += f"; {' / '.join(said(one, blank.kind) for one in spec.toward)}"
    if spec.quantity and spec.low is not None and spec.high is not None:
        unit = unit_of(spec.quantity, "inch") if blank.units is Units.INCH else spec.hint
        low, high = usual_range(max(spec.low, 0.0), spec.high, unit)
        note += f" ({low} to {high} {unit})".replace(" )", ")")
    return note


def _places(blank: Blank) -> list[str]:
    lines = ["at = [  # one line for each place measured; straight between"]
    for key, (_, spec) in specs(OutlinePlace).items():
        lines.append(f"  # {said(key, blank.kind)}: {_note(spec, blank)}")
    answers = ", ".join(f'{said(key, blank.kind)} = "?"' for key in specs(OutlinePlace))
    return [*lines, *[f"  {{ {answers} }},"] * 2, "]"]


def row_lines(blank: Blank) -> list[str]:
    """Write the rows nearly every surface has."""
    lines = []
    known = specs(Row)
    for count, (name, joins, keys) in enumerate(_ROWS):
        parts = [said(one, blank.kind) for one in joins]
        shown = name.replace("left_skin", said("left_skin", blank.kind))
        shown = shown.replace("right_skin", said("right_skin", blank.kind))
        listed = ", ".join(f'"{one}"' for one in parts)
        lines.append(f"[row.{shown}]")
        if not keys:
            lines.append(_noted(f'same_as = "{said("left_skin", blank.kind)}{name[len("right_skin") :]}"', _BESIDE))
        lines.append(_noted(f"joins = [{listed}]", "from the rivet head inwards" if not count else ""))
        if keys:
            each = " on each rib" if "ribs" in joins else ""
            notes = {key: _note(known[key][1], blank) + (each if key == "count" else "") for key in keys}
            lines.append('rivet = "small"')
            lines += [_noted(f'{key} = "?"', note) for key, note in notes.items()]
            lines.append("edge = { " + ", ".join(f'{one} = "?"' for one in parts) + " }")
    return lines


def tool_lines(blank: Blank) -> list[str]:
    """Write a tool as comment: nobody needs it, and what is not there is no gap."""
    lines = ['What sets them, for "can it be set?": take the # away; a nose of another size is another tool.']
    return [f"# {line}" for line in [*lines, *table_lines(blank, "tool.puller", Tool, 2)]]
