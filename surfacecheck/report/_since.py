"""What changed since an earlier page: margins, loads at the pins, rules, values of the file."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, TypeVar

import numpy as np

from surfacecheck.assessment import in_system, margin_text
from surfacecheck.quantities import show
from surfacecheck.report._earlier import kept
from surfacecheck.tables import Table, wrapped

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from surfacecheck.assessment import Assessment
    from surfacecheck.quantities import System
    from surfacecheck.report._earlier import EarlierPage

__all__ = ["Since", "since"]

_SAME = 5e-3
"""Change that counts as none: of a margin [-], of a load as a share of itself [-]; as in ``compare``."""
_NOUGHT = 1e-3
"""Loads below it are none [N], [N m]."""
GONE = "not there"
T = TypeVar("T")


@dataclass(frozen=True)
class Since:
    """What changed since an earlier page; each entry by name, before and after.

    Attributes
    ----------
    sheet, title : str
        Mark and title of the earlier page.
    margins : tuple of (str, str, float or None, float or None)
        Name, part and what gives in words, before and after; the lowest first. None is not given; a name that is only
        on one of the pages is in ``new`` or ``gone`` too.
    new, gone : frozenset of str
        Names of margins that only this page, or only the earlier one, has.
    pins : tuple of (str, float or None, float or None)
        Loads.
    rules, inputs : tuple of (str, str, str)
        Outcomes; values with how they are known.
    """

    sheet: str
    title: str
    margins: tuple[tuple[str, str, float | None, float | None], ...]
    new: frozenset[str]
    gone: frozenset[str]
    pins: tuple[tuple[str, float | None, float | None], ...]
    rules: tuple[tuple[str, str, str], ...]
    inputs: tuple[tuple[str, str, str], ...]

    @property
    def sentence(self) -> str:
        """Say it in one sentence."""
        counts = (
            (len(self.margins), "margin", "moved"),
            (len(self.pins), "load at the pins", "moved"),
            (len(self.rules), "rule", "changed"),
            (len(self.inputs), "value of the file", "changed"),
        )
        said = [f"{n} {_plural(what, n)} {does}" for n, what, does in counts if n]
        told = ", ".join(said) or "no number changed"
        return f"since the earlier page {self.sheet or 'without a mark'} ({self.title}): {told}"

    def tables(self, system: System) -> dict[str, Table]:
        """Give what changed as tables; those without a row are left out.

        Parameters
        ----------
        system : {"metric", "inch"}
            Units.

        Returns
        -------
        dict of str to Table
            ``inputs``, ``margins``, ``pins``, ``rules``.
        """

        def margin(name: str, value: float | None, absent: frozenset[str]) -> str:
            return GONE if name in absent else "not given" if value is None else margin_text(value)

        def load(name: str, value: float | None) -> str:
            return GONE if value is None else show(value, "torque" if name == "torque tube" else "force", system)

        margins = tuple(
            (in_system(words, system), margin(name, before, self.new), margin(name, after, self.gone))
            for name, words, before, after in self.margins
        )
        pins = tuple((name, load(name, before), load(name, after)) for name, before, after in self.pins)
        every = {
            "inputs": Table(("value of the file", "before", "now"), self.inputs, "lll"),
            "margins": Table(("margin", "before", "now"), margins, "lrr"),
            "pins": Table(("load at the pins", "before", "now"), pins, "lrr"),
            "rules": Table(("rule", "before", "now"), self.rules, "lll"),
        }
        return {name: table for name, table in every.items() if table.rows}

    def text(self, system: System, width: int = 80) -> str:
        """Write it for a terminal: the sentence, and the margins that moved, five at most.

        Parameters
        ----------
        system : {"metric", "inch"}
            Units.
        width : int
            Columns.

        Returns
        -------
        str
            ASCII lines.
        """
        lines = [wrapped(f"SINCE  {self.sentence.removeprefix('since ')}", width, then="       ")]
        for table in self.tables(system).values():
            short = Table(table.heads, table.rows[:5], table.align)
            lines.append(short.text(width))
            if len(table.rows) > 5:
                lines.append(f"and {len(table.rows) - 5} more, on the page")
        return "\n".join(lines)

    def data(self) -> dict[str, Any]:
        """Give it as plain data: SI units.

        Returns
        -------
        dict
            ``sheet``, ``title``, and lists of changes, each with ``name``, ``before``, ``after``.
        """

        def entry(name: str, before: object, after: object) -> dict[str, object]:
            return {"name": name, "before": before, "after": after}

        return {
            "sheet": self.sheet,
            "title": self.title,
            "margins": [entry(name, before, after) for name, _, before, after in self.margins],
            "new": sorted(self.new),
            "gone": sorted(self.gone),
            "pins": [entry(*one) for one in self.pins],
            "rules": [entry(*one) for one in self.rules],
            "inputs": [entry(*one) for one in self.inputs],
        }


def _plural(what: str, count: int) -> str:
    first, *rest = what.split(" ")
    return " ".join([first + ("" if count == 1 else "s"), *rest])


def since(assessment: Assessment, earlier: EarlierPage) -> Since:
    """Set an assessment beside an earlier page of the same surface.

    Parameters
    ----------
    assessment : Assessment
        As it is now.
    earlier : EarlierPage
        From :func:`read_earlier`.

    Returns
    -------
    Since
        What changed.
    """
    now = kept(assessment)
    names = dict.fromkeys((*now.margins, *earlier.margins))
    moved = []
    for name in names:
        before, after = earlier.margins.get(name), now.margins.get(name)
        if before is None or after is None or not _alike(before[0], after[0], 1.0):
            words = (after or before or (None, name))[1]
            moved.append((name, words, before and before[0], after and after[0]))
    moved.sort(key=_lowest)
    return Since(
        earlier.sheet,
        earlier.title,
        tuple(moved),
        frozenset(now.margins) - frozenset(earlier.margins),
        frozenset(earlier.margins) - frozenset(now.margins),
        tuple(
            (name, earlier.pins.get(name), now.pins.get(name))
            for name in dict.fromkeys((*now.pins, *earlier.pins))
            if not _alike(earlier.pins.get(name), now.pins.get(name))
        ),
        _changed(earlier.rules, now.rules, str),
        _changed(earlier.inputs, now.inputs, lambda one: f"{one[0]} ({one[1]})"),
    )


def _lowest(one: tuple[str, str, float | None, float | None]) -> float:
    return min((value for value in one[2:] if value is not None), default=np.inf)


def _alike(before: float | None, after: float | None, size: float | None = None) -> bool:
    if before is None or after is None:
        return before is after
    largest = max(abs(before), abs(after)) if size is None else size
    return abs(before - after) < max(_SAME * largest, _NOUGHT)


def _changed(
    before: Mapping[str, T], after: Mapping[str, T], say: Callable[[T], str]
) -> tuple[tuple[str, str, str], ...]:
    """List what differs by name, in the order of the page of now."""
    out = []
    for name in dict.fromkeys((*after, *before)):
        if before.get(name) != after.get(name):
            words = tuple(say(one[name]) if name in one else GONE for one in (before, after))
            out.append((name, words[0], words[1]))
    return tuple(out)
