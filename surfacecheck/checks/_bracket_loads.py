"""Hinge brackets: six force components over the rivets."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.axes import line_at, over_both, side_by_side
from surfacecheck.checks._apart_group import moved_group, weights
from surfacecheck.errors import SurfaceError
from surfacecheck.model import Face
from surfacecheck.provenance import UNKNOWN, in_a_row, numbers, over_stations
from surfacecheck.statics import heel_bound, prying_bound, share_group, shear_and_tension

if TYPE_CHECKING:
    from collections.abc import Iterator

    from numpy.typing import NDArray

    from surfacecheck.checks._effects import Effects
    from surfacecheck.model import Bracket, Hinge, Surface
    from surfacecheck.provenance import Value

    Array = NDArray[np.float64]


__all__ = ["BracketLoad", "bracket_loads", "bracket_needs", "rivet_places"]


@dataclass(frozen=True, eq=False)
class BracketLoad:
    """What each rivet of a hinge bracket passes to the web.

    Attributes
    ----------
    hinge : Hinge
        From the file.
    bracket : Bracket
        From the file.
    a, b : ndarray, shape (..., R)
        Places of the rivets along the pins and along z, from the middle of the group [m].
    force : ndarray, shape (..., C, 3)
        From the pin (x, y, z) [N].
    offset : ndarray, shape (..., 3)
        Pin from the middle of the group (x, y, z) [m].
    share : ndarray, shape (..., C, R, 3)
        (x, y, z) of each rivet [N].
    shear, tension, bound : ndarray, shape (..., C, R)
        Shear, pull without heel, pull with heel and prying [N].
    """

    hinge: Hinge
    bracket: Bracket
    a: Array
    b: Array
    force: Array
    offset: Array
    share: Array
    shear: Array
    tension: Array
    bound: Array


def bracket_needs(surface: Surface, hinge: Hinge) -> tuple[str, ...]:
    """List the keys that hide the rivet loads of a bracket.

    Parameters
    ----------
    surface : Surface
        Perhaps half-filled.
    hinge : Hinge
        One of its hinges.

    Returns
    -------
    tuple of str
        Empty where they can be worked.
    """
    bracket = surface.brackets.get(hinge.bracket)
    if bracket is None:
        return (f"hinge.{hinge.name}.bracket",)
    key = f"bracket.{bracket.name}"
    wanted = {
        "on_face": bracket.on_face is not None,
        "along": bracket.along is not None,
        "sideways": bracket.sideways is not None,
        "gap_along": bracket.gap_along.known or bracket.along == 1,
        "gap_sideways": bracket.gap_sideways.known or bracket.sideways == 1,
        "leg_off_rivets": bracket.leg_off_rivets.known or bracket.leg_off_rivets.absent,
        "rivet": bracket.rivet in surface.rivets,
    }
    missing = [f"{key}.{name}" for name, known in wanted.items() if not known]
    if not all(p.web_behind.known for p in surface.outline.places):
        missing.append("outline.at.web_behind")
    return tuple(missing)


def rivet_places(surface: Surface, bracket: Bracket) -> tuple[Array, Array]:
    """Places of a bracket's rivets: 1 lowest left seen from behind, count up, then the next column right.

    Parameters
    ----------
    surface : Surface
        For which way left is.
    bracket : Bracket
        With its pattern known.

    Returns
    -------
    tuple of ndarray, each of shape (..., R)
        Along the pins and along z from the middle of the group [m].
    """
    along, sideways = bracket.along or 1, bracket.sideways or 1
    step_a, step_b = (over_stations(gap) if gap.known else 0.0 for gap in (bracket.gap_along, bracket.gap_sideways))
    a = np.tile(np.arange(along) - 0.5 * (along - 1), sideways) * step_a
    b = np.repeat(surface.left_is * (0.5 * (sideways - 1) - np.arange(sideways)), along) * step_b
    return a, b


def bracket_loads(effects: Effects) -> Iterator[BracketLoad]:
    """Share every hinge's force over its rivets.

    Parameters
    ----------
    effects : Effects
        With reactions.

    Yields
    ------
    BracketLoad
        One a hinge whose bracket is described and whose rivets can hold the pin's couple without a heel.
    """
    surface = effects.surface
    for index, (name, b) in enumerate(effects.span.hinges.items()):
        hinge = surface.hinges[name]
        if bracket_needs(surface, hinge):
            continue
        bracket = surface.brackets[hinge.bracket]
        web = _web_behind(surface, effects.span.breaks[..., b])
        off, leg = (_given(one) for one in (surface.outline.pins_off_middle, bracket.leg_off_rivets))
        offset = side_by_side(-web, leg, surface.left_is * off)
        y, z = rivet_places(surface, bracket)
        force = effects.reactions[..., index, :]
        lead = np.broadcast_shapes(force.shape[:-2], offset.shape[:-1], y.shape[:-1])
        force = np.broadcast_to(force, (*lead, *force.shape[-2:]))
        side = 1 if bracket.on_face is Face.BEHIND else -1
        y, z = moved_group(surface, f"hinge.{name}.bracket", y, z, surface.left_is)
        weight = weights(surface, f"hinge.{name}.bracket", surface.rivets[bracket.rivet], y.shape[-1])
        if weight is not None:
            y, z, weight = np.broadcast_arrays(y, z, weight)
        try:
            share = share_group(y, z, force, offset, weight=weight)
        except SurfaceError:  # one rivet, or one line of them, holds no couple: bracket_checks says so
            continue
        shear, tension = shear_and_tension(share, side)
        yield BracketLoad(
            hinge,
            bracket,
            y,
            z,
            force,
            offset,
            share,
            shear,
            tension,
            _bound(bracket, y, z, force, offset, side, tension, weight),
        )


def _given(value: Value) -> Array:
    return numbers(value) if value.known else np.asarray(0.0)


def _web_behind(surface: Surface, up: Array) -> Array:
    """How far the web stands behind the pins at a place along them [m]."""
    places = surface.outline.places
    return line_at(in_a_row([numbers(p.up) for p in places]), in_a_row([numbers(p.web_behind) for p in places]), up)


def _bound(
    bracket: Bracket,
    y: Array,
    z: Array,
    force: Array,
    offset: Array,
    side: int,
    tension: Array,
    weight: Array | None,
) -> Array:
    """Pull of each rivet at worst: heel on any of the four edges, and the leg's toe prying."""
    edge = bracket.edge.get("bracket", UNKNOWN)
    if not edge.known:
        return tension
    e = numbers(edge)
    # the four edges, one after the other: nearest the root, farthest, -z, +z
    low, high, left, right, _ = np.broadcast_arrays(
        y.min(axis=-1) - e, y.max(axis=-1) + e, z.min(axis=-1) - e, z.max(axis=-1) + e, force[..., 0, 0]
    )
    nought = np.zeros(np.broadcast_shapes(low.shape, force.shape[:-2]))
    low, high, left, right = (nought + end for end in (low, high, left, right))
    heel = np.stack([low, high, nought, nought]), np.stack([nought, nought, left, right])
    edges = (4, *(1,) * nought.ndim)
    inward = np.reshape([1.0, -1.0, 0.0, 0.0], edges), np.reshape([0.0, 0.0, 1.0, -1.0], edges)
    pull, contact = heel_bound(y, z, force, offset, heel, inward, side, weight=weight)
    worst: Array = np.maximum(tension, np.where(contact[..., None] > 0.0, pull, 0.0).max(axis=0))
    nearest = np.abs(np.abs(y) - np.abs(offset[..., 1:2])) if bracket.legs == 1 else np.zeros_like(y)
    return np.maximum(worst, prying_bound(tension, over_both(nearest.min(axis=-1)), over_both(e)))
