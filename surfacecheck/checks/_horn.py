"""The horn: its plate, its bolt hole, its rivets, and whether a rib stands at it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.checks._check import Check, Term
from surfacecheck.checks._joint import Joint, Layer, factors_of, joint_checks
from surfacecheck.library import metal_of
from surfacecheck.model import DrivenBy
from surfacecheck.provenance import UNKNOWN
from surfacecheck.statics import share_group
from surfacecheck.strength import BENDING_SOURCE, NET_SECTION_SOURCE, SHEAR_OUT_SOURCE, turning_bearing

if TYPE_CHECKING:
    from collections.abc import Iterator

    from numpy.typing import NDArray

    from surfacecheck.checks._effects import Effects
    from surfacecheck.model import Horn, Surface

    Array = NDArray[np.float64]

__all__ = ["HornLoad", "horn_checks", "horn_load", "horn_needs"]


@dataclass(frozen=True, eq=False)
class HornLoad:
    """What each rivet of the horn passes to the part it is riveted to.

    Attributes
    ----------
    x, z : ndarray, shape (R,)
        Places of the rivets [m].
    share : ndarray, shape (C, R, 3)
        (x, y, z) of each rivet [N].
    shear, tension : ndarray, shape (C, R)
        [N].
    """

    x: Array
    z: Array
    share: Array
    shear: Array
    tension: Array


def horn_needs(surface: Surface) -> tuple[str, ...]:
    """List the keys that hide the rivet loads of the horn.

    Parameters
    ----------
    surface : Surface
        Perhaps half-filled.

    Returns
    -------
    tuple of str
        Empty where they can be worked.
    """
    horn = surface.horn
    if horn is None:
        return ("horn",)
    fixing = horn.fixed_with
    wanted = {
        "rivet": fixing.rivet in surface.rivets, "fore_aft": fixing.fore_aft is not None, "sideways": fixing.sideways is not None,
        "gap_fore_aft": fixing.gap_fore_aft.known or fixing.fore_aft == 1,
        "gap_sideways": fixing.gap_sideways.known or fixing.sideways == 1,
        "first_behind": fixing.first_behind.known,
    }  # fmt: skip
    return tuple(f"horn.fixed_with.{key}" for key, known in wanted.items() if not known)


def horn_load(effects: Effects) -> HornLoad | None:
    """Share the pull at the horn over its rivets.

    Parameters
    ----------
    effects : Effects
        With horn forces.

    Returns
    -------
    HornLoad or None
        None where there is no horn plate, or its pattern is not known.
    """
    surface = effects.surface
    horn = surface.horn
    if horn is None or horn.driven_by is DrivenBy.TORQUE_TUBE or horn_needs(surface) or not effects.horn_points.size:
        return None
    fixing = horn.fixed_with
    n_x, n_z = fixing.fore_aft or 1, fixing.sideways or 1
    gap_x = float(fixing.gap_fore_aft.si) if fixing.gap_fore_aft.known else 0.0  # type: ignore[arg-type]
    gap_z = float(fixing.gap_sideways.si) if fixing.gap_sideways.known else 0.0  # type: ignore[arg-type]
    first = float(fixing.first_behind.si)  # type: ignore[arg-type]
    x = np.repeat(first + gap_x * np.arange(n_x), n_z)
    z = np.tile((np.arange(n_z) - 0.5 * (n_z - 1)) * gap_z, n_x)
    share = np.zeros((len(effects.cases), x.size, 3))
    for p, (at_x, at_z) in enumerate(effects.horn_points):
        F = effects.horn_force[:, p]
        part = share_group(z, x, F[:, [1, 2, 0]], offset=(0.0, at_z, at_x))
        share = share + part[..., [2, 0, 1]]
    return HornLoad(x, z, share, np.hypot(share[..., 0], share[..., 2]), np.abs(share[..., 1]))


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
        Plate in bending, bolt hole, rivets and what they are set in.
    """
    surface, horn = effects.surface, effects.surface.horn
    if horn is None or horn.driven_by is DrivenBy.TORQUE_TUBE or not effects.horn_points.size:
        return
    yield from _plate(effects, horn)
    yield from _bolt(effects, horn)
    if load is None:
        return
    fixing = horn.fixed_with
    plate, ribs = horn.plate, surface.sheet.ribs
    edge = fixing.edge
    joint = Joint(
        place="horn.rivets",
        part="horn",
        rivet=surface.rivets[fixing.rivet],
        layers=(
            Layer("plate", "horn plate", plate.thickness, metal_of(surface, plate.alloy, plate.thickness), edge, load.shear),
            Layer("rib", "rib under the horn", ribs.thickness, metal_of(surface, ribs.alloy, ribs.thickness), UNKNOWN, load.shear),
        ),
        shear=load.shear,
        tension=load.tension,
        cases=effects.cases,
        spots=tuple(f"rivet {i + 1}" for i in range(load.x.size)),
        notes=("rivets numbered from the pins aft, each line from -z to +z",),
    )
    yield from joint_checks(surface, joint, factors_of(surface, None))


def _plate(effects: Effects, horn: Horn) -> Iterator[Check]:
    """Each arm as a cantilever from the outer rivets."""
    surface, plate = effects.surface, horn.plate
    metal = metal_of(surface, plate.alloy, plate.thickness)
    factors = factors_of(surface, None)
    fixing = horn.fixed_with
    reach = 0.0
    if fixing.gap_sideways.known and fixing.sideways:
        reach = 0.5 * (fixing.sideways - 1) * float(fixing.gap_sideways.si)  # type: ignore[arg-type]
    F = np.abs(effects.horn_force)
    arms = np.abs(effects.horn_points[:, 1])
    letters = {
        "F_x": Term(F[..., 0], "force", "pull across the arm at limit"),
        "F_y": Term(F[..., 1], "force", "pull along the pins at limit"),
        "F_z": Term(F[..., 2], "force", "pull along the arm at limit"),
        "L": Term(np.maximum(arms - reach, 0.0), "length", "bolt to the nearest rivet, along the arm"),
        "b": Term.of(plate.narrowest, "length", "width where it is narrowest"),
        "t": Term.of(plate.thickness, "length", "thickness of the plate"),
    }
    stress = "(F_z / (b*t) + 6*F_x*L / (t*b**2) + 6*F_y*L / (b*t**2))"
    for mode, gives, strength, words, factor in (
        ("bends", "breaks in bending", metal.tension, "tensile strength", factors.ultimate),
        ("bends-yield", "takes a set in bending", metal.tension_yield, "yield stress", factors.yield_ or 1.0),
    ):
        terms = letters | {"F": Term.of(strength, "stress", f"{words} of {metal.name}"),
                           "FS": Term(factor, "", "from limit load", factors.source)}  # fmt: skip
        yield Check("horn.plate", mode, "horn, plate", gives, "F", f"FS * {stress}", terms, "F_x", effects.cases,
                    _arms(effects), BENDING_SOURCE, factors=factors.line, subject="the arm",
                    notes=("the whole arm is taken as wide as where it is narrowest",))  # fmt: skip


def _arms(effects: Effects) -> tuple[str, ...]:
    if len(effects.horn_points) == 1:
        return ("",)
    said = effects.surface.said
    left = effects.surface.left_is
    return tuple(said("left" if z * left > 0 else "right") for _, z in effects.horn_points)


def _bolt(effects: Effects, horn: Horn) -> Iterator[Check]:
    surface, plate = effects.surface, horn.plate
    metal = metal_of(surface, plate.alloy, plate.thickness)
    kind = "push-pull joint" if horn.driven_by is DrivenBy.ROD else "cable joint"
    turning, factors = turning_bearing(kind), factors_of(surface, None)
    P = Term(np.sqrt((effects.horn_force**2).sum(axis=-1)), "force", "pull at the bolt at limit")
    base = {"D": Term.of(plate.bolt_hole, "length", "bolt hole"), "t": Term.of(plate.thickness, "length", "thickness of the plate"),
            "P": P}  # fmt: skip
    common = {"effect": "P", "cases": effects.cases, "spots": _arms(effects), "subject": "the bolt hole"}
    FS = Term(factors.ultimate, "", "from limit load to ultimate", factors.source)
    yield Check("horn.bolt", "bearing", "horn, bolt hole", f"hole crushes (factor {turning.ultimate:g})", "F_bru * D * t", "FB * P",
                base | {"F_bru": Term.of(metal.bearing_15, "stress", f"bearing strength of {metal.name}, e/D 1.5"),
                        "FB": Term(turning.ultimate, "", f"bearing factor of a {kind}, alone", turning.source)},
                source=turning.source, factors=turning.line, **common)  # type: ignore[arg-type]  # fmt: skip
    yield Check("horn.bolt", "tear-out", "horn, bolt hole", "bolt tears out", "2 * F_su * t * (e - 0.383 * D)", "FS * P",
                base | {"F_su": Term.of(metal.shear, "stress", f"shear strength of {metal.name}"),
                        "e": Term.of(plate.bolt_edge, "length", "bolt hole centre to the edge"), "FS": FS},
                source=SHEAR_OUT_SOURCE, factors=factors.line, **common)  # type: ignore[arg-type]  # fmt: skip
    yield Check("horn.bolt", "net-section", "horn, bolt hole", "plate parts beside the bolt", "F_tu * (w - D) * t", "FS * P",
                base | {"F_tu": Term.of(metal.tension, "stress", f"tensile strength of {metal.name}"),
                        "w": Term(None if not plate.bolt_edge.known else 2.0 * np.asarray(plate.bolt_edge.si), "length",
                                  "width at the bolt, two edge distances", plate.bolt_edge.source, plate.bolt_edge.key), "FS": FS},
                source=NET_SECTION_SOURCE, factors=factors.line, **common)  # type: ignore[arg-type]  # fmt: skip
