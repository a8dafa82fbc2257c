"""A leg or an arm that sticks out: it breaks in bending, or takes a set."""

from __future__ import annotations

from typing import TYPE_CHECKING

from surfacecheck.checks._check import Term
from surfacecheck.strength import BENDING_SOURCE

if TYPE_CHECKING:
    from collections.abc import Iterator

    from surfacecheck.checks._check import Check
    from surfacecheck.checks._item import Item
    from surfacecheck.library import Material
    from surfacecheck.strength import Factors

__all__ = ["bending_checks"]


def bending_checks(
    item: Item, stress: str, letters: dict[str, Term], effect: str, metal: Material, factors: Factors
) -> Iterator[Check]:
    """Check the stress at the root of a cantilever against tensile strength and yield stress.

    Parameters
    ----------
    item : Item
        The leg or the arm.
    stress : str
        Formula of the stress at limit [Pa].
    letters : dict of str to Term
        A term for every letter of it.
    effect : str
        The letter that is told of.
    metal : Material
        Of the leg or the arm.
    factors : Factors
        From limit load.

    Yields
    ------
    Check
        Breaks, takes a set.
    """
    for mode, gives, strength, words, factor in (
        ("bends", "breaks in bending", metal.tension, "tensile strength", factors.ultimate),
        ("bends-yield", "takes a set in bending", metal.tension_yield, "yield stress", factors.yield_ or 1.0),
    ):
        terms = letters | {
            "F": Term.of(strength, "stress", f"{words} of {metal.name}"),
            "FS": Term(factor, "", "from limit load", factors.source),
        }
        yield item.check(mode, gives, "F", f"FS * {stress}", terms, effect, BENDING_SOURCE)
