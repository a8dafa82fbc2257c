"""Hinge brackets: six force components over the rivets, the leg, and the web behind."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.checks._check import Check, Term
from surfacecheck.checks._joint import Joint, Layer, factors_of, joint_checks
from surfacecheck.library import metal_of
from surfacecheck.model import Face, YesNo
from surfacecheck.provenance import UNKNOWN, Basis, Source, Value
from surfacecheck.statics import heel_bound, prying_bound, share_group, shear_and_tension
from surfacecheck.strength import BENDING_SOURCE, strip_moment_clamped, strip_moment_supported

if TYPE_CHECKING:
    from collections.abc import Iterator

    from numpy.typing import NDArray

    from surfacecheck.checks._effects import Effects
    from surfacecheck.model import Bracket, Hinge, Surface

    Array = NDArray[np.float64]

__all__ = ["BracketLoad", "bracket_checks", "bracket_loads", "bracket_needs", "rivet_places"]

NO_HEEL = "rigid bracket, equal rivets, no heel: pull shared in a straight line over the group"
HEEL = "bound: the bracket turns about its lowest edge on the web and its leg pries"


@dataclass(frozen=True, eq=False)
class BracketLoad:
    """What each rivet of a hinge bracket passes to the web.

    Attributes
    ----------
    hinge : Hinge
        From the file.
    bracket : Bracket
        From the file.
    index : int
        Hinge along the H axis.
    a, b : ndarray, shape (R,)
        Places of the rivets along the pins and along z, from the middle of the group [m].
    force : ndarray, shape (C, 3)
        From the pin (x, y, z) [N].
    offset : tuple of float
        Pin from the middle of the group (x, y, z) [m].
    share : ndarray, shape (C, R, 3)
        (x, y, z) of each rivet [N].
    shear, tension, bound : ndarray, shape (C, R)
        Shear, pull without heel, pull with heel and prying [N].
    """

    hinge: Hinge
    bracket: Bracket
    index: int
    a: Array
    b: Array
    force: Array
    offset: tuple[float, float, float]
    share: Array
    shear: Array
    tension: Array
    bound: Array


def bracket_needs(surface: Surface, hinge: Hinge) -> tuple[str, ...]:
    """List the keys that hide the rivet loads of a bracket.

    Parameters
    ----------
    surface : Surface
        Perhaps half-filled.
    hinge : Hinge
        One of its hinges.

    Returns
    -------
    tuple of str
        Empty where they can be worked.
    """
    bracket = surface.brackets.get(hinge.bracket)
    if bracket is None:
        return (f"hinge.{hinge.name}.bracket",)
    key = f"bracket.{bracket.name}"
    wanted = {
        "on_face": bracket.on_face is not None, "along": bracket.along is not None, "sideways": bracket.sideways is not None,
        "gap_along": bracket.gap_along.known or bracket.along == 1,
        "gap_sideways": bracket.gap_sideways.known or bracket.sideways == 1,
        "leg_off_rivets": bracket.leg_off_rivets.known or bracket.leg_off_rivets.absent,
        "rivet": bracket.rivet in surface.rivets,
    }  # fmt: skip
    missing = [f"{key}.{name}" for name, known in wanted.items() if not known]
    if not all(p.web_behind.known for p in surface.outline.places):
        missing.append("outline.at.web_behind")
    return tuple(missing)


def rivet_places(surface: Surface, bracket: Bracket) -> tuple[Array, Array]:
    """Places of a bracket's rivets: 1 lowest left seen from behind, count up, then the next column right.

    Parameters
    ----------
    surface : Surface
        For which way left is.
    bracket : Bracket
        With its pattern known.

    Returns
    -------
    tuple of ndarray, each of shape (R,)
        Along the pins and along z from the middle of the group [m].
    """
    along, sideways = bracket.along or 1, bracket.sideways or 1
    step_a = float(bracket.gap_along.si) if bracket.gap_along.known else 0.0  # type: ignore[arg-type]
    step_b = float(bracket.gap_sideways.si) if bracket.gap_sideways.known else 0.0  # type: ignore[arg-type]
    a = np.tile((np.arange(along) - 0.5 * (along - 1)) * step_a, sideways)
    b = np.repeat(surface.left_is * (0.5 * (sideways - 1) - np.arange(sideways)) * step_b, along)
    return a, b


def bracket_loads(effects: Effects) -> Iterator[BracketLoad]:
    """Share every hinge's force over its rivets.

    Parameters
    ----------
    effects : Effects
        With reactions.

    Yields
    ------
    BracketLoad
        One a hinge whose bracket is described.
    """
    surface = effects.surface
    places = surface.outline.places
    for index, (name, b) in enumerate(effects.span.hinges.items()):
        hinge = surface.hinges[name]
        if bracket_needs(surface, hinge):
            continue
        bracket = surface.brackets[hinge.bracket]
        up = effects.span.breaks[b]
        web = float(np.interp(up, [p.up.si for p in places], [p.web_behind.si for p in places]))  # type: ignore[misc]
        off = surface.outline.pins_off_middle.si or 0.0
        leg = float(bracket.leg_off_rivets.si or 0.0)
        offset = (-web, leg, float(surface.left_is * off))
        y, z = rivet_places(surface, bracket)
        force = effects.reactions[:, index]
        side = 1 if bracket.on_face is Face.BEHIND else -1
        share = share_group(y, z, force, offset)
        shear, tension = shear_and_tension(share, side)
        yield BracketLoad(hinge, bracket, index, y, z, force, offset, share, shear, tension,
                          _bound(bracket, y, z, force, offset, side, tension))  # fmt: skip


def _bound(bracket: Bracket, y: Array, z: Array, force: Array, offset: tuple[float, float, float], side: int,
           tension: Array) -> Array:  # fmt: skip
    """Pull of each rivet at worst: heel on any of the four edges, and the leg's toe prying."""
    edge = bracket.edge.get("bracket", UNKNOWN)
    if not edge.known:
        return tension
    e = float(edge.si)  # type: ignore[arg-type]
    worst = tension
    for point, inward in (
        ((y.min() - e, 0.0), (1.0, 0.0)), ((y.max() + e, 0.0), (-1.0, 0.0)),
        ((0.0, z.min() - e), (0.0, 1.0)), ((0.0, z.max() + e), (0.0, -1.0)),
    ):  # fmt: skip
        pull, contact = heel_bound(y, z, force, offset, point, inward, side)
        worst = np.maximum(worst, np.where(contact[..., None] > 0.0, pull, 0.0))
    nearest = np.abs(np.abs(y) - abs(offset[1])) if bracket.legs == 1 else np.zeros_like(y)
    return np.maximum(worst, prying_bound(tension, float(nearest.min()), e))


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
                yield replace(check, mode=f"{check.mode}-heel", kind="bound", gives=f"{check.gives}, with heel and prying")
        yield from _leg(effects, load)
        yield from _strip(effects, load)


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
        Layer("spar", words, web, metal_of(surface, spar.alloy, spar.thickness), bracket.edge.get("spar", UNKNOWN), load.shear),
    )


def _leg(effects: Effects, load: BracketLoad) -> Iterator[Check]:
    """The leg as a short cantilever from its bend: pull, bending in its plane and across it, at one corner."""
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
        "n": Term(None if bracket.legs is None else float(bracket.legs), "", "legs", key=f"bracket.{bracket.name}.legs"),
    }
    stress = "(F_x / (n*b*t) + 6*F_z*L / (n*t*b**2) + 6*F_y*L / (n*b*t**2))"
    note = ("elastic, the leg held at the web; where two legs carry the pin they share evenly",)
    settings = {"effect": "F_z", "cases": effects.cases, "spots": ("",), "source": BENDING_SOURCE, "factors": factors.line,
                "notes": note, "subject": "the leg"}  # fmt: skip
    place, part = f"hinge.{load.hinge.name}.bracket.leg", f"{load.hinge.name} hinge, leg of the bracket"
    for mode, gives, strength, words, factor in (
        ("bends", "breaks in bending", metal.tension, "tensile strength", factors.ultimate),
        ("bends-yield", "takes a set in bending", metal.tension_yield, "yield stress", factors.yield_ or 1.0),
    ):
        terms = letters | {"F": Term.of(strength, "stress", f"{words} of {metal.name}"),
                           "FS": Term(factor, "", "from limit load", factors.source)}  # fmt: skip
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
    station = effects.span.stations.after(effects.span.hinges[load.hinge.name]) if effects.span.hinges[load.hinge.name] < len(
        effects.span.stations.cells) else -1  # fmt: skip
    height = float(box.height[station])
    rows = np.unique(load.b)
    push = np.stack([load.share[:, load.b == row, 0].sum(axis=-1) for row in rows], axis=-1)
    metal = metal_of(surface, surface.sheet.spar.alloy, surface.sheet.spar.thickness)
    factors = factors_of(surface, None)
    t, doubler = float(box.web_t), float(box.doubler_t[station])
    low = metal.tension_yield
    for mode, words, moment in (
        ("strip-supported", "simply held at the flanges", strip_moment_supported(push, rows + 0.5 * height, np.asarray(height))),
        ("strip-clamped", "clamped at the flanges", strip_moment_clamped(push, rows + 0.5 * height, np.asarray(height))),
    ):
        terms = {
            "M": Term(moment[:, None], "moment", "bending moment in the strip at limit"),
            "b": Term(width, "length", "width of the strip: outer rivets and two edge distances (assumed)"),
            "t": Term(max(t, doubler), "length", "thickness of the thicker leaf"),
            "t_2": Term(min(t, doubler), "length", "thickness of the other leaf, which bends apart"),
            "F_ty": Term.of(low, "stress", f"yield stress of {metal.name}"),
            "FY": Term(factors.yield_ or 1.0, "", "from limit load to yield", factors.source),
        }  # fmt: skip
        check = Check(
            f"hinge.{load.hinge.name}.bracket.web", mode, f"{load.hinge.name} hinge, web behind the bracket",
            f"bends past yield, {words}", "F_ty", "FY * 6 * M * t / (b * (t**3 + t_2**3))", terms, "M", effects.cases, ("",),
            BENDING_SOURCE, factors=factors.line, subject="the web",
            notes=("no rib behind the bracket; an elastic strip, a bound and not a prediction",),
        )  # fmt: skip
        margins = check.margins()
        yield check if margins is None else replace(check, outside=margins < 0.0)


NOT_GIVEN = Value(None, "?", Source(Basis.NOT_SAID))
