"""Pins and lugs: bearing where it turns, the pin itself, the end of the leg round it."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.checks._check import Check, Term
from surfacecheck.checks._layers import factors_of
from surfacecheck.library import metal_of
from surfacecheck.model import Held, TurnsIn
from surfacecheck.provenance import Basis, Source
from surfacecheck.strength import LUG_SOURCE, PIN_SOURCE, turning_bearing

if TYPE_CHECKING:
    from collections.abc import Iterator

    from surfacecheck.checks._effects import Effects
    from surfacecheck.model import Bracket, Surface

__all__ = ["pin_checks"]

RATING = Source(Basis.PUBLISHED, "14 CFR 23.657(b), Amdt 23-62: ball and roller bearings to their approved rating")


def pin_checks(effects: Effects) -> Iterator[Check]:
    """Give the checks of every pin and of the leg round it.

    Parameters
    ----------
    effects : Effects
        With reactions.

    Yields
    ------
    Check
        Bearing, pin shear and bending, leg torn out, parted, crushed.
    """
    surface = effects.surface
    for index, name in enumerate(effects.span.hinges):
        bracket = surface.brackets.get(surface.hinges[name].bracket)
        if bracket is None:
            continue
        force = effects.reactions[:, index]
        P = Term(
            np.hypot(force[:, [0]], force[:, [2]]),
            "force",
            "load of the pin at limit, sideways and fore-and-aft together",
        )
        common = {"cases": effects.cases, "spots": ("",), "effect": "P"}
        yield from _bearing(surface, bracket, name, P, common)
        yield from _pin(surface, bracket, name, P, common)
        yield from _lug(surface, bracket, name, P, common)


def _bearing(surface: Surface, bracket: Bracket, name: str, P: Term, common: dict[str, object]) -> Iterator[Check]:
    pin = bracket.pin
    two = surface.method.two_hinge_factor == "yes" and len(surface.hinges) == 2
    place, part = f"hinge.{name}.pin", f"{name} hinge, pin"
    if pin.turns_in is TurnsIn.BEARING:
        terms = {"P_r": Term.of(pin.bearing_load, "force", "approved load of the bearing"), "P": P}
        terms["P_r"] = Term(
            pin.bearing_load.si,
            "force",
            "approved load of the bearing",
            pin.bearing_load.source,
            pin.bearing_load.key or f"bracket.{bracket.name}.pin.crushing_strength",
        )
        yield Check(
            place,
            "bearing-rating",
            part,
            "bearing is over its rating",
            "P_r",
            "P",
            terms,
            source=RATING,
            factors="1.0 on the approved rating, limit load",
            subject="the bearing",
            **common,
        )  # type: ignore[arg-type]
        return
    factors = turning_bearing("hinge", two_hinges=two)
    terms = {
        "F_bru": Term.of(pin.crushing_strength, "stress", "bearing strength of the softer of pin and hole"),
        "D": Term.of(pin.diameter, "length", "pin"),
        "L": Term.of(pin.turns_on, "length", "length that turns"),
        "FB": Term(factors.ultimate, "", "bearing factor where the pin turns, alone", factors.source),
        "P": P,
    }
    what = {TurnsIn.BUSH: "bush", TurnsIn.BRACKET: "hole in the bracket"}.get(pin.turns_in, "hole")  # type: ignore[arg-type]
    yield Check(
        place,
        "bearing",
        part,
        f"{what} crushes (factor {factors.ultimate:g})",
        "F_bru * D * L",
        "FB * P",
        terms,
        source=factors.source,
        factors=factors.line,
        subject="the pin",
        **common,
    )  # type: ignore[arg-type]


def _pin(surface: Surface, bracket: Bracket, name: str, P: Term, common: dict[str, object]) -> Iterator[Check]:
    pin = bracket.pin
    factors = factors_of(surface, None)
    FS = Term(factors.ultimate, "", "from limit load to ultimate", factors.source)
    metal = metal_of(surface, pin.alloy)
    shear = pin.shear_strength if pin.shear_strength.known else metal.shear
    key = f"bracket.{bracket.name}.pin"
    planes = {Held.BOTH: 2.0, Held.ONE: 1.0}.get(pin.held)  # type: ignore[arg-type]
    n = Term(planes, "", "planes that shear", key=f"{key}.held")
    D = Term.of(pin.diameter, "length", "pin")
    F_su = Term(shear.si, "stress", "shear strength of the pin", shear.source, f"{key}.shear_strength")
    settings = {"source": PIN_SOURCE, "factors": factors.line, "subject": "the pin", **common}
    place, part = f"hinge.{name}.pin", f"{name} hinge, pin"
    yield Check(
        place,
        "shear",
        part,
        "pin shears",
        "n * F_su * pi / 4 * D**2",
        "FS * P",
        {"n": n, "F_su": F_su, "D": D, "FS": FS, "P": P},
        **settings,
    )  # type: ignore[arg-type]
    gap = pin.gap
    strength = metal.tension.si if metal.tension.known else (None if shear.si is None else np.asarray(shear.si) / 0.6)
    source = metal.tension.source if metal.tension.known else Source(Basis.COMMON_PRACTICE, "F_tu taken as F_su / 0.6")
    terms = {
        "F_tu": Term(strength, "stress", "tensile strength of the pin", source, f"{key}.shear_strength"),
        "D": D,
        "FS": FS,
        "P": P,
        "t": Term.of(bracket.thickness, "length", "thickness of the leg"),
        "g": Term(
            gap.si if gap.known or not gap.absent else 0.0, "length", "gap between leg and fin lug", gap.source, gap.key
        ),
    }
    arm = "P / 2 * (t / 2 + t / 4 + g)" if pin.held is Held.BOTH else "P * (t / 2 + t / 2 + g)"
    yield Check(
        place,
        "bending",
        part,
        "pin bends",
        "F_tu",
        f"FS * 32 / (pi * D**3) * {arm}",
        terms,
        notes=("each lug of the fin taken as thick as the leg; elastic, no peaking of the bearing",),
        **settings,
    )  # type: ignore[arg-type]


def _lug(surface: Surface, bracket: Bracket, name: str, P: Term, common: dict[str, object]) -> Iterator[Check]:
    pin = bracket.pin
    metal = metal_of(surface, bracket.alloy, bracket.thickness)
    factors = factors_of(surface, None)
    legs = Term(
        None if bracket.legs is None else float(bracket.legs),
        "",
        "legs that carry the pin",
        key=f"bracket.{bracket.name}.legs",
    )
    base = {
        "n": legs,
        "t": Term.of(bracket.thickness, "length", "thickness of the leg"),
        "D": Term.of(pin.diameter, "length", "pin"),
        "FS": Term(factors.ultimate, "", "from limit load to ultimate", factors.source),
        "P": P,
    }
    settings = {"source": LUG_SOURCE, "factors": factors.line, "subject": "the end of the leg", **common}
    place, part = f"hinge.{name}.bracket.lug", f"{name} hinge, leg at the pin"
    F_su = Term.of(metal.shear, "stress", f"shear strength of {metal.name}")
    e = Term.of(pin.edge, "length", "pin centre to the end of the leg")
    note = ("the whole load of the pin is taken towards the nearest edge",)
    yield Check(
        place,
        "tear-out",
        part,
        "pin tears out of the leg",
        "2 * n * F_su * t * (e - 0.383 * D)",
        "FS * P",
        base | {"F_su": F_su, "e": e},
        notes=note,
        **settings,
    )  # type: ignore[arg-type]
    F_tu = Term.of(metal.tension, "stress", f"tensile strength of {metal.name}")
    w = Term.of(pin.wide, "length", "width of the leg at the pin")
    yield Check(
        place,
        "net-section",
        part,
        "leg parts beside the pin",
        "n * F_tu * (w - D) * t",
        "FS * P",
        base | {"F_tu": F_tu, "w": w},
        **settings,
    )  # type: ignore[arg-type]
    F_bru = Term.of(metal.bearing_15, "stress", f"bearing strength of {metal.name}, e/D 1.5")
    yield Check(
        place,
        "crush",
        part,
        "leg crushes at the pin",
        "n * F_bru * D * t",
        "FS * P",
        base | {"F_bru": F_bru},
        notes=("as a clamped side; the side that turns has its own factor",),
        **settings,
    )  # type: ignore[arg-type]
