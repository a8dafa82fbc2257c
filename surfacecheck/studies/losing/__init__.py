"""One thing gone: hinges, ribs, rivets of groups and rows; pins off line; rows of unlike rivets."""

from surfacecheck.studies.losing._gone import one_gone
from surfacecheck.studies.losing._gone_item import GoneItem, Growth, OneGone
from surfacecheck.studies.losing._gone_shown import (
    gone_data,
    gone_headline,
    gone_html,
    gone_notes,
    gone_remarks,
    gone_table,
    gone_text,
)
from surfacecheck.studies.losing._missing_data import missing_data
from surfacecheck.studies.losing._missing_gap import Gap, OtherPath
from surfacecheck.studies.losing._missing_group import GroupRivet, MissingGroup, missing_group
from surfacecheck.studies.losing._missing_group_shown import group_rivet_table, missing_group_text
from surfacecheck.studies.losing._missing_row import MissingRow, Neighbour, Shared, missing_row
from surfacecheck.studies.losing._missing_row_shown import gap_words, missing_row_text, neighbour_table
from surfacecheck.studies.losing._missing_survey import Removal, Survey, survey_group, survey_row
from surfacecheck.studies.losing._mixed_row import MixedRow, MixedShare, mixed_row
from surfacecheck.studies.losing._mixed_shown import (
    mixed_data,
    mixed_headline,
    mixed_notes,
    mixed_table,
    mixed_text,
    shown_rivets,
)
from surfacecheck.studies.losing._off_line import OffLine, hinges_off_line, thread_offsets
from surfacecheck.studies.losing._off_line_shown import millimetre_table, off_line_data, off_line_table, off_line_text
from surfacecheck.studies.losing._rivet_group import Group, group_of
from surfacecheck.studies.losing._survey_shown import survey_table, survey_text

__all__ = [
    "Gap", "GoneItem", "Group", "GroupRivet", "Growth", "MissingGroup", "MissingRow", "MixedRow", "MixedShare",
    "Neighbour", "OffLine", "OneGone", "OtherPath", "Removal", "Shared", "Survey", "gap_words", "gone_data",
    "gone_headline", "gone_html", "gone_notes", "gone_remarks", "gone_table", "gone_text", "group_of",
    "group_rivet_table", "hinges_off_line", "millimetre_table", "missing_data", "missing_group",
    "missing_group_text", "missing_row", "missing_row_text", "mixed_data", "mixed_headline", "mixed_notes",
    "mixed_row", "mixed_table", "mixed_text", "neighbour_table", "off_line_data", "off_line_table",
    "off_line_text", "one_gone", "shown_rivets", "survey_group", "survey_row", "survey_table", "survey_text",
    "thread_offsets",
]  # fmt: skip
