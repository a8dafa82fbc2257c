"""What is checked: a part with its words, its cases and spots, and the line of factors all its checks share."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from surfacecheck.checks._check import Check

if TYPE_CHECKING:
    from collections.abc import Mapping

    import numpy as np
    from numpy.typing import NDArray

    from surfacecheck.checks._check import Term
    from surfacecheck.checks._names import Names
    from surfacecheck.provenance import Source

__all__ = ["Item"]


@dataclass(frozen=True, eq=False)
class Item:
    """A part that is checked in several ways.

    Attributes
    ----------
    place, part : str
        Path and words, as in :class:`Check`.
    cases, spots : tuple of str
        Names along the axes of every term.
    spot_cases : tuple of str
        Case of each spot, where the cases were reduced before.
    factors : str
        The line of factors, in words.
    subject : str
        What carries the effect, for the sentence.
    notes : tuple of str
        Assumptions that go with every number of the part.
    """

    place: str
    part: str
    cases: tuple[str, ...]
    spots: Names
    spot_cases: Names = ()
    factors: str = ""
    subject: str = ""
    notes: tuple[str, ...] = ()

    def check(
        self,
        mode: str,
        gives: str,
        available: str,
        required: str,
        terms: Mapping[str, Term],
        effect: str,
        source: Source,
        *,
        proof: str = "",
        kind: str = "margin",
        outside: NDArray[np.bool_] | bool = False,
        notes: tuple[str, ...] = (),
        steps: tuple[tuple[str, str], ...] = (),
        there: NDArray[np.bool_] | None = None,
    ) -> Check:
        """Make one check of this part.

        Parameters
        ----------
        mode, gives, available, required, effect, proof, kind : str
            As in :class:`Check`.
        terms : mapping of str to Term
            A term for every letter.
        source : Source
            Where the formula comes from.
        outside : ndarray of bool, or False
            Where the method does not hold [-].
        notes : tuple of str
            Assumptions of this check alone.
        steps : tuple of (str, str)
            As in :class:`Check`.
        there : ndarray of bool, shape (V,), or None
            As in :class:`Check`.

        Returns
        -------
        Check
            With the names and notes of the part.
        """
        return Check(
            place=self.place,
            mode=mode,
            part=self.part,
            gives=gives,
            available=available,
            required=required,
            terms=terms,
            effect=effect,
            cases=self.cases,
            spots=self.spots,
            source=source,
            proof=proof,
            kind=kind,
            outside=outside,
            factors=self.factors,
            notes=(*self.notes, *notes) if notes else self.notes,
            subject=self.subject,
            spot_cases=self.spot_cases,
            steps=steps,
            there=there,
        )
