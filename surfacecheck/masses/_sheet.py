"""Mass of everything cut from sheet: skins, nose, spar, ribs, doublers."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from dataclasses import replace

import numpy as np

from surfacecheck.axes import side_by_side
from surfacecheck.masses._density import density
from surfacecheck.masses._outline import Lines
from surfacecheck.masses._parts import Array, Piece, Spread, Unknown, at_point, known, spread
from surfacecheck.model import Doubler, FlangesPoint, Ribs, Skin, Surface, YesNo
from surfacecheck.provenance import Basis, Source

__all__ = [
    "at_ribs",
    "channel",
    "doubler",
    "half_ellipse",
    "rib_places",
    "ribs",
    "skin",
    "skin_strip",
    "spar",
    "strip_law",
]

_FLAT = Source(Basis.WORKED_OUT, "developed sheet times thickness times density")
_NODES, _WEIGHTS = np.polynomial.legendre.leggauss(24)


def strip_law(thickness: Array, rho: float) -> Callable[..., tuple[Array, Array]]:
    """Law of a straight strip of sheet from one line to another.

    m' = rho t sqrt(c^2 + r^2), centre half way: c the chord between the lines, r how far it rises.

    Parameters
    ----------
    thickness : ndarray, shape (...)
        Sheet [m].
    rho : float
        Density [kg/m^3].

    Returns
    -------
    callable
        Takes front, rear and rise at points [m]; gives running mass [kg/m] and running first moment [kg].
    """
    t = np.asarray(thickness, dtype=np.float64)[..., None, None, None]

    def law(front: Array, edge: Array, rise: Array) -> tuple[Array, Array]:
        mass = rho * t * np.hypot(edge - front, rise)
        return mass, mass * (front + edge) / 2.0

    return law


def half_ellipse(a: Array, b: Array) -> tuple[Array, Array]:
    """Length of half an ellipse, and its centre ahead of its flat side.

    Parameters
    ----------
    a : ndarray
        Depth ahead of the flat side [m].
    b : ndarray
        Half the flat side [m].

    Returns
    -------
    length : ndarray
        Round the nose, from corner to corner [m].
    centre : ndarray
        Ahead of the flat side [m].

    Examples
    --------
    >>> [float(v) for v in half_ellipse(np.array(1.0), np.array(1.0))]  # half a circle: pi and 2/pi
    [3.14159, 0.63662]
    """
    angle = math.pi / 4.0 * (1.0 + _NODES)
    weight = math.pi / 4.0 * _WEIGHTS
    step = np.hypot(a[..., None] * np.sin(angle), b[..., None] * np.cos(angle)) * weight
    length = np.sum(step, axis=-1)
    centre = np.sum(step * a[..., None] * np.cos(angle), axis=-1) / np.where(length > 0.0, length, 1.0)
    return np.asarray(2.0 * length), np.asarray(centre)


def channel(depth: Array, thickness: Array, flange: Array, radius: Array, lip: Array) -> tuple[Array, Array]:
    """Developed width of a formed channel, and its centre from the outside of the web.

    Flats plus bends along the middle of the sheet, pi/2 (r + t/2) each, which keeps the volume exactly.

    Parameters
    ----------
    depth : ndarray
        Over the flanges [m].
    thickness, flange, radius, lip : ndarray
        Sheet; outside of web to free edge; inside of the bends; height of the lip, 0 for none [m].

    Returns
    -------
    width : ndarray
        Developed [m].
    centre : ndarray
        Towards the free edges, from the outside of the web [m].

    Examples
    --------
    >>> w, c = channel(np.array(0.040), np.array(1e-9), np.array(0.016), np.array(0.0), np.array(0.0))
    >>> round(float(w), 6), round(float(c), 6)  # 2 x 16 x 8 / 72
    (0.072, 0.003556)
    """
    corner = radius + thickness
    bend = math.pi / 2.0 * (radius + thickness / 2.0)
    in_bend = corner - 2.0 / math.pi * (radius + thickness / 2.0)
    lipped = lip > 0.0
    web = depth - 2.0 * corner
    flat = flange - corner * np.where(lipped, 2.0, 1.0)
    stub = np.where(lipped, lip - corner, 0.0)
    pieces = (
        (web, thickness / 2.0),
        (2.0 * bend, in_bend),
        (2.0 * flat, corner + flat / 2.0),
        (np.where(lipped, 2.0 * bend, 0.0), flange - in_bend),
        (2.0 * stub, flange - thickness / 2.0),
    )
    width = sum((length for length, _ in pieces), np.zeros(()))
    return np.asarray(width), np.asarray(sum((length * x for length, x in pieces), np.zeros(())) / width)


def skin(surface: Surface, lines: Lines, name: str, part: Skin) -> Piece | None:
    """Weigh one skin, from the web to the trailing edge."""
    key = f"sheet.{name}"
    if part.thickness.absent:
        return None
    t = known(part.thickness, f"{key}.thickness")
    rho, _ = density(surface, part.alloy, f"{key}.alloy")
    return spread(name, skin_strip(lines, strip_law(t, rho)), _FLAT)


def skin_strip(lines: Lines, law: Callable[..., tuple[Array, Array]]) -> Spread:
    """Lay a strip from the web to the trailing edge, along the slope."""
    across = (lines("web_behind"), lines("edge_behind"), lines("spar_depth") / 2.0)
    return Spread(lines.y, across, law, lambda front, edge, _: (edge - front) ** 2 / 12.0)


def spar(surface: Surface, lines: Lines) -> Iterator[Piece]:
    """Weigh the channel, and take off the holes in its web."""
    part = surface.sheet.spar
    t = known(part.thickness, "sheet.spar.thickness")
    rho, _ = density(surface, part.alloy, "sheet.spar.alloy")
    flange, radius = known(part.flange, "sheet.spar.flange"), known(part.bend_inside, "sheet.spar.bend_inside")
    lip = known(part.lip, "sheet.spar.lip")
    if part.flanges_point is None:
        raise Unknown(key="sheet.spar.flanges_point")
    aft = 1.0 if part.flanges_point is FlangesPoint.BEHIND else -1.0
    tt, ff, rr, ll = (np.asarray(v)[..., None, None, None] for v in (t, flange, radius, lip))

    def law(depth: Array, web: Array) -> tuple[Array, Array]:
        width, centre = channel(depth, tt, ff, rr, ll)
        mass = rho * tt * width
        return mass, mass * (web + aft * (centre - tt / 2.0))

    yield spread("spar", Spread(lines.y, (lines("spar_depth"), lines("web_behind")), law), _FLAT)
    for number, hole in enumerate(part.holes or (), start=1):
        across = known(hole.across, f"sheet.spar.holes[{number}].across")
        y = known(hole.up, f"sheet.spar.holes[{number}].up")
        mass = -rho * t * math.pi / 4.0 * across**2
        yield at_point(f"spar hole {number}", mass, lines.at("web_behind", y), y, _FLAT)


def ribs(surface: Surface, lines: Lines) -> Iterator[Piece]:
    """Weigh each rib: a wedge behind the web, half an ellipse ahead of it, flanges round both."""
    part = surface.sheet.ribs
    if not part.up:
        raise Unknown(key="sheet.ribs.up")
    t = known(part.thickness, "sheet.ribs.thickness")
    rho, _ = density(surface, part.alloy, "sheet.ribs.alloy")
    flange, radius = known(part.flange, "sheet.ribs.flange"), known(part.bend_inside, "sheet.ribs.bend_inside")
    rim = math.pi / 2.0 * (radius + t / 2.0) + flange - 2.0 * (radius + t)  # flange gained less web lost, each side
    holes = [
        (known(hole.behind, f"sheet.ribs.holes[{i}].behind"), known(hole.across, f"sheet.ribs.holes[{i}].across"))
        for i, hole in enumerate(part.holes or (), start=1)
    ]
    y = rib_places(part)
    web, chord = lines.along("web_behind", y), lines.along("edge_behind", y) - lines.along("web_behind", y)
    depth, rim, sheet = lines.along("spar_depth", y), rim[..., None], np.asarray(rho * t)[..., None]
    side = np.hypot(chord, depth / 2.0)
    shapes = [  # area, its centre behind the pins, square of its own radius of gyration
        (chord * depth / 2.0, web + chord / 3.0, chord**2 / 18.0),
        (2.0 * rim * side, web + chord / 2.0, chord**2 / 12.0),
    ]
    if part.in_nose is not YesNo.NO:
        a = lines.along("nose_ahead", y) + web
        around, centre = half_ellipse(a, depth / 2.0)
        own = a**2 * (0.25 - 16.0 / (9.0 * math.pi**2))
        shapes.append((math.pi / 4.0 * a * depth, web - 4.0 * a / (3.0 * math.pi), own))
        shapes.append((rim * around, web - centre, 0.0 * a))
    for behind, across in holes:
        hole = (math.pi / 4.0 * across**2)[..., None]
        shapes.append((-hole, behind[..., None] + 0.0 * hole, 0.0 * hole))
    moments = zip(*((area, area * x, area * (x**2 + own)) for area, x, own in shapes), strict=True)
    area, first, second = (sum(terms, np.zeros(())) for terms in moments)
    yield from at_ribs("rib {}", sheet * area, first / area, y, _FLAT, sheet * (second - first**2 / area))


def rib_places(part: Ribs) -> Array:
    """Place of every rib, shape (..., R) [m]."""
    places = [known(up, f"sheet.ribs.up[{number}]") for number, up in enumerate(part.up, start=1)]
    return side_by_side(*places)


def at_ribs(name: str, mass: Array, x: Array, y: Array, source: Source, own: Array | float = 0.0) -> Iterator[Piece]:
    """Make a piece at each rib, its number put into the name."""
    mass, x, y, own = np.broadcast_arrays(mass, x, y, own)
    for i in range(y.shape[-1]):
        piece = at_point(name.format(i + 1), mass[..., i], x[..., i], y[..., i], source)
        yield replace(piece, own=np.asarray(own[..., i]))


_PLACE = {"spar web": 0.0, "spar flange": 0.5}


def doubler(surface: Surface, lines: Lines, name: str, part: Doubler) -> Piece:
    """Weigh a doubler, two of them on the flanges; one on a skin is taken to lie with its front edge at the web."""
    key = f"sheet.{name}"
    t, wide = known(part.thickness, f"{key}.thickness"), known(part.wide, f"{key}.wide")
    rho, _ = density(surface, part.alloy, f"{key}.alloy")
    start, to = known(part.start, f"{key}.from"), known(part.to, f"{key}.to")
    if not part.on:
        raise Unknown(key=f"{key}.on")
    aft = -1.0 if surface.sheet.spar.flanges_point is FlangesPoint.AHEAD and part.on in _PLACE else 1.0
    offset = aft * _PLACE.get(part.on, 0.5) * wide
    ends = side_by_side(start, to)
    x = side_by_side(lines.at("web_behind", start), lines.at("web_behind", to))
    flanges = part.on == "spar flange"  # as the sections have it: one on each
    sheet = np.asarray((2.0 if flanges else 1.0) * rho * t * wide)[..., None, None, None]
    shift = np.asarray(offset)[..., None, None, None]

    def law(web: Array) -> tuple[Array, Array]:
        mass = sheet * np.ones_like(web)
        return mass, mass * (web + shift)

    where = "both flanges, alike" if flanges else part.on
    source = _FLAT if part.on == "spar web" else Source(Basis.ASSUMED, f"on {where}, its front edge at the web")
    return spread(name, Spread(ends, (x,), law), source)
