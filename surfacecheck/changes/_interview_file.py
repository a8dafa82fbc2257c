"""The change file that an interview writes."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING

from surfacecheck.changes._interview_words import NOT_MEASURED
from surfacecheck.model import Happened, specs

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

__all__ = ["change_file"]


def change_file(based_on: str, title: str, events: Sequence[dict[str, str]]) -> str:
    """Write a change file.

    Parameters
    ----------
    based_on : str
        Name of the surface file.
    title : str
        Of the change.
    events : sequence of dict
        What was told of each event, by key.

    Returns
    -------
    str
        TOML.
    """
    lines = ["#:schema ./change.schema.json", f"based_on = {_quoted(based_on)}", f"title = {_quoted(title)}"]
    for event in events:
        lines += ["[[happened]]", *_lines(event)]
    return "\n".join(lines) + "\n"


def _lines(event: dict[str, str]) -> Iterator[str]:
    for key, (_, spec) in specs(Happened).items():
        text = event.get(key, "")
        if not text:
            continue
        if spec.kind == "texts":
            yield f"{key} = [{', '.join(_quoted(one) for one in _listed(text))}]"
        elif spec.kind == "count" and text != NOT_MEASURED:
            yield f"{key} = {text}"
        else:
            yield f"{key} = {_quoted(text)}"


def _listed(text: str) -> list[str]:
    return [one.strip() for one in text.split(";") if one.strip()]


def _quoted(text: str) -> str:
    return json.dumps(text, ensure_ascii=False)
