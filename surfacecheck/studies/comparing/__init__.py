"""A surface beside the same surface with changes."""

from surfacecheck.studies.comparing._compare import Changed, Comparison, compare
from surfacecheck.studies.comparing._compare_shown import comparison_html, comparison_table, comparison_text
from surfacecheck.studies.comparing._compare_whole import least_twist_stiffness, rivet_count

__all__ = [
    "Changed", "Comparison", "compare", "comparison_html", "comparison_table", "comparison_text",
    "least_twist_stiffness", "rivet_count",
]  # fmt: skip
