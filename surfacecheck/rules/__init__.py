"""Rules of the trade: meets, does not meet, or not covered, each with its text and the field it was written for."""

from surfacecheck.rules._access import (
    MOST_WEDGE,
    NOSE_GAP,
    TAIL_ROOM,
    least_flange,
    nose_room,
    tail_room,
    tool_tilt,
)
from surfacecheck.rules._bends import bend_allowance, bend_clearance, bend_radius, bend_radius_range, setback
from surfacecheck.rules._many import (
    bend_clearance_short,
    bend_radius_short,
    edge_short,
    gap_short,
    outside_range,
    pitch_short,
    sheet_too_thin,
)
from surfacecheck.rules._result import (
    DOES_NOT_MEET,
    MEETS,
    NOT_COVERED,
    Outcome,
    RuleResult,
    filled_in,
    gathered,
    length,
    short_of,
)
from surfacecheck.rules._rivet_choice import countersink_depth, diameter_for_sheet, grip_range, hole_range, sheet_range
from surfacecheck.rules._rivet_count import COUNT_SHARES, COUNT_SOURCE, rivet_count, rivets_by_notes, rivets_per_width
from surfacecheck.rules._rows import greatest_pitches, repairs_in_row
from surfacecheck.rules._spacing import edge_distance, edge_times, least_pitch, pitch_times, row_gap
from surfacecheck.rules._texts import chamfer_most, edge_texts, least_rivet, pitch_texts

__all__ = [
    "COUNT_SHARES",
    "COUNT_SOURCE",
    "DOES_NOT_MEET",
    "MEETS",
    "MOST_WEDGE",
    "NOSE_GAP",
    "NOT_COVERED",
    "TAIL_ROOM",
    "Outcome",
    "RuleResult",
    "bend_allowance",
    "bend_clearance",
    "bend_clearance_short",
    "bend_radius",
    "bend_radius_range",
    "bend_radius_short",
    "chamfer_most",
    "countersink_depth",
    "diameter_for_sheet",
    "edge_distance",
    "edge_short",
    "edge_texts",
    "edge_times",
    "filled_in",
    "gap_short",
    "gathered",
    "greatest_pitches",
    "grip_range",
    "hole_range",
    "least_flange",
    "least_pitch",
    "least_rivet",
    "length",
    "nose_room",
    "outside_range",
    "pitch_short",
    "pitch_texts",
    "pitch_times",
    "repairs_in_row",
    "rivet_count",
    "rivets_by_notes",
    "rivets_per_width",
    "row_gap",
    "setback",
    "sheet_range",
    "sheet_too_thin",
    "short_of",
    "tail_room",
    "tool_tilt",
]
