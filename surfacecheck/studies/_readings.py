"""How far off a reading may be, by the tool it was taken with."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, NamedTuple

from surfacecheck.provenance import Basis, Source

if TYPE_CHECKING:
    from surfacecheck.provenance import Value

__all__ = ["REPEATS", "TOOLS_SOURCE", "Reading", "Tool", "reading_of", "tries_in"]


class Tool(NamedTuple):
    """A tool and what it gives.

    Attributes
    ----------
    words : str
        Words of its name, any of which names it.
    half : float
        How far a reading may be off, this way or that [m], [rad], or a share of the reading [-].
    quantity : str
        ``length`` or ``angle``; empty for a share of the reading.
    """

    words: str
    half: float
    quantity: str = "length"


TOOLS_SOURCE = Source(Basis.COMMON_PRACTICE, "a hand's reading with a workshop tool, no calibration sheet")
_DEGREE = 0.017453292519943295
TOOLS = (
    Tool("micrometer", 0.01e-3),
    Tool("feeler", 0.02e-3),
    Tool("drill shank", 0.05e-3),
    Tool("caliper calipers", 0.05e-3),
    Tool("template protractor", 1.0 * _DEGREE, "angle"),
    Tool("level", 0.5 * _DEGREE, "angle"),
    Tool("tension spring pull", 0.05, ""),
    Tool("scale scales weighed", 0.01, ""),
    Tool("gauge gage", 0.1e-3),
    Tool("thread", 0.2e-3),
    Tool("ruler square straightedge", 0.5e-3),
    Tool("tape strip", 1.0e-3),
)
"""The first whose word stands in the bracket counts. Common practice, all of them."""
REPEATS = (
    "the band is what the tool gives, +- ; repeats guard against a misread scale and are printed, but do not narrow "
    "it: every try has the same tool"
)
_TRIES = re.compile(r"\b(\d+)\s*(?:tries|times|readings|measurements)\b")


class Reading(NamedTuple):
    """What a bracket says of a reading.

    Attributes
    ----------
    half : float
        How far it may be off, this way or that [SI].
    tool : Tool
        With which it was taken.
    tries : int
        How often.
    """

    half: float
    tool: Tool
    tries: int


def tries_in(text: str) -> int:
    """Count the tries that a bracket tells of; one where it tells of none.

    Examples
    --------
    >>> tries_in("drill shank, 3 tries"), tries_in("caliper")
    (3, 1)
    """
    found = _TRIES.search(text)
    return max(1, int(found[1])) if found else 1


def reading_of(value: Value) -> Reading | None:
    """Give how far off a measured value may be.

    Parameters
    ----------
    value : Value
        From a file.

    Returns
    -------
    Reading or None
        None where it was not measured, or with a tool that is not listed.

    References
    ----------
    Common practice; no published figure.

    Examples
    --------
    >>> from surfacecheck.reading import source_of
    >>> from surfacecheck.provenance import Value
    >>> found = reading_of(Value(0.008, "8.0 mm", source_of("caliper, 2 tries")))
    >>> round(1e3 * found.half, 3), found.tries
    (0.05, 2)
    """
    if value.source.basis is not Basis.MEASURED or not isinstance(value.si, float) or value.absent:
        return None
    words = set(re.findall(r"[^\W\d_]+", value.source.text.casefold()))
    tool = next((one for one in TOOLS if words & set(one.words.split())), None)
    if tool is None:
        return None
    half = tool.half if tool.quantity else tool.half * abs(value.si)
    return Reading(half, tool, tries_in(value.source.text)) if half > 0.0 else None
