"""A page for a scatter: how the margins lie, what drives them, which rules samples do not meet, what was varied."""

from __future__ import annotations

from typing import TYPE_CHECKING

from markupsafe import Markup

from surfacecheck.assessment import CAUTION
from surfacecheck.report._html import rendered
from surfacecheck.report._scatter_picture import driver_picture, scatter_picture
from surfacecheck.report._svg import to_svg
from surfacecheck.studies import (
    driver_table,
    rule_scatter_table,
    scatter_headline,
    scatter_notes,
    scatter_table,
    spread_table,
)

if TYPE_CHECKING:
    from surfacecheck.quantities import System
    from surfacecheck.report._style import Drawing
    from surfacecheck.studies import Scatter

__all__ = ["scatter_page"]

_MOST = 12


def scatter_page(scatter: Scatter, system: System = "metric") -> str:
    """Write the page of a scatter.

    Parameters
    ----------
    scatter : Scatter
        Worked.
    system : {"metric", "inch"}
        Units.

    Returns
    -------
    str
        One self-contained HTML document without script; the same every time for the same samples.
    """
    surface, rules = scatter.surface, rule_scatter_table(scatter)
    drawings: list[Drawing] = [scatter_picture(scatter, system=system, alone=False)]
    moving = [one for one in scatter.by_part[:_MOST] if one.told]
    drawings += [driver_picture(scatter, one.name, alone=False) for one in moving[:2]]
    tables = (scatter_table(scatter, _MOST, system), driver_table(scatter, _MOST, system))
    return rendered(
        "scatter.html",
        surface=surface,
        sheet=surface.sha256[:4].upper(),
        facts=f"{len(scatter):,} samples, seed {scatter.seed}, {len(scatter.spreads)} numbers vary",
        headline=scatter_headline(scatter, system),
        pictures=[Markup(to_svg(drawn, f"scatter-{i}")) for i, drawn in enumerate(drawings)],  # noqa: S704 - own SVG
        tables=[Markup(table.html()) for table in tables],  # noqa: S704 - escapes its texts
        rules=Markup(rules.html()) if rules.rows else "",  # noqa: S704
        spreads=Markup(spread_table(scatter).html()),  # noqa: S704
        notes=scatter_notes(scatter),
        caution=CAUTION,
    )
