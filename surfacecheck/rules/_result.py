"""What a rule says: meets, does not meet, or not covered, with the figures and the field it was written for."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Literal

import numpy as np

from surfacecheck.errors import SurfaceError

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable

    from numpy.typing import ArrayLike, NDArray

    from surfacecheck.provenance import Source

__all__ = [
    "DOES_NOT_MEET",
    "MEETS",
    "NOT_COVERED",
    "Outcome",
    "RuleResult",
    "filled_in",
    "gathered",
    "length",
    "short_of",
]

Outcome = Literal["meets", "does not meet", "not covered"]
MEETS: Outcome = "meets"
DOES_NOT_MEET: Outcome = "does not meet"
NOT_COVERED: Outcome = "not covered"

SLACK = 1e-9
"""Metres (or share) by which a figure may miss a limit through rounding of inches and millimetres."""


def shown_metric(si: float, quantity: str) -> str:
    """Write a figure in millimetres, or bare."""
    return f"{si * 1e3:.2f} mm" if quantity == "length" else f"{si:.3g}"


@dataclass(frozen=True, slots=True)
class RuleResult:
    """One rule at one place.

    Attributes
    ----------
    name : str
        Of the rule, in a builder's words.
    outcome : str
        ``"meets"``, ``"does not meet"`` or ``"not covered"``.
    found : float
        What there is [SI, by ``quantity``].
    asked : float
        What the text asks [SI, by ``quantity``].
    quantity : str
        ``"length"``, or ``""`` for a bare number.
    field : str
        What the text was written for: ``"aircraft"``, ``"civil"``, ``"sealing"``, ``"training"``, ``"data sheet"``.
    source : Source
        The text.
    place : str
        Where on the surface.
    pattern : str
        The sentence with ``{found}``, ``{asked}`` and further lengths left open, for other units.
    counts : bool
        False for a text from another field or a rule of thumb: shown as a remark, never counted as not met.
    """

    name: str
    outcome: Outcome
    found: float
    asked: float
    quantity: str
    field: str
    source: Source
    place: str = ""
    pattern: str = ""
    counts: bool = True

    @property
    def sentence(self) -> str:
        """The finding, in millimetres."""
        return self.said(shown_metric)

    def said(self, show: Callable[[float, str], str]) -> str:
        """Give the sentence in other units.

        Parameters
        ----------
        show : callable
            From a figure [SI] and its quantity to a text.

        Returns
        -------
        str
            The sentence.
        """
        found, asked = (show(v, self.quantity) for v in (self.found, self.asked))
        text = self.pattern.replace("{found}", found).replace("{asked}", asked)
        return filled_in(text, show)


_OTHER = re.compile(r"\{length:([-+.e0-9]+)\}")


def length(si: float) -> str:
    """Leave a length open in a text, so that it too is written in the reader's units.

    Parameters
    ----------
    si : float
        [m].

    Returns
    -------
    str
        What :func:`filled_in` writes out.
    """
    return f"{{length:{float(si)!r}}}"


def filled_in(text: str, show: Callable[[float, str], str]) -> str:
    """Write out the lengths left open in a text.

    Parameters
    ----------
    text : str
        With lengths from :func:`length`.
    show : callable
        From a figure [SI] and its quantity to a text.

    Returns
    -------
    str
        The text.

    Examples
    --------
    >>> filled_in(f"a pitch of {length(0.0254)}", lambda si, quantity: f"{si / 0.0254:g} in")
    'a pitch of 1 in'
    """
    return _OTHER.sub(lambda match: show(float(match[1]), "length"), text)


def result(
    name: str,
    outcome: Outcome,
    found: float,
    asked: float,
    pattern: str,
    source: Source,
    *,
    field: str = "aircraft",
    place: str = "",
    quantity: str = "length",
    counts: bool = True,
) -> RuleResult:
    """Build a result from its figures and its open sentence."""
    if not (found == found and asked == asked):
        message = (
            f"{name}{' of ' + place if place else ''}: a figure is not a number; give both figures or leave it out"
        )
        raise SurfaceError(message)
    return RuleResult(name, outcome, found, asked, quantity, field, source, place, pattern, counts)


def judged(found: float, asked: float, *, most: bool = False) -> Outcome:
    """Compare with a least (or greatest) figure, forgiving the rounding of units."""
    return DOES_NOT_MEET if (found > asked + SLACK if most else found < asked - SLACK) else MEETS


def short_of(found: ArrayLike, asked: ArrayLike, *, most: bool = False) -> NDArray[np.bool_]:
    """Tell where figures miss a least (or greatest) one, forgiving the rounding of units; for whole stacks.

    Parameters
    ----------
    found, asked : array_like
        What there is, and what the text asks [any].
    most : bool
        Whether the text asks for that at most [-].

    Returns
    -------
    ndarray of bool
        As :class:`RuleResult` would say one by one.

    Examples
    --------
    >>> short_of([0.009, 0.0096], 0.0096).tolist()
    [True, False]
    """
    here, there = np.asarray(found, dtype=np.float64), np.asarray(asked, dtype=np.float64)
    return np.asarray(here > there + SLACK if most else here < there - SLACK)


def gathered(results: Iterable[RuleResult]) -> tuple[RuleResult, ...]:
    """Turn a flood of the same remark into one for the whole surface.

    What counts and is decided stays as it is, place by place. What is not covered, and what a text of another field
    says, comes back once a rule and outcome, with the number of places, showing the worst figures.

    Parameters
    ----------
    results : iterable of RuleResult
        Every rule at every place.

    Returns
    -------
    tuple of RuleResult
        In the order of first appearance.

    References
    ----------
    Common practice: one remark a surface, not one a row.

    Examples
    --------
    >>> from surfacecheck.rules import sheet_range
    >>> rows = [sheet_range(0.5e-3, 3.2e-3, place=p) for p in ("left skin to spar", "right skin to spar")]
    >>> [(r.outcome, r.place) for r in gathered(rows)]
    [('not covered', '2 places: left skin to spar, right skin to spar')]
    """
    groups: dict[tuple[object, ...], list[RuleResult]] = {}
    for i, one in enumerate(results):
        alone = one.counts and one.outcome != NOT_COVERED
        groups.setdefault((i,) if alone else (one.name, one.outcome, one.source), []).append(one)
    merged = []
    for group in groups.values():
        if len(group) == 1:
            merged.append(group[0])
            continue
        worst = max(group, key=lambda one: abs(one.asked - one.found))
        places = list(dict.fromkeys(one.place for one in group if one.place))
        merged.append(replace(worst, place=f"{len(group)} places: {', '.join(places)}"))
    return tuple(merged)
