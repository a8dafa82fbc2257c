"""Weighing and balance, what to look at after a storm, cautions by topic."""

from surfacecheck.studies.balancing._aftermath import LOCKS, Aftermath, Blow, Event, aftermath
from surfacecheck.studies.balancing._aftermath_shown import (
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
from surfacecheck.studies.balancing._balance import (
    BalanceChange,
    BalanceColumn,
    BalanceStudy,
    Levelling,
    balance,
    balance_change,
)
from surfacecheck.studies.balancing._balance_criteria import MET, NOT_APPLICABLE, NOT_MET, BenchRule, Criterion
from surfacecheck.studies.balancing._balance_data import balance_data
from surfacecheck.studies.balancing._balance_shown import NOT_WEIGHED, balance_html, balance_text
from surfacecheck.studies.balancing._balance_tables import bench_table, criteria_table, group_table, state_table
from surfacecheck.studies.balancing._balance_words import (
    balance_headline,
    paint_line,
    push_words,
    reading_lines,
    rules_of_thumb,
)
from surfacecheck.studies.balancing._cautions import CAUTIONS, TOPICS, Caution, cautions_for, topics_for
from surfacecheck.studies.balancing._look_for import ALSO_LOOK, look_for
from surfacecheck.studies.balancing._looked import Looked

__all__ = [
    "ALSO_LOOK", "CAUTIONS", "LOCKS", "MET", "NOT_APPLICABLE", "NOT_MET", "NOT_WEIGHED", "NO_ALL_CLEAR",
    "ORDER", "TOPICS", "Aftermath", "BalanceChange", "BalanceColumn", "BalanceStudy", "BenchRule", "Blow",
    "Caution", "Criterion", "Event", "Levelling", "Looked", "aftermath", "aftermath_cautions", "aftermath_data",
    "aftermath_html", "aftermath_lines", "aftermath_table", "aftermath_text", "balance", "balance_change",
    "balance_data", "balance_headline", "balance_html", "balance_text", "bench_table", "cautions_for",
    "criteria_table", "event_words", "group_table", "look_for", "paint_line", "part_words", "push_words",
    "reading_lines", "rules_of_thumb", "state_table", "topics_for",
]  # fmt: skip
