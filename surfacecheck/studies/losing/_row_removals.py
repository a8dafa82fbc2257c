"""Single rivets and pairs taken out of one line of a row: one array over all removals and all rivets."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from surfacecheck.checks import front
from surfacecheck.studies.losing._row_joint import row_margins

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from surfacecheck.studies.losing._row_lines import RowLine
    from surfacecheck.studies.losing._row_springs import RowSprings

    Array = NDArray[np.float64]

__all__ = ["FELT", "LineRemovals", "removals_of"]

FELT = 1.1
"""Growth of a load from which a rivet counts as a neighbour [-]; our own choice."""


@dataclass(frozen=True, eq=False)
class LineRemovals:
    """What is left of a line, removal by removal.

    Attributes
    ----------
    out : ndarray of int, shape (N, 2)
        Numbers of the rivets taken out; 0 in the second where it is one.
    holds : ndarray of bool, shape (N,)
        Whether any rivet is left [-].
    least, most, bound : ndarray, shape (N,)
        Largest growth of a load by the spring model, least and most of the formulas, and with every gap halved [-].
    load, margin : ndarray, shape (N,)
        Of the rivets that get more: largest shear [N]; lowest margin, infinite where none is known [-].
    at : ndarray of int, shape (N,)
        Number of the rivet with that margin, or that load.
    gives : tuple of str
        What gives at that margin.
    asks : ndarray, shape (N,), or None
        What a rivet of unknown shear strength must be good for [N].
    drawn, drawn_asks
        The lowest margin [-] and that demand [N] with all of them in.
    """

    out: NDArray[np.intp]
    holds: NDArray[np.bool_]
    least: Array
    most: Array
    bound: Array
    load: Array
    margin: Array
    at: NDArray[np.intp]
    gives: tuple[str, ...]
    asks: Array | None
    drawn: float
    drawn_asks: float | None


def removals_of(line: RowLine, springs: RowSprings | None) -> LineRemovals:
    """Take every rivet of a line out, and every pair.

    Parameters
    ----------
    line : RowLine
        The line.
    springs : RowSprings or None
        Of the row; None leaves the spring model out.

    Returns
    -------
    LineRemovals
        Single ones first, then pairs.
    """
    out = _every(line.rivets)
    there = _there(line, out)
    holds = there.max(axis=-1) > 0
    safe = np.where(holds[:, None], there, line.abreast)  # what leaves nothing is told apart by `holds`
    bound = line.bound(safe)
    ways = [bound] if springs is None else [line.spring(safe, C, springs) for C in springs.C]
    largest = np.array([way.max(axis=-1) for way in ways])
    most = np.max([bound, *ways], axis=0)
    removal, place = np.nonzero(most > FELT)
    gaps = _gaps_beside(safe)[:, removal, place]
    found = _worst(line, removal, place, gaps, most[removal, place], safe[removal, place], holds.size)
    whole = np.arange(line.count)
    beside, none = np.full(line.count, line.abreast), np.zeros((2, line.count), dtype=np.intp)
    drawn = _worst(line, 0 * whole, whole, none, np.ones(line.count), beside, 1)
    return LineRemovals(
        out=out + 1,
        holds=holds,
        least=largest.min(axis=0),
        most=largest.max(axis=0),
        bound=bound.max(axis=-1),
        load=found.load,
        margin=found.margin,
        at=_numbers(line, out, found.at),
        gives=found.gives,
        asks=found.asks,
        drawn=float(drawn.margin[0]),
        drawn_asks=None if drawn.asks is None else float(drawn.asks[0]),
    )


def _every(rivets: int) -> NDArray[np.intp]:
    """Give singles, then pairs, counted from 0 along the line; -1 in the second of a single, (N, 2)."""
    alone = np.column_stack([np.arange(rivets), np.full(rivets, -1)])
    return np.concatenate([alone, np.column_stack(np.triu_indices(rivets, 1))])


def _there(line: RowLine, out: NDArray[np.intp]) -> NDArray[np.intp]:
    """Count the rivets left at every place, (N, R)."""
    at = np.arange(out.shape[0])
    there = np.full((at.size, line.count), line.abreast)
    for column in out.T:
        gone = column >= 0
        np.subtract.at(there, (at[gone], column[gone] % line.count), 1)
    return there


def _gaps_beside(there: NDArray[np.intp]) -> NDArray[np.intp]:
    """Count the empty places next to each place, towards the first rivet and towards the last, (2, N, R)."""

    def before(left: NDArray[np.bool_]) -> NDArray[np.intp]:
        place = np.arange(left.shape[-1])
        last = np.maximum.accumulate(np.where(left, place, -1), axis=-1)
        last = np.concatenate([np.full((*left.shape[:-1], 1), -1), last[..., :-1]], axis=-1)
        return np.asarray(place - last - 1)

    left = there > 0
    return np.stack([before(left), before(left[..., ::-1])[..., ::-1]])


class _Found(NamedTuple):
    load: Array
    margin: Array
    at: NDArray[np.intp]
    gives: tuple[str, ...]
    asks: Array | None


def _worst(
    line: RowLine,
    removal: NDArray[np.intp],
    place: NDArray[np.intp],
    gaps: NDArray[np.intp],
    growth: Array,
    beside: NDArray[np.intp],
    removals: int,
) -> _Found:
    """Find of every removal the rivet that is worst off, of those given as (removal, place)."""
    kinds, kind = np.unique(gaps, axis=1, return_inverse=True)
    kind = kind.reshape(-1)
    wide = {name: _widened(values, kinds) for name, values in _loads(line).items()}
    cases = _front_cases(line, wide)[kind, place]  # (K, F)
    spots = np.repeat(np.arange(place.size), cases.shape[1])
    c, i, g = cases.ravel(), place[spots], growth[spots]
    of = {name: values[kind[spots], c, i] * g for name, values in wide.items()}
    layers = {name: of[name] for name in line.layers}
    every = row_margins(line, i, c, of["shear"], of["pull"], layers, beside[spots])
    first = _first_of_each(removal[spots], every.margin, -of["shear"])
    touched = removal[spots][first]
    load, margin, at = np.zeros(removals), np.full(removals, np.inf), np.zeros(removals, dtype=np.intp)
    np.maximum.at(load, removal[spots], of["shear"])
    margin[touched], at[touched] = every.margin[first], i[first]
    gives = [""] * removals
    for n, spot in zip(touched.tolist(), first.tolist(), strict=True):
        gives[n] = every.gives(spot)
    shear = next((values for key, values in every.asks.items() if key.endswith("shear")), None)
    asks = None
    if shear is not None:
        asks = np.zeros(removals)
        np.maximum.at(asks, removal[spots], shear)
    return _Found(load, margin, at, tuple(gives), asks)


def _loads(line: RowLine) -> dict[str, Array]:
    return {"shear": line.shear, "pull": line.pull, **line.layers}


def _widened(values: Array, kinds: NDArray[np.intp]) -> Array:
    """Give the largest load over each kind of gap and on to the rivet at its far end, (kinds, C, R)."""
    rivets = np.arange(values.shape[-1])
    out = []
    for before, after in kinds.T:
        reach = range(-(before + 1 if before else 0), (after + 1 if after else 0) + 1)
        out.append(np.max([values[:, np.clip(rivets + step, 0, rivets.size - 1)] for step in reach], axis=0))
    return np.stack(out)


def _front_cases(line: RowLine, wide: dict[str, Array]) -> NDArray[np.intp]:
    """Keep of the cases at each kind and place those that can be the worst, (kinds, R, F); the first fills up."""
    unlike = list({id(values): values for values in wide.values()}.values())
    kinds, _, rivets = unlike[0].shape
    wrinkle = [] if line.wrinkle is None else [line.wrinkle]
    found = [
        [front(*(values[k, :, i] for values in unlike), *(one[:, i] for one in wrinkle)) for i in range(rivets)]
        for k in range(kinds)
    ]
    most = max(one.size for row in found for one in row)
    return np.array([[np.resize(one, most) for one in row] for row in found])


def _first_of_each(group: NDArray[np.intp], *keys: Array) -> NDArray[np.intp]:
    """Give of every group the index of its least member, by the first key, then the second."""
    order = np.lexsort((*keys[::-1], group))
    return order[np.unique(group[order], return_index=True)[1]]


def _numbers(line: RowLine, out: NDArray[np.intp], at: NDArray[np.intp]) -> NDArray[np.intp]:
    """Give the number of the rivet at a place, of several abreast the first that is left."""
    number = np.full(at.size, -1)
    for abreast in reversed(range(line.abreast)):
        here = at + abreast * line.count
        number = np.where((out == here[:, None]).any(axis=-1), number, here)
    return np.asarray(1 + number)
