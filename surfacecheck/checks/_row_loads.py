"""Rivet rows: what crosses each, from the flow of the sheet that ends there."""

from __future__ import annotations

from dataclasses import replace
from functools import reduce
from itertools import accumulate
from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.axes import by_case, over_both
from surfacecheck.checks._effects import Effects
from surfacecheck.checks._names import picked
from surfacecheck.checks._rib_loads import rib_row, rib_to_spar
from surfacecheck.checks._row_load import RowLoad, sides_on
from surfacecheck.checks._shim import shimmed
from surfacecheck.checks._spar import web_stress
from surfacecheck.checks._stretch import stretch_of
from surfacecheck.checks._wrinkling import skin_critical, skin_wrinkle
from surfacecheck.places import RowPlan, plan_row
from surfacecheck.provenance import over_spots
from surfacecheck.sections.box import sides_of

if TYPE_CHECKING:
    from collections.abc import Iterator

    from numpy.typing import NDArray

    from surfacecheck.model import Row, Surface

    Array = NDArray[np.float64]


__all__ = ["RowLoad", "row_kind", "row_load", "row_loads", "sides_on"]


def row_kind(surface: Surface, row: Row) -> str:
    """Tell what kind of row this is, by what it joins.

    Parameters
    ----------
    surface : Surface
        For the names of doublers.
    row : Row
        From the file.

    Returns
    -------
    str
        ``spar``, ``edge``, ``rib``, ``rib-spar``, ``doubler``; empty where no check knows it.
    """
    joins = set(row.joins)
    if joins & set(surface.sheet.doublers):
        return "doubler"
    if "ribs" in joins:
        return "rib-spar" if "spar" in joins else "rib"
    if "spar" in joins:
        return "spar"
    return "edge" if {"left_skin", "right_skin"} <= joins else ""


def row_loads(effects: Effects) -> Iterator[RowLoad]:
    """Work the rivet loads of every row whose pitch and sheets are known.

    Parameters
    ----------
    effects : Effects
        With flows.

    Yields
    ------
    RowLoad
        One a row; none where the row cannot be laid out.
    """
    for row in effects.surface.rows.values():
        plan = plan_row(effects.surface, row)
        found = None if plan is None else row_load(effects, row, plan)
        if found is not None:
            yield shimmed(found)


def row_load(effects: Effects, row: Row, plan: RowPlan) -> RowLoad | None:
    """Work the rivet loads of one row, laid out as said.

    Parameters
    ----------
    effects : Effects
        With flows.
    row : Row
        Which sheets it joins, and between which ends.
    plan : RowPlan
        Its rivets; numbers may be stacks of variants.

    Returns
    -------
    RowLoad or None
        None where its sheets are not known, or no check knows such a row.
    """
    kind = row_kind(effects.surface, row)
    if not kind:
        return None
    found = _WORK[kind](effects.handed_over if kind in {"rib", "rib-spar"} else effects.whole, row, plan)
    return _within(found) if found is not None and kind in {"spar", "edge"} else found


def _within(load: RowLoad) -> RowLoad:
    """Leave to each of several rows of the same sheets, one after the other along the pins, its own stretch."""
    here = stretch_of(load.effects, load.row)
    if here.all() or not here.any():
        return load
    shear, tension, flow = (one * here for one in (load.shear, load.tension, load.flow))
    layers = {name: force * here for name, force in load.layers.items()}
    wrinkle = None if load.wrinkle is None else load.wrinkle * here
    return replace(load, layers=layers, shear=shear, tension=tension, wrinkle=wrinkle, flow=flow)


def _spar_row(effects: Effects, row: Row, plan: RowPlan) -> RowLoad | None:
    """Interfaces from the head inwards: each sheet's flow joins those above it on its way to the spar."""
    surface, box = effects.surface, effects.box
    names = sides_of(surface)
    side = sides_on(surface, row)[0]
    flows: dict[str, Array] = {}
    for name in row.joins:
        if name == names[side] and box is not None and box.has(f"skin_{side}"):
            flows[name] = effects.mean(f"skin_{side}")
        elif name == "nose_skin" and box is not None and box.has("nose"):
            flows[name] = -effects.mean("nose")
    if not flows:
        return None
    share = over_both(plan.pitch) / plan.lines
    spar = reduce(np.add, flows.values())  # the spar takes what all sheets bring, wherever it lies in the stack
    met = [-spar if name == "spar" else flows[name] for name in row.joins if name in {*flows, "spar"}]
    planes = [np.abs(passed) for passed in accumulate(met[:-1], np.add)]
    worst = reduce(np.maximum, planes)
    shear = worst * share
    if len(flows) == 1:  # one sheet on the spar: it hands over all there is
        layers = {name: shear for name in (*flows, "spar")}
    else:
        layers = {name: np.abs(flow) * share for name, flow in flows.items()} | {"spar": np.abs(spar) * share}
    skin = names[side] in flows
    wrinkle = skin_wrinkle(effects, side) if skin else None
    at = by_case(skin_critical(effects, side)) if skin else None
    tension = effects.twice(effects.spar_pull * share) if skin else np.zeros_like(worst)
    layers = _in_order(row, layers)
    return RowLoad(row, "spar", plan, layers, shear, tension, wrinkle, effects, effects.places, worst, (), at)


def _in_order(row: Row, layers: dict[str, Array]) -> dict[str, Array]:
    return {name: layers[name] for name in row.joins if name in layers}


def _edge_row(effects: Effects, row: Row, plan: RowPlan) -> RowLoad | None:
    """Row between two skins: each brings its own half of the lap with it, so the row carries the rest."""
    box = effects.box
    if box is None or not (box.has("skin_plus") and box.has("skin_minus")) or "edge" not in box.nodes:
        return None
    plus, minus = effects.mean("skin_plus"), effects.mean("skin_minus")
    t_plus, t_minus = by_case(box.skin_t["plus"]), by_case(box.skin_t["minus"])
    passed = np.abs(plus + (minus - plus) * t_plus / (t_plus + t_minus))
    share = over_both(plan.pitch) / plan.lines
    wrinkle = np.maximum(skin_wrinkle(effects, "plus", passed), skin_wrinkle(effects, "minus", passed))
    shear = passed * share
    layers = {name: shear for name in row.joins}
    return RowLoad(
        row,
        "edge",
        plan,
        layers,
        shear,
        effects.twice(effects.edge_pull * share),
        wrinkle,
        effects,
        effects.places,
        passed,
        wrinkles_at=by_case(np.minimum(skin_critical(effects, "plus"), skin_critical(effects, "minus"))),
    )


def _doubler_row(effects: Effects, row: Row, plan: RowPlan) -> RowLoad | None:
    """Shear that the doubler takes from the web, and its axial force brought in between its end and its middle."""
    surface, box = effects.surface, effects.box
    names = [n for n in row.joins if n in surface.sheet.doublers]
    if box is None or not names or "spar" not in row.joins:
        return None
    doubler = surface.sheet.doublers[names[0]]
    if doubler.on != "spar web" or not doubler.thickness.known or plan.start is None or plan.end is None:
        return None
    inside = effects.span.between(np.asarray(plan.start) - 1e-3, np.asarray(plan.end) + 1e-3)
    if not inside.any():
        return None
    t_d, t_w = over_spots(doubler.thickness), by_case(box.web_t)
    there = np.flatnonzero(inside.reshape(-1, inside.shape[-1]).any(axis=0))
    within, share = by_case(inside[..., there]), t_d / (t_d + t_w)
    flow = effects.size_at("web", there) * share * within
    stress = effects.twice(web_stress(effects)[..., there] * within)
    wide = over_spots(doubler.wide) if doubler.wide.known else by_case(box.height.max(axis=-1, keepdims=True))
    axial = stress.max(axis=-1, keepdims=True) * t_d * wide
    halves = over_both(np.maximum(np.asarray(plan.count) / 2.0, 1.0) * plan.lines)
    shear = np.hypot(flow * over_both(plan.pitch), axial * within / halves)
    places = picked(effects.places, there)
    notes = (
        "the doubler takes its share of the web's shear by thickness; its axial force comes in evenly over the rivets "
        "between its end and its middle",
    )
    layers = {n: shear for n in row.joins}
    return RowLoad(row, "doubler", plan, layers, shear, np.zeros_like(shear), None, effects, places, flow, notes)


_WORK = {
    "spar": _spar_row,
    "edge": _edge_row,
    "rib": rib_row,
    "rib-spar": rib_to_spar,
    "doubler": _doubler_row,
}
