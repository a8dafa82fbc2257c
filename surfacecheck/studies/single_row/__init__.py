"""One rivet row on its own, without a surface."""

from surfacecheck.studies.single_row._row import FIXITY_RANGE, LARGE, RowOption, RowStudy, row_alone
from surfacecheck.studies.single_row._row_shown import headline, row_study_html, row_study_table, row_study_text

__all__ = [
    "FIXITY_RANGE", "LARGE", "RowOption", "RowStudy", "headline", "row_alone", "row_study_html",
    "row_study_table", "row_study_text",
]  # fmt: skip
