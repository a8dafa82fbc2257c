"""What rivets that stand apart weigh more, or less, than those the drawing has there."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from surfacecheck.masses._outline import Lines
from surfacecheck.masses._parts import Array, Piece, Spread, at_point, known, spread
from surfacecheck.masses._rivets import across, mass_of
from surfacecheck.model import Apart, Rivet, Surface
from surfacecheck.places import Spot, drawn_rivet, plan_row, spot_of
from surfacecheck.provenance import Source, plain

__all__ = ["apart", "rivets_more"]


def apart(surface: Surface, lines: Lines) -> Iterator[Piece]:
    """Weigh the difference of every rivet that is not there, is another one, or is one more.

    Parameters
    ----------
    surface : Surface
        With what stands apart.
    lines : Lines
        Its outline [m].

    Yields
    ------
    Piece
        Where that rivet is; its mass is less than nothing where there is less than drawn.
    """
    for name, one in surface.apart.items():
        spot = spot_of(surface, name)
        drawn = drawn_rivet(surface, spot) if spot.rivets else None
        if drawn is not None and _weighs_otherwise(one):
            mass, source = _difference(surface, spot, one, drawn)
            yield _there(surface, lines, spot, f"{spot.words[0]}, against the drawing", mass, source)


def rivets_more(surface: Surface) -> int:
    """Count the rivets of rows that were put in beside the drawn ones, less those that are not there.

    Parameters
    ----------
    surface : Surface
        With what stands apart.

    Returns
    -------
    int
        More than drawn; less than nothing where more are out than in.
    """
    count = 0.0
    for name, one in surface.apart.items():
        spot = spot_of(surface, name)
        if spot.sort == "row" and spot.rivets and one.there.si is not None:
            extra = _sides(surface, spot) * plain(one.extra) if one.extra.known else 0.0
            count += plain(one.there) - 1.0 + extra
    return round(count)


def _weighs_otherwise(one: Apart) -> bool:
    return one.rivet is not None or one.extra.known or bool(np.any(np.asarray(one.there.si) != 1.0))


def _difference(surface: Surface, spot: Spot, one: Apart, drawn: Rivet) -> tuple[Array, Source]:
    own, source = mass_of(surface, drawn)
    now = own if one.rivet is None else mass_of(surface, one.rivet)[0]
    extra = _sides(surface, spot) * known(one.extra, "extra") * own if one.extra.known else 0.0
    return np.asarray(known(one.there, "there") * now - own + extra), source


def _sides(surface: Surface, spot: Spot) -> float:
    """Count the rivets put in beside one; between two that both have some there is one, and it goes with the lower."""
    plan, number = plan_row(surface, surface.rows[spot.owner]), spot.rivets[0]
    below = surface.apart.get(f"{spot.whole}.rivet-{number - 1}")
    shared = number == 1 or (below is not None and below.extra.known)
    return float(plan is not None and number < plan.count) + float(not shared)


def _there(surface: Surface, lines: Lines, spot: Spot, name: str, mass: Array, source: Source) -> Piece:
    if spot.sort == "bracket":
        y = known(surface.hinges[spot.owner].up, f"hinge.{spot.owner}.up")
        return at_point(name, mass, lines.at("web_behind", y), y, source)
    if spot.sort == "horn" and surface.horn is not None:
        x = known(surface.horn.fixed_with.first_behind, "horn.fixed_with.first_behind")
        return at_point(name, mass, x, known(surface.horn.up, "horn.up"), source)
    row = surface.rows[spot.owner]
    plan = plan_row(surface, row)
    if plan is None or spot.rib or plan.start is None:
        y = known(surface.sheet.ribs.up[spot.rib - 1], "sheet.ribs.up")
        middle = (lines.at("web_behind", y) + lines.at("edge_behind", y)) / 2.0
        return at_point(name, mass, lines.at("web_behind", y) if "spar" in row.joins else middle, y, source)
    pitch, start = np.asarray(plan.pitch), np.asarray(plan.start)
    y = start + ((spot.rivets[0] - 1) % plan.count) * pitch
    ends = np.stack([y - pitch / 2.0, y + pitch / 2.0], axis=-1)
    x = across(surface, lines, row, y)
    running = np.asarray(mass / pitch)[..., None, None, None]

    def law(at: Array) -> tuple[Array, Array]:
        return running * np.ones_like(at), running * at

    return spread(name, Spread(ends, (np.stack([x, x], axis=-1),), law), source)
