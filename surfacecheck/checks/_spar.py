"""The spar: direct stress at its corners and flanges, net section, shear of the web."""

from __future__ import annotations

from functools import reduce
from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.axes import by_case
from surfacecheck.checks._check import Check, Term
from surfacecheck.checks._item import Item
from surfacecheck.checks._reduce import worst_case
from surfacecheck.checks._web import web_checks
from surfacecheck.library import metal_of
from surfacecheck.model import RivetSet
from surfacecheck.provenance import Basis, Source, numbers, over_spots
from surfacecheck.strength import FLANGE_FREE, NET_SECTION_SOURCE, PLATE_SOURCE, lip_stiffness, member, plate_constant

if TYPE_CHECKING:
    from collections.abc import Iterator

    from numpy.typing import NDArray

    from surfacecheck.checks._effects import Effects

    Array = NDArray[np.float64]

__all__ = ["AT_ONE_PLACE", "NET", "node_stress", "spar_checks", "web_stress"]

BENDING = Source(Basis.PUBLISHED, "engineering theory of bending with product of inertia; Megson, chapter 16")
SUPPORTED = 4.0
"""Buckling coefficient of a long plate held at both edges, simply supported (NACA TN 3781)."""
LIP_HOLDS = 5.0
"""Least value of the lip criterion at which a lip holds the flange's edge (Bruhn C7.9, from memory)."""

NET = {True: "F_tu * (b - d) / b", False: "F_tu * (b - n * d) / b"}
"""What the holes leave of a flange, by whether there is one line of rivets."""
AT_ONE_PLACE = (
    "how the lines of rivets stand to each other is not said: taken as side by side, their holes in one cross-section"
)


def node_stress(effects: Effects, node: str) -> Array:
    """Direct stress at a node of the section, tension positive.

    Parameters
    ----------
    effects : Effects
        With sections.
    node : str
        Name, such as ``corner_plus``.

    Returns
    -------
    ndarray, shape (..., C, S)
        Stress of metal of the spar [Pa].
    """
    return effects.once(f"stress of {node}", lambda: _node_stress(effects, node))


def _node_stress(effects: Effects, node: str) -> Array:
    box = effects.box
    assert box is not None  # noqa: S101 - callers ask for stresses only where there are sections
    one, at = box.closed, box.node(node)
    x, z = one.x[..., at] - one.x_c, one.z[..., at] - one.z_c
    # sigma = (alpha x + beta z) M_z - (beta x + gamma z) M_x + N / A, moments about the centroid: gathered by what acts
    # about the hinge line, so that there are three products a case
    by_z, by_x = one.alpha * x + one.beta * z, one.beta * x + one.gamma * z
    by_N = 1.0 / one.area - by_z * one.x_c - by_x * one.z_c
    return np.asarray(by_case(by_z) * effects.M_z - by_case(by_x) * effects.M_x + by_case(by_N) * effects.N)


def web_stress(effects: Effects) -> Array:
    """Give the mean direct stress of the web, at mid-depth, and a third of the bending over it.

    Parameters
    ----------
    effects : Effects
        With sections.

    Returns
    -------
    ndarray, shape (..., C, S)
        Not negative [Pa].
    """
    corners = [node_stress(effects, node) for node in ("corner_plus", "corner_minus")]
    return np.abs(corners[0] + corners[1]) / 2.0 + np.abs(corners[0] - corners[1]) / 4.0


def spar_checks(effects: Effects) -> Iterator[Check]:
    """Give the checks of the spar, at every station.

    Parameters
    ----------
    effects : Effects
        With flows.

    Yields
    ------
    Check
        Yield and ultimate at the most stressed node, buckling of the flange, net section at rivets, shear of the web.
    """
    if effects.box is None:
        return
    yield from _direct(effects.whole)
    yield from web_checks(effects.whole)


def _direct(effects: Effects) -> Iterator[Check]:
    """Tension and yield of the most stressed node, the flange in compression, the flange at its holes."""
    box, spar = effects.box, effects.surface.sheet.spar
    assert box is not None  # noqa: S101
    metal = metal_of(effects.surface, spar.alloy, spar.thickness)
    factors = member()
    FS = Term(factors.ultimate, "", "from limit load to ultimate", factors.source)
    stresses = {n: node_stress(effects, n) for n in box.nodes if n.startswith(("corner", "tip", "lip"))}
    flange = [stress for n, stress in stresses.items() if n.startswith(("corner", "tip"))]
    most, least = reduce(np.maximum, stresses.values()), reduce(np.minimum, stresses.values())
    tension, f = _worst(effects, most, "greatest tension at limit", factors.line)
    yield tension.check(
        "tension",
        "tears in bending",
        "F_tu",
        "FS * f",
        {"F_tu": Term.of(metal.tension, "stress", f"tensile strength of {metal.name}"), "FS": FS, "f": f},
        "f",
        BENDING,
    )
    both, f = _worst(effects, np.maximum(most, -least), "greatest bending stress at limit", factors.line)
    low = None
    if metal.tension_yield.known and metal.compression_yield.known:
        low = np.minimum(over_spots(metal.tension_yield), over_spots(metal.compression_yield))
    of_yield = metal.compression_yield
    F_y = Term(low, "stress", f"lesser yield stress of {metal.name}", of_yield.source, of_yield.key)
    yield both.check("yield", "takes a set in bending", "F_y", "f", {"F_y": F_y, "f": f}, "f", BENDING)
    compressed = _worst(effects, -reduce(np.minimum, flange), "greatest compression of a flange at limit", factors.line)
    yield _buckles(effects, *compressed, FS, "flange")
    if lip := [stress for n, stress in stresses.items() if n.startswith("lip")]:
        ends = [stress for n, stress in stresses.items() if n.startswith("tip")]
        pressed = -reduce(np.minimum, [*lip, *ends])
        yield _buckles(
            effects, *_worst(effects, pressed, "greatest compression of a lip at limit", factors.line), FS, "lip"
        )
    drawn = _worst(effects, reduce(np.maximum, flange), "greatest tension of a flange at limit", factors.line)
    yield from _net(effects, *drawn, FS)


def _worst(effects: Effects, stress: Array, means: str, factors: str) -> tuple[Item, Term]:
    """Keep the worst case of every station."""
    effect = np.maximum(stress, 0.0)
    kept = worst_case(effect)
    names = kept.spots(effects.places), kept.cases(effects.cases)
    return Item("spar", "spar", ("",), *names, factors, "the spar"), Term(kept.of(effect), "stress", means)


def _buckles(effects: Effects, item: Item, f: Term, FS: Term, what: str) -> Check:
    """Check a flange or a lip in compression: the lesser of yield and its own buckling."""
    box, spar = effects.box, effects.surface.sheet.spar
    assert box is not None  # noqa: S101
    metal = metal_of(effects.surface, spar.alloy, spar.thickness)
    k, note = np.asarray(FLANGE_FREE), f"{what} taken as held at one edge only, the other free"
    b = Term(by_case(box.flange), "length", "flange, middle of web to free edge", spar.flange.source)
    if what == "lip":
        b = Term(
            over_spots(spar.lip) - 0.5 * over_spots(spar.thickness),
            "length",
            "lip, to the middle of the flange",
            spar.lip.source,
        )
    elif spar.lip.known and not spar.lip.absent:
        stiff = lip_stiffness(over_spots(spar.lip), by_case(box.flange), over_spots(spar.thickness))
        k = np.where(stiff >= LIP_HOLDS, SUPPORTED, FLANGE_FREE)
        note = "the lip is too low to hold the edge of the flange"
        if np.all(k == SUPPORTED):
            note = "the lip holds the edge of the flange"
    nu = over_spots(metal.poisson) if metal.poisson.known else np.asarray(0.33)
    modulus = metal.modulus_compression if metal.modulus_compression.known else metal.modulus
    terms = {
        "k": Term(k, "", f"buckling coefficient of the {what}", PLATE_SOURCE),
        "C": Term(plate_constant(nu), "", "pi^2 / (12 (1 - nu^2))"),
        "E": Term.of(modulus, "stress", f"E of {metal.name}"),
        "t": Term.of(spar.thickness, "length", "thickness of the spar"),
        "b": b,
        "F_cy": Term.of(metal.compression_yield, "stress", f"compression yield of {metal.name}"),
        "FS": FS,
        "f": f,
    }
    buckles = "min(F_cy, k * C * E * (t / b)**2)"
    return item.check(f"{what}-buckles", f"{what} buckles", buckles, "FS * f", terms, "f", PLATE_SOURCE, notes=(note,))


def _net(effects: Effects, item: Item, f: Term, FS: Term) -> Iterator[Check]:
    """Tension flange at the holes of its skin rivets."""
    surface, box = effects.surface, effects.box
    assert box is not None  # noqa: S101
    skins = {"left_skin", "right_skin", "nose_skin"}
    rows = [r for r in surface.rows.values() if "spar" in r.joins and set(r.joins) & skins]
    holes = [(r.lines or 1, surface.rivets[r.rivet]) for r in rows if r.rivet in surface.rivets]
    if not holes:
        return
    n, largest = max(holes, key=lambda one: one[0] * float(np.max(numbers(one[1].hole))) if one[1].hole.known else 0.0)
    metal = metal_of(surface, surface.sheet.spar.alloy, surface.sheet.spar.thickness)
    terms = {
        "F_tu": Term.of(metal.tension, "stress", f"tensile strength of {metal.name}"),
        "b": Term(
            by_case(box.flange), "length", "flange, middle of web to free edge", surface.sheet.spar.flange.source
        ),
        "d": Term.of(largest.hole, "length", "hole of the skin rivets"),
        "FS": FS,
        "f": f,
    }
    if n > 1:
        terms["n"] = Term(float(n), "", "lines of these rivets, and so holes in one cross-section")
    note = "one hole across the flange" if n == 1 else f"{n} holes across the flange; {AT_ONE_PLACE}"
    if largest.set is RivetSet.SOLID:
        note += "; a solid rivet fills its hole, but tension is still carried beside it"
    yield item.check(
        "net-section",
        "tears through the skin rivets' holes",
        NET[n == 1],
        "FS * f",
        terms,
        "f",
        NET_SECTION_SOURCE,
        notes=(note,),
    )
