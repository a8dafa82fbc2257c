"""One gone at a time, in words, one table, plain data."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from surfacecheck.assessment import CAUTION, finding_data, in_system, margin_text
from surfacecheck.checks import Outcome
from surfacecheck.quantities import show
from surfacecheck.tables import Table, escaped, wrapped

if TYPE_CHECKING:
    from collections.abc import Sequence

    from surfacecheck.quantities import System
    from surfacecheck.studies.losing._gone_item import GoneItem, Growth, OneGone

__all__ = [
    "gone_data",
    "gone_headline",
    "gone_html",
    "gone_notes",
    "gone_remarks",
    "gone_table",
    "gone_text",
    "worst_of_groups",
]


def worst_of_groups(gone: OneGone) -> tuple[GoneItem, ...]:
    """Give hinges and ribs, and of every group of rivets the one whose loss leaves least."""
    groups: dict[str, GoneItem] = {}
    for item in (*gone.of("bracket"), *gone.of("horn")):
        place = item.name.rpartition(".")[0]
        if place not in groups or item.worst_first < groups[place].worst_first:
            groups[place] = item
    return (*gone.of("hinge"), *gone.of("rib"), *groups.values())


def gone_headline(gone: OneGone, system: System = "metric") -> str:
    """Say in a few sentences what cannot be lost.

    Parameters
    ----------
    gone : OneGone
        Worked.
    system : {"metric", "inch"}
        Units.

    Returns
    -------
    str
        How many were taken away, how many leave less than required, which leaves least.
    """
    known = [one for one in gone.items if one.margin is not None]
    short = [one for one in gone.items if one.outcome == Outcome.LESS]
    loose = [one for one in gone.items if one.free]
    lost = [one for one in gone.items if one.outcome == Outcome.OUTSIDE and not one.free]
    said = [f"{len(gone.items)} taken away, one at a time."]
    if gone.assessment.margins:
        first = gone.assessment.margins[0]
        said.append(
            f"As drawn: lowest {margin_text(first.margin or 0.0)}, {in_system(first.part, system)}, {first.gives}."
        )
    if known:
        without = f" without {_names(short, system)}" if short else " in none"
        said.append(f"{Outcome.LESS.capitalize()}{without}.")
    if loose:
        said.append(f"Not held without {_names(loose, system)}.")
    if lost:
        said.append(f"{Outcome.OUTSIDE.capitalize().replace(': ask', '')} without {_names(lost, system)}: ask.")
    return " ".join(said)


MANY = 4
"""Names that are listed in a sentence."""


def _names(items: Sequence[GoneItem], system: System) -> str:
    parts = [in_system(one.part, system) for one in items[:MANY]]
    more = f" and {len(items) - MANY} more" if len(items) > MANY else ""
    return "; ".join(parts) + more


def gone_table(gone: OneGone, system: System = "metric", items: Sequence[GoneItem] | None = None) -> Table:
    """Put what was taken away in a table.

    Parameters
    ----------
    gone : OneGone
        Worked.
    system : {"metric", "inch"}
        Units.
    items : sequence of GoneItem, optional
        Some of its items; all where not given.

    Returns
    -------
    Table
        What is gone; lowest margin anywhere; lowest of what its loss changes, and what gives there; load that grows
        most.
    """
    rows = [
        (
            in_system(one.part, system),
            "-" if one.margin is None else margin_text(one.margin),
            "-" if one.here is None or one.here.margin is None else margin_text(one.here.margin),
            _where(one, system),
            _growth(one.growth, system),
        )
        for one in (gone.items if items is None else items)
    ]
    heads = ("gone", "anywhere", "here", "gives first here", "grows most")
    return Table(heads, tuple(rows), "lrrll", "Lowest margin then, anywhere and here", HERE)


HERE = "here: of what its loss lowers by more than a hundredth"


def _where(one: GoneItem, system: System) -> str:
    if one.here is None:
        return "-"
    group = one.part.rpartition(",")[0]
    part = one.here.part.removeprefix(f"{group}, ") if group else one.here.part
    return f"{in_system(part, system)}: {one.here.gives}"


def _growth(growth: Growth | None, system: System) -> str:
    if growth is None:
        return "-"
    before, after = (show(v, "force", system) for v in (growth.before, growth.after))
    return f"{growth.what}, {before.split()[0]} to {after}, x {growth.times:.2f}"


def gone_remarks(gone: OneGone, system: System = "metric") -> tuple[str, ...]:
    """Say of every item what its numbers do not.

    Parameters
    ----------
    gone : OneGone
        Worked.
    system : {"metric", "inch"}
        Units.

    Returns
    -------
    tuple of str
        What then moves freely, what the method cannot answer, what was taken for granted.
    """
    out = []
    for one in gone.items:
        lost = [f"{f.part}: {f.gives}; {Outcome.OUTSIDE}" for f in one.lost]
        said = [*([one.free] if one.free else []), *lost, *one.notes]
        if said:
            out.append(in_system(f"{one.part}: {'; '.join(said)}", system))
    return tuple(out)


def gone_notes(gone: OneGone, system: System = "metric") -> tuple[str, ...]:
    """List what stands beside the numbers.

    Parameters
    ----------
    gone : OneGone
        Worked.
    system : {"metric", "inch"}
        Units.

    Returns
    -------
    tuple of str
        What was taken for granted, what could not be looked at, what is not given.
    """
    notes = [
        "a hinge gone: the spar on the others; the opening in the nose and the weight stay",
        "a rib gone: its rows hand nothing over, the panels beside it are one",
        "a rivet gone: rigid plate on equal rivets, elastic, no heel",
    ]
    asks = [one.asks for one in gone.items if one.asks is not None]
    if asks:
        worst = max(asks, key=lambda one: one.times)
        item = next(one for one in gone.items if one.asks is worst)
        before, after = (show(v, "force", system) for v in (worst.before, worst.after))
        without = in_system(item.part, system)
        notes.append(f"not given: {worst.what}; each must be good for {after} without {without}, {before} as drawn")
    notes += [f"not looked at: {text}" for text in gone.left_out]
    return (*notes, "not looked at: two at a time, how it comes to be gone, the load of the moment it goes, fatigue")


def gone_text(gone: OneGone, system: System = "metric", width: int = 80) -> str:
    """Write it for a terminal: hinges, ribs, and the worst rivet of every group.

    Parameters
    ----------
    gone : OneGone
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
    items, remarks = worst_of_groups(gone), gone_remarks(gone, system)
    left = len(gone.items) - len(items)
    more = f"of each group of rivets the one whose loss leaves least; {left} more on the page" if left else ""
    blocks = [
        wrapped(f"ONE GONE AT A TIME  {gone.assessment.surface.name or 'no name given'}", width, then="  "),
        wrapped(gone_headline(gone, system), width),
        gone_table(gone, system, items).text(width),
        *(["\n".join(wrapped(one, width, then="  ") for one in remarks)] if remarks else []),
        "\n".join(wrapped(note, width, then="  ") for note in ([more] if more else []) + [*gone_notes(gone, system)]),
        wrapped(CAUTION, width),
    ]
    return "\n\n".join(blocks)


def gone_html(gone: OneGone, system: System = "metric") -> str:
    """Write it for a notebook: every item.

    Parameters
    ----------
    gone : OneGone
        Worked.
    system : {"metric", "inch"}
        Units.

    Returns
    -------
    str
        HTML, every text escaped.
    """
    lines = "".join(f"<li>{escaped(note)}</li>" for note in (*gone_remarks(gone, system), *gone_notes(gone, system)))
    head = f"<p>{escaped(gone_headline(gone, system))}</p>"
    return f"<div>{head}{gone_table(gone, system).html()}<ul>{lines}</ul><p><em>{escaped(CAUTION)}</em></p></div>"


def gone_data(gone: OneGone) -> dict[str, Any]:
    """Turn it into plain data.

    Parameters
    ----------
    gone : OneGone
        Worked.

    Returns
    -------
    dict
        ``form``, ``drawn``, and one entry of ``items`` for each thing taken away.
    """
    first = gone.assessment.margins[0] if gone.assessment.margins else None
    return {
        "form": 1,
        "units": "SI",
        "drawn": None if first is None else finding_data(first),
        "items": [
            {
                "kind": one.kind,
                "name": one.name,
                "part": one.part,
                "outcome": one.outcome,
                "free": one.free or None,
                "lowest": None if one.lowest is None else finding_data(one.lowest),
                "here": None if one.here is None else finding_data(one.here),
                "growth": _growth_data(one.growth),
                "asks": _growth_data(one.asks),
                "outside": [f.name for f in one.lost],
                "notes": list(one.notes),
            }
            for one in gone.items
        ],
        "left_out": list(gone.left_out),
        "caution": CAUTION,
    }


def _growth_data(growth: Growth | None) -> dict[str, Any] | None:
    return None if growth is None else {"what": growth.what, "before": growth.before, "after": growth.after}
