"""What doublers add to the walls they lie on, by how much of the wall they cover."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from surfacecheck.library import metal_of
from surfacecheck.provenance import over_stations

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from surfacecheck.model import Surface

    Array = NDArray[np.float64]

__all__ = ["COVERS", "LEFT_OUT", "ON_FLANGES", "ON_SKIN", "Laid", "laid_on", "on_flange", "on_skin"]


COVERS = 0.98
"""Share of the width of web or skin panel from which a doubler counts as covering it from edge to edge."""

ON_SKIN = (
    "a doubler gives a skin strength only where it covers it from spar to trailing edge, each leaf wrinkling alone; "
    "beside a narrower one the bare skin decides, and the doubler stiffens by its share of the width"
)
ON_FLANGES = "a doubler on the spar flange is two alike, one on each flange; they stiffen and weigh by their width"
LEFT_OUT = "a doubler on nose skin or rib is weighed only: it is left out of stiffness and strength"


class Laid(NamedTuple):
    """A doubler whose place and thickness are known.

    Attributes
    ----------
    t : ndarray, shape (..., 1) or ()
        Thickness at the modulus of what it lies on [m].
    wide : ndarray, shape (..., 1) or (), or None
        Its width [m]; None where it is not known.
    there : ndarray of bool, shape (..., S)
        Stations it lies over.
    """

    t: Array
    wide: Array | None
    there: NDArray[np.bool_]


def laid_on(surface: Surface, on: str, doubled: dict[str, NDArray[np.bool_]], modulus: Array) -> list[Laid]:
    """List the doublers on a part.

    Parameters
    ----------
    surface : Surface
        As described.
    on : str
        What they lie on, as the file says it.
    doubled : dict of str to ndarray of bool, shape (..., S)
        Where each doubler lies.
    modulus : ndarray, shape (..., 1) or ()
        E of the part [Pa].

    Returns
    -------
    list of Laid
        In the order of the file.
    """
    found = []
    for name, doubler in surface.sheet.doublers.items():
        if doubler.on == on and doubler.thickness.known and name in doubled:
            metal = metal_of(surface, doubler.alloy, doubler.thickness)
            ratio = over_stations(metal.modulus) / modulus if metal.modulus.known else 1.0
            wide = over_stations(doubler.wide) if doubler.wide.known else None
            found.append(Laid(ratio * over_stations(doubler.thickness), wide, doubled[name]))
    return found


def on_skin(t: Array, width: Array, doublers: list[Laid]) -> tuple[Array, Array]:
    """Thickness of a skin with its doublers.

    A doubler that covers the panel adds to both. A narrower one leaves strips of bare skin, whose strength decides;
    for the twist of the section the strips follow each other along the wall, and their compliances add:
    ``b / t_e = w / (t + t_d) + (b - w) / t``. One of unknown width adds nothing.

    Parameters
    ----------
    t : ndarray, shape (..., S)
        Bare skin [m].
    width : ndarray, shape (..., S)
        Spar to trailing edge, b [m].
    doublers : list of Laid
        On it.

    Returns
    -------
    strong, stiff : ndarray, shape (..., S)
        Thickness that strength counts with, and that the section counts with [m].

    Examples
    --------
    >>> patch = Laid(np.array(0.5), np.array(20.0), np.array([True]))
    >>> [part.round(4).tolist() for part in on_skin(np.array([0.5]), np.array([400.0]), [patch])]
    [[0.5], [0.5128]]
    """
    strong = stiff = t
    for one in doublers:
        if one.wide is None:
            continue
        share = np.minimum(one.wide / width, 1.0)
        covers = one.wide >= COVERS * width
        beside = 1.0 / (share / (stiff + one.t) + (1.0 - share) / stiff)
        stiff = np.where(one.there, np.where(covers, stiff + one.t, beside), stiff)
        strong = np.where(one.there & covers, strong + one.t, strong)
    return strong, stiff


def on_flange(flange: Array, doublers: list[Laid]) -> Array:
    """Thickness that doublers add to each flange: their area, spread over the flange.

    Parameters
    ----------
    flange : ndarray, shape (..., 1) or ()
        Width of a flange [m].
    doublers : list of Laid
        On it; one of unknown width adds nothing.

    Returns
    -------
    ndarray, shape (..., S) or ()
        [m].

    Examples
    --------
    >>> strip = Laid(np.array(0.5), np.array(9.0), np.array([True, False]))
    >>> on_flange(np.array(18.0), [strip]).tolist()
    [0.25, 0.0]
    """
    out = np.asarray(0.0)
    for one in doublers:
        if one.wide is not None:
            out = out + np.where(one.there, one.t * np.minimum(one.wide / flange, 1.0), 0.0)
    return out
