"""What a page keeps of itself, and what changed since an earlier page.

A page holds its numbers once more as compact JSON in a ``<template>``, which a browser neither shows nor runs.
"""

from __future__ import annotations

import html
import json
import math
import os
import re
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any

from surfacecheck.errors import Fault, SurfaceError
from surfacecheck.report._inputs import given_values, how_known
from surfacecheck.rules import NOT_COVERED

if TYPE_CHECKING:
    from surfacecheck.assessment import Assessment
    from surfacecheck.model import Surface

__all__ = ["FORM", "EarlierPage", "kept", "kept_in", "kept_text", "read_earlier"]

FORM = 1
"""Version of what a page keeps; it grows by new keys only."""
TAG = "surfacecheck-page"
"""Id of the template."""
_LARGEST = 20_000_000
_WAYS = ("sideways", "fore_aft", "along")


@dataclass(frozen=True)
class EarlierPage:
    """What an earlier page kept.

    Attributes
    ----------
    sheet : str
        Its short mark, from the hash of its file.
    title : str
        What was laid over the surface.
    margins : dict of str to (float or None, str)
        By place and mode: margin [-] (None where not given), and part and what gives in words.
    pins : dict of str to float
        Loads at pins and horn by words [N] or [N m].
    rules : dict of str to str
        Outcome by rule and place.
    inputs : dict of str to (str, str)
        Value as given and how it is known, by key.
    """

    sheet: str
    title: str
    margins: dict[str, tuple[float | None, str]]
    pins: dict[str, float]
    rules: dict[str, str]
    inputs: dict[str, tuple[str, str]]


def kept(assessment: Assessment) -> EarlierPage:
    """Gather what a page keeps of itself.

    Parameters
    ----------
    assessment : Assessment
        Worked.

    Returns
    -------
    EarlierPage
        As a later page will read it.
    """
    surface = assessment.surface
    findings = [*assessment.margins, *assessment.not_given]
    margins = {f"{f.check.place}:{f.check.mode}": (f.margin, f"{f.part}: {f.gives}") for f in findings}
    pins = {
        f"{pin.name} pin {way.replace('_', '-')}": abs(getattr(pin, way).value)
        for pin in assessment.pins
        for way in _WAYS
    }
    if assessment.horn_pull is not None:
        pins[assessment.horn_pull.kind] = abs(assessment.horn_pull.pull.value)
    rules: dict[str, str] = {}
    for rule in assessment.rules:
        count, many, _ = rule.place.partition(" places: ")
        name = rule.name if many or rule.outcome == NOT_COVERED else f"{rule.name}: {rule.place}"
        outcome = f"{rule.outcome} at {count} places" if many else str(rule.outcome)
        if rule.counts:
            rules[name] = f"{rules[name]}; {outcome}" if name in rules else outcome
    inputs = {v.key: (v.said, ": ".join(part for part in how_known(v) if part)) for v in given_values(surface)}
    return EarlierPage(sheet_of(surface), surface.title, margins, pins, rules, inputs)


def sheet_of(surface: Surface) -> str:
    """Give the short mark of a sheet: of the file, and of what was laid over it."""
    return "+".join(one[:4].upper() for one in (surface.sha256, *(c.sha256 for c in surface.changes)) if one)


def kept_text(assessment: Assessment) -> str:
    """Write what a page keeps as compact JSON, in ASCII and without a line end.

    Parameters
    ----------
    assessment : Assessment
        Worked.

    Returns
    -------
    str
        To be escaped like any text of a page.
    """
    surface, page = assessment.surface, kept(assessment)
    data = {
        "form": FORM,
        "surface": {"name": surface.name, "kind": str(surface.kind), "half": str(surface.half)},
        "sha256": surface.sha256,
        "changes": [change.sha256 for change in surface.changes],
        "sheet": page.sheet,
        "title": page.title,
        "margins": {name: [_short(margin), words] for name, (margin, words) in page.margins.items()},
        "pins": {name: _short(load) for name, load in page.pins.items()},
        "rules": page.rules,
        "inputs": page.inputs,
    }
    return json.dumps(data, separators=(",", ":"), allow_nan=False)


def _short(value: float | None) -> float | None:
    return None if value is None or not math.isfinite(value) else float(f"{value:.6g}")


def read_earlier(path: str | os.PathLike[str], surface: Surface) -> EarlierPage:
    """Read what an earlier page of the same surface kept.

    Parameters
    ----------
    path : str or path
        An HTML page that ``check`` wrote.
    surface : Surface
        The surface as it is now.

    Returns
    -------
    EarlierPage
        What it kept.

    Raises
    ------
    SurfaceError
        Where it cannot be read, is no such page, is of a newer form, or of another surface.
    """
    name = Path(path).name or str(path)
    data = kept_in(Path(path), TAG, "check", "out/rudder.html")
    form = data.get("form")
    if isinstance(form, (int, float)) and form > FORM:
        message = f"was written by a newer surfacecheck (form {form}; this one reads up to {FORM}): fetch the newer one"
        raise SurfaceError(Fault(message, name))
    try:
        page = _page(data)
        then = tuple(_text(_table(data["surface"])[key]) for key in ("name", "kind", "half"))
    except (KeyError, TypeError, ValueError, OverflowError) as err:
        message = "its kept numbers are damaged: give a page as check wrote it"
        raise SurfaceError(Fault(message, name)) from err
    now = (surface.name, str(surface.kind), str(surface.half))
    if then != now:
        message = f"is the page of {_called(then)}; this is {_called(now)}: give an earlier page of the same surface"
        raise SurfaceError(Fault(message, name))
    return page


def _called(one: tuple[str, ...]) -> str:
    half = "" if one[2] == "none" else f", {one[2]} half"
    return f'"{one[0]}" ({one[1]}{half})'


def kept_in(path: Path, tag: str, command: str, such_as: str) -> dict[str, Any]:
    """Read the JSON that a page keeps in a template.

    Parameters
    ----------
    path : Path
        The page.
    tag : str
        Id of the template.
    command : str
        What wrote it.
    such_as : str
        Name of such a page.

    Returns
    -------
    dict
        As it was kept.

    Raises
    ------
    SurfaceError
        Where there is no such page, or nothing was kept in it.
    """
    name = path.name or str(path)
    template = re.compile(rf'<template id="{tag}">(.*?)</template>', re.DOTALL)
    try:
        size = path.stat().st_size if path.is_file() else -1
        text = path.read_text(encoding="utf-8") if 0 <= size <= _LARGEST else ""
        found = template.search(text)
        data = None if found is None else json.loads(html.unescape(found[1]), parse_constant=_no_number)
    except (OSError, ValueError, RecursionError) as err:
        raise SurfaceError(Fault(f"cannot be read as a page that {command} wrote", name)) from err
    if size < 0:
        raise SurfaceError(Fault(f"is no file: give the page that {command} wrote, such as {such_as}", name))
    if not isinstance(data, dict):
        message = (
            f"holds no numbers of a page that {command} wrote (a page from before they were kept, or another file)"
        )
        raise SurfaceError(Fault(message, name))
    return data


def _no_number(word: str) -> float:
    message = f"{word} is no number"
    raise ValueError(message)


def _text(value: object) -> str:
    if not isinstance(value, str):
        raise TypeError
    return value


def _number(value: object) -> float:
    if isinstance(value, bool) or not isinstance(value, (int, float)):
        raise TypeError
    if not math.isfinite(value):
        raise ValueError
    return float(value)


def _table(value: object) -> dict[str, Any]:
    if not isinstance(value, dict):
        raise TypeError
    return value


def _page(data: dict[str, Any]) -> EarlierPage:
    return EarlierPage(
        sheet=_text(data["sheet"]),
        title=_text(data["title"]),
        margins={
            name: (None if margin is None else _number(margin), _text(words))
            for name, (margin, words) in _table(data["margins"]).items()
        },
        pins={name: _number(load) for name, load in _table(data["pins"]).items()},
        rules={name: _text(outcome) for name, outcome in _table(data["rules"]).items()},
        inputs={key: (_text(said), _text(how)) for key, (said, how) in _table(data["inputs"]).items()},
    )
