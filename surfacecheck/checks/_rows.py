"""Rivet rows: what crosses each, from the flow of the sheet that ends there."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.axes import over_both
from surfacecheck.checks._apart import differing, drifts, edges_along, some
from surfacecheck.checks._apart_rows import lines_apart, whole_line
from surfacecheck.checks._check import Check, Term
from surfacecheck.checks._effects import Effects
from surfacecheck.checks._flange_net import flange_at_holes
from surfacecheck.checks._item import Item
from surfacecheck.checks._joint import joint_checks
from surfacecheck.checks._layers import Joint, Layer, factors_of
from surfacecheck.checks._reduce import Kept, keep, worst_case
from surfacecheck.checks._row_loads import RowLoad, sides_on
from surfacecheck.checks._spar import node_stress
from surfacecheck.checks._stretch import bare_seams, stretch_of
from surfacecheck.library import metal_of
from surfacecheck.model import HeadKind, RivetSet
from surfacecheck.places import edge_of
from surfacecheck.provenance import over_spots
from surfacecheck.sections.box import sides_of
from surfacecheck.strength import FIXITY, FIXITY_SOURCE, INTER_RIVET_SOURCE

if TYPE_CHECKING:
    from collections.abc import Iterator

    from numpy.typing import NDArray

    from surfacecheck.checks._apart_rows import RowGap, RowLine
    from surfacecheck.model import Rivet, Row, Surface

    Array = NDArray[np.float64]

__all__ = ["between_rivets", "row_checks", "row_joint", "row_kept"]

SINGLE = "a rivet that is missing gives half of its length of row to the next on either side: a bound, no rivet gives"


def row_checks(effects: Effects, loads: tuple[RowLoad, ...]) -> Iterator[Check]:
    """Give the checks of all rows.

    Parameters
    ----------
    effects : Effects
        With flows.
    loads : tuple of RowLoad
        From :func:`row_loads`.

    Yields
    ------
    Check
        Of every row.
    """
    surface = effects.surface
    yield from bare_seams(effects.whole)
    for load in loads:
        rivet = surface.rivets.get(load.row.rivet)
        if rivet is None:
            continue
        joint = _drifted(surface, load, rivet) if drifts(surface, load) else _evenly(surface, load, rivet)
        yield from joint_checks(surface, joint, factors_of(surface, rivet))
        if load.kind == "spar":
            yield from between_rivets(load, rivet)
        for line in lines_apart(load):
            for kind, single in _single(surface, load, line, rivet):
                yield from joint_checks(surface, single, factors_of(surface, kind))
            if load.kind == "spar":
                yield from flange_at_holes(load, line)
            for gap in line.gaps if load.kind == "spar" else ():
                yield from between_rivets(load, rivet, line, gap)


def _evenly(surface: Surface, load: RowLoad, rivet: Rivet) -> Joint:
    return row_joint(surface, load, rivet, row_kept(load))


def row_kept(load: RowLoad) -> Kept:
    """Find the cases and spots of a row that can be the worst, whatever its rivet and edges.

    Parameters
    ----------
    load : RowLoad
        Of every case and spot.

    Returns
    -------
    Kept
        Of the one, or of each variant of a stack.
    """
    ratio = load.wrinkle
    together = () if ratio is None else (ratio,)
    others = [force for force in load.layers.values() if force is not load.shear]
    pulled = (load.tension,) if load.tension.any() else ()
    alone = [(one,) for one in (*(() if together else (load.shear,)), *pulled)]
    return keep((load.shear, *pulled, *together), *alone, *((force, *together) for force in others))


def row_joint(surface: Surface, load: RowLoad, rivet: Rivet, kept: Kept) -> Joint:
    """Give what one rivet of a row carries, and the sheets it joins.

    Parameters
    ----------
    surface : Surface
        For the sheets.
    load : RowLoad
        Of every case and spot.
    rivet : Rivet
        Which one.
    kept : Kept
        Cases and spots that are looked at, as :func:`row_kept` finds them.

    Returns
    -------
    Joint
        With one case left on the axis.
    """
    ratio = load.wrinkle
    return Joint(
        place=f"row.{load.row.name}",
        part=load.row.name.replace("_", " "),
        rivet=rivet,
        layers=tuple(_layer(surface, load.row, name, kept.of(force)) for name, force in load.layers.items()),
        shear=kept.of(load.shear),
        tension=kept.of(load.tension),
        cases=("",),
        spots=kept.spots(load.spots),
        spot_cases=kept.cases(load.cases),
        pitch=_spaced(load.plan.pitch) if load.kind in {"spar", "edge"} else None,
        wrinkle=None if ratio is None else kept.of(ratio),
        wrinkles_at=None if load.wrinkles_at is None else kept.of(load.wrinkles_at),
        notes=load.notes,
        abreast=load.plan.lines,
    )


def _spaced(pitch: float | Array) -> float | Array:
    return over_both(pitch) if np.ndim(pitch) else pitch


def _each(surface: Surface, load: RowLoad, line: RowLine, rivet: Rivet) -> Joint:
    """Give every rivet of a line at its own place."""
    layers = (_layer(surface, load.row, name, line.of_each(force)) for name, force in load.layers.items())
    return Joint(
        place=line.place,
        part=line.part,
        rivet=rivet,
        layers=tuple(replace(one, edges=edges_along(surface, line, one)) for one in layers),
        shear=line.of_each(load.shear),
        tension=line.of_each(load.tension),
        cases=load.cases,
        spots=line.names,
        pitch=_spaced(load.plan.pitch) if load.kind in {"spar", "edge"} else None,
        wrinkle=None if load.wrinkle is None else line.of_each(load.wrinkle, grown=False),
        notes=(*load.notes, SINGLE),
        abreast=line.abreast,
    )


def _drifted(surface: Surface, load: RowLoad, rivet: Rivet) -> Joint:
    """Give a row whose edge is not the same all along: rivet by rivet, without those that stand apart."""
    line = whole_line(load)
    joint = _each(surface, load, line, rivet)
    return some(joint, [i for i in range(len(joint.spots)) if line.number_of(i) not in line.apart])


def _single(surface: Surface, load: RowLoad, line: RowLine, rivet: Rivet) -> Iterator[tuple[Rivet, Joint]]:
    """Give the rivets of a line that stand apart, each alone, and those beside them."""
    joint = _each(surface, load, line, rivet)
    beside = [slot for slot in line.touched if line.number_of(slot) not in line.apart]
    if beside:
        yield rivet, some(joint, beside)
    for slot in line.touched:
        one = line.apart.get(-1 if (number := line.number_of(slot)) is None else number)
        if one is not None:
            yield one.rivet or rivet, differing(surface, some(joint, [slot]), one, None)


def between_rivets(
    load: RowLoad, rivet: Rivet, line: RowLine | None = None, gap: RowGap | None = None
) -> Iterator[Check]:
    """Say when the edge of the skin, shortened with the flange under it, buckles between the rivets.

    Parameters
    ----------
    load : RowLoad
        Of a row to the spar.
    rivet : Rivet
        For how its head holds the sheet.
    line, gap : RowLine and RowGap, or None
        Where it is asked of one gap between rivets that stand apart.

    Yields
    ------
    Check
        A statement; none where no such skin ends there, or a metal is not known.
    """
    effects, surface = load.effects, load.effects.surface
    side = sides_on(surface, load.row)[0]
    name = sides_of(surface)[side]
    skin, spar = getattr(surface.sheet, name), surface.sheet.spar
    metal, base = metal_of(surface, skin.alloy, skin.thickness), metal_of(surface, spar.alloy, spar.thickness)
    if name not in load.layers or not (metal.modulus.known and base.modulus.known):
        return
    kind = "blind" if rivet.set is not RivetSet.SOLID else "protruding"
    kind = kind if rivet.head_kind in {None, HeadKind.PROTRUDING} else "countersunk"
    stress = np.maximum(-node_stress(effects, f"corner_{side}"), 0.0) * stretch_of(effects, load.row)
    pitch = _spaced(load.plan.pitch)
    if line is not None and gap is not None:
        stress = line.read(stress)[..., gap.slots].max(axis=-1, keepdims=True)
        pitch = over_both(gap.length)
    kept = worst_case(stress)
    terms = {
        "c": Term(FIXITY[kind], "", "end fixity between rivets", FIXITY_SOURCE[kind]),
        "E": Term.of(
            metal.modulus_compression if metal.modulus_compression.known else metal.modulus,
            "stress",
            f"E of {metal.name}",
        ),
        "t": Term.of(skin.thickness, "length", f"thickness of the {surface.sheet_words(name)}"),
        "p": Term(pitch, "length", "real pitch" if gap is None else "free length from rivet to rivet"),
        "n": Term(over_spots(metal.modulus) / over_spots(base.modulus), "", "E of the skin over E of the spar"),
        "f": Term(kept.of(stress), "stress", "compression of the flange under the skin at limit"),
    }
    item = Item(
        f"row.{load.row.name}",
        load.row.name.replace("_", " "),
        ("",),
        kept.spots(effects.places if gap is None else (f"rivet {gap.number} gap",)),
        kept.cases(effects.cases),
        subject="the edge of the skin",
    )
    yield item.check(
        "between-rivets",
        "skin edge buckles between the rivets",
        "c * pi**2 / 12 * E * (t / p)**2",
        "n * f",
        terms,
        "f",
        INTER_RIVET_SOURCE,
        kind="statement",
    )


def _layer(surface: Surface, row: Row, name: str, force: Array) -> Layer:
    sheet = surface.sheet
    part = sheet.doublers.get(name) or getattr(sheet, name)
    edge = edge_of(surface, row, name)
    words = surface.sheet_words(name)
    return Layer(name, words, part.thickness, metal_of(surface, part.alloy, part.thickness), edge, force)
