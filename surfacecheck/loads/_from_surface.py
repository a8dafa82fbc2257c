"""What the loads read off a surface: outline, sides, and which key hides what."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from surfacecheck.errors import SurfaceError
from surfacecheck.loads._planform import Planform
from surfacecheck.model import Kind, OutlinePlace, Surface
from surfacecheck.provenance import Value, in_a_row

__all__ = ["Outline", "load_word", "number", "outline_of", "planform_of", "side_word"]

Array = NDArray[np.float64]

_KEYS = {"y": "up", "edge": "edge_behind", "web": "web_behind", "nose": "nose_ahead", "fin": "fin_ahead"}


@dataclass(frozen=True, slots=True, eq=False)
class Outline:
    """The planform, and the keys of the lines nobody has given.

    Attributes
    ----------
    planform : Planform or None
        None while stations or trailing edge are not known. A hidden nose or web stands at the pins there, and no
        case that reads it may be built.
    hidden : dict of str to str
        Line (y, edge, web, nose, fin) to the key that is not known.
    """

    planform: Planform | None
    hidden: dict[str, str]


def number(value: Value) -> Array:
    """Give the number of a known value as an array."""
    return np.asarray(value.si, dtype=np.float64)


def outline_of(surface: Surface) -> Outline:
    """Stack the outline of a surface into a planform.

    Parameters
    ----------
    surface : Surface
        The surface; values may be stacks of variants.

    Returns
    -------
    Outline
        Root to tip.

    Raises
    ------
    SurfaceError
        Where the lines cross, or two places are the same.
    """
    return _outline(surface.outline.places)


@lru_cache(maxsize=8)
def _outline(places: tuple[OutlinePlace, ...]) -> Outline:
    """Stack the places; several kinds of load case ask for the same outline."""
    if len(places) < 2:
        return Outline(None, {"y": "outline.at"})
    lines: dict[str, Array] = {}
    hidden: dict[str, str] = {}
    for name, key in _KEYS.items():
        values: list[Value] = [getattr(place, key) for place in places]
        gaps = [i for i, value in enumerate(values) if value.si is None]
        if gaps:
            hidden[name] = values[gaps[0]].key or f"outline.at[{gaps[0] + 1}].{key}"
        else:
            lines[name] = in_a_row([number(value) for value in values])
    if "y" in hidden or "edge" in hidden:
        return Outline(None, hidden)
    full = dict(zip(lines, np.broadcast_arrays(*lines.values()), strict=True))
    order = np.argsort(full["y"], axis=-1, kind="stable")
    ranked = {name: np.take_along_axis(line, order, axis=-1) for name, line in full.items()}
    return Outline(Planform.of(**ranked), hidden)


def planform_of(surface: Surface) -> Planform:
    """Stack the outline, all of which must be known but for the fixed part.

    Parameters
    ----------
    surface : Surface
        The surface.

    Returns
    -------
    Planform
        Root to tip; a nose that is not known stands at the pins.

    Raises
    ------
    SurfaceError
        Where stations or trailing edge are not known.
    """
    outline = outline_of(surface)
    if outline.planform is None:
        message = f"{next(iter(outline.hidden.values()))} is not given: without it there is no outline to load"
        raise SurfaceError(message)
    return outline.planform


def side_word(surface: Surface, sign: int) -> str:
    """Give the builder's word for the way of a load.

    Parameters
    ----------
    surface : Surface
        The surface.
    sign : int
        +1 for a load towards +z, -1 for the other way [-].

    Returns
    -------
    str
        left or right; top or bottom where it lies flat.
    """
    return surface.said("left" if sign * surface.left_is > 0 else "right")


def load_word(surface: Surface) -> str:
    """Give the builder's word for the airload."""
    return "side load" if surface.kind is Kind.RUDDER else "air load"
