"""The worst of one check for one surface, with the working to show."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.working import Symbol, Working

if TYPE_CHECKING:
    pass
from surfacecheck.checks._check import Check, names_in

__all__ = ["Finding", "Outcome", "find"]


class Outcome:
    """The words of outcome of a margin, and no others."""

    CARRIES = "carries what is required, for what was looked at"
    LESS = "less than required"
    OUTSIDE = "outside the method: ask"
    DEPENDS = "depends"
    NOT_GIVEN = "not given"
    NOT_LOOKED_AT = "not looked at"


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
        wanted = {name for text in texts if text for name in names_in(text)}
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
            return Working(
                "",
                check.required,
                self.symbols(check.required),
                self.required,
                "must carry",
                check.terms[check.effect].quantity,
                check.source,
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
        return Working(
            "", formula, self.symbols(check.available, check.required), self.margin, "margin", "", check.source
        )


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
