"""A query sheet on one page: lines are counted, and what does not fit goes in a stated order.

The page has two columns of text at 10 pt between a head and a foot. Letters are taken as wide as those of the widest
common screen font, so that a narrower one leaves room and never asks for more.
"""

from __future__ import annotations

import textwrap
from typing import TYPE_CHECKING

from surfacecheck.errors import SurfaceError
from surfacecheck.studies.deviating._query_lines import DROPS, PICTURE

if TYPE_CHECKING:
    from surfacecheck.studies.deviating._query import Query

__all__ = ["PAGE", "fitted", "height", "left_out"]

COLUMN, WHOLE = 47, 94
"""Letters in a line of a column, and of the head and foot over the whole width."""
PAGE, LINE, BETWEEN, HEADING = 255.0, 4.3, 0.6, 7.2
"""Printable height of Letter (A4 has more), a line of 10 pt, between two paragraphs, a heading [mm]."""
DRAWN, REPLY, SLACK = 64.0, 35.0, 2.0
"""The picture in its column, the reply below both, what two columns of unlike paragraphs waste [mm]."""


def _tall(text: str, letters: int) -> float:
    """Height of a paragraph [mm]."""
    return max(1, len(textwrap.wrap(text, letters, break_on_hyphens=False))) * LINE + BETWEEN


def height(query: Query, *, picture: bool = True) -> float:
    """Work out how much of a page a sheet needs.

    Parameters
    ----------
    query : Query
        The sheet.
    picture : bool
        Whether a picture of the place stands on it.

    Returns
    -------
    float
        Height [mm].
    """
    texts = [line.text for block in query.blocks for line in block.lines]
    body = sum(_tall(text, COLUMN) for text in texts) + HEADING * len(query.blocks) + (DRAWN if picture else 0.0)
    head = _tall(query.title, WHOLE) + 1.3 * _tall(query.question, 64) + 5.0 + _tall("  ".join(query.head), WHOLE)
    foot = 2.0 * LINE + 3.0 + (_tall(left_out(query), WHOLE) if query.dropped else 0.0)
    return head + 0.5 * body + SLACK + REPLY + foot


def left_out(query: Query) -> str:
    """Say what was left out; empty where nothing was."""
    return f"Left out to fit one page: {', '.join(query.dropped)}." if query.dropped else ""


def fitted(query: Query, *, picture: bool = True) -> Query:
    """Leave out lines until the sheet fits one page.

    Parameters
    ----------
    query : Query
        With everything.
    picture : bool
        Whether a picture of the place stands on it.

    Returns
    -------
    Query
        Kind by kind is left out in the order of ``DROPS``; then what still fits comes back, the last one first. What
        stays left out is named on it.

    Raises
    ------
    SurfaceError
        Where so much happened that what must stay does not fit.
    """
    out: list[int] = []
    fits = _fits(query, out, picture=picture)
    for drop in range(1, len(DROPS) + (1 if picture else 0)):
        if fits is not None:
            break
        out.append(drop)
        fits = _fits(query, out, picture=picture)
    if fits is None:
        many = len(query.deviation.surface.happened)
        message = f"{many} events do not fit one sheet: put those that need one answer into a file of their own"
        raise SurfaceError(message)
    for drop in out[-2::-1]:
        more = _fits(query, [one for one in out if one != drop], picture=picture)
        if more is not None:
            out.remove(drop)
            fits = more
    return fits


def _fits(query: Query, drops: list[int], *, picture: bool) -> Query | None:
    """Leave out some kinds; None where that does not fit."""
    for drop in drops:
        query = query.without(drop)
    return query if height(query, picture=picture and PICTURE not in drops) <= PAGE else None
