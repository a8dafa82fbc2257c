"""Several rows taken together, each with an alternative of its own: least values and sums of their tables."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.masses import GRAVITY

if TYPE_CHECKING:
    from collections.abc import Sequence

    from numpy.typing import NDArray

    from surfacecheck.studies.bench._takeoff_basis import Work
    from surfacecheck.studies.riveting._rivets_row import RowTable

    Array = NDArray[np.float64]

__all__ = ["Together", "together"]


@dataclass(frozen=True, eq=False)
class Together:
    """Several rows taken together, V ways.

    Attributes
    ----------
    margin : ndarray, shape (V,)
        The lowest of the rows [-]; not a number where none is given, or one of them cannot be.
    row : ndarray of int, shape (V,)
        Which row that is.
    count : ndarray of int, shape (V,)
        Rivets.
    mass, moment : ndarray, shape (V,)
        Of the rivets, and what another sheet adds [kg]; about the pins, tail-heavy [N m].
    minutes : ndarray, shape (V,)
        Of drilling and setting these rows [min].
    known : ndarray of int, shape (V,)
        Strengths of the rivets that are given, of two for each row.
    broken : ndarray of int, shape (V,)
        Rules that are not met, counted row by row.
    possible : ndarray of bool, shape (V,)
        Whether every row can be.
    """

    margin: Array
    row: NDArray[np.intp]
    count: NDArray[np.intp]
    mass: Array
    moment: Array
    minutes: Array
    known: NDArray[np.intp]
    broken: NDArray[np.intp]
    possible: NDArray[np.bool_]


def together(rows: Sequence[RowTable], chosen: NDArray[np.intp], work: Work) -> Together:
    """Gather from the tables of the rows: the least margin, the sums of the rest.

    Parameters
    ----------
    rows : sequence of RowTable
        R of them.
    chosen : ndarray of int, shape (V, R)
        For every row which alternative [-].
    work : Work
        Minutes a hole and a rivet.

    Returns
    -------
    Together
        V ways.
    """
    at = list(zip(rows, chosen.T, strict=True))
    possible = np.logical_and.reduce([one.possible[i] for one, i in at])
    margins = np.stack([np.where(np.isnan(one.margin[i]), np.inf, one.margin[i]) for one, i in at])
    margin = margins.min(axis=0)
    masses = [one.mass[i] for one, i in at]
    return Together(
        margin=np.where(possible & np.isfinite(margin), margin, np.nan),
        row=margins.argmin(axis=0),
        count=np.add.reduce([one.total[i] for one, i in at]),
        mass=np.add.reduce(masses),
        moment=np.add.reduce([mass * one.arm[i] for mass, (one, i) in zip(masses, at, strict=True)]) * GRAVITY,
        minutes=np.add.reduce([work.hole * one.holes[i] + work.rivet * one.total[i] for one, i in at]),
        known=np.add.reduce([one.shear_known[i].astype(np.intp) + one.pull_known[i] for one, i in at]),
        broken=np.add.reduce([np.bitwise_count(one.not_met[i]).astype(np.intp) for one, i in at]),
        possible=possible,
    )
