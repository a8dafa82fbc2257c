"""The unit border: text in, SI floats inside, text and pint quantities out.

People's text is read by a grammar of our own (one decimal or one fraction, then a unit): a general unit library
reads ``"0,5 mm"`` as nothing and ``"1 1/8 in"`` as an eighth. Only a unit that is not in the table is handed to
pint, which is imported on first use.
"""

from surfacecheck.quantities._grammar import number_of, parse, split, without_unit
from surfacecheck.quantities._show import (
    System,
    as_quantity,
    show,
    show_number,
    system_of,
    to_unit,
    unit_of,
    working_unit,
)
from surfacecheck.quantities._table import GRAVITY, quantity_names

__all__ = [
    "GRAVITY",
    "System",
    "as_quantity",
    "number_of",
    "parse",
    "quantity_names",
    "show",
    "show_number",
    "split",
    "system_of",
    "to_unit",
    "unit_of",
    "without_unit",
    "working_unit",
]
