"""The whole chain: from a described surface to loads, margins, rules and balance."""

from surfacecheck.assessment._as_data import as_data, finding_data
from surfacecheck.assessment._assess import assess, straddled
from surfacecheck.assessment._balance import balance_line, mass_table
from surfacecheck.assessment._carry import Carried, PutForce, carry
from surfacecheck.assessment._each import StackAssessment, assess_each, assess_stack
from surfacecheck.assessment._gather import box_at
from surfacecheck.assessment._load import IN_LINE, SLACK, THROUGH_RIBS
from surfacecheck.assessment._result import (
    CAUTION,
    NOT_LOOKED_AT,
    Assessment,
    Gap,
    HornPull,
    PinLoad,
    Rest,
    Worst,
)
from surfacecheck.assessment._rules import rules_of
from surfacecheck.assessment._sentence import Needed, at_state, finding_sentence, needed, place_words, show_working
from surfacecheck.assessment._shown import Letter, ShownFormula, margin_text, shown_formulas
from surfacecheck.assessment._summary import counts, not_given_lines, notebook_html, rule_lines, summary
from surfacecheck.assessment._tables import (
    bracket_table,
    case_words,
    finding_table,
    in_system,
    margin_table,
    pin_table,
    row_table,
)

__all__ = [
    "CAUTION",
    "IN_LINE",
    "NOT_LOOKED_AT",
    "SLACK",
    "THROUGH_RIBS",
    "Assessment",
    "Carried",
    "Gap",
    "HornPull",
    "Letter",
    "Needed",
    "PinLoad",
    "PutForce",
    "Rest",
    "ShownFormula",
    "StackAssessment",
    "Worst",
    "as_data",
    "assess",
    "assess_each",
    "assess_stack",
    "at_state",
    "balance_line",
    "box_at",
    "bracket_table",
    "carry",
    "case_words",
    "counts",
    "finding_data",
    "finding_sentence",
    "finding_table",
    "in_system",
    "margin_table",
    "margin_text",
    "mass_table",
    "needed",
    "not_given_lines",
    "notebook_html",
    "pin_table",
    "place_words",
    "row_table",
    "rule_lines",
    "rules_of",
    "show_working",
    "shown_formulas",
    "straddled",
    "summary",
]
