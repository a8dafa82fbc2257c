"""Hinge brackets: six force components over the rivets."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.errors import SurfaceError
from surfacecheck.model import Face
from surfacecheck.provenance import UNKNOWN, plain
from surfacecheck.statics import heel_bound, prying_bound, share_group, shear_and_tension

if TYPE_CHECKING:
    from collections.abc import Iterator

    from numpy.typing import NDArray

    from surfacecheck.checks._effects import Effects
    from surfacecheck.model import Bracket, Hinge, Surface

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
    index : int
        Hinge along the H axis.
    a, b : ndarray, shape (R,)
        Places of the rivets along the pins and along z, from the middle of the group [m].
    force : ndarray, shape (C, 3)
        From the pin (x, y, z) [N].
    offset : tuple of float
        Pin from the middle of the group (x, y, z) [m].
    share : ndarray, shape (C, R, 3)
        (x, y, z) of each rivet [N].
    shear, tension, bound : ndarray, shape (C, R)
        Shear, pull without heel, pull with heel and prying [N].
    """

    hinge: Hinge
    bracket: Bracket
    index: int
    a: Array
    b: Array
    force: Array
    offset: tuple[float, float, float]
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
    tuple of ndarray, each of shape (R,)
        Along the pins and along z from the middle of the group [m].
    """
    along, sideways = bracket.along or 1, bracket.sideways or 1
    step_a = plain(bracket.gap_along) if bracket.gap_along.known else 0.0
    step_b = plain(bracket.gap_sideways) if bracket.gap_sideways.known else 0.0
    a = np.tile((np.arange(along) - 0.5 * (along - 1)) * step_a, sideways)
    b = np.repeat(surface.left_is * (0.5 * (sideways - 1) - np.arange(sideways)) * step_b, along)
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
    places = surface.outline.places
    for index, (name, b) in enumerate(effects.span.hinges.items()):
        hinge = surface.hinges[name]
        if bracket_needs(surface, hinge):
            continue
        bracket = surface.brackets[hinge.bracket]
        up = effects.span.breaks[b]
        web = float(np.interp(up, [plain(p.up) for p in places], [plain(p.web_behind) for p in places]))
        middle = surface.outline.pins_off_middle
        off = plain(middle) if middle.known else 0.0
        leg = plain(bracket.leg_off_rivets) if bracket.leg_off_rivets.known else 0.0
        offset = (-web, leg, surface.left_is * off)
        y, z = rivet_places(surface, bracket)
        force = effects.reactions[:, index]
        side = 1 if bracket.on_face is Face.BEHIND else -1
        try:
            share = share_group(y, z, force, offset)
        except SurfaceError:  # one rivet, or one line of them, holds no couple: bracket_checks says so
            continue
        shear, tension = shear_and_tension(share, side)
        yield BracketLoad(
            hinge,
            bracket,
            index,
            y,
            z,
            force,
            offset,
            share,
            shear,
            tension,
            _bound(bracket, y, z, force, offset, side, tension),
        )


def _bound(
    bracket: Bracket, y: Array, z: Array, force: Array, offset: tuple[float, float, float], side: int, tension: Array
) -> Array:
    """Pull of each rivet at worst: heel on any of the four edges, and the leg's toe prying."""
    edge = bracket.edge.get("bracket", UNKNOWN)
    if not edge.known:
        return tension
    e = plain(edge)
    # the four edges, one after the other: nearest the root, farthest, -z, +z
    heel = (y.min() - e, y.max() + e, 0.0, 0.0), (0.0, 0.0, z.min() - e, z.max() + e)
    inward = (1.0, -1.0, 0.0, 0.0), (0.0, 0.0, 1.0, -1.0)
    pull, contact = heel_bound(y, z, force, offset, heel, inward, side)
    worst: Array = np.maximum(tension, np.where(contact[..., None] > 0.0, pull, 0.0).max(axis=0))
    nearest = np.abs(np.abs(y) - abs(offset[1])) if bracket.legs == 1 else np.zeros_like(y)
    return np.maximum(worst, prying_bound(tension, float(nearest.min()), e))
