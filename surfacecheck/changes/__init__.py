"""Changes laid over a surface: one surface for each way it could be."""

from surfacecheck.changes._columns import Column
from surfacecheck.changes._variants import variants

__all__ = ["Column", "variants"]
