"""Airloads on a grid, spread evenly or handed over at the ribs."""

from __future__ import annotations

from dataclasses import replace
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from surfacecheck.errors import SurfaceError
from surfacecheck.loads._airload import airload, airload_totals
from surfacecheck.loads._case import Strip
from surfacecheck.loads._from_surface import number
from surfacecheck.loads._onto_grid import hats, outline_bays
from surfacecheck.loads._planform import Planform
from surfacecheck.loads._ribs import at_ribs
from surfacecheck.model import Surface
from surfacecheck.provenance import in_a_row

__all__ = ["Airs"]

Array = NDArray[np.float64]


class Airs:
    """Airloads of one pascal on the grid: linear in the pressure, so each kind of strip is worked once.

    Parameters
    ----------
    surface : Surface
        For its ribs.
    planform : Planform
        The outline.
    y, breaks : ndarray, shape (..., S) and (..., B)
        Points and breaks of the grid [m].
    bay : ndarray of int, shape (S,)
        Bay between two breaks of each point [-].
    """

    def __init__(self, surface: Surface, planform: Planform, y: Array, breaks: Array, bay: NDArray[np.intp]) -> None:
        self.surface, self.planform, self.y, self.breaks, self.bay = surface, planform, y, breaks, bay

    def torque(self, air: Strip) -> Array:
        """Torque of the whole strip at one pascal, shape (...) [m^3]."""
        return airload_totals(_unit(air), self.planform)[1]

    def spread(self, air: Strip) -> dict[str, Array]:
        """Give running load and torque at one pascal, shape (..., S) [m], [m^2]."""
        where, inside = self._bays
        load, torque = airload(_unit(air), self.planform, self.y, where)
        return {"z": np.where(inside, load, 0.0), "torque": np.where(inside, torque, 0.0)}

    def through_ribs(self, air: Strip) -> dict[str, Array]:
        """Give forces and moments at the breaks at one pascal, shape (..., B, 3) [m^2], [m^3]."""
        ribs, share = self._ribs
        unit = _unit(air)
        taken = at_ribs(self.planform.y, ribs, lambda y, bay: np.stack(airload(unit, self.planform, y, bay)))
        force, torque = (np.sum(part[..., None] * share, axis=-2) for part in taken)
        nought = np.zeros_like(force)
        return {
            "force": np.stack([nought, nought, force], axis=-1),
            "moment": np.stack([nought, torque, nought], axis=-1),
        }

    @cached_property
    def _bays(self) -> tuple[NDArray[np.intp], NDArray[np.bool_]]:
        return outline_bays(self.planform.y, self.breaks, self.bay)

    @cached_property
    def _ribs(self) -> tuple[Array, Array]:
        ribs = _ribs(self.surface)
        return ribs, hats(self.breaks[..., None, :], ribs, "rib")


def _unit(air: Strip) -> Strip:
    return replace(air, pressure=np.asarray(1.0))


def _ribs(surface: Surface) -> Array:
    up = surface.sheet.ribs.up
    gap = next((value.key or "sheet.ribs.up" for value in up if value.si is None), "" if up else "sheet.ribs.up")
    if gap:
        message = f"{gap} is not given: the load cannot be handed over at ribs"
        raise SurfaceError(message)
    return in_a_row([number(value) for value in up])
