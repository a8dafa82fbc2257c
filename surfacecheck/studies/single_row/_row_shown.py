"""A row on its own in words: the headline first, then one table, then what it rests on."""

from __future__ import annotations

from typing import TYPE_CHECKING

from surfacecheck.assessment import CAUTION
from surfacecheck.quantities import show
from surfacecheck.studies.single_row._row import LARGE
from surfacecheck.tables import Table, escaped, wrapped

if TYPE_CHECKING:
    from collections.abc import Callable

    from surfacecheck.quantities import System
    from surfacecheck.studies.single_row._row import RowOption, RowStudy

__all__ = ["headline", "row_study_html", "row_study_table", "row_study_text"]

_ASKS = "The drawing decides; ask before you change it."


def headline(study: RowStudy, system: System = "metric") -> str:
    """Say in one or two sentences what the row comes to.

    Parameters
    ----------
    study : RowStudy
        Worked.
    system : {"metric", "inch"}
        Units.

    Returns
    -------
    str
        Whether strength sets this pitch; or what must be carried, where no strength was given.
    """
    said = []
    if study.drilled_at is not None:
        said.append(f"Drilled already at {show(study.drilled_at, 'length', system)}: only leaving rivets out is real.")
    margins = [(option, option.lowest) for option in study.options]
    least = [f.margin for _, f in margins if f is not None and f.margin is not None]
    if not study.shear_given:
        loads = _each(study, lambda option: show(option.must_carry, "force", system))
        said.append(
            f"No rivet strength given: each rivet must carry {loads} at ultimate; look for that on the data sheet."
        )
        known = f"By the sheet{'s' if any(f and 'inner' in f.gives for _, f in margins) else ''} alone, "
    else:
        known = "By what was looked at, "
    if least and min(least) < 0.0:
        short = [o for o, f in margins if f is not None and f.margin is not None and f.margin < 0.0]
        where = " and ".join(show(o.pitch, "length", system) for o in short)
        said.append(f"{known}less than required at {where}.")
    elif least and min(least) >= LARGE and study.shear_given and study.alloy:
        widest = max(o.pitch * (1.0 + f.margin) for o, f in margins if f is not None and f.margin is not None)
        said.append(f"Strength does not set this pitch: it would carry {show(widest, 'length', system, 2)}.")
        said.append("What sets it: the sheet between rivets, sealing, habit.")
    elif least:
        option, first = min(
            ((o, f) for o, f in margins if f is not None and f.margin is not None),
            key=lambda pair: pair[1].margin or 0.0,
        )
        said.append(
            f"{known}lowest margin {first.margin:+z.2f} at {show(option.pitch, 'length', system)}: {first.gives}."
        )
    return " ".join(said)


def _each(study: RowStudy, write: Callable[[RowOption], str]) -> str:
    return " or ".join(dict.fromkeys(write(option) for option in study.options))


def row_study_table(study: RowStudy, system: System = "metric") -> Table:
    """Put the options side by side.

    Parameters
    ----------
    study : RowStudy
        Worked.
    system : {"metric", "inch"}
        Units.

    Returns
    -------
    Table
        A column a pitch.
    """
    options = study.options
    first = options[0]

    def line(name: str, write: Callable[[RowOption], str]) -> tuple[str, ...]:
        cells = (write(option) for option in options)
        return (name, *cells)

    def length(si: float) -> str:
        return show(si, "length", system)

    def times(now: float, then: float) -> str:
        return "" if now == then else f" x {now / then:.2f}"

    rows = []
    if study.drilled_at is not None:
        rows.append(line("holes left empty", lambda o: o.left_out))
    elif study.length is not None:
        rows.append(line("asked", lambda o: length(o.asked)))
    if study.length is not None:
        rows.append(line("rivets, both ends in", lambda o: str(o.count)))
    rows += [
        line("one rivet at limit", lambda o: show(o.load, "force", system) + times(o.load, first.load)),
        line("must carry at ultimate", lambda o: show(o.must_carry, "force", system)),
    ]
    for finding in first.findings:
        mode = finding.check.mode
        rows.append(line(finding.gives, lambda o, mode=mode: _margin(o, mode, system)))  # type: ignore[misc]
    rows.append(line("sheet buckles from", lambda o: _buckling(o, system) + times(o.strain[0], first.strain[0])))
    for at, rule in enumerate(first.rules):
        rows.append(line(_rule_name(rule.name, rule.counts), lambda o, at=at: _rule(o, at, system)))  # type: ignore[misc]
    heads = ("pitch", *(length(option.pitch) for option in options))
    return Table(heads, tuple(rows))


def _margin(option: RowOption, mode: str, system: System) -> str:
    found = option.finding(mode)
    assert found is not None and found.required is not None  # noqa: S101, PT018 - the same checks at every pitch
    if found.margin is None:
        least = show(found.required, "stress" if "crush" in mode else "force", system)
        return f"asks {least}"
    return f"{found.margin:+z.2f}"


def _buckling(option: RowOption, system: System) -> str:
    if option.buckling is None:
        low, high = (1e6 * strain for strain in option.strain)
        return f"{low:.0f} to {high:.0f} E-6"
    low_text, high_text = (show(stress, "stress", system, 2) for stress in option.buckling)
    return f"{low_text.split()[0]} to {high_text}"


def _rule_name(name: str, counts: bool) -> str:
    return name if counts else f"band: {name}"


def _rule(option: RowOption, at: int, system: System) -> str:
    rule = option.rules[at]
    limit = show(rule.asked, rule.quantity, system)
    return f"{rule.outcome}, {limit}" if rule.counts else limit


def row_study_text(study: RowStudy, system: System = "metric", width: int = 80) -> str:
    """Write a row on its own for a terminal.

    Parameters
    ----------
    study : RowStudy
        Worked.
    system : {"metric", "inch"}
        Units.
    width : int
        Columns.

    Returns
    -------
    str
        ASCII lines.
    """
    given = (
        f"rivet {show(study.diameter, 'length', system)}, sheet {show(study.sheet, 'length', system)}"
        f"{' ' + study.alloy if study.alloy else ', metal not given'}, "
        f"{show(study.load_per_length, 'line_load', system)} of row at limit"
    )
    if study.length is not None:
        given += f", {show(study.length, 'length', system)} from first rivet to last"
    strain = "" if study.alloy else " (a strain: times E of the metal)"
    asked = any(found.margin is None for option in study.options for found in option.findings)
    notes = [
        *(["asks: no strength given; what it must be good for"] if asked else []),
        f"sheet buckles from: compression along the row{strain}, for c = 2 to 3 (no published c for blind rivets)",
        "bands: texts for sealed steel, civil work or training; shown, not counted",
        f"factors: {study.factors}",
        *(f"taken for granted: {one}" for one in study.assumptions),
        "not looked at: pull, wrinkling of the sheet, fatigue, fit of the rivet, the rest of the surface",
    ]
    blocks = [wrapped("ROW ON ITS OWN  " + given, width, then="  "), wrapped(headline(study, system), width)]
    blocks.append(_tables(study, system, width))
    blocks.append("\n".join(wrapped(note, width, then="  ") for note in notes))
    blocks.append(wrapped(f"{_ASKS} {CAUTION}", width))
    return "\n\n".join(blocks)


def row_study_html(study: RowStudy, system: System = "metric") -> str:
    """Write a row on its own for a notebook.

    Parameters
    ----------
    study : RowStudy
        Worked.
    system : {"metric", "inch"}
        Units.

    Returns
    -------
    str
        HTML, every text escaped.
    """
    said = f"<p>{escaped(headline(study, system))}</p>"
    foot = f"<p>{escaped('; '.join((f'factors: {study.factors}', *study.assumptions)))}</p>"
    return f"<div>{said}{row_study_table(study, system).html()}{foot}<p><em>{escaped(CAUTION)}</em></p></div>"


def _tables(study: RowStudy, system: System, width: int) -> str:
    """Write the table, in parts of as many pitches as fit."""
    whole = row_study_table(study, system)
    parts, columns = [], list(range(1, len(whole.heads)))
    while columns:
        take = len(columns)
        while True:
            keep = (0, *columns[:take])
            part = Table(tuple(whole.heads[c] for c in keep), tuple(tuple(row[c] for c in keep) for row in whole.rows))
            text = part.text(width)
            if take == 1 or max(len(one) for one in text.split("\n")) <= width:
                break
            take -= 1
        parts.append(text)
        columns = columns[take:]
    return "\n\n".join(parts)
