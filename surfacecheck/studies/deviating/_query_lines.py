"""Lines and blocks of a query sheet, and the order in which lines go when the page is full."""

from __future__ import annotations

from dataclasses import dataclass

__all__ = ["DROPS", "Block", "Line"]

DROPS = (
    "corner of the band",
    "changes of the model",
    "notes of the method",
    "balance unchanged",
    "state of the file",
    "working if it holds nothing",
    "load path",
    "photo list",
    "rules after the third",
    "measurements after the third event",
    "band",
    "letters of the working",
    "strengths",
    "places after the second",
    "what the option answers",
    "working",
    "balance",
    "picture",
)
"""What goes when a sheet does not fit one page, the first first; what then still fits comes back, the last first."""
(
    CORNER, MODEL, NOTES, BALANCE, FILE, WORKED_NOTHING, PATH, PHOTOS, RULES, EVENTS, BAND, LETTERS, STRENGTHS, PLACES,
    OPTION, WORKED, CHANGED, PICTURE,
) = range(1, len(DROPS) + 1)  # fmt: skip


@dataclass(frozen=True)
class Line:
    """One line, as long as it is.

    Attributes
    ----------
    text : str
        Words.
    drop : int
        Its number in ``DROPS``, from 1; 0 where it stays.
    """

    text: str
    drop: int = 0


@dataclass(frozen=True)
class Block:
    """One block.

    Attributes
    ----------
    title : str
        Heading with its number.
    lines : tuple of Line
        In order.
    """

    title: str
    lines: tuple[Line, ...]
