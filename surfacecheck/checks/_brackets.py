"""Hinge brackets: six force components over the rivets, the leg, and the web behind."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.checks._bracket_loads import BracketLoad, bracket_needs
from surfacecheck.checks._check import Check, Term
from surfacecheck.checks._effects import PRACTICE
from surfacecheck.checks._joint import joint_checks
from surfacecheck.checks._layers import Joint, Layer, factors_of
from surfacecheck.errors import SurfaceError
from surfacecheck.library import metal_of
from surfacecheck.model import YesNo
from surfacecheck.provenance import UNKNOWN, Basis, Source, Value
from surfacecheck.strength import BENDING_SOURCE, strip_moment_clamped, strip_moment_supported

if TYPE_CHECKING:
    from collections.abc import Iterator

    from numpy.typing import NDArray

    from surfacecheck.checks._effects import Effects

    Array = NDArray[np.float64]

__all__ = ["bracket_checks"]

NO_HEEL = "rigid bracket, equal rivets, no heel: pull shared in a straight line over the group"
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
            spots=tuple(f"rivet {i + 1}" for i in range(load.a.size)),
            notes=(NO_HEEL,),
        )
        factors = factors_of(surface, None)
        yield from joint_checks(surface, joint, factors)
        heel = replace(joint, tension=load.bound, layers=(), notes=(HEEL,))
        for check in joint_checks(surface, heel, factors):
            if check.mode in {"rivet-pull", "rivet-both"}:
                yield replace(
                    check, mode=f"{check.mode}-heel", kind="bound", gives=f"{check.gives}, with heel and prying"
                )
        yield from _leg(effects, load)
        yield from _strip(effects, load)


def _no_couple(effects: Effects, loads: tuple[BracketLoad, ...]) -> Iterator[Check]:
    """Say of a bracket on one rivet, or on one line of them, that only a heel could hold the pin's couple."""
    shared = {load.hinge.name for load in loads}
    for index, name in enumerate(effects.span.hinges):
        hinge = effects.surface.hinges[name]
        if name in shared or bracket_needs(effects.surface, hinge):
            continue
        terms = {
            "P_h": Term(None, "force", "pull and push that these rivets hold without a heel"),
            "P": Term(
                np.sqrt((effects.reactions[:, index] ** 2).sum(axis=-1, keepdims=True)), "force", "pin load at limit"
            ),
        }
        yield Check(
            f"hinge.{name}.bracket",
            "one-line",
            f"{name} hinge, bracket",
            "its rivets stand in one line: they hold no couple without a heel",
            "P_h",
            "P",
            terms,
            "P",
            effects.cases,
            ("",),
            PRACTICE,
            outside=True,
            subject="this bracket",
        )


def _layers(effects: Effects, load: BracketLoad) -> tuple[Layer, ...]:
    surface, bracket = effects.surface, load.bracket
    spar = surface.sheet.spar
    web, words = spar.thickness, "web"
    at = effects.span.breaks[effects.span.hinges[load.hinge.name]]
    for doubler in surface.sheet.doublers.values():
        reaches = doubler.start.known and doubler.to.known and doubler.start.si <= at <= doubler.to.si  # type: ignore[operator]
        if doubler.on == "spar web" and reaches and doubler.thickness.known and web.known:
            web = replace(web, si=web.si + doubler.thickness.si, said=f"{web.said} + {doubler.thickness.said}")  # type: ignore[operator]
            words = "web and doubler"
    own = metal_of(surface, bracket.alloy, bracket.thickness)
    return (
        Layer("bracket", "bracket", bracket.thickness, own, bracket.edge.get("bracket", UNKNOWN), load.shear),
        Layer(
            "spar",
            words,
            web,
            metal_of(surface, spar.alloy, spar.thickness),
            bracket.edge.get("spar", UNKNOWN),
            load.shear,
        ),
    )


def _leg(effects: Effects, load: BracketLoad) -> Iterator[Check]:
    """Check the leg as a short cantilever from its bend: pull, bending in its plane and across it, at one corner."""
    surface, bracket = effects.surface, load.bracket
    metal = metal_of(surface, bracket.alloy, bracket.thickness)
    factors = factors_of(surface, None)
    F = np.abs(load.force)
    letters = {
        "F_x": Term(F[:, [0]], "force", "fore-and-aft load of the pin at limit"),
        "F_y": Term(F[:, [1]], "force", "load along the pins at limit"),
        "F_z": Term(F[:, [2]], "force", "sideways load of the pin at limit"),
        "L": Term(abs(load.offset[0]), "length", "pin to web"),
        "b": Term.of(bracket.leg_wide, "length", "leg at its bend"),
        "t": Term.of(bracket.thickness, "length", "thickness of the leg"),
        "n": Term(
            None if bracket.legs is None else float(bracket.legs), "", "legs", key=f"bracket.{bracket.name}.legs"
        ),
    }
    stress = "(F_x / (n*b*t) + 6*F_z*L / (n*t*b**2) + 6*F_y*L / (n*b*t**2))"
    note = ("elastic, the leg held at the web; where two legs carry the pin they share evenly",)
    settings = {
        "effect": "F_z",
        "cases": effects.cases,
        "spots": ("",),
        "source": BENDING_SOURCE,
        "factors": factors.line,
        "notes": note,
        "subject": "the leg",
    }
    place, part = f"hinge.{load.hinge.name}.bracket.leg", f"{load.hinge.name} hinge, leg of the bracket"
    for mode, gives, strength, words, factor in (
        ("bends", "breaks in bending", metal.tension, "tensile strength", factors.ultimate),
        ("bends-yield", "takes a set in bending", metal.tension_yield, "yield stress", factors.yield_ or 1.0),
    ):
        terms = letters | {
            "F": Term.of(strength, "stress", f"{words} of {metal.name}"),
            "FS": Term(factor, "", "from limit load", factors.source),
        }
        yield Check(place, mode, part, gives, "F", f"FS * {stress}", terms, **settings)  # type: ignore[arg-type]


def _strip(effects: Effects, load: BracketLoad) -> Iterator[Check]:
    """Bare web between the flanges under the rivets' pull and push, elastic, both end conditions."""
    if load.hinge.rib_behind is not YesNo.NO or effects.box is None:
        return
    surface, bracket, box = effects.surface, load.bracket, effects.box
    edge = bracket.edge.get("bracket", UNKNOWN)
    if not edge.known:
        return
    width = float(np.ptp(load.a)) + 2.0 * float(edge.si)  # type: ignore[arg-type]
    station = (
        effects.span.stations.after(effects.span.hinges[load.hinge.name])
        if effects.span.hinges[load.hinge.name] < len(effects.span.stations.cells)
        else -1
    )
    height = float(box.height[station])
    if 2.0 * np.max(np.abs(load.b)) >= height:
        message = (
            f"bracket.{bracket.name}: its rivets reach {2e3 * np.max(np.abs(load.b)):.4g} mm across the web at the "
            f"{load.hinge.name} hinge, but the web is {height * 1e3:.4g} mm deep: check gap_sideways and spar_depth"
        )
        raise SurfaceError(message)
    rows = np.unique(load.b)
    push = np.stack([load.share[:, load.b == row, 0].sum(axis=-1) for row in rows], axis=-1)
    metal = metal_of(surface, surface.sheet.spar.alloy, surface.sheet.spar.thickness)
    factors = factors_of(surface, None)
    t, doubler = float(box.web_t), float(box.doubler_t[station])
    low = metal.tension_yield
    for mode, words, moment in (
        (
            "strip-supported",
            "simply held at the flanges",
            strip_moment_supported(push, rows + 0.5 * height, np.asarray(height)),
        ),
        (
            "strip-clamped",
            "clamped at the flanges",
            strip_moment_clamped(push, rows + 0.5 * height, np.asarray(height)),
        ),
    ):
        terms = {
            "M": Term(moment[:, None], "moment", "bending moment in the strip at limit"),
            "b": Term(width, "length", "width of the strip: outer rivets and two edge distances (assumed)"),
            "t": Term(max(t, doubler), "length", "thickness of the thicker leaf"),
            "t_2": Term(min(t, doubler), "length", "thickness of the other leaf, which bends apart"),
            "F_ty": Term.of(low, "stress", f"yield stress of {metal.name}"),
            "FY": Term(factors.yield_ or 1.0, "", "from limit load to yield", factors.source),
        }
        check = Check(
            f"hinge.{load.hinge.name}.bracket.web",
            mode,
            f"{load.hinge.name} hinge, web behind the bracket",
            f"bends past yield, {words}",
            "F_ty",
            "FY * 6 * M * t / (b * (t**3 + t_2**3))",
            terms,
            "M",
            effects.cases,
            ("",),
            BENDING_SOURCE,
            factors=factors.line,
            subject="the web",
            notes=("no rib behind the bracket; an elastic strip, a bound and not a prediction",),
        )
        margins = check.margins()
        yield check if margins is None else replace(check, outside=margins < 0.0)


NOT_GIVEN = Value(None, "?", Source(Basis.NOT_SAID))
