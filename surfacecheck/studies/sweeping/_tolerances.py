"""Tolerances: what a builder writes of how far a number may lie from what was given, as limits to draw samples from."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.errors import SurfaceError
from surfacecheck.provenance import Basis, Source
from surfacecheck.quantities import parse
from surfacecheck.studies.sweeping._tolerance_table import tries_factor

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from surfacecheck.provenance import Value

    Array = NDArray[np.float64]

__all__ = ["LIMITS", "Spread", "said_in", "spread_of"]

LIMITS = Source(
    Basis.PUBLISHED,
    "JCGM 100:2008 (GUM), 4.3.7: where only limits are known, every value between them alike; 4.3.4: a normal "
    "distribution whose limits hold 95 % of it",
)
_SIGMAS = 2.0
"""Standard deviations from the middle to a limit of a bell: 95 % lie within (GUM, 4.3.4)."""
_CUT = 4.0
"""Standard deviations at which a bell is cut off: no sample lies absurdly far out, and 6 in 100,000 would."""
_PLUS_MINUS = re.compile(r"^(?:\+-|\+/-|±)\s*")
_TWO = re.compile(r"^\+\s*(?P<above>[^+-]+?)\s*[,/]?\s*-\s*(?P<below>[^+-]+)$")
_RANGE = re.compile(r"^(?P<low>[0-9.]+(?:\s*\S+)?)\s+to\s+(?P<high>[0-9.]+\s*\S+)$")
_TRIES = re.compile(r"\b(?P<count>[0-9]+)\s+(?:tries|coupons|pieces|places|of them)\b")
_IN_BRACKET = re.compile(r"(?:(?:\+-|±)\s*[0-9.]+\s*[^\s,]+|[0-9.]+(?:\s*[a-z]+)?\s+to\s+[0-9.]+\s*[^\s,]+)")
_FORMS = 'write "0.02 mm", "+0.1 mm -0 mm", "5 %" or "0.78 mm to 0.82 mm"; "bell" behind it for a normal distribution'


@dataclass(frozen=True)
class Spread:
    """How far one number of a surface may lie from what was given.

    Attributes
    ----------
    key : str
        Of the file.
    value : Value
        As given.
    quantity : str
        Of the number.
    low, high : float
        Limits [SI].
    bell : bool
        Whether it is a normal distribution with 95 % between the limits; else every value between them is as likely.
    text : str
        As written.
    source : Source
        Where that comes from.
    """

    key: str
    value: Value
    quantity: str
    low: float
    high: float
    bell: bool
    text: str
    source: Source

    def at(self, chance: Array) -> Array:
        """Give the values below which the number lies with these chances.

        Parameters
        ----------
        chance : ndarray
            Between 0 and 1 [-].

        Returns
        -------
        ndarray
            [SI].
        """
        if not self.bell:
            return np.asarray(self.low + (self.high - self.low) * chance)
        from scipy.special import ndtr, ndtri

        far = ndtr(-_CUT)
        middle, sigma = 0.5 * (self.low + self.high), (self.high - self.low) / (2.0 * _SIGMAS)
        return np.asarray(middle + sigma * ndtri(far + (1.0 - 2.0 * far) * chance))


def spread_of(key: str, value: Value, quantity: str, text: str, source: Source) -> Spread | None:
    """Read a tolerance.

    Parameters
    ----------
    key : str
        Of the number.
    value : Value
        As given; known.
    quantity : str
        Of the number.
    text : str
        Such as ``"0.02 mm"``, ``"+0.1 mm -0 mm"``, ``"5 % bell"``, ``"0.78 mm to 0.82 mm"``, ``"none"``.
    source : Source
        Where it comes from.

    Returns
    -------
    Spread or None
        None for ``"none"`` or nothing either way: not varied.

    Raises
    ------
    SurfaceError
        For a text that is no tolerance, or limits that do not hold the value.

    Examples
    --------
    >>> from surfacecheck.provenance import Value
    >>> hole = spread_of("rivet.large.hole", Value(4.1e-3), "length", "+0.1 mm -0 mm", Source(Basis.COMMON_PRACTICE))
    >>> round(hole.low * 1e3, 3), round(hole.high * 1e3, 3)
    (4.1, 4.2)
    """
    words = text.strip()
    if words == "none":
        return None
    shape = words.rpartition(" ")[2]
    bell = shape == "bell"
    words = words.removesuffix(shape).strip() if shape in {"bell", "even"} else words
    tries = _TRIES.search(source.text) if _RANGE.match(words) else None
    try:
        low, high = _limits(words, float(np.asarray(value.si)), quantity)
    except SurfaceError as error:
        message = f'{key}: "{text}" is no tolerance ({error}): {_FORMS}'
        raise SurfaceError(message) from error
    if tries is not None:  # a range of a few tries: the spread it speaks for, about the value given
        reach = _SIGMAS * (high - low) * tries_factor(int(tries["count"]))
        low, high, bell = float(np.asarray(value.si)) - reach, float(np.asarray(value.si)) + reach, True
    return Spread(key, value, quantity, low, high, bell, text.strip(), source) if high > low else None


def _limits(words: str, given: float, quantity: str) -> tuple[float, float]:
    if ends := _RANGE.match(words):
        unit = ends["high"].lstrip("0123456789. ")
        low_text = ends["low"] if re.search(r"[^0-9.\s]", ends["low"]) else f"{ends['low']} {unit}"
        low, high = parse(low_text, quantity)[0], parse(ends["high"], quantity)[0]
        if not low <= given <= high:
            message = "the value given does not lie in that range"
            raise SurfaceError(message)
        return low, high
    if two := _TWO.match(words):
        return given - _amount(two["below"], given, quantity), given + _amount(two["above"], given, quantity)
    both = _amount(_PLUS_MINUS.sub("", words), given, quantity)
    return given - both, given + both


def _amount(text: str, given: float, quantity: str) -> float:
    """Read how far, as a length and the like or as a share of the value."""
    words = text.strip()
    if words in {"0", "0.0"}:
        return 0.0
    if words.endswith("%"):
        return abs(given) * parse(words[:-1].strip(), "number")[0] / 100.0
    amount = parse(words, quantity)[0]
    if amount < 0.0:
        message = "it is below zero"
        raise SurfaceError(message)
    return amount


def said_in(value: Value) -> str:
    """Find a tolerance in the bracket of a value: ``(micrometer, +-0.01 mm)``, ``(micrometer, 0.78 to 0.82 mm)``.

    Parameters
    ----------
    value : Value
        As given.

    Returns
    -------
    str
        Empty where its bracket holds none.

    Examples
    --------
    >>> from surfacecheck.provenance import Value
    >>> said_in(Value(0.8e-3, source=Source(Basis.MEASURED, "micrometer, 0.78 to 0.82 mm, 5 tries")))
    '0.78 to 0.82 mm'
    """
    found = _IN_BRACKET.search(value.source.text)
    return found[0] if found else ""
