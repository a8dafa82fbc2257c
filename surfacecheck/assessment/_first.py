"""The first values that anything at all can be told from."""

from __future__ import annotations

from typing import TYPE_CHECKING

from surfacecheck.assessment._result import Gap
from surfacecheck.loads import load_cases

if TYPE_CHECKING:
    from surfacecheck.model import Surface

__all__ = ["first_needs"]

LEAST = 2
"""Places that an outline needs at least; of the hinges in the file every one is needed, since the pins share a load."""

PINS = "the loads at the pins, and everything after them"


def first_needs(surface: Surface) -> tuple[Gap, ...]:
    """List what is missing before the first number can be given.

    Parameters
    ----------
    surface : Surface
        Perhaps nothing but question marks.

    Returns
    -------
    tuple of Gap
        In the order of the file; empty where ``assess`` gives an answer.
    """
    found, up = [], surface.said("up")
    places = [p for p in surface.outline.places if p.up.known and p.edge_behind.known]
    if not _load_is_known(surface):
        found.append(Gap("load.pressure", f"{PINS}; or give load.total, or load.rule"))
    needed = (
        ("load.over", surface.load.over),
        ("load.level", surface.load.level),
        ("load.begins_at", surface.load.begins_at),
    )
    if surface.load.rule is None:
        found += [Gap(key, PINS) for key, word in needed if word is None]
    if not surface.load.fades_aft and surface.load.rule is None:
        found.append(Gap("load.fades_aft", PINS))
    if len(places) < LEAST:
        found.append(Gap("outline.at", f"{PINS}; two places with {up} and edge_behind, root and tip"))
    else:
        found += [
            Gap(surface.in_file(f"outline.at[{number}].{key}"), PINS)
            for number, place in enumerate(surface.outline.places, 1)
            for key in ("up", "edge_behind")
            if not getattr(place, key).known
        ]
    found += [Gap(f"hinge.{name}.{up}", PINS) for name, hinge in surface.hinges.items() if not hinge.up.known]
    if found:
        return tuple(found)
    cases, missing = load_cases(surface)
    return () if cases else tuple(Gap(surface.in_file(case.needs), case.reason) for case in missing)


def _load_is_known(surface: Surface) -> bool:
    load = surface.load
    return load.pressure.known or load.total.known or load.rule is not None
