"""A row with rivets out, in words and tables: the sentence first, then what each neighbour gets."""

from __future__ import annotations

from typing import TYPE_CHECKING

from surfacecheck.assessment import CAUTION, case_words, in_system, margin_text
from surfacecheck.checks import Outcome
from surfacecheck.quantities import show
from surfacecheck.tables import Table, escaped, wrapped

if TYPE_CHECKING:
    from surfacecheck.quantities import System
    from surfacecheck.studies.losing._missing_gap import Gap
    from surfacecheck.studies.losing._missing_row import MissingRow, Shared

__all__ = [
    "NOT_IN",
    "gap_words",
    "missing_row_headline",
    "missing_row_html",
    "missing_row_notes",
    "missing_row_text",
    "neighbour_table",
    "numbers_words",
    "study_html",
]

NOT_IN = "not looked at: bending of the lap, friction, rivets beyond their elastic range, fatigue"


def numbers_words(numbers: tuple[int, ...]) -> str:
    """Write numbers of rivets as words.

    Examples
    --------
    >>> numbers_words((12,)), numbers_words((12, 13, 20))
    ('rivet 12', 'rivets 12, 13 and 20')
    """
    if len(numbers) == 1:
        return f"rivet {numbers[0]}"
    return f"rivets {', '.join(str(n) for n in numbers[:-1])} and {numbers[-1]}"


def _times(values: list[float]) -> str:
    low, high = (f"{v:.2f}" for v in (min(values), max(values)))
    return low if low == high else f"{low} to {high}"


def _margin(one: Shared) -> str:
    return "not given" if one.margin is None else margin_text(one.margin)


def neighbour_table(study: MissingRow, system: System = "metric") -> Table:
    """Put the neighbours in a table.

    Parameters
    ----------
    study : MissingRow
        Worked.
    system : {"metric", "inch"}
        Units.

    Returns
    -------
    Table
        Shear of one rivet at limit as drawn; times that by the spring model, least to most of the formulas, and with
        every gap halved; the largest shear of these; margins as drawn and now; where a strength is not given, what it
        must be good for at ultimate.
    """
    asks = any(one.bound.asks is not None for one in study.neighbours)
    rows = []
    for one in study.neighbours:
        place = "" if study.line.rib else f" {in_system(one.place, system)}"
        row = [
            f"{one.number}{place}",
            show(one.drawn.shear, "force", system),
            _times([s.growth for s in one.springs]) if one.springs else "-",
            f"{one.bound.growth:.2f}",
            show(max(s.shear for s in one.shared), "force", system),
            _margin(one.drawn),
            _margin(_worse(one.shared)),
        ]
        if asks:
            least = max((s.asks for s in one.shared if s.asks is not None), default=None)
            row.append("-" if least is None else show(least, "force", system))
        rows.append(tuple(row))
    heads = ("rivet", "drawn", "x, springs", "x, halved", "at most", "margin", "now", *(("asks",) if asks else ()))
    note = "x: times the load as drawn" + ("; asks: what each must be good for at ultimate" if asks else "")
    return Table(heads, tuple(rows), caption="Shear of one rivet at limit, and its lowest margin", note=note)


def _worse(shared: tuple[Shared, ...]) -> Shared:
    known = [one for one in shared if one.margin is not None]
    return min(known, key=lambda one: one.margin, default=shared[0])  # type: ignore[arg-type, return-value]


def gap_words(gap: Gap, system: System = "metric") -> str:
    """Say what the sheet does at a gap.

    Parameters
    ----------
    gap : Gap
        Of a row.
    system : {"metric", "inch"}
        Units.

    Returns
    -------
    str
        A sentence or two.
    """
    sheet = gap.sheet
    free, drawn = (show(v, "length", system) for v in (gap.length, gap.pitch))
    if gap.before is None or gap.after is None:
        return f"The {sheet} is free for {free} at the end of the row, {drawn} is the pitch."
    said = f"Between rivets {gap.before} and {gap.after} the {sheet} is free for {free} instead of {drawn}"
    if gap.buckles is None or gap.drawn is None:
        return f"{said}: it buckles there at {gap.ratio:.2f} of the stress."
    now, was = (show(v, "stress", system) for v in (gap.buckles, gap.drawn))
    said = f"{said}: it buckles there at {now}, {gap.ratio:.2f} of {was}."
    if gap.pressed is None:
        return f"{said} How far it is pressed along this row is not worked."
    if gap.share is None:
        return f"{said} Nothing presses it there."
    pressed = show(gap.pressed, "stress", system)
    return f"{said} At limit it is pressed with {pressed}: it buckles from {gap.share:.2f} of limit load."


def missing_row_headline(study: MissingRow, system: System = "metric") -> str:
    """Say in a sentence or two what rivets out come to.

    Parameters
    ----------
    study : MissingRow
        Worked.
    system : {"metric", "inch"}
        Units.

    Returns
    -------
    str
        What the neighbours get, and the margin.
    """
    worst = study.worst
    most = max(worst.shared, key=lambda one: one.growth)
    springs = [one.growth for one in worst.springs]
    said = f"Rivet {worst.number} gets {f'{_times(springs)} times its load by the spring model, ' if springs else ''}"
    said += f"{worst.bound.growth:.2f} times with every gap halved: {show(most.shear, 'force', system)} at limit, "
    said += f"{show(worst.drawn.shear, 'force', system)} as drawn."
    lowest = _worse(worst.shared)
    if lowest.margin is None:
        return f"{said} Its margin is not given."
    outcome = Outcome.CARRIES if lowest.margin >= 0.0 else Outcome.LESS
    return f"{said} Its lowest margin {margin_text(lowest.margin)} ({lowest.gives}): {outcome}."


def missing_row_notes(study: MissingRow, system: System = "metric") -> tuple[str, ...]:
    """List what stands beside the numbers: other paths, flexibilities with their sources, what is not looked at.

    Parameters
    ----------
    study : MissingRow
        Worked.
    system : {"metric", "inch"}
        Units.

    Returns
    -------
    tuple of str
        One line each.
    """
    notes = []
    for path in study.others:
        margin = None if path.lowest is None else path.lowest.margin
        known = "" if margin is None else f"; their lowest margin {margin_text(margin)}"
        rows = ", ".join(name.replace("_", " ") for name in path.rows)
        notes.append(f"other path: {path.words} ({rows}{known}); it is not in these numbers")
    if not study.others:
        notes.append("other path: none that this method knows")
    notes.append(
        "halved: each gap given half to each side, what rivets that do not give would get: a bound beside the gap"
    )
    if study.springs is not None:
        each = [
            f"{source.text.split(',')[0]} {show(1.0 / C, 'stiffness', system)}"
            for source, C in zip(study.springs.sources, study.springs.C, strict=True)
        ]
        notes.append(f"springs: stiffness of one rivet by {'; '.join(each)} (as quoted in secondary text)")
        notes += study.springs.notes
    else:
        notes.append("spring model not given: it needs the rivet's diameter, and thickness and alloy of the sheets")
    notes += [gap.source.text for gap in study.gaps[:1] if gap.source is not None]
    notes.append("the pull along a rivet is taken to grow as its shear does")
    return (*notes, *study.line.load.notes, NOT_IN)


def _title(study: MissingRow, system: System) -> str:
    return f"{in_system(study.line.part, system)}, {numbers_words(study.out)} out"


def missing_row_text(study: MissingRow, system: System = "metric", width: int = 80) -> str:
    """Write a row with rivets out for a terminal.

    Parameters
    ----------
    study : MissingRow
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
    said = " ".join([missing_row_headline(study, system), *(gap_words(gap, system) for gap in study.gaps)])
    blocks = [
        wrapped(f"ROW WITH RIVETS OUT  {_title(study, system)}", width, then="  "),
        wrapped(said, width),
        neighbour_table(study, system).text(width),
        wrapped(f"case: {case_words(study.worst.bound.case)} (rivet {study.worst.number})", width, then="  "),
        "\n".join(wrapped(note, width, then="  ") for note in missing_row_notes(study, system)),
        wrapped(CAUTION, width),
    ]
    return "\n\n".join(blocks)


def missing_row_html(study: MissingRow, system: System = "metric") -> str:
    """Write a row with rivets out for a notebook or a page.

    Parameters
    ----------
    study : MissingRow
        Worked.
    system : {"metric", "inch"}
        Units.

    Returns
    -------
    str
        HTML, every text escaped.
    """
    said = " ".join([missing_row_headline(study, system), *(gap_words(gap, system) for gap in study.gaps)])
    return study_html(_title(study, system), said, neighbour_table(study, system), missing_row_notes(study, system))


def study_html(title: str, said: str, table: Table, notes: tuple[str, ...]) -> str:
    """Put title, sentence, table and notes of a study together, every text escaped."""
    lines = "".join(f"<li>{escaped(note)}</li>" for note in notes)
    head = f"<p><strong>{escaped(title)}</strong></p><p>{escaped(said)}</p>"
    return f"<div>{head}{table.html()}<ul>{lines}</ul><p><em>{escaped(CAUTION)}</em></p></div>"
