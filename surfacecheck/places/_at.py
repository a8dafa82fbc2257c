"""What the drawing has at a rivet: its kind, its layers with thickness and edge, and what stands apart there."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Any

import numpy as np

from surfacecheck.model import Apart
from surfacecheck.places._layout import plan_row
from surfacecheck.provenance import UNKNOWN, WORKED_OUT, Value, numbers

if TYPE_CHECKING:
    from surfacecheck.model import Rivet, Row, Surface
    from surfacecheck.places._spots import Spot

__all__ = [
    "apart_at",
    "drawn_edge",
    "drawn_rivet",
    "edge_of",
    "gap_along",
    "layer_thickness",
    "layers_at",
    "least_edge",
    "rivet_at",
    "with_apart",
]


def drawn_rivet(surface: Surface, spot: Spot) -> Rivet | None:
    """Give the rivet that the drawing has there.

    Parameters
    ----------
    surface : Surface
        As it is.
    spot : Spot
        A place with rivets.

    Returns
    -------
    Rivet or None
        None where it is not described.
    """
    name = ""
    if spot.sort == "bracket":
        bracket = surface.brackets.get(surface.hinges[spot.owner].bracket)
        name = "" if bracket is None else bracket.rivet
    elif spot.sort == "row":
        name = surface.rows[spot.owner].rivet
    elif spot.sort == "horn" and surface.horn is not None:
        name = surface.horn.fixed_with.rivet
    return surface.rivets.get(name)


def rivet_at(surface: Surface, spot: Spot, name: str) -> Rivet | None:
    """Give the rivet that sits at one place now.

    Parameters
    ----------
    surface : Surface
        As it is.
    spot : Spot
        A place with rivets.
    name : str
        One of its names.

    Returns
    -------
    Rivet or None
        None where it is not described.
    """
    apart = surface.apart.get(name)
    return apart.rivet if apart is not None and apart.rivet is not None else drawn_rivet(surface, spot)


def layers_at(surface: Surface, spot: Spot) -> tuple[str, ...]:
    """List the layers under a rivet, from its head inwards, as the checks call them.

    Parameters
    ----------
    surface : Surface
        As it is.
    spot : Spot
        A place with rivets.

    Returns
    -------
    tuple of str
        ``bracket``, ``spar``; ``plate``, ``rib``; or what the row joins.
    """
    fixed = {"bracket": ("bracket", "spar"), "horn": ("plate", "rib")}
    return surface.rows[spot.owner].joins if spot.sort == "row" else fixed.get(spot.sort, ())


def drawn_edge(surface: Surface, spot: Spot, layer: str) -> Value:
    """Give the edge distance that the drawing has in a layer.

    Parameters
    ----------
    surface : Surface
        As it is.
    spot : Spot
        A place with rivets.
    layer : str
        Name of the layer.

    Returns
    -------
    Value
        Unknown where it is not given [m].
    """
    if spot.sort == "row":
        return edge_of(surface, surface.rows[spot.owner], layer)
    if spot.sort == "bracket":
        bracket = surface.brackets.get(surface.hinges[spot.owner].bracket)
        return UNKNOWN if bracket is None else bracket.edge.get(layer, UNKNOWN)
    return surface.horn.fixed_with.edge if surface.horn is not None and layer == "plate" else UNKNOWN


def layer_thickness(surface: Surface, spot: Spot, layer: str) -> Value:
    """Give the thickness of a layer.

    Parameters
    ----------
    surface : Surface
        As it is.
    spot : Spot
        A place with rivets.
    layer : str
        Name of the layer.

    Returns
    -------
    Value
        Unknown where it is not given [m].
    """
    sheet = surface.sheet
    if layer == "bracket":
        bracket = surface.brackets.get(surface.hinges[spot.owner].bracket)
        return UNKNOWN if bracket is None else bracket.thickness
    if layer == "plate":
        return UNKNOWN if surface.horn is None else surface.horn.plate.thickness
    part = sheet.doublers.get(layer) or getattr(sheet, {"rib": "ribs"}.get(layer, layer), None)
    return UNKNOWN if part is None else part.thickness


def gap_along(surface: Surface, spot: Spot) -> Value:
    """Give the distance from rivet to rivet along the line of a group or a row.

    Parameters
    ----------
    surface : Surface
        As it is.
    spot : Spot
        A place with rivets.

    Returns
    -------
    Value
        Unknown where it is not given, or there is only one [m].
    """
    if spot.sort == "bracket":
        bracket = surface.brackets.get(surface.hinges[spot.owner].bracket)
        return UNKNOWN if bracket is None or (bracket.along or 0) < 2 else bracket.gap_along
    if spot.sort == "horn" and surface.horn is not None:
        return surface.horn.fixed_with.gap_fore_aft if (surface.horn.fixed_with.fore_aft or 0) > 1 else UNKNOWN
    plan = plan_row(surface, surface.rows[spot.owner]) if spot.sort == "row" else None
    if plan is None:
        return UNKNOWN
    pitch = np.asarray(plan.rib_pitch[..., spot.rib - 1] if spot.rib else plan.pitch)
    return Value(pitch if pitch.ndim else float(pitch), f"{float(pitch.min()) * 1e3:.1f} mm", WORKED_OUT)


def edge_of(surface: Surface, row: Row, name: str) -> Value:
    """Give the edge distance of a sheet, from the hole's centre however it was measured.

    Parameters
    ----------
    surface : Surface
        For the rivet's hole.
    row : Row
        From the file.
    name : str
        Name of the sheet.

    Returns
    -------
    Value
        Unknown where neither was given [m].
    """
    edge = row.edge.get(name, UNKNOWN)
    rim = row.edge_from_rim.get(name, UNKNOWN)
    rivet = surface.rivets.get(row.rivet)
    if edge.known or not rim.known or rivet is None or not rivet.hole.known:
        return edge
    centre = numbers(rim) + 0.5 * numbers(rivet.hole)
    return replace(rim, si=centre if centre.ndim else float(centre))


def least_edge(surface: Surface, row: Row, name: str, *, most: bool = False) -> Value:
    """Give the least edge distance of a sheet along a row, one that runs off included.

    Parameters
    ----------
    surface : Surface
        As it is.
    row : Row
        One of its rows.
    name : str
        Name of the sheet.
    most : bool
        The greatest instead: what matters to the bend [-].

    Returns
    -------
    Value
        Unknown where it is not given [m].
    """
    whole = surface.apart.get(f"row.{row.name}")
    if whole is None or name not in whole.edge_last:
        return edge_of(surface, row, name)
    ends = (whole.edge[name], whole.edge_last[name])
    return (max if most else min)(ends, key=lambda edge: float(numbers(edge).min()))


def apart_at(surface: Surface, name: str) -> Apart:
    """Give what stands apart at a place; as its row says where nothing does.

    Parameters
    ----------
    surface : Surface
        As it is.
    name : str
        As findings call it.

    Returns
    -------
    Apart
        Perhaps with nothing in it.
    """
    return surface.apart.get(name, Apart())


def with_apart(surface: Surface, name: str, **changed: Any) -> Surface:
    """Lay something over what stands apart at a place; tables merge layer by layer.

    Parameters
    ----------
    surface : Surface
        As it is.
    name : str
        As findings call it.
    **changed : Any
        Fields of :class:`~surfacecheck.model.Apart`.

    Returns
    -------
    Surface
        With them.
    """
    before = apart_at(surface, name)
    merged = {key: getattr(before, key) | value if isinstance(value, dict) else value for key, value in changed.items()}
    return replace(surface, apart={**surface.apart, name: replace(before, **merged)})
