"""A label for every question of a starting file, and the list of those questions: what a measuring sheet asks."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Any

from surfacecheck.errors import SurfaceError
from surfacecheck.model import Kind, OutlinePlace, Spec, said, specs
from surfacecheck.reading._blank import PARTS

__all__ = ["Question", "labelled", "questions"]

_KEY = re.compile(r"^(?P<key>\w+) = (?P<value>.*\"\?\".*?)(?:\s+# (?P<note>.*))?$")
_PLACE = re.compile(r"^  # (?P<label>[A-H]\d+ )?(?P<key>\w+): (?P<note>.*)$")
_LABEL = re.compile(r"^(?P<label>[A-H]\d+)(?: (?P<note>.*))?$")
_PART = re.compile(r"^# ---- (?P<part>.*)$")
_TABLE = re.compile(r"^\[(?P<table>[\w.]+)\]$")
_NAMED = re.compile(r"(\w+) = \"\?\"")
_FAMILIES = {"hinge", "rivet", "bracket", "row"}


@dataclass(frozen=True, slots=True)
class Question:
    """One line of the file that is to be filled in.

    Attributes
    ----------
    label : str
        Letter of its part and a number, once in a file: ``B7``.
    part : str
        Heading of its part, with the letter.
    table, key : str
        Table and key as they stand in the file.
    where : str
        The same in a rudder's words and without names of a builder's own: ``hinge.up``, ``row.pitch``.
    note : str
        What is meant, in the words of the file's own comment: dimension, words to choose from, usual range and unit.
    answers : tuple of str
        What each answer is for; one empty word where there is a single one.
    spec : Spec
        What the key may hold.
    """

    label: str
    part: str
    table: str
    key: str
    where: str
    note: str
    answers: tuple[str, ...]
    spec: Spec


def labelled(letter: str, lines: list[str]) -> list[str]:
    """Write a label into the comment of every line that is to be filled in.

    Parameters
    ----------
    letter : str
        Of the part.
    lines : list of str
        Lines of that part.

    Returns
    -------
    list of str
        The same lines, with labels.

    Examples
    --------
    >>> labelled("G", ['mass = "?"    # the whole moving part', 'rivet = "large"'])
    ['mass = "?"    # G1 the whole moving part', 'rivet = "large"']
    """
    out, count = [], 0
    for line in lines:
        found = _KEY.match(line)
        place = _PLACE.match(line)
        if found or place:
            count += 1
            label = f"{letter}{count}"
            if place:
                line = f"  # {label} {line[4:]}"
            elif found and found["note"] is not None:
                at = len(line) - len(found["note"])
                line = f"{line[:at]}{label} {line[at:]}"
            else:
                line = f"{line:<34} # {label}"
        out.append(line)
    return out


def questions(text: str, kind: Kind | str = Kind.RUDDER) -> tuple[Question, ...]:
    """List the questions of a starting file, in its order.

    Parameters
    ----------
    text : str
        From ``starting_file``, as it was written.
    kind : Kind or str
        What it was written for: it decides the words.

    Returns
    -------
    tuple of Question
        One for every line with a label.

    Raises
    ------
    SurfaceError
        Where a line asks for something the form does not know.

    Examples
    --------
    >>> from surfacecheck.reading import starting_file
    >>> first = questions(starting_file())[0]
    >>> first.label, first.table, first.key
    ('A1', 'load', 'pressure')
    """
    part = table = ""
    notes: dict[str, str] = {}
    out = []
    for line in text.splitlines():
        if found := _PART.match(line):
            part = found["part"]
        elif found := _TABLE.match(line):
            table = found["table"]
        elif (found := _PLACE.match(line)) and found["label"]:
            asked = _question(found["label"].strip(), part, f"{table}.at", found["key"], Kind(kind))
            out.append(_with(asked, found["note"], ("root", "tip")))
        elif (found := _KEY.match(line)) and (label := _LABEL.match(found["note"] or "")):
            asked = _question(label["label"], part, table, found["key"], Kind(kind))
            note = label["note"] or notes.get(asked.where, asked.spec.help)
            notes.setdefault(asked.where, note)
            out.append(_with(asked, note, _answers(found["value"], asked.spec)))
    return tuple(out)


def _with(asked: Question, note: str, answers: tuple[str, ...]) -> Question:
    return Question(asked.label, asked.part, asked.table, asked.key, asked.where, note, answers, asked.spec)


def _question(label: str, part: str, table: str, key: str, kind: Kind) -> Question:
    found = _spec(table, key, kind)
    if found is None:
        message = f"[{table}] {key}: the form has no such line"
        raise SurfaceError(message)
    where, spec = found
    return Question(label, part, table, key, where, "", ("",), spec)


def _answers(value: str, spec: Spec) -> tuple[str, ...]:
    if value.startswith("{"):
        return tuple(_NAMED.findall(value))
    count = value.count('"?"')
    if count == 1:
        return ("",)
    return ("least", "largest") if spec.length == 2 else tuple(str(i + 1) for i in range(count))


def _spec(table: str, key: str, kind: Kind) -> tuple[str, Spec] | None:
    """Find what the model says of a line: the place in a rudder's words, and the specification."""
    parts = table.split(".")
    if parts == ["outline", "at"]:
        return _among(OutlinePlace, "outline.at", key, kind)
    family, *rest = parts
    for _, tables in PARTS:
        for path, cls in tables:
            first, *others = path.split(".")
            if first != family:
                continue
            if family in _FAMILIES:
                below = rest[1:]
            elif [said(one, kind) for one in others] == rest[: len(others)]:
                below = rest[len(others) :]
            else:
                continue
            here = family if family in _FAMILIES else path
            for name in below:
                cls = specs(cls)[name][1].of
                here += f".{name}"
            return _among(cls, here, key, kind)
    return None


def _among(cls: Any, here: str, key: str, kind: Kind) -> tuple[str, Spec] | None:
    return next(((f"{here}.{one}", spec) for one, (_, spec) in specs(cls).items() if said(one, kind) == key), None)
