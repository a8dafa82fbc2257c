"""A rule card: everything that texts say of one row, each with its paragraph, the figures and the field it is for."""

from __future__ import annotations

from dataclasses import dataclass
from difflib import get_close_matches
from typing import TYPE_CHECKING

from surfacecheck.errors import SurfaceError
from surfacecheck.studies.bench._access import access
from surfacecheck.studies.bench._card_load import load_line, pitch_by_buckling
from surfacecheck.studies.bench._card_rules import card_rules
from surfacecheck.studies.bench._seats_fittings import seats_of

if TYPE_CHECKING:
    from surfacecheck.assessment import Assessment
    from surfacecheck.model import Surface
    from surfacecheck.quantities import System
    from surfacecheck.rules import RuleResult
    from surfacecheck.studies.bench._access import Reach
    from surfacecheck.studies.bench._seats import Seats

__all__ = ["RuleCard", "rule_card", "rule_cards"]


@dataclass(frozen=True, eq=False)
class RuleCard:
    """What texts say of one row, one bracket or the horn.

    Attributes
    ----------
    place, words : str
        ``row.trailing_edge``, and in words.
    rivet : str
        Its rivet, in words.
    count : int
        Rivets [-].
    load : str
        What one rivet carries at limit, and which way; empty without an assessment.
    rules : tuple of RuleResult
        In the order edge, pitch, rivet, grip, hole, bend, repairs; ``counts`` is False for what is only shown.
    reaches : tuple of Reach
        Whether the tools of the file reach its rivets.
    missing : tuple of str
        Keys that hide a rule.
    """

    place: str
    words: str
    rivet: str
    count: int
    load: str
    rules: tuple[RuleResult, ...]
    reaches: tuple[Reach, ...]
    missing: tuple[str, ...]

    def of(self, outcome: str, *, counts: bool = True) -> tuple[RuleResult, ...]:
        """Give the rules of one outcome.

        Parameters
        ----------
        outcome : str
            ``meets``, ``does not meet`` or ``not covered``.
        counts : bool
            Those that count, or those that are only shown.

        Returns
        -------
        tuple of RuleResult
            In the order of the card.
        """
        return tuple(rule for rule in self.rules if rule.outcome == outcome and rule.counts is counts)


def rule_card(surface: Surface, row: str, assessment: Assessment | None = None, system: System = "metric") -> RuleCard:
    """Write the rule card of one row.

    Parameters
    ----------
    surface : Surface
        Perhaps half-filled.
    row : str
        ``left_skin_to_spar``, ``row.left_skin_to_spar``, ``hinge.top.bracket``, ``horn``, or the same in words.
    assessment : Assessment, optional
        Of that surface: says which way the load goes, and where the sheet buckles between rivets.
    system : {"metric", "inch"}
        Units of the sentence on the load.

    Returns
    -------
    RuleCard
        Every rule with its figures and source.

    Raises
    ------
    SurfaceError
        Where no row is called so, with those there are.

    References
    ----------
    Each line of the card names its own text.
    """
    return _card(surface, _found(surface, row), assessment, system)


def rule_cards(
    surface: Surface, assessment: Assessment | None = None, system: System = "metric"
) -> tuple[RuleCard, ...]:
    """Write the rule card of every row, bracket and the horn.

    Parameters
    ----------
    surface : Surface
        Perhaps half-filled.
    assessment : Assessment, optional
        Of that surface.
    system : {"metric", "inch"}
        Units of the sentence on the load.

    Returns
    -------
    tuple of RuleCard
        In the order of the file.

    References
    ----------
    Each line of a card names its own text.
    """
    return tuple(_card(surface, seats, assessment, system) for seats in seats_of(surface))


def _plain(name: str) -> str:
    return " ".join(name.casefold().replace("_", " ").replace(".", " ").replace(",", " ").split())


def _found(surface: Surface, name: str) -> Seats:
    every = seats_of(surface)
    names: dict[str, Seats] = {}
    for seats in every:
        short = seats.place.removeprefix("row.")
        for called in (seats.place, short, short.removesuffix(".bracket"), seats.words):
            names.setdefault(_plain(called), seats)
    wanted = _plain(name)
    if wanted in names:
        return names[wanted]
    near = get_close_matches(wanted, names, n=1, cutoff=0.5)
    hint = f" Nearest: {names[near[0]].place}." if near else ""
    here = ", ".join(seats.place for seats in every) or "none yet"
    message = f'no row is called "{name}".{hint} Here: {here}.'
    raise SurfaceError(message)


def _card(surface: Surface, seats: Seats, assessment: Assessment | None, system: System) -> RuleCard:
    kind = surface.rivets.get(seats.rivet)
    rules, missing = card_rules(surface, seats)
    if assessment is not None:
        rules = [*rules, *pitch_by_buckling(assessment, seats)]
    size = "" if kind is None or not kind.diameter.known else f" {kind.diameter.said}"
    return RuleCard(
        seats.place,
        seats.words,
        f"{seats.rivet}{size}" if seats.rivet else "not given",
        seats.count,
        "" if assessment is None else load_line(assessment, seats, system),
        tuple(rules),
        access(surface, seats.place),
        tuple(dict.fromkeys((*missing, *seats.missing))),
    )
