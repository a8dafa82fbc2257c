"""One place of a sheet that is not as drawn: a nick, a hole, a thin spot."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from surfacecheck.provenance import UNKNOWN, Value

__all__ = ["Mark"]


@dataclass(frozen=True)
class Mark:
    """A nick, a hole or a thin spot of a sheet; no key of the file: what happened puts it there.

    Attributes
    ----------
    sort : str
        ``notch`` (from an edge), ``hole`` or ``thin`` (from a face).
    part : str
        ``spar web``, ``spar flange``, ``left_skin``, ``right_skin``.
    up : Value
        Its place along the pins [m].
    depth : Value
        How far a notch goes in from the edge [m].
    radius : Value
        Radius at its bottom [m].
    across : Value
        Diameter of a hole [m].
    left : Value
        Thickness that is left at a thin spot [m].
    """

    sort: Literal["hole", "notch", "thin"]
    part: str
    up: Value
    depth: Value = UNKNOWN
    radius: Value = UNKNOWN
    across: Value = UNKNOWN
    left: Value = UNKNOWN
