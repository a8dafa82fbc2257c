"""Variants that cannot exist, each with the reason: what a file is refused for, asked of a whole stack at once."""

from __future__ import annotations

from itertools import pairwise
from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from surfacecheck.provenance import Value, numbers
from surfacecheck.quantities import show
from surfacecheck.reading import edges_and_holes
from surfacecheck.statics import LEAST_GAP

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from numpy.typing import NDArray

    from surfacecheck.model import Spec, Surface
    from surfacecheck.studies.sweeping._numbers import NumberPlace

    Array = NDArray[np.float64]

__all__ = ["impossible"]

FAR = 10.0
"""Times outside the usual range from which a file is refused, and a variant with it."""
_SLACK = 1e-6
_MORE = 1e-9
"""Least by which one place lies beyond another [m]."""


class _Order(NamedTuple):
    """Two lengths of which the second must exceed the first by so much."""

    low: Value
    high: Value
    by: float
    says: str


def impossible(surface: Surface, given: Mapping[str, Array], places: Mapping[str, NumberPlace]) -> dict[int, str]:
    """Find the variants that cannot exist.

    Parameters
    ----------
    surface : Surface
        With stacks for numbers.
    given : mapping of str to ndarray, shape (V,)
        What was varied, by key [SI].
    places : mapping of str to NumberPlace
        Of the surface without stacks.

    Returns
    -------
    dict of int to str
        The reason for each variant that cannot; the first where there are several.
    """
    found: dict[int, str] = {}
    for key, values in given.items():
        for v in np.flatnonzero(_far(values, places[key].spec)).tolist():
            found.setdefault(v, _range_words(key, float(values[v]), places[key].spec))
    for one in _orders(surface):
        apart = np.asarray(numbers(one.high) - numbers(one.low))
        for v in np.flatnonzero(~(apart >= one.by)).tolist() if apart.ndim else ():
            if v not in found:
                found[v] = one.says.format(high=_shown(one.high, v), low=_shown(one.low, v))
    return found


def _far(values: Array, spec: Spec | None) -> NDArray[np.bool_]:
    """Tell which values no file may hold: no numbers, and those ten times outside the usual range."""
    wrong = ~np.isfinite(values)
    if spec is None or spec.low is None or spec.high is None:
        return np.asarray(wrong)
    least = spec.low / FAR if spec.low > 0.0 else -np.inf if spec.toward else 0.0
    return np.asarray(wrong | (values < least) | (np.abs(values) > FAR * max(abs(spec.low), abs(spec.high))))


def _range_words(key: str, value: float, spec: Spec | None) -> str:
    if not np.isfinite(value):
        return f"{key} is no number"
    quantity = spec.quantity if spec is not None else ""
    text = _number(value, quantity)
    if spec is None or spec.low is None or spec.high is None:
        return f"{key} is {text}"
    return f"{key} is {text}; usual is {_number(spec.low, quantity)} to {_number(spec.high, quantity)}"


def _number(si: float, quantity: str) -> str:
    return f"{si:g}" if quantity in {"", "number"} else show(si, quantity)


def _shown(value: Value, variant: int) -> str:
    si = numbers(value)
    return show(float(si[variant] if si.ndim else si), "length")


def _orders(surface: Surface) -> Iterator[_Order]:
    """Give every pair of known lengths of which one must exceed the other."""
    for one in (*_along(surface), *_inside(surface), *_holes(surface)):
        if one.low.known and one.high.known:
            yield one


def _along(surface: Surface) -> Iterator[_Order]:
    """Places that follow each other along the pins, and the trailing edge behind the web."""
    places = surface.outline.places
    for below, above in pairwise([p.up for p in places]):
        yield _Order(below, above, _MORE, f"{above.key}: {{high}} is not beyond the place before, {{low}}")
    for place in places:
        yield _Order(place.web_behind, place.edge_behind, _MORE,
                     f"{place.edge_behind.key}: {{high}} is not behind the web, {{low}}")  # fmt: skip
    hinges = [(name, hinge.up) for name, hinge in surface.hinges.items() if hinge.up.known]
    for (lower, low), (upper, high) in pairwise(hinges):
        yield _Order(low, high, LEAST_GAP, f"hinge.{upper} at {{high}} is not beyond hinge.{lower} at {{low}}")
    for before, after in pairwise([up for up in surface.sheet.ribs.up if up.known]):
        yield _Order(before, after, _MORE, f"{after.key}: {{high}} is not beyond the rib before, {{low}}")
    for name, row in surface.rows.items():
        yield _Order(row.start, row.to, _MORE, f'row.{name}: "to" ({{high}}) is not beyond "from" ({{low}})')
    for name, doubler in surface.sheet.doublers.items():
        yield _Order(doubler.start, doubler.to, _MORE, f'sheet.{name}: "to" ({{high}}) is not beyond "from" ({{low}})')


def _inside(surface: Surface) -> Iterator[_Order]:
    """Give what must lie between root and tip."""
    ups = [p.up for p in surface.outline.places]
    if len(ups) < 2:
        return
    sheet = surface.sheet
    between = [h.up for h in surface.hinges.values()] + [*sheet.ribs.up]
    between += [end for doubler in sheet.doublers.values() for end in (doubler.start, doubler.to)]
    for up in between:
        yield _Order(ups[0], up, -_SLACK, f"{up.key} is {{high}}, the surface begins at {{low}}")
        yield _Order(up, ups[-1], -_SLACK, f"{up.key} is {{low}}, the surface ends at {{high}}")


def _holes(surface: Surface) -> Iterator[_Order]:
    """Each distance from a hole's centre to an edge, against half the hole."""
    for edge, hole, what in edges_and_holes(surface):
        if hole.known:
            half = Value(0.5 * numbers(hole))
            yield _Order(half, edge, 0.0, f"{edge.key}: {what} {{high}} is under half its hole, {{low}}")
