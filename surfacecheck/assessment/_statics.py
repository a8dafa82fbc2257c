"""Loads at pins and horn, worst of each by its case; equilibrium of every case."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.assessment._result import HornPull, PinLoad, Rest, Worst
from surfacecheck.model import DrivenBy
from surfacecheck.provenance import plain

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from surfacecheck.assessment._load import Loaded
    from surfacecheck.model import Surface
    from surfacecheck.statics import Beam

    Array = NDArray[np.float64]

__all__ = ["horn_pull_of", "pins_of", "rests_of"]


def _worst(values: Array, titles: tuple[str, ...]) -> Worst:
    at = int(np.argmax(np.abs(values)))
    return Worst(float(values[at]), titles[at])


def pins_of(surface: Surface, hinges: dict[str, int], breaks: Array, loaded: Loaded) -> tuple[PinLoad, ...]:
    """List the worst load of each kind at each pin.

    Parameters
    ----------
    surface : Surface
        For the swings.
    hinges : dict of str to int
        Break of each hinge, from root to tip [-].
    breaks : ndarray, shape (B,)
        Along the pins [m].
    loaded : Loaded
        Cases, and both idealisations.

    Returns
    -------
    tuple of PinLoad
        Force of the surface on the pins [N], from root to tip.
    """
    both, simple = (beam.reactions for beam in loaded.beams)
    largest = np.abs(both).max(axis=(-2, -1))
    largest = np.where(largest > 0.0, largest, 1.0)[:, None]
    on_pin = -both[loaded.counts]
    titles = tuple(title for title, counts in zip(loaded.titles, loaded.counts, strict=True) if counts)
    apart = (np.abs(both - simple).max(axis=-1) / largest)[loaded.counts]
    ribs = np.flatnonzero(~loaded.evenly)
    between = np.abs(both[loaded.twin[ribs]] - both[ribs]).max(axis=-1) / largest[ribs]
    handed = tuple(loaded.titles[i] for i in ribs)
    swing = max((plain(v) for v in (surface.outline.swings_left, surface.outline.swings_right) if v.known), default=0.0)
    out = []
    for h, (name, b) in enumerate(hinges.items()):
        x, y, z = (on_pin[:, h, i] for i in range(3))
        turned = [(x * np.cos(a) + z * np.sin(a), z * np.cos(a) - x * np.sin(a)) for a in (swing, -swing)]
        t_x = np.where(np.abs(turned[0][0]) > np.abs(turned[1][0]), turned[0][0], turned[1][0])
        t_z = np.where(np.abs(turned[0][1]) > np.abs(turned[1][1]), turned[0][1], turned[1][1])
        out.append(
            PinLoad(
                name,
                float(breaks[b]),
                _worst(z, titles),
                _worst(x, titles),
                _worst(y, titles),
                _worst(t_z, titles),
                _worst(t_x, titles),
                _worst(apart[:, h], titles),
                _worst(between[:, h], handed) if handed else None,
            )
        )
    return tuple(out)


def horn_pull_of(surface: Surface, loaded: Loaded) -> HornPull | None:
    """Give the largest pull of a cable or rod, or the largest torque in a tube.

    Parameters
    ----------
    surface : Surface
        For what drives it.
    loaded : Loaded
        Cases, what acts at each bolt, and the beam; a tube has the torque of the cases that it holds itself, not
        of those that a lock on the surface holds.

    Returns
    -------
    HornPull or None
        None where there is no horn.
    """
    horn = surface.horn
    if horn is None or horn.driven_by is None or not horn.up.known:
        return None
    titles, force, beam, up = loaded.titles, loaded.horn_force, loaded.beams[0], plain(horn.up)
    if horn.driven_by is DrivenBy.TORQUE_TUBE:
        holds = np.array([case.closing == "horn" for case in loaded.cases])
        if not holds.any():
            return None
        at = int(np.argmax(np.where(holds, np.abs(beam.T_0).max(axis=-1), -1.0)))
        worst = beam.T_0[at, int(np.argmax(np.abs(beam.T_0[at])))]
        return HornPull("torque tube", up, Worst(float(worst), titles[at]))
    if not force.shape[1]:
        return None
    size = np.sqrt((force**2).sum(axis=-1)).max(axis=-1)
    return HornPull("rod" if horn.driven_by is DrivenBy.ROD else "cable", up, _worst(size, titles))


def rests_of(titles: tuple[str, ...], beam: Beam) -> tuple[Rest, ...]:
    """Sum what goes in and what comes back, case by case, from the loads as put on the stations.

    Parameters
    ----------
    titles : tuple of str
        Cases.
    beam : Beam
        Solved.

    Returns
    -------
    tuple of Rest
        Sums and what is left over [N].
    """
    loads, weight, y = beam.loads, beam.stations.weight, beam.stations.y
    given = np.stack([(q * weight).sum(axis=-1) for q in (loads.x, loads.y, loads.z)], axis=-1) + loads.force.sum(
        axis=-2
    )
    held = beam.reactions.sum(axis=-2)
    up = beam.stations.breaks
    at = up[list(beam.supports.hinges)]
    M_x = (loads.z * weight * y).sum(-1) + (loads.moment_x * weight).sum(-1) + (loads.force[..., 2] * up).sum(-1)
    M_x = M_x + loads.moment[..., 0].sum(-1) + (beam.reactions[..., 2] * at).sum(-1) + beam.couples[..., 0].sum(-1)
    M_z = -(loads.x * weight * y).sum(-1) + (loads.moment_z * weight).sum(-1) - (loads.force[..., 0] * up).sum(-1)
    M_z = M_z + loads.moment[..., 2].sum(-1) - (beam.reactions[..., 0] * at).sum(-1) + beam.couples[..., 1].sum(-1)
    T = (loads.torque * weight).sum(-1) + loads.moment[..., 1].sum(-1)
    span = up[-1] - up[0]
    force = np.abs(given + held).max(axis=-1)
    rest = np.maximum(force, np.abs(np.stack([M_x, M_z, T])).max(axis=0) / span)
    return tuple(
        Rest(title, (into[0], into[1], into[2]), (back[0], back[1], back[2]), left)
        for title, into, back, left in zip(titles, given.tolist(), held.tolist(), rest.tolist(), strict=True)
    )
