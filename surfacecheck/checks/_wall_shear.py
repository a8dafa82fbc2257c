"""Shear stress of a wall: that of its flow, and where the section has no cell, that of its own twisting with it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.axes import by_case
from surfacecheck.checks._check import Term
from surfacecheck.provenance import Basis, Source

if TYPE_CHECKING:
    from collections.abc import Sequence

    from numpy.typing import NDArray

    from surfacecheck.checks._effects import Effects
    from surfacecheck.checks._reduce import Kept

    Array = NDArray[np.float64]

__all__ = ["OPEN_TWIST", "WORKED_AS", "WallShear", "wall_shear"]

OPEN_TWIST = Source(
    Basis.PUBLISHED,
    "St Venant's torsion of thin open sections, T t / J at the faces of a wall; Megson, chapters 17 and 18",
)
WORKED_AS = (("f_s", "q / t + T * t / J"),)
"""Step of a check that reads the stress of a wall of an open section."""

RELIEVED = (
    "open section: its walls take the torque by their own twisting, T t / J; the two faces have it in opposite ways, "
    "so on one of them it adds to the flow. Where ribs, horn or brackets hold the warping they take a part of that "
    "torque: not worked, which is the safe side for this stress"
)


@dataclass(frozen=True, eq=False)
class WallShear:
    """Shear stress of the more stressed of some walls, with what it is made of.

    Attributes
    ----------
    stress : ndarray, shape (..., F, S)
        Greatest at limit [Pa].
    q, t, T, J : ndarray, what broadcasts to (..., F, S), or None
        Flow [N/m], thickness [m], size of the torque about the shear centre that the walls take by twisting [N m],
        nought where a cell takes it, and torsion constant at the shear modulus of that wall [m^4]; None where the skins
        close the box.
    """

    stress: Array
    q: Array | None = None
    t: Array | None = None
    T: Array | None = None
    J: Array | None = None

    @property
    def open(self) -> bool:
        """Whether the walls take torque by their own twisting anywhere."""
        return self.T is not None

    @property
    def notes(self) -> tuple[str, ...]:
        """What goes with such a stress."""
        return (RELIEVED,) if self.open else ()

    def terms(self, kept: Kept, what: str) -> dict[str, Term]:
        """Give the letters of :data:`WORKED_AS`; none for a closed section.

        Parameters
        ----------
        kept : Kept
            Cases and spots that are looked at.
        what : str
            The wall, in words.

        Returns
        -------
        dict of str to Term
            ``q``, ``t``, ``T``, ``J``.
        """
        if self.q is None or self.t is None or self.T is None or self.J is None:
            return {}
        return {
            "q": Term(kept.of(self.q), "line_load", f"shear flow of the {what} at limit"),
            "t": Term(kept.of(self.t), "length", f"thickness of the {what}"),
            "T": Term(kept.of(self.T), "torque", "torque about the shear centre at limit, whichever way"),
            "J": Term(kept.of(self.J), "second_moment", f"torsion constant, at the shear modulus of the {what}"),
        }


def wall_shear(effects: Effects, flows: Sequence[tuple[str, Array]], ratio: Array | None = None) -> WallShear:
    """Work the shear stress of a wall, or of the more stressed of several.

    Parameters
    ----------
    effects : Effects
        With sections.
    flows : sequence of (str, ndarray of shape (..., F, S))
        Walls, each with the size of its flow [N/m].
    ratio : ndarray, shape (..., S) or (), optional
        Shear modulus of the walls over that of the spar; that of the section where it is not given [-].

    Returns
    -------
    WallShear
        Of a section with cells that of the flow alone, ``q / t``; of one without ``q / t + T t / J``.

    References
    ----------
    T. H. G. Megson, Aircraft Structures for Engineering Students, 4th ed., section 18.2 (number from memory): shear
    stress of a thin open section in torsion, greatest at the faces, through a thickness of whose middle it is nought.
    """
    box = effects.box
    assert box is not None  # noqa: S101 - asked only where there are sections
    thick = [by_case(box.closed.t[..., box.wall(name)]) for name, _ in flows]
    parts = [flow / t for (_, flow), t in zip(flows, thick, strict=True)]
    if box.rear_closed:
        stress = parts[0]
        for one in parts[1:]:
            stress = np.maximum(stress, one)
        return WallShear(stress)
    torque, constant = effects.open_twist
    torque = np.abs(torque)
    worst: tuple[Array, ...] = ()
    for (name, flow), t, part in zip(flows, thick, parts, strict=True):
        J = constant / by_case(box.closed.shear_ratio[..., box.wall(name)] if ratio is None else ratio)
        one = np.broadcast_arrays(part + torque * t / J, flow, t, torque, J)
        more = one[0] > worst[0] if worst else np.ones(one[0].shape, dtype=bool)
        worst = tuple(np.where(more, new, old) for new, old in zip(one, worst or one, strict=True))
    return WallShear(*worst)
