"""Pictures and the page: what a person looks at.

Nothing here is imported before it is asked for, so that the rest stays light. Each picture is a matplotlib ``Figure``
of its own kind; a notebook shows it as a PNG when it stands last in a cell.
"""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from surfacecheck.report._aftermath_page import aftermath_page
    from surfacecheck.report._balance_picture import balance_picture
    from surfacecheck.report._bracket_forces import bracket_forces
    from surfacecheck.report._bracket_map import bracket_map
    from surfacecheck.report._deviation_page import deviation_page
    from surfacecheck.report._deviation_picture import deviation_picture
    from surfacecheck.report._diagrams import diagrams
    from surfacecheck.report._earlier import read_earlier
    from surfacecheck.report._follow_page import follow_page
    from surfacecheck.report._follow_picture import follow_picture
    from surfacecheck.report._gone_picture import gone_picture
    from surfacecheck.report._guess import guess_among, guess_line
    from surfacecheck.report._horn_forces import horn_forces
    from surfacecheck.report._map_page import map_needs, map_page, write_whole
    from surfacecheck.report._margin_bars import compare_bars, margin_bars
    from surfacecheck.report._measuring import measuring_sheet
    from surfacecheck.report._mixed_picture import mixed_picture
    from surfacecheck.report._page import page, write_page
    from surfacecheck.report._page_tables import page_tables, write_tables
    from surfacecheck.report._pitch_curve import pitch_curve
    from surfacecheck.report._query_page import query_page, read_sheet
    from surfacecheck.report._rivets_picture import rivets_picture
    from surfacecheck.report._running_load import running_load
    from surfacecheck.report._scatter_page import scatter_page
    from surfacecheck.report._scatter_picture import driver_picture, scatter_picture
    from surfacecheck.report._section_flow import section_flow
    from surfacecheck.report._since import Since, since
    from surfacecheck.report._study_page import gone_page, mixed_page, rivets_page
    from surfacecheck.report._style import Drawing
    from surfacecheck.report._surface_map import surface_map
    from surfacecheck.report._takeoff_page import takeoff_page, takeoff_tables, write_takeoff_tables
    from surfacecheck.report._weighing_sheet import weighing_sheet

__all__ = [
    "Drawing",
    "Since",
    "aftermath_page",
    "balance_picture",
    "bracket_forces",
    "bracket_map",
    "compare_bars",
    "deviation_page",
    "deviation_picture",
    "diagrams",
    "driver_picture",
    "follow_page",
    "follow_picture",
    "gone_page",
    "gone_picture",
    "guess_among",
    "guess_line",
    "horn_forces",
    "map_needs",
    "map_page",
    "margin_bars",
    "measuring_sheet",
    "mixed_page",
    "mixed_picture",
    "page",
    "page_tables",
    "pitch_curve",
    "query_page",
    "read_earlier",
    "read_sheet",
    "rivets_page",
    "rivets_picture",
    "running_load",
    "scatter_page",
    "scatter_picture",
    "section_flow",
    "since",
    "surface_map",
    "takeoff_page",
    "takeoff_tables",
    "weighing_sheet",
    "write_page",
    "write_tables",
    "write_takeoff_tables",
    "write_whole",
]

_HOME = {
    "Drawing": "_style",
    "Since": "_since",
    "compare_bars": "_margin_bars",
    "driver_picture": "_scatter_picture",
    "gone_page": "_study_page",
    "guess_among": "_guess",
    "guess_line": "_guess",
    "map_needs": "_map_page",
    "measuring_sheet": "_measuring",
    "mixed_page": "_study_page",
    "read_earlier": "_earlier",
    "read_sheet": "_query_page",
    "rivets_page": "_study_page",
    "takeoff_tables": "_takeoff_page",
    "write_page": "_page",
    "write_tables": "_page_tables",
    "write_takeoff_tables": "_takeoff_page",
    "write_whole": "_map_page",
}


def __getattr__(name: str) -> Any:
    """Import a public name when it is first asked for."""
    if name in __all__:
        return getattr(import_module(f"{__name__}.{_HOME.get(name, f'_{name}')}"), name)
    message = f"module {__name__!r} has no attribute {name!r}"
    raise AttributeError(message)
