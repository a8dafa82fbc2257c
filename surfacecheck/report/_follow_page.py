"""A page for one force that was followed: pictures, steps and sums in one HTML file."""

from __future__ import annotations

from typing import TYPE_CHECKING

from markupsafe import Markup

from surfacecheck.assessment import CAUTION, in_system
from surfacecheck.errors import SurfaceError
from surfacecheck.report._follow_picture import follow_picture
from surfacecheck.report._html import rendered
from surfacecheck.report._svg import to_svg
from surfacecheck.studies import cut_table, following_headline, load_words, step_table

if TYPE_CHECKING:
    from surfacecheck.quantities import System
    from surfacecheck.studies import Following

__all__ = ["follow_page"]


def follow_page(followed: Following, system: System = "metric") -> str:
    """Write the page of one followed force.

    Parameters
    ----------
    followed : Following
        A force, followed.
    system : {"metric", "inch"}
        Units.

    Returns
    -------
    str
        One self-contained HTML document without script; the same every time. A picture for each part of the loads
        inside; none where the trailing edge is not known.
    """
    surface = followed.surface
    parts = [followed.part] if followed.part else [*(followed.parts or ("",))]
    return rendered(
        "follow.html",
        surface=surface,
        sheet=surface.sha256[:4].upper(),
        title=f"{load_words(followed, system)}: {in_system(followed.place.words, system)}",
        headline=following_headline(followed, system),
        caution=CAUTION,
        pictures=[svg for part in parts if (svg := _picture(followed, part, system))],
        steps=Markup(step_table(followed, system, named=False).html()),  # noqa: S704 - escapes its texts
        cuts=[Markup(cut_table(followed, part, system).html()) for part in parts if part],  # noqa: S704 - the same
        notes=followed.notes,
    )


def _picture(followed: Following, part: str, system: System) -> Markup | None:
    try:
        drawn = follow_picture(followed, part, system, alone=False)
    except SurfaceError:  # without a trailing edge there is nothing to draw; the tables stand by themselves
        return None
    return Markup(to_svg(drawn, f"follow-{part or 'whole'}"))  # noqa: S704 - own SVG, names escaped
