"""Questions asked of a surface or its assessments.

Before and after, a row alone, what to measure, where a force goes; rule cards, take-off, whether a rivet can be set.

Nothing here is imported before it is asked for: a command needs one study and not the others.
"""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    # fmt: off
    # isort: off
    from surfacecheck.studies._data import comparison_data, row_data
    from surfacecheck.studies._place_names import PlaceName, place_names, place_table
    from surfacecheck.studies.asking import (
        Decided, Deciding, Moved, NextValue, decides, next_values, nothing_told,
    )
    from surfacecheck.studies.balancing import (
        ALSO_LOOK, Aftermath, BalanceChange, BalanceColumn, BalanceStudy, BenchRule, Blow, CAUTIONS, Caution,
        Criterion, Event, LOCKS, Levelling, Looked, MET, NOT_APPLICABLE, NOT_MET, NOT_WEIGHED, NO_ALL_CLEAR, ORDER,
        TOPICS, aftermath, aftermath_cautions, aftermath_data, aftermath_html, aftermath_lines, aftermath_table,
        aftermath_text, balance, balance_change, balance_data, balance_headline, balance_html, balance_text,
        bench_table, cautions_for, criteria_table, event_words, group_table, look_for, paint_line, part_words,
        push_words, reading_lines, rules_of_thumb, state_table, topics_for,
    )
    from surfacecheck.studies.bench import (
        Access, Chosen, Line, OWN, PartHoles, Purchase, Reach, RuleCard, Run, Seats, Setting, Shank, Spares, Stack,
        Stretch, TakeOff, Taken, ToolReach, Work, access, access_lines, both_units, buy_table, card_data, card_html,
        card_table, card_text, drill_table, drilling, hole_table, line_words, look_lines, part_named, part_table,
        reach_table, rivet_length, row_take_table, rule_card, rule_cards, run_words, seats_of, setting_order,
        setting_source, setting_table, shank, station_text, stations, stretches, takeoff, takeoff_data,
        takeoff_headline, takeoff_text, tool_lines, tool_needs, unreached, work_line,
    )
    from surfacecheck.studies.comparing import (
        Changed, Comparison, compare, comparison_html, comparison_table, comparison_text, least_twist_stiffness,
        rivet_count,
    )
    from surfacecheck.studies.deviating import (
        BOUNDS, Bands, DROPS, Deviation, Kept, MarginBand, Measured, Passing, Query, REPLIES, SHEET_CAUTION, Way,
        at_place, band_lines, bands, deviation, deviation_data, deviation_html, deviation_table, deviation_text, fitted,
        folded_tables, group_at, group_name, kept_data, kept_from, left_out, log_text, outcome_lines, passing,
        passing_lines, prose_of, query, query_text, rows_of, title_of,
    )
    from surfacecheck.studies.following import (
        Cut, Following, Handed, PARTS, Place, Step, cut_table, distinct_cuts, follow, following_data,
        following_headline, following_html, following_text, load_words, step_table,
    )
    from surfacecheck.studies.losing import (
        Gap, GoneItem, Group, GroupRivet, Growth, MissingGroup, MissingRow, MixedRow, MixedShare, Neighbour,
        OffLine, OneGone, OtherPath, Removal, Shared, Survey, gap_words, gone_data, gone_headline, gone_html,
        gone_notes, gone_remarks, gone_table, gone_text, group_of, group_rivet_table, hinges_off_line,
        millimetre_table, missing_data, missing_group, missing_group_text, missing_row, missing_row_text,
        mixed_data, mixed_headline, mixed_notes, mixed_row, mixed_table, mixed_text, neighbour_table, off_line_data,
        off_line_table, off_line_text, one_gone, shown_rivets, survey_group, survey_row, survey_table, survey_text,
        thread_offsets,
    )
    from surfacecheck.studies.riveting import (
        AXES, Alternatives, Bought, CRITERIA, Limit, MOST, RivetComparison, RowTable, Space, Together, buying_lines,
        carries_table, choice_words, first_shown, grams, impossible_lines, limit_table, limits, margins_at,
        on_ribs, rivets, rivets_data, rivets_headline, rivets_html, rivets_notes, rivets_text, takes_table, unbeaten,
        zero_table,
    )
    from surfacecheck.studies.single_row import (
        FIXITY_RANGE, LARGE, RowOption, RowStudy, headline, row_alone, row_study_html, row_study_table,
        row_study_text,
    )
    from surfacecheck.studies.sweeping import (
        CHUNK, Driver, MarginScatter, NumberPlace, RuleScatter, SAMPLES, Scatter, Spread, Sweep, SweepFile,
        SweepPart, Swept, Tolerances, carry_out, combinations, driver_table, holds_tolerances, number_places,
        percent, processes, read_sweep, read_tolerances, rule_scatter_table, samples_of, scatter, scatter_data,
        scatter_headline, scatter_html, scatter_notes, scatter_table, scatter_text, spread_of, spread_table,
        spreads_of, sweep, swept, with_numbers, write_sweep,
    )
    # isort: on
    # fmt: on

__all__ = [
    "ALSO_LOOK", "AXES", "BOUNDS", "CAUTIONS", "CHUNK", "CRITERIA", "DROPS", "FIXITY_RANGE", "LARGE", "LOCKS", "MET",
    "MOST", "NOT_APPLICABLE", "NOT_MET", "NOT_WEIGHED", "NO_ALL_CLEAR", "ORDER", "OWN", "PARTS", "REPLIES",
    "SAMPLES", "SHEET_CAUTION", "TOPICS", "Access", "Aftermath", "Alternatives", "BalanceChange", "BalanceColumn",
    "BalanceStudy", "Bands", "BenchRule", "Blow", "Bought", "Caution", "Changed", "Chosen", "Comparison",
    "Criterion", "Cut", "Decided", "Deciding", "Deviation", "Driver", "Event", "Following", "Gap", "GoneItem",
    "Group", "GroupRivet", "Growth", "Handed", "Kept", "Levelling", "Limit", "Line", "Looked", "MarginBand",
    "MarginScatter", "Measured", "MissingGroup", "MissingRow", "MixedRow", "MixedShare", "Moved", "Neighbour",
    "NextValue", "NumberPlace", "OffLine", "OneGone", "OtherPath", "PartHoles", "Passing", "Place", "PlaceName",
    "Purchase", "Query", "Reach", "Removal", "RivetComparison", "RowOption", "RowStudy", "RowTable", "RuleCard",
    "RuleScatter", "Run", "Scatter", "Seats", "Setting", "Shank", "Shared", "Space", "Spares", "Spread",
    "Stack", "Step", "Stretch", "Survey", "Sweep", "SweepFile", "SweepPart", "Swept", "TakeOff", "Taken",
    "Together", "Tolerances", "ToolReach", "Way", "Work", "access", "access_lines", "aftermath",
    "aftermath_cautions", "aftermath_data", "aftermath_html", "aftermath_lines", "aftermath_table",
    "aftermath_text", "at_place", "balance", "balance_change", "balance_data", "balance_headline",
    "balance_html", "balance_text", "band_lines", "bands", "bench_table", "both_units", "buy_table",
    "buying_lines", "card_data", "card_html", "card_table", "card_text", "carries_table", "carry_out",
    "cautions_for", "choice_words", "combinations", "compare", "comparison_data", "comparison_html",
    "comparison_table", "comparison_text", "criteria_table", "cut_table", "decides", "deviation",
    "deviation_data", "deviation_html", "deviation_table", "deviation_text", "distinct_cuts", "drill_table",
    "drilling", "driver_table", "event_words", "first_shown", "fitted", "folded_tables", "follow",
    "following_data", "following_headline", "following_html", "following_text", "gap_words", "gone_data",
    "gone_headline", "gone_html", "gone_notes", "gone_remarks", "gone_table", "gone_text", "grams", "group_at",
    "group_name", "group_of", "group_rivet_table", "group_table", "headline", "hinges_off_line",
    "holds_tolerances", "hole_table", "impossible_lines", "kept_data", "kept_from", "least_twist_stiffness",
    "left_out", "limit_table", "limits", "line_words", "load_words", "log_text", "look_for", "look_lines", "margins_at",
    "millimetre_table", "missing_data", "missing_group", "missing_group_text", "missing_row",
    "missing_row_text", "mixed_data", "mixed_headline", "mixed_notes", "mixed_row", "mixed_table", "mixed_text",
    "neighbour_table", "next_values", "nothing_told", "number_places", "off_line_data", "off_line_table",
    "off_line_text", "on_ribs", "one_gone", "outcome_lines", "paint_line", "part_named", "part_table", "part_words",
    "passing", "passing_lines", "percent", "place_names", "place_table", "processes", "prose_of", "push_words",
    "query", "query_text", "reach_table", "read_sweep", "read_tolerances", "reading_lines", "rivet_count",
    "rivet_length", "rivets", "rivets_data", "rivets_headline", "rivets_html", "rivets_notes", "rivets_text",
    "row_alone", "row_data", "row_study_html", "row_study_table", "row_study_text", "row_take_table", "rows_of",
    "rule_card", "rule_cards", "rule_scatter_table", "rules_of_thumb", "run_words", "samples_of", "scatter",
    "scatter_data", "scatter_headline", "scatter_html", "scatter_notes", "scatter_table", "scatter_text",
    "seats_of", "setting_order", "setting_source", "setting_table", "shank", "shown_rivets", "spread_of",
    "spread_table", "spreads_of", "state_table", "station_text", "stations", "step_table", "stretches",
    "survey_group", "survey_row", "survey_table", "survey_text", "sweep", "swept", "takeoff", "takeoff_data",
    "takeoff_headline", "takeoff_text", "takes_table", "thread_offsets", "title_of", "tool_lines", "tool_needs",
    "topics_for", "unbeaten", "unreached", "with_numbers", "work_line", "write_sweep", "zero_table",
]  # fmt: skip

_NAMES = {
    "asking": "Decided Deciding Moved NextValue decides next_values nothing_told",
    "balancing": (
        "ALSO_LOOK Aftermath BalanceChange BalanceColumn BalanceStudy BenchRule Blow CAUTIONS Caution Criterion "
        "Event LOCKS Levelling Looked MET NOT_APPLICABLE NOT_MET NOT_WEIGHED NO_ALL_CLEAR ORDER TOPICS aftermath "
        "aftermath_cautions aftermath_data aftermath_html aftermath_lines aftermath_table aftermath_text balance "
        "balance_change balance_data balance_headline balance_html balance_text bench_table cautions_for "
        "criteria_table event_words group_table look_for paint_line part_words push_words reading_lines "
        "rules_of_thumb state_table topics_for "
    ),
    "bench": (
        "Access Chosen Line OWN PartHoles Purchase Reach RuleCard Run Seats Setting Shank Spares Stack Stretch "
        "TakeOff Taken ToolReach Work access access_lines both_units buy_table card_data card_html card_table "
        "card_text drill_table drilling hole_table line_words look_lines part_named part_table reach_table "
        "rivet_length row_take_table rule_card rule_cards run_words seats_of setting_order setting_source "
        "setting_table shank station_text stations stretches takeoff takeoff_data takeoff_headline takeoff_text "
        "tool_lines tool_needs unreached work_line "
    ),
    "comparing": (
        "Changed Comparison compare comparison_html comparison_table comparison_text least_twist_stiffness "
        "rivet_count "
    ),
    "deviating": (
        "BOUNDS Bands DROPS Deviation Kept MarginBand Measured Passing Query REPLIES SHEET_CAUTION Way at_place "
        "band_lines bands deviation deviation_data deviation_html deviation_table deviation_text fitted "
        "folded_tables group_at group_name kept_data kept_from left_out log_text outcome_lines passing "
        "passing_lines prose_of query query_text rows_of title_of "
    ),
    "following": (
        "Cut Following Handed PARTS Place Step cut_table distinct_cuts follow following_data following_headline "
        "following_html following_text load_words step_table "
    ),
    "losing": (
        "Gap GoneItem Group GroupRivet Growth MissingGroup MissingRow MixedRow MixedShare Neighbour OffLine "
        "OneGone OtherPath Removal Shared Survey gap_words gone_data gone_headline gone_html gone_notes "
        "gone_remarks gone_table gone_text group_of group_rivet_table hinges_off_line millimetre_table "
        "missing_data missing_group missing_group_text missing_row missing_row_text mixed_data mixed_headline "
        "mixed_notes mixed_row mixed_table mixed_text neighbour_table off_line_data off_line_table off_line_text "
        "one_gone shown_rivets survey_group survey_row survey_table survey_text thread_offsets "
    ),
    "riveting": (
        "AXES Alternatives Bought CRITERIA Limit MOST RivetComparison RowTable Space Together buying_lines "
        "carries_table choice_words first_shown grams impossible_lines limit_table limits margins_at on_ribs rivets "
        "rivets_data rivets_headline rivets_html rivets_notes rivets_text takes_table unbeaten zero_table "
    ),
    "single_row": (
        "FIXITY_RANGE LARGE RowOption RowStudy headline row_alone row_study_html row_study_table row_study_text "
    ),
    "sweeping": (
        "CHUNK Driver MarginScatter NumberPlace RuleScatter SAMPLES Scatter Spread Sweep SweepFile SweepPart "
        "Swept Tolerances carry_out combinations driver_table holds_tolerances number_places percent processes "
        "read_sweep read_tolerances rule_scatter_table samples_of scatter scatter_data scatter_headline "
        "scatter_html scatter_notes scatter_table scatter_text spread_of spread_table spreads_of sweep swept "
        "with_numbers write_sweep "
    ),
    "_data": "comparison_data row_data",
    "_place_names": "PlaceName place_names place_table",
}  # fmt: skip

_HOME = {name: home for home, names in _NAMES.items() for name in names.split()}


def __getattr__(name: str) -> Any:
    """Import a public name when it is first asked for."""
    if name in _HOME:
        return getattr(import_module(f"{__name__}.{_HOME[name]}"), name)
    message = f"module {__name__!r} has no attribute {name!r}"
    raise AttributeError(message)
