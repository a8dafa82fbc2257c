"""Changes laid over a surface, and what happened to it: one surface for each way it could be."""

from surfacecheck.changes._columns import Column
from surfacecheck.changes._columns_of import Link, chain_of, columns_of
from surfacecheck.changes._events import KINDS, EventKind, kind_of
from surfacecheck.changes._interview import Interview
from surfacecheck.changes._interview_words import Question
from surfacecheck.changes._variants import variants

__all__ = [
    "KINDS",
    "Column",
    "EventKind",
    "Interview",
    "Link",
    "Question",
    "chain_of",
    "columns_of",
    "kind_of",
    "variants",
]
