"""Whether tools reach, as words, table and plain data."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from surfacecheck.quantities import show
from surfacecheck.tables import Table

if TYPE_CHECKING:
    from collections.abc import Sequence

    from surfacecheck.quantities import System
    from surfacecheck.studies.bench._access import Reach

__all__ = ["numbers_words", "reach_data", "reach_table", "reach_words"]


def numbers_words(numbers: Sequence[int], *, whole: bool) -> str:
    """Write the numbers of rivets: ``all``, ``1 to 6``, ``1, 3, 7``.

    Parameters
    ----------
    numbers : sequence of int
        Sorted [-].
    whole : bool
        Whether these are all of the row.

    Returns
    -------
    str
        Words.

    Examples
    --------
    >>> numbers_words([1, 2, 3, 7], whole=False), numbers_words([1, 2], whole=True)
    ('1 to 3, 7', 'all')
    """
    if whole:
        return "all"
    runs: list[list[int]] = []
    for number in numbers:
        if runs and number == runs[-1][-1] + 1:
            runs[-1].append(number)
        else:
            runs.append([number])
    parts = [", ".join(map(str, run)) if len(run) < 3 else f"{run[0]} to {run[-1]}" for run in runs]
    return ", ".join(parts)


def reach_table(reaches: Sequence[Reach], system: System = "metric") -> Table:
    """Lay out whether tools reach, row by row.

    Parameters
    ----------
    reaches : sequence of Reach
        Of one row, or of a surface.
    system : {"metric", "inch"}
        Units.

    Returns
    -------
    Table
        Row, rivets, side, what stands nearest, outcome.
    """
    rows = []
    for reach in reaches:
        wall = ""
        if reach.distance is not None:
            wall = f"{reach.wall}, {show(reach.distance, 'length', system)}"
        said = "; ".join((reach.said, *reach.notes))
        rivets = numbers_words(reach.numbers, whole=reach.whole)
        rows.append((reach.words, rivets, reach.side, wall, said))
    heads = ("row", "rivets", "pulled", "nearest, to its outer face", "can it be set?")
    return Table(heads, tuple(rows), "lllll")


def reach_words(reach: Reach, system: System = "metric") -> str:
    """Say in one line which rivets, from where, beside what, and whether they can be set.

    Parameters
    ----------
    reach : Reach
        Rivets that are alike.
    system : {"metric", "inch"}
        Units.

    Returns
    -------
    str
        Without the name of the row.
    """
    rivets = numbers_words(reach.numbers, whole=reach.whole)
    wall = "" if reach.distance is None else f" ({reach.wall} {show(reach.distance, 'length', system)} away)"
    which = "all of them" if reach.whole else f"rivets {rivets}"
    return f"{which}, pulled {reach.side}{wall}: {'; '.join((reach.said, *reach.notes))}"


def reach_data(reach: Reach) -> dict[str, Any]:
    """Turn a reach into plain data; an angle that no tool can take is null."""
    return {
        "place": reach.place,
        "side": reach.side,
        "rivets": list(reach.numbers),
        "wall": reach.wall or None,
        "distance": reach.distance,
        "outcome": reach.outcome,
        "tools": [
            {"tool": one.tool, "outcome": one.outcome, "lean": one.lean if one.degrees < 90 else None}
            for one in reach.tools
        ],
        "missing": list(reach.missing),
        "notes": list(reach.notes),
    }
