"""The page: one HTML file with everything in it, the answer first."""

from __future__ import annotations

import os
from collections import defaultdict
from itertools import chain
from pathlib import Path
from typing import TYPE_CHECKING

from markupsafe import Markup

from surfacecheck.assessment import balance_line, in_system, margin_text, not_given_lines
from surfacecheck.errors import SurfaceError
from surfacecheck.reading import write_whole
from surfacecheck.report._blocks import check_blocks, first_lines, versions
from surfacecheck.report._by_hand import by_hand
from surfacecheck.report._case_sheet import COMPARE
from surfacecheck.report._earlier import TAG, kept_text, sheet_of
from surfacecheck.report._figures import hidden_by, pictures
from surfacecheck.report._html import templates
from surfacecheck.report._inputs import input_tables
from surfacecheck.report._mini import mini_of
from surfacecheck.report._page_tables import page_tables
from surfacecheck.report._workings import workings
from surfacecheck.sections.box import box_needs
from surfacecheck.studies import decides

if TYPE_CHECKING:
    from surfacecheck.assessment import Assessment
    from surfacecheck.quantities import System
    from surfacecheck.report._since import Since

__all__ = ["page", "write_page"]


def page(assessment: Assessment, system: System = "metric", since: Since | None = None) -> str:
    """Write the page of an assessment.

    Parameters
    ----------
    assessment : Assessment
        Perhaps of a half-filled surface.
    system : {"metric", "inch"}
        Units.
    since : Since, optional
        What changed since an earlier page; it then has a section.

    Returns
    -------
    str
        One self-contained HTML document without script; the same every time.
    """
    surface = assessment.surface
    lowest = assessment.lowest_by_part[0] if assessment.lowest_by_part else None
    mini = mini_of(surface)
    blocks = check_blocks(assessment, system, mini)
    anchors = {block.name: block.anchor for block in blocks["margins"]}
    decided = decides(assessment)
    drawn = {name: (Markup(one.svg), one.hidden) for name, one in pictures(assessment, system).items()}  # noqa: S704 - own SVG, names escaped
    known_box = assessment.effects.box is not None
    text = (
        templates()
        .get_template("page.html")
        .render(
            assessment=assessment,
            surface=surface,
            sheet=sheet_of(surface),
            lowest=lowest,
            lowest_margin="" if lowest is None or lowest.margin is None else margin_text(lowest.margin),
            lowest_part="" if lowest is None else in_system(lowest.part, system),
            lowest_anchor="" if lowest is None else anchors[lowest.name],
            first_lines=[*first_lines(assessment), ("worth measuring better", str(len(decided.deciding)), "guesses")],
            tables=defaultdict(lambda: None, page_tables(assessment, system)),
            since=since,
            since_tables={} if since is None else since.tables(system),
            mini=mini,
            pictures=drawn,
            sections=[name for name in drawn if name.startswith("section-")],
            rows_hidden=hidden_by(box_needs(surface))
            if not known_box
            else "Not given: no row is described well enough.",
            blocks=blocks,
            work=workings(chain.from_iterable(blocks.values()), assessment.cases),
            asked=not_given_lines(assessment, system),
            balance=balance_line(assessment, system),
            compare=COMPARE,
            decided=decided.sentences(system),
            inputs=input_tables(assessment),
            tag=TAG,
            kept=kept_text(assessment),
            by_hand=by_hand(assessment, system),
            versions=versions(assessment),
        )
    )
    unseen = {ord(sign): None for sign in set(text) if not (sign in "\n\t\u00a0" or sign.isprintable())}
    return text.translate(unseen) + "\n"


def write_page(
    assessment: Assessment, path: str | os.PathLike[str], system: System = "metric", since: Since | None = None
) -> int:
    """Write the page to a file, whole or not at all.

    Parameters
    ----------
    assessment : Assessment
        Perhaps of a half-filled surface.
    path : str or path
        Where to; the folder is made. A page that is there stays until the new one is complete.
    system : {"metric", "inch"}
        Units.
    since : Since, optional
        What changed since an earlier page.

    Returns
    -------
    int
        Size in bytes.

    Raises
    ------
    SurfaceError
        Where it cannot be written.
    """
    target = Path(path)
    text = page(assessment, system, since)
    try:
        return write_whole(target, text)
    except OSError as err:
        message = f"the page {target} cannot be written: {err.strerror or err}; what was there before is still there"
        raise SurfaceError(message) from err
