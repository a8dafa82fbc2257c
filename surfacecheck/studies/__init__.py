"""Questions asked of one or several assessments: before and after, a row on its own, what to measure better."""

from surfacecheck.studies._compare import (
    Changed,
    Comparison,
    compare,
    least_twist_stiffness,
    rivet_count,
)
from surfacecheck.studies._compare_shown import comparison_html, comparison_table, comparison_text
from surfacecheck.studies._data import comparison_data, row_data
from surfacecheck.studies._deciding import Decided, Deciding, Moved
from surfacecheck.studies._next_values import NextValue, next_values, nothing_told
from surfacecheck.studies._row import FIXITY_RANGE, LARGE, RowOption, RowStudy, row_alone
from surfacecheck.studies._row_shown import headline, row_study_html, row_study_table, row_study_text
from surfacecheck.studies._sensitivity import decides

__all__ = [
    "FIXITY_RANGE",
    "LARGE",
    "Changed",
    "Comparison",
    "Decided",
    "Deciding",
    "Moved",
    "NextValue",
    "RowOption",
    "RowStudy",
    "compare",
    "comparison_data",
    "comparison_html",
    "comparison_table",
    "comparison_text",
    "decides",
    "headline",
    "least_twist_stiffness",
    "next_values",
    "nothing_told",
    "rivet_count",
    "row_alone",
    "row_data",
    "row_study_html",
    "row_study_table",
    "row_study_text",
]
