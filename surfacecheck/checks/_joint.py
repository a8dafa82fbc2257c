"""What one rivet can do in the sheets it joins: the checks that rows, brackets and the horn share."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.checks._check import Check, Term
from surfacecheck.checks._layers import Joint, Layer
from surfacecheck.library import rivet_strength
from surfacecheck.model import HeadKind, RivetSet
from surfacecheck.strength import (
    BEARING_SOURCE,
    DIAGONAL_TENSION_SOURCE,
    INTERACTION_SOURCE,
    NET_SECTION_SOURCE,
    PULL_OVER_SOURCE,
    SHEAR_OUT_SOURCE,
    SOLID_SHEAR_SOURCE,
    Factors,
    bearing_covered,
    bearing_stress,
    diagonal_tension_factor,
    pull_over_covered,
    row_factor,
    sheet_covered,
    thin_sheet_single,
    wrinkled_row_margin,
)

if TYPE_CHECKING:
    from collections.abc import Iterator

    from numpy.typing import NDArray

    from surfacecheck.model import Surface
    from surfacecheck.provenance import Source, Value

    Array = NDArray[np.float64]

__all__ = ["joint_checks"]

THIN = "sheet thinner than the bearing tables cover (t/D under 0.18)"


def joint_checks(surface: Surface, joint: Joint, factors: Factors) -> Iterator[Check]:
    """Give every plain check of a riveted joint.

    Parameters
    ----------
    surface : Surface
        For metals of its own.
    joint : Joint
        Loads and sheets.
    factors : Factors
        From limit load.

    Yields
    ------
    Check
        Rivet in shear with pull, rivet in pull, each sheet crushed, torn to its edge, pulled over the head.
    """
    yield from _rivet(surface, joint, factors)
    for layer in joint.layers:
        yield from _sheet(joint, layer, factors)
    yield from _head(joint, factors)


def _factor_term(factors: Factors, at_yield: bool) -> tuple[str, float, Term]:
    if at_yield:
        value = factors.yield_ or 1.0
        return "FY", value, Term(value, "", "from limit load to yield", factors.source)
    return "FS", factors.ultimate, Term(factors.ultimate, "", "from limit load to what it must carry", factors.source)


def _sheared(
    joint: Joint,
    factors: Factors,
    mode: str,
    gives: str,
    available: str,
    terms: dict[str, Term],
    source: Source,
    *,
    load: Array,
    what: str,
    at_yield: bool = False,
    outside: NDArray[np.bool_] | bool = False,
    notes: tuple[str, ...] = (),
) -> Check:
    """Make a check of something that the row's shear uses up, on flat sheet or on sheet that wrinkles more and more."""
    name, factor, factor_term = _factor_term(factors, at_yield)
    letters = {"S": Term(load, "force", what), name: factor_term, **terms}
    settings = {
        "effect": "S",
        "subject": joint.subject,
        "factors": factors.line,
        "outside": outside,
        "notes": (*joint.notes, *notes),
    }
    required, proof = f"{name} * S", ""
    if not isinstance(joint.wrinkle, float):
        k = diagonal_tension_factor(factor * joint.wrinkle, 1.0)
        letters["w"] = Term(
            row_factor(k), "", "1 + 0.414 k, k at that load, of the wrinkled sheet", DIAGONAL_TENSION_SOURCE
        )
        letters["r"] = Term(joint.wrinkle, "", "shear at limit over shear at which the sheet wrinkles")
        required = f"{required} * w"
    check = Check(
        joint.place, mode, joint.part, gives, available, required, letters, source=source, **joint.axes, **settings
    )  # type: ignore[arg-type]
    if isinstance(joint.wrinkle, float) or check.missing:
        return check
    with np.errstate(divide="ignore", invalid="ignore"):
        used = np.where(load > 0.0, load / check.work(available), 0.0)
    letters["lam"] = Term(wrinkled_row_margin(used, 0.0, joint.wrinkle, factor) + 1.0, "", "multiple of the load")
    proof = f"lam * {name} * S * (1 + 0.414 * tanh(0.5 * log10(max(1, lam * {name} * r)))) / ({available})"
    return replace(check, proof=proof)


def _rivet(surface: Surface, joint: Joint, factors: Factors) -> Iterator[Check]:
    shear, pull = rivet_strength(surface, joint.rivet)
    sheets = [layer.thickness for layer in joint.layers if layer.thickness.known and not layer.thickness.absent]
    solid = joint.rivet.set is RivetSet.SOLID
    P_s, notes = shear.si, ()
    if solid and shear.known and sheets and joint.rivet.diameter.known:
        thin = np.minimum.reduce([np.asarray(t.si) for t in sheets])
        P_s = shear.si * thin_sheet_single(joint.rivet.diameter.si, thin)  # type: ignore[operator, arg-type]
        notes = ("rivet shear lowered for thin sheet by 1 - 0.04 (D/t - 3), MIL-HDBK-5J table 8.1.2.1(b)",)
    strength = Term(P_s, "force", "shear strength of one rivet", shear.source, shear.key)
    yield _sheared(
        joint,
        factors,
        "rivet-shear",
        "rivet shears",
        "P_s",
        {"P_s": strength},
        SOLID_SHEAR_SOURCE if solid else shear.source,
        load=joint.shear,
        what="shear of one rivet at limit",
        notes=notes,
    )
    if not np.any(joint.tension > 0.0):
        return
    name, factor, factor_term = _factor_term(factors, at_yield=False)
    T = Term(joint.tension, "force", "pull on one rivet at limit")
    P_t = Term(pull.si, "force", "pull strength of one rivet", pull.source, pull.key)
    yield Check(
        joint.place,
        "rivet-pull",
        joint.part,
        "rivet pulls out",
        "P_t",
        "FS * T",
        {"T": T, name: factor_term, "P_t": P_t},
        "T",
        source=pull.source,
        **joint.axes,
        factors=factors.line,
        notes=joint.notes,
        subject=joint.subject,
    )
    if P_s is None or pull.si is None:
        return
    terms = {
        "S": Term(joint.shear, "force", "shear of one rivet at limit"),
        "T": T,
        name: factor_term,
        "P_s": strength,
        "P_t": P_t,
    }
    required, proof = "FS * sqrt((S / P_s)**2 + (T / P_t)**2)", ""
    if not isinstance(joint.wrinkle, float):
        lam = wrinkled_row_margin(joint.shear / P_s, joint.tension / pull.si, joint.wrinkle, factor) + 1.0
        terms["lam"] = Term(lam, "", "multiple of the load")
        terms["r"] = Term(joint.wrinkle, "", "shear at limit over shear at which the sheet wrinkles")
        proof = "(lam*FS*S*(1 + 0.414*tanh(0.5*log10(max(1, lam*FS*r))))/P_s)**2 + (lam*FS*T/P_t)**2"
    yield Check(
        joint.place,
        "rivet-both",
        joint.part,
        "rivet gives, shear and pull together",
        "1",
        required,
        terms,
        "S",
        source=INTERACTION_SOURCE,
        **joint.axes,
        proof=proof,
        factors=factors.line,
        notes=(*joint.notes, *notes),
        subject=joint.subject,
    )


def _sheet(joint: Joint, layer: Layer, factors: Factors) -> Iterator[Check]:
    rivet, metal = joint.rivet, layer.metal
    if layer.thickness.absent:
        return
    terms = {
        "D": Term.of(rivet.hole if rivet.hole.known else rivet.diameter, "length", "hole"),
        "t": Term.of(layer.thickness, "length", f"thickness of {layer.words}"),
    }
    e_over_D: Array | float = 2.0
    outside: NDArray[np.bool_] | bool = False
    notes: tuple[str, ...] = ()
    known_edge = layer.edge.known and rivet.diameter.known
    if known_edge:
        e_over_D = np.asarray(layer.edge.si) / np.asarray(rivet.diameter.si)
        outside = ~bearing_covered(e_over_D)
    else:
        notes = (f"edge of {layer.words} not given: taken as two diameters or more",)
    if rivet.diameter.known and layer.thickness.known:
        covered = sheet_covered(rivet.diameter.si, layer.thickness.si)  # type: ignore[arg-type]
        notes = notes if np.all(covered) else (*notes, THIN)
    what = f"load of one rivet on {layer.words} at limit"
    for mode, gives, low, high, at_yield in (
        ("crush", "crushes", metal.bearing_15, metal.bearing_20, False),
        ("crush-yield", "is pressed oval", metal.bearing_yield_15, metal.bearing_yield_20, True),
    ):
        F = Term(
            _bearing(low, high, e_over_D),
            "stress",
            f"bearing {'yield' if at_yield else 'strength'} of {metal.name} at this edge",
            high.source,
            high.key,
        )
        yield _sheared(
            joint,
            factors,
            f"{layer.name}-{mode}",
            f"{layer.words} {gives}",
            "F_br * D * t",
            terms | {"F_br": F},
            BEARING_SOURCE,
            load=layer.load,
            what=what,
            at_yield=at_yield,
            outside=outside,
            notes=notes,
        )
    if known_edge:
        more = {
            "F_su": Term.of(metal.shear, "stress", f"shear strength of {metal.name}"),
            "e": Term.of(layer.edge, "length", f"hole centre to the edge of {layer.words}"),
        }
        yield _sheared(
            joint,
            factors,
            f"{layer.name}-tear-out",
            f"{layer.words} tears to its edge",
            "2 * F_su * t * (e - 0.383 * D)",
            terms | more,
            SHEAR_OUT_SOURCE,
            load=layer.load,
            what=what,
            outside=outside,
        )

    if joint.pitch:
        more = {
            "F_su": Term.of(metal.shear, "stress", f"shear strength of {metal.name}"),
            "p": Term(joint.pitch, "length", "real pitch of the row"),
        }
        yield _sheared(
            joint,
            factors,
            f"{layer.name}-between-holes",
            f"{layer.words} tears between the holes",
            "F_su * t * (p - D)",
            terms | more,
            NET_SECTION_SOURCE,
            load=layer.load,
            what=what,
        )


def _bearing(low: Value, high: Value, e_over_D: Array | float) -> Array | None:
    """Bearing stress at an edge distance; below 1.5 D the value at 1.5 D, marked outside by the caller."""
    if not high.known:
        return None
    if not low.known:
        return np.where(np.asarray(e_over_D) >= 2.0, high.si, 0.75 * np.asarray(high.si))  # type: ignore[arg-type]
    return np.asarray(bearing_stress(np.maximum(e_over_D, 1.5), low.si, high.si))  # type: ignore[arg-type]


def _head(joint: Joint, factors: Factors) -> Iterator[Check]:
    """Sheet under the head pulled over it; only protruding heads."""
    rivet = joint.rivet
    if not joint.layers or not np.any(joint.tension > 0.0) or rivet.head_kind not in {None, HeadKind.PROTRUDING}:
        return
    outer = joint.layers[0]
    if not outer.thickness.known:
        return
    name, _, factor_term = _factor_term(factors, at_yield=False)
    terms = {
        "T": Term(joint.tension, "force", "pull on one rivet at limit"),
        name: factor_term,
        "d_h": Term.of(rivet.head, "length", "head"),
        "t": Term.of(outer.thickness, "length", f"thickness of {outer.words}"),
        "F_tu": Term.of(outer.metal.tension, "stress", f"tensile strength of {outer.metal.name}"),
    }
    covered = np.all(pull_over_covered(outer.thickness.si))  # type: ignore[arg-type]
    notes = ("rule written for screws with washers in steel sheet; borrowed for want of one for rivets",)
    notes = notes if covered else (*notes, "sheet outside 0.5 to 1.5 mm, the range of the rule")
    yield Check(
        joint.place,
        "pull-over",
        joint.part,
        f"{outer.words} pulls over the rivet head",
        "0.5 * d_h * t * F_tu",
        "FS * T",
        terms,
        "T",
        source=PULL_OVER_SOURCE,
        **joint.axes,
        factors=factors.line,
        notes=(*joint.notes, *notes),
        subject=joint.subject,
    )
