"""A weighing in tables: groups of parts, rules of the bench, simplified criteria, states side by side."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.masses import GRAVITY, nose_arm
from surfacecheck.quantities import show
from surfacecheck.studies.balancing._balance_words import heavy
from surfacecheck.tables import Table

if TYPE_CHECKING:
    from collections.abc import Callable

    from surfacecheck.quantities import System
    from surfacecheck.studies.balancing._balance import BalanceColumn, BalanceStudy
    from surfacecheck.studies.balancing._balance_criteria import BenchRule, Criterion

__all__ = ["bench_table", "criteria_table", "group_table", "state_table"]

_GROUPS = (
    (r"nose_skin opening.*", "openings of the nose skin"),
    (r"spar( hole.*)?", "spar"),
    (r"rib [0-9]+", "ribs"),
    (r"row .*", "rivets in rows"),
    (r".* bracket", "brackets and their rivets"),
    (r"(rivets of the )?horn", "horn and its rivets"),
)
"""Names of pieces, and the name of what they are weighed with."""


def group_table(column: BalanceColumn, system: System = "metric") -> Table:
    """Give mass and moment of groups of parts, as a builder would lay them on a scale.

    Parameters
    ----------
    column : BalanceColumn
        One state.
    system : {"metric", "inch"}
        Units.

    Returns
    -------
    Table
        A row a group, then the whole; the last column is left free for what the scale says.
    """
    masses, sums = column.masses, dict[str, list[float]]()
    for piece in masses.pieces:
        into = sums.setdefault(_group(column, piece.name), [0.0, 0.0])
        into[0] += float(np.mean(piece.mass))
        into[1] += float(np.mean(piece.first))
    if np.any(masses.paint):
        sums["paint"] = [float(np.mean(masses.paint)), float(np.mean(masses.paint_first))]
    if column.mass is not None:
        sums[f"whole ({masses.mass_source.basis})"] = [float(np.mean(masses.mass)), float(np.mean(masses.first))]
    rows = tuple(
        (name, show(mass, "mass", system), show(first / mass, "length", system) if mass else "-",
         show(first * GRAVITY, "torque", system), "")
        for name, (mass, first) in sums.items()
    )  # fmt: skip
    left = ", ".join(f"{one.name.replace('_', ' ')} ({one.key})" for one in masses.left_out)
    note = f"not in the sum: {left}" if left else ""
    return Table(("part", "mass", "behind the pins", "moment", "on the scale"), rows, "lrrrl", note=note)


def _group(column: BalanceColumn, name: str) -> str:
    found = next((group for pattern, group in _GROUPS if re.fullmatch(pattern, name)), None)
    said = column.surface.said(name) if name in {"left_skin", "right_skin"} else name
    return found or said.replace("_", " ")


def _figure(value: float | None, quantity: str, system: System) -> str:
    if value is None:
        return "-"
    if quantity == "share":
        return f"{100.0 * value:z.2g} %"
    return show(value, quantity, system) if quantity else f"{value:z.3g}"


def bench_table(rules: tuple[BenchRule, ...], system: System = "metric") -> Table:
    """Put the rules of the bench in a table.

    Parameters
    ----------
    rules : tuple of BenchRule
        Of one state.
    system : {"metric", "inch"}
        Units.

    Returns
    -------
    Table
        Figure, what the text asks, and the word of outcome.
    """
    sources = "; ".join(dict.fromkeys(str(one.source) for one in rules))
    return _judged("rule of the bench", rules, f"Sources: {sources}." if rules else "", system)


def criteria_table(criteria: tuple[Criterion, ...], system: System = "metric") -> Table:
    """Put the simplified criteria in a table.

    Parameters
    ----------
    criteria : tuple of Criterion
        Of one state.
    system : {"metric", "inch"}
        Units.

    Returns
    -------
    Table
        Figure, limit, and criterion met, not met, not applicable or not given: never a verdict on flutter.
    """
    sources = "; ".join(dict.fromkeys(str(one.source) for one in criteria))
    note = "No verdict on flutter: each is one of several, and all of them still ask for a flight test. "
    note += f"Sources: {sources}."
    return _judged("simplified criterion", criteria, note, system)


def _judged(head: str, every: tuple[BenchRule | Criterion, ...], note: str, system: System) -> Table:
    rows = tuple(
        (f"{one.name} ({_behind(one, system)})", _figure(one.found, one.quantity, system),
         _figure(one.asked, one.quantity, system), one.outcome)
        for one in every
    )  # fmt: skip
    return Table((head, "here", "asked", "outcome"), rows, "lrrl", note=note)


def _behind(one: BenchRule | Criterion, system: System) -> str:
    """Say what stands behind a figure."""
    semichord, second = getattr(one, "semichord", None), getattr(one, "second", None)
    if semichord is None or second is None:
        return one.says
    return f"b {show(semichord, 'length', system)}, I {second:.4f} kg m2; {one.says}"


def state_table(study: BalanceStudy, system: System = "metric", heads: tuple[str, ...] = ()) -> Table:
    """Put the states side by side: mass, moment, nose mass, and what each change is paid.

    Parameters
    ----------
    study : BalanceStudy
        Worked.
    system : {"metric", "inch"}
        Units.
    heads : tuple of str
        Heads of the columns; the titles where empty.

    Returns
    -------
    Table
        A column for each state.
    """
    columns, changes = study.columns, (None, *study.changes)

    def line(name: str, cells: list[str]) -> tuple[str, ...]:
        return (name, *cells)

    def signed(value: float, quantity: str) -> str:
        return f"{'+' if value > 0.0 else '-' if value < 0.0 else ''}{show(abs(value), quantity, system)}"

    def changed(read: Callable[..., float], quantity: str) -> list[str]:
        return ["" if one is None else signed(read(one), quantity) for one in changes]

    rows = [
        line("mass", ["-" if c.mass is None else show(c.mass, "mass", system) for c in columns]),
        line("moment", ["-" if c.moment is None else heavy(c.moment, system) for c in columns]),
        line("levelled by", ["-" if c.levelling is None else show(c.levelling.mass, "mass", system) for c in columns]),
        line("ahead of the pins", [show(nose_arm(c.surface), "length", system) for c in columns]),
    ]
    if study.changes:
        rows += [
            line("change of mass", changed(lambda one: one.mass, "mass")),
            line("change of moment", changed(lambda one: one.moment, "torque")),
            line("at the nose, for the balance it had", changed(lambda one: one.nose, "mass")),
            line("paid in all", changed(lambda one: one.paid, "mass")),
        ]
    return Table(("", *(heads or study.titles)), tuple(rows))
