"""A query sheet as one page of paper: black and white, 10 pt, A4 and Letter; the same as text to copy below it."""

from __future__ import annotations

import json
from contextlib import suppress
from typing import TYPE_CHECKING

from markupsafe import Markup

from surfacecheck.errors import Fault, SurfaceError
from surfacecheck.report._deviation_picture import deviation_picture
from surfacecheck.report._earlier import kept_in
from surfacecheck.report._html import rendered
from surfacecheck.report._svg import to_svg
from surfacecheck.studies import REPLIES, SHEET_CAUTION, kept_data, kept_from, left_out, query_text

if TYPE_CHECKING:
    from pathlib import Path

    from surfacecheck.model import Surface
    from surfacecheck.quantities import System
    from surfacecheck.studies import Kept, Query

__all__ = ["query_page", "read_sheet"]

TAG = "surfacecheck-query"
"""Id of the template that keeps what a later sheet compares itself with."""


def query_page(query: Query, system: System = "metric") -> str:
    """Write a query sheet as a page.

    Parameters
    ----------
    query : Query
        Fitted.
    system : {"metric", "inch"}
        Units of the picture.

    Returns
    -------
    str
        One self-contained HTML document without script, that prints on one sheet of A4 or Letter.
    """
    picture = None
    if "picture" not in query.dropped:
        with suppress(SurfaceError):  # without an outline there is nothing to draw; the text stands by itself
            drawn = deviation_picture(query.deviation, None, system, alone=False, brief=True)
            picture = Markup(to_svg(drawn, "place"))  # noqa: S704 - own SVG, names escaped
    return rendered(
        "query.html",
        query=query,
        picture=picture,
        replies=REPLIES,
        caution=SHEET_CAUTION,
        left_out=left_out(query),
        text=query_text(query),
        tag=TAG,
        kept=json.dumps(kept_data(query.kept), separators=(",", ":"), allow_nan=False),
    )


def read_sheet(path: Path, surface: Surface) -> Kept:
    """Read what an earlier sheet of the same surface kept.

    Parameters
    ----------
    path : Path
        The page that ``query`` wrote; of its text the page beside it is read.
    surface : Surface
        As it is now.

    Returns
    -------
    Kept
        What it kept.

    Raises
    ------
    SurfaceError
        Where it cannot be read, is no such sheet, or is one of another surface.
    """
    page = path.with_suffix(".html")
    try:
        data = kept_in(page, TAG, "query", "out/rudder_query_7F3A-1.html")
        return kept_from(data, (surface.name, str(surface.kind), str(surface.half)))
    except SurfaceError as error:
        raise SurfaceError(*(f if f.file else Fault(f.message, page.name) for f in error.faults)) from error
