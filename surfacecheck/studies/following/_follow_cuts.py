"""A cut in every bay: what went in outboard of it is what is across it and what left outboard of it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.sections import WallFlow, wall_force
from surfacecheck.statics import point_force

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from surfacecheck.assessment import Carried
    from surfacecheck.checks import Effects

    Array = NDArray[np.float64]

__all__ = ["COMPONENTS", "Cut", "cuts_of"]

COMPONENTS = ("fore-aft", "along", "sideways", "bending sideways", "torque", "bending fore-aft")
"""Order of the six sums: F_x, F_y, F_z [N], M_x, T_0, M_z about the pins at the cut [N m]."""


@dataclass(frozen=True, eq=False)
class Cut:
    """Sums of everything outboard of a cut, about the pins at the cut, in the order of ``COMPONENTS``.

    Attributes
    ----------
    start, y : float
        Inboard end of the bay, and its outboard end, where the cut is made [m].
    went_in : ndarray, shape (6,)
        Of the given force [N], [N m].
    held : ndarray, shape (6,)
        Taken by pins, horn and couple: what the surface hands to them [N], [N m].
    across : ndarray, shape (6,)
        Loads inside at the cut [N], [N m].
    walls : dict of str to ndarray, shape (3,)
        Of that, what the flow of each wall makes: F_x, F_z [N], T_0 [N m].
    """

    start: float
    y: float
    went_in: Array
    held: Array
    across: Array
    walls: dict[str, Array]

    @property
    def rest(self) -> float:
        """Largest of what went in, less across, less held; moments by the metre [N]."""
        return float(np.abs(self.went_in - self.across - self.held).max())

    def of(self, part: str) -> tuple[float, float, float]:
        """Give one component: what went in, what is across, what is held outboard [N], [N m]."""
        i = COMPONENTS.index(part)
        return float(self.went_in[i]), float(self.across[i]), float(self.held[i])


def cuts_of(carried: Carried, shown: Effects) -> tuple[Cut, ...]:
    """Sum up at the outboard end of every bay.

    Parameters
    ----------
    carried : Carried
        A force, carried.
    shown : Effects
        What the walls' shares are read from: all of it, or one part.

    Returns
    -------
    tuple of Cut
        From the root to the tip.
    """
    span, effects = carried.span, carried.effects
    breaks, stations = span.breaks, span.stations
    given_f, given_m = _given(carried)
    held_f, held_m = _held(carried)
    inside = [getattr(effects, name)[0] for name in ("V_x", "N", "V_z", "M_x", "T_0", "M_z")]
    walls = None
    if shown.box is not None and shown.flow is not None:
        force = wall_force(shown.box.closed, WallFlow(*(part[0] for part in shown.flow)))
        walls = np.stack([force.F_x, force.F_z, force.T], axis=-1)
    out = []
    for b in range(1, breaks.size):
        at = stations.before(b)
        y = float(breaks[b])
        found = {} if walls is None or shown.box is None else dict(zip(shown.box.walls, walls[at], strict=True))
        out.append(
            Cut(
                float(breaks[b - 1]),
                y,
                _sums(breaks[b:] - y, given_f[b:], given_m[b:]),
                0.0 - _sums(breaks[b:] - y, held_f[b:], held_m[b:]),
                np.array([one[at] for one in inside]),
                found,
            )
        )
    return tuple(out)


def _sums(arm: Array, force: Array, moment: Array) -> Array:
    """Add up forces and moments about the pins at the cut."""
    F, M = force.sum(axis=0), moment.sum(axis=0)
    return np.array(
        [F[0], F[1], F[2], M[0] + (arm * force[:, 2]).sum(), M[1], M[2] - (arm * force[:, 0]).sum()], dtype=np.float64
    )


def _given(carried: Carried) -> tuple[Array, Array]:
    breaks = carried.span.breaks
    force, moment = np.zeros((breaks.size, 3)), np.zeros((breaks.size, 3))
    for one in carried.put:
        b = int(np.argmin(np.abs(breaks - one.y)))
        force[b] += one.force
        moment[b] += point_force(one.force, one.x, one.z) + np.array(one.couple)
    return force, moment


def _held(carried: Carried) -> tuple[Array, Array]:
    """Give what pins, horn and couple put on the surface, at the breaks."""
    span, effects, hold = carried.span, carried.effects, carried.hold
    force, moment = np.zeros((span.breaks.size, 3)), np.zeros((span.breaks.size, 3))
    for h, b in enumerate(span.hinges.values()):
        force[b] += effects.reactions[0, h]
    at = max(hold.at_break, 0)
    for p, (x, z) in enumerate(effects.horn_points):
        force[at] += carried.pull[p]
        moment[at] += point_force(carried.pull[p], x, z)
    moment[at, 1] += carried.couple
    ends = list(carried.beam.supports.slopes_held)
    for k, b in enumerate(ends):
        moment[b, [0, 2]] += carried.beam.couples[0, k]
    return force, moment
