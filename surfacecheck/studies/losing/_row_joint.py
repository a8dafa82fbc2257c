"""The margins of rivets of a row, each at its own load."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.checks import Joint, Layer, edge_of, factors_of, joint_checks
from surfacecheck.library import metal_of
from surfacecheck.studies.losing._spot_margins import SpotMargins, spot_margins

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from surfacecheck.studies.losing._row_lines import RowLine

    Array = NDArray[np.float64]

__all__ = ["row_margins"]


def row_margins(
    line: RowLine,
    at: NDArray[np.intp],
    cases: NDArray[np.intp],
    shear: Array,
    pull: Array,
    layers: dict[str, Array],
    beside: NDArray[np.intp],
) -> SpotMargins:
    """Check rivets of a row, each in one load case.

    Parameters
    ----------
    line : RowLine
        For the row, and how far its sheets wrinkle.
    at : ndarray of int, shape (K,)
        Place of each along the line.
    cases : ndarray of int, shape (K,)
        Its load case.
    shear, pull : ndarray, shape (K,)
        Load of one rivet at limit [N].
    layers : dict of str to ndarray, shape (K,)
        What each sheet hands to it [N].
    beside : ndarray of int, shape (K,)
        Rivets left at its place, itself among them [-].

    Returns
    -------
    SpotMargins
        Of the K rivets.
    """
    load = line.load
    surface, row = load.effects.surface, load.row
    rivet = surface.rivets[row.rivet]
    names = load.cases
    joint = Joint(
        place=f"row.{row.name}",
        part=row.name.replace("_", " "),
        rivet=rivet,
        layers=tuple(
            Layer(
                name,
                surface.sheet_words(name),
                part.thickness,
                metal_of(surface, part.alloy, part.thickness),
                edge_of(surface, row, name),
                force[None, :],
            )
            for name, force in layers.items()
            for part in (surface.sheet.doublers.get(name) or getattr(surface.sheet, name),)
        ),
        shear=shear[None, :],
        tension=pull[None, :],
        cases=("",),
        spots=("",) * at.size,
        spot_cases=tuple(names[c] for c in cases),
        pitch=load.plan.pitch if load.kind in {"spar", "edge"} else None,
        wrinkle=None if line.wrinkle is None else line.wrinkle[cases, at][None, :],
        abreast=1 if line.abreast == 1 else beside[None, :].astype(np.float64),
    )
    return spot_margins(joint_checks(surface, joint, factors_of(surface, rivet)), at.size)
