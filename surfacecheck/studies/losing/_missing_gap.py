"""The sheet at a gap of a row, and what else carries its load."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.checks import node_stress, row_kind, sides_on
from surfacecheck.library import metal_of
from surfacecheck.model import HeadKind, RivetSet
from surfacecheck.provenance import plain
from surfacecheck.strength import FIXITY, FIXITY_SOURCE, inter_rivet

if TYPE_CHECKING:
    from collections.abc import Iterator

    from numpy.typing import NDArray

    from surfacecheck.assessment import Assessment
    from surfacecheck.checks import Finding, RowLoad
    from surfacecheck.model import Row
    from surfacecheck.provenance import Source
    from surfacecheck.studies.losing._row_lines import RowLine

__all__ = ["Gap", "OtherPath", "gaps_of", "other_paths"]


@dataclass(frozen=True, slots=True)
class Gap:
    """A stretch without a rivet.

    Attributes
    ----------
    before, after : int or None
        Numbers of the rivets at its ends; None where it reaches the end of the row.
    length, pitch : float
        Free length, and that between rivets as drawn [m].
    sheet : str
        The sheet that is looked at, in words.
    buckles, drawn : float or None
        Compression at which it buckles between the rivets at the gap, and as drawn [Pa]; None where metal or thickness
        are not known.
    pressed : float or None
        Compression of the sheet there at limit [Pa]; None where this row is not one along the spar.
    source : Source or None
        Of the end fixity.
    """

    before: int | None
    after: int | None
    length: float
    pitch: float
    sheet: str
    buckles: float | None
    drawn: float | None
    pressed: float | None
    source: Source | None = None

    @property
    def ratio(self) -> float:
        """Buckling stress at the gap over that as drawn [-]."""
        return (self.pitch / self.length) ** 2

    @property
    def share(self) -> float | None:
        """Multiple of limit load at which the sheet buckles at the gap [-]; None where it is not pressed."""
        return self.buckles / self.pressed if self.buckles is not None and self.pressed else None


@dataclass(frozen=True, slots=True)
class OtherPath:
    """Another way for the load of a gap.

    Attributes
    ----------
    words : str
        From where to where.
    rows : tuple of str
        Rows it would go through.
    lowest : Finding or None
        The lowest margin of these rows as drawn; None where none is known.
    """

    words: str
    rows: tuple[str, ...]
    lowest: Finding | None


def gaps_of(assessment: Assessment, line: RowLine, there: NDArray[np.intp]) -> Iterator[Gap]:
    """Find every stretch without a rivet.

    Parameters
    ----------
    assessment : Assessment
        As drawn.
    line : RowLine
        The line.
    there : ndarray of int, shape (R,)
        Rivets left at each place.

    Yields
    ------
    Gap
        In the order of the line; none where another line still has a rivet at the place.
    """
    if line.evenly:
        return
    left = np.flatnonzero(there > 0)
    ends = [-1, *left.tolist(), there.size]
    for low, high in pairwise(ends):
        if high - low > 1 and not (low < 0 and high == there.size):
            yield _gap(assessment, line, low, high)


def _gap(assessment: Assessment, line: RowLine, low: int, high: int) -> Gap:
    inner = low >= 0 and high < line.count
    length = (high - low) * line.pitch if inner else (high - low - 0.5) * line.pitch
    surface, load = assessment.surface, line.load
    name = _sheet_of(load)
    part = surface.sheet.doublers.get(name) or getattr(surface.sheet, name)
    rivet = surface.rivets.get(load.row.rivet)
    metal = metal_of(surface, part.alloy, part.thickness)
    modulus = metal.modulus_compression if metal.modulus_compression.known else metal.modulus
    buckles = drawn = source = None
    if inner and rivet is not None and modulus.known and part.thickness.known and not part.thickness.absent:
        kind = "blind" if rivet.set is not RivetSet.SOLID else "protruding"
        kind = kind if rivet.head_kind in {None, HeadKind.PROTRUDING} else "countersunk"
        c, E, t, source = FIXITY[kind], plain(modulus), plain(part.thickness), FIXITY_SOURCE[kind]
        buckles, drawn = (float(inter_rivet(c, E, t, p)) for p in (length, line.pitch))
    return Gap(
        int(line.numbers[0, low]) if low >= 0 else None,
        int(line.numbers[0, high]) if high < line.count else None,
        length,
        line.pitch,
        surface.said(name).replace("_", " "),
        buckles,
        drawn,
        _pressed(assessment, line, low, high) if inner else None,
        source,
    )


def _sheet_of(load: RowLoad) -> str:
    """Name the sheet under the head that is not the spar or a rib."""
    loose = [name for name in load.row.joins if name not in {"spar", "ribs"}]
    return loose[0] if loose else load.row.joins[0]


def _pressed(assessment: Assessment, line: RowLine, low: int, high: int) -> float | None:
    """Compression of the skin, shortened with the flange under it, at worst between the ends of the gap."""
    effects, surface = assessment.effects, assessment.surface
    if line.load.kind != "spar" or effects.box is None:
        return None
    name = _sheet_of(line.load)
    skin, spar = getattr(surface.sheet, name), surface.sheet.spar
    metal, base = metal_of(surface, skin.alloy, skin.thickness), metal_of(surface, spar.alloy, spar.thickness)
    if not (metal.modulus.known and base.modulus.known):
        return None
    y = effects.span.y
    here = (y >= line.up[low] - line.pitch) & (y <= line.up[high] + line.pitch)
    stress = node_stress(effects, f"corner_{sides_on(surface, line.load.row)[0]}")[:, here]
    return float(np.maximum(-stress, 0.0).max()) * plain(metal.modulus) / plain(base.modulus)


def other_paths(assessment: Assessment, load: RowLoad) -> tuple[OtherPath, ...]:
    """Name what else can carry the load of a gap.

    Parameters
    ----------
    assessment : Assessment
        As drawn.
    load : RowLoad
        The row.

    Returns
    -------
    tuple of OtherPath
        Empty where this method knows none.
    """
    skins = {name for name in load.row.joins if name.endswith("_skin") and name != "nose_skin"}
    kinds = {
        "spar": ("skin to rib, and the rib to the spar", ("rib", "rib-spar")),
        "rib": ("skin to spar and to the trailing edge, past the rib", ("spar", "edge")),
        "rib-spar": ("rib to skin, and the skin to the spar", ("rib", "spar")),
    }
    if load.kind not in kinds:
        return ()
    words, wanted = kinds[load.kind]
    rows = [row.row for row in assessment.rows if row.kind in wanted and row.row is not load.row]
    names = tuple(row.name for row in rows if _shares(row, skins, row_kind(assessment.surface, row)))
    if not names:
        return ()
    places = {f"row.{name}" for name in names}
    lowest = next((f for f in assessment.margins if f.check.place in places), None)
    return (OtherPath(words, names, lowest),)


def _shares(row: Row, skins: set[str], kind: str) -> bool:
    """Whether a row takes part in carrying what these skins bring."""
    return kind == "rib-spar" or not skins or bool(skins & set(row.joins))
