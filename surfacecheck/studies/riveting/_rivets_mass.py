"""What the rivets of a row weigh, and how far behind the pins."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.masses import weigh
from surfacecheck.provenance import UNKNOWN, Value

if TYPE_CHECKING:
    from collections.abc import Sequence

    from numpy.typing import NDArray

    from surfacecheck.checks import RowPlan
    from surfacecheck.model import Row, Surface

    Array = NDArray[np.float64]

__all__ = ["arms_of"]

_ONE = Value(1.0, "1 kg")


def arms_of(surface: Surface, row: Row, plans: Sequence[RowPlan]) -> Array:
    """Give the centre of the rivets of a row in every layout.

    Parameters
    ----------
    surface : Surface
        For its outline.
    row : Row
        One of its rows.
    plans : sequence of RowPlan
        L layouts.

    Returns
    -------
    ndarray, shape (L,)
        Aft of the pins [m]; not a number where the outline is not known.
    """
    rivet = surface.rivets.get(row.rivet)
    if rivet is None:
        return np.full(len(plans), np.nan)
    on_ribs = "ribs" in row.joins
    single = replace(row, count=1 if on_ribs else 2, lines=1, pitch=UNKNOWN)
    rivets = {row.rivet: replace(rivet, one_weighs=_ONE)}
    pieces = weigh(replace(surface, rows={row.name: single}, rivets=surface.rivets | rivets)).pieces
    own = [piece for piece in pieces if piece.name.partition(",")[0] == f"row {row.name}"]
    if not own:
        return np.full(len(plans), np.nan)
    x = np.array([float(piece.first / piece.mass) for piece in own])
    if not on_ribs:
        return np.full(len(plans), x[0])
    each = np.array([plan.rib_count for plan in plans]).reshape(len(plans), len(own))
    return np.asarray((each * x).sum(axis=-1) / each.sum(axis=-1))
