"""What to fill in next, and what to measure better."""

from surfacecheck.studies.asking._deciding import Decided, Deciding, Moved
from surfacecheck.studies.asking._next_values import NextValue, next_values, nothing_told
from surfacecheck.studies.asking._sensitivity import decides

__all__ = [
    "Decided", "Deciding", "Moved", "NextValue", "decides", "next_values", "nothing_told",
]  # fmt: skip
