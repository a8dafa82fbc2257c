"""Panels of skin and web: where they wrinkle, as a fraction of limit load."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.axes import by_case
from surfacecheck.checks._check import Check, Term
from surfacecheck.checks._effects import Effects
from surfacecheck.checks._item import Item
from surfacecheck.checks._reduce import keep, worst_case
from surfacecheck.checks._spar import node_stress
from surfacecheck.checks._wall_shear import OPEN_TWIST, WORKED_AS, wall_shear
from surfacecheck.checks._wrinkling import TN_3781, panel_critical, poisson_of, skin_critical, skin_of
from surfacecheck.library import metal_of
from surfacecheck.model import YesNo
from surfacecheck.provenance import Basis, Source, over_spots, over_stations
from surfacecheck.sections.box import sides_of
from surfacecheck.strength import member

if TYPE_CHECKING:
    from collections.abc import Iterator

    from numpy.typing import NDArray

    from surfacecheck.library import Material
    from surfacecheck.model import NoseSkin, Skin

    Array = NDArray[np.float64]

__all__ = ["panel_checks"]

WRINKLED_SHEAR = Source(
    Basis.FROM_MEMORY, "lesser of F_su and half F_tu (full diagonal tension at 45 degrees), NACA TN 2661"
)
WRINKLES = "a skin that wrinkles below limit has not failed; its rows carry more (the margins of the rows have it)"
NOSE_FLAT = (
    "taken as flat, from flange to flange round the nose: its curve lets it wrinkle later; what a wrinkled nose adds "
    "to its rows is not in their margins"
)


def panel_checks(effects: Effects) -> Iterator[Check]:
    """Statements on when skins and web wrinkle, and the shear strength of skins.

    Parameters
    ----------
    effects : Effects
        With flows.

    Yields
    ------
    Check
        ``statement`` for wrinkling, ``margin`` for shear, of the skins and the nose skin.
    """
    if effects.box is None:
        return
    for side in ("plus", "minus"):
        if effects.box.has(f"skin_{side}"):
            yield from _skin_checks(effects.whole, side)
    if effects.box.has("nose"):
        yield from _nose_checks(effects.whole)
    yield from _web(effects.whole)


def _skin_checks(effects: Effects, side: str) -> Iterator[Check]:
    """When a skin wrinkles, and when it tears."""
    box, surface = effects.box, effects.surface
    assert box is not None  # noqa: S101 - panel_checks has looked
    name = surface.said(sides_of(surface)[side])
    flow, critical = effects.mean(f"skin_{side}"), skin_critical(effects, side)
    yield from _sheet_checks(
        effects, f"skin_{side}", name, skin_of(effects, side), box.skin_t[side], flow, critical, (WRINKLES,)
    )


def _nose_checks(effects: Effects) -> Iterator[Check]:
    """When the skin round the nose wrinkles, taken as flat from flange to flange, and when it tears."""
    box, surface = effects.box, effects.surface
    assert box is not None  # noqa: S101 - panel_checks has looked
    assert box.nose_around is not None  # noqa: S101 - there is a nose
    nose, notes = surface.sheet.nose_skin, [NOSE_FLAT]
    metal = metal_of(surface, nose.alloy, nose.thickness)
    t, ribs = over_stations(nose.thickness), surface.sheet.ribs.in_nose is not YesNo.NO
    if not ribs:
        notes.append("the ribs do not go on into the nose: the panel is as long as the surface")
    critical = None
    if metal.modulus.known:
        modulus, poisson = over_stations(metal.modulus), poisson_of(metal.poisson)
        critical = panel_critical(effects, box.nose_around, t, modulus, poisson, ribs=ribs)
    yield from _sheet_checks(
        effects, "nose", "nose_skin", nose, t + 0.0 * box.height, effects.mean("nose"), critical, tuple(notes)
    )


def _sheet_checks(
    effects: Effects,
    wall: str,
    name: str,
    sheet: Skin | NoseSkin,
    t: Array,
    flow: Array,
    critical: Array | None,
    notes: tuple[str, ...],
) -> Iterator[Check]:
    """When a sheet in shear wrinkles, if that can be worked, and when it tears."""
    words, place, factors = name.replace("_", " "), f"panel.{name}", member()
    flow = np.abs(flow)
    kept = worst_case(flow)
    spots, cases = kept.spots(effects.places), kept.cases(effects.flow_cases)
    q = Term(kept.of(flow), "line_load", f"shear flow of the {words} at limit")
    if critical is not None:
        q_cr = Term(kept.of(by_case(critical)), "line_load", "shear flow at which the panel wrinkles")
        yield Item(place, f"panels of the {words}", ("",), spots, cases, subject="this panel").check(
            "wrinkles",
            "wrinkles in shear",
            "q_cr",
            "q",
            {"q_cr": q_cr, "q": q},
            "q",
            TN_3781,
            kind="statement",
            notes=notes,
        )
    assert effects.box is not None  # noqa: S101 - panel_checks has looked
    if not effects.box.rear_closed:
        yield _open_shear(effects, wall, name, sheet)
        return
    metal = metal_of(effects.surface, sheet.alloy, sheet.thickness)
    yield Item(place, f"the {words}", ("",), spots, cases, factors.line, "this skin").check(
        "shear",
        "tears in shear",
        "F_s * t",
        "FS * q",
        {
            "F_s": _wrinkled_strength(metal),
            "t": Term(kept.of(by_case(t)), "length", f"thickness of the {words}"),
            "q": q,
            "FS": Term(factors.ultimate, "", "from limit load to ultimate", factors.source),
        },
        "q",
        WRINKLED_SHEAR,
    )


def _wrinkled_strength(metal: Material) -> Term:
    """Give the shear strength of a skin that wrinkles."""
    allowed = None
    if metal.shear.known and metal.tension.known:
        allowed = np.minimum(over_spots(metal.shear), 0.5 * over_spots(metal.tension))
    return Term(allowed, "stress", f"shear strength of wrinkled {metal.name}", WRINKLED_SHEAR, metal.shear.key)


def _open_shear(effects: Effects, wall: str, name: str, skin: Skin | NoseSkin) -> Check:
    """When a skin of a box that is not closed behind tears: of its flow, and of its own twisting where no cell is."""
    words, factors, box = name.replace("_", " "), member(), effects.box
    assert box is not None  # noqa: S101 - panel_checks has looked
    metal = metal_of(effects.surface, skin.alloy, skin.thickness)
    ratio = None
    if wall == "nose":  # in the section an open nose has next to no shear modulus
        given = metal.shear_modulus
        ratio = over_stations(given) / box.shear_modulus if given.known else np.asarray(1.0)
    shear = wall_shear(effects, [(wall, np.abs(effects.mean(wall)))], ratio)
    kept = worst_case(shear.stress)
    spots, cases = kept.spots(effects.places), kept.cases(effects.flow_cases)
    item = Item(f"panel.{name}", f"the {words}", ("",), spots, cases, factors.line, "this skin")
    terms = {
        "F_s": _wrinkled_strength(metal),
        "FS": Term(factors.ultimate, "", "from limit load to ultimate", factors.source),
        "f_s": Term(kept.of(shear.stress), "stress", f"greatest shear stress of the {words} at limit"),
        **shear.terms(kept, words),
    }
    gives, notes = "tears in shear", shear.notes
    return item.check("shear", gives, "F_s", "FS * f_s", terms, "f_s", OPEN_TWIST, steps=WORKED_AS, notes=notes)


def _web(effects: Effects) -> Iterator[Check]:
    """Web between ribs: shear with bending, R_b^2 + R_s^2 = 1."""
    box, surface = effects.box, effects.surface
    assert box is not None  # noqa: S101 - panel_checks has looked
    spar = surface.sheet.spar
    metal = metal_of(surface, spar.alloy, spar.thickness)
    if not (metal.modulus.known and spar.thickness.known):
        return
    modulus, nu = over_stations(metal.modulus), poisson_of(metal.poisson)
    t = box.web_t + 0.0 * box.height
    critical = panel_critical(effects, box.height, t, modulus, nu)
    bending = 23.9 * np.pi**2 / (12.0 * (1.0 - nu**2)) * modulus * (t / box.height) ** 2
    corners = [node_stress(effects, node) for node in ("corner_plus", "corner_minus")]
    stress = effects.twice(0.5 * np.abs(corners[0] - corners[1]))
    shear = effects.size("web") * by_case(t / (t + box.doubler_t))
    critical, bending = by_case(critical), by_case(bending)
    kept = keep((shear / critical, stress / bending))
    spots, cases = kept.spots(effects.places), kept.cases(effects.flow_cases)
    yield Item("panel.web", "web of the spar", ("",), spots, cases, subject="this web").check(
        "buckles",
        "buckles in shear and bending",
        "1",
        "sqrt((q / q_cr)**2 + (f_b / F_b)**2)",
        {
            "q": Term(kept.of(shear), "line_load", "shear flow of the web leaf at limit"),
            "q_cr": Term(kept.of(critical), "line_load", "shear flow at which it buckles"),
            "f_b": Term(kept.of(stress), "stress", "bending stress over the depth at limit"),
            "F_b": Term(kept.of(bending), "stress", "bending stress at which it buckles, k = 23.9"),
        },
        "q",
        TN_3781,
        kind="statement",
        notes=("each leaf of web and doubler is taken alone",),
    )
