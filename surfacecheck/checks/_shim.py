"""A shim between the sheets of a row: its load passes at a distance, and the rivets are pulled for it."""

from __future__ import annotations

from dataclasses import replace
from functools import reduce
from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.places import edge_of
from surfacecheck.provenance import over_spots

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from surfacecheck.checks._row_load import RowLoad

    Array = NDArray[np.float64]

__all__ = ["shimmed"]

SHIMMED = (
    "shim: load times its thickness turns the sheets, held by the rivet's pull and the contact at the sheet's edge, "
    "the least edge distance away (common practice)"
)


def shimmed(load: RowLoad) -> RowLoad:
    """Add the pull that a shim brings to the rivets of its row.

    ``T = S t / e``: the moment of the shear over the thickness t of the shim, borne as a pair of the rivet's pull and
    the contact at the edge e of the sheet.

    Parameters
    ----------
    load : RowLoad
        Of a row.

    Returns
    -------
    RowLoad
        The same where it has no shim.

    References
    ----------
    Balance of the sheet between rivet and edge; common practice.
    """
    surface, row = load.effects.surface, load.row
    whole = surface.apart.get(f"row.{row.name}")
    rivet = surface.rivets.get(row.rivet)
    if whole is None or not whole.shim.known or rivet is None or not rivet.diameter.known:
        return load
    edges = [over_spots(edge) for name in row.joins if (edge := edge_of(surface, row, name)).known]
    arm: Array = reduce(np.minimum, edges) if edges else 2.0 * over_spots(rivet.diameter)
    pull = load.tension + load.shear * over_spots(whole.shim) / arm
    return replace(load, tension=pull, notes=(*load.notes, SHIMMED))
