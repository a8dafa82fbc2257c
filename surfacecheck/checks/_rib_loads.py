"""Rivet rows on the ribs: what a rib hands to the skins, and to the web."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.axes import by_case, over_both
from surfacecheck.checks._names import rib_names
from surfacecheck.checks._row_load import RowLoad, sides_on
from surfacecheck.sections.box import sides_of

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from surfacecheck.checks._effects import Effects
    from surfacecheck.model import Row
    from surfacecheck.places import RowPlan

    Array = NDArray[np.float64]

__all__ = ["rib_row", "rib_to_spar"]

EVENLY = "the load is spread evenly: what the skin panels hand to this rib is not in this number"


def _steps(effects: Effects, wall: str) -> Array:
    """Step of a wall's flow across each rib, (..., C, R): what the rib hands to that sheet a metre."""
    stations, ribs = effects.span.stations, effects.span.ribs
    last = len(stations.cells)
    inner, outer = [i for i, b in enumerate(ribs) if b > 0], [i for i, b in enumerate(ribs) if b < last]
    at = [stations.before(ribs[i]) for i in inner] + [stations.after(ribs[i]) for i in outer]
    flow = effects.mean_at(wall, at)
    step = np.zeros((*flow.shape[:-1], len(ribs)))
    step[..., inner] = flow[..., : len(inner)]
    step[..., outer] -= flow[..., len(inner) :]
    return step


def _read_ribs(effects: Effects, values: Array) -> Array:
    """Control-system cases are read only at the rib that holds the horn."""
    horn = np.array([b == effects.span.horn for b in effects.span.ribs])
    control = effects.twice(effects.control, axis=0)
    return np.where(control[:, None] & ~horn, 0.0, values)


def rib_row(effects: Effects, row: Row, plan: RowPlan) -> RowLoad | None:
    surface, box = effects.surface, effects.box
    if box is None or not effects.span.ribs:
        return None
    if "nose_skin" in row.joins and not set(row.joins) & {"left_skin", "right_skin"}:
        walls, name = ["nose"], "nose_skin"
    else:
        side = sides_on(surface, row)[0]
        walls, name = [f"skin_{side}"], sides_of(surface)[side]
    if not box.has(walls[0]):
        return None
    step = _read_ribs(effects, np.abs(_steps(effects, walls[0])))
    shear = step * by_case(plan.rib_pitch) / plan.lines
    pull = np.zeros_like(shear)
    if name != "nose_skin":
        pull = _read_ribs(effects, effects.twice(np.abs(effects.rib_air))) / (by_case(plan.rib_count) * plan.lines)
    notes = ("the pull of the panel is spread evenly over the rivets of the rib",)
    if not effects.by_ribs.any():
        notes = (EVENLY,)
    layers = {n: shear for n in row.joins}
    return RowLoad(
        row,
        "rib",
        plan,
        layers,
        shear,
        pull,
        None,
        effects,
        rib_names(effects.span.breaks[..., list(effects.span.ribs)]),
        step,
        notes,
    )


def rib_to_spar(effects: Effects, row: Row, plan: RowPlan) -> RowLoad | None:
    """Work out what a rib hands to the web: all that pushes it sideways less what the skins take from it."""
    box = effects.box
    if box is None or not effects.span.ribs:
        return None
    given = effects.twice(effects.rib_load)
    for wall in ("skin_plus", "skin_minus"):
        if not box.has(wall):
            continue
        depth = box.closed.step_z[..., box.wall(wall)]
        at = [effects.span.stations.before(b) if b > 0 else effects.span.stations.after(b) for b in effects.span.ribs]
        given = given - _steps(effects, wall) * by_case(depth[..., at])
    force = _read_ribs(effects, np.abs(given))
    shear = force / over_both(np.maximum(plan.count, 1) * plan.lines)
    notes: tuple[str, ...] = ("ribs at a hinge: the hinge load goes from bracket to web, not through these rivets",)
    if not effects.by_ribs.any():
        notes = (*notes, EVENLY)
    layers = {n: shear for n in row.joins}
    return RowLoad(
        row,
        "rib-spar",
        plan,
        layers,
        shear,
        np.zeros_like(shear),
        None,
        effects,
        rib_names(effects.span.breaks[..., list(effects.span.ribs)]),
        force,
        notes,
    )
