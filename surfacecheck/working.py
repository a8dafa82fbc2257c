"""A number with its formula, symbols, values and sources, so that a person can redo it."""

from __future__ import annotations

import math
from dataclasses import dataclass

from surfacecheck.errors import SurfaceError
from surfacecheck.provenance import WORKED_OUT, Source

__all__ = ["Symbol", "Working", "evaluate"]

_FUNCTIONS = {
    "sqrt": math.sqrt,
    "min": min,
    "max": max,
    "abs": abs,
    "tanh": math.tanh,
    "log10": math.log10,
    "atan2": math.atan2,
    "sin": math.sin,
    "cos": math.cos,
    "hypot": math.hypot,
    "pi": math.pi,
}


@dataclass(frozen=True, slots=True)
class Symbol:
    """One letter of a formula.

    Attributes
    ----------
    name : str
        As it stands in the formula; a Python identifier in the field's notation (``F_bru``).
    si : float
        Value in SI units.
    quantity : str
        What it is, as one of the names of ``quantities`` ("length", "force", "stress", ...; "" for a bare number).
    means : str
        In words.
    source : Source
        Where the value comes from.
    """

    name: str
    si: float
    quantity: str = ""
    means: str = ""
    source: Source = WORKED_OUT


@dataclass(frozen=True, slots=True)
class Working:
    """A formula with its symbols and its result.

    The formula is written so that both a person and :func:`evaluate` can work it; it holds in any consistent
    set of units (N and mm, or lbf and in), so that it can be redone from the values as shown.

    Attributes
    ----------
    sentence : str
        The finding in one plain sentence.
    formula : str
        Right-hand side, such as ``"F_bru * D * t / (FS * P) - 1"``.
    symbols : tuple of Symbol
        Every name in the formula.
    result : float
        What the formula gives, in SI units.
    result_name : str
        Left-hand side, such as ``"margin"``.
    quantity : str
        Quantity of the result ("" for a bare number, as margins are).
    source : Source
        Where the formula comes from.
    steps : tuple of Working
        Workings of symbols that were themselves worked out.
    """

    sentence: str
    formula: str
    symbols: tuple[Symbol, ...]
    result: float
    result_name: str = "margin"
    quantity: str = ""
    source: Source = WORKED_OUT
    steps: tuple[Working, ...] = ()


def evaluate(formula: str, values: dict[str, float]) -> float:
    """Work a shown formula with shown values.

    Parameters
    ----------
    formula : str
        As in :class:`Working`.
    values : dict of str to float
        A value for each symbol.

    Returns
    -------
    float
        The result.

    Raises
    ------
    SurfaceError
        Where the formula names something that has no value.

    Examples
    --------
    >>> evaluate("P_s / (FS * q * p) - 1", {"P_s": 750.0, "FS": 1.5, "q": 4761.4, "p": 0.025})
    3.2005...
    """
    try:
        return float(eval(formula, {"__builtins__": {}, **_FUNCTIONS}, dict(values)))  # noqa: S307 - own formulas only
    except (NameError, SyntaxError, TypeError) as err:
        message = f"the working {formula!r} cannot be redone: {err}"
        raise SurfaceError(message) from err
