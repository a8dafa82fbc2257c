"""A file to start from: every question of the form, in measuring order, each answer ``"?"``."""

from __future__ import annotations

from collections.abc import Mapping
from enum import StrEnum
from pathlib import Path
from typing import Any

from surfacecheck.errors import SurfaceError
from surfacecheck.model import Half, Kind, Units, said
from surfacecheck.reading._blank import PARTS, Blank, head_lines, hinge_names, row_lines, table_lines, tool_lines
from surfacecheck.reading._questions import labelled
from surfacecheck.reading._schema import change_schema, schema_text, surface_schema
from surfacecheck.reading._whole import not_there, write_whole

__all__ = ["starting_file", "write_new"]

_MOST_HINGES, _MOST_RIBS = 8, 40


def starting_file(
    kind: Kind | str = Kind.RUDDER,
    half: Half | str = Half.NONE,
    units: Units | str = Units.METRIC,
    hinges: int = 3,
    ribs: int = 5,
    name: str = "",
) -> str:
    """Write a file to start from, valid at once.

    Parameters
    ----------
    kind : Kind or str
        rudder, elevator or aileron.
    half : Half or str
        left or right; a rudder has none.
    units : Units or str
        Units of the examples in the comments: metric or inch.
    hinges : int
        Number of hinges [-].
    ribs : int
        Number of ribs [-].
    name : str
        Name of the surface, your own words.

    Returns
    -------
    str
        TOML text.

    Raises
    ------
    SurfaceError
        Where a number or a word is not possible.

    Examples
    --------
    >>> starting_file("rudder").splitlines()[0]
    '#:schema ./surface.schema.json'
    """
    blank = _blank(kind, half, units)
    if not 2 <= hinges <= _MOST_HINGES:
        message = f"{hinges} hinges: 2 to {_MOST_HINGES} can be held in such a file"
        raise SurfaceError(message)
    if not 2 <= ribs <= _MOST_RIBS:
        message = f"{ribs} ribs: 2 to {_MOST_RIBS} can be held in such a file"
        raise SurfaceError(message)
    lines = head_lines(blank, half, name)
    for title, tables in PARTS:
        part: list[str] = []
        for path, cls in tables:
            if path == "hinge":
                part += _hinge_lines(blank, cls, hinges)
            elif path == "row":
                part += row_lines(blank)
            else:
                part += table_lines(blank, path, cls, ribs)
        lines += ["", f"# ---- {title}", *labelled(title[0], part), *(tool_lines(blank) if title[0] == "D" else ())]
    return "\n".join(lines) + "\n"


def _blank(kind: Kind | str, half: Half | str, units: Units | str) -> Blank:
    asked: tuple[tuple[type[StrEnum], str], ...] = ((Kind, kind), (Half, half), (Units, units))
    for words, word in asked:
        if word not in [*words]:
            message = f'{words.__name__.lower()} "{word[:40]}": {", ".join(words)}, and no other'
            raise SurfaceError(message)
    what, which, system = Kind(kind), Half(half), Units(units)
    if what is Kind.RUDDER and which is not Half.NONE:
        message = f'half "{which}": a rudder has none, leave it out'
        raise SurfaceError(message)
    if what is not Kind.RUDDER and which is Half.NONE:
        message = f"an {what} has halves, and this file is of one: say --half left or --half right"
        raise SurfaceError(message)
    return Blank(what, system)


def _hinge_lines(blank: Blank, cls: Any, count: int) -> list[str]:
    first, *others = hinge_names(blank.kind, count)
    lines = table_lines(blank, f"hinge.{first}", cls, 0)
    for name in others:
        up = said("up", blank.kind)
        lines += [f"[hinge.{name}]", f'same_as = "{first}"', f'{up} = "?"', 'takes_along = "?"']
    return lines


def write_new(path: str | Path, *, beside: Mapping[str, str] | None = None, **choices: Any) -> Path:
    """Write a file to start from, and the schemas beside it; nothing that is there is overwritten.

    Parameters
    ----------
    path : str or Path
        File to write.
    beside : mapping of str to str, optional
        Names and texts of other new files of the same folder: all are written, or none.
    **choices : Any
        As for :func:`starting_file`.

    Returns
    -------
    Path
        The file written.

    Raises
    ------
    SurfaceError
        Where one of the files is there already, or their folder is not.
    OSError
        Where this computer cannot write them (disk full, not yours).
    """
    target = Path(path)
    if target.is_dir():
        message = f'"{path}" is a folder: name the file to write, such as my.toml'
        raise SurfaceError(message)
    if not target.parent.is_dir():
        message = f"there is no folder {target.parent}: make it first, or give another place."
        raise SurfaceError(message)
    fresh = {target.parent / name: text for name, text in (beside or {}).items()}
    fresh[target] = starting_file(**choices)  # last: with it, all are there
    for one in reversed(fresh):
        not_there(one)
    for name, schema in (("surface.schema.json", surface_schema()), ("change.schema.json", change_schema())):
        write_whole(target.parent / name, schema_text(schema))
    done: list[Path] = []
    try:
        for one, text in fresh.items():
            write_whole(one, text, fresh=True)
            done.append(one)
    except BaseException:
        for one in done:
            one.unlink(missing_ok=True)
        raise
    return target
