"""Margins of rows on the ribs against the pitch, as if every rib had just that one: the curve of a picture."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.studies.riveting._rivets_load import front_of
from surfacecheck.studies.riveting._rivets_work import margins_of
from surfacecheck.studies.riveting._rivets_zero import at_pitch, longest

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from surfacecheck.studies.riveting._rivets_comparison import RivetComparison
    from surfacecheck.studies.riveting._rivets_row import RowTable

    Array = NDArray[np.float64]

__all__ = ["margins_at", "on_ribs"]


def on_ribs(comparison: RivetComparison) -> bool:
    """Tell whether a row lies on the ribs, each of which divides its own length."""
    return any(plan.rib_pitch.size for table in comparison.rows for plan in table.laid.plans)


def margins_at(comparison: RivetComparison, alternative: int, pitch: Array) -> Array:
    """Work what an alternative would carry at other pitches, every rib at just that one.

    Parameters
    ----------
    comparison : RivetComparison
        Worked.
    alternative : int
        One that can be [-].
    pitch : ndarray, shape (P,)
        Whether or not a rib can be divided by it; no longer than a row is taken [m].

    Returns
    -------
    ndarray, shape (P,)
        The lowest margin of all rows [-]; not a number where none is given. It is zero where the pitch for margin
        zero says.
    """
    found = np.stack([_of_row(comparison, table, alternative, pitch) for table in comparison.rows]).min(axis=0)
    return np.where(np.isinf(found), np.nan, found)


def _of_row(comparison: RivetComparison, table: RowTable, alternative: int, pitch: Array) -> Array:
    at = comparison.index(alternative)
    setting = table.blocks[at["sheet"], at["rivet"], at["head"]].setting
    plan = table.laid.plans[table.layout[alternative]]
    laid = [at_pitch(plan, min(float(one), longest(plan))) for one in pitch]
    assert setting is not None  # noqa: S101 - it can be
    front = front_of(comparison.sheets[at["sheet"]], setting.row, laid)
    assert front is not None  # noqa: S101 - it can be
    return margins_of(front, replace(setting, edges=(setting.edges[at["edge"]],))).lowest[:, 0]
