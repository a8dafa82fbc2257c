"""Airloads on a grid, spread evenly or handed over at the ribs."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from surfacecheck.errors import SurfaceError
from surfacecheck.loads._airload import airload, airload_totals
from surfacecheck.loads._case import FigureA7Load, Strip
from surfacecheck.loads._from_surface import number
from surfacecheck.loads._onto_grid import hats, outline_bays
from surfacecheck.loads._planform import Planform
from surfacecheck.loads._ribs import at_ribs
from surfacecheck.model import Surface

__all__ = ["Airs"]

Array = NDArray[np.float64]


class Airs:
    """Airloads of one pascal on the grid: linear in the pressure, so each kind of strip is worked once."""

    def __init__(
        self, surface: Surface, planform: Planform, y: Array, breaks: Array, bay: NDArray[np.intp], through_ribs: bool
    ) -> None:
        self.planform, self.y = planform, y
        self.where, self.inside = outline_bays(planform.y, breaks, bay)
        self.ribs = _ribs(surface) if through_ribs else None
        self.share = None if self.ribs is None else hats(breaks[..., None, :], self.ribs, "rib")
        self.found: dict[tuple[object, ...], tuple[dict[str, Array], Array]] = {}

    def of(self, air: Strip) -> tuple[dict[str, Array], Array]:
        """Give the loads of a strip on the grid, and their whole torque."""
        key = (air.d,) if isinstance(air, FigureA7Load) else (air.over, air.start, air.shape)
        if key not in self.found:
            unit = replace(air, pressure=np.asarray(1.0))
            self.found[key] = self._worked(unit), airload_totals(unit, self.planform)[1]
        loads, whole = self.found[key]
        p = np.asarray(air.pressure, dtype=np.float64)
        tail = {"force": p[..., None, None], "moment": p[..., None, None]}
        return {name: load * tail.get(name, p[..., None]) for name, load in loads.items()}, whole * p

    def _worked(self, air: Strip) -> dict[str, Array]:
        ribs, share = self.ribs, self.share
        if ribs is None or share is None:
            load, torque = airload(air, self.planform, self.y, self.where)
            return {"z": np.where(self.inside, load, 0.0), "torque": np.where(self.inside, torque, 0.0)}

        def at_breaks(part: int) -> Array:
            taken = at_ribs(self.planform.y, ribs, lambda y, bay: airload(air, self.planform, y, bay)[part])
            return np.asarray(np.sum(taken[..., None] * share, axis=-2))

        force, torque = at_breaks(0), at_breaks(1)
        nought = np.zeros_like(force)
        return {
            "force": np.stack([nought, nought, force], axis=-1),
            "moment": np.stack([nought, torque, nought], axis=-1),
        }


def _ribs(surface: Surface) -> Array:
    up = surface.sheet.ribs.up
    gap = next((value.key or "sheet.ribs.up" for value in up if value.si is None), "" if up else "sheet.ribs.up")
    if gap:
        message = f"{gap} is not given: the load cannot be handed over at ribs"
        raise SurfaceError(message)
    return np.stack(np.broadcast_arrays(*(number(value) for value in up)), axis=-1)
