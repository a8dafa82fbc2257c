"""What an assessment holds: loads at the pins, flows, rivet loads, margins, rules, balance, gaps."""

from __future__ import annotations

import difflib
import re
from dataclasses import dataclass, field
from functools import cached_property
from typing import TYPE_CHECKING, Literal

import numpy as np

from surfacecheck.assessment._found import Gap, HornPull, PinLoad, Rest, Worst
from surfacecheck.checks import Finding, Outcome, find_at
from surfacecheck.errors import SurfaceError

if TYPE_CHECKING:
    from surfacecheck.checks import BracketLoad, Effects, HornLoad, RowLoad
    from surfacecheck.loads import LoadCase, MissingCase
    from surfacecheck.masses import Masses
    from surfacecheck.model import Surface
    from surfacecheck.rules import RuleResult
    from surfacecheck.statics import Beam, Deflections
    from surfacecheck.statics.span import Span

__all__ = ["CAUTION", "NOT_LOOKED_AT", "Assessment", "Gap", "HornPull", "PinLoad", "Rest", "Worst"]

CAUTION = (
    "A sanity check by and for builders, no approval: designer, rules and inspector decide. "
    "No flight on the strength of this page."
)

NOT_LOOKED_AT = (
    "fatigue",
    "flutter",
    "corrosion",
    "workmanship",
    "shear in the webs of the ribs",
    "ribs crippling at hinges and horn",
    "fin side of the hinges",
    "cables and pedals",
    "tabs",
    "temperature",
    "wear",
    "repair history",
    "drag and friction",
)


def _plain(name: str) -> str:
    """Make one of "hinge.bottom.bracket.rivet-3" and "hinge bottom, bracket rivet 3"."""
    return re.sub(r"[\s_.,-]+", "-", name.casefold())


def _margin(finding: Finding) -> float:
    return np.inf if finding.margin is None else finding.margin


@dataclass(frozen=True, eq=False, repr=False)
class Assessment:
    """Everything that was worked out of one surface; what could not be is named in ``gaps``.

    Attributes
    ----------
    surface : Surface
        As described.
    span : Span
        Stations and named breaks.
    cases : tuple of LoadCase
        Load cases that could be built.
    missing_cases : tuple of MissingCase
        And those that could not.
    case_titles : tuple of str
        Titles along the C axis of ``beam``: every case spread evenly, then through the ribs; where pins are off line,
        all of these once more with the pins as if in line.
    beam, simple : Beam
        With shear flexibility and twist; and bending alone, planes apart.
    effects : Effects
        What the checks read; its C axis repeats the beam's where the nose is worked open too.
    fittings : Effects
        What the checks of brackets, pins and horn read: the cases that count and, where cables pull, each once more
        with the cables as if slack.
    pins : tuple of PinLoad
        From root to tip.
    horn_pull : HornPull or None
        At the horn.
    rows, brackets, horn
        Rivet loads; those of brackets and horn in the cases of ``fittings``.
    findings : tuple of Finding
        All checks, each at its worst spot.
    rules : tuple of RuleResult
        Rules, each with meets / does not meet / not covered.
    masses : Masses
        Mass of every part, balance.
    rests : tuple of Rest
        Equilibrium of every case.
    gaps : tuple of Gap
        What is not given, with what it hides.
    assumptions : tuple of str
        What was taken for granted.
    remarks : tuple of str
        Things to look at twice.
    """

    surface: Surface
    span: Span
    cases: tuple[LoadCase, ...]
    missing_cases: tuple[MissingCase, ...]
    case_titles: tuple[str, ...]
    beam: Beam
    simple: Beam
    effects: Effects
    fittings: Effects
    pins: tuple[PinLoad, ...]
    horn_pull: HornPull | None
    rows: tuple[RowLoad, ...]
    brackets: tuple[BracketLoad, ...]
    horn: HornLoad | None
    findings: tuple[Finding, ...]
    rules: tuple[RuleResult, ...]
    masses: Masses
    rests: tuple[Rest, ...]
    gaps: tuple[Gap, ...]
    assumptions: tuple[str, ...]
    remarks: tuple[str, ...] = ()
    not_looked_at: tuple[str, ...] = NOT_LOOKED_AT
    caution: str = field(default=CAUTION)

    @property
    def mass(self) -> float | None:
        """Mass of the whole [kg]; None while nothing is known."""
        return self.masses.whole()[0]

    @property
    def tail_heavy(self) -> float | None:
        """Tail-heavy moment about the pins, level [N m]; None while no part could be weighed."""
        return self.masses.whole()[1]

    @cached_property
    def margins(self) -> tuple[Finding, ...]:
        """Every margin, lowest first."""
        found = [f for f in self.findings if f.kind == "margin" and f.margin is not None and np.isfinite(f.margin)]
        return tuple(sorted(found, key=_margin))

    @cached_property
    def lowest_by_part(self) -> tuple[Finding, ...]:
        """The lowest margin of each part, lowest first."""
        seen: dict[str, Finding] = {}
        for finding in self.margins:
            seen.setdefault(finding.check.place, finding)
        return tuple(seen.values())

    @cached_property
    def not_given(self) -> tuple[Finding, ...]:
        """Checks that lack a strength or another value, those that must carry most first."""
        return tuple(f for f in self.findings if f.outcome == Outcome.NOT_GIVEN)

    @cached_property
    def outside(self) -> tuple[Finding, ...]:
        """What the method cannot answer at all: outside it, and without a margin."""
        return tuple(f for f in self.findings if f.outcome == Outcome.OUTSIDE and f.margin is None)

    @cached_property
    def deflections(self) -> Deflections | None:
        """Displacement, slope and twist along the span and at the hinges, case by case; twist from the horn.

        None while the sheet, and with it the stiffness, is not known.
        """
        from surfacecheck.statics import deflections

        if self.effects.box is None:
            return None
        return deflections(self.beam, self.span.root if self.span.horn is None else self.span.horn)

    @cached_property
    def statements(self) -> tuple[Finding, ...]:
        """Fractions of limit load at which something wrinkles, lowest first."""
        found = [f for f in self.findings if f.kind == "statement" and f.margin is not None and np.isfinite(f.margin)]
        return tuple(sorted(found, key=_margin))

    @cached_property
    def bounds(self) -> tuple[Finding, ...]:
        """Bounds printed beside a margin."""
        return tuple(f for f in self.findings if f.kind == "bound" and f.margin is not None and np.isfinite(f.margin))

    def next_of(self, finding: Finding) -> Finding | None:
        """Give what gives next at the same part.

        Parameters
        ----------
        finding : Finding
            One of the margins.

        Returns
        -------
        Finding or None
            The next lowest margin of that part.
        """
        place, spot = finding.check.place, finding.spot
        every = self.margins if finding in self.findings else self._of_spot(_plain(f"{place}.{spot}"))
        others = [f for f in every if f.check.place == place and f.check.mode != finding.check.mode]
        return next((f for f in others if f.kind == "margin" and f.margin is not None), None)

    def find(self, name: str | int) -> Finding:
        """Find a margin by its name, the start of its name, or its number in the list of the lowest.

        Parameters
        ----------
        name : str or int
            ``"hinge.bottom.pin:bearing"``, ``"hinge.bottom.pin"``, ``"spar:flange-buckles"`` (its worst place, wherever
            that is), ``"hinge.middle.bracket.rivet-3"`` (that rivet, whether it is the worst or not), or 1 for the
            lowest.

        Returns
        -------
        Finding
            The finding, the lowest of those that fit.

        Raises
        ------
        SurfaceError
            Where nothing fits.
        """
        text = str(name).strip()
        if re.fullmatch(r"[+-]?[0-9]+", text):
            number = int(text)
            if 1 <= number <= len(self.lowest_by_part):
                return self.lowest_by_part[number - 1]
            message = f"line {number} is not in the list: there are lines 1 to {len(self.lowest_by_part)}"
            raise SurfaceError(message)
        wanted = _plain(text)
        if own := self._of_spot(wanted):
            return own[0]
        every = (*self.margins, *self.not_given, *self.outside, *self.bounds, *self.statements)
        # any name starts with nothing, and a lone dash or figure stands in many
        for fits in (str.__eq__, str.startswith, str.__contains__) if re.search("[a-z]", wanted) else ():
            for finding in every:
                mode = finding.check.mode
                called = (finding.name, f"{finding.part}:{mode}", f"{finding.check.place}:{mode}")
                if any(fits(_plain(n), wanted) for n in called):
                    return finding
        names = difflib.get_close_matches(text, [f.name for f in every], 3, 0.5) or [f.name for f in self.margins[:3]]
        message = f'no number is called "{text}"; names are such as {", ".join(names)}'
        raise SurfaceError(message)

    def _of_spot(self, wanted: str) -> list[Finding]:
        """Work every check of one spot by itself, of a rivet say, the lowest margin first.

        Only checks that keep all their spots have it; where its worst spot is meant, that finding is the one given.
        """
        found = []
        for one in self.findings:
            check = one.check
            for spot in dict.fromkeys(check.spots) if len(check.spots) > 1 and not check.spot_cases else ():
                names = [_plain(f"{part} {spot}") for part in (check.place, check.part) if spot]
                if wanted in (*names, *(f"{name}:{check.mode}" for name in names)):
                    found.append(one if one.spot == spot else find_at(check, spot))
        return sorted(found, key=lambda one: (one.kind != "margin", _margin(one)))

    def show(self, name: str | int = 1, system: Literal["metric", "inch"] = "metric") -> str:
        """Write out how a number was worked.

        Parameters
        ----------
        name : str or int
            As in :meth:`find`.
        system : {"metric", "inch"}
            Units.

        Returns
        -------
        str
            Sentence, formula, every letter with value, unit and source, result.

        Raises
        ------
        SurfaceError
            Where nothing fits.
        """
        from surfacecheck.assessment._sentence import show_working

        return show_working(self.find(name), self, system)

    def __str__(self) -> str:
        from surfacecheck.assessment._summary import summary

        return summary(self, "inch" if self.surface.units == "inch" else "metric")

    def __repr__(self) -> str:
        return f"<Assessment of {self.surface.name!r}, {self.surface.title}: {len(self.margins)} margins>"

    def _repr_html_(self) -> str:
        from surfacecheck.assessment._summary import notebook_html

        return notebook_html(self, "inch" if self.surface.units == "inch" else "metric")
