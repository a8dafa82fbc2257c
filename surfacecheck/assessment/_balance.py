"""Mass and balance of an assessment, as a table and as a sentence."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Protocol

import numpy as np

from surfacecheck.masses import nose_arm
from surfacecheck.quantities import show, to_unit
from surfacecheck.tables import Table

if TYPE_CHECKING:
    from surfacecheck.assessment._result import Assessment
    from surfacecheck.masses import Masses
    from surfacecheck.model import Surface
    from surfacecheck.quantities import System

__all__ = ["balance_line", "mass_table"]


class _Weighed(Protocol):
    """Anything that was weighed."""

    @property
    def surface(self) -> Surface:
        """The surface."""
        ...

    @property
    def masses(self) -> Masses:
        """Mass of every part."""
        ...


def mass_table(assessment: _Weighed, system: System = "metric") -> Table:
    """Give the mass of every part and its moment about the pins.

    Parameters
    ----------
    assessment : Assessment
        Worked; or anything else with ``surface`` and ``masses``.
    system : {"metric", "inch"}
        Units.

    Returns
    -------
    Table
        A row a part, then the whole.
    """
    masses, surface = assessment.masses, assessment.surface
    unit = "g" if system == "metric" else "lb"

    def line(name: str, mass: float, first: float) -> tuple[str, str, str, str]:
        at = show(first / mass, "length", system) if mass else "-"
        moment = f"{first * 1e3:z.2f} kg mm" if system == "metric" else f"{to_unit(first, 'lb in'):z.3f} lb in"
        return name, f"{to_unit(mass, unit):z.{1 if system == 'metric' else 4}f} {unit}", at, moment

    parts: dict[str, list[float]] = {}
    for piece in masses.pieces:
        said = surface.said(piece.name) if piece.name in {"left_skin", "right_skin"} else piece.name
        name = re.sub(r",? ?rib [0-9]+$", "", said.replace("_", " ")) or "ribs"
        sums = parts.setdefault(name, [0.0, 0.0])
        sums[0] += float(np.mean(piece.mass))
        sums[1] += float(np.mean(piece.first))
    if np.any(masses.paint):
        parts["paint"] = [float(np.mean(masses.paint)), float(np.mean(masses.paint_first))]
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
    ahead = nose_arm(assessment.surface)
    if moment > 0.0 and ahead:
        nose = show(float(np.mean(masses.nose_mass(np.asarray(ahead)))), "mass", system)
        said.append(f"{nose} at the nose, {show(ahead, 'length', system)} ahead of the pins, would level it")
    if masses.left_out and not masses.known:
        said.append(f"without {', '.join(one.name.replace('_', ' ') for one in masses.left_out)}")
    return "; ".join(said)
