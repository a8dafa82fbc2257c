"""The horn: its plate, its bolt hole, its rivets, and whether a rib stands at it."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.axes import by_case
from surfacecheck.checks._apart import joints_of
from surfacecheck.checks._cantilever import bending_checks
from surfacecheck.checks._check import Check, Term
from surfacecheck.checks._effects import PRACTICE
from surfacecheck.checks._horn_loads import HornLoad, horn_needs
from surfacecheck.checks._item import Item
from surfacecheck.checks._joint import joint_checks
from surfacecheck.checks._layers import Joint, Layer, factors_of
from surfacecheck.library import metal_of
from surfacecheck.model import DrivenBy
from surfacecheck.provenance import UNKNOWN, over_spots
from surfacecheck.strength import NET_SECTION_SOURCE, SHEAR_OUT_SOURCE, turning_bearing

if TYPE_CHECKING:
    from collections.abc import Iterator

    from surfacecheck.checks._effects import Effects
    from surfacecheck.model import Horn, Surface

__all__ = ["horn_checks"]


def _from_to(surface: Surface) -> list[str]:
    """Name the sides of the surface from -z to +z."""
    return [surface.said(word) for word in ("right", "left")[:: surface.left_is]]


def horn_checks(effects: Effects, load: HornLoad | None) -> Iterator[Check]:
    """Give the checks of the horn.

    Parameters
    ----------
    effects : Effects
        With horn forces.
    load : HornLoad or None
        From :func:`horn_load`.

    Yields
    ------
    Check
        Path of its couple into the box; plate in bending, bolt hole, rivets and what they are set in.
    """
    surface, horn = effects.surface, effects.surface.horn
    if horn is None:
        return
    if horn.driven_by is DrivenBy.TORQUE_TUBE:
        yield from _path(effects, "torque tube")
        return
    if not effects.horn_points.size:
        return
    yield from _path(effects, "horn")
    yield from _plate(effects, horn)
    yield from _bolt(effects, horn)
    if load is None:
        if not horn_needs(surface):
            yield _one_line(effects)
        return
    fixing = horn.fixed_with
    plate, ribs = horn.plate, surface.sheet.ribs
    edge = fixing.edge
    joint = Joint(
        place="horn.rivets",
        part="horn",
        rivet=surface.rivets[fixing.rivet],
        layers=(
            Layer(
                "plate",
                "horn plate",
                plate.thickness,
                metal_of(surface, plate.alloy, plate.thickness),
                edge,
                load.shear,
            ),
            Layer(
                "rib",
                "rib under the horn",
                ribs.thickness,
                metal_of(surface, ribs.alloy, ribs.thickness),
                UNKNOWN,
                load.shear,
            ),
        ),
        shear=load.shear,
        tension=load.tension,
        cases=effects.cases,
        spots=tuple(f"rivet {i + 1}" for i in range(load.x.shape[-1])),
        notes=(f"rivets numbered from the pins aft, each line from {' to '.join(_from_to(surface))}",),
    )
    for one in joints_of(surface, joint, load.share[..., 0]):
        yield from joint_checks(surface, one, factors_of(surface, None, hinge=False))


def _one_line(effects: Effects) -> Check:
    """Say of rivets in one line that only a heel could hold the couple of the pull."""
    pull = np.sqrt((effects.horn_force**2).sum(axis=-1)).max(axis=-1, keepdims=True)
    terms = {
        "P_h": Term(None, "force", "pull that these rivets hold without a heel"),
        "P": Term(pull, "force", "pull at the bolt at limit"),
    }
    item = Item("horn.rivets", "horn", effects.cases, ("",), subject="the horn")
    gives = "its rivets stand in one line: they hold no couple without a heel"
    return item.check("one-line", gives, "P_h", "P", terms, "P", PRACTICE, outside=True)


def _path(effects: Effects, part: str) -> Iterator[Check]:
    """Without a rib at the horn or tube its couple has no path into the box that this method knows."""
    surface, span = effects.surface, effects.span
    if span.horn is None or span.horn in span.ribs or not span.ribs:
        return
    couple = np.abs(effects.T_0).max(axis=-1, keepdims=True)
    path = f"couple that the part under the {part} can pass on without a rib"
    terms = {
        "T_p": Term(None, "torque", path, key=surface.in_file("sheet.ribs.up")),
        "T": Term(couple, "torque", f"couple of the {part} at limit"),
    }
    item = Item("horn.path", part, effects.cases, ("",), subject=f"the {part}")
    gives = "no rib stands at it: its couple has no path into the box"
    yield item.check("no-rib", gives, "T_p", "T", terms, "T", PRACTICE, outside=True)


def _plate(effects: Effects, horn: Horn) -> Iterator[Check]:
    """Each arm as a cantilever from the outer rivets."""
    surface, plate = effects.surface, horn.plate
    metal = metal_of(surface, plate.alloy, plate.thickness)
    factors = factors_of(surface, None, hinge=False)
    fixing = horn.fixed_with
    reach = np.asarray(0.0)
    if fixing.gap_sideways.known and fixing.sideways:
        reach = 0.5 * (fixing.sideways - 1) * over_spots(fixing.gap_sideways)
    F = np.abs(effects.horn_force)
    arms = by_case(np.abs(effects.horn_points[..., 1]))
    letters = {
        "F_x": Term(F[..., 0], "force", "pull across the arm at limit"),
        "F_y": Term(F[..., 1], "force", "pull along the pins at limit"),
        "F_z": Term(F[..., 2], "force", "pull along the arm at limit"),
        "L": Term(np.maximum(arms - reach, 0.0), "length", "bolt to the nearest rivet, along the arm"),
        "b": Term.of(plate.narrowest, "length", "width where it is narrowest"),
        "t": Term.of(plate.thickness, "length", "thickness of the plate"),
    }
    note = "the whole arm is taken as wide as where it is narrowest"
    names = effects.cases, _arms(effects)
    item = Item("horn.plate", "horn, plate", *names, factors=factors.line, subject="the arm", notes=(note,))
    stress = "(F_z / (b*t) + 6*F_x*L / (t*b**2) + 6*F_y*L / (b*t**2))"
    yield from bending_checks(item, stress, letters, "F_x", metal, factors)


def _arms(effects: Effects) -> tuple[str, ...]:
    points = effects.horn_points.reshape(-1, *effects.horn_points.shape[-2:])[0]
    if len(points) == 1:
        return ("",)
    said = effects.surface.said
    left = effects.surface.left_is
    return tuple(said("left" if z * left > 0 else "right") for _, z in points)


def _bolt(effects: Effects, horn: Horn) -> Iterator[Check]:
    """Bolt hole: where it turns, torn out, parted beside it."""
    surface, plate = effects.surface, horn.plate
    metal = metal_of(surface, plate.alloy, plate.thickness)
    kind = "push-pull joint" if horn.driven_by is DrivenBy.ROD else "cable joint"
    turning, factors = turning_bearing(kind), factors_of(surface, None, hinge=False)
    base = {
        "D": Term.of(plate.bolt_hole, "length", "bolt hole"),
        "t": Term.of(plate.thickness, "length", "thickness of the plate"),
        "P": Term(np.sqrt((effects.horn_force**2).sum(axis=-1)), "force", "pull at the bolt at limit"),
    }
    item = Item("horn.bolt", "horn, bolt hole", effects.cases, _arms(effects), subject="the bolt hole")
    turns = {
        "F_bru": Term.of(metal.bearing_15, "stress", f"bearing strength of {metal.name}, e/D 1.5"),
        "FB": Term(turning.ultimate, "", f"bearing factor of a {kind}, alone", turning.source),
    }
    gives = f"hole crushes (factor {turning.ultimate:g})"
    turned = replace(item, factors=turning.line)
    yield turned.check("bearing", gives, "F_bru * D * t", "FB * P", base | turns, "P", turning.source)
    item = replace(item, factors=factors.line)
    FS = Term(factors.ultimate, "", "from limit load to ultimate", factors.source)
    tears = {
        "F_su": Term.of(metal.shear, "stress", f"shear strength of {metal.name}"),
        "e": Term.of(plate.bolt_edge, "length", "bolt hole centre to the edge"),
        "FS": FS,
    }
    out = "2 * F_su * t * (e - 0.383 * D)"
    yield item.check("tear-out", "bolt tears out", out, "FS * P", base | tears, "P", SHEAR_OUT_SOURCE)
    edge = plate.bolt_edge
    wide = 2.0 * over_spots(edge) if edge.known else None
    parts = {
        "F_tu": Term.of(metal.tension, "stress", f"tensile strength of {metal.name}"),
        "w": Term(wide, "length", "width at the bolt, two edge distances", edge.source, edge.key),
        "FS": FS,
    }
    beside = "plate parts beside the bolt"
    yield item.check("net-section", beside, "F_tu * (w - D) * t", "FS * P", base | parts, "P", NET_SECTION_SOURCE)
