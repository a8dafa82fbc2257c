"""Alternatives for the rivets of rows, side by side."""

from surfacecheck.studies.riveting._rivets import rivets
from surfacecheck.studies.riveting._rivets_bench import Bought, buying_lines
from surfacecheck.studies.riveting._rivets_best import CRITERIA, unbeaten
from surfacecheck.studies.riveting._rivets_comparison import RivetComparison
from surfacecheck.studies.riveting._rivets_curve import margins_at, on_ribs
from surfacecheck.studies.riveting._rivets_data import rivets_data
from surfacecheck.studies.riveting._rivets_given import AXES, MOST, Alternatives, Space
from surfacecheck.studies.riveting._rivets_limits import Limit, limits
from surfacecheck.studies.riveting._rivets_lists import impossible_lines, limit_table, zero_table
from surfacecheck.studies.riveting._rivets_row import RowTable
from surfacecheck.studies.riveting._rivets_shown import rivets_headline, rivets_html, rivets_notes, rivets_text
from surfacecheck.studies.riveting._rivets_tables import carries_table, first_shown, takes_table
from surfacecheck.studies.riveting._rivets_together import Together
from surfacecheck.studies.riveting._rivets_words import choice_words, grams

__all__ = [
    "AXES", "CRITERIA", "MOST", "Alternatives", "Bought", "Limit", "RivetComparison", "RowTable", "Space", "Together",
    "buying_lines", "carries_table", "choice_words", "first_shown", "grams", "impossible_lines", "limit_table",
    "limits", "margins_at", "on_ribs", "rivets", "rivets_data", "rivets_headline", "rivets_html", "rivets_notes",
    "rivets_text", "takes_table", "unbeaten", "zero_table",
]  # fmt: skip
