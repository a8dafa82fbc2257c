"""A query sheet for an e-mail: at most 64 columns, nothing that must line up; and its entry in a log."""

from __future__ import annotations

from typing import TYPE_CHECKING

from surfacecheck.studies.deviating._query import REPLIES, SHEET
from surfacecheck.studies.deviating._query_fit import left_out
from surfacecheck.tables import wrapped

if TYPE_CHECKING:
    from surfacecheck.studies.deviating._query import Query

__all__ = ["WIDTH", "log_text", "query_text"]

WIDTH = 64


def query_text(query: Query, width: int = WIDTH) -> str:
    """Write a query sheet as plain text.

    Parameters
    ----------
    query : Query
        Fitted.
    width : int
        Columns.

    Returns
    -------
    str
        ASCII lines.
    """
    lines = [wrapped(f"QUERY {query.number}  {query.title}.", width, then="  ")]
    lines.append(wrapped(f"{query.question} Reply at 5.", width))
    lines += [wrapped(line, width, then="  ") for line in query.head]
    for block in query.blocks:
        lines.append(wrapped(block.title, width))
        lines += [wrapped(line.text, width, then="  ") for line in block.lines]
    lines.append("5 MAY IT STAY AS IT IS?  Reply with one number:")
    lines.append(wrapped("  ".join(REPLIES), width))
    lines.append("Name, date:                        Filed in log, page:")
    if query.dropped:
        lines.append(wrapped(left_out(query), width, then="  "))
    lines.append(wrapped(SHEET, width))
    return "\n".join(lines) + "\n"


def log_text(query: Query, width: int = WIDTH) -> str:
    """Write the entry for a log.

    Parameters
    ----------
    query : Query
        The sheet.
    width : int
        Columns.

    Returns
    -------
    str
        ASCII lines: what happened, what was asked, room for the answer.
    """
    deviation = query.deviation
    events = [f"{one.where}: {one.what}." for one in deviation.surface.happened]
    have = [line.text for line in query.blocks[0].lines if line.text.startswith(("I have", "Drawing says"))]
    lines = [wrapped(f"LOG  deviation {query.number}  {query.title}", width, then="  "), "Date:            Page:"]
    lines += [wrapped(line, width, then="  ") for line in (*events, *have)]
    lines.append(wrapped(f"Asked: {query.question}", width, then="  "))
    lines.append(wrapped(query.head[0], width))
    lines.append("Reply (1 to 4), by whom, date:")
    lines.append("Done about it, date:")
    lines.append(wrapped(SHEET, width))
    return "\n".join(lines) + "\n"
