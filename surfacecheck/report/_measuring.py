"""The measuring sheet: what a starting file asks, with drawings and lines to pencil the answers on."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import groupby
from typing import TYPE_CHECKING

from markupsafe import Markup

from surfacecheck.assessment import CAUTION
from surfacecheck.reading import questions, read_text
from surfacecheck.report._how_measured import how_measured
from surfacecheck.report._html import rendered
from surfacecheck.report._measuring_board import Labels
from surfacecheck.report._measuring_joints import (
    bracket_drawing,
    horn_drawing,
    leg_drawing,
    rivet_drawing,
    row_drawing,
    scale_drawing,
)
from surfacecheck.report._measuring_shape import bends_drawing, pins_drawing, planform_drawing, section_drawing
from surfacecheck.report._svg import to_svg

if TYPE_CHECKING:
    from collections.abc import Callable

    from surfacecheck.model import Surface
    from surfacecheck.quantities import System
    from surfacecheck.reading import Question
    from surfacecheck.report._style import Drawing

__all__ = ["measuring_sheet"]

_DRAWINGS: dict[str, tuple[Callable[[Surface, Labels], Drawing], ...]] = {
    "B": (planform_drawing, section_drawing, pins_drawing, horn_drawing),
    "C": (bends_drawing,),
    "D": (rivet_drawing,),
    "E": (row_drawing,),
    "F": (bracket_drawing, leg_drawing),
    "G": (scale_drawing,),
}
"""Which drawings stand in which part; a letter of a later part may stand in a drawing of an earlier one."""


@dataclass(frozen=True, slots=True)
class Asked:
    """A line of the sheet: the question, its tool and how well; and whether its words are to be ringed."""

    question: Question
    note: str
    choices: tuple[str, ...]
    tool: str
    well: str


@dataclass(frozen=True, slots=True)
class SheetPart:
    """A part of the sheet: heading, drawings, and the lines by table."""

    heading: str
    drawings: tuple[Markup, ...]
    tables: tuple[tuple[str, tuple[Asked, ...]], ...]


def measuring_sheet(text: str, file: str = "", system: System = "metric") -> str:
    """Write the measuring sheet of a starting file.

    Parameters
    ----------
    text : str
        From ``starting_file``.
    file : str
        Its name, for the heading.
    system : {"metric", "inch"}
        Units it was written for.

    Returns
    -------
    str
        One self-contained HTML document without script; the same every time. It prints on A4 and Letter.

    Raises
    ------
    SurfaceError
        Where the text is no starting file.
    """
    surface = read_text(text)
    asked = questions(text, surface.kind)
    labels = Labels(asked)
    parts = []
    for heading, group in groupby(asked, key=lambda one: one.part):
        drawings = tuple(
            Markup(to_svg(make(surface, labels), f"{heading[0].lower()}{i}"))  # noqa: S704 - own SVG, names escaped
            for i, make in enumerate(_DRAWINGS.get(heading[0], ()))
        )
        tables = tuple(
            (table, tuple(_asked(one, surface, system) for one in lines))
            for table, lines in groupby(group, key=lambda one: one.table)
        )
        parts.append(SheetPart(heading, drawings, tables))
    return rendered("measuring.html", surface=surface, file=file, parts=parts, caution=CAUTION, system=system)


def _asked(one: Question, surface: Surface, system: System) -> Asked:
    tool, well = how_measured(one, system)
    note, choices = one.note, tuple[str, ...]()
    if one.spec.enum is not None:
        words = tuple(surface.said(str(word)) for word in one.spec.enum)
        note, choices = note.removesuffix(" / ".join(words)).rstrip(": "), words
    return Asked(one, note, choices, tool, well)
