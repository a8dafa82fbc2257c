"""One row with every alternative: tables of what each gives, takes and breaks."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from surfacecheck.model import Row
    from surfacecheck.studies.riveting._rivets_kinds import Kind
    from surfacecheck.studies.riveting._rivets_laid import Laid
    from surfacecheck.studies.riveting._rivets_work import Margins, Setting

    Array = NDArray[np.float64]

__all__ = ["Block", "RowTable"]


@dataclass(frozen=True, eq=False)
class Block:
    """One rivet with one head under one sheet: what its part of the tables was worked from.

    Attributes
    ----------
    kind : Kind
        Which rivet.
    setting : Setting or None
        The surface and row with it; None where it goes nowhere.
    margins : Margins or None
        The same.
    """

    kind: Kind
    setting: Setting | None = None
    margins: Margins | None = None


@dataclass(frozen=True, eq=False)
class RowTable:
    """Figures of one row for A alternatives, in the order of ``AXES``, the last varying fastest.

    Where it was stopped, for the first A of them.

    Attributes
    ----------
    row : Row
        As drawn.
    margin, then : ndarray, shape (A,)
        Lowest margin and the next of another way to give [-]; not a number where none is given, or it cannot be.
    gives, next_ : ndarray of int, shape (A,)
        Ways to give, as in ``modes``; -1 where there is none.
    outside : ndarray of bool, shape (A,)
        Whether the lowest lies outside its method, or a countersunk sheet, of which no method tells, may be lower.
    shear_known, pull_known : ndarray of bool, shape (A,)
        Whether these strengths of the rivet are given, where they are asked for.
    must_shear, must_pull : ndarray, shape (A,)
        What one rivet must be good for, factors in [N].
    lifts : ndarray, shape (A,)
        Times limit load at which the skin edge buckles between rivets [-]; not a number for other rows.
    pitch, closest : ndarray, shape (A,)
        Real pitch, on ribs the widest, and the least distance of two rivets [m].
    ruling : ndarray, shape (A,)
        Real pitch where the margin is the lowest: of that rib, for rows on the ribs [m].
    count, total, lines : ndarray of int, shape (A,)
        Rivets in a line (on a rib), in the row, and lines.
    mass, arm : ndarray, shape (A,)
        All rivets [kg], and their centre aft of the pins [m].
    not_met, not_covered : ndarray of int, shape (A,)
        Bits of ``RULES``.
    zero_pitch, zero_count, zero_gives : ndarray, shape (A,)
        As in :class:`Zero`, for the same rivet, head, lines, edge and sheet.
    layout, spot : ndarray of int, shape (A,)
        Which layout, and which of the kept cases and spots decides.
    why : ndarray of int, shape (A,)
        Which of ``reasons`` it cannot be for; 0 where it can.
    reasons : tuple of str
        The first is empty.
    modes : tuple of (str, str)
        Short name and words of every way to give.
    blocks : dict of (int, int, int) to Block
        By sheet, rivet and head.
    laid : Laid
        The layouts.
    kinds : tuple of Kind
        The rivets compared.
    layers : float
        Sheets a rivet goes through, on the mean of the row as drawn.
    """

    row: Row
    laid: Laid
    kinds: tuple[Kind, ...]
    blocks: dict[tuple[int, int, int], Block]
    modes: tuple[tuple[str, str], ...]
    reasons: tuple[str, ...]
    margin: Array
    then: Array
    gives: NDArray[np.intp]
    next_: NDArray[np.intp]
    outside: NDArray[np.bool_]
    shear_known: NDArray[np.bool_]
    pull_known: NDArray[np.bool_]
    must_shear: Array
    must_pull: Array
    lifts: Array
    pitch: Array
    ruling: Array
    closest: Array
    count: NDArray[np.intp]
    total: NDArray[np.intp]
    lines: NDArray[np.intp]
    mass: Array
    arm: Array
    not_met: NDArray[np.uint16]
    not_covered: NDArray[np.uint16]
    zero_pitch: Array
    zero_count: Array
    zero_gives: NDArray[np.intp]
    layout: NDArray[np.intp]
    spot: NDArray[np.intp]
    why: NDArray[np.intp]
    layers: float

    @property
    def possible(self) -> NDArray[np.bool_]:
        """Which alternatives can be, shape (A,)."""
        return np.asarray(self.why == 0)

    @property
    def holes(self) -> Array:
        """Holes, one in each sheet for each rivet, shape (A,)."""
        return np.asarray(self.total * self.layers)
