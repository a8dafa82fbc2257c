"""One strength check: the formula that is shown is the formula that is worked, over whole arrays.

A check is two texts, what is available and what is required, and a term for each letter in them. The same texts are
worked here over arrays of shape ``(..., cases, spots)`` and shown on the page with the numbers of the worst spot, so
that a shown working cannot differ from what was computed.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import lru_cache
from types import CodeType
from typing import TYPE_CHECKING, Any

import numpy as np

from surfacecheck.errors import SurfaceError
from surfacecheck.provenance import Basis, Source, Value
from surfacecheck.working import Symbol, Working

if TYPE_CHECKING:
    from collections.abc import Mapping

    from numpy.typing import NDArray

__all__ = ["Check", "Finding", "Outcome", "Term", "find"]

_FUNCTIONS: dict[str, Any] = {
    "__builtins__": {},
    "sqrt": np.sqrt,
    "min": np.minimum,
    "max": np.maximum,
    "abs": np.abs,
    "tanh": np.tanh,
    "log10": np.log10,
    "hypot": np.hypot,
    "sin": np.sin,
    "cos": np.cos,
    "pi": np.pi,
}

WORKED_OUT = Source(Basis.WORKED_OUT)


class Outcome:
    """The words of outcome of a margin, and no others."""

    CARRIES = "carries what is required, for what was looked at"
    LESS = "less than required"
    OUTSIDE = "outside the method: ask"
    DEPENDS = "depends"
    NOT_GIVEN = "not given"
    NOT_LOOKED_AT = "not looked at"


@dataclass(frozen=True, slots=True, eq=False)
class Term:
    """One letter of a check.

    Attributes
    ----------
    values : float, ndarray or None
        SI values that broadcast to (..., cases, spots); None is "not given".
    quantity : str
        Name of the quantity, as in ``surfacecheck.quantities``; "" for a bare number.
    means : str
        In words.
    source : Source
        Where it comes from.
    key : str
        Key in the surface file, where it is an input.
    """

    values: float | NDArray[np.float64] | None
    quantity: str
    means: str
    source: Source = WORKED_OUT
    key: str = ""

    @classmethod
    def of(cls, value: Value, quantity: str, means: str) -> Term:
        """Make a term of a value of the surface file or the library."""
        return cls(value.si, quantity, means, value.source, value.key)


@dataclass(frozen=True, eq=False)
class Check:
    """What is available against what is required, over all cases and spots.

    Attributes
    ----------
    place : str
        Path of the part, such as ``hinge.middle.bracket``.
    mode : str
        Short name of the way it gives, such as ``rivet-shear``.
    part, gives : str
        The same in words: "middle hinge, bracket", "rivet shears".
    available, required : str
        The two sides of the formula; margin = available / required - 1.
    terms : mapping of str to Term
        A term for every letter.
    effect : str
        Letter of the limit load effect, for the sentence.
    cases, spots : tuple of str
        Names along the last two axes.
    source : Source
        Where the formula comes from.
    proof : str
        Where the margin is a load multiplier: a formula that gives 1 when the letter ``lam`` is that multiplier; the
        two sides above then only say what is carried at ultimate load. Empty where the effect grows with the load.
    kind : str
        ``margin``, ``bound`` (a bound printed beside a margin) or ``statement`` (a fraction of limit load, no margin).
    outside : ndarray of bool, or False
        Where the method does not hold.
    factors : str
        The line of factors, in words.
    notes : tuple of str
        Assumptions that go with the number.
    subject : str
        What carries the effect, for the sentence: "this rivet".
    spot_cases : tuple of str
        Where the cases were reduced before (one case on the axis): the case of each spot; empty otherwise.
    """

    place: str
    mode: str
    part: str
    gives: str
    available: str
    required: str
    terms: Mapping[str, Term]
    effect: str
    cases: tuple[str, ...]
    spots: tuple[str, ...]
    source: Source
    proof: str = ""
    kind: str = "margin"
    outside: NDArray[np.bool_] | bool = False
    factors: str = ""
    notes: tuple[str, ...] = ()
    subject: str = ""
    spot_cases: tuple[str, ...] = ()
    missing: tuple[str, ...] = field(init=False)

    def __post_init__(self) -> None:
        absent = tuple(t.key or t.means for t in self.terms.values() if t.values is None)
        object.__setattr__(self, "missing", tuple(dict.fromkeys(absent)))

    def work(self, text: str) -> NDArray[np.float64]:
        """Work one side of the formula over all cases and spots.

        Parameters
        ----------
        text : str
            ``available`` or ``required`` or ``proof``.

        Returns
        -------
        ndarray
            (..., cases, spots) or what broadcasts to it, in SI units.
        """
        with np.errstate(divide="ignore", invalid="ignore", over="ignore"):
            values = {name: term.values for name, term in self.terms.items()}
            return np.asarray(eval(_compiled(text), _FUNCTIONS, values), dtype=float)  # noqa: S307 - own formulas

    def needs(self, text: str) -> bool:
        """Whether a side of the formula lacks a value.

        Parameters
        ----------
        text : str
            ``available`` or ``required``.

        Returns
        -------
        bool
            True where at least one of its letters is not given.
        """
        names = _compiled(text).co_names
        return any(name in self.terms and self.terms[name].values is None for name in names)

    def margins(self) -> NDArray[np.float64] | None:
        """Work the margin over all cases and spots.

        Returns
        -------
        ndarray or None
            (..., cases, spots) [-]; infinite where nothing is required; None where a value is not given.

        Raises
        ------
        SurfaceError
            Where the result is no number although something is required.
        """
        if self.needs(self.available) or self.needs(self.required):
            return None
        required = self.work(self.required)
        with np.errstate(divide="ignore", invalid="ignore"):
            ratio = self.work("lam") if self.proof else self.work(self.available) / required
        margin = np.asarray(ratio - 1.0)
        margin = np.where(required == 0.0, np.inf, margin)
        if np.isnan(margin).any():
            message = f"{self.place}, {self.gives}: the working {self.available} / ({self.required}) gives no number"
            raise SurfaceError(message)
        shape = np.broadcast_shapes(margin.shape, (len(self.cases), len(self.spots)))
        return np.broadcast_to(margin, shape)


@lru_cache(maxsize=512)
def _compiled(text: str) -> CodeType:
    return compile(text, "<check>", "eval")


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
        One of the words of :class:`Outcome`.
    case : str
        Load case that decides.
    required : float or None
        What it must be good for, factors in [as the formula's unit].
    missing : tuple of str
        Keys that hide the margin.
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
        if values is None:
            return None
        shape = np.broadcast_shapes(np.shape(values), (len(self.check.cases), len(self.check.spots)))
        return float(np.broadcast_to(np.asarray(values, dtype=float), shape)[self.index])

    def symbols(self, *texts: str) -> tuple[Symbol, ...]:
        """List the letters of the given formulas with their values at the spot that decides."""
        wanted = {name for text in texts if text for name in _compiled(text).co_names}
        chosen = []
        for name, term in self.check.terms.items():
            value = self.value(name) if name in wanted else None
            if value is not None:
                chosen.append(Symbol(name, value, term.quantity, term.means, term.source))
        return tuple(chosen)

    @property
    def working(self) -> Working | None:
        """The whole working of the margin, or of what must be carried where no strength is given."""
        check = self.check
        if self.required is None:
            return None
        if self.margin is None:
            return Working("", check.required, self.symbols(check.required), self.required, "must carry",
                           check.terms[check.effect].quantity, check.source)  # fmt: skip
        if check.proof:
            proof = Working("at this multiple of the load it is just used up", check.proof, self.symbols(check.proof),
                            1.0, "used", "", check.source)  # fmt: skip
            return Working("", "lam - 1", self.symbols("lam"), self.margin, "margin", "", check.source, (proof,))
        formula = f"{check.available} / ({check.required}) - 1"
        return Working("", formula, self.symbols(check.available, check.required), self.margin, "margin", "",
                       check.source)  # fmt: skip


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
    size = (len(check.cases), len(check.spots))
    margins = check.margins()
    required = None if check.needs(check.required) else np.broadcast_to(check.work(check.required), size)
    if margins is not None:
        flat = int(np.argmin(margins))
    elif required is not None:
        flat = int(np.argmax(required))
    else:
        flat = 0
    case, spot = divmod(flat, size[1])
    margin = None if margins is None else float(margins[case, spot])
    outside = bool(np.broadcast_to(check.outside, size)[case, spot])
    if outside:
        outcome = Outcome.OUTSIDE
    elif margin is None:
        outcome = Outcome.NOT_GIVEN
    else:
        outcome = Outcome.CARRIES if margin >= 0.0 else Outcome.LESS
    available = None
    if not check.needs(check.available):
        available = float(np.broadcast_to(check.work(check.available), size)[case, spot])
    name = check.spots[spot]
    slug = name.replace(" ", "-")
    return Finding(
        check=check,
        place=f"{check.place}.{slug}" if name else check.place,
        part=f"{check.part}, {name}" if name else check.part,
        margin=margin,
        outcome=outcome,
        case=check.spot_cases[spot] if check.spot_cases else check.cases[case],
        spot=name,
        required=None if required is None else float(required[case, spot]),
        available=available,
        missing=check.missing,
        index=(case, spot),
    )
