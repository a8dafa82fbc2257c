"""What stands beside a margin in words, and the whole of how it was worked."""

from __future__ import annotations

import re
from dataclasses import replace
from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from surfacecheck.assessment._shown import margin_text, quantity_of_result, shown_formulas
from surfacecheck.checks import Outcome, Term
from surfacecheck.provenance import Basis
from surfacecheck.quantities import show
from surfacecheck.tables import wrapped

if TYPE_CHECKING:
    from surfacecheck.assessment._result import Assessment
    from surfacecheck.checks import Finding
    from surfacecheck.model import Surface
    from surfacecheck.quantities import System

__all__ = ["Needed", "at_state", "finding_sentence", "needed", "place_words", "show_working"]

_FACTORS = re.compile(r"F[SYB]")
_NOISE = 1e-9
_NOT_OF_A_SHEET = {
    Basis.COMMON_PRACTICE,
    Basis.FROM_MEMORY,
    Basis.MEASURED,
    Basis.GUESS,
    Basis.ASSUMED,
    Basis.WORKED_OUT,
}
_SPLIT = {1.725: "factors 1.5 and 1.15", 2.5875: "factors 1.5, 1.15 and 1.5"}


class Needed(NamedTuple):
    """What an unknown strength must be at least.

    Attributes
    ----------
    key : str
        Line of the file that hides it.
    si : float
        Least value [SI].
    quantity, means : str
        What it is.
    """

    key: str
    si: float
    quantity: str
    means: str


def needed(finding: Finding) -> Needed | None:
    """Turn an unknown strength round: the least value with which the part would just carry.

    Parameters
    ----------
    finding : Finding
        One that is not given.

    Returns
    -------
    Needed or None
        None where more than the strength is missing, or what is available does not grow with it in proportion.
    """
    check = finding.check
    unknown = [name for name, term in check.terms.items() if term.values is None]
    if finding.required is None or len(unknown) != 1:
        return None
    term = check.terms[unknown[0]]

    def worth(value: float) -> float:
        terms = {**check.terms, unknown[0]: Term(value, term.quantity, term.means)}
        given = replace(check, terms=terms).work(check.available)
        return finding.at(given)

    if check.needs(check.required) or not worth(1.0) > 0.0:
        return None
    least = finding.required / worth(1.0)
    if not np.isclose(worth(least), finding.required, rtol=1e-9, atol=0.0):
        return None
    return Needed(term.key, least, term.quantity, term.means)


def at_state(finding: Finding) -> str:
    """Say at which state it is judged: ``at ultimate``, ``at yield``, or ``at limit`` where no factor is laid on."""
    if finding.check.mode.endswith("yield"):
        return "at yield"
    return "at limit" if _factor_of(finding) is None else "at ultimate"


def finding_sentence(finding: Finding, assessment: Assessment | None = None, system: System = "metric") -> str:
    """Say a finding in plain sentences.

    Parameters
    ----------
    finding : Finding
        One check at its worst spot.
    assessment : Assessment, optional
        For what gives next at the same part.
    system : {"metric", "inch"}
        Units.

    Returns
    -------
    str
        One paragraph.
    """
    if finding.required is None:
        return f"Not given: {', '.join(finding.missing)}."
    if finding.margin is not None and not np.isfinite(finding.margin):
        return f"Nothing is required of {_subject(finding)} here."
    if finding.kind == "statement":
        stated = f"{_sentence_case(finding.part)}: {finding.gives} at {_times(finding)} limit load."
        return f"{stated} {_notes(finding)}".strip()
    said = [_carries(finding, system), _against(finding, system)]
    if finding.outcome == Outcome.OUTSIDE:
        said.append("Outside the method: ask.")
    after = assessment.next_of(finding) if assessment is not None and finding.kind == "margin" else None
    if finding.margin is not None and after is not None and after.margin is not None:
        order = "Gives before it" if after.margin < finding.margin else "Next to go"
        said.append(f"{order}: {after.gives}, {margin_text(after.margin)}.")
    return " ".join(part for part in said if part)


def _subject(finding: Finding) -> str:
    return finding.check.subject or finding.check.part


def _sentence_case(text: str) -> str:
    return text[:1].upper() + text[1:]


def _times(finding: Finding) -> str:
    assert finding.margin is not None  # noqa: S101 - statements with a number only
    return f"{finding.margin + 1.0:.2f} of" if finding.margin < 0.0 else f"{finding.margin + 1.0:.2f} times"


def _notes(finding: Finding) -> str:
    return " ".join(f"{_sentence_case(note)}." for note in finding.check.notes)


def _carries(finding: Finding, system: System) -> str:
    """Say what the load does at limit: the effect, or all of its parts where there are several."""
    check = finding.check
    term = check.terms[check.effect]
    given = {s.name for s in finding.symbols(check.required) if s.source.basis is not Basis.WORKED_OUT}
    found = {name: finding.value(name) for name, one in check.terms.items() if one.quantity == term.quantity}
    used = {s.name for s in finding.symbols(check.required)}
    parts = {name: abs(v) for name, v in found.items() if v is not None and name in used - given}
    largest = max(parts.values(), default=0.0)
    if not largest > 0.0:
        return ""
    shown = {name: show(v, term.quantity, system) for name, v in parts.items() if v > _NOISE * largest}
    if len(shown) == 1 and check.effect in shown:
        how = " in shear" if check.effect == "f_s" else " in bending"
        kind = how if term.quantity == "stress" else ""
        return f"At limit {_subject(finding)} carries {shown[check.effect]}{kind}."
    listed = [f"{text} ({check.terms[name].means.removesuffix(' at limit')})" for name, text in shown.items()]
    return f"At limit {_subject(finding)} carries {' and '.join(listed)}."


def _against(finding: Finding, system: System) -> str:
    check = finding.check
    factor = _factor(finding)
    assert finding.required is not None  # noqa: S101 - the caller has looked
    quantity = quantity_of_result(finding, check.required)
    must = f"{factor} it must be good for {show(finding.required, quantity, system)} {at_state(finding)}"
    if finding.margin is None:
        least = needed(finding)
        if least is None:
            return f"No strength given. {must}."
        worth = show(least.si, least.quantity, system)
        return f"No strength given. {must}: {least.means} at least {worth}; look for that on the data sheet."
    margin = f"margin {margin_text(finding.margin)}"
    ratio = finding.margin + 1.0
    if finding.margin < 0.0:
        return f"{must}. It is good for {ratio:.2f} of what is required: {margin}, less than required."
    if check.proof:
        return f"{factor} the load could be {ratio:.2f} times as large before it is used up: {margin}."
    if check.available == "1":
        return f"{factor} it uses {finding.required:.2f} of what it has: {margin}."
    assert finding.available is not None  # noqa: S101 - a margin has both sides
    has = _has(finding, show(finding.available, quantity, system))
    return f"{must}; {has}, {ratio:.3g} times that: {margin}."


def _has(finding: Finding, worth: str) -> str:
    """Say what it has, and of one value of a rivet packet, pin or bearing where that is from."""
    term = finding.check.terms.get(finding.check.available)
    whose = "" if term is None else term.key.split(".")[0]
    if term is None or whose not in {"rivet", "bracket"}:
        return f"it is good for {worth}"
    published = term.source.basis is Basis.PUBLISHED and whose == "bracket"  # a table of metals; of a rivet its sheet
    if published or term.source.basis in _NOT_OF_A_SHEET:
        return f"it is good for {worth} ({term.source})"
    return f"the drawing says {worth}" if term.source.basis is Basis.DRAWING else f"the data sheet says {worth}"


def _factor_of(finding: Finding) -> float | None:
    """Give the factor laid on the limit load; None where there is none."""
    for name, term in finding.check.terms.items():
        value = finding.value(name) if _FACTORS.fullmatch(name) and not term.quantity else None
        if value is not None:
            return value
    return None


def _factor(finding: Finding) -> str:
    value = _factor_of(finding)
    if value is None:
        return "With no factor"
    known = next((words for number, words in _SPLIT.items() if abs(number - value) < 1e-9), f"factor {value:g}")
    return f"With {known}"


def place_words(place: str, surface: Surface | None = None) -> str:
    """Write a path as words: ``row.left_skin_to_spar`` is ``left skin to spar``.

    Parameters
    ----------
    place : str
        Path, or several.
    surface : Surface, optional
        For its own words: ``left_skin`` is the top skin of one that lies flat.

    Returns
    -------
    str
        Words.

    Examples
    --------
    >>> place_words("2 places: row.left_skin_to_spar, bracket.plate.edge.spar")
    '2 places: left skin to spar, bracket plate edge spar'
    >>> place_words("row.skin_to_ribs.rib-3 at 12.5 in")
    'skin to ribs rib-3 at 12.5 in'
    """
    if surface is not None:
        place = re.sub(r"(?<![a-z])(?:left|right)_skin(?![a-z_])", lambda found: surface.said(found[0]), place)
    return re.sub(r"_|(?<![0-9])\.|\.(?![0-9])", " ", re.sub(r"\brow\.", "", place))


def show_working(
    finding: Finding, assessment: Assessment | None = None, system: System = "metric", width: int = 80
) -> str:
    """Write out how a number was worked, so that a person can redo it.

    Parameters
    ----------
    finding : Finding
        One check at its worst spot.
    assessment : Assessment, optional
        For what gives next, and the bounds beside it.
    system : {"metric", "inch"}
        Units.
    width : int
        Columns.

    Returns
    -------
    str
        ASCII: the sentence, the formula with letters, values, units and sources, the numbers put in, the result.
    """
    check = finding.check
    out = [wrapped(f"{finding.part}: {finding.gives}", width), wrapped(f"name  {finding.name}", width, then="      ")]
    out += ["", wrapped(finding_sentence(finding, assessment, system), width)]
    for shown in shown_formulas(finding, system):
        out += ["", shown.text(width)]
        if shown.name == "used":
            words = "lam is the multiple of the limit load at which the part is just used up; put in, it gives 1"
            out.append(wrapped(words, width, "  ", "    "))
    out.append("")
    outcome = finding.outcome if finding.kind == "margin" else f"a {finding.kind}, not a margin"
    facts = {"outcome": outcome, "load case": finding.case, "factors": check.factors}
    if finding.missing:
        facts["not given"] = ", ".join(finding.missing)
    out += [wrapped(f"{name}: {words}", width, then="    ") for name, words in facts.items() if words]
    out += [wrapped(f"taken for granted: {note}", width, then="    ") for note in check.notes]
    for bound in assessment.bounds if assessment is not None and finding.kind == "margin" else ():
        if bound.place == finding.place and bound.margin is not None:
            words = f"bound beside it: {bound.gives}, {margin_text(bound.margin)} ({'; '.join(bound.check.notes)})"
            out.append(wrapped(words, width, then="    "))
    return "\n".join(out)
