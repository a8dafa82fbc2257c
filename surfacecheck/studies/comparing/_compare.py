"""Before and after: what a change moves, here and anywhere."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

import numpy as np

from surfacecheck.assessment import case_words, needed
from surfacecheck.errors import SurfaceError
from surfacecheck.rules import NOT_COVERED
from surfacecheck.studies.comparing._compare_whole import least_twist_stiffness, rivet_count

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from numpy.typing import NDArray

    from surfacecheck.assessment import Assessment
    from surfacecheck.checks import Finding

__all__ = ["Changed", "Comparison", "compare"]

Group = Literal["anywhere", "cases", "here", "must carry", "pins", "place", "rules", "whole"]
NOT_THERE = "not there"
"""Said of a load case that others have."""
_SAME = 5e-3
"""Change that counts as none: of a margin [-], of a load or a mass as a share of itself [-]."""


@dataclass(frozen=True, eq=False)
class Changed:
    """One line of a comparison.

    Attributes
    ----------
    group : str
        ``anywhere``, ``cases`` (load cases that are not in all of them), ``here``, ``must carry``, ``pins``,
        ``place`` (of a deviation), ``rules`` or ``whole``.
    name : str
        What it is.
    quantity : str
        Quantity of the values; ``margin`` for a margin, ``count`` for a count, ``words`` for a rule.
    values : tuple of (float, str or None)
        Before, then after each change [SI]; None where it is not there or not given.
    says : tuple of str
        What goes with each value, such as what gives first.
    """

    group: Group
    name: str
    quantity: str
    values: tuple[float | str | None, ...]
    says: tuple[str, ...] = ()

    @property
    def moved(self) -> bool:
        """Whether any value differs from the first."""
        return any(not _alike(self.values[0], value, self.quantity) for value in self.values[1:])


@dataclass(frozen=True, eq=False)
class Comparison:
    """A surface beside the same surface with changes.

    Attributes
    ----------
    base : Assessment
        As drawn.
    changed : tuple of Assessment
        With each change.
    lines : tuple of Changed
        Every line, moved or not.
    """

    base: Assessment
    changed: tuple[Assessment, ...]
    lines: tuple[Changed, ...]

    @property
    def titles(self) -> tuple[str, ...]:
        """What each column is."""
        return tuple(one.surface.title for one in (self.base, *self.changed))

    def of(self, group: Group, *, moved: bool = False) -> tuple[Changed, ...]:
        """Give the lines of one group.

        Parameters
        ----------
        group : str
            As in :class:`Changed`.
        moved : bool
            Only those that a change moved.

        Returns
        -------
        tuple of Changed
            In the order of the surface.
        """
        return tuple(line for line in self.lines if line.group == group and (line.moved or not moved))

    def __str__(self) -> str:
        """Write it for a terminal."""
        from surfacecheck.studies.comparing._compare_shown import comparison_text

        return comparison_text(self)

    def _repr_html_(self) -> str:
        from surfacecheck.studies.comparing._compare_shown import comparison_html

        return comparison_html(self)

    def lowest(self) -> NDArray[np.float64]:
        """Give the lowest margin anywhere.

        Returns
        -------
        ndarray, shape (1 + changes,)
            Before, then after each change [-]; infinite where there is no margin.
        """
        values = self.of("anywhere")[0].values
        return np.array([np.inf if value is None else float(value) for value in values])


def compare(base: Assessment, *changed: Assessment) -> Comparison:
    """Set a surface beside the same surface with changes.

    Parameters
    ----------
    base : Assessment
        As drawn.
    *changed : Assessment
        With a change each.

    Returns
    -------
    Comparison
        Loads at the pins, lowest margin anywhere and of each part, what unknown strengths must carry, rules, rivets,
        mass, balance, twist stiffness.

    Raises
    ------
    SurfaceError
        Where there is nothing to compare with.
    """
    if not changed:
        message = "nothing to compare with: give at least one change"
        raise SurfaceError(message)
    every = (base, *changed)
    lines = (
        *_anywhere(every),
        *_cases(every),
        *_parts(every),
        *_asked(every),
        *_pins(every),
        *_rules(every),
        *_whole(every),
    )
    return Comparison(base, changed, lines)


def _alike(a: float | str | None, b: float | str | None, quantity: str) -> bool:
    if a is None or b is None or isinstance(a, str) or isinstance(b, str) or quantity == "count":
        return a == b
    return abs(a - b) <= (_SAME if quantity == "margin" else _SAME * max(abs(a), abs(b)))


def _margin(finding: Finding | None) -> float | None:
    return None if finding is None else finding.margin


def _anywhere(every: tuple[Assessment, ...]) -> Iterator[Changed]:
    lowest = [one.margins[0] if one.margins else None for one in every]
    says = tuple("" if f is None else f"{f.part}: {f.gives}" for f in lowest)
    yield Changed("anywhere", "lowest margin anywhere", "margin", tuple(_margin(f) for f in lowest), says)


def _cases(every: tuple[Assessment, ...]) -> Iterator[Changed]:
    """Load cases that are not in all: what a lost one loaded has higher margins for no better reason."""
    maps = [{case.name for case in one.cases} for one in every]
    titles = {case.name: case_words(case.title) for one in every for case in one.cases}
    for name, title in titles.items():
        if not all(name in there for there in maps):
            values = tuple("there" if name in there else NOT_THERE for there in maps)
            yield Changed("cases", title, "words", values)


def _by_place(findings: tuple[Finding, ...]) -> dict[str, Finding]:
    found: dict[str, Finding] = {}
    for finding in findings:
        found.setdefault(finding.check.place, finding)
    return found


def _names(maps: list[dict[str, Finding]]) -> dict[str, str]:
    return {place: finding.check.part for found in maps for place, finding in found.items()}


def _parts(every: tuple[Assessment, ...]) -> Iterator[Changed]:
    """Lowest margin of each part, first those that a change moved most."""
    maps = [_by_place(one.lowest_by_part) for one in every]
    lines = []
    for place, part in _names(maps).items():
        here = [found.get(place) for found in maps]
        says = tuple("" if f is None else f.gives for f in here)
        lines.append(Changed("here", part, "margin", tuple(_margin(f) for f in here), says))
    yield from sorted(lines, key=_least)


def _least(line: Changed) -> float:
    return min((value for value in line.values if isinstance(value, float)), default=np.inf)


def _asked(every: tuple[Assessment, ...]) -> Iterator[Changed]:
    """Turn unknown strengths round, part by part."""
    found: list[dict[tuple[str, str], tuple[float, str]]] = []
    for one in every:
        worst: dict[tuple[str, str], tuple[float, str]] = {}
        for finding in one.not_given:
            least = needed(finding)
            key = (finding.check.part, finding.gives)
            if least is not None and (key not in worst or least.si > worst[key][0]):
                worst[key] = (least.si, least.quantity)
        found.append(worst)
    for key in dict.fromkeys(key for worst in found for key in worst):
        quantity = next(worst[key][1] for worst in found if key in worst)
        values = tuple(worst[key][0] if key in worst else None for worst in found)
        yield Changed("must carry", f"{key[0]}: {key[1]}", quantity, values)


def _pins(every: tuple[Assessment, ...]) -> Iterator[Changed]:
    maps = [{pin.name: pin for pin in one.pins} for one in every]
    for name in dict.fromkeys(name for pins in maps for name in pins):
        for way in ("sideways", "fore_aft", "along"):
            values = tuple(abs(getattr(pins[name], way).value) if name in pins else None for pins in maps)
            if max((value for value in values if value is not None), default=0.0) > _SAME:
                yield Changed("pins", f"{name} pin {way.replace('_', '-')}", "force", values)
    pulls = [one.horn_pull for one in every]
    if any(pulls):
        kind = next(pull.kind for pull in pulls if pull is not None)
        values = tuple(None if pull is None else abs(pull.pull.value) for pull in pulls)
        yield Changed("pins", kind, "torque" if kind == "torque tube" else "force", values)


def _rules(every: tuple[Assessment, ...]) -> Iterator[Changed]:
    maps: list[dict[tuple[str, str], str]] = []
    for one in every:
        states: dict[tuple[str, str], str] = {}
        for rule in one.rules:
            count, many, _ = rule.place.partition(" places: ")
            gathered = rule.outcome == NOT_COVERED or not rule.counts
            place = "" if gathered else rule.place
            where = f" at {count} places" if many else (f" at {rule.place}" if gathered and rule.place else "")
            if rule.counts:
                states[rule.name + (", where not covered" if gathered else ""), place] = f"{rule.outcome}{where}"
        maps.append(states)
    for key in dict.fromkeys(key for states in maps for key in states):
        name = f"{key[0]}: {key[1]}" if key[1] else key[0]
        yield Changed("rules", name, "words", tuple(states.get(key) for states in maps))


def _whole(every: tuple[Assessment, ...]) -> Iterator[Changed]:
    lines: tuple[tuple[str, str, Callable[[Assessment], float | None]], ...] = (
        ("rivets in rows", "count", lambda one: float(rivet_count(one))),
        ("mass", "mass", lambda one: one.mass),
        ("tail-heavy moment", "torque", lambda one: one.tail_heavy),
        ("least twist stiffness GJ", "bending_stiffness", least_twist_stiffness),
    )
    for name, quantity, read in lines:
        yield Changed("whole", name, quantity, tuple(read(one) for one in every))
