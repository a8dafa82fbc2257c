"""The mass of the whole surface, its moment about the pins, and how it lies along them."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass

import numpy as np

from surfacecheck.masses import _fittings, _rivets, _sheet
from surfacecheck.masses._outline import Lines, lines_of
from surfacecheck.masses._parts import Array, LeftOut, Piece, Spread, Unknown, spread
from surfacecheck.model import Surface
from surfacecheck.provenance import Basis, Source

__all__ = ["GRAVITY", "Masses", "weigh"]

GRAVITY = 9.80665
"""Standard acceleration of gravity [m/s^2]: NIST Special Publication 811 (2008), appendix B.8."""

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
    left: list[LeftOut] = []
    try:
        lines = lines_of(surface)
    except Unknown as gap:
        left.append(LeftOut("everything", gap.key))
    else:
        for name, make in _makers(surface, lines):
            try:
                pieces.extend(make())
            except Unknown as gap:
                left.append(LeftOut(name, gap.key))
        if not pieces and surface.weighed.mass.si is not None and "edge_behind" in lines.given:
            pieces.append(_as_area(lines))
    return _whole(surface, tuple(pieces), tuple(left))


def _as_area(lines: Lines) -> Piece:
    """Spread a mass of which only the scale is known: one kilogram on each square metre, to be scaled."""
    pins = np.zeros_like(lines("edge_behind"))
    along = Spread(lines.y, (pins, lines("edge_behind"), pins), _sheet.strip_law(np.asarray(1.0), 1.0))
    source = Source(Basis.ASSUMED, "no part is known: spread as the area behind the pins")
    return spread("the weighed whole", along, source)


def _makers(surface: Surface, lines: Lines) -> Iterable[tuple[str, Callable[[], Iterable[Piece]]]]:
    sheet = surface.sheet

    def one(piece: Piece | None) -> tuple[Piece, ...]:
        return () if piece is None else (piece,)

    yield "left_skin", lambda: one(_sheet.skin(surface, lines, "left_skin", sheet.left_skin))
    yield "right_skin", lambda: one(_sheet.skin(surface, lines, "right_skin", sheet.right_skin))
    yield "nose_skin", lambda: tuple(_sheet.nose_skin(surface, lines))
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


def _whole(surface: Surface, pieces: tuple[Piece, ...], left: tuple[LeftOut, ...]) -> Masses:
    nought = np.asarray(0.0)
    mass = np.asarray(sum((piece.mass for piece in pieces), nought))
    first = np.asarray(sum((piece.first for piece in pieces), nought))
    skins = [piece for piece in pieces if piece.name in {"left_skin", "right_skin", "nose_skin"}]
    skin_mass = np.asarray(sum((piece.mass for piece in skins), nought))
    skin_first = np.asarray(sum((piece.first for piece in skins), nought))
    scales = surface.weighed
    total, moment = mass, first
    mass_source = first_source = _WORKED_OUT
    if scales.mass.si is not None:
        total, mass_source = np.asarray(scales.mass.si, dtype=np.float64), scales.mass.source
        moment = first * _over(total, mass)
    if scales.tail_push.si is not None and scales.push_behind.si is not None:
        push = np.asarray(scales.tail_push.si, dtype=np.float64) * np.asarray(scales.push_behind.si, dtype=np.float64)
        moment, first_source = push / GRAVITY, scales.tail_push.source
    paint = np.asarray(0.0 if scales.paint.si is None else scales.paint.si, dtype=np.float64)
    total = total + paint
    moment = moment + paint * _over(skin_first, skin_mass)
    return Masses(
        pieces, left, total, moment, mass_source, first_source, _over(total, mass), _over(moment, first), paint
    )


def _over(above: Array, below: Array) -> Array:
    some = np.asarray(below != 0.0)
    return np.asarray(np.where(some, above / np.where(some, below, 1.0), 1.0))
