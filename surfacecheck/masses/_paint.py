"""Paint by area: on the outer sides of both skins and round the nose."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from surfacecheck.errors import Fault, SurfaceError
from surfacecheck.masses._nose import nose_ring
from surfacecheck.masses._outline import Lines, lines_of
from surfacecheck.masses._parts import Array, Piece, Unknown, spread
from surfacecheck.masses._sheet import skin_strip, strip_law
from surfacecheck.model import Surface
from surfacecheck.provenance import Basis, Source

__all__ = ["PAINT_RANGE", "Painted", "painted", "refuse_heavy_paint"]

PAINT_RANGE = (0.12, 0.30)
"""Paint on one side of a sheet, from thin to thick [kg/m^2]: common practice, from one weighed test plate (0.09 oz/ft2
for a thin wet coat) and the paint of whole small aeroplanes (0.5 to 0.8 oz/ft2 and more). Weigh a plate."""

_ON = Source(Basis.WORKED_OUT, "outer side of the skins, openings and edges not taken off")
_PLAIN = np.asarray(1.0)


@dataclass(frozen=True, slots=True, eq=False)
class Painted:
    """What paint lies on.

    Attributes
    ----------
    area : ndarray, shape (...)
        Outer sides of the skins and of the nose [m^2].
    first : ndarray, shape (...)
        Area times distance behind the pins [m^3].
    """

    area: Array
    first: Array

    @property
    def x(self) -> Array:
        """Centre behind the pins, shape (...) [m]; 0 where there is no skin."""
        some = self.area != 0.0
        return np.asarray(np.where(some, self.first / np.where(some, self.area, 1.0), 0.0))


def painted(surface: Surface) -> Painted:
    """Measure what paint lies on: each skin from the web to the trailing edge, and the nose.

    Parameters
    ----------
    surface : Surface
        A skin that is not there is not painted; one of unknown thickness is.

    Returns
    -------
    Painted
        Its outer side.

    Raises
    ------
    SurfaceError
        Where the outline is not known.

    Notes
    -----
    Paint has little thickness, so it sits on the sheet's own centre. What is inside, and primer under it, is not in it.
    """
    try:
        pieces = _coats(surface, lines_of(surface))
    except Unknown as gap:
        message = "not known: without the outline there is no area to paint"
        raise SurfaceError(Fault(message, key=surface.in_file(gap.key))) from gap
    nought = np.asarray(0.0)
    return Painted(
        np.asarray(sum((piece.mass for piece in pieces), nought)),
        np.asarray(sum((piece.first for piece in pieces), nought)),
    )


def _coats(surface: Surface, lines: Lines) -> list[Piece]:
    """Lay one kilogram on each square metre of the outer sides."""
    sheet = surface.sheet
    flat = [part for part in (sheet.left_skin, sheet.right_skin) if not part.thickness.absent]
    coats = [spread("paint", skin_strip(lines, strip_law(_PLAIN, 1.0)), _ON) for _ in flat]
    if not sheet.nose_skin.thickness.absent:
        coats.append(spread("paint", nose_ring(lines, _PLAIN)[0], _ON))
    return coats


def refuse_heavy_paint(surface: Surface, paint: Array, bare: Array) -> None:
    """Refuse paint that weighs more than what it is on.

    Parameters
    ----------
    surface : Surface
        For the words.
    paint, bare : ndarray, shape (...)
        Paint, and the surface without it [kg].

    Raises
    ------
    SurfaceError
        For any variant of which that is so.
    """
    if not bool(np.any(paint > bare)):
        return
    weighed = surface.weighed
    value = weighed.paint if weighed.paint.known else weighed.paint_by_area
    low, high = PAINT_RANGE
    message = f"{float(np.max(paint)):.3g} kg of paint on a surface of {float(np.min(bare)):.3g} kg: paint weighs "
    message += f"{low:.2f} to {high:.2f} kg/m2 a side. Is the unit right?"
    raise SurfaceError(Fault(message, key=value.key or "weighed.paint"))
