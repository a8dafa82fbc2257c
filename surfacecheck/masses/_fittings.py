"""Mass of brackets, horn and balance mass, as far as the file describes them."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from surfacecheck.masses._density import density
from surfacecheck.masses._outline import Lines
from surfacecheck.masses._parts import Array, Piece, Unknown, at_point, known
from surfacecheck.masses._rivets import one_rivet
from surfacecheck.model import Bracket, DrivenBy, Fixing, Hinge, Horn, Side, Surface
from surfacecheck.provenance import Basis, Source

__all__ = ["added", "balance_mass", "bracket", "horn"]

_BRACKET = Source(Basis.ASSUMED, "plate round its rivets, and a leg from the web to past the pin")
_SOMEWHERE = Source(Basis.ASSUMED, "its place along the pins is not given: taken half way up")
_HORN = Source(Basis.ASSUMED, "plate round its rivets, and an arm of its narrowest width")


def _count(number: int | None, key: str) -> int:
    if number is None:
        raise Unknown(key)
    return number


def _pattern(n: int, gap: Array, edge: Array) -> Array:
    return np.asarray((n - 1) * gap + 2.0 * edge)


def bracket(surface: Surface, lines: Lines, name: str, hinge: Hinge) -> Iterator[Piece]:
    """Weigh the bracket of a hinge and its rivets."""
    if not hinge.bracket or hinge.bracket not in surface.brackets:
        raise Unknown(key=f"hinge.{name}.bracket")
    one: Bracket = surface.brackets[hinge.bracket]
    key = f"bracket.{hinge.bracket}"
    y = known(hinge.up, f"hinge.{name}.up")
    web = lines.at("web_behind", y)
    along, sideways = _count(one.along, f"{key}.along"), _count(one.sideways, f"{key}.sideways")
    each, source = one_rivet(surface, one.rivet)
    yield at_point(f"rivets of {name} bracket", each * along * sideways, web, y, source)
    t = known(one.thickness, f"{key}.thickness")
    rho, _ = density(surface, one.alloy, f"{key}.alloy")
    if "bracket" not in one.edge:
        raise Unknown(key=f"{key}.edge.bracket")
    edge = known(one.edge["bracket"], f"{key}.edge.bracket")
    plate = _pattern(along, known(one.gap_along, f"{key}.gap_along"), edge) * _pattern(
        sideways, known(one.gap_sideways, f"{key}.gap_sideways"), edge
    )
    past = known(one.pin.edge, f"{key}.pin.edge")
    leg = _count(one.legs, f"{key}.legs") * known(one.leg_wide, f"{key}.leg_wide") * (np.abs(web) + past)
    first = plate * web + leg * (web - np.sign(web) * past) / 2.0
    yield at_point(f"{name} bracket", rho * t * (plate + leg), first / (plate + leg), y, _BRACKET)


def horn(surface: Surface, one: Horn) -> Iterator[Piece]:
    """Weigh the horn and its rivets; a torque tube has none."""
    if one.driven_by is DrivenBy.TORQUE_TUBE:
        return
    y = known(one.up, "horn.up")
    fix: Fixing = one.fixed_with
    rows, columns = _count(fix.fore_aft, "horn.fixed_with.fore_aft"), _count(fix.sideways, "horn.fixed_with.sideways")
    gap = known(fix.gap_fore_aft, "horn.fixed_with.gap_fore_aft")
    x = known(fix.first_behind, "horn.fixed_with.first_behind") + (rows - 1) * gap / 2.0
    each, source = one_rivet(surface, fix.rivet)
    yield at_point("rivets of the horn", each * rows * columns, x, y, source)
    t = known(one.plate.thickness, "horn.plate.thickness")
    rho, _ = density(surface, one.plate.alloy, "horn.plate.alloy")
    edge = known(fix.edge, "horn.fixed_with.edge")
    sideways = _pattern(columns, known(fix.gap_sideways, "horn.fixed_with.gap_sideways"), edge)
    plate = _pattern(rows, gap, edge) * sideways
    sides = 2.0 if one.side is Side.BOTH else 1.0
    reach = known(one.arm, "horn.arm") + known(one.plate.bolt_edge, "horn.plate.bolt_edge")
    arms = sides * known(one.plate.narrowest, "horn.plate.narrowest") * reach
    bolt = known(one.bolt_behind, "horn.bolt_behind")
    first = plate * x + arms * bolt
    yield at_point("horn", rho * t * (plate + arms), first / (plate + arms), y, _HORN)


def balance_mass(surface: Surface) -> Iterator[Piece]:
    """Give the balance mass its place; without one there is nothing."""
    one = surface.balance_mass
    if one.mass.absent:
        return
    mass = known(one.mass, "balance_mass.mass")
    x = -known(one.ahead, "balance_mass.ahead")
    yield at_point("balance mass", mass, x, known(one.up, "balance_mass.up"), one.mass.source)


def added(surface: Surface, lines: Lines) -> Iterator[Piece]:
    """Give each thing put on its place; one whose place along the pins is not given sits half way."""
    for number, one in enumerate(surface.weighed.added or (), start=1):
        key = f"weighed.added[{number}]"
        mass, x = known(one.mass, f"{key}.mass"), known(one.behind, f"{key}.behind")
        if one.up.known:
            y, source = known(one.up, f"{key}.up"), one.mass.source
        else:
            y, source = np.asarray((lines.y[..., 0] + lines.y[..., -1]) / 2.0), _SOMEWHERE
        yield at_point(one.what or f"thing {number} put on", mass, x, y, source)
