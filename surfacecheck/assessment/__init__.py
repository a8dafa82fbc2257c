"""The whole chain: from a described surface to loads, margins, rules and balance."""

from surfacecheck.assessment._assess import assess
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

__all__ = ["CAUTION", "NOT_LOOKED_AT", "Assessment", "Gap", "HornPull", "PinLoad", "Rest", "Worst", "assess"]
