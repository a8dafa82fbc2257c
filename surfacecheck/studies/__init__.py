"""Questions asked of a surface or its assessments.

Before and after, a row alone, what to measure, where a force goes; rule cards, take-off, whether a rivet can be set.
"""

from surfacecheck.loads import stop_moment, swing_energy
from surfacecheck.studies._access import Access, Reach, ToolReach, access, tool_needs
from surfacecheck.studies._access_shown import reach_table
from surfacecheck.studies._aftermath import LOCKS, Aftermath, Blow, Event, aftermath
from surfacecheck.studies._aftermath_shown import (
    NO_ALL_CLEAR,
    ORDER,
    aftermath_cautions,
    aftermath_data,
    aftermath_html,
    aftermath_lines,
    aftermath_table,
    aftermath_text,
    event_words,
    part_words,
)
from surfacecheck.studies._balance import BalanceChange, BalanceColumn, BalanceStudy, Levelling, balance, balance_change
from surfacecheck.studies._balance_criteria import MET, NOT_APPLICABLE, NOT_MET, BenchRule, Criterion
from surfacecheck.studies._balance_data import balance_data
from surfacecheck.studies._balance_shown import NOT_WEIGHED, balance_html, balance_text
from surfacecheck.studies._balance_tables import bench_table, criteria_table, group_table, state_table
from surfacecheck.studies._balance_words import balance_headline, paint_line, push_words, reading_lines, rules_of_thumb
from surfacecheck.studies._bands import Bands, MarginBand, bands
from surfacecheck.studies._bands_shown import band_lines
from surfacecheck.studies._carry_out import carry_out, processes
from surfacecheck.studies._cautions import CAUTIONS, TOPICS, Caution, cautions_for, topics_for
from surfacecheck.studies._combinations import combinations
from surfacecheck.studies._compare import Changed, Comparison, compare, least_twist_stiffness, rivet_count
from surfacecheck.studies._compare_shown import comparison_html, comparison_table, comparison_text
from surfacecheck.studies._data import comparison_data, row_data
from surfacecheck.studies._deciding import Decided, Deciding, Moved
from surfacecheck.studies._deviation import Deviation, Way, deviation
from surfacecheck.studies._deviation_data import deviation_data
from surfacecheck.studies._deviation_rows import rows_of, title_of
from surfacecheck.studies._deviation_shown import (
    BOUNDS,
    deviation_html,
    deviation_table,
    deviation_text,
    folded_tables,
    outcome_lines,
    passing_lines,
)
from surfacecheck.studies._drilling import PartHoles, Run, drilling
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
from surfacecheck.studies._group_at import group_at
from surfacecheck.studies._here import at_place, group_name
from surfacecheck.studies._lengths import Chosen, rivet_length
from surfacecheck.studies._look_for import ALSO_LOOK, look_for
from surfacecheck.studies._looked import Looked
from surfacecheck.studies._measured import Measured
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
from surfacecheck.studies._numbers import NumberPlace, number_places, with_numbers
from surfacecheck.studies._off_line import OffLine, hinges_off_line, thread_offsets
from surfacecheck.studies._off_line_shown import millimetre_table, off_line_data, off_line_table, off_line_text
from surfacecheck.studies._passing import Passing, passing
from surfacecheck.studies._path import prose_of
from surfacecheck.studies._place_names import PlaceName, place_names, place_table
from surfacecheck.studies._query import REPLIES, Query, query
from surfacecheck.studies._query import SHEET as SHEET_CAUTION
from surfacecheck.studies._query_fit import fitted, left_out
from surfacecheck.studies._query_kept import Kept, kept_data, kept_from
from surfacecheck.studies._query_lines import DROPS
from surfacecheck.studies._query_text import log_text, query_text
from surfacecheck.studies._rivet_group import Group, group_of
from surfacecheck.studies._rivets import rivets
from surfacecheck.studies._rivets_bench import Bought, buying_lines
from surfacecheck.studies._rivets_best import unbeaten
from surfacecheck.studies._rivets_comparison import RivetComparison
from surfacecheck.studies._rivets_data import rivets_data
from surfacecheck.studies._rivets_given import AXES, MOST, Alternatives, Space
from surfacecheck.studies._rivets_limits import Limit, limits
from surfacecheck.studies._rivets_lists import impossible_lines, limit_table, zero_table
from surfacecheck.studies._rivets_row import RowTable
from surfacecheck.studies._rivets_shown import rivets_headline, rivets_html, rivets_notes, rivets_text
from surfacecheck.studies._rivets_tables import carries_table, first_shown, takes_table
from surfacecheck.studies._rivets_together import Together
from surfacecheck.studies._rivets_words import choice_words, grams
from surfacecheck.studies._row import FIXITY_RANGE, LARGE, RowOption, RowStudy, row_alone
from surfacecheck.studies._row_shown import headline, row_study_html, row_study_table, row_study_text
from surfacecheck.studies._rule_card import RuleCard, rule_card, rule_cards
from surfacecheck.studies._rule_card_shown import card_data, card_html, card_table, card_text
from surfacecheck.studies._scatter import SAMPLES, samples_of, scatter
from surfacecheck.studies._scatter_data import scatter_data
from surfacecheck.studies._scatter_result import Driver, MarginScatter, Scatter
from surfacecheck.studies._scatter_rules import RuleScatter
from surfacecheck.studies._scatter_shown import (
    driver_table,
    percent,
    rule_scatter_table,
    scatter_headline,
    scatter_html,
    scatter_notes,
    scatter_table,
    scatter_text,
    spread_table,
)
from surfacecheck.studies._seats import Line, Seats
from surfacecheck.studies._seats_fittings import seats_of
from surfacecheck.studies._sensitivity import decides
from surfacecheck.studies._setting_order import Setting, setting_order, setting_source
from surfacecheck.studies._shank import Shank, shank
from surfacecheck.studies._spreads import Tolerances, holds_tolerances, read_tolerances, spreads_of
from surfacecheck.studies._stacks import Stack, Stretch, stretches
from surfacecheck.studies._stations import (
    both_units,
    hole_table,
    line_words,
    part_named,
    run_words,
    station_text,
    stations,
)
from surfacecheck.studies._survey_shown import survey_table, survey_text
from surfacecheck.studies._sweep import CHUNK, Sweep, sweep
from surfacecheck.studies._sweep_files import SweepFile, read_sweep, write_sweep
from surfacecheck.studies._sweep_work import SweepPart
from surfacecheck.studies._swept import Swept, swept
from surfacecheck.studies._takeoff import Purchase, Taken, TakeOff, takeoff
from surfacecheck.studies._takeoff_basis import OWN, Spares, Work
from surfacecheck.studies._takeoff_shown import (
    access_lines,
    takeoff_data,
    takeoff_headline,
    takeoff_text,
    tool_lines,
    unreached,
    work_line,
)
from surfacecheck.studies._takeoff_tables import (
    buy_table,
    drill_table,
    look_lines,
    part_table,
    row_take_table,
    setting_table,
)
from surfacecheck.studies._tolerances import Spread, spread_of

__all__ = [
    "ALSO_LOOK", "AXES", "BOUNDS", "CAUTIONS", "CHUNK", "DROPS", "FIXITY_RANGE", "LARGE", "LOCKS", "MET", "MOST",
    "NOT_APPLICABLE", "NOT_MET", "NOT_WEIGHED", "NO_ALL_CLEAR", "ORDER", "OWN", "PARTS", "REPLIES", "SAMPLES",
    "SHEET_CAUTION", "TOPICS", "Access", "Aftermath", "Alternatives", "BalanceChange", "BalanceColumn",
    "BalanceStudy", "Bands", "BenchRule", "Blow", "Bought", "Caution", "Changed", "Chosen", "Comparison",
    "Criterion", "Cut", "Decided", "Deciding", "Deviation", "Driver", "Event", "Following", "Gap", "GoneItem",
    "Group", "GroupRivet", "Growth", "Handed", "Kept", "Levelling", "Limit", "Line", "Looked", "MarginBand",
    "MarginScatter", "Measured", "MissingGroup", "MissingRow", "MixedRow", "MixedShare", "Moved", "Neighbour",
    "NextValue", "NumberPlace", "OffLine", "OneGone", "OtherPath", "PartHoles", "Passing", "Place", "PlaceName",
    "Purchase", "Query", "Reach", "Removal", "RivetComparison", "RowOption", "RowStudy", "RowTable", "RuleCard",
    "RuleScatter", "Run", "Scatter", "Seats", "Setting", "Shank", "Shared", "Space", "Spares", "Spread", "Stack",
    "Step", "Stretch", "Survey", "Sweep", "SweepFile", "SweepPart", "Swept", "TakeOff", "Taken", "Together",
    "Tolerances", "ToolReach", "Way", "Work", "access", "access_lines", "aftermath", "aftermath_cautions",
    "aftermath_data", "aftermath_html", "aftermath_lines", "aftermath_table", "aftermath_text", "at_place",
    "balance", "balance_change", "balance_data", "balance_headline", "balance_html", "balance_text", "band_lines",
    "bands", "bench_table", "both_units", "buy_table", "buying_lines", "card_data", "card_html", "card_table",
    "card_text", "carries_table", "carry_out", "cautions_for", "choice_words", "combinations", "compare",
    "comparison_data", "comparison_html", "comparison_table", "comparison_text", "criteria_table", "cut_table",
    "decides", "deviation", "deviation_data", "deviation_html", "deviation_table", "deviation_text", "distinct_cuts",
    "drill_table", "drilling", "driver_table", "event_words", "first_shown", "fitted", "folded_tables", "follow",
    "following_data", "following_headline", "following_html", "following_text", "gap_words", "gone_data",
    "gone_headline", "gone_html", "gone_notes", "gone_remarks", "gone_table", "gone_text", "grams", "group_at",
    "group_name", "group_of", "group_rivet_table", "group_table", "headline", "hinges_off_line", "holds_tolerances",
    "hole_table", "impossible_lines", "kept_data", "kept_from", "least_twist_stiffness", "left_out", "limit_table",
    "limits", "line_words", "load_words", "log_text", "look_for", "look_lines", "millimetre_table", "missing_data",
    "missing_group", "missing_group_text", "missing_row", "missing_row_text", "mixed_data", "mixed_headline",
    "mixed_notes", "mixed_row", "mixed_table", "mixed_text", "neighbour_table", "next_values", "nothing_told",
    "number_places", "off_line_data", "off_line_table", "off_line_text", "one_gone", "outcome_lines", "paint_line",
    "part_named", "part_table", "part_words", "passing", "passing_lines", "percent", "place_names", "place_table",
    "processes", "prose_of", "push_words", "query", "query_text", "reach_table", "read_sweep", "read_tolerances",
    "reading_lines", "rivet_count", "rivet_length", "rivets", "rivets_data", "rivets_headline", "rivets_html",
    "rivets_notes", "rivets_text", "row_alone", "row_data", "row_study_html", "row_study_table", "row_study_text",
    "row_take_table", "rows_of", "rule_card", "rule_cards", "rule_scatter_table", "rules_of_thumb", "run_words",
    "samples_of", "scatter", "scatter_data", "scatter_headline", "scatter_html", "scatter_notes", "scatter_table",
    "scatter_text", "seats_of", "setting_order", "setting_source", "setting_table", "shank", "shown_rivets",
    "spread_of", "spread_table", "spreads_of", "state_table", "station_text", "stations", "step_table",
    "stop_moment", "stretches", "survey_group", "survey_row", "survey_table", "survey_text", "sweep", "swept",
    "swing_energy", "takeoff", "takeoff_data", "takeoff_headline", "takeoff_text", "takes_table", "thread_offsets",
    "title_of", "tool_lines", "tool_needs", "topics_for", "unbeaten", "unreached", "with_numbers", "work_line",
    "write_sweep", "zero_table",
]  # fmt: skip
