"""The chordwise shape that the file asks for, its own typed one among them."""

from __future__ import annotations

import numpy as np

from surfacecheck.errors import SurfaceError
from surfacecheck.loads._chordwise import SHAPES, Shape
from surfacecheck.model import FadesAft, Load

__all__ = ["shape_of"]


def shape_of(load: Load, fade: FadesAft) -> Shape | None:
    """Give the shape that a word of ``fades_aft`` stands for.

    Parameters
    ----------
    load : Load
        Of the file.
    fade : FadesAft
        One of its words.

    Returns
    -------
    Shape or None
        With mean one, so that the mean pressure is the one given; None where a typed one is asked and not there.

    Raises
    ------
    SurfaceError
        Where the typed points make no shape, or differ between the variants of one stack.
    """
    if fade is not FadesAft.AS_TYPED:
        return SHAPES[fade.value]
    points = load.shape
    if points is None or any(not one.known for pair in points for one in pair):
        return None
    if any(np.ndim(one.si) > 0 for pair in points for one in pair):  # type: ignore[arg-type]
        message = "load.shape differs between variants of one stack: all of a stack have one shape. Run each by itself."
        raise SurfaceError(message)
    numbers = [(float(place.si), float(pressure.si)) for place, pressure in points]  # type: ignore[arg-type]
    return Shape.from_points(fade.value, numbers, points[0][1].source)
