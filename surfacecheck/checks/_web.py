"""The web of the spar: shear, and what holes leave of it."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.axes import by_case
from surfacecheck.checks._apart_group import holes_across
from surfacecheck.checks._check import Check, Term
from surfacecheck.checks._item import Item
from surfacecheck.checks._names import picked
from surfacecheck.checks._reduce import worst_case
from surfacecheck.checks._wall_shear import OPEN_TWIST, WORKED_AS, wall_shear
from surfacecheck.library import metal_of
from surfacecheck.provenance import Basis, Source, over_stations
from surfacecheck.strength import NET_SECTION_SOURCE, member

if TYPE_CHECKING:
    from collections.abc import Iterator

    from surfacecheck.checks._effects import Effects
    from surfacecheck.checks._wall_shear import WallShear


__all__ = ["web_checks"]


NET_ONLY = "net depth only; a plain or flanged hole also lets the web buckle sooner: not looked at"
FLOW = Source(Basis.PUBLISHED, "shear flow of thin-walled beams; Megson, chapters 17 to 20")


def web_checks(effects: Effects) -> Iterator[Check]:
    """Give the checks of the web of the spar.

    Parameters
    ----------
    effects : Effects
        With flows.

    Yields
    ------
    Check
        Shear of the whole web, of the web at the holes of each bracket, and beside each lightening hole.
    """
    box, spar = effects.box, effects.surface.sheet.spar
    assert box is not None  # noqa: S101
    metal = metal_of(effects.surface, spar.alloy, spar.thickness)
    factors = member()
    bare = [name for name in box.walls if name.startswith("web")]
    shear = wall_shear(effects, [(name, effects.size(name)) for name in bare])
    kept = worst_case(shear.stress)
    terms = {
        "F_su": Term.of(metal.shear, "stress", f"shear strength of {metal.name}"),
        "FS": Term(factors.ultimate, "", "from limit load to ultimate", factors.source),
        "f_s": Term(kept.of(shear.stress), "stress", "greatest shear stress of the web at limit"),
    }
    names = kept.spots(effects.places), kept.cases(effects.flow_cases)
    item = Item("spar.web", "web of the spar", ("",), *names, factors.line, "the web")
    more, source = terms | shear.terms(kept, "web"), OPEN_TWIST if shear.open else FLOW
    steps, notes = WORKED_AS if shear.open else (), shear.notes
    yield item.check("shear", "tears in shear", "F_su", "FS * f_s", more, "f_s", source, steps=steps, notes=notes)
    yield from _bracket_holes(effects, shear, terms, factors.line)
    yield from _web_holes(effects, shear, terms, factors.line)


def _bracket_holes(effects: Effects, shear: WallShear, terms: dict[str, Term], factors: str) -> Iterator[Check]:
    """Web at the rivet holes of each bracket, on the net depth."""
    box, surface = effects.box, effects.surface
    assert box is not None  # noqa: S101
    stations = effects.span.stations
    for name, b in effects.span.hinges.items():
        bracket = surface.brackets.get(surface.hinges[name].bracket)
        rivet = None if bracket is None else surface.rivets.get(bracket.rivet)
        if bracket is None or rivet is None or bracket.sideways is None:
            continue
        at = [*([stations.before(b)] if b > 0 else []), *([stations.after(b)] if b < len(stations.cells) else [])]
        there = shear.stress[..., at].max(axis=-1, keepdims=True)
        more = terms | {
            "f_s": Term(there, "stress", "greatest shear stress of the whole web there at limit"),
            "h": Term(by_case(box.height[..., at[:1]]), "length", "depth of the web"),
            "n": Term(float(bracket.sideways), "", "holes across the web"),
            "D": holes_across(surface, name, bracket, rivet),
        }
        place, part = f"hinge.{name}.bracket.web", f"{name} hinge, web at the bracket"
        yield Item(place, part, effects.flow_cases, ("",), factors=factors, subject="the web").check(
            "net-shear",
            "tears through the rivet holes",
            "F_su * (h - n * D) / h",
            "FS * f_s",
            more,
            "f_s",
            NET_SECTION_SOURCE,
            notes=shear.notes,
        )


def _web_holes(effects: Effects, shear: WallShear, terms: dict[str, Term], factors: str) -> Iterator[Check]:
    """Web beside a lightening hole, on the net depth."""
    box, surface = effects.box, effects.surface
    assert box is not None  # noqa: S101
    for i, hole in enumerate(surface.sheet.spar.holes or ()):
        if not (hole.up.known and hole.across.known):
            continue
        away = np.abs(effects.span.y - over_stations(hole.up))
        at = int(np.argmin(away.reshape(-1, away.shape[-1]).max(axis=0)))
        more = terms | {
            "f_s": Term(shear.stress[..., [at]], "stress", "greatest shear stress of the whole web there at limit"),
            "h": Term(by_case(box.height[..., [at]]), "length", "depth of the web"),
            "D": Term.of(hole.across, "length", "lightening hole"),
        }
        place, spots = f"spar.hole-{i + 1}", picked(effects.places, np.array([at]))
        item = Item(place, "web at a lightening hole", effects.flow_cases, spots, factors=factors, subject="the web")
        yield item.check(
            "net-shear",
            "tears beside the hole",
            "F_su * (h - D) / h",
            "FS * f_s",
            more,
            "f_s",
            NET_SECTION_SOURCE,
            notes=(
                "net depth only; a plain or flanged hole also lets the web buckle sooner: not looked at",
                *shear.notes,
            ),
        )
