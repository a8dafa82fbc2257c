"""Questions asked of one or several assessments: before and after, a row alone, what to measure, where a force goes."""

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
from surfacecheck.studies._follow import Following, follow
from surfacecheck.studies._follow_cuts import Cut
from surfacecheck.studies._follow_place import Place
from surfacecheck.studies._follow_shown import (
    cut_table,
    distinct_cuts,
    following_data,
    following_headline,
    following_html,
    following_text,
    load_words,
    step_table,
)
from surfacecheck.studies._follow_steps import PARTS, Handed, Step
from surfacecheck.studies._next_values import NextValue, next_values, nothing_told
from surfacecheck.studies._place_names import PlaceName, place_names, place_table
from surfacecheck.studies._row import FIXITY_RANGE, LARGE, RowOption, RowStudy, row_alone
from surfacecheck.studies._row_shown import headline, row_study_html, row_study_table, row_study_text
from surfacecheck.studies._sensitivity import decides

__all__ = [
    "FIXITY_RANGE",
    "LARGE",
    "PARTS",
    "Changed",
    "Comparison",
    "Cut",
    "Decided",
    "Deciding",
    "Following",
    "Handed",
    "Moved",
    "NextValue",
    "Place",
    "PlaceName",
    "RowOption",
    "RowStudy",
    "Step",
    "compare",
    "comparison_data",
    "comparison_html",
    "comparison_table",
    "comparison_text",
    "cut_table",
    "decides",
    "distinct_cuts",
    "follow",
    "following_data",
    "following_headline",
    "following_html",
    "following_text",
    "headline",
    "least_twist_stiffness",
    "load_words",
    "next_values",
    "nothing_told",
    "place_names",
    "place_table",
    "rivet_count",
    "row_alone",
    "row_data",
    "row_study_html",
    "row_study_table",
    "row_study_text",
    "step_table",
]
