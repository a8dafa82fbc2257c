"""A page for one study: the sentence, pictures, tables, what was taken for granted; one HTML file without script."""

from __future__ import annotations

from typing import TYPE_CHECKING

from markupsafe import Markup

from surfacecheck.assessment import CAUTION
from surfacecheck.errors import SurfaceError
from surfacecheck.report._gone_picture import gone_picture
from surfacecheck.report._html import rendered
from surfacecheck.report._mixed_picture import mixed_picture
from surfacecheck.report._rivets_picture import rivets_picture
from surfacecheck.report._svg import to_svg
from surfacecheck.studies import (
    buying_lines,
    carries_table,
    first_shown,
    gone_headline,
    gone_notes,
    gone_remarks,
    gone_table,
    impossible_lines,
    limit_table,
    mixed_headline,
    mixed_notes,
    mixed_table,
    rivets_headline,
    rivets_notes,
    takes_table,
    zero_table,
)

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from surfacecheck.model import Surface
    from surfacecheck.quantities import System
    from surfacecheck.report._style import Drawing
    from surfacecheck.studies import MixedRow, OneGone, RivetComparison
    from surfacecheck.tables import Table

__all__ = ["gone_page", "mixed_page", "rivets_page"]

SHOWN = 60
"""Alternatives a page shows; of more, those that nothing else beats."""


def gone_page(gone: OneGone, system: System = "metric") -> str:
    """Write the page of one gone at a time.

    Parameters
    ----------
    gone : OneGone
        Worked.
    system : {"metric", "inch"}
        Units.

    Returns
    -------
    str
        One self-contained HTML document without script; the same every time.
    """
    return _page(
        gone.assessment.surface,
        "One gone at a time",
        gone_headline(gone, system),
        (lambda: gone_picture(gone, system, alone=False),),
        (gone_table(gone, system),),
        (*gone_remarks(gone, system), *gone_notes(gone, system)),
    )


def mixed_page(row: MixedRow, system: System = "metric") -> str:
    """Write the page of a row of unlike rivets.

    Parameters
    ----------
    row : MixedRow
        Worked.
    system : {"metric", "inch"}
        Units.

    Returns
    -------
    str
        One self-contained HTML document without script; the same every time.
    """
    return _page(
        row.assessment.surface,
        "How unlike rivets share",
        mixed_headline(row, system),
        (lambda: mixed_picture(row, system, alone=False),),
        (mixed_table(row, system),),
        mixed_notes(row),
    )


def rivets_page(comparison: RivetComparison, system: System = "metric") -> str:
    """Write the page of a comparison of rivets.

    Parameters
    ----------
    comparison : RivetComparison
        Worked.
    system : {"metric", "inch"}
        Units.

    Returns
    -------
    str
        One self-contained HTML document without script; the same every time.
    """
    shown, _ = first_shown(comparison, SHOWN)
    buying = buying_lines(comparison, shown, system)
    carried = (carries_table(comparison, shown, system), takes_table(comparison, shown, system)) if shown else ()
    rest = (zero_table(comparison, system, shown or None), limit_table(comparison, system))
    return _page(
        comparison.surface,
        "Rivets compared",
        " ".join(rivets_headline(comparison, system)),
        (lambda: rivets_picture(comparison, system, alone=False),),
        tuple(table for table in (*carried, *rest) if table.rows),
        (*impossible_lines(comparison, system), *buying, *rivets_notes(comparison, system)),
    )


def _page(
    surface: Surface,
    title: str,
    headline: str,
    pictures: Sequence[Callable[[], Drawing]],
    tables: Sequence[Table],
    notes: Sequence[str],
) -> str:
    drawn = [svg for i, draw in enumerate(pictures) if (svg := _svg(draw, f"study-{i}"))]
    return rendered(
        "study.html",
        surface=surface,
        sheet=surface.sha256[:4].upper(),
        title=title,
        headline=headline,
        pictures=drawn,
        tables=[Markup(table.html()) for table in tables],  # noqa: S704 - escapes its texts
        notes=notes,
        caution=CAUTION,
    )


def _svg(draw: Callable[[], Drawing], prefix: str) -> Markup | None:
    try:
        drawn = draw()
    except SurfaceError:  # without an outline there is nothing to draw; the tables stand by themselves
        return None
    return Markup(to_svg(drawn, prefix))  # noqa: S704 - own SVG, names escaped
