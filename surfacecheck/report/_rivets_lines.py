"""Which choices of a comparison of rivets are drawn, and their margins at many pitches."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.report._style import DASHES
from surfacecheck.studies import choice_words, margins_at, on_ribs, rivets

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from surfacecheck.quantities import System
    from surfacecheck.studies import RivetComparison

    Array = NDArray[np.float64]

__all__ = ["ChoiceLine", "choice_line", "choices_drawn", "span_of", "x_of"]

_POINTS = 90


@dataclass(frozen=True)
class ChoiceLine:
    """One choice: what it has, its margins against pitch, and the alternatives that lie on it."""

    words: str
    at: Array
    margin: Array
    known: bool


def choices_drawn(comparison: RivetComparison, there: NDArray[np.intp]) -> tuple[list[int], int]:
    """Choose as many as there are line styles: those with most that nothing beats first."""
    choice = comparison.choice
    every, at = np.unique(choice[there], return_inverse=True)
    best = np.bincount(at, weights=comparison.best[there].astype(float), minlength=every.size)
    order = np.argsort(-best, kind="stable")[: len(DASHES)]
    return sorted(every[order].tolist()), int(max(every.size - len(DASHES), 0))


def x_of(comparison: RivetComparison, at: NDArray[np.intp], by_count: bool) -> Array:
    """Give the real pitch where the margin is the lowest [m], or the number of rivets of the first row."""
    if by_count:
        return comparison.rows[0].count[at].astype(float)
    every = np.stack([table.ruling[at] for table in comparison.rows])
    return np.asarray(every[comparison.whole.row[at], np.arange(len(at))])


def choice_line(
    comparison: RivetComparison, choice: int, span: tuple[float, float], by_count: bool, system: System
) -> ChoiceLine:
    """Work the margin of one choice at many pitches; of holes that are there only at theirs."""
    words = choice_words(comparison, choice, system, "space") or "as drawn"
    fine, first = comparison, choice
    no_pitch = any(not np.isnan(table.zero_count).all() for table in comparison.rows)
    if not (by_count or no_pitch or comparison.drilled):
        if on_ribs(comparison):
            return _on_ribs(comparison, choice, span, words)
        fine, first = _finely(comparison, choice, span)
    same = np.flatnonzero(fine.choice == first)
    same = same[~np.isnan(fine.whole.margin[same])]
    x, order = np.unique(x_of(fine, same, by_count), return_index=True)
    known = bool(fine.whole.known[same].min() == 2 * len(fine.rows))
    return ChoiceLine(words, x, fine.whole.margin[same][order], known)


def _on_ribs(comparison: RivetComparison, choice: int, span: tuple[float, float], words: str) -> ChoiceLine:
    """Draw rows on ribs as if every rib had just that pitch: the symbols stand at that of the rib that decides."""
    same = np.flatnonzero(comparison.choice == choice)
    same = same[~np.isnan(comparison.whole.margin[same])]
    pitch = np.unique(np.concatenate([np.geomspace(*span, _POINTS), x_of(comparison, same, False)]))
    margin = margins_at(comparison, int(same[0]), pitch)
    return ChoiceLine(words, pitch, margin, bool(comparison.whole.known[same].min() == 2 * len(comparison.rows)))


def _finely(comparison: RivetComparison, choice: int, span: tuple[float, float]) -> tuple[RivetComparison, int]:
    """Compare one choice again, at many pitches."""
    given, at = comparison.alternatives, comparison.index(choice)
    pitch = np.geomspace(*span, _POINTS)
    sizes = len(given.diameter or ("",))
    one = replace(
        given,
        pitch=tuple(pitch),
        count=None,
        rivet=None if given.rivet is None else (given.rivet[at["rivet"] // sizes],),
        diameter=None if given.diameter is None else (given.diameter[at["rivet"] % sizes],),
        **{
            name: None if getattr(given, name) is None else (getattr(given, name)[at[name]],)
            for name in ("lines", "head", "edge", "sheet")
        },
    )
    base = comparison.sheets[at["sheet"]]
    names = [table.row.name for table in comparison.rows]
    found = rivets(base, names, replace(one, sheet=None))
    return found, 0


def span_of(
    comparison: RivetComparison, marks: NDArray[np.intp], rules: list[float], by_count: bool
) -> tuple[float, float]:
    """Give the ends of the axis: the alternatives, and the limits that are not far from them."""
    every = x_of(comparison, marks, by_count)
    near = [one for one in rules if 0.4 * every.min() <= one <= 1.5 * every.max()]
    low, high = min([float(every.min()), *near]), max([float(every.max()), *near])
    return (low - 0.5, high + 0.5) if by_count else (0.92 * low, 1.06 * high)
