"""A surface beside the same surface with changes."""

from surfacecheck.studies.comparing._compare import Changed, Comparison, compare, least_twist_stiffness, rivet_count
from surfacecheck.studies.comparing._compare_shown import comparison_html, comparison_table, comparison_text

__all__ = [
    "Changed", "Comparison", "compare", "comparison_html", "comparison_table", "comparison_text",
    "least_twist_stiffness", "rivet_count",
]  # fmt: skip
