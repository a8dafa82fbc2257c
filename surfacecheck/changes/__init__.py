"""Changes laid over a surface, and what happened to it: one surface for each way it could be."""

from surfacecheck.changes._columns import Column
from surfacecheck.changes._columns_of import columns_of
from surfacecheck.changes._variants import variants

__all__ = ["Column", "columns_of", "variants"]
