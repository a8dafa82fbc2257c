"""A rule card as text, table, HTML and plain data."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Any

from surfacecheck.assessment import CAUTION, place_words
from surfacecheck.quantities import show
from surfacecheck.rules import DOES_NOT_MEET, MEETS, NOT_COVERED
from surfacecheck.studies.bench._access_shown import reach_data, reach_table, reach_words
from surfacecheck.tables import Table, escaped, wrapped

if TYPE_CHECKING:
    from surfacecheck.model import Surface
    from surfacecheck.quantities import System
    from surfacecheck.rules import RuleResult
    from surfacecheck.studies.bench._rule_card import RuleCard

__all__ = [
    "card_data",
    "card_headline",
    "card_html",
    "card_table",
    "card_text",
]

SHOWN_ONLY = "shown only"
_OUTCOME = len(DOES_NOT_MEET) + 2
_WORDS = (DOES_NOT_MEET, NOT_COVERED, MEETS)


def card_table(card: RuleCard, surface: Surface, system: System = "metric") -> Table:
    """Lay a rule card out as a table.

    Parameters
    ----------
    card : RuleCard
        Of one row.
    surface : Surface
        For its words.
    system : {"metric", "inch"}
        Units.

    Returns
    -------
    Table
        A line a text: rule, outcome, what there is and what is asked, the text with its field.
    """
    rows = tuple(
        (_named(rule, places), rule.outcome, _sentence(rule, system), f"{_source(rule)} ({_field(rule)})")
        for rule, places in _merged(card, surface)
    )
    note = f"not given: {', '.join(card.missing)}" if card.missing else ""
    heads = ("rule", "outcome", "here, and what is asked", "text (field)")
    return Table(heads, rows, "llll", card_headline(card), note)


def _merged(card: RuleCard, surface: Surface) -> list[tuple[RuleResult, list[str]]]:
    """Make one line of sheets that are alike: the rule, and the words for each place."""
    found: dict[tuple[object, ...], tuple[RuleResult, list[str]]] = {}
    for rule in card.rules:
        key = (rule.name, rule.outcome, rule.found, rule.asked, rule.pattern, rule.source)
        where = _where(rule, card, surface)
        places = found.setdefault(key, (rule, []))[1]
        if where and where not in places:
            places.append(where)
    return list(found.values())


def _named(rule: RuleResult, places: list[str]) -> str:
    return f"{rule.name} ({', '.join(places)})" if places else rule.name


def _sentence(rule: RuleResult, system: System) -> str:
    return rule.said(lambda si, quantity: show(si, quantity, system))


def _where(rule: RuleResult, card: RuleCard, surface: Surface) -> str:
    """Which sheet of the row, or which of its rivets, where that is not the whole row."""
    place = re.sub(r"^(bracket\.[^.]+|horn\.fixed_with|balance_mass\.fixed_with)\.", "", rule.place)
    rest = place.removeprefix(card.place).lstrip("., ").removeprefix("edge.")
    if rest in {"", "pitch", "edge"} or rest.endswith(("gap", "gap_sideways", "gap_fore_aft", ".hole", "bend_inside")):
        return ""
    return place_words(rest, surface)


def _source(rule: RuleResult) -> str:
    return str(rule.source).removeprefix("published: ")


def _field(rule: RuleResult) -> str:
    return rule.field if rule.counts else f"{rule.field}, {SHOWN_ONLY}"


def card_headline(card: RuleCard) -> str:
    """Count the outcomes of a card.

    Parameters
    ----------
    card : RuleCard
        Of one row.

    Returns
    -------
    str
        One line: the row, its rivet, and how many texts that count say what.
    """
    counts = ", ".join(f"{word} {len(card.of(word))}" for word in _WORDS)
    shown = sum(not rule.counts for rule in card.rules)
    rivets = f"{card.count} rivets" if card.count else "rivets not known yet"
    return f"{card.words}: {rivets}, {card.rivet}. {counts}; {shown} {SHOWN_ONLY}"


def card_text(card: RuleCard, surface: Surface, system: System = "metric") -> str:
    """Write a rule card for a terminal.

    Parameters
    ----------
    card : RuleCard
        Of one row.
    surface : Surface
        For its words.
    system : {"metric", "inch"}
        Units.

    Returns
    -------
    str
        ASCII, at most 80 columns.
    """
    lines = [wrapped(card_headline(card))]
    for rule, places in _merged(card, surface):
        text = f"{_named(rule, places)}: {_sentence(rule, system)} [{_source(rule)}; {_field(rule)}]"
        lines.append(wrapped(text, first=f"  {rule.outcome:<{_OUTCOME}}", then=" " * (_OUTCOME + 2)))
    if card.missing:
        lines.append(wrapped(", ".join(card.missing), first=f"  {'not given':<{_OUTCOME}}", then=" " * (_OUTCOME + 2)))
    if card.load:
        lines.append(wrapped(card.load, first=f"  {'load':<{_OUTCOME}}", then=" " * (_OUTCOME + 2)))
    for reach in card.reaches:
        text = f"can it be set? {reach_words(reach, system)}"
        lines.append(wrapped(text, first=f"  {'access':<{_OUTCOME}}", then=" " * (_OUTCOME + 2)))
    return "\n".join(lines)


def card_html(card: RuleCard, surface: Surface, system: System = "metric") -> str:
    """Write a rule card as HTML, every text escaped.

    Parameters
    ----------
    card : RuleCard
        Of one row.
    surface : Surface
        For its words.
    system : {"metric", "inch"}
        Units.

    Returns
    -------
    str
        Tables, and the caution.
    """
    load = f"<p>{escaped(card.load)}</p>" if card.load else ""
    reach = reach_table(card.reaches, system).html() if card.reaches else ""
    return f"{card_table(card, surface, system).html()}{load}{reach}<p>{escaped(CAUTION)}</p>"


def card_data(card: RuleCard) -> dict[str, Any]:
    """Turn a rule card into plain data.

    Parameters
    ----------
    card : RuleCard
        Of one row.

    Returns
    -------
    dict
        SI units, every digit.
    """
    return {
        "place": card.place,
        "words": card.words,
        "rivet": card.rivet,
        "count": card.count,
        "load": card.load,
        "rules": [
            {
                "name": rule.name,
                "outcome": rule.outcome,
                "found": rule.found,
                "asked": rule.asked,
                "quantity": rule.quantity,
                "field": rule.field,
                "counts": rule.counts,
                "source": str(rule.source),
                "place": rule.place,
            }
            for rule in card.rules
        ],
        "access": [reach_data(reach) for reach in card.reaches],
        "missing": list(card.missing),
    }
