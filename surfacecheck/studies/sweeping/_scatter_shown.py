"""A scatter in words: how the margins lie, what drives them, which rules samples do not meet, what was varied."""

from __future__ import annotations

from typing import TYPE_CHECKING

from surfacecheck.assessment import CAUTION, in_system, margin_text
from surfacecheck.studies.sweeping._tolerances import LIMITS
from surfacecheck.tables import Table, escaped, wrapped

if TYPE_CHECKING:
    from surfacecheck.quantities import System
    from surfacecheck.studies.sweeping._scatter_result import MarginScatter, Scatter

__all__ = [
    "NO_CHANCE",
    "driver_table",
    "percent",
    "rule_scatter_table",
    "scatter_headline",
    "scatter_html",
    "scatter_notes",
    "scatter_table",
    "scatter_text",
    "spread_table",
]

NO_CHANCE = (
    "How margins scatter is no chance of failure: only what is listed varies; loads, every other strength and "
    "the method stay what they are."
)
_PARTS, _DRIVERS = 8, 3
_SPANS = ((0.0, "least"), (0.05, "1 in 20"), (0.5, "half"), (0.95, "19 in 20"))


def percent(share: float) -> str:
    """Write a share of the samples; a few of many are not nought.

    Parameters
    ----------
    share : float
        0 to 1 [-].

    Returns
    -------
    str
        In whole per cent, or words.

    Examples
    --------
    >>> percent(0.0), percent(0.0004), percent(0.256), percent(0.9999), percent(1.0)
    ('none', 'under 1 %', '26 %', 'over 99 %', 'all')
    """
    if share in {0.0, 1.0}:
        return "all" if share else "none"
    return "under 1 %" if share < 0.01 else "over 99 %" if share > 0.99 else f"{100 * share:.0f} %"


def _words(one: MarginScatter, system: System) -> str:
    return in_system(f"{one.part}: {one.gives}" if one.part else one.name, system)


def scatter_headline(scatter: Scatter, system: System = "metric") -> str:
    """Say in a few sentences how the lowest margin scatters and what drives it.

    Parameters
    ----------
    scatter : Scatter
        Worked.
    system : {"metric", "inch"}
        Units.

    Returns
    -------
    str
        Sentences.
    """
    low = scatter.lowest
    low_text, high_text = margin_text(low.at(0.05)), margin_text(low.at(0.95))
    lies = f"between {low_text} and {high_text}" if low_text != high_text else f"at {low_text}"
    said = [f"The lowest margin is {margin_text(low.given)} as described; nine samples in ten have it {lies}."]
    name, share = next(iter(scatter.governs.items()))
    governs = f"It is that of {_words(scatter.margin(name), system)}"
    said.append(f"{governs} in {percent(share)} of them." if share < 1.0 else f"{governs} in all of them.")
    if low.told:
        said.append(f"Mostly driven by {low.told[0].key} ({percent(low.told[0].share)} of it).")
    else:
        said.append("Nothing that varies here moves it by a hundredth.")
    if low.below:
        said.append(f"Less than required in {percent(low.below)} of the samples.")
    often = [one for one in scatter.rules if one.broken]
    if often:
        worst = max(often, key=lambda one: one.broken)
        said.append(f"{len(often)} rules are not met by some: {worst.rule.name}, {worst.rule.place}, "
                    f"by {percent(worst.broken)}.")  # fmt: skip
    return " ".join(said)


def scatter_table(scatter: Scatter, most: int = _PARTS, system: System = "metric") -> Table:
    """Put the lowest margin of each part in a table.

    Parameters
    ----------
    scatter : Scatter
        Worked.
    most : int
        Parts at most.
    system : {"metric", "inch"}
        Units.

    Returns
    -------
    Table
        As described, and what shares of the samples lie at or below [-].
    """
    heads = ("margin", "as given", *(word for _, word in _SPANS), "below 0")
    rows = []
    for i, one in enumerate(scatter.by_part[:most], 1):
        spans = (margin_text(one.at(share)) for share, _ in _SPANS)
        rows.append((f"{i} {_words(one, system)}", margin_text(one.given), *spans, percent(one.below)))
    note = "so many samples lie at or below; the lowest check of each part, lowest first"
    return Table(heads, tuple(rows), caption="MARGINS", note=note)


def driver_table(scatter: Scatter, most: int = _PARTS, system: System = "metric") -> Table:
    """Put what drives the lowest margin of each part in a table.

    Parameters
    ----------
    scatter : Scatter
        Worked.
    most : int
        Parts at most.
    system : {"metric", "inch"}
        Units.

    Returns
    -------
    Table
        The first drivers of each, with their share and what more of them does.
    """
    rows = []
    for i, one in enumerate(scatter.by_part[:most], 1):
        drivers = [(driver.key, percent(driver.share), driver.way) for driver in one.told[:_DRIVERS]]
        for at, (key, share, way) in enumerate(drivers or [("nothing moves it by a hundredth", "", "")]):
            rows.append((f"{i} {one.part}" if at == 0 else "", key, share, way))
    note = (
        "first-order share of the scatter, of ranks: what is gone where this number is held; either way: the margin is "
        "best somewhere between"
    )
    return Table(("margin", "driven by", "share", "more of it"), tuple(rows), "llrl", "WHAT DRIVES THEM", note)


def rule_scatter_table(scatter: Scatter) -> Table:
    """Put the rules that some samples do not meet, or that do not cover some, in a table.

    Parameters
    ----------
    scatter : Scatter
        Worked.

    Returns
    -------
    Table
        Without a row where every sample meets every rule that covers it.
    """
    rows = []
    for one in scatter.rules:
        if one.broken or 0.0 < one.uncovered < 1.0:
            cells = percent(one.broken), percent(one.uncovered)
            rows.append((f"{one.rule.name}: {one.rule.place}", one.rule.outcome, *cells))
    heads = ("rule", "as described", "does not meet", "not covered")
    return Table(heads, tuple(rows), "llrr", "RULES, share of the samples")


def spread_table(scatter: Scatter) -> Table:
    """Put what was varied, and how far, in a table.

    Parameters
    ----------
    scatter : Scatter
        Worked.

    Returns
    -------
    Table
        A row for each number that varies, with where its tolerance comes from.
    """
    rows = [(s.key, s.value.said, s.text, "bell" if s.bell else "even", str(s.source)) for s in scatter.spreads]
    note = f"even: every value between the limits alike; bell: a normal distribution, 95 % between them. {LIMITS.text}"
    return Table(("number", "given", "within", "shape", "where from"), tuple(rows), "llrll", "WHAT VARIES", note)


def _kinds(scatter: Scatter) -> list[str]:
    """Say what varies in a few lines: a tolerance each, with how many numbers have it and where it comes from."""
    kinds: dict[tuple[str, str], list[str]] = {}
    for one in scatter.spreads:
        kinds.setdefault((one.text, str(one.source)), []).append(one.key)
    lines = []
    for (text, source), keys in kinds.items():
        more = f" and {len(keys) - 1} more" if len(keys) > 1 else ""
        lines.append(f"{text}: {keys[0]}{more} ({source})")
    return lines


def scatter_notes(scatter: Scatter) -> tuple[str, ...]:
    """List what was taken for granted.

    Parameters
    ----------
    scatter : Scatter
        Worked.

    Returns
    -------
    tuple of str
        A sentence each.
    """
    notes = [
        NO_CHANCE,
        "Each number of the file varies by itself: all holes of one kind of rivet together, sheets of one coil not.",
        "A row keeps its first and last rivet; its count follows from the pitch.",
    ]
    if scatter.not_varied:
        notes.append(f"Least values of a data sheet do not vary: {', '.join(scatter.not_varied)}.")
    if scatter.why:
        first = next(iter(scatter.why.values()))
        notes.append(f"{len(scatter.why)} samples cannot exist and are left out; the first: {first}.")
    if scatter.stopped:
        notes.append(f"Stopped: {len(scatter)} of {scatter.asked} samples were finished, and only they are here.")
    return tuple(notes)


def _title(scatter: Scatter) -> str:
    surface = scatter.surface
    facts = [surface.name or "No name given", surface.title, f"{len(scatter):,} samples, seed {scatter.seed}"]
    return f"SCATTER  {', '.join([*facts, f'{len(scatter.spreads)} numbers vary'])}"


def scatter_text(scatter: Scatter, system: System = "metric", width: int = 80) -> str:
    """Write a scatter for a terminal.

    Parameters
    ----------
    scatter : Scatter
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
    rules = rule_scatter_table(scatter)
    blocks = [
        wrapped(_title(scatter), width),
        wrapped(scatter_headline(scatter, system), width),
        scatter_table(scatter, system=system).text(width),
        driver_table(scatter, system=system).text(width),
        rules.text(width) if rules.rows else "RULES  every sample meets each rule that covers it",
        "\n".join(["WHAT VARIES, within", *(wrapped(line, width, then="  ") for line in _kinds(scatter))]),
        "\n".join(wrapped(note, width) for note in scatter_notes(scatter)),
        wrapped(CAUTION, width),
    ]
    return "\n\n".join(blocks)


def scatter_html(scatter: Scatter, system: System = "metric") -> str:
    """Write a scatter for a notebook.

    Parameters
    ----------
    scatter : Scatter
        Worked.
    system : {"metric", "inch"}
        Units.

    Returns
    -------
    str
        HTML, every text escaped.
    """
    tables = (scatter_table(scatter, system=system), driver_table(scatter, system=system), rule_scatter_table(scatter))
    told = "".join(table.html() for table in tables if table.rows)
    notes = "".join(f"<p>{escaped(note)}</p>" for note in scatter_notes(scatter))
    head = f"<p>{escaped(_title(scatter))}</p><p><strong>{escaped(scatter_headline(scatter, system))}</strong></p>"
    return f"<div>{head}{told}{notes}<p><em>{escaped(CAUTION)}</em></p></div>"
