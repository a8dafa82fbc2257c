"""What the shear of a joint uses up, on flat sheet or on sheet that wrinkles more and more as the load grows."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from surfacecheck.checks._check import Term, work
from surfacecheck.checks._wrinkling import TN_3781
from surfacecheck.strength import (
    DIAGONAL_TENSION_SOURCE,
    diagonal_tension_factor,
    row_factor,
    wrinkled_row_margin,
)

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from numpy.typing import NDArray

    from surfacecheck.checks._check import Check
    from surfacecheck.checks._item import Item
    from surfacecheck.checks._layers import Joint
    from surfacecheck.provenance import Source
    from surfacecheck.strength import Factors

    Array = NDArray[np.float64]

__all__ = ["Draft", "Shearing", "Wrinkled", "factor_of", "finished", "wrinkling"]

WRINKLE = "shear at limit over shear at which the sheet wrinkles"


class Wrinkled(NamedTuple):
    """What is needed to find the multiple of the load that uses up a joint whose sheet wrinkles.

    Attributes
    ----------
    proof : str
        Formula that gives 1 at that multiple ``lam``.
    sheared, pulled : ndarray, shape (..., cases, spots)
        Shear and pull at limit over their strengths, flat sheet [-].
    factor : float
        From limit load to the state that is checked [-].
    """

    proof: str
    sheared: Array
    pulled: Array
    factor: float


class Draft(NamedTuple):
    """A check before its load multiplier is found; the letters are those of :meth:`Item.check`."""

    mode: str
    gives: str
    available: str
    required: str
    terms: dict[str, Term]
    effect: str
    source: Source
    outside: NDArray[np.bool_] | bool = False
    notes: tuple[str, ...] = ()
    wrinkled: Wrinkled | None = None
    steps: tuple[tuple[str, str], ...] = ()
    there: NDArray[np.bool_] | None = None


def factor_of(factors: Factors, at_yield: bool = False) -> tuple[str, float, Term]:
    """Give the letter, the value and the term of the factor from limit load.

    Parameters
    ----------
    factors : Factors
        Of the joint.
    at_yield : bool
        To yield, not to ultimate [-].

    Returns
    -------
    tuple of (str, float, Term)
        ``FS`` or ``FY``, its value [-], its term.
    """
    if at_yield:
        value = factors.yield_ or 1.0
        return "FY", value, Term(value, "", "from limit load to yield", factors.source)
    return "FS", factors.ultimate, Term(factors.ultimate, "", "from limit load to what it must carry", factors.source)


def wrinkling(joint: Joint) -> tuple[str, dict[str, Term]]:
    """Write how far the sheet of a joint wrinkles at limit load: as two flows where they are known, else as a ratio.

    Parameters
    ----------
    joint : Joint
        Of a sheet that wrinkles.

    Returns
    -------
    tuple of (str, dict of str to Term)
        ``q / q_cr`` with both flows [N/m], or ``r`` [-].
    """
    ratio, critical = joint.wrinkle, joint.wrinkles_at
    if ratio is None or critical is None:
        return "r", {"r": Term(ratio, "", WRINKLE)}
    flows = {"q": Term(ratio * critical, "line_load", "shear flow of the sheet that wrinkles, at limit")}
    return "q / q_cr", flows | {"q_cr": Term(critical, "line_load", "shear flow at which it wrinkles", TN_3781)}


class Shearing:
    """Drafts checks of what the shear of one joint uses up."""

    def __init__(self, joint: Joint, factors: Factors) -> None:
        self.joint, self.factors = joint, factors
        self._wrinkled: dict[str, dict[str, Term]] = {}

    def _letters(self, name: str, factor: float) -> dict[str, Term]:
        """Give the letters of a wrinkled sheet at that factor; they are the same for every way the joint gives."""
        ratio = self.joint.wrinkle
        if ratio is not None and name not in self._wrinkled:
            w = row_factor(diagonal_tension_factor(factor * ratio, 1.0))
            means = "1 + 0.414 k, k at that load, of the wrinkled sheet"
            self._wrinkled[name] = {"w": Term(w, "", means, DIAGONAL_TENSION_SOURCE), **wrinkling(self.joint)[1]}
        return self._wrinkled.get(name, {})

    def draft(
        self,
        mode: str,
        gives: str,
        available: str,
        terms: dict[str, Term],
        source: Source,
        *,
        load: Array,
        what: str,
        at_yield: bool = False,
        outside: NDArray[np.bool_] | bool = False,
        notes: tuple[str, ...] = (),
    ) -> Draft:
        """Draft a check of something that the row's shear uses up.

        Parameters
        ----------
        mode, gives, available : str
            As in :class:`Check`.
        terms : dict of str to Term
            Letters of what is available.
        source : Source
            Where the formula comes from.
        load : ndarray, shape (cases, spots)
            Shear at limit [N].
        what : str
            What that load is, in words.
        at_yield : bool
            Whether it is checked at yield [-].
        outside : ndarray of bool, or False
            Where the method does not hold [-].
        notes : tuple of str
            Assumptions.

        Returns
        -------
        Draft
            With what the multiplier needs, where the sheet wrinkles and nothing is missing.
        """
        name, factor, factor_term = factor_of(self.factors, at_yield)
        letters = {"S": Term(load, "force", what), name: factor_term, **terms, **self._letters(name, factor)}
        required = f"{name} * S * w" if "w" in letters else f"{name} * S"
        r, _ = wrinkling(self.joint)
        steps = (("w", f"1 + 0.414 * tanh(0.5 * log10(max(1, {name} * {r})))"),) if "w" in letters else ()
        wrinkled = None
        if "w" in letters and all(term.values is not None for term in terms.values()):
            with np.errstate(divide="ignore", invalid="ignore"):
                used = np.where(load > 0.0, load / work(available, letters), 0.0)
            proof = f"lam * {name} * S * (1 + 0.414 * tanh(0.5 * log10(max(1, lam * {name} * {r})))) / ({available})"
            wrinkled = Wrinkled(proof, used, 0.0 * used, factor)
        return Draft(mode, gives, available, required, letters, "S", source, outside, notes, wrinkled, steps)


def finished(item: Item, drafts: Iterable[Draft], ratio: Array | None) -> Iterator[Check]:
    """Turn drafts into checks; the multipliers of all of them are found together.

    Parameters
    ----------
    item : Item
        The joint.
    drafts : iterable of Draft
        Its checks.
    ratio : ndarray, shape (cases, spots), or None
        Shear at limit over shear at which the sheet wrinkles [-].

    Yields
    ------
    Check
        In the order of the drafts.
    """
    every = list(drafts)
    waiting = [draft.wrinkled for draft in every if draft.wrinkled is not None]
    multiples: Iterator[Array] = iter(())
    if waiting and ratio is not None:
        shape = np.broadcast_shapes(ratio.shape, *(side.shape for w in waiting for side in (w.sheared, w.pulled)))
        sheared, pulled = (np.empty((len(waiting), *shape)) for _ in range(2))
        for at, wrinkled in enumerate(waiting):
            sheared[at], pulled[at] = wrinkled.sheared, wrinkled.pulled
        factor = np.array([w.factor for w in waiting]).reshape(-1, *(1,) * (sheared.ndim - 1))
        multiples = iter(wrinkled_row_margin(sheared, pulled, ratio, factor) + 1.0)
    for one in every:
        terms, proof = one.terms, ""
        if one.wrinkled is not None:
            terms, proof = terms | {"lam": Term(next(multiples), "", "multiple of the load")}, one.wrinkled.proof
        yield item.check(
            one.mode,
            one.gives,
            one.available,
            one.required,
            terms,
            one.effect,
            one.source,
            proof=proof,
            outside=one.outside,
            notes=one.notes,
            steps=one.steps,
            there=one.there,
        )
