"""Where the airload of a sheet-metal control surface goes, and what carries it.

A sanity check by and for builders, no approval: designer, rules and inspector decide.

>>> import surfacecheck
>>> surfacecheck.__version__
'0.1.0'
"""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from surfacecheck.assessment import Assessment, assess
    from surfacecheck.errors import Fault, SurfaceError
    from surfacecheck.reading import read, read_text

__version__ = "0.1.0"

__all__ = ["Assessment", "Fault", "SurfaceError", "__version__", "assess", "read", "read_text"]

_HOME = {
    "Assessment": "assessment",
    "assess": "assessment",
    "Fault": "errors",
    "SurfaceError": "errors",
    "read": "reading",
    "read_text": "reading",
}


def __getattr__(name: str) -> Any:
    """Import a public name when it is first asked for, so that a bare import stays light."""
    if name in _HOME:
        return getattr(import_module(f"surfacecheck.{_HOME[name]}"), name)
    message = f"module 'surfacecheck' has no attribute {name!r}"
    raise AttributeError(message)
