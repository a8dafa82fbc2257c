"""How far a number may lie from what was given, where nobody said: by the instrument, or by what it is.

A small table to start from, to be overridden wherever something better is known.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from surfacecheck.provenance import Basis, Source
from surfacecheck.studies._readings import TOOLS_SOURCE, reading_of

if TYPE_CHECKING:
    from surfacecheck.provenance import Value

__all__ = ["Default", "default_of", "kind_of", "tries_factor"]


class Default(NamedTuple):
    """A tolerance of the table.

    Attributes
    ----------
    text : str
        As a builder would write it.
    source : Source
        Where it comes from.
    """

    text: str
    source: Source


def _practice(text: str, words: str) -> Default:
    return Default(text, Source(Basis.COMMON_PRACTICE, words))


DRILLED = _practice("+0.1 mm -0 mm", "a drill cuts over its own size in thin sheet")
MARKED = _practice("0.5 mm", "marked out with a ruler, drilled by hand")
BY_KIND = {"hole": DRILLED, "edge": MARKED, "pitch": MARKED}
TYPICAL = _practice("10 % bell", "single rivets of a lot about their typical strength")
GUESSED = Default("10 %", Source(Basis.ASSUMED, "a guess is taken to lie within a tenth"))

_SHEET = Source(
    Basis.PUBLISHED,
    "EN 485-4:1993, Table 1, cold-rolled, alloy group II (2024, 5052, 6061, 7075), 1000 to 1250 mm wide",
)
_UP_TO = (0.4, 0.5, 0.6, 0.8, 1.0, 1.2, 1.5, 1.8, 2.0, 2.5, 3.0, 3.5, 4.0, 5.0, 6.0)
_PLUS_MINUS = (0.05, 0.05, 0.06, 0.07, 0.08, 0.09, 0.11, 0.12, 0.13, 0.14, 0.15, 0.17, 0.20, 0.22, 0.24)
"""Specified thickness over the one before, up to and including this one, and its tolerance [mm]; over 0.2 mm."""

_D2 = {2: 1.128, 3: 1.693, 4: 2.059, 5: 2.326, 6: 2.534, 7: 2.704, 8: 2.847, 9: 2.970, 10: 3.078}
"""Mean range of n values of a normal distribution over its standard deviation: ISO 7870-2:2013, d2; from memory."""


def kind_of(key: str) -> str:
    """Say what a number is to a scatter.

    Parameters
    ----------
    key : str
        Of the file.

    Returns
    -------
    str
        ``thickness``, ``hole``, ``edge``, ``pitch``, ``strength``; empty for what is not varied unless it is asked for.

    Examples
    --------
    >>> [kind_of(k) for k in ("sheet.spar.thickness", "row.trailing_edge.edge.left_skin", "bracket.plate.pin.gap")]
    ['thickness', 'edge', '']
    """
    words = key.partition("[")[0].split(".")
    top, last = words[0], words[-1]
    if top not in {"sheet", "rivet", "row", "bracket", "horn", "balance_mass"}:
        return ""
    if last == "thickness":
        return "thickness"
    if last in {"hole", "bolt_hole"}:
        return "hole"
    if last in {"edge", "bolt_edge"} or words[-2:-1] in (["edge"], ["edge_from_rim"]):
        return "edge"
    if (top == "row" and last in {"pitch", "gap", "line_gap"}) or last.startswith("gap_"):
        return "pitch"
    return "strength" if top == "rivet" and last in {"shear", "pull"} else ""


def default_of(key: str, value: Value, least: bool) -> Default | None:
    """Give the tolerance of a number where nobody said one.

    Parameters
    ----------
    key : str
        Of the file.
    value : Value
        As given, with how it is known.
    least : bool
        Whether a strength is the least value of its sheet, which is what a check asks for.

    Returns
    -------
    Default or None
        None for what is not varied.
    """
    kind = kind_of(key)
    if not kind or not value.known or value.absent or not value.si:
        return None
    if value.source.basis is Basis.GUESS:
        return GUESSED
    if kind == "strength":
        return None if least else TYPICAL
    reading = reading_of(value)
    by_drill = kind == "hole" and reading is not None and "drill" in reading.tool.words  # it is as the drill cuts it
    measured = None
    if reading is not None and reading.tool.quantity == "length" and not by_drill:
        said = f"{reading.tool.words.partition(' ')[0]}: {TOOLS_SOURCE.text}"
        measured = Default(f"{reading.half * 1e3:g} mm", Source(TOOLS_SOURCE.basis, said))
    return measured or _of_sheet(value) if kind == "thickness" else measured or BY_KIND[kind]


def _of_sheet(value: Value) -> Default | None:
    """Give the tolerance to which sheet of that thickness is sold."""
    mm = float(value.si or 0.0) * 1e3
    for most, tolerance in zip(_UP_TO, _PLUS_MINUS, strict=True):
        if 0.2 < mm <= most + 1e-9:
            return Default(f"{tolerance:.2f} mm", _SHEET)
    return None


def tries_factor(tries: int) -> float:
    """Give the standard deviation that a range of so many tries speaks for, over that range.

    Parameters
    ----------
    tries : int
        Values the range is of, 2 to 10; more count as 10 [-].

    Returns
    -------
    float
        1 / d2 [-].

    Examples
    --------
    >>> round(tries_factor(5), 3)
    0.43
    """
    return 1.0 / _D2[min(max(tries, 2), 10)]
