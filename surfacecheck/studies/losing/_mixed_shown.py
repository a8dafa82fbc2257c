"""A row of unlike rivets, in words, tables, plain data."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import numpy as np

from surfacecheck.assessment import CAUTION, case_words, in_system
from surfacecheck.quantities import show
from surfacecheck.strength.flexibility import FLEXIBILITY_SOURCES
from surfacecheck.tables import Table, escaped, wrapped

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from surfacecheck.quantities import System
    from surfacecheck.studies.losing._mixed_row import MixedRow, MixedShare

__all__ = ["mixed_data", "mixed_headline", "mixed_html", "mixed_notes", "mixed_table", "mixed_text", "shown_rivets"]

MOST = 12
"""Lines of a table."""
NEAR = 2
"""Rivets to either side of an unlike one that are shown."""


def shown_rivets(row: MixedRow) -> NDArray[np.intp]:
    """Give the places along the line that are shown: the unlike rivets and those beside them, so many at most."""
    here = np.isin(row.line.numbers[0], row.unlike)
    near = here.copy()
    for step in range(1, NEAR + 1):
        near[step:] |= here[:-step]
        near[:-step] |= here[step:]
    return np.flatnonzero(near)[:MOST]


def _name(formula: str) -> str:
    return FLEXIBILITY_SOURCES[formula].text.split(",")[0]


def _both(values: list[str]) -> str:
    return values[0] if len(set(values)) == 1 else " / ".join(values)


def _from(share: MixedShare, i: int, row: MixedRow) -> str:
    touched = float(share.pick_up[i])
    if not np.isfinite(touched):
        return "never"
    return "at once" if touched == 0.0 else f"{touched / row.limit:.2f}"


def mixed_table(row: MixedRow, system: System = "metric") -> Table:
    """Put the unlike rivets and their neighbours in a table, both formulas side by side.

    Parameters
    ----------
    row : MixedRow
        Worked.
    system : {"metric", "inch"}
        Units.

    Returns
    -------
    Table
        Kind, slack, the multiple of limit load from which it carries, load at limit and at ultimate, times an even
        share at limit.
    """
    at = {load: [share.at(load) for share in row.shares] for load in (row.limit, row.ultimate)}
    rows = []
    for i in shown_rivets(row).tolist():
        number = int(row.line.numbers[0, i])
        kind = row.other if number in row.unlike else row.rivet
        slack = float(row.slack[i])
        rows.append(
            (
                str(number),
                kind,
                "snug" if slack == 0.0 else show(slack, "length", system, 2),
                _both([_from(share, i, row) for share in row.shares]),
                *(_both([show(float(loads[i]), "force", system).split()[0] for loads in at[one]]) for one in at),
                _both([f"{loads[i] / row.even:z.2f}" for loads in at[row.limit]]),
            )
        )
    unit = show(1.0, "force", system).split()[1]
    heads = ("rivet", "kind", "slack", "carries from", f"limit, {unit}", f"ultimate, {unit}", "x even")
    caption = f"Load of each rivet, by {' / '.join(_name(share.formula) for share in row.shares)}"
    note = "carries from: multiple of limit load at which it begins; x even: load at limit over an even share"
    return Table(heads, tuple(rows), "lllrrrr", caption, note)


def mixed_headline(row: MixedRow, system: System = "metric") -> str:
    """Say in a few sentences how unlike rivets share.

    Parameters
    ----------
    row : MixedRow
        Worked.
    system : {"metric", "inch"}
        Units.

    Returns
    -------
    str
        What the unlike ones and the others carry at limit, against an even share.
    """
    here = np.isin(row.line.numbers[0], row.unlike)
    every = [share.at(row.limit) / row.even for share in row.shares]
    own = _spread([float(v) for loads in every for v in loads[here]])
    rest = max(float(loads[~here].max()) for loads in every)
    even = show(row.even, "force", system)
    said = f"At limit an even share is {even} a rivet. The unlike ones carry {own} of it, the others up to {rest:z.2f}."
    late = [share.pick_up[here] for share in row.shares]
    if all((one > row.ultimate).all() for one in late):
        said += " The loose ones carry nothing yet at ultimate: the row stands on the others."
    first = [row.first_used_up(share) for share in row.shares]
    found = [one for one in first if one is not None]
    if found:
        number, flow = min(found, key=lambda one: one[1])
        said += f" Rivet {number} is used up first, at {flow / row.limit:.2f} times limit load."
    elif row.strength is None:
        said += " Strengths are not given: which gives first is not known."
    return said


def _spread(values: list[float]) -> str:
    low, high = (f"{v:z.2f}" for v in (min(values), max(values)))
    return low if low == high else f"{low} to {high}"


def mixed_notes(row: MixedRow) -> tuple[str, ...]:
    """List what was taken for granted.

    Parameters
    ----------
    row : MixedRow
        Worked.

    Returns
    -------
    tuple of str
        One line each.
    """
    softer = f", the unlike ones {row.softer:g} times softer as said" if row.softer != 1.0 else ""
    names = "; and ".join(FLEXIBILITY_SOURCES[share.formula].text for share in row.shares)
    return (
        f"load: the largest beside the unlike rivets, even along the row ({case_words(row.case)})",
        f"stiffness by {names}{softer}",
        "each rivet slips by its slack, then is a spring; the sheets stretch over a width of one pitch",
        "none of the formulas was made for hollow rivets, which are softer",
        "not looked at: friction, rivets beyond their elastic range, which would even the loads out, fatigue",
    )


def _title(row: MixedRow, system: System) -> str:
    how = "loose" if row.slack.any() else "softer"
    kinds = f"{row.other} among {row.rivet}" if row.other != row.rivet else f"{row.rivet}, some of them {how}"
    return f"{in_system(row.line.part, system)}: {kinds}"


def mixed_text(row: MixedRow, system: System = "metric", width: int = 80) -> str:
    """Write it for a terminal.

    Parameters
    ----------
    row : MixedRow
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
    blocks = [
        wrapped(f"MIXED ROW  {_title(row, system)}", width, then="  "),
        wrapped(mixed_headline(row, system), width),
        mixed_table(row, system).text(width),
        "\n".join(wrapped(note, width, then="  ") for note in mixed_notes(row)),
        wrapped(CAUTION, width),
    ]
    return "\n\n".join(blocks)


def mixed_html(row: MixedRow, system: System = "metric") -> str:
    """Write it for a notebook.

    Parameters
    ----------
    row : MixedRow
        Worked.
    system : {"metric", "inch"}
        Units.

    Returns
    -------
    str
        HTML, every text escaped.
    """
    lines = "".join(f"<li>{escaped(note)}</li>" for note in mixed_notes(row))
    head = f"<p><strong>{escaped(_title(row, system))}</strong></p><p>{escaped(mixed_headline(row, system))}</p>"
    return f"<div>{head}{mixed_table(row, system).html()}<ul>{lines}</ul><p><em>{escaped(CAUTION)}</em></p></div>"


def mixed_data(row: MixedRow) -> dict[str, Any]:
    """Turn it into plain data.

    Parameters
    ----------
    row : MixedRow
        Worked.

    Returns
    -------
    dict
        ``form``, the row, loads a length at limit and ultimate, and by each formula stiffness, pick-up and loads.
    """
    return {
        "form": 1,
        "units": "SI",
        "row": row.line.place,
        "unlike": list(row.unlike),
        "rivet": row.rivet,
        "other": row.other,
        "softer": row.softer,
        "slack": row.slack.tolist(),
        "case": row.case,
        "limit": row.limit,
        "ultimate": row.ultimate,
        "even_share": row.even,
        "numbers": row.line.numbers[0].tolist(),
        "strength": None if row.strength is None else row.strength.tolist(),
        "shares": [
            {
                "formula": share.formula,
                "stiffness": share.k.tolist(),
                "carries_from": [v if np.isfinite(v) else None for v in share.pick_up.tolist()],
                "load_a_length": share.flows.tolist(),
                "loads": share.loads.tolist(),
            }
            for share in row.shares
        ],
        "notes": list(mixed_notes(row)),
        "caution": CAUTION,
    }
