"""For the bench: rule cards, take-off, drilling lists, what a tool reaches."""

from surfacecheck.studies.bench._access import Access, Reach, ToolReach, access, tool_needs
from surfacecheck.studies.bench._access_shown import reach_table
from surfacecheck.studies.bench._drilling import PartHoles, Run, drilling
from surfacecheck.studies.bench._lengths import Chosen, rivet_length
from surfacecheck.studies.bench._rule_card import RuleCard, rule_card, rule_cards
from surfacecheck.studies.bench._rule_card_shown import card_data, card_html, card_table, card_text
from surfacecheck.studies.bench._seats import Line, Seats
from surfacecheck.studies.bench._seats_fittings import seats_of
from surfacecheck.studies.bench._setting_order import Setting, setting_order, setting_source
from surfacecheck.studies.bench._shank import Shank, shank
from surfacecheck.studies.bench._stacks import Stack, Stretch, stretches
from surfacecheck.studies.bench._stations import (
    both_units,
    hole_table,
    line_words,
    part_named,
    run_words,
    station_text,
    stations,
)
from surfacecheck.studies.bench._takeoff import Purchase, Taken, TakeOff, takeoff
from surfacecheck.studies.bench._takeoff_basis import OWN, Spares, Work
from surfacecheck.studies.bench._takeoff_shown import (
    access_lines,
    takeoff_data,
    takeoff_headline,
    takeoff_text,
    tool_lines,
    unreached,
    work_line,
)
from surfacecheck.studies.bench._takeoff_tables import (
    buy_table,
    drill_table,
    look_lines,
    part_table,
    row_take_table,
    setting_table,
)

__all__ = [
    "OWN", "Access", "Chosen", "Line", "PartHoles", "Purchase", "Reach", "RuleCard", "Run", "Seats", "Setting",
    "Shank", "Spares", "Stack", "Stretch", "TakeOff", "Taken", "ToolReach", "Work", "access", "access_lines",
    "both_units", "buy_table", "card_data", "card_html", "card_table", "card_text", "drill_table", "drilling",
    "hole_table", "line_words", "look_lines", "part_named", "part_table", "reach_table", "rivet_length",
    "row_take_table", "rule_card", "rule_cards", "run_words", "seats_of", "setting_order", "setting_source",
    "setting_table", "shank", "station_text", "stations", "stretches", "takeoff", "takeoff_data",
    "takeoff_headline", "takeoff_text", "tool_lines", "tool_needs", "unreached", "work_line",
]  # fmt: skip
