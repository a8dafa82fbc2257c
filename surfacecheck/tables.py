"""Rows as text, HTML or CSV: what a terminal and a notebook show of any result.

Values are texts already. A terminal may be an old one: text comes out in ASCII, and nothing that steers a terminal
(an escape in a name, say) gets through.
"""

from __future__ import annotations

import csv
import html
import io
import re
import textwrap
import unicodedata
from dataclasses import dataclass

from surfacecheck.errors import SurfaceError

__all__ = ["Table", "escaped", "plain", "wrapped"]

WIDTH = 80
LETTER = 64
"""Columns of a letter: what a mail program quotes twice and still does not break (from memory)."""
_GAP = 2
_NARROWEST = 8
_HELD = "\0"
"""Stands for the space between a number and its unit while lines are broken."""
_PLAIN = {
    "−": "-", "–": "-", "—": "-", "‑": "-", "×": "x", "°": " deg", "·": " ", "µ": "u", "μ": "u", "²": "2", "³": "3",
    "√": "sqrt", "≤": "<=", "≥": ">=", "→": "->", "…": "...", "’": "'", "‘": "'", "“": '"', "”": '"', "„": '"',
    "ß": "ss", "æ": "ae", "Æ": "Ae", "ø": "o", "Ø": "O", "\t": " ",
}  # fmt: skip
_NUMBER = re.compile(r"[+-]?[0-9.]+([eE][+-]?[0-9]+)?\s*[^=@]*")


def plain(text: str) -> str:
    """Write a text in ASCII, without control characters.

    Parameters
    ----------
    text : str
        Any text.

    Returns
    -------
    str
        The nearest in ASCII; a question mark for what has no near one.

    Examples
    --------
    >>> plain("Seitenruder, Flügel − 25°")
    'Seitenruder, Flugel - 25 deg'
    """
    if text.isascii() and text.isprintable():
        return text
    marks = "".join(_PLAIN.get(sign, sign) for sign in text)
    split = unicodedata.normalize("NFKD", marks)
    kept = "".join(sign for sign in split if not unicodedata.combining(sign))
    return "".join(sign if sign == "\n" or (sign.isascii() and sign.isprintable()) else "?" for sign in kept)


def escaped(text: str) -> str:
    """Write a text for HTML, quotes included.

    Parameters
    ----------
    text : str
        Any text.

    Returns
    -------
    str
        With ``&lt;`` and its kin, control characters left out.

    Examples
    --------
    >>> escaped("<b>rib</b>")
    '&lt;b&gt;rib&lt;/b&gt;'
    """
    return html.escape("".join(sign for sign in text if sign in "\n\t" or sign.isprintable()))


def wrapped(text: str, width: int = WIDTH, first: str = "", then: str = "") -> str:
    """Break a text into lines.

    Parameters
    ----------
    text : str
        Words; taken to ASCII.
    width : int
        Columns.
    first, then : str
        What the first line and those after it begin with.

    Returns
    -------
    str
        Lines of at most that width.

    Examples
    --------
    >>> print(wrapped("one two three four", 14, "NUMBERS  ", "         "))
    NUMBERS  one
             two
             three
             four
    """
    return (
        textwrap.fill(plain(text), width, initial_indent=first, subsequent_indent=then, break_on_hyphens=False)
        or first.rstrip()
    )


@dataclass(frozen=True)
class Table:
    """Texts in rows and columns.

    Attributes
    ----------
    heads : tuple of str
        Head of each column.
    rows : tuple of tuple of str
        Each as long as ``heads``; its first text names the row.
    align : str
        A letter a column, ``l`` or ``r``; where it is empty the first is ``l`` and the others ``r``.
    caption, note : str
        A line above and one below.

    Raises
    ------
    SurfaceError
        Where a row or ``align`` has another length than ``heads``.

    Examples
    --------
    >>> print(Table(("pin", "sideways"), (("top", "123 N"), ("bottom", "88 N")), note="at limit"))
    pin     sideways
    top        123 N
    bottom      88 N
    at limit
    """

    heads: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    align: str = ""
    caption: str = ""
    note: str = ""

    def __post_init__(self) -> None:
        """Fill in the alignment and look at the lengths."""
        if not self.align:
            object.__setattr__(self, "align", ("l" + "r" * len(self.heads))[: len(self.heads)])
        for row in (self.align, *self.rows):
            if len(row) != len(self.heads):
                message = (
                    f"a row of {len(row)} under {len(self.heads)} heads ({', '.join(self.heads)}): give each a text"
                )
                raise SurfaceError(message)

    def text(self, width: int = WIDTH) -> str:
        """Write it for a terminal.

        Parameters
        ----------
        width : int
            Columns; the widest column of words is broken into lines until it fits.

        Returns
        -------
        str
            ASCII lines.
        """
        cells = [tuple(plain(text) for text in row) for row in (self.heads, *self.rows)]
        wide = self._widths(cells, width)
        lines = [line for row in cells for line in self._lines(row, wide)]
        above = [wrapped(self.caption, width)] if self.caption else []
        below = [wrapped(self.note, width)] if self.note else []
        return "\n".join([*above, *lines, *below])

    def _widths(self, cells: list[tuple[str, ...]], width: int) -> list[int]:
        """Width of every column; columns of words and heads of numbers give way, a word itself only at last."""
        every = range(len(self.heads))
        wide = [max(len(row[at]) for row in cells) for at in every]
        whole = [max((len(word) for row in cells for word in row[at].split()), default=0) for at in every]
        numbers = [at for at in every if self.align[at] != "l"]
        for at in every:
            body = max((len(row[at]) for row in cells[1:]), default=0)
            whole[at] = max(whole[at], body if at in numbers else _NARROWEST)
        broken = [whole[at] if at in numbers else _NARROWEST for at in every]
        over = sum(wide) + _GAP * (len(wide) - 1) - width
        for least in (whole, broken):
            while over > 0 and (loose := [at for at in every if wide[at] > least[at]]):
                wide[max(loose, key=lambda at: wide[at])] -= 1
                over -= 1
        return wide

    def _lines(self, row: tuple[str, ...], wide: list[int]) -> list[str]:
        broken = [
            textwrap.wrap(cell, max(size, 1), break_on_hyphens=False) or [""]
            for cell, size in zip(row, wide, strict=True)
        ]
        out = []
        for at in range(max(len(cell) for cell in broken)):
            parts = [cell[at] if at < len(cell) else "" for cell in broken]
            sides = zip(parts, wide, self.align, strict=True)
            line = (" " * _GAP).join(p.rjust(size) if side == "r" else p.ljust(size) for p, size, side in sides)
            out.append(line.rstrip())
        return out

    def letter(self, width: int = LETTER) -> str:
        """Write it for a letter, whose letters need not all be equally wide: nothing has to line up.

        Parameters
        ----------
        width : int
            Columns.

        Returns
        -------
        str
            ASCII lines, a paragraph a row; what is empty or nought ("-") is left out.

        Examples
        --------
        >>> print(Table(("pin", "sideways", "case"), (("top", "123 N", "wind"),), "lrl").letter())
        top: sideways 123 N; case: wind
        """
        named = 1 if self.heads[0] else 2  # a column without head numbers the rows
        sides = list(zip(self.heads, self.align, strict=True))[named:]
        lines = []
        for row in self.rows:
            told = [
                f"{head}: {plain(cell)}" if side == "l" else f"{head} {plain(cell).replace(' ', _HELD)}"
                for (head, side), cell in zip(sides, row[named:], strict=True)
                if cell not in ("", "-")
            ]
            lead = " ".join(row[:named])
            text = plain(lead) + (": " if told else "") + "; ".join(told)
            filled = textwrap.fill(text, width, subsequent_indent="  ", break_on_hyphens=False)
            lines.append(filled.replace(_HELD, " "))
        around = [wrapped(self.caption, width) if self.caption else "", wrapped(self.note, width) if self.note else ""]
        return "\n".join(one for one in (around[0], *lines, around[1]) if one)

    def html(self) -> str:
        """Write it as one HTML table, every text escaped.

        Returns
        -------
        str
            ``<table>`` with caption, heads with their scope, and the note at the foot.
        """
        style = [' style="text-align:right"' if side == "r" else ' style="text-align:left"' for side in self.align]
        caption = f"<caption>{escaped(self.caption)}</caption>" if self.caption else ""
        heads = "".join(f'<th scope="col"{s}>{escaped(h)}</th>' for h, s in zip(self.heads, style, strict=True))
        body = []
        for row in self.rows:
            first = f'<th scope="row"{style[0]}>{escaped(row[0])}</th>'
            rest = "".join(f"<td{s}>{escaped(cell)}</td>" for cell, s in zip(row[1:], style[1:], strict=True))
            body.append(f"<tr>{first}{rest}</tr>")
        note = f'<tr><td colspan="{len(self.heads)}" style="text-align:left">{escaped(self.note)}</td></tr>'
        foot = f"<tfoot>{note}</tfoot>" if self.note else ""
        inner = f"{caption}<thead><tr>{heads}</tr></thead><tbody>{''.join(body)}</tbody>{foot}"
        return f"<table>{inner}</table>"

    def csv(self) -> str:
        """Write it for a spreadsheet.

        Returns
        -------
        str
            Heads and rows with commas, without caption and note; a text that a spreadsheet would work as a formula
            gets an apostrophe.
        """
        out = io.StringIO()
        writer = csv.writer(out, lineterminator="\n")
        writer.writerow(_harmless(head) for head in self.heads)
        writer.writerows([_harmless(cell) for cell in row] for row in self.rows)
        return out.getvalue()

    def _repr_html_(self) -> str:
        return self.html()

    def __str__(self) -> str:
        """Write it for a terminal of 80 columns."""
        return self.text()


def _harmless(cell: str) -> str:
    formula = cell[:1] in {"=", "@"} or (cell[:1] in {"+", "-"} and cell != "-" and not _NUMBER.fullmatch(cell))
    return "'" + cell if formula else cell
