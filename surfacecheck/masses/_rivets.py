"""Mass of rivets: by the builder's scale, or by a formula for the kind."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace

import numpy as np

from surfacecheck.axes import side_by_side
from surfacecheck.masses._density import density
from surfacecheck.masses._outline import Lines
from surfacecheck.masses._parts import Array, Piece, Spread, Unknown, known, spread
from surfacecheck.masses._sheet import at_ribs, half_ellipse, rib_places
from surfacecheck.model import FlangesPoint, Rivet, RivetSet, Row, Surface
from surfacecheck.places import spread as spaced
from surfacecheck.provenance import UNKNOWN, Basis, Source, Value

__all__ = ["across", "mass_of", "one_rivet", "rivet_mass", "row", "solid_rivet"]

_PULLED_DIAMETER = np.array([3.2e-3, 4.0e-3, 4.8e-3])
_PULLED_MASS = np.array([0.40e-3, 0.65e-3, 1.1e-3])
_PULLED = Source(
    Basis.FROM_MEMORY, "aluminium body, steel stem, 8 to 10 mm long: 0.40, 0.65, 1.1 g at 3.2, 4.0, 4.8 mm; within 30 %"
)
_SOLID = Source(
    Basis.FROM_MEMORY, "round head of 0.717 D^3 and a shank twice the diameter long; within 10 % of a catalogue's count"
)


def solid_rivet(diameter: Array, length: Array, rho: float) -> Array:
    """Mass of a solid rivet with a universal head, m = rho (pi/4 D^2 L + 0.717 D^3).

    The head is taken as a cap of height 0.43 D and diameter 2 D; the nominal length counts, driving keeps the mass.

    Parameters
    ----------
    diameter : array_like
        [m].
    length : array_like
        Before driving [m].
    rho : float
        Density [kg/m^3].

    Returns
    -------
    ndarray
        [kg].

    References
    ----------
    Head proportions of MS20470 rivets, from memory.

    Examples
    --------
    >>> round(float(1e3 * solid_rivet(3.175e-3, 6.35e-3, 0.099 * 27679.9)), 3)  # 1/8 by 1/4 in, in grams
    0.201
    """
    d, length = np.asarray(diameter, dtype=np.float64), np.asarray(length, dtype=np.float64)
    cap = math.pi * 0.43 * (3.0 + 0.43**2) / 6.0
    return np.asarray(rho * (math.pi / 4.0 * d**2 * length + cap * d**3))


def one_rivet(surface: Surface, name: str) -> tuple[Array, Source]:
    """Mass of one rivet of a kind, weighed or by formula.

    Parameters
    ----------
    surface : Surface
        For its rivets and metals.
    name : str
        Name of the rivet in the file.

    Returns
    -------
    mass : ndarray, shape (...)
        [kg].
    source : Source
        The builder's scale, or the formula and how sure it is.
    """
    kind: Rivet | None = surface.rivets.get(name)
    if kind is None:
        raise Unknown(key=f"rivet.{name}" if name else "rivet")
    return mass_of(surface, kind)


def mass_of(surface: Surface, kind: Rivet) -> tuple[Array, Source]:
    """Mass of one rivet, weighed or by formula.

    Parameters
    ----------
    surface : Surface
        For its metals.
    kind : Rivet
        From the file, or an option.

    Returns
    -------
    mass : ndarray, shape (...)
        [kg].
    source : Source
        The builder's scale, or the formula and how sure it is.

    Raises
    ------
    Unknown
        Where it is not weighed, and its diameter, its metal's density, or how it is set is not known; names the key.
    """
    name = kind.name
    if kind.one_weighs.si is not None:
        return np.asarray(kind.one_weighs.si, dtype=np.float64), kind.one_weighs.source
    d = known(kind.diameter, f"rivet.{name}.diameter")
    if kind.set is RivetSet.SOLID:
        rho, _ = density(surface, kind.alloy or "2117", f"rivet.{name}.alloy")
        return solid_rivet(d, 2.0 * d, rho), _SOLID
    if kind.set is RivetSet.PULLED:
        scale = (d / np.clip(d, _PULLED_DIAMETER[0], _PULLED_DIAMETER[-1])) ** 3
        return np.asarray(np.interp(d, _PULLED_DIAMETER, _PULLED_MASS) * scale), _PULLED
    raise Unknown(key=f"rivet.{name}.set")


def rivet_mass(surface: Surface, name: str) -> Value:
    """Mass of one rivet of a kind as a value: not known, and by which key, instead of a signal.

    Parameters
    ----------
    surface : Surface
        For its rivets and metals.
    name : str
        Name of the rivet in the file.

    Returns
    -------
    Value
        [kg]; with the key that hides it where it is not known.
    """
    try:
        mass, source = one_rivet(surface, name)
    except Unknown as missing:
        return replace(UNKNOWN, key=missing.key)
    return Value(mass if mass.ndim else float(mass), "", source, f"rivet.{name}.one_weighs")


def _number(length: Array, one: Row, key: str, ribs: bool = False) -> Array:
    """Count the rivets of a length, or of a length on each rib, (..., R)."""
    if one.count is not None:
        return np.asarray(float(one.count))
    pitch = known(one.pitch, f"{key}.pitch")
    return np.asarray(spaced(length, pitch[..., None] if ribs else pitch)[0], dtype=np.float64)


def row(surface: Surface, lines: Lines, name: str, one: Row) -> Iterator[Piece]:
    """Weigh the rivets of a row, spread between its ends or sitting at each rib."""
    each, source = one_rivet(surface, one.rivet)
    each = each * float(one.lines or 1)
    if "ribs" in one.joins:
        yield from _on_ribs(surface, lines, name, one, each, source)
        return
    key = f"row.{name}"
    start, to = known(one.start, f"{key}.from"), known(one.to, f"{key}.to")
    mass = each * _number(to - start, one, key)
    ends = side_by_side(start, to)
    x = side_by_side(across(surface, lines, one, start), across(surface, lines, one, to))
    running = np.asarray(mass / (to - start))[..., None, None, None]

    def law(at: Array) -> tuple[Array, Array]:
        return running * np.ones_like(at), running * at

    yield spread(f"row {name}", Spread(ends, (x,), law), source)


def across(surface: Surface, lines: Lines, one: Row, y: Array) -> Array:
    """Place of a row along the pins aft of them [m]."""
    web = lines.at("web_behind", y)
    skins = [part for part in one.joins if part.endswith("skin") or part in {"left_skin", "right_skin"}]
    if "spar" in one.joins and skins:
        aft = -1.0 if surface.sheet.spar.flanges_point is FlangesPoint.AHEAD else 1.0
        return np.asarray(web + aft * known(surface.sheet.spar.flange, "sheet.spar.flange") / 2.0)
    if "spar" in one.joins:
        return web
    lap = np.asarray(0.0 if surface.outline.lap.si is None else surface.outline.lap.si, dtype=np.float64)
    return np.asarray(lines.at("edge_behind", y) - lap / 2.0)


def _on_ribs(surface: Surface, lines: Lines, name: str, one: Row, each: Array, source: Source) -> Iterator[Piece]:
    if not surface.sheet.ribs.up:
        raise Unknown(key="sheet.ribs.up")
    key = f"row.{name}"
    y = rib_places(surface.sheet.ribs)
    web = lines.along("web_behind", y)
    if "spar" in one.joins:
        count, x = _number(np.zeros(1), one, key, ribs=True), web
    elif "nose_skin" in one.joins:
        a = lines.along("nose_ahead", y) + web
        around, centre = half_ellipse(a, lines.along("spar_depth", y) / 2.0)
        count, x = _number(around, one, key, ribs=True), web - centre
    else:
        first = web + known(one.first_behind_web, f"{key}.first_behind_web")[..., None]
        last = lines.along("edge_behind", y) - known(one.last_before_edge, f"{key}.last_before_edge")[..., None]
        count, x = _number(last - first, one, key, ribs=True), (first + last) / 2.0
    yield from at_ribs(f"row {name}, rib {{}}", each[..., None] * count, x, y, source)
