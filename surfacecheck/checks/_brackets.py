"""Hinge brackets: six force components over the rivets, the leg, and the web behind."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.axes import by_case, over_both
from surfacecheck.checks._apart import joints_of
from surfacecheck.checks._bracket_loads import BracketLoad, bracket_needs
from surfacecheck.checks._cantilever import bending_checks
from surfacecheck.checks._check import Check, Term
from surfacecheck.checks._effects import PRACTICE
from surfacecheck.checks._item import Item
from surfacecheck.checks._joint import joint_checks
from surfacecheck.checks._layers import Joint, Layer, factors_of
from surfacecheck.errors import SurfaceError
from surfacecheck.library import metal_of
from surfacecheck.model import YesNo
from surfacecheck.provenance import UNKNOWN, numbers
from surfacecheck.strength import BENDING_SOURCE, strip_moment_clamped, strip_moment_supported

if TYPE_CHECKING:
    from collections.abc import Iterator

    from numpy.typing import NDArray

    from surfacecheck.checks._effects import Effects
    from surfacecheck.model import Surface
    from surfacecheck.strength import Factors

__all__ = ["bracket_checks"]

NO_HEEL = "rigid bracket, equal rivets, no heel: pull shared in a straight line over the group"
BARE = "no rib behind the bracket; an elastic strip, a bound and not a prediction"
HEEL = "bound: the bracket turns about its lowest edge on the web and its leg pries"


def bracket_checks(effects: Effects, loads: tuple[BracketLoad, ...]) -> Iterator[Check]:
    """Give the checks of all brackets.

    Parameters
    ----------
    effects : Effects
        With reactions.
    loads : tuple of BracketLoad
        From :func:`bracket_loads`.

    Yields
    ------
    Check
        Rivets, sheets under them, leg, and the strip of web where no rib stands behind.
    """
    surface = effects.surface
    yield from _no_couple(effects, loads)
    for load in loads:
        rivet = surface.rivets[load.bracket.rivet]
        joint = Joint(
            place=f"hinge.{load.hinge.name}.bracket",
            part=f"{load.hinge.name} hinge, bracket",
            rivet=rivet,
            layers=_layers(effects, load),
            shear=load.shear,
            tension=load.tension,
            cases=effects.cases,
            spots=tuple(f"rivet {i + 1}" for i in range(load.a.shape[-1])),
            notes=(NO_HEEL,),
        )
        factors = factors_of(surface, None)
        for one in joints_of(surface, joint, load.share[..., 1]):
            yield from joint_checks(surface, one, factors)
        heel = replace(joint, tension=load.bound, layers=(), notes=(HEEL,))
        for one in joints_of(surface, heel, load.share[..., 1]):
            yield from _heel(surface, one, factors)
        yield from _leg(effects, load)
        yield from _strip(effects, load)


def _heel(surface: Surface, joint: Joint, factors: Factors) -> Iterator[Check]:
    """Give the bounds of a joint whose pull is that of a bracket on its heel."""
    for check in joint_checks(surface, joint, factors):
        if check.mode in {"rivet-pull", "rivet-both"}:
            yield replace(check, mode=f"{check.mode}-heel", kind="bound", gives=f"{check.gives}, with heel and prying")


def _no_couple(effects: Effects, loads: tuple[BracketLoad, ...]) -> Iterator[Check]:
    """Say of a bracket on one rivet, or on one line of them, that only a heel could hold the pin's couple."""
    shared = {load.hinge.name for load in loads}
    for index, name in enumerate(effects.span.hinges):
        hinge = effects.surface.hinges[name]
        if name in shared or bracket_needs(effects.surface, hinge):
            continue
        force = np.sqrt((effects.reactions[..., index, :] ** 2).sum(axis=-1, keepdims=True))
        terms = {
            "P_h": Term(None, "force", "pull and push that these rivets hold without a heel"),
            "P": Term(force, "force", "pin load at limit"),
        }
        gives = "its rivets stand in one line: they hold no couple without a heel"
        part = f"{name} hinge, bracket"
        item = Item(f"hinge.{name}.bracket", part, effects.cases, ("",), subject="this bracket")
        yield item.check("one-line", gives, "P_h", "P", terms, "P", PRACTICE, outside=True)


def _layers(effects: Effects, load: BracketLoad) -> tuple[Layer, ...]:
    surface, bracket = effects.surface, load.bracket
    spar = surface.sheet.spar
    web, words = spar.thickness, "web"
    at = effects.span.breaks[..., effects.span.hinges[load.hinge.name]]
    for doubler in surface.sheet.doublers.values():
        if doubler.on != "spar web" or not (doubler.start.known and doubler.to.known):
            continue
        reaches = (numbers(doubler.start) <= at) & (at <= numbers(doubler.to))
        if reaches.any() and doubler.thickness.known and web.known:
            both = numbers(web) + np.where(reaches, numbers(doubler.thickness), 0.0)
            web = replace(web, si=both if both.ndim else float(both), said=f"{web.said} + {doubler.thickness.said}")
            words = "web and doubler"
    own, base = metal_of(surface, bracket.alloy, bracket.thickness), metal_of(surface, spar.alloy, spar.thickness)
    edge = bracket.edge
    return (
        Layer("bracket", "bracket", bracket.thickness, own, edge.get("bracket", UNKNOWN), load.shear),
        Layer("spar", words, web, base, edge.get("spar", UNKNOWN), load.shear),
    )


def _leg(effects: Effects, load: BracketLoad) -> Iterator[Check]:
    """Check the leg as a short cantilever from its bend: pull, bending in its plane and across it, at one corner."""
    surface, bracket, name = effects.surface, load.bracket, load.hinge.name
    metal = metal_of(surface, bracket.alloy, bracket.thickness)
    factors = factors_of(surface, None)
    F = np.abs(load.force)
    legs = None if bracket.legs is None else float(bracket.legs)
    letters = {
        "F_x": Term(F[..., [0]], "force", "fore-and-aft load of the pin at limit"),
        "F_y": Term(F[..., [1]], "force", "load along the pins at limit"),
        "F_z": Term(F[..., [2]], "force", "sideways load of the pin at limit"),
        "L": Term(over_both(np.abs(load.offset[..., 0])), "length", "pin to web"),
        "b": Term.of(bracket.leg_wide, "length", "leg at its bend"),
        "t": Term.of(bracket.thickness, "length", "thickness of the leg"),
        "n": Term(legs, "", "legs", key=f"bracket.{bracket.name}.legs"),
    }
    stress = "(F_x / (n*b*t) + 6*F_z*L / (n*t*b**2) + 6*F_y*L / (n*b*t**2))"
    note = "elastic, the leg held at the web; where two legs carry the pin they share evenly"
    place, part = f"hinge.{name}.bracket.leg", f"{name} hinge, leg of the bracket"
    item = Item(place, part, effects.cases, ("",), factors=factors.line, subject="the leg", notes=(note,))
    yield from bending_checks(item, stress, letters, "F_z", metal, factors)


def _columns(load: BracketLoad) -> list[NDArray[np.intp]]:
    """Rivets that stand in one line along the pins, a line after the other towards +z."""
    across = load.b.reshape(-1, load.b.shape[-1])[0]
    return [np.flatnonzero(across == at) for at in np.unique(across)]


def _strip(effects: Effects, load: BracketLoad) -> Iterator[Check]:
    """Bare web between the flanges under the rivets' pull and push, elastic, both end conditions."""
    edge = load.bracket.edge.get("bracket", UNKNOWN)
    if load.hinge.rib_behind is not YesNo.NO or effects.box is None or not edge.known:
        return
    surface, box, span, name = effects.surface, effects.box, effects.span, load.hinge.name
    width = np.ptp(load.a, axis=-1) + 2.0 * numbers(edge)
    b = span.hinges[name]
    station = span.stations.after(b) if b < len(span.stations.cells) else -1
    height = np.asarray(box.height[..., station])
    if np.any(2.0 * np.max(np.abs(load.b), axis=-1) >= height):
        message = (
            f"bracket.{load.bracket.name}: its rivets reach {2e3 * np.max(np.abs(load.b)):.4g} mm across the web at "
            f"the {name} hinge, but the web is {np.min(height) * 1e3:.4g} mm deep: check gap_sideways and spar_depth"
        )
        raise SurfaceError(message)
    columns = _columns(load)
    rows = np.stack([load.b[..., at[0]] for at in columns], axis=-1)
    push = np.stack([load.share[..., at, 0].sum(axis=-1) for at in columns], axis=-1)
    metal = metal_of(surface, surface.sheet.spar.alloy, surface.sheet.spar.thickness)
    factors = factors_of(surface, None)
    t, doubler = by_case(box.web_t), over_both(box.doubler_t[..., station])
    place, part = f"hinge.{name}.bracket.web", f"{name} hinge, web behind the bracket"
    item = Item(place, part, effects.cases, ("",), factors=factors.line, subject="the web", notes=(BARE,))
    for mode, words, bent in (
        ("strip-supported", "simply held at the flanges", strip_moment_supported),
        ("strip-clamped", "clamped at the flanges", strip_moment_clamped),
    ):
        deep = height[..., None] if height.ndim else height
        moment = bent(push, by_case(rows + 0.5 * deep), deep)
        terms = {
            "M": Term(moment[..., None], "torque", "bending moment in the strip at limit"),
            "b": Term(over_both(width), "length", "width of the strip: outer rivets and two edge distances (assumed)"),
            "t": Term(np.maximum(t, doubler), "length", "thickness of the thicker leaf"),
            "t_2": Term(np.minimum(t, doubler), "length", "thickness of the other leaf, which bends apart"),
            "F_ty": Term.of(metal.tension_yield, "stress", f"yield stress of {metal.name}"),
            "FY": Term(factors.yield_ or 1.0, "", "from limit load to yield", factors.source),
        }
        required = "FY * 6 * M * t / (b * (t**3 + t_2**3))"
        check = item.check(mode, f"bends past yield, {words}", "F_ty", required, terms, "M", BENDING_SOURCE)
        margins = check.margins()
        yield check if margins is None else replace(check, outside=margins < 0.0)
