"""What a terminal shows of an assessment, and what a notebook does."""

from __future__ import annotations

from dataclasses import fields, is_dataclass
from typing import TYPE_CHECKING

from surfacecheck.assessment._balance import balance_line
from surfacecheck.assessment._sentence import at_state, needed, place_words
from surfacecheck.assessment._tables import case_words, in_system, margin_table, pin_table
from surfacecheck.provenance import Basis, Value
from surfacecheck.quantities import show
from surfacecheck.rules import DOES_NOT_MEET, MEETS, NOT_COVERED
from surfacecheck.tables import escaped, plain, wrapped

if TYPE_CHECKING:
    from collections.abc import Iterator

    from surfacecheck.assessment._result import Assessment
    from surfacecheck.quantities import System
    from surfacecheck.rules import RuleResult

__all__ = ["counts", "not_given_lines", "notebook_html", "rule_lines", "summary"]

_MOST = 4


def summary(assessment: Assessment, system: System = "metric", width: int = 80) -> str:
    """Write what a terminal shows of an assessment.

    Parameters
    ----------
    assessment : Assessment
        Worked.
    system : {"metric", "inch"}
        Units.
    width : int
        Columns.

    Returns
    -------
    str
        ASCII lines, the caution last.
    """
    blocks = [_head(assessment, width), _pins(assessment, system, width), _margins(assessment, system, width)]
    labelled = (
        ("RULES", rule_lines(assessment, system)),
        ("WRINKLES", _wrinkles(assessment, system)),
        ("BALANCE", [balance_line(assessment, system)]),
        ("NO CASE", [f"{one.name}: needs {one.needs}; {one.reason}" for one in assessment.missing_cases]),
        ("REMARKS", list(assessment.remarks)),
        ("NOT LOOKED AT", [", ".join(assessment.not_looked_at)]),
    )
    blocks.append("\n".join(_labelled(name, lines, width) for name, lines in labelled if lines))
    blocks.append(wrapped(assessment.caution, width))
    return "\n\n".join(block for block in blocks if block)


def _labelled(name: str, lines: list[str], width: int) -> str:
    indent = " " * (len(name) + 2)
    shown = lines if len(lines) <= _MOST else [*lines[: _MOST - 1], f"and {len(lines) - _MOST + 1} more, on the page"]
    firsts = (f"{name}  ", *(indent,) * len(shown))
    return "\n".join(wrapped(line, width, first, indent) for line, first in zip(shown, firsts, strict=False))


def counts(assessment: Assessment) -> dict[str, int]:
    """Count how the values of a surface are known.

    Parameters
    ----------
    assessment : Assessment
        Worked.

    Returns
    -------
    dict of str to int
        ``guess``, ``not said``, ``not given``.
    """
    bases = [value.source.basis for value in _values(assessment.surface) if value.known or value.absent]
    return {
        "guess": bases.count(Basis.GUESS),
        "not said": bases.count(Basis.NOT_SAID),
        "not given": len(assessment.surface.gaps),
    }


def _values(node: object) -> Iterator[Value]:
    if isinstance(node, Value):
        yield node
    elif is_dataclass(node):
        for one in fields(node):
            yield from _values(getattr(node, one.name))
    elif isinstance(node, dict):
        for inner in node.values():
            yield from _values(inner)
    elif isinstance(node, tuple):
        for inner in node:
            yield from _values(inner)


def _head(assessment: Assessment, width: int) -> str:
    surface, known = assessment.surface, counts(assessment)
    facts = [surface.title, f"{len(assessment.cases)} load cases", "limit loads", surface.path]
    guessed, unsaid, gaps = known["guess"], known["not said"], known["not given"]
    values = f"{guessed} value{'s are guesses' if guessed != 1 else ' is a guess'}"
    lines = [
        wrapped(surface.name or "no name given", width),
        wrapped(", ".join(fact for fact in facts if fact), width),
        wrapped(f'{values}, {unsaid} without a word how known, {gaps} not given ("?"): all on the page', width),
    ]
    return "\n".join(lines)


def _pins(assessment: Assessment, system: System, width: int) -> str:
    table = pin_table(assessment, system)
    lines = [table.text(width)]
    if assessment.rests:
        worst = max(assessment.rests, key=lambda one: one.rest)
        force = sum(part * part for part in worst.applied) ** 0.5
        rest = show(worst.rest, "force", system) if worst.rest >= 0.01 else f"under {show(0.01, 'force', system, 1)}"
        words = f"load in = pins{_holder(assessment)} back; largest rest {rest} of {show(force, 'force', system)}"
        lines.append(wrapped(f"every case: {words}", width))
    return "\n".join(lines)


def _holder(assessment: Assessment) -> str:
    """Name what holds the surface beside its pins."""
    return "" if assessment.horn_pull is None else f" and {assessment.horn_pull.kind.removeprefix('torque ')}"


def _margins(assessment: Assessment, system: System, width: int) -> str:
    table = margin_table(assessment, system)
    lines = [f"LOWEST {'FIVE' if len(table.rows) == 5 else len(table.rows)} of {len(assessment.margins)} margins"]
    if table.rows:
        lines.append(table.text(width))
    else:
        lines = ["MARGINS  no margin yet; what hides them:"]
    less = sum(finding.margin < 0.0 for finding in assessment.margins if finding.margin is not None)
    if less:
        lines.append(f"less than required: {less}")
    given = not_given_lines(assessment, system)
    lines += [wrapped(line, width, "", "  ") for line in given[:_MOST]]
    if len(given) > _MOST:
        lines.append(f"not given: {len(given) - _MOST} more, on the page")
    return "\n".join(lines)


def not_given_lines(assessment: Assessment, system: System = "metric") -> list[str]:
    """Turn every unknown strength round: what it must be at least, at its worst place.

    Parameters
    ----------
    assessment : Assessment
        Worked.
    system : {"metric", "inch"}
        Units.

    Returns
    -------
    list of str
        One line for each thing to ask for; then the values that hide more than a strength.
    """
    asked: dict[tuple[str, str], list[tuple[float, str]]] = {}
    hidden: dict[str, int] = {}
    for finding in assessment.not_given:
        least = needed(finding)
        if least is None:
            for key in finding.missing:
                hidden[key] = hidden.get(key, 0) + 1
            continue
        worth = show(least.si, least.quantity, system)
        must = f"each must carry {worth}" if least.quantity == "force" else f"must be at least {worth}"
        words = f"{must} {at_state(finding)} ({in_system(finding.part, system)})"
        asked.setdefault((least.key, least.means), []).append((least.si, words))
    lines = [
        f"not given: {key}, {means}: {max(found, key=lambda one: one[0])[1]}"
        for (key, means), found in sorted(asked.items(), key=lambda item: -len(item[1]))
    ]
    return lines + [f"not given: {key}, hides {n} check{'s' if n > 1 else ''}" for key, n in hidden.items()]


def rule_lines(assessment: Assessment, system: System = "metric") -> list[str]:
    """Say what the rules say: those not met first, then what no text covers, then how many are met.

    Parameters
    ----------
    assessment : Assessment
        Worked.
    system : {"metric", "inch"}
        Units.

    Returns
    -------
    list of str
        One line each.
    """
    counted = [rule for rule in assessment.rules if rule.counts]
    wanted = (DOES_NOT_MEET, NOT_COVERED)
    lines = [_rule(rule, assessment, system) for one in wanted for rule in counted if rule.outcome == one]
    met = sum(rule.outcome == MEETS for rule in counted)
    other = sorted({rule.field for rule in assessment.rules if not rule.counts})
    tail = f"; texts for other work ({', '.join(other)}) are on the page, not counted" if other else ""
    return [*lines, f"meets {met}{tail}"] if assessment.rules else []


def _rule(rule: RuleResult, assessment: Assessment, system: System) -> str:
    said = rule.said(lambda si, quantity: show(si, quantity, system))
    count, colon, _ = rule.place.partition(" places:")
    place = f"{count} places, one remark" if colon else place_words(rule.place, assessment.surface)
    return f"{rule.outcome}: {said} ({place})" if place else f"{rule.outcome}: {said}"


def _wrinkles(assessment: Assessment, system: System) -> list[str]:
    below = [f for f in assessment.statements if f.margin is not None and f.margin < 0.0]
    if not below:
        return []
    first = below[0]
    assert first.margin is not None  # noqa: S101 - statements below limit have one
    at = f"{in_system(first.part, system)}: from {first.margin + 1.0:.2f} of limit load ({case_words(first.case)})"
    more = f"; {len(below) - 1} more" if len(below) > 1 else ""
    nose = ", but for the nose" if any(f.check.place == "panel.nose_skin" for f in below) else ""
    return [f"{at}{more}. No failure by itself; the rows' margins hold what it adds{nose}"]


def notebook_html(assessment: Assessment, system: System = "metric") -> str:
    """Write what a notebook shows of an assessment.

    Parameters
    ----------
    assessment : Assessment
        Worked.
    system : {"metric", "inch"}
        Units.

    Returns
    -------
    str
        HTML, every text escaped.
    """
    surface = assessment.surface
    facts = f"{surface.title}, {len(assessment.cases)} load cases, limit loads"
    head = f"<h4>{escaped(surface.name)}</h4><p>{escaped(facts)}</p>"
    less = sum(f.margin < 0.0 for f in assessment.margins if f.margin is not None)
    margins = margin_table(assessment, system)
    lists = {
        f"Lowest margins, of {len(assessment.margins)}; less than required: {less}": margins.html(),
        "Loads": pin_table(assessment, system).html(),
        "Rules": _items(rule_lines(assessment, system)),
        "Not given": _items(not_given_lines(assessment, system)),
        "Balance": f"<p>{escaped(balance_line(assessment, system))}</p>",
        "Not looked at": f"<p>{escaped(', '.join(assessment.not_looked_at))}</p>",
    }
    body = "".join(f"<h5>{escaped(name)}</h5>{inner}" for name, inner in lists.items() if inner)
    return f"<div>{head}{body}<p><em>{escaped(plain(assessment.caution))}</em></p></div>"


def _items(lines: list[str]) -> str:
    return f"<ul>{''.join(f'<li>{escaped(line)}</li>' for line in lines)}</ul>" if lines else ""
