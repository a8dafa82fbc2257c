"""What one rivet of a row carries, wherever along the row it sits."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.sections.box import sides_of

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from surfacecheck.checks._effects import Effects
    from surfacecheck.checks._names import Names
    from surfacecheck.model import Row, Surface
    from surfacecheck.places import RowPlan

    Array = NDArray[np.float64]

__all__ = ["ROUNDING", "RowLoad", "sides_on"]

ROUNDING = 1e-9
"""Share of the largest force at a pin or the horn in the same load case, below which a load is none [-].

Of one rivet [N] or of a metre of row [N/m]. A flow is a difference of sums over some hundred stations and walls: of a
flow that is nought they leave some thousand times the last digit of a number (2e-16), 1e-12 of the loads or less. What
a rivet really carries is far more: of 500 N a thousand-millionth is the weight of a twentieth of a milligram.
"""


@dataclass(frozen=True, eq=False)
class RowLoad:
    """Load of one rivet of a row, at every spot; what rounding alone leaves of a load is nought, see :data:`ROUNDING`.

    Attributes
    ----------
    row : Row
        From the file.
    kind : str
        ``spar``, ``edge``, ``rib``, ``rib-spar`` or ``doubler``.
    plan : RowPlan
        How its rivets are laid out: pitch, counts, ends.
    layers : dict of str to ndarray, shape (..., cases, spots)
        What each sheet hands to one rivet [N].
    shear, tension : ndarray, shape (..., cases, spots)
        Worst shear plane, and pull, of one rivet [N].
    wrinkle : ndarray, shape (..., cases, spots), or None
        Shear over shear at buckling, at limit [-]; None where no sheet that wrinkles ends here.
    effects : Effects
        The cases it was read from.
    spots : tuple of str
        Names of the spots.
    flow : ndarray, shape (..., cases, spots)
        Load a metre of row [N/m].
    notes : tuple of str
        Assumptions.
    wrinkles_at : ndarray, what broadcasts to (..., cases, spots), or None
        Shear flow at which that sheet wrinkles [N/m].
    """

    row: Row
    kind: str
    plan: RowPlan
    layers: dict[str, Array]
    shear: Array
    tension: Array
    wrinkle: Array | None
    effects: Effects
    spots: Names
    flow: Array
    notes: tuple[str, ...] = ()
    wrinkles_at: Array | None = None

    def __post_init__(self) -> None:
        least = ROUNDING * self.effects.largest
        given = {name: getattr(self, name) for name in ("shear", "tension", "flow")}
        every = {
            id(one): one for one in (*given.values(), *self.layers.values())
        }  # a sheet may carry what the rivet does
        cleared = {at: _cleared(one, least) for at, one in every.items()}
        for name, one in given.items():
            object.__setattr__(self, name, cleared[id(one)])
        object.__setattr__(self, "layers", {name: cleared[id(one)] for name, one in self.layers.items()})

    @property
    def cases(self) -> tuple[str, ...]:
        """Names along the case axis."""
        return self.effects.flow_cases


def _cleared(values: Array, least: Array) -> Array:
    """Take for nought what is less than ``least``, none negative; most rows have no such load, and are not copied."""
    noise = values < least
    noise &= values > 0.0
    return np.where(noise, 0.0, values) if noise.any() else values


def sides_on(surface: Surface, row: Row) -> list[str]:
    """Sides of the surface a row lies on."""
    names = sides_of(surface)
    return [side for side, name in names.items() if name in row.joins] or ["plus", "minus"]
