"""What alternatives come to at the bench: holes, minutes, what is to be bought."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from surfacecheck.errors import SurfaceError
from surfacecheck.quantities import show
from surfacecheck.studies.bench._takeoff import takeoff
from surfacecheck.studies.riveting._rivets_words import row_words

if TYPE_CHECKING:
    from collections.abc import Sequence

    from surfacecheck.quantities import System
    from surfacecheck.studies.bench._takeoff import Purchase, TakeOff
    from surfacecheck.studies.riveting._rivets_comparison import RivetComparison

__all__ = ["Bought", "bought", "buying_lines"]


@dataclass(frozen=True, eq=False)
class Bought:
    """What one rivet with one head under one sheet is bought as; the number of rivets changes none of it.

    Attributes
    ----------
    lines : int
        Purchase lines of the whole surface [-].
    here : tuple of Purchase
        Those that go into the rows compared.
    problems : tuple of str
        What stands against it, such as a stack that no length holds.
    """

    lines: int
    here: tuple[Purchase, ...]
    problems: tuple[str, ...]


def bought(comparison: RivetComparison, alternative: int) -> Bought | None:
    """Give what an alternative is bought as.

    Parameters
    ----------
    comparison : RivetComparison
        Worked.
    alternative : int
        Which [-].

    Returns
    -------
    Bought or None
        None where no file can say the alternative.
    """
    try:
        taken = takeoff(comparison.surface_of(alternative))
    except SurfaceError:
        return None
    return _of(taken, [row_words(table) for table in comparison.rows])


def _of(taken: TakeOff, rows: Sequence[str]) -> Bought:
    here = tuple(line for line in taken.lines if set(line.rows) & set(rows))
    problems = tuple(one for one in taken.problems if one.partition(":")[0] in rows)
    return Bought(len(taken.lines), here, problems)


def buying_lines(comparison: RivetComparison, shown: Sequence[int], system: System = "metric") -> list[str]:
    """Say what the rivets of a list are bought as.

    Parameters
    ----------
    comparison : RivetComparison
        Worked.
    shown : sequence of int
        Which alternatives.
    system : {"metric", "inch"}
        Units.

    Returns
    -------
    list of str
        A line for each different rivet.
    """
    was = len(takeoff(comparison.surface).lines)
    lines: dict[str, None] = {}
    for found in (comparison.bought(i) for i in shown):
        if found is not None:
            said = ", ".join(dict.fromkeys(_purchase(line, system) for line in found.here))
            whole = f"order lines of the whole surface {found.lines}, drawn {was}"
            lines[f"to buy for these rows: {said} ({whole})"] = None
            lines |= dict.fromkeys(found.problems)
    return list(lines)


def _purchase(line: Purchase, system: System) -> str:
    if line.length is not None:
        return f"{line.rivet}, {show(line.length, 'length', system)} long"
    grip = "a stack not given" if line.stack is None else f"a stack of {show(line.stack, 'length', system)}"
    return f"{line.rivet} for {grip}"
