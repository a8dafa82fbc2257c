"""The worst of one check for one surface, with the working to show."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.checks._check import Check, names_in, quiet
from surfacecheck.working import Symbol, Working

if TYPE_CHECKING:
    from collections.abc import Iterable

    from numpy.typing import ArrayLike

__all__ = ["Finding", "Outcome", "find", "find_all", "find_at", "outcome_of", "value_at"]


class Outcome:
    """The words of outcome of a margin, and no others."""

    CARRIES = "carries what is required, for what was looked at"
    LESS = "less than required"
    OUTSIDE = "outside the method: ask"
    DEPENDS = "depends on heel and prying of the bracket: ask"
    NOT_GIVEN = "not given"


@dataclass(frozen=True, eq=False)
class Finding:
    """The worst of one check, for one surface.

    Attributes
    ----------
    name : str
        ``hinge.middle.bracket.rivet-3:rivet-shear``; survives an edit of the file.
    part, gives : str
        In words, with the spot: "middle hinge, bracket, rivet 3", "rivet shears".
    margin : float or None
        [-]; None where not given; infinite where nothing is required of it.
    outcome : str
        One of the words of :class:`Outcome`; empty for a statement.
    case : str
        Load case that decides.
    required : float or None
        What it must be good for, factors in [as the formula's unit].
    missing : tuple of str
        Keys that hide the margin.
    index : tuple of int
        Case and spot that decide.
    variant : int
        Which variant of the check's stack it is of; 0 where there is none.
    """

    check: Check
    place: str
    part: str
    margin: float | None
    outcome: str
    case: str
    spot: str
    required: float | None
    available: float | None
    missing: tuple[str, ...]
    index: tuple[int, int]
    variant: int = 0

    @property
    def name(self) -> str:
        """Path and mode."""
        return f"{self.place}:{self.check.mode}"

    @property
    def gives(self) -> str:
        """What gives, in words."""
        return self.check.gives

    @property
    def kind(self) -> str:
        """``margin``, ``bound`` or ``statement``."""
        return self.check.kind

    def value(self, name: str) -> float | None:
        """Give one letter at the spot that decides.

        Parameters
        ----------
        name : str
            Letter of the formula.

        Returns
        -------
        float or None
            SI value.
        """
        values = self.check.terms[name].values
        return None if values is None else self.at(values)

    def at(self, values: ArrayLike) -> float:
        """Read something over cases and spots at the spot that decides.

        Parameters
        ----------
        values : array_like, broadcast to (..., cases, spots)
            Of this finding's check [any].

        Returns
        -------
        float
            SI value.
        """
        return value_at(values, self.index, self.variant)

    def symbols(self, *texts: str) -> tuple[Symbol, ...]:
        """List the letters of the given formulas with their values at the spot that decides."""
        wanted = {name for text in texts if text for name in names_in(text)}
        chosen = []
        for name, term in self.check.terms.items():
            value = self.value(name) if name in wanted else None
            if value is not None:
                chosen.append(Symbol(name, value, term.quantity, term.means, term.source))
        return tuple(chosen)

    def steps(self, *texts: str) -> tuple[tuple[str, str], ...]:
        """List the letters of the given formulas that were themselves worked out, each with its formula."""
        wanted = {name for text in texts for name in names_in(text)}
        return tuple((letter, text) for letter, text in self.check.steps if letter in wanted)

    @property
    def working(self) -> Working | None:
        """The whole working of the margin, or of what must be carried where no strength is given."""
        check = self.check
        if self.required is None:
            return None
        if self.margin is None:
            return Working(
                "",
                check.required,
                self.symbols(check.required),
                self.required,
                "must carry",
                check.terms[check.effect].quantity,
                check.source,
                tuple(self._step(letter, text) for letter, text in self.steps(check.required)),
            )
        if check.proof:
            proof = Working(
                "at this multiple of the load it is just used up",
                check.proof,
                self.symbols(check.proof),
                1.0,
                "used",
                "",
                check.source,
            )
            return Working("", "lam - 1", self.symbols("lam"), self.margin, "margin", "", check.source, (proof,))
        formula = f"{check.available} / ({check.required}) - 1"
        symbols, steps = self.symbols(formula), tuple(self._step(*one) for one in self.steps(formula))
        return Working("", formula, symbols, self.margin, "margin", "", check.source, steps)

    def _step(self, letter: str, text: str) -> Working:
        term = self.check.terms[letter]
        result = self.value(letter) or 0.0
        return Working(term.means, text, self.symbols(text), result, letter, term.quantity, term.source)


def find(check: Check) -> Finding:
    """Reduce a check to its worst spot and case.

    Parameters
    ----------
    check : Check
        For one surface: terms of shape (cases, spots).

    Returns
    -------
    Finding
        The worst, with its own companions; where the strength is not given, the spot that must carry most.
    """
    return find_all([check])[0]


def find_all(checks: Iterable[Check]) -> tuple[Finding, ...]:
    """Reduce many checks, each as :func:`find` does.

    Parameters
    ----------
    checks : iterable of Check
        For one surface.

    Returns
    -------
    tuple of Finding
        In the order of the checks.
    """
    with quiet():
        return tuple(_found(check) for check in checks)


def find_at(check: Check, spot: str) -> Finding:
    """Reduce a check to its worst case at one spot.

    Parameters
    ----------
    check : Check
        For one surface.
    spot : str
        One of its spots; where several are called so, the worst of them.

    Returns
    -------
    Finding
        As :func:`find` gives it, of that spot alone.
    """
    with quiet():
        return _found(check, [number for number, name in enumerate(check.spots) if name == spot])


def _found(check: Check, spots: list[int] | None = None) -> Finding:
    """Reduce one check, to some of its spots where they are given."""
    available, required = check.sides()
    margins = None if available is None or required is None else check.margins_of(available, required)
    index = (0, 0)
    if spots is not None:
        index = _worst_at(check, margins, required, spots)
    elif margins is not None:
        index = _place(margins, int(margins.argmin()))
    elif required is not None:
        index = _place(required, int(np.argmax(required)))
    margin = None if margins is None else _at(margins, index)
    if margin is not None and math.isnan(margin):
        raise check.no_number()  # argmin finds a NaN before any number
    outside = check.outside is not False and bool(_at(check.outside, index))
    outcome = outcome_of(check, margin, outside)
    case, spot = index
    name = check.spots[spot]
    return Finding(
        check=check,
        place=f"{check.place}.{name.replace(' ', '-')}" if name else check.place,
        part=f"{check.part}, {name}" if name else check.part,
        margin=margin,
        outcome=outcome,
        case=check.spot_cases[spot] if check.spot_cases else check.cases[case],
        spot=name,
        required=None if required is None else _at(required, index),
        available=None if available is None else _at(available, index),
        missing=check.missing,
        index=index,
    )


def outcome_of(check: Check, margin: float | None, outside: bool) -> str:
    """Put a margin into one of the words of :class:`Outcome`; a statement, which asks for nothing, into none."""
    if check.kind == "statement":
        return ""
    if outside:
        return Outcome.OUTSIDE
    if margin is None:
        return Outcome.NOT_GIVEN
    return Outcome.CARRIES if margin >= 0.0 else Outcome.LESS


def value_at(values: ArrayLike, index: tuple[int, int], variant: int) -> float:
    """Read one case and spot of something that broadcasts to (..., cases, spots), of one variant of a stack."""
    array = np.asarray(values)
    return _at(array[variant if len(array) > 1 else 0] if array.ndim == 3 else array, index)


def _at(values: ArrayLike, index: tuple[int, int]) -> float:
    """Read one case and spot of something that broadcasts to (cases, spots)."""
    array = np.asarray(values)
    if array.ndim == 2:
        case, spot = index
        return float(array[case if array.shape[0] > 1 else 0, spot if array.shape[1] > 1 else 0])
    return float(array[index[1] if array.size > 1 else 0] if array.ndim else array)


def _worst_at(check: Check, margins: ArrayLike | None, required: ArrayLike | None, spots: list[int]) -> tuple[int, int]:
    """Find the worst case among some spots."""
    size = np.negative(margins) if margins is not None else np.asarray(0.0 if required is None else required)
    shown = np.broadcast_to(size, (len(check.cases), len(check.spots)))[:, spots]
    case, number = divmod(int(shown.argmax()), len(spots))
    return case, spots[number]


def _place(values: ArrayLike, flat: int) -> tuple[int, int]:
    """Case and spot of a flat index into something that broadcasts to (cases, spots)."""
    shape = np.shape(values)
    return divmod(flat, shape[-1]) if shape else (0, 0)
