"""Nicks, holes and thin spots of spar and skins: what is left beside them, and where they begin to yield."""

from __future__ import annotations

from dataclasses import replace
from functools import reduce
from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.axes import by_case
from surfacecheck.checks._check import Check, Term
from surfacecheck.checks._item import Item
from surfacecheck.checks._row_growth import read_at
from surfacecheck.checks._spar import node_stress, web_stress
from surfacecheck.checks._wall_shear import wall_shear
from surfacecheck.library import metal_of
from surfacecheck.provenance import numbers
from surfacecheck.sections.box import sides_of
from surfacecheck.strength import NET_SECTION_SOURCE, member
from surfacecheck.strength.concentration import ELLIPSE_SOURCE, HOLE_SOURCE

if TYPE_CHECKING:
    from collections.abc import Iterator

    from numpy.typing import NDArray

    from surfacecheck.checks._effects import Effects
    from surfacecheck.library import Material
    from surfacecheck.model import Mark, Skin, Spar

    Array = NDArray[np.float64]

__all__ = ["mark_checks"]

ELASTIC = "elastic, at one point: where it begins to yield, not when it breaks; fatigue is not looked at"
HALF_ELLIPSE = "taken as half an elliptical hole; at an edge the factor is up to an eighth higher (from memory)"
THROUGHOUT = "taken as thin over the whole width: a bound"


def mark_checks(effects: Effects) -> Iterator[Check]:
    """Give the checks at every nick, hole and thin spot.

    Parameters
    ----------
    effects : Effects
        With flows.

    Yields
    ------
    Check
        What is left beside it, and a statement of the load at which its bottom begins to yield.
    """
    if effects.box is None:
        return
    whole = effects.whole
    for name, mark in effects.surface.marks.items():
        yield from _of_flange(whole, name, mark) if mark.part == "spar flange" else _of_sheet(whole, name, mark)


def _item(effects: Effects, name: str, mark: Mark) -> Item:
    words = f"{effects.surface.sheet_words(mark.part)} {mark.up.said}, {mark.sort}"
    return Item(name, words, effects.cases, ("",), factors=member().line, subject="the sheet there")


def _there(effects: Effects, mark: Mark, values: Array) -> Array:
    """Read something over stations at the mark, (..., C, 1)."""
    return read_at(effects.span.y, values, numbers(mark.up)[..., None])


def _factor() -> Term:
    factors = member()
    return Term(factors.ultimate, "", "from limit load to ultimate", factors.source)


def _of_flange(effects: Effects, name: str, mark: Mark) -> Iterator[Check]:
    """Check a flange: direct stress at the worse of its corners and free edges."""
    box, spar = effects.box, effects.surface.sheet.spar
    assert box is not None  # noqa: S101 - asked for only where there are sections
    metal = metal_of(effects.surface, spar.alloy, spar.thickness)
    nodes = [np.abs(node_stress(effects, n)) for n in box.nodes if n.startswith(("corner", "tip"))]
    f = Term(_there(effects, mark, reduce(np.maximum, nodes)), "stress", "greatest stress of a flange there at limit")
    item = _item(effects, name, mark)
    terms = {"F_tu": Term.of(metal.tension, "stress", f"tensile strength of {metal.name}"), "FS": _factor(), "f": f}
    b = Term(by_case(box.flange), "length", "flange, middle of web to free edge", spar.flange.source)
    if mark.sort == "thin":
        yield _thinned(item, mark, spar, terms, "F_tu", "f", "tears where it is thin")
        return
    lost = mark.depth if mark.sort == "notch" else mark.across
    more = terms | {"b": b, "d": Term.of(lost, "length", "what is gone of its width")}
    words = "tears beside it"
    yield item.check("net-section", words, "F_tu * (b - d) / b", "FS * f", more, "f", NET_SECTION_SOURCE)
    yield from _yields(item, mark, metal, {"f": f})


def _of_sheet(effects: Effects, name: str, mark: Mark) -> Iterator[Check]:
    """Check web or skin: shear, and in the web the direct stress with it."""
    surface, box = effects.surface, effects.box
    assert box is not None  # noqa: S101 - asked for only where there are sections
    if mark.part == "spar web":
        part, wall, direct = surface.sheet.spar, "web", effects.twice(web_stress(effects))
    else:
        side = next(side for side, skin in sides_of(surface).items() if skin == mark.part)
        part, wall, direct = getattr(surface.sheet, mark.part), f"skin_{side}", None
        if not box.has(wall):
            return
    metal = metal_of(surface, part.alloy, part.thickness)
    shear = _there(effects, mark, wall_shear(effects, [(wall, effects.size(wall))]).stress)
    item = replace(_item(effects, name, mark), cases=effects.flow_cases)
    terms = {
        "F_su": Term.of(metal.shear, "stress", f"shear strength of {metal.name}"),
        "FS": _factor(),
        "f_s": Term(shear, "stress", "shear stress of the whole sheet there at limit"),
    }
    if mark.sort == "thin":
        yield _thinned(item, mark, part, terms, "F_su", "f_s", "tears in shear where it is thin")
        return
    if mark.part == "spar web":
        deep = Term(_there(effects, mark, by_case(box.height)), "length", "depth of the web")
        lost = Term.of(mark.depth if mark.sort == "notch" else mark.across, "length", "what is gone of its depth")
        more = terms | {"h": deep, "D": lost}
        net = "F_su * (h - D) / h"
        yield item.check("net-shear", "tears beside it", net, "FS * f_s", more, "f_s", NET_SECTION_SOURCE)
    half = 0.0 * shear if direct is None else 0.5 * _there(effects, mark, direct)
    radius = np.hypot(half, shear)
    principal = {
        "s_1": Term(half + radius, "stress", "greatest stress there at limit, of shear and bending"),
        "s_2": Term(half - radius, "stress", "least stress there at limit"),
    }
    yield from _yields(item, mark, metal, {"f": principal["s_1"]._replace(values=radius + np.abs(half))}, principal)


def _thinned(item: Item, mark: Mark, part: Skin | Spar, terms: dict[str, Term], F: str, f: str, gives: str) -> Check:
    """Check what is left of the thickness."""
    more = terms | {
        "t_1": Term.of(mark.left, "length", "thickness that is left"),
        "t": Term.of(part.thickness, "length", "thickness as drawn"),
    }
    return item.check("thin", gives, f"{F} * t_1 / t", f"FS * {f}", more, f, NET_SECTION_SOURCE, notes=(THROUGHOUT,))


def _yields(
    item: Item, mark: Mark, metal: Material, terms: dict[str, Term], principal: dict[str, Term] | None = None
) -> Iterator[Check]:
    """State the load at which the bottom of a nick, or the rim of a hole, begins to yield."""
    F = {"F_ty": Term.of(metal.tension_yield, "stress", f"yield stress of {metal.name}")}
    if mark.sort == "notch" and mark.radius.known:
        more = F | terms | {
            "a": Term.of(mark.depth, "length", "depth of the nick"),
            "rho": Term.of(mark.radius, "length", "radius at its bottom"),
        }  # fmt: skip
        required = "(1 + 2 * sqrt(a / rho)) * f"
        notes, source = (HALF_ELLIPSE, ELASTIC), ELLIPSE_SOURCE
        yield item.check(
            "yields", "its bottom begins to yield", "F_ty", required, more, "f", source, kind="statement", notes=notes
        )
    if mark.sort == "hole":
        required, more = "3 * f", F | terms
        if principal is not None:
            required, more = "max(abs(3 * s_1 - s_2), abs(3 * s_2 - s_1))", F | principal
        effect = "f" if principal is None else "s_1"
        yield item.check(
            "yields",
            "its rim begins to yield",
            "F_ty",
            required,
            more,
            effect,
            HOLE_SOURCE,
            kind="statement",
            notes=(ELASTIC,),
        )
