"""Rivet rows: what crosses each, from the flow of the sheet that ends there."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.checks._check import Check, Term
from surfacecheck.checks._effects import Effects
from surfacecheck.checks._joint import joint_checks
from surfacecheck.checks._layers import Joint, Layer, factors_of
from surfacecheck.checks._panels import bay_edges
from surfacecheck.checks._reduce import worst_spots
from surfacecheck.checks._row_loads import RowLoad, sides_on
from surfacecheck.checks._spar import node_stress
from surfacecheck.library import metal_of
from surfacecheck.model import HeadKind, RivetSet
from surfacecheck.provenance import UNKNOWN, Value
from surfacecheck.sections.box import sides_of
from surfacecheck.strength import FIXITY, FIXITY_SOURCE, INTER_RIVET_SOURCE

if TYPE_CHECKING:
    from collections.abc import Iterator

    from numpy.typing import NDArray

    from surfacecheck.model import Rivet, Row, Surface

    Array = NDArray[np.float64]

__all__ = ["edge_of", "row_checks"]

WORDS = {
    "left_skin": "left skin",
    "right_skin": "right skin",
    "nose_skin": "nose skin",
    "spar": "spar",
    "ribs": "rib",
}


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
    for load in loads:
        rivet = surface.rivets.get(load.row.rivet)
        if rivet is None:
            continue
        joint = _joint(surface, load, rivet, _groups(load))
        yield from joint_checks(surface, joint, factors_of(surface, rivet))
        if load.kind == "spar":
            yield from _between_rivets(load, rivet)


def _groups(load: RowLoad) -> NDArray[np.intp]:
    """Number the bays between ribs of each station; in rows on ribs every rib for itself."""
    if len(load.spots) != load.effects.span.y.size:
        return np.arange(len(load.spots))
    return np.unique(bay_edges(load.effects)[0], return_inverse=True)[1]


def _joint(surface: Surface, load: RowLoad, rivet: Rivet, groups: NDArray[np.intp]) -> Joint:
    """Keep only the cases and spots that can be the worst."""
    ratio = np.broadcast_to(load.wrinkle, load.shear.shape)
    pairs = [(load.shear, load.tension), (load.shear, ratio), *((force, ratio) for force in load.layers.values())]
    at = worst_spots(groups, pairs)
    case, spot = np.divmod(at, load.shear.shape[1])

    def kept(values: Array) -> Array:
        return values[case, spot][None, :]

    return Joint(
        place=f"row.{load.row.name}",
        part=load.row.name.replace("_", " "),
        rivet=rivet,
        layers=tuple(_layer(surface, load.row, name, kept(force)) for name, force in load.layers.items()),
        shear=kept(load.shear),
        tension=kept(load.tension),
        cases=("",),
        spots=tuple(load.spots[i] for i in spot),
        spot_cases=tuple(load.effects.cases[i] for i in case),
        pitch=load.plan.pitch if load.kind in {"spar", "edge"} else None,
        wrinkle=load.wrinkle if isinstance(load.wrinkle, float) else kept(ratio),
        notes=load.notes,
    )


def _between_rivets(load: RowLoad, rivet: Rivet) -> Iterator[Check]:
    """Say when the edge of the skin, shortened with the flange under it, buckles between the rivets."""
    effects, surface = load.effects, load.effects.surface
    side = sides_on(surface, load.row)[0]
    name = sides_of(surface)[side]
    skin, spar = getattr(surface.sheet, name), surface.sheet.spar
    metal, base = metal_of(surface, skin.alloy, skin.thickness), metal_of(surface, spar.alloy, spar.thickness)
    if name not in load.layers or not (metal.modulus.known and base.modulus.known):
        return
    kind = "blind" if rivet.set is not RivetSet.SOLID else "protruding"
    kind = kind if rivet.head_kind in {None, HeadKind.PROTRUDING} else "countersunk"
    stress = np.maximum(-node_stress(effects, f"corner_{side}"), 0.0)
    terms = {
        "c": Term(FIXITY[kind], "", "end fixity between rivets", FIXITY_SOURCE[kind]),
        "E": Term.of(
            metal.modulus_compression if metal.modulus_compression.known else metal.modulus,
            "stress",
            f"E of {metal.name}",
        ),
        "t": Term.of(skin.thickness, "length", f"thickness of the {WORDS[name]}"),
        "p": Term(load.plan.pitch, "length", "real pitch"),
        "n": Term(np.asarray(metal.modulus.si) / np.asarray(base.modulus.si), "", "E of the skin over E of the spar"),
        "f": Term(stress, "stress", "compression of the flange under the skin at limit"),
    }
    yield Check(
        f"row.{load.row.name}",
        "between-rivets",
        load.row.name.replace("_", " "),
        "skin edge buckles between the rivets",
        "c * pi**2 / 12 * E * (t / p)**2",
        "n * f",
        terms,
        "f",
        effects.cases,
        effects.places,
        INTER_RIVET_SOURCE,
        kind="statement",
        subject="the edge of the skin",
    )


def _layer(surface: Surface, row: Row, name: str, force: Array) -> Layer:
    sheet = surface.sheet
    part = sheet.doublers.get(name) or getattr(sheet, name)
    edge = edge_of(surface, row, name)
    words = WORDS.get(name, name.replace("_", " "))
    return Layer(name, words, part.thickness, metal_of(surface, part.alloy, part.thickness), edge, force)


def edge_of(surface: Surface, row: Row, name: str) -> Value:
    """Give the edge distance of a sheet, from the hole's centre however it was measured.

    Parameters
    ----------
    surface : Surface
        For the rivet's hole.
    row : Row
        From the file.
    name : str
        Name of the sheet.

    Returns
    -------
    Value
        Unknown where neither was given [m].
    """
    edge = row.edge.get(name, UNKNOWN)
    rim = row.edge_from_rim.get(name, UNKNOWN)
    rivet = surface.rivets.get(row.rivet)
    if edge.known or not rim.known or rivet is None or not rivet.hole.known:
        return edge
    return replace(rim, si=rim.si + 0.5 * rivet.hole.si)  # type: ignore[operator]
