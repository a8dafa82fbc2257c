"""A row of unlike rivets: blind among solid ones, loose among snug ones. They share by stiffness, not by strength.

Every rivet is a spring that first slips by its slack; the sheets on both sides stretch. The flow is even along the row,
as large as it is at most beside the unlike rivets.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.checks import factors_of
from surfacecheck.errors import SurfaceError
from surfacecheck.library import rivet_strength
from surfacecheck.provenance import plain
from surfacecheck.statics import seam_pick_up, seam_row
from surfacecheck.studies.losing._gone_names import line_named, numbers_of
from surfacecheck.studies.losing._row_springs import springs_of

if TYPE_CHECKING:
    from collections.abc import Sequence

    from numpy.typing import NDArray

    from surfacecheck.assessment import Assessment
    from surfacecheck.model import Surface
    from surfacecheck.studies.losing._row_lines import RowLine

    Array = NDArray[np.float64]

__all__ = ["MIXED_FORMULAS", "MixedRow", "MixedShare", "mixed_row"]

MIXED_FORMULAS = ("huth", "swift")
"""The two formulas whose results stand side by side: the softer and the stiffer of those whose authors are known."""
BEYOND, FARTHEST = 1.25, 4.0
"""How far the curves go, over what the row must carry at ultimate or where the last rivet begins to carry, and at most
over ultimate [-]: sizes to look at."""


@dataclass(frozen=True, eq=False)
class MixedShare:
    """How the rivets share by one formula.

    Attributes
    ----------
    formula : str
        As in ``FLEXIBILITY_SOURCES``.
    k : ndarray, shape (R,)
        Stiffness of every rivet [N/m].
    pick_up : ndarray, shape (R,)
        Load a length of row at which it begins to carry [N/m]; 0 for one that carries from the start.
    flows : ndarray, shape (E,)
        Loads a length of row at which something changes, from 0; the limit and ultimate ones and a last among them
        [N/m]. Between them every load is a straight line.
    loads : ndarray, shape (E, R)
        Load of every rivet there [N].
    """

    formula: str
    k: Array
    pick_up: Array
    flows: Array
    loads: Array

    def at(self, flow: float) -> Array:
        """Give the load of every rivet at a load a length of row [N], shape (R,)."""
        return np.array([np.interp(flow, self.flows, one) for one in self.loads.T])


@dataclass(frozen=True, eq=False)
class MixedRow:
    """A row of unlike rivets.

    Attributes
    ----------
    assessment : Assessment
        As drawn.
    line : RowLine
        The row, or its rivets on one rib.
    unlike : tuple of int
        Numbers of the rivets that are not as the others.
    rivet, other : str
        Names of the two kinds, part D.
    slack : ndarray, shape (R,)
        Slip of every rivet before it carries [m].
    limit, ultimate : float
        What a length of row carries at limit, and must carry at ultimate, factors in [N/m].
    case : str
        Load case of that.
    strength : ndarray or None
        Shear strength of every rivet [N], shape (R,); None where one is not known.
    shares : tuple of MixedShare
        By each of two formulas.
    softer : float
        What the unlike ones are softer by, over the formula [-].
    """

    assessment: Assessment
    line: RowLine
    unlike: tuple[int, ...]
    rivet: str
    other: str
    slack: Array
    limit: float
    ultimate: float
    case: str
    strength: Array | None
    shares: tuple[MixedShare, ...]
    softer: float

    @property
    def even(self) -> float:
        """What each would carry at limit if all were alike [N]."""
        return self.limit * self.line.pitch

    def first_used_up(self, share: MixedShare) -> tuple[int, float] | None:
        """Find the rivet whose shear strength is used up first.

        Parameters
        ----------
        share : MixedShare
            By one formula.

        Returns
        -------
        tuple of (int, float) or None
            Its number, and the load a length of row [N/m]; None where a strength is not known, or none is reached.
        """
        if self.strength is None:
            return None
        found = []
        for i, (loads, most) in enumerate(zip(share.loads.T, self.strength, strict=True)):
            if loads[-1] >= most > 0.0:
                found.append((float(np.interp(most, loads, share.flows)), int(self.line.numbers[0, i])))
        return None if not found else (min(found)[1], min(found)[0])

    def __str__(self) -> str:
        """Write it for a terminal."""
        from surfacecheck.studies.losing._mixed_shown import mixed_text

        return mixed_text(self)

    def _repr_html_(self) -> str:
        from surfacecheck.studies.losing._mixed_shown import mixed_html

        return mixed_html(self)


def mixed_row(
    assessment: Assessment, row: str, at: Sequence[int], other: str = "", slack: float = 0.0, softer: float = 1.0
) -> MixedRow:
    """Put other rivets into a row at some places, or loose ones.

    Parameters
    ----------
    assessment : Assessment
        Of the surface as drawn.
    row : str
        Its name; of a row on the ribs with the rib, ``row.left_skin_to_ribs.rib-3``.
    at : sequence of int
        Numbers of the unlike rivets, from 1, as on the map.
    other : str
        Name of their kind, part D; empty for the same kind.
    slack : float
        Slip before they carry, along the row [m].
    softer : float
        What they are softer by, over the formulas [-]: none of these was made for hollow rivets.

    Returns
    -------
    MixedRow
        Loads, the order in which rivets begin to carry.

    Raises
    ------
    SurfaceError
        Where there is no such row, rivet or kind, the row stands in several lines, or sheets are not known.
    """
    line = line_named(assessment, row)
    load, place = line.load, line.place
    unlike = numbers_of(at, line.rivets, place)
    if line.abreast > 1:
        message = f"{place} stands in {line.abreast} lines side by side: only a single line can be mixed here"
        raise SurfaceError(message)
    _sensible(slack, softer)
    surface = assessment.surface
    here = np.isin(line.numbers[0], unlike)
    kind = _kind(surface, other) if other else load.row.rivet
    gaps = np.where(here, slack, 0.0)
    limit, case = _flow(line, here)
    rivet = surface.rivets[load.row.rivet]
    ultimate = limit * factors_of(surface, rivet).ultimate
    kinds = [load.row.rivet, kind]
    strength = _strengths(surface, kinds)
    shares = []
    for name in MIXED_FORMULAS:
        base, changed = (_flexibility(surface, line, one, name, place) for one in kinds)
        k = 1.0 / np.where(here, changed[0] * softer, base[0])
        shares.append(_shared(line, name, k, base[1:], gaps, limit, ultimate))
    return MixedRow(
        assessment, line, unlike, load.row.rivet, kind, gaps, limit, ultimate, case,
        None if strength is None else np.where(here, strength[1], strength[0]), tuple(shares), softer,
    )  # fmt: skip


def _sensible(slack: float, softer: float) -> None:
    if not 0.0 <= slack < 0.01:
        message = f"slack is {slack * 1e3:g} mm; a slip before a rivet carries is 0 to 10 mm: is the unit right?"
        raise SurfaceError(message)
    if not softer > 0.0:
        message = f"softer is {softer:g}; it must be above 0: 1 is as stiff as the formula says, 3 a third of it"
        raise SurfaceError(message)


def _kind(surface: Surface, other: str) -> str:
    if other not in surface.rivets:
        message = f'no rivet is called "{other}". In part D: {", ".join(surface.rivets) or "none"}'
        raise SurfaceError(message)
    return other


def _flow(line: RowLine, here: NDArray[np.bool_]) -> tuple[float, str]:
    """Largest load a length of row beside the unlike rivets, and its case."""
    near = np.convolve(here, np.ones(3), mode="same")[: here.size] > 0.0 if here.size > 2 else np.ones_like(here)
    largest = np.where(near, line.shear, 0.0).max(axis=-1)
    case = int(largest.argmax())
    return float(largest[case]) / line.pitch, line.load.cases[case]


def _flexibility(surface: Surface, line: RowLine, kind: str, formula: str, place: str) -> tuple[float, float, float]:
    """Flexibility of one rivet of a kind in this row, and what the sheets stretch."""
    springs = springs_of(surface, line.load, kind)
    if springs is None:
        message = f"{place}: how its rivets share is not known; give their diameter, and the sheets"
        raise SurfaceError(message)
    stiff = (np.inf, np.inf) if line.evenly else (springs.k_A, springs.k_B)
    return (springs.C[springs.formulas.index(formula)], *stiff)


def _strengths(surface: Surface, kinds: list[str]) -> tuple[float, float] | None:
    values = [rivet_strength(surface, surface.rivets[one])[0] for one in kinds]
    if not all(value.known for value in values):
        return None
    return plain(values[0]), plain(values[1])


def _shared(
    line: RowLine, formula: str, k: Array, strips: tuple[float, float], gaps: Array, limit: float, ultimate: float
) -> MixedShare:
    touched = seam_pick_up(k, *strips, line.pitch, gaps)
    last = touched[np.isfinite(touched)].max()
    most = BEYOND * float(np.clip(last, ultimate, FARTHEST * ultimate))
    events = touched[touched < most]
    flows = np.unique(np.concatenate([[0.0, limit, ultimate, most], events]))
    loads = seam_row(k, *strips, flows, line.pitch, clearance=gaps).loads
    return MixedShare(formula, k, touched, flows, loads)
