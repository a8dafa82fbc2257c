"""One strength check: the formula that is shown is the formula that is worked, over whole arrays.

A check is two texts, what is available and what is required, and a term for each letter in them. The same texts are
worked here over arrays of shape ``(..., cases, spots)`` and shown on the page with the numbers of the worst spot, so
that a shown working cannot differ from what was computed.
"""

from __future__ import annotations

import ast
from dataclasses import dataclass, field
from functools import lru_cache
from types import CodeType
from typing import TYPE_CHECKING, Any, NamedTuple

import numpy as np

from surfacecheck.errors import SurfaceError
from surfacecheck.provenance import Basis, Source, Value, over_spots

if TYPE_CHECKING:
    from collections.abc import Mapping

    from numpy.typing import NDArray

    from surfacecheck.checks._names import Names

__all__ = ["Check", "Term", "names_in", "quiet", "work"]

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
    "squared": lambda x: x * x,
    "cubed": lambda x: x * x * x,
}

WORKED_OUT = Source(Basis.WORKED_OUT)


def quiet() -> np.errstate:
    """Let a division by nothing give infinity: what nothing is asked of has an infinite margin."""
    return np.errstate(divide="ignore", invalid="ignore", over="ignore")


class Term(NamedTuple):
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
        given = value.si if value.si is None or isinstance(value.si, float) else over_spots(value)
        return cls(given, quantity, means, value.source, value.key)


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
        Names along the last two axes; in a stack of variants the spots may go by other names in each.
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
    steps : tuple of (str, str)
        Letters that were themselves worked out, each with its formula in other letters.
    there : ndarray of bool, shape (V,), or None
        Variants of a stack that have this check alone too; None where all have.
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
    spots: Names
    source: Source
    proof: str = ""
    kind: str = "margin"
    outside: NDArray[np.bool_] | bool = False
    factors: str = ""
    notes: tuple[str, ...] = ()
    subject: str = ""
    spot_cases: Names = ()
    steps: tuple[tuple[str, str], ...] = ()
    there: NDArray[np.bool_] | None = None
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
        return work(text, self.terms)

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
        names = names_in(text)
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
        with quiet():
            available, required = self.sides()
            if available is None or required is None:
                return None
            margin = self.margins_of(available, required)
        if np.isnan(margin).any():
            raise self.no_number()
        shape = np.broadcast_shapes(margin.shape, (len(self.cases), len(self.spots)))
        return np.broadcast_to(margin, shape)

    def sides(self) -> tuple[NDArray[np.float64] | None, NDArray[np.float64] | None]:
        """Work both sides of the formula, within :func:`quiet`.

        Returns
        -------
        available, required : ndarray or None
            What broadcasts to (..., cases, spots), in SI units; None where a value is not given.
        """
        values = {name: term.values for name, term in self.terms.items()}
        return (
            None if self.missing and self.needs(self.available) else _worked(self.available, values),
            None if self.missing and self.needs(self.required) else _worked(self.required, values),
        )

    def margins_of(self, available: NDArray[np.float64], required: NDArray[np.float64]) -> NDArray[np.float64]:
        """Turn both sides into margins, within :func:`quiet`; not a number where they have no ratio.

        Parameters
        ----------
        available, required : ndarray
            From :meth:`sides`.

        Returns
        -------
        ndarray
            What broadcasts to (..., cases, spots) [-].
        """
        if self.proof:
            return np.where(required == 0.0, np.inf, np.asarray(self.terms["lam"].values) - 1.0)
        return np.where(required == 0.0, np.inf, available / required - 1.0)

    def no_number(self) -> SurfaceError:
        """Say that the working gives no number."""
        message = f"{self.place}, {self.gives}: the working {self.available} / ({self.required}) gives no number"
        return SurfaceError(message)


def work(text: str, terms: Mapping[str, Term]) -> NDArray[np.float64]:
    """Work a formula over arrays.

    Parameters
    ----------
    text : str
        Formula.
    terms : mapping of str to Term
        Its letters.

    Returns
    -------
    ndarray
        What the values broadcast to, in SI units.
    """
    with quiet():
        return _worked(text, {name: term.values for name, term in terms.items()})


def _worked(text: str, values: Mapping[str, float | NDArray[np.float64] | None]) -> NDArray[np.float64]:
    return np.asarray(eval(_ready(text), _FUNCTIONS, values), dtype=float)  # noqa: S307 - own formulas


@lru_cache(maxsize=512)
def names_in(text: str) -> tuple[str, ...]:
    """List the letters of a formula.

    Examples
    --------
    >>> names_in("F_bru * D * t / (FS * P) - 1")
    ('F_bru', 'D', 't', 'FS', 'P')
    """
    return compile(text, "<check>", "eval").co_names


class _PowersByHand(ast.NodeTransformer):
    """Write whole powers as products: a power of one number and of many may differ in the last bit."""

    def visit_BinOp(self, node: ast.BinOp) -> ast.AST:
        """Turn ``x**3`` into ``cubed(x)``."""
        self.generic_visit(node)
        by = node.right.value if isinstance(node.op, ast.Pow) and isinstance(node.right, ast.Constant) else None
        name = {2: "squared", 3: "cubed"}.get(by) if isinstance(by, int) else None
        return node if name is None else ast.Call(ast.Name(name, ast.Load()), [node.left], [])


@lru_cache(maxsize=512)
def _ready(text: str) -> CodeType:
    tree = _PowersByHand().visit(ast.parse(text, "<check>", "eval"))
    return compile(ast.fix_missing_locations(tree), "<check>", "eval")
