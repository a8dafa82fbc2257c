"""Rivet rows on the ribs: what a rib hands to the skins, and to the web."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.axes import by_case, over_both
from surfacecheck.checks._names import rib_names
from surfacecheck.checks._row_load import RowLoad, sides_on
from surfacecheck.checks._wrinkling import skin_critical
from surfacecheck.sections.box import sides_of

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from surfacecheck.checks._effects import Effects
    from surfacecheck.model import Row
    from surfacecheck.places import RowPlan

    Array = NDArray[np.float64]

__all__ = ["rib_row", "rib_to_spar"]

EVENLY = "the load is spread evenly: what the skin panels hand to this rib is not in this number"


def _beside(effects: Effects) -> tuple[list[int], list[int]]:
    """Stations next to every rib, towards the root and towards the tip; where the surface ends, the other side's."""
    stations, ribs = effects.span.stations, effects.span.ribs
    last = len(stations.cells)
    below = [stations.before(b) if b > 0 else stations.after(b) for b in ribs]
    return below, [stations.after(b) if b < last else stations.before(b) for b in ribs]


def _wrinkle(effects: Effects, side: str) -> tuple[Array, Array]:
    """Tell how far the skin that ends at a rib wrinkles: it grows the load of the row there as along the spar.

    Beyond the first and the last rib no panel is left that is held at both ends, so the skin ends there. On other
    ribs the skin lies on both sides, and the row has only the step between the two.

    Parameters
    ----------
    effects : Effects
        With flows.
    side : str
        ``plus`` or ``minus``.

    Returns
    -------
    ratio : ndarray, shape (..., F, R)
        Shear flow at limit over that at which the panel wrinkles [-]; 0 where the skin goes on.
    critical : ndarray, shape (..., 1, R)
        Shear flow at which it wrinkles [N/m].

    References
    ----------
    NACA TN 2661, section 3.11.
    """
    ribs = effects.span.ribs
    below, above = _beside(effects)
    at = [up if b == min(ribs) else down for b, down, up in zip(ribs, below, above, strict=True)]
    ends = np.array([b in {min(ribs), max(ribs)} for b in ribs])
    critical = by_case(skin_critical(effects, side)[..., at])
    flow = np.abs(effects.mean_at(f"skin_{side}", at)) * ends
    return _read_ribs(effects, flow / critical), critical


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
        wall, name, side = "nose", "nose_skin", ""
    else:
        side = sides_on(surface, row)[0]
        wall, name = f"skin_{side}", sides_of(surface)[side]
    if not box.has(wall):
        return None
    step = _read_ribs(effects, np.abs(_steps(effects, wall)))
    wrinkle, critical = _wrinkle(effects, side) if side else (None, None)
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
        wrinkle,
        effects,
        rib_names(effects.span.breaks[..., list(effects.span.ribs)]),
        step,
        notes,
        critical,
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
        at = _beside(effects)[0]
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
