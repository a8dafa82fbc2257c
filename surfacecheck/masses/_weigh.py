"""The mass of the whole surface, its moment about the pins, and how it lies along them."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass, field

import numpy as np

from surfacecheck.axes import variant_of
from surfacecheck.errors import SurfaceError
from surfacecheck.masses import _apart, _fittings, _nose, _rivets, _sheet
from surfacecheck.masses._outline import Lines, lines_of
from surfacecheck.masses._paint import painted, refuse_heavy_paint
from surfacecheck.masses._parts import Array, LeftOut, Piece, Spread, Unknown, over, spread
from surfacecheck.masses._scales import read_scales
from surfacecheck.model import Surface
from surfacecheck.provenance import Basis, Source

__all__ = ["GRAVITY", "Masses", "weigh"]

GRAVITY = 9.80665
"""Standard acceleration of gravity [m/s^2]: NIST Special Publication 811 (2008), appendix B.8."""

WHOLE = "the weighed whole"
"""Name of the area that stands for all parts where only the scale is known."""
_WORKED_OUT = Source(Basis.WORKED_OUT, "sum of the parts in the file")


@dataclass(frozen=True, slots=True, eq=False)
class Masses:
    """What every part weighs, and the whole.

    Attributes
    ----------
    pieces : tuple of Piece
        Parts that could be weighed.
    left_out : tuple of LeftOut
        Parts that could not, each with the key that hides it.
    mass : ndarray, shape (...)
        The whole: from the scale if given, else the sum of the pieces [kg].
    first : ndarray, shape (...)
        Mass times distance aft of the pins [kg m].
    mass_source, first_source : Source
        Whether the scale or the sum gave them.
    mass_scale, first_scale : ndarray, shape (...)
        What the pieces are multiplied by to give the whole [-].
    paint : ndarray, shape (...)
        Paint added to what was weighed, its centre that of the skins [kg].
    added : tuple of Piece
        Those of the pieces that were put on since it was weighed.
    paint_first : ndarray, shape (...)
        Paint times distance aft of the pins [kg m].
    """

    pieces: tuple[Piece, ...]
    left_out: tuple[LeftOut, ...]
    mass: Array
    first: Array
    mass_source: Source
    first_source: Source
    mass_scale: Array
    first_scale: Array
    paint: Array
    added: tuple[Piece, ...] = ()
    paint_first: Array = field(default_factory=lambda: np.asarray(0.0))

    @property
    def known(self) -> bool:
        """Whether the whole mass is known and lies somewhere: weighed, or no part left out."""
        return bool(self.pieces) and (self.mass_source is not _WORKED_OUT or not self.left_out)

    @property
    def x(self) -> Array:
        """Centre of gravity aft of the pins, shape (...) [m]; 0 while nothing is known."""
        some = self.mass != 0.0
        return np.asarray(np.where(some, self.first / np.where(some, self.mass, 1.0), 0.0))

    @property
    def moment(self) -> Array:
        """Tail-heavy moment about the pins, level, shape (...) [N m]; negative is nose-heavy."""
        return np.asarray(self.first * GRAVITY)

    @property
    def second(self) -> Array:
        """Second moment of the mass about the pins, shape (...) [kg m^2].

        An estimate: of skins and ribs with their own width, of the rest at its centre, all made as heavy as the whole.
        """
        nought = np.asarray(0.0)
        return np.asarray(sum((piece.second for piece in self.pieces), nought) * self.mass_scale)

    def whole(self, variant: int = 0) -> tuple[float | None, float | None]:
        """Give the mass and the tail-heavy moment of one surface.

        Parameters
        ----------
        variant : int
            Which of a stack [-].

        Returns
        -------
        mass : float or None
            [kg]; None while nothing is known.
        moment : float or None
            [N m]; None while no part could be weighed.
        """
        mass, moment = (float(variant_of(one, variant, 0)) for one in (self.mass, self.moment))
        return mass or None, moment if self.pieces else None

    def nose_mass(self, ahead: Array) -> Array:
        """Mass at the nose that would level the surface on its pins.

        m = moment / (g a)

        Parameters
        ----------
        ahead : ndarray, shape (...)
            Its centre ahead of the pins [m].

        Returns
        -------
        ndarray, shape (...)
            [kg]; 0 where the surface is nose-heavy already.
        """
        return np.asarray(np.maximum(self.first, 0.0) / ahead)

    def between(self, breaks: Array) -> tuple[Array, Array]:
        """Spread masses in the bays of a beam; the end bays take what lies beyond them.

        Parameters
        ----------
        breaks : ndarray, shape (..., B)
            Rising [m].

        Returns
        -------
        mass : ndarray, shape (..., B - 1)
            [kg].
        first : ndarray, shape (..., B - 1)
            Mass times distance aft of the pins [kg m].
        """
        low = np.concatenate([np.full_like(breaks[..., :1], -np.inf), breaks[..., 1:-1]], axis=-1)
        high = np.concatenate([breaks[..., 1:-1], np.full_like(breaks[..., :1], np.inf)], axis=-1)
        mass, first = np.zeros_like(low), np.zeros_like(low)
        for piece in self.pieces:
            if piece.along is not None:
                more = piece.along.between(low, high)
                mass, first = mass + more[0], first + more[1]
        return mass * self.mass_scale[..., None], first * self.first_scale[..., None]

    def points(self) -> tuple[tuple[Array, Array, Array], ...]:
        """Pieces at one place: (y [m], mass [kg], mass times distance aft [kg m]), each shape (...)."""
        return tuple(
            (piece.y, piece.mass * self.mass_scale, piece.first * self.first_scale)
            for piece in self.pieces
            if piece.along is None
        )


def weigh(surface: Surface) -> Masses:
    """Weigh every part that the file describes well enough.

    A weighed mass or moment (part G) takes the place of the sum; the pieces are then scaled to it. Paint that was
    not on is added where the skins are.

    Parameters
    ----------
    surface : Surface
        The surface.

    Returns
    -------
    Masses
        With the parts that had to be left out.
    """
    pieces: list[Piece] = []
    added: list[Piece] = []
    left: list[LeftOut] = []
    try:
        lines = lines_of(surface)
    except Unknown as gap:
        left.append(LeftOut("everything", surface.in_file(gap.key)))
    else:
        for name, make in _makers(surface, lines):
            try:
                pieces.extend(make())
            except Unknown as gap:
                left.append(LeftOut(name, surface.in_file(gap.key)))
        if not pieces and surface.weighed.mass.si is not None and "edge_behind" in lines.given:
            pieces.append(_as_area(lines))
        try:
            added.extend(_fittings.added(surface, lines))
        except Unknown as gap:
            left.append(LeftOut("things put on", surface.in_file(gap.key)))
    return _whole(surface, tuple(pieces), tuple(added), tuple(left))


def _as_area(lines: Lines) -> Piece:
    """Spread a mass of which only the scale is known: one kilogram on each square metre, to be scaled."""
    pins = np.zeros_like(lines("edge_behind"))
    along = Spread(lines.y, (pins, lines("edge_behind"), pins), _sheet.strip_law(np.asarray(1.0), 1.0))
    source = Source(Basis.ASSUMED, "no part is known: spread as the area behind the pins")
    return spread(WHOLE, along, source)


def _makers(surface: Surface, lines: Lines) -> Iterable[tuple[str, Callable[[], Iterable[Piece]]]]:
    sheet = surface.sheet

    def one(piece: Piece | None) -> tuple[Piece, ...]:
        return () if piece is None else (piece,)

    yield "left_skin", lambda: one(_sheet.skin(surface, lines, "left_skin", sheet.left_skin))
    yield "right_skin", lambda: one(_sheet.skin(surface, lines, "right_skin", sheet.right_skin))
    yield "nose_skin", lambda: tuple(_nose.nose_skin(surface, lines))
    yield "spar", lambda: tuple(_sheet.spar(surface, lines))
    yield "ribs", lambda: tuple(_sheet.ribs(surface, lines))
    for name, part in sheet.doublers.items():
        yield name, lambda name=name, part=part: one(_sheet.doubler(surface, lines, name, part))  # type: ignore[misc]
    for name, row in surface.rows.items():
        yield f"row {name}", lambda name=name, row=row: tuple(_rivets.row(surface, lines, name, row))  # type: ignore[misc]
    for name, hinge in surface.hinges.items():
        yield (
            f"{name} bracket",
            lambda name=name, hinge=hinge: tuple(_fittings.bracket(surface, lines, name, hinge)),  # type: ignore[misc]
        )
    if surface.horn is not None:
        horn = surface.horn
        yield "horn", lambda: tuple(_fittings.horn(surface, horn))
    yield "balance mass", lambda: tuple(_fittings.balance_mass(surface))
    yield "rivets that stand apart", lambda: tuple(_apart.apart(surface, lines))


def _whole(surface: Surface, parts: tuple[Piece, ...], added: tuple[Piece, ...], left: tuple[LeftOut, ...]) -> Masses:
    mass, first = _sums(parts)
    more, more_first = _sums(added)
    scales, readings = surface.weighed, read_scales(surface.weighed)
    total, moment = mass, first
    mass_source = first_source = _WORKED_OUT
    if scales.mass.si is not None:
        total, mass_source = np.asarray(scales.mass.si, dtype=np.float64), scales.mass.source
        moment = first * over(total, mass)
    if readings is not None:
        moment, first_source = readings.moment / GRAVITY, readings.source
    total, moment = total + more, moment + more_first
    paint, paint_first = _paint(surface, parts)
    if mass_source is not _WORKED_OUT or not left:
        refuse_heavy_paint(surface, paint, total)
    total, moment = total + paint, moment + paint_first
    scale, first_scale = over(total, mass + more), over(moment, first + more_first)
    every = (*parts, *added)
    return Masses(every, left, total, moment, mass_source, first_source, scale, first_scale, paint, added, paint_first)


def _sums(pieces: Iterable[Piece]) -> tuple[Array, Array]:
    """Mass and first moment of some pieces."""
    nought, every = np.asarray(0.0), tuple(pieces)
    return np.asarray(sum((one.mass for one in every), nought)), np.asarray(sum((one.first for one in every), nought))


def _paint(surface: Surface, parts: tuple[Piece, ...]) -> tuple[Array, Array]:
    """Mass and first moment of paint that was not on: as typed, where the skins are; and by area."""
    scales = surface.weighed
    typed = np.asarray(0.0 if scales.paint.si is None else scales.paint.si, dtype=np.float64)
    coat = np.asarray(0.0 if scales.paint_by_area.si is None else scales.paint_by_area.si, dtype=np.float64)
    skin, skin_first = _sums(one for one in parts if one.name in {"left_skin", "right_skin", "nose_skin"})
    if not coat.any() and (skin.all() or not typed.any()):
        return typed, np.asarray(typed * over(skin_first, skin))
    try:
        on = painted(surface)
    except SurfaceError:  # without an outline nobody knows how far behind the pins it is
        return typed, np.zeros_like(typed)
    first = typed * (over(skin_first, skin) if skin.all() else on.x) + coat * on.first
    return np.asarray(typed + coat * on.area), np.asarray(first)
