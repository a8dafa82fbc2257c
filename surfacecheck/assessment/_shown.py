"""A working as it is printed: numbers short enough to type, long enough to give the result to its last digit."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.errors import SurfaceError
from surfacecheck.provenance import Basis
from surfacecheck.quantities import quantity_names, show_number, working_unit
from surfacecheck.tables import Table, wrapped
from surfacecheck.working import evaluate

if TYPE_CHECKING:
    from surfacecheck.checks import Finding
    from surfacecheck.quantities import System
    from surfacecheck.working import Symbol

__all__ = ["Letter", "ShownFormula", "margin_text", "quantity_of_result", "shown_formulas"]

_FEWEST, _MOST = 4, 17
_NAME = re.compile(r"(?<![\w.])[A-Za-z_]\w*")
_EXACT = 1e-12


@dataclass(frozen=True)
class Letter:
    """One letter of a formula as it is printed.

    Attributes
    ----------
    name, text, unit : str
        Such as ``t``, ``0.5``, ``mm``.
    means, source : str
        In words.
    """

    name: str
    text: str
    unit: str
    means: str
    source: str


@dataclass(frozen=True)
class ShownFormula:
    """One formula as it is printed: letters, the numbers put in, and the result.

    Attributes
    ----------
    name : str
        What it gives: ``margin``, ``must carry``, ``times limit load``, ``used``.
    formula : str
        With letters.
    letters : tuple of Letter
        In units that belong together (N, mm, MPa; or lbf, in, psi).
    filled : str
        With numbers.
    result, unit : str
        What the numbers give, to the last digit shown.
    source : str
        Where the formula comes from.
    """

    name: str
    formula: str
    letters: tuple[Letter, ...]
    filled: str
    result: str
    unit: str
    source: str

    def text(self, width: int = 80) -> str:
        """Write it for a terminal.

        Parameters
        ----------
        width : int
            Columns.

        Returns
        -------
        str
            ASCII lines.
        """
        rows = tuple((x.name, "= " + x.text, x.unit, x.means, x.source) for x in self.letters)
        letters = Table(("where", "", "", "", "known from"), rows, "lllll").text(width - 2)
        lines = [
            wrapped(f"{self.name} = {self.formula}", width, then="    "),
            *("  " + line for line in letters.split("\n")),
            wrapped(f"{self.name} = {self.filled}", width, then="    "),
            f"{' ' * len(self.name)} = {self.result} {self.unit}".rstrip(),
        ]
        if self.source:
            lines.append(wrapped(f"formula: {self.source}", width, "  ", "    "))
        return "\n".join(lines)


def margin_text(margin: float) -> str:
    """Write a margin, signed, with two decimals.

    Examples
    --------
    >>> margin_text(0.4051), margin_text(-0.001), margin_text(-0.08)
    ('+0.41', '+0.00', '-0.08')
    """
    return f"{margin:+z.2f}"


def shown_formulas(finding: Finding, system: System = "metric") -> tuple[ShownFormula, ...]:
    """Give the formulas behind a finding, with numbers that give what is shown.

    Parameters
    ----------
    finding : Finding
        One check at its worst spot.
    system : {"metric", "inch"}
        Units.

    Returns
    -------
    tuple of ShownFormula
        Empty where nothing can be worked, or nothing is required. The margin first; then its letters that were worked
        out, or where it is a multiple of the load, the proof that this multiple just uses the part up.

    Raises
    ------
    SurfaceError
        Where no number of digits gives the result, so that the shown working would not be the one that was done.
    """
    check = finding.check
    if finding.required is None or (finding.margin is not None and not np.isfinite(finding.margin)):
        return ()
    source = "" if check.source.basis is Basis.NOT_SAID else str(check.source)
    if finding.margin is None:
        unit, size = working_unit(quantity_of_result(finding, check.required), system)
        result = show_number(finding.required / size, 4)
        return _with_steps(finding, "must carry", check.required, result, unit, source, system)
    if finding.kind == "statement":
        share = f"{finding.margin + 1.0:z.3f}"
        formula = f"{check.available} / ({check.required})"
        return (_one(finding, "times limit load", formula, share, "", source, system),)
    shown = margin_text(finding.margin)
    if not check.proof:
        formula = f"{check.available} / ({check.required}) - 1"
        return _with_steps(finding, "margin", formula, shown, "", source, system)
    both = (("margin", "lam - 1", shown), ("used", check.proof, "1.000"))
    symbols = finding.symbols(check.proof)
    texts = _fit(symbols, tuple((formula, result) for _, formula, result in both), system)
    return tuple(_put(name, formula, symbols, texts, result, "", source, system) for name, formula, result in both)


def _with_steps(
    finding: Finding, name: str, formula: str, result: str, unit: str, source: str, system: System
) -> tuple[ShownFormula, ...]:
    """Show a formula, and then the formula of each of its letters that was itself worked out."""
    steps = finding.steps(formula)
    symbols = finding.symbols(formula, *(text for _, text in steps))
    texts = _fit(symbols, ((formula, result),), system, steps)
    shown = [_put(name, formula, symbols, texts, result, unit, source, system)]
    of = {s.name: (working_unit(s.quantity, system)[0], str(s.source)) for s in symbols}
    shown += [_put(letter, text, symbols, texts, texts[letter], *of[letter], system) for letter, text in steps]
    return tuple(shown)


def _one(
    finding: Finding, name: str, formula: str, result: str, unit: str, source: str, system: System
) -> ShownFormula:
    symbols = finding.symbols(formula)
    texts = _fit(symbols, ((formula, result),), system)
    return _put(name, formula, symbols, texts, result, unit, source, system)


def _put(
    name: str,
    formula: str,
    symbols: tuple[Symbol, ...],
    texts: dict[str, str],
    result: str,
    unit: str,
    source: str,
    system: System,
) -> ShownFormula:
    used = set(_NAME.findall(formula))
    letters = tuple(
        Letter(s.name, texts[s.name], working_unit(s.quantity, system)[0], s.means, str(s.source))
        for s in symbols
        if s.name in used
    )
    filled = _NAME.sub(lambda found: _bracketed(texts.get(found[0], found[0])), formula)
    return ShownFormula(name, formula, letters, filled, result, unit, source)


def _bracketed(text: str) -> str:
    return f"({text})" if text.startswith("-") else text


def _fit(
    symbols: tuple[Symbol, ...],
    wanted: tuple[tuple[str, str], ...],
    system: System,
    steps: tuple[tuple[str, str], ...] = (),
) -> dict[str, str]:
    """Find the fewest digits with which every formula gives its result, and every step the letter it is for."""
    values = {s.name: s.si / working_unit(s.quantity, system)[1] for s in symbols if not _is_noise(s, symbols)}
    values |= {s.name: 0.0 for s in symbols if s.name not in values}
    for digits in range(_FEWEST, _MOST + 1):
        texts = {name: _number(value, digits) for name, value in values.items()}
        numbers = {name: float(text) for name, text in texts.items()}
        every = [*wanted, *((formula, texts[letter]) for letter, formula in steps)]
        if all(_as(result, evaluate(formula, numbers)) == result for formula, result in every):
            return texts
    message = f"the working {wanted[-1][0]!r} does not give {wanted[-1][1]} from {values}"
    raise SurfaceError(message)


def _is_noise(symbol: Symbol, symbols: tuple[Symbol, ...]) -> bool:
    """Whether a value is what rounding left of a nought, beside others of its kind."""
    largest = max(abs(s.si) for s in symbols if s.quantity == symbol.quantity)
    return abs(symbol.si) < _EXACT * largest


def _number(value: float, digits: int) -> str:
    text = show_number(value, digits)
    exact = abs(float(text) - value) <= _EXACT * abs(value)
    return text.rstrip("0").rstrip(".") if exact and "." in text else text


def _as(result: str, value: float) -> str:
    """Write a value like a result: the same sign rule and decimals."""
    places = len(result.partition(".")[2])
    return f"{value:{'+' if result[0] in '+-' else ''}z.{places}f}"


def quantity_of_result(finding: Finding, formula: str) -> str:
    """Tell what a formula gives, by how its number changes with the units of its letters.

    Parameters
    ----------
    finding : Finding
        Gives the letters.
    formula : str
        One side of its check.

    Returns
    -------
    str
        Name of the quantity; empty where it is a bare number, or none fits.
    """
    symbols = finding.symbols(formula)
    base = evaluate(formula, {s.name: s.si for s in symbols})
    if base == 0.0 or not np.isfinite(base):
        return ""
    systems: tuple[System, System] = ("metric", "inch")
    sizes = [
        base / evaluate(formula, {s.name: s.si / working_unit(s.quantity, system)[1] for s in symbols})
        for system in systems
    ]
    likely = ("", "force", "stress", "line_load", "torque", "length", *quantity_names())
    for name in likely:
        if np.allclose(sizes, [working_unit(name, system)[1] for system in systems], rtol=1e-9, atol=0.0):
            return name
    return ""
