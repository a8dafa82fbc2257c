"""Mass of the sheet round the nose."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from surfacecheck.masses._density import density
from surfacecheck.masses._outline import Lines
from surfacecheck.masses._parts import Array, Piece, Spread, at_point, known, spread
from surfacecheck.masses._sheet import half_ellipse
from surfacecheck.model import Surface
from surfacecheck.provenance import Basis, Source

__all__ = ["nose_ring", "nose_skin"]

_MEASURED = Source(Basis.WORKED_OUT, "measured round the nose, times thickness and density; centre of an ellipse")
_ELLIPSE = Source(Basis.ASSUMED, "half an ellipse through flanges and nose point")
_OFF = Source(Basis.ASSUMED, "opening taken to go all round the nose")


def nose_ring(lines: Lines, sheet: Array) -> tuple[Spread, Source]:
    """Lay a sheet round the nose; its lines are the length round, and the centre behind the pins."""
    web, depth = lines("web_behind"), lines("spar_depth")
    around, centre = half_ellipse(lines("nose_ahead") + web, depth / 2.0)
    measured, source = lines.given.get("nose_around"), _ELLIPSE
    if measured is not None and bool(np.all(measured > 0.0)):
        around, source = measured, _MEASURED

    def law(length: Array, x: Array) -> tuple[Array, Array]:
        mass = sheet[..., None, None, None] * length
        return mass, mass * x

    return Spread(lines.y, (around, web - centre), law), source


def nose_skin(surface: Surface, lines: Lines) -> Iterator[Piece]:
    """Weigh the skin round the nose, and take off the openings at the hinges."""
    part = surface.sheet.nose_skin
    if part.thickness.absent:
        return
    t = known(part.thickness, "sheet.nose_skin.thickness")
    rho, _ = density(surface, part.alloy, "sheet.nose_skin.alloy")
    sheet = np.asarray(t * rho)
    ring, source = nose_ring(lines, sheet)
    yield spread("nose_skin", ring, source)
    if part.cut_at_hinge.si is None or part.cut_at_hinge.absent:
        return
    cut = known(part.cut_at_hinge, "sheet.nose_skin.cut_at_hinge")
    rings = Lines(lines.y, dict(zip(("around", "middle"), ring.lines, strict=True)), {})
    for name, hinge in surface.hinges.items():
        if hinge.up.si is None:
            continue
        y = np.asarray(hinge.up.si, dtype=np.float64)
        hole = -sheet * cut * rings.at("around", y)
        yield at_point(f"nose_skin opening at {name}", hole, rings.at("middle", y), y, _OFF)
