"""A deviation as a page: what passes here, pictures, every way beside the drawing, the rest folded."""

from __future__ import annotations

from typing import TYPE_CHECKING

from markupsafe import Markup

from surfacecheck.assessment import CAUTION
from surfacecheck.errors import SurfaceError
from surfacecheck.report._blocks import check_block
from surfacecheck.report._deviation_picture import deviation_picture
from surfacecheck.report._html import rendered
from surfacecheck.report._svg import to_svg
from surfacecheck.studies import (
    band_lines,
    deviation_table,
    folded_tables,
    group_name,
    outcome_lines,
    passing_lines,
    title_of,
)

if TYPE_CHECKING:
    from collections.abc import Iterator

    from surfacecheck.quantities import System
    from surfacecheck.report._blocks import CheckBlock
    from surfacecheck.studies import Deviation

__all__ = ["deviation_page"]

_MOST_PICTURES = 4
_BOUNDS = ("holds fully", "holds nothing")


def deviation_page(deviation: Deviation, system: System = "metric") -> str:
    """Write the page of a deviation.

    Parameters
    ----------
    deviation : Deviation
        Worked.
    system : {"metric", "inch"}
        Units.

    Returns
    -------
    str
        One self-contained HTML document without script; the same every time.
    """
    surface = deviation.surface
    return rendered(
        "deviation.html",
        surface=surface,
        sheet=surface.sha256[:4].upper(),
        events=surface.happened,
        passing=passing_lines(deviation, system),
        pictures=[Markup(svg) for svg in _pictures(deviation, system)],  # noqa: S704 - own SVG, names escaped
        table=deviation_table(deviation, system),
        outcomes=outcome_lines(deviation, system),
        cautions=deviation.cautions,
        bands=band_lines(deviation, system),
        folded=folded_tables(deviation, system),
        workings=list(_workings(deviation, system)),
        done=[(title_of(way), way.column.says) for way in deviation.ways[1:] if way.column.says],
        not_looked_at=deviation.now.fully.not_looked_at,
        caution=CAUTION,
    )


def _pictures(deviation: Deviation, system: System) -> Iterator[str]:
    """One picture a touched rivet or place of the spar; one map where there is none of either."""
    places = [one.place for one in deviation.passing]
    drawn = [one for one in places if group_name(one) != one or one.startswith("spar.")][:_MOST_PICTURES]
    for number, place in enumerate(drawn or [None], 1):
        try:
            yield to_svg(deviation_picture(deviation, place, system, alone=False), f"place-{number}")
        except SurfaceError:  # without an outline there is nothing to draw; the tables stand by themselves
            continue


def _workings(deviation: Deviation, system: System) -> Iterator[tuple[str, CheckBlock]]:
    """Workings of the lowest margins here: of every way, and of both bounds where they differ."""
    seen: set[tuple[str, float | None]] = set()
    for way in deviation.ways:
        here = deviation.lowest(way)
        for bound, one, finding in zip(_BOUNDS, way.bounds, here, strict=False):
            if finding is None or (finding.name, finding.margin) in seen:
                continue
            seen.add((finding.name, finding.margin))
            which = f"{title_of(way)}, {bound}" if way.nothing is not None else title_of(way)
            yield which, check_block(one, finding, f"working-{len(seen)}", len(seen) == 1, system, None)
