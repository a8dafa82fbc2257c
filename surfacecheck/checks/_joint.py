"""What one rivet can do in the sheets it joins: the checks that rows, brackets and the horn share."""

from __future__ import annotations

from functools import lru_cache, reduce
from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.checks._check import Term
from surfacecheck.checks._layers import Joint, Layer
from surfacecheck.checks._sheared import Draft, Shearing, Wrinkled, factor_of, finished, wrinkling
from surfacecheck.library import rivet_strength
from surfacecheck.model import HeadKind, RivetSet
from surfacecheck.provenance import Basis, Source, numbers, over_spots
from surfacecheck.strength import (
    BEARING_SOURCE,
    INTERACTION_SOURCE,
    NET_SECTION_SOURCE,
    PULL_OVER_SOURCE,
    SHEAR_OUT_SOURCE,
    SOLID_SHEAR_SOURCE,
    Factors,
    bearing_covered,
    bearing_stress,
    pull_over_covered,
    sheet_covered,
    tension_unwelcome,
    thin_sheet_single,
)

if TYPE_CHECKING:
    from collections.abc import Iterator

    from numpy.typing import NDArray

    from surfacecheck.checks._check import Check
    from surfacecheck.model import Rivet, Surface
    from surfacecheck.provenance import Value

    Array = NDArray[np.float64]

__all__ = ["joint_checks", "joint_drafts"]

AGAINST_SHEET = Source(Basis.COMMON_PRACTICE, "load of one rivet against the strength its data sheet gives")
NOT_FILLED = "the hole is wider than the rivet's range: only the widest hole of the range bears"
THIN = "sheet thinner than the bearing tables cover (t/D under 0.18)"
SUNK = "countersunk: only what the cutter leaves of the hole bears, and these are tables of plain holes (from memory)"
UNWELCOME = "more pull than a fifth of its shear strength: solid rivets are not meant for it (common practice)"
LOWERED = "rivet shear lowered for thin sheet by 1 - 0.04 (D/t - 3), MIL-HDBK-5J table 8.1.2.1(b)"
BORROWED = "rule written for screws with washers in steel sheet; borrowed for want of one for rivets"

WHOLE_FLOW = "between the holes of the line it meets first the sheet still has the load of all lines"


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
    yield from finished(joint.item(factors), joint_drafts(surface, joint, factors), joint.wrinkle)


def joint_drafts(surface: Surface, joint: Joint, factors: Factors) -> list[Draft]:
    """Draft every plain check of a riveted joint; the multipliers of wrinkled sheet are still to be found.

    Parameters
    ----------
    surface, joint, factors
        As in :func:`joint_checks`.

    Returns
    -------
    list of Draft
        In the order of the checks.
    """
    shearing = Shearing(joint, factors)
    drafts = [*_rivet(surface, joint, shearing)]
    for layer in joint.layers:
        drafts += _sheet(joint, layer, shearing)
    return [*drafts, *_head(joint, factors)]


def _rivet(surface: Surface, joint: Joint, shearing: Shearing) -> Iterator[Draft]:
    """Rivet in shear, in pull, and in both."""
    shear, pull = rivet_strength(surface, joint.rivet)
    solid = joint.rivet.set is RivetSet.SOLID
    P_s, notes = _single_shear(joint, shear)
    strength = Term(P_s, "force", "shear strength of one rivet", shear.source, shear.key)
    yield shearing.draft(
        "rivet-shear",
        "rivet shears",
        "P_s",
        {"P_s": strength},
        SOLID_SHEAR_SOURCE if solid else AGAINST_SHEET,
        load=joint.shear,
        what="shear of one rivet at limit",
        notes=notes,
    )
    if not joint.pulled:
        return
    _, factor, FS = factor_of(shearing.factors)
    T = Term(joint.tension, "force", "pull on one rivet at limit")
    P_t = Term.of(pull, "force", "pull strength of one rivet")
    letters = {"T": T, "FS": FS, "P_t": P_t}
    much = solid and P_s is not None and bool(np.any(tension_unwelcome(factor * joint.tension, P_s)))
    unwelcome = (UNWELCOME,) if much else ()
    there = joint.pulled_in
    gives = "rivet pulls out"
    yield Draft("rivet-pull", gives, "P_t", "FS * T", letters, "T", AGAINST_SHEET, notes=unwelcome, there=there)
    if P_s is None or pull.si is None:
        return
    S = Term(joint.shear, "force", "shear of one rivet at limit")
    terms = {"S": S, "T": T, "FS": FS, "P_s": strength, "P_t": P_t}
    wrinkled = None
    if joint.wrinkle is not None:
        r, letters = wrinkling(joint)
        terms |= letters
        proof = f"(lam*FS*S*(1 + 0.414*tanh(0.5*log10(max(1, lam*FS*{r}))))/P_s)**2 + (lam*FS*T/P_t)**2"
        wrinkled = Wrinkled(proof, joint.shear / P_s, joint.tension / over_spots(pull), factor)
    yield Draft(
        "rivet-both",
        "rivet gives, shear and pull together",
        "1",
        "FS * sqrt((S / P_s)**2 + (T / P_t)**2)",
        terms,
        "S",
        INTERACTION_SOURCE,
        notes=notes,
        wrinkled=wrinkled,
        there=there,
    )


def _single_shear(joint: Joint, shear: Value) -> tuple[Array | float | None, tuple[str, ...]]:
    """Shear strength of the rivet; a solid one is lowered for thin sheet."""
    sheets = [layer.thickness for layer in joint.layers if layer.thickness.known and not layer.thickness.absent]
    solid = joint.rivet.set is RivetSet.SOLID
    if not (solid and shear.known and sheets and joint.rivet.diameter.known):
        return Term.of(shear, "force", "").values, ()
    thin = reduce(np.minimum, [over_spots(t) for t in sheets])
    return np.asarray(over_spots(shear) * thin_sheet_single(over_spots(joint.rivet.diameter), thin)), (LOWERED,)


def _sheet(joint: Joint, layer: Layer, shearing: Shearing) -> Iterator[Draft]:
    """One sheet crushed, torn to its edge, torn between the holes."""
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
        edge = over_spots(layer.edge) if layer.edges is None else layer.edges
        e_over_D = edge / over_spots(rivet.diameter)
        outside = ~bearing_covered(e_over_D)
    else:
        notes = (f"edge of {layer.words} not given: taken as two diameters or more",)
    if rivet.diameter.known and layer.thickness.known:
        covered = sheet_covered(over_spots(rivet.diameter), over_spots(layer.thickness))
        notes = notes if np.all(covered) else (*notes, THIN)
    if layer is joint.layers[0] and rivet.head_kind is HeadKind.COUNTERSUNK:
        outside, notes = True, (*notes, SUNK)
    what = f"load of one rivet on {layer.words} at limit"
    bears, too_wide = _bears(rivet) if layer.hole is None else (layer.hole.bears, layer.hole.too_wide)
    holes = {} if layer.hole is None else {"tears": layer.hole.tears, "between": layer.hole.between}
    notes = (*notes, NOT_FILLED) if too_wide else notes
    for mode, gives, low, high, at_yield in (
        ("crush", "crushes", metal.bearing_15, metal.bearing_20, False),
        ("crush-yield", "is pressed oval", metal.bearing_yield_15, metal.bearing_yield_20, True),
    ):
        means = f"bearing {'yield' if at_yield else 'strength'} of {metal.name} at this edge"
        F = Term(_bearing(low, high, e_over_D), "stress", means, high.source, high.key)
        yield shearing.draft(
            f"{layer.name}-{mode}",
            f"{layer.words} {gives}",
            "F_br * D * t",
            terms | {"F_br": F, "D": bears},
            BEARING_SOURCE,
            load=layer.load,
            what=what,
            at_yield=at_yield,
            outside=outside,
            notes=notes,
        )
    terms["F_su"] = Term.of(metal.shear, "stress", f"shear strength of {metal.name}")
    if known_edge:
        yield shearing.draft(
            f"{layer.name}-tear-out",
            f"{layer.words} tears to its edge",
            "2 * F_su * t * (e - 0.383 * D)",
            terms
            | {
                "e": Term.of(layer.edge, "length", f"hole centre to the edge of {layer.words}")._replace(values=edge),
                "D": holes.get("tears", terms["D"]),
            },
            SHEAR_OUT_SOURCE,
            load=layer.load,
            what=what,
            outside=outside,
        )
    if joint.pitch is not None and np.all(np.asarray(joint.pitch) > 0.0):
        yield shearing.draft(
            f"{layer.name}-between-holes",
            f"{layer.words} tears between the holes",
            "F_su * t * (p - D)",
            terms
            | {
                "p": Term(joint.pitch, "length", "real pitch of the row"),
                "D": holes.get("between", terms["D"]),
            },
            NET_SECTION_SOURCE,
            load=layer.load * joint.abreast,
            what=what if np.all(np.asarray(joint.abreast) == 1) else f"load of one pitch on {layer.words} at limit",
            notes=() if np.all(np.asarray(joint.abreast) == 1) else (WHOLE_FLOW,),
        )


def _bears(rivet: Rivet) -> tuple[Term, bool]:
    """Give the width a rivet bears on: its hole, but of a pulled one no more than the widest hole it is made for."""
    hole = Term.of(rivet.hole if rivet.hole.known else rivet.diameter, "length", "hole")
    widest = rivet.hole_range[-1] if rivet.hole_range else None
    if rivet.set is RivetSet.SOLID or widest is None or not (widest.known and rivet.hole.known):
        return hole, False
    if np.all(numbers(rivet.hole) <= numbers(widest)):
        return hole, False
    bearing = np.minimum(over_spots(rivet.hole), over_spots(widest))
    return Term(bearing, "length", "widest hole the rivet is made for", widest.source, widest.key), True


def _bearing(low: Value, high: Value, e_over_D: Array | float) -> Array | float | None:
    """Bearing stress at an edge distance; below 1.5 D the value at 1.5 D, marked outside by the caller."""
    if not high.known:
        return None
    if not low.known:
        return np.where(np.asarray(e_over_D) >= 2.0, over_spots(high), 0.75 * over_spots(high))
    if isinstance(low.si, float) and isinstance(high.si, float) and np.ndim(e_over_D) == 0:
        return _bearing_of_one(max(float(e_over_D), 1.5), low.si, high.si)
    return np.asarray(bearing_stress(np.maximum(e_over_D, 1.5), over_spots(low), over_spots(high)))


@lru_cache(maxsize=1024)
def _bearing_of_one(e_over_D: float, low: float, high: float) -> float:
    """Give the bearing stress of one sheet; a surface asks for the same few values again and again."""
    return float(bearing_stress(e_over_D, low, high))


def _head(joint: Joint, factors: Factors) -> Iterator[Draft]:
    """Sheet under the head pulled over it; only protruding heads."""
    rivet = joint.rivet
    if not joint.layers or not joint.pulled or rivet.head_kind not in {None, HeadKind.PROTRUDING}:
        return
    outer = joint.layers[0]
    if not outer.thickness.known:
        return
    terms = {
        "T": Term(joint.tension, "force", "pull on one rivet at limit"),
        "FS": factor_of(factors)[2],
        "d_h": Term.of(rivet.head, "length", "head"),
        "t": Term.of(outer.thickness, "length", f"thickness of {outer.words}"),
        "F_tu": Term.of(outer.metal.tension, "stress", f"tensile strength of {outer.metal.name}"),
    }
    notes: tuple[str, ...] = (BORROWED,)
    if not np.all(pull_over_covered(numbers(outer.thickness))):
        notes = (BORROWED, "sheet outside 0.5 to 1.5 mm, the range of the rule")
    gives = f"{outer.words} pulls over the rivet head"
    available = "0.5 * d_h * t * F_tu"
    there = joint.pulled_in
    yield Draft("pull-over", gives, available, "FS * T", terms, "T", PULL_OVER_SOURCE, notes=notes, there=there)
