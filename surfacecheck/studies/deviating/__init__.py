"""What happened, beside the drawing: table, bands, query sheet."""

from surfacecheck.studies.deviating._bands import Bands, MarginBand, bands
from surfacecheck.studies.deviating._bands_shown import band_lines
from surfacecheck.studies.deviating._deviation import Deviation, Way, deviation
from surfacecheck.studies.deviating._deviation_data import deviation_data
from surfacecheck.studies.deviating._deviation_rows import rows_of, title_of
from surfacecheck.studies.deviating._deviation_shown import (
    BOUNDS,
    deviation_html,
    deviation_table,
    deviation_text,
    folded_tables,
    outcome_lines,
    passing_lines,
)
from surfacecheck.studies.deviating._group_at import group_at
from surfacecheck.studies.deviating._here import at_place, group_name
from surfacecheck.studies.deviating._measured import Measured
from surfacecheck.studies.deviating._passing import Passing, passing
from surfacecheck.studies.deviating._path import prose_of
from surfacecheck.studies.deviating._query import REPLIES, Query, query
from surfacecheck.studies.deviating._query import SHEET as SHEET_CAUTION
from surfacecheck.studies.deviating._query_fit import fitted, left_out
from surfacecheck.studies.deviating._query_kept import Kept, kept_data, kept_from
from surfacecheck.studies.deviating._query_lines import DROPS
from surfacecheck.studies.deviating._query_text import log_text, query_text

__all__ = [
    "BOUNDS", "DROPS", "REPLIES", "SHEET_CAUTION", "Bands", "Deviation", "Kept", "MarginBand", "Measured", "Passing",
    "Query", "Way", "at_place", "band_lines", "bands", "deviation", "deviation_data", "deviation_html",
    "deviation_table", "deviation_text", "fitted", "folded_tables", "group_at", "group_name", "kept_data",
    "kept_from", "left_out", "log_text", "outcome_lines", "passing", "passing_lines", "prose_of", "query",
    "query_text", "rows_of", "title_of",
]  # fmt: skip
