"""How soft the rivets of a row are by every published formula, and what the sheets on both sides stretch."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from surfacecheck.library import metal_of
from surfacecheck.model import RivetSet
from surfacecheck.provenance import Basis, Source, plain
from surfacecheck.strength.flexibility import FLEXIBILITY_SOURCES, flexibility_spread

if TYPE_CHECKING:
    from surfacecheck.checks import RowLoad
    from surfacecheck.model import Surface
    from surfacecheck.provenance import Value

__all__ = ["ONE_PITCH", "RowSprings", "springs_of"]

ONE_PITCH = Source(Basis.COMMON_PRACTICE, "the sheet stretches over a width of one pitch along the row")


@dataclass(frozen=True, slots=True)
class RowSprings:
    """How soft one rivet of a row is, and what the sheets on both sides of it stretch.

    Attributes
    ----------
    formulas : tuple of str
        Published formulas, as in ``FLEXIBILITY_SOURCES``.
    C : tuple of float
        Flexibility of one rivet by each [m/N].
    k_A, k_B : float
        E A / pitch of the outer sheet, and of the others together [N/m].
    notes : tuple of str
        What was taken for granted.
    """

    formulas: tuple[str, ...]
    C: tuple[float, ...]
    k_A: float
    k_B: float
    notes: tuple[str, ...]

    @property
    def sources(self) -> tuple[Source, ...]:
        """Where each formula was published."""
        return tuple(FLEXIBILITY_SOURCES[name] for name in self.formulas)


def springs_of(surface: Surface, load: RowLoad, kind: str = "") -> RowSprings | None:
    """Work out how soft the rivets of a row are by every published formula.

    Parameters
    ----------
    surface : Surface
        For sheets and rivets.
    load : RowLoad
        The row.
    kind : str
        Name of another kind of rivet, part D; that of the row where empty.

    Returns
    -------
    RowSprings or None
        None where the diameter, a sheet or its metal is not known.
    """
    rivet = surface.rivets.get(kind or load.row.rivet)
    sheets = [_sheet(surface, name) for name in load.row.joins]
    if rivet is None or not rivet.diameter.known or len(sheets) < 2 or any(one is None for one in sheets):
        return None
    (t_1, E_1), *others = [one for one in sheets if one is not None]
    t_2 = sum(t for t, _ in others)
    E_2 = sum(t * E for t, E in others) / t_2
    notes = [str(ONE_PITCH)]
    if len(others) > 1:
        notes.append("the sheets under the outer one are taken as one")
    own = metal_of(surface, rivet.alloy) if rivet.alloy in surface.alloys else None
    E_f = plain(own.modulus) if own is not None and own.modulus.known else E_1
    if own is None:
        notes.append("the metal of the rivet is taken as that of the outer sheet")
    if rivet.set is not RivetSet.SOLID:
        notes.append("none of the formulas was made for hollow rivets, which are softer")
    spread = flexibility_spread(t_1, t_2, plain(rivet.diameter), E_1, E_2, E_f)
    return RowSprings(spread.names, tuple(float(C) for C in spread.values), E_1 * t_1, E_2 * t_2, tuple(notes))


def _sheet(surface: Surface, name: str) -> tuple[float, float] | None:
    """Thickness and modulus of a sheet; None where one of them is not known."""
    part = surface.sheet.doublers.get(name) or getattr(surface.sheet, name)
    thickness: Value = part.thickness
    if not thickness.known or thickness.absent:
        return None
    metal = metal_of(surface, part.alloy, thickness)
    return (plain(thickness), plain(metal.modulus)) if metal.modulus.known else None
