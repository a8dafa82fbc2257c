"""Mass and balance of an assessment, as a table and as a sentence."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.quantities import show, to_unit
from surfacecheck.tables import Table

if TYPE_CHECKING:
    from surfacecheck.assessment._result import Assessment
    from surfacecheck.quantities import System

__all__ = ["balance_line", "mass_table"]


def mass_table(assessment: Assessment, system: System = "metric") -> Table:
    """Give the mass of every part and its moment about the pins.

    Parameters
    ----------
    assessment : Assessment
        Worked.
    system : {"metric", "inch"}
        Units.

    Returns
    -------
    Table
        A row a part, then the whole.
    """
    masses = assessment.masses
    unit = "g" if system == "metric" else "lb"

    def line(name: str, mass: float, first: float) -> tuple[str, str, str, str]:
        at = show(first / mass, "length", system) if mass else "-"
        moment = f"{first * 1e3:z.2f} kg mm" if system == "metric" else f"{to_unit(first, 'lb in'):z.3f} lb in"
        return name, f"{to_unit(mass, unit):z.{1 if system == 'metric' else 4}f} {unit}", at, moment

    parts: dict[str, list[float]] = {}
    for piece in masses.pieces:
        name = re.sub(r",? ?rib [0-9]+$", "", piece.name.replace("_", " ")) or "ribs"
        sums = parts.setdefault(name, [0.0, 0.0])
        sums[0] += float(np.mean(piece.mass))
        sums[1] += float(np.mean(piece.first))
    whole = line(f"whole ({masses.mass_source.basis})", float(np.mean(masses.mass)), float(np.mean(masses.first)))
    left = ", ".join(f"{one.name} ({one.key})" for one in masses.left_out)
    note = f"not in the sum: {left}" if left else ""
    rows = (*(line(name, *sums) for name, sums in parts.items()), whole)
    return Table(("part", "mass", "behind the pins", "moment"), rows, caption="Mass", note=note)


def balance_line(assessment: Assessment, system: System = "metric") -> str:
    """Say mass, moment about the pins, and the nose mass that would level it.

    Parameters
    ----------
    assessment : Assessment
        Worked.
    system : {"metric", "inch"}
        Units.

    Returns
    -------
    str
        One sentence.
    """
    masses = assessment.masses
    mass, moment = float(np.mean(masses.mass)), float(np.mean(masses.moment))
    if mass == 0.0:
        return "not given: " + ", ".join(sorted({one.key for one in masses.left_out}))
    heavy = "tail-heavy" if moment > 0.0 else "nose-heavy"
    said = [f"{show(mass, 'mass', system)}, {show(abs(moment), 'torque', system)} {heavy}"]
    ahead = _ahead(assessment)
    if moment > 0.0 and ahead:
        nose = show(float(np.mean(masses.nose_mass(np.asarray(ahead)))), "mass", system)
        said.append(f"{nose} at the nose, {show(ahead, 'length', system)} ahead of the pins, would level it")
    if masses.left_out and not masses.known:
        said.append(f"without {', '.join(one.name.replace('_', ' ') for one in masses.left_out)}")
    return "; ".join(said)


def _ahead(assessment: Assessment) -> float:
    """Where a balance mass would sit: as given, else as far ahead as the nose goes everywhere."""
    given = assessment.surface.balance_mass.ahead
    if given.known:
        return float(np.min(given.si))  # type: ignore[arg-type]
    noses = [float(np.min(p.nose_ahead.si)) for p in assessment.surface.outline.places if p.nose_ahead.known]  # type: ignore[arg-type]
    return min(noses, default=0.0)
