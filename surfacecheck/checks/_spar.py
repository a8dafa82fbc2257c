"""The spar: direct stress at its corners and flanges, net section, shear of the web."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.checks._check import Check, Term
from surfacecheck.checks._web import web_checks
from surfacecheck.library import metal_of
from surfacecheck.model import RivetSet
from surfacecheck.provenance import Basis, Source
from surfacecheck.strength import FLANGE_FREE, NET_SECTION_SOURCE, PLATE_SOURCE, lip_stiffness, member, plate_constant

if TYPE_CHECKING:
    from collections.abc import Iterator

    from numpy.typing import NDArray

    from surfacecheck.checks._effects import Effects

    Array = NDArray[np.float64]

__all__ = ["node_stress", "spar_checks"]

BENDING = Source(Basis.PUBLISHED, "engineering theory of bending with product of inertia; Megson, chapter 16")
SUPPORTED = 4.0
"""Buckling coefficient of a long plate held at both edges, simply supported (NACA TN 3781)."""
LIP_HOLDS = 5.0
"""Least value of the lip criterion at which a lip holds the flange's edge (Bruhn C7.9, from memory)."""


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
    ndarray, shape (C, S)
        Stress of metal of the spar [Pa].
    """
    box = effects.box
    assert box is not None  # noqa: S101 - callers ask for stresses only where there are sections
    one, at = box.closed, box.node(node)
    N = effects.N
    M_x = effects.M_x + one.z_c * N
    M_z = effects.M_z - one.x_c * N
    by_x = one.alpha * M_z - one.beta * M_x
    by_z = one.beta * M_z - one.gamma * M_x
    return np.asarray(by_x * (one.x[:, at] - one.x_c) + by_z * (one.z[:, at] - one.z_c) + N / one.area)


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
    only = effects.only(~effects.control)
    yield from _direct(only)
    yield from web_checks(only)


def _direct(effects: Effects) -> Iterator[Check]:
    box, surface = effects.box, effects.surface
    assert box is not None  # noqa: S101
    spar = surface.sheet.spar
    metal = metal_of(surface, spar.alloy, spar.thickness)
    factors = member()
    FS = Term(factors.ultimate, "", "from limit load to ultimate", factors.source)
    nodes = [n for n in box.nodes if n.startswith(("corner", "tip", "lip"))]
    stresses = {n: node_stress(effects, n) for n in nodes}
    every = np.stack(list(stresses.values()))
    tension, compression = every.max(axis=0), (-every).max(axis=0)
    common = {
        "place": "spar",
        "part": "spar",
        "cases": effects.cases,
        "spots": effects.places,
        "factors": factors.line,
        "subject": "the spar",
    }
    f_t = Term(np.maximum(tension, 0.0), "stress", "greatest tension at limit")
    yield Check(
        mode="tension",
        gives="tears in bending",
        available="F_tu",
        required="FS * f",
        effect="f",
        source=BENDING,
        terms={"F_tu": Term.of(metal.tension, "stress", f"tensile strength of {metal.name}"), "FS": FS, "f": f_t},
        **common,
    )  # type: ignore[arg-type]
    both = np.maximum(np.maximum(tension, compression), 0.0)
    yields = [v.si for v in (metal.tension_yield, metal.compression_yield)]
    low = None if None in yields else np.minimum(*yields)  # type: ignore[misc]
    yield Check(
        mode="yield",
        gives="takes a set in bending",
        available="F_y",
        required="f",
        effect="f",
        source=BENDING,
        terms={
            "F_y": Term(
                low,
                "stress",
                f"lesser yield stress of {metal.name}",
                metal.compression_yield.source,
                metal.compression_yield.key,
            ),
            "f": Term(both, "stress", "greatest bending stress at limit"),
        },
        **common,
    )  # type: ignore[arg-type]
    yield _flange(effects, stresses, FS, common)
    yield from _net(effects, stresses, FS, common)


def _flange(effects: Effects, stresses: dict[str, Array], FS: Term, common: dict[str, object]) -> Check:
    """Check a flange in compression: the lesser of yield and its own buckling."""
    box, surface = effects.box, effects.surface
    assert box is not None  # noqa: S101
    spar = surface.sheet.spar
    metal = metal_of(surface, spar.alloy, spar.thickness)
    k, notes = FLANGE_FREE, ("flange taken as held at the web only, its edge free",)
    if spar.lip.known and not spar.lip.absent:
        holds = lip_stiffness(spar.lip.si, box.flange, spar.thickness.si) >= LIP_HOLDS  # type: ignore[arg-type]
        k, notes = (
            (SUPPORTED, ("the lip holds the edge of the flange",))
            if np.all(holds)
            else (k, ("the lip is too low to hold the edge of the flange",))
        )
    tips = np.stack([-stresses[n] for n in stresses if n.startswith(("corner", "tip"))]).max(axis=0)
    nu = metal.poisson.si if metal.poisson.known else 0.33
    terms = {
        "k": Term(k, "", "buckling coefficient of the flange", PLATE_SOURCE),
        "C": Term(plate_constant(nu), "", "pi^2 / (12 (1 - nu^2))"),  # type: ignore[arg-type]
        "E": Term.of(
            metal.modulus_compression if metal.modulus_compression.known else metal.modulus,
            "stress",
            f"E of {metal.name}",
        ),
        "t": Term.of(spar.thickness, "length", "thickness of the spar"),
        "b": Term(box.flange, "length", "flange, middle of web to free edge", spar.flange.source),
        "F_cy": Term.of(metal.compression_yield, "stress", f"compression yield of {metal.name}"),
        "FS": FS,
        "f": Term(np.maximum(tips, 0.0), "stress", "greatest compression of a flange at limit"),
    }
    return Check(
        mode="flange-buckles",
        gives="flange buckles",
        available="min(F_cy, k * C * E * (t / b)**2)",
        required="FS * f",
        effect="f",
        source=PLATE_SOURCE,
        terms=terms,
        notes=notes,
        **common,
    )  # type: ignore[arg-type]


def _net(effects: Effects, stresses: dict[str, Array], FS: Term, common: dict[str, object]) -> Iterator[Check]:
    """Tension flange at the holes of its skin rivets."""
    surface, box = effects.surface, effects.box
    assert box is not None  # noqa: S101
    rows = [
        r
        for r in surface.rows.values()
        if "spar" in r.joins and set(r.joins) & {"left_skin", "right_skin", "nose_skin"}
    ]
    rivets = [surface.rivets[r.rivet] for r in rows if r.rivet in surface.rivets]
    if not rivets:
        return
    largest = max(rivets, key=lambda r: float(np.max(r.hole.si)) if r.hole.known else 0.0)  # type: ignore[arg-type]
    metal = metal_of(surface, surface.sheet.spar.alloy, surface.sheet.spar.thickness)
    tension = np.stack([stresses[n] for n in stresses if n.startswith(("corner", "tip"))]).max(axis=0)
    terms = {
        "F_tu": Term.of(metal.tension, "stress", f"tensile strength of {metal.name}"),
        "b": Term(box.flange, "length", "flange, middle of web to free edge", surface.sheet.spar.flange.source),
        "d": Term.of(largest.hole, "length", "hole of the skin rivets"),
        "FS": FS,
        "f": Term(np.maximum(tension, 0.0), "stress", "greatest tension of a flange at limit"),
    }
    solid = largest.set is RivetSet.SOLID
    notes = (
        ("one hole across the flange; a solid rivet fills its hole, but tension is still carried beside it",)
        if solid
        else ("one hole across the flange",)
    )
    yield Check(
        mode="net-section",
        gives="tears through the skin rivets' holes",
        available="F_tu * (b - d) / b",
        required="FS * f",
        effect="f",
        source=NET_SECTION_SOURCE,
        terms=terms,
        notes=notes,
        **common,
    )  # type: ignore[arg-type]
