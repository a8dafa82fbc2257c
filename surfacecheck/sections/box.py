"""The walls of a surface: spar, skins, nose and lap as a thin-walled section at every station.

Middle lines; skins start at the corners of the spar; flanges lie square to the web. Nodes and walls run clockwise as
seen from root to tip (web upwards, +z skin aft, -z skin forward).
"""

from __future__ import annotations

from typing import TYPE_CHECKING, TypeAlias

import numpy as np

from surfacecheck.axes import by_case
from surfacecheck.library import metal_of
from surfacecheck.model import SkinsCarry, TrailingEdge
from surfacecheck.provenance import Value, in_a_row, numbers
from surfacecheck.sections._box import SIDES, Box, sides_of
from surfacecheck.sections._builder import Builder
from surfacecheck.sections._doubled import COVERS

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from surfacecheck.model import Skin, Spar, Surface
    from surfacecheck.sections._section import Section

    Array = NDArray[np.float64]
    Stations: TypeAlias = slice | list[int] | NDArray[np.intp]

__all__ = [
    "SIDES",
    "Box",
    "about_shear_centre",
    "box_needs",
    "box_of",
    "sides_of",
    "wall_bend",
    "wall_mean",
    "web_covered",
]


def box_needs(surface: Surface) -> tuple[str, ...]:
    """List the keys that hide the sections, in the words of the surface's file.

    Parameters
    ----------
    surface : Surface
        Perhaps half-filled.

    Returns
    -------
    tuple of str
        Empty where sections can be worked.
    """
    sheet, outline = surface.sheet, surface.outline
    wanted: dict[str, Value] = {
        "sheet.spar.thickness": sheet.spar.thickness,
        "sheet.spar.flange": sheet.spar.flange,
        "sheet.left_skin.thickness": sheet.left_skin.thickness,
        "sheet.right_skin.thickness": sheet.right_skin.thickness,
    }
    if outline.trailing_edge is TrailingEdge.RIVETED and surface.method.skins_carry is not SkinsCarry.SHEAR_ONLY:
        wanted["outline.lap"] = outline.lap
    missing = [key for key, value in wanted.items() if not value.known and not value.absent]
    for i, place in enumerate(outline.places):
        missing += [
            f"outline.at[{i + 1}].{k}"
            for k in ("up", "web_behind", "spar_depth", "edge_behind")
            if not getattr(place, k).known
        ]
    metals: dict[str, Spar | Skin] = {"spar": sheet.spar, "left_skin": sheet.left_skin, "right_skin": sheet.right_skin}
    for name, part in metals.items():
        if not part.thickness.absent and metal_of(surface, part.alloy, part.thickness).modulus.si is None:
            missing.append(f"sheet.{name}.alloy")
    if sheet.spar.flanges_point is None:
        missing.append("sheet.spar.flanges_point")
    if outline.trailing_edge is None:
        missing.append("outline.trailing_edge")
    return tuple(surface.in_file(key) for key in missing)


def box_of(surface: Surface, y: Array, doubled: dict[str, NDArray[np.bool_]], nose_closed: NDArray[np.bool_]) -> Box:
    """Build the sections of a surface.

    Parameters
    ----------
    surface : Surface
        With everything :func:`box_needs` asks for.
    y : ndarray, shape (..., S)
        Stations [m].
    doubled : dict of str to ndarray of bool, shape (..., S)
        Where each doubler lies.
    nose_closed : ndarray of bool, shape (..., S)
        Where the nose skin closes a cell.

    Returns
    -------
    Box
        Sections at every station.
    """
    return Builder(surface, y, doubled, nose_closed).build()


def web_covered(surface: Surface) -> NDArray[np.bool_]:
    """Tell whether doublers cover the whole web: such a surface has other walls, and stands in a stack of its own.

    Parameters
    ----------
    surface : Surface
        With everything :func:`box_needs` asks for; its numbers may be stacks of variants.

    Returns
    -------
    ndarray of bool, shape (...)
        False where there is no doubler on the web, or one is narrower than it is deep anywhere.
    """
    spar, on = surface.sheet.spar, [d for d in surface.sheet.doublers.values() if d.on == "spar web"]
    widths = [numbers(d.wide) for d in on if d.wide.known and all(v.known for v in (d.thickness, d.start, d.to))]
    if not widths:
        return np.asarray(False)
    depth = in_a_row([numbers(p.spar_depth) for p in surface.outline.places]).max(axis=-1) - numbers(spar.thickness)
    return np.asarray(np.minimum.reduce(np.broadcast_arrays(*widths)) >= COVERS * depth)


def about_shear_centre(section: Section, V_x: Array, V_z: Array, T_0: Array) -> Array:
    """Torque about the shear centre: ``T_0 + x_s V_z - z_s V_x``.

    Parameters
    ----------
    section : Section
        At every station.
    V_x, V_z, T_0 : ndarray, shape (..., C, S)
        Shear forces [N] and torque about the hinge line [N m].

    Returns
    -------
    ndarray, shape (..., C, S)
        [N m].
    """
    return np.asarray(T_0 + by_case(section.x_s) * V_z - by_case(section.z_s) * V_x)


def wall_mean(section: Section, wall: int, V_x: Array, V_z: Array, T_s: Array, stations: Stations) -> Array:
    """Work the mean shear flow of one wall, as :func:`flow` does for all of them, for when the others are not asked.

    ``q = q_x V_x + q_z V_z + q_T T_s``

    Parameters
    ----------
    section : Section
        At every station.
    wall : int
        Which wall [-].
    V_x, V_z, T_s : ndarray, shape (..., C, N)
        Shear forces [N] and torque about the shear centre [N m], at the stations asked.
    stations : slice or sequence of int
        Which stations [-].

    Returns
    -------
    ndarray, shape (..., C, N)
        [N/m].
    """
    unit_x, unit_z, unit_T = (
        by_case(one[..., stations, wall]) for one in (section.unit_x.mean, section.unit_z.mean, section.unit_T)
    )
    return np.asarray(unit_x * V_x + unit_z * V_z + unit_T * T_s)


def wall_bend(section: Section, wall: int, V_x: Array, V_z: Array, stations: Stations) -> tuple[Array, Array]:
    """Work slope and curvature of the flow along one wall; a torque, and which cells are closed, do not ask for them.

    Parameters
    ----------
    section : Section
        At every station.
    wall : int
        Which wall [-].
    V_x, V_z : ndarray, shape (..., C, N)
        Shear forces at the stations asked [N].
    stations : slice or sequence of int
        Which stations [-].

    Returns
    -------
    tuple of ndarray, each of shape (..., C, N)
        Parts of :class:`WallFlow` [N/m].
    """
    slope, curvature = (
        by_case(one[..., stations, wall]) * V_x + by_case(other[..., stations, wall]) * V_z
        for one, other in zip(section.unit_x[1:], section.unit_z[1:], strict=True)
    )
    return slope, curvature
