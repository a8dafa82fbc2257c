"""Pins and lugs: bearing where it turns, the pin itself, the end of the leg round it."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.checks._check import Check, Term
from surfacecheck.checks._item import Item
from surfacecheck.checks._layers import factors_of
from surfacecheck.library import metal_of
from surfacecheck.model import Held, TurnsIn
from surfacecheck.provenance import Basis, Source, over_spots
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
        force = effects.reactions[..., index, :]
        P = Term(
            np.hypot(force[..., [0]], force[..., [2]]),
            "force",
            "load of the pin at limit, sideways and fore-and-aft together",
        )
        pin = Item(f"hinge.{name}.pin", f"{name} hinge, pin", effects.cases, ("",), subject="the pin")
        yield _bearing(surface, bracket, pin, P)
        yield from _pin(surface, bracket, pin, P)
        lug = Item(f"hinge.{name}.bracket.lug", f"{name} hinge, leg at the pin", effects.cases, ("",))
        yield from _lug(surface, bracket, replace(lug, subject="the end of the leg"), P)


def _bearing(surface: Surface, bracket: Bracket, item: Item, P: Term) -> Check:
    """Where the pin turns: a rated bearing, or a bush or hole by its crushing strength."""
    pin = bracket.pin
    if pin.turns_in is TurnsIn.BEARING:
        key = pin.bearing_load.key or f"bracket.{bracket.name}.pin.crushing_strength"
        rating = Term.of(pin.bearing_load, "force", "approved load of the bearing")._replace(key=key)
        rated = replace(item, factors="1.0 on the approved rating, limit load", subject="the bearing")
        over = "bearing is over its rating"
        return rated.check("bearing-rating", over, "P_r", "P", {"P_r": rating, "P": P}, "P", RATING)
    two = surface.method.two_hinge_factor == "yes" and len(surface.hinges) == 2
    factors = turning_bearing("hinge", two_hinges=two)
    terms = {
        "F_bru": Term.of(pin.crushing_strength, "stress", "bearing strength of the softer of pin and hole"),
        "D": Term.of(pin.diameter, "length", "pin"),
        "L": Term.of(pin.turns_on, "length", "length that turns"),
        "FB": Term(factors.ultimate, "", "bearing factor where the pin turns, alone", factors.source),
        "P": P,
    }
    what = "hole"
    if pin.turns_in is not None:
        what = {TurnsIn.BUSH: "bush", TurnsIn.BRACKET: "hole in the bracket"}.get(pin.turns_in, what)
    gives = f"{what} crushes (factor {factors.ultimate:g})"
    factored = replace(item, factors=factors.line)
    return factored.check("bearing", gives, "F_bru * D * L", "FB * P", terms, "P", factors.source)


def _pin(surface: Surface, bracket: Bracket, item: Item, P: Term) -> Iterator[Check]:
    """Shear and bending of the pin itself."""
    pin, key = bracket.pin, f"bracket.{bracket.name}.pin"
    factors = factors_of(surface, None)
    item = replace(item, factors=factors.line)
    FS = Term(factors.ultimate, "", "from limit load to ultimate", factors.source)
    metal = metal_of(surface, pin.alloy)
    shear = pin.shear_strength if pin.shear_strength.known else metal.shear
    planes = None if pin.held is None else {Held.BOTH: 2.0, Held.ONE: 1.0}.get(pin.held)
    D = Term.of(pin.diameter, "length", "pin")
    terms = {
        "n": Term(planes, "", "planes that shear", key=f"{key}.held"),
        "F_su": Term.of(shear, "stress", "shear strength of the pin")._replace(key=f"{key}.shear_strength"),
        "D": D,
        "FS": FS,
        "P": P,
    }
    yield item.check("shear", "pin shears", "n * F_su * pi / 4 * D**2", "FS * P", terms, "P", PIN_SOURCE)
    F_tu = Term.of(metal.tension, "stress", "tensile strength of the pin")
    if not metal.tension.known:
        strength = over_spots(shear) / 0.6 if shear.known else None
        F_tu = F_tu._replace(values=strength, source=Source(Basis.COMMON_PRACTICE, "F_tu taken as F_su / 0.6"))
    gap = Term.of(pin.gap, "length", "gap between leg and fin lug")
    gap = gap._replace(values=0.0) if pin.gap.absent and not pin.gap.known else gap
    terms = {
        "F_tu": F_tu._replace(key=f"{key}.shear_strength"),
        "D": D,
        "FS": FS,
        "P": P,
        "t": Term.of(bracket.thickness, "length", "thickness of the leg"),
        "g": gap,
    }
    arm = "P / 2 * (t / 2 + t / 4 + g)" if pin.held is Held.BOTH else "P * (t / 2 + t / 2 + g)"
    bent = f"FS * 32 / (pi * D**3) * {arm}"
    note = "each lug of the fin taken as thick as the leg; elastic, no peaking of the bearing"
    yield item.check("bending", "pin bends", "F_tu", bent, terms, "P", PIN_SOURCE, notes=(note,))


def _lug(surface: Surface, bracket: Bracket, item: Item, P: Term) -> Iterator[Check]:
    """End of the leg round the pin: torn out, parted beside it, crushed."""
    pin = bracket.pin
    metal = metal_of(surface, bracket.alloy, bracket.thickness)
    factors = factors_of(surface, None)
    item = replace(item, factors=factors.line)
    legs = None if bracket.legs is None else float(bracket.legs)
    base = {
        "n": Term(legs, "", "legs that carry the pin", key=f"bracket.{bracket.name}.legs"),
        "t": Term.of(bracket.thickness, "length", "thickness of the leg"),
        "D": Term.of(pin.diameter, "length", "pin"),
        "FS": Term(factors.ultimate, "", "from limit load to ultimate", factors.source),
        "P": P,
    }
    F_su = Term.of(metal.shear, "stress", f"shear strength of {metal.name}")
    F_tu = Term.of(metal.tension, "stress", f"tensile strength of {metal.name}")
    F_bru = Term.of(metal.bearing_15, "stress", f"bearing strength of {metal.name}, e/D 1.5")
    e = Term.of(pin.edge, "length", "pin centre to the end of the leg")
    w = Term.of(pin.wide, "length", "width of the leg at the pin")
    nearest = ("the whole load of the pin is taken towards the nearest edge",)
    clamped = ("as a clamped side; the side that turns has its own factor",)
    ways: tuple[tuple[str, str, str, dict[str, Term], tuple[str, ...]], ...] = (
        (
            "tear-out",
            "pin tears out of the leg",
            "2 * n * F_su * t * (e - 0.383 * D)",
            {"F_su": F_su, "e": e},
            nearest,
        ),
        ("net-section", "leg parts beside the pin", "n * F_tu * (w - D) * t", {"F_tu": F_tu, "w": w}, ()),
        ("crush", "leg crushes at the pin", "n * F_bru * D * t", {"F_bru": F_bru}, clamped),
    )
    for mode, gives, available, more, notes in ways:
        yield item.check(mode, gives, available, "FS * P", base | more, "P", LUG_SOURCE, notes=notes)
