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
from surfacecheck.studies._gone import one_gone
from surfacecheck.studies._gone_item import GoneItem, Growth, OneGone
from surfacecheck.studies._gone_shown import (
    gone_data,
    gone_headline,
    gone_html,
    gone_notes,
    gone_remarks,
    gone_table,
    gone_text,
)
from surfacecheck.studies._missing_data import missing_data
from surfacecheck.studies._missing_gap import Gap, OtherPath
from surfacecheck.studies._missing_group import GroupRivet, MissingGroup, missing_group
from surfacecheck.studies._missing_group_shown import group_rivet_table, missing_group_text
from surfacecheck.studies._missing_row import MissingRow, Neighbour, Shared, missing_row
from surfacecheck.studies._missing_row_shown import gap_words, missing_row_text, neighbour_table
from surfacecheck.studies._missing_survey import Removal, Survey, survey_group, survey_row
from surfacecheck.studies._mixed_row import MixedRow, MixedShare, mixed_row
from surfacecheck.studies._mixed_shown import (
    mixed_data,
    mixed_headline,
    mixed_notes,
    mixed_table,
    mixed_text,
    shown_rivets,
)
from surfacecheck.studies._next_values import NextValue, next_values, nothing_told
from surfacecheck.studies._off_line import OffLine, hinges_off_line, thread_offsets
from surfacecheck.studies._off_line_shown import millimetre_table, off_line_data, off_line_table, off_line_text
from surfacecheck.studies._place_names import PlaceName, place_names, place_table
from surfacecheck.studies._rivet_group import Group, group_of
from surfacecheck.studies._row import FIXITY_RANGE, LARGE, RowOption, RowStudy, row_alone
from surfacecheck.studies._row_shown import headline, row_study_html, row_study_table, row_study_text
from surfacecheck.studies._sensitivity import decides
from surfacecheck.studies._survey_shown import survey_table, survey_text

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
    "Gap",
    "GoneItem",
    "Group",
    "GroupRivet",
    "Growth",
    "Handed",
    "MissingGroup",
    "MissingRow",
    "MixedRow",
    "MixedShare",
    "Moved",
    "Neighbour",
    "NextValue",
    "OffLine",
    "OneGone",
    "OtherPath",
    "Place",
    "PlaceName",
    "Removal",
    "RowOption",
    "RowStudy",
    "Shared",
    "Step",
    "Survey",
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
    "gap_words",
    "gone_data",
    "gone_headline",
    "gone_html",
    "gone_notes",
    "gone_remarks",
    "gone_table",
    "gone_text",
    "group_of",
    "group_rivet_table",
    "headline",
    "hinges_off_line",
    "least_twist_stiffness",
    "load_words",
    "millimetre_table",
    "missing_data",
    "missing_group",
    "missing_group_text",
    "missing_row",
    "missing_row_text",
    "mixed_data",
    "mixed_headline",
    "mixed_notes",
    "mixed_row",
    "mixed_table",
    "mixed_text",
    "neighbour_table",
    "next_values",
    "nothing_told",
    "off_line_data",
    "off_line_table",
    "off_line_text",
    "one_gone",
    "place_names",
    "place_table",
    "rivet_count",
    "row_alone",
    "row_data",
    "row_study_html",
    "row_study_table",
    "row_study_text",
    "shown_rivets",
    "step_table",
    "survey_group",
    "survey_row",
    "survey_table",
    "survey_text",
    "thread_offsets",
]
