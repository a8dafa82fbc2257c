"""A row of a surface as lines of rivets: what each carries as drawn, and how its load grows when others are gone."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.checks import pretty_place
from surfacecheck.statics import seam_row, tributary_lengths

if TYPE_CHECKING:
    from collections.abc import Sequence

    from numpy.typing import NDArray

    from surfacecheck.checks import RowLoad
    from surfacecheck.studies.losing._row_springs import RowSprings

    Array = NDArray[np.float64]

__all__ = ["RowLine", "lines_of"]

_EDGE = 1e-9
"""How far to either side of a rivet its load is read, so that one at a jump of the flow has the larger [m]."""


@dataclass(frozen=True, eq=False)
class RowLine:
    """Rivets of a row that stand in one line and hand over the same flow.

    Attributes
    ----------
    load : RowLoad
        The row.
    rib : int
        Number of the rib it lies on, from 1; 0 along the pins.
    where : str
        ``rib 3 at 325 mm`` for a line on a rib; empty along the pins.
    pitch : float
        [m].
    abreast : int
        Rivets side by side at each place; the numbers go along one line, then along the next.
    places : tuple of str
        Words for each place, R of them.
    up : ndarray, shape (R,)
        Along the pins [m].
    shear, pull : ndarray, shape (C, R)
        Of one rivet at each place, as drawn, at limit [N].
    wrinkle : ndarray or None
        As in ``RowLoad``, shape (C, R) [-].
    layers : dict of str to ndarray
        What each sheet hands to one rivet, shape (C, R) [N].
    evenly : bool
        Whether the rivets share one force evenly, and not a flow by their places.
    """

    load: RowLoad
    rib: int
    where: str
    pitch: float
    abreast: int
    places: tuple[str, ...]
    up: Array
    shear: Array
    pull: Array
    wrinkle: Array | None
    layers: dict[str, Array]
    evenly: bool = False

    @property
    def count(self) -> int:
        """Places in the line."""
        return len(self.places)

    @property
    def rivets(self) -> int:
        """Rivets in the line."""
        return self.count * self.abreast

    @cached_property
    def numbers(self) -> NDArray[np.intp]:
        """Number of every rivet from 1, on each rib anew, shape (abreast, R)."""
        return 1 + np.arange(self.rivets).reshape(self.abreast, self.count)

    @property
    def place(self) -> str:
        """Its name, ``row.left_skin_to_ribs.rib-3``."""
        return f"row.{self.load.row.name}" + (f".rib-{self.rib}" if self.rib else "")

    @property
    def part(self) -> str:
        """The same in words."""
        return self.load.row.name.replace("_", " ") + (f", {self.where}" if self.where else "")

    def there(self, out: Sequence[int]) -> NDArray[np.intp]:
        """Count the rivets left at each place.

        Parameters
        ----------
        out : sequence of int
            Numbers of those that are not there; others than of this line are passed over.

        Returns
        -------
        ndarray of int, shape (R,)
            From 0 to ``abreast``.
        """
        return np.asarray((~np.isin(self.numbers, list(out))).sum(axis=0))

    def bound(self, there: NDArray[np.intp]) -> Array:
        """Give the growth of each rivet's load if rivets did not give: every gap halved between its neighbours.

        Parameters
        ----------
        there : ndarray of int, shape (..., R)
            Rivets left at each place.

        Returns
        -------
        ndarray, shape (..., R)
            Times the load as drawn [-]; 0 where none is left.
        """
        if self.evenly:
            return self._evenly(there)
        own = tributary_lengths(there > 0, 1.0) if self.count > 1 else np.ones(there.shape)
        return np.asarray(own * self._abreast(there))

    def spring(self, there: NDArray[np.intp], C: float, springs: RowSprings) -> Array:
        """Give the growth of each rivet's load by the spring model of the row.

        Parameters
        ----------
        there : ndarray of int, shape (..., R)
            Rivets left at each place.
        C : float
            Flexibility of one rivet [m/N].
        springs : RowSprings
            For the sheets.

        Returns
        -------
        ndarray, shape (..., R)
            Times the load as drawn [-]; 0 where none is left.
        """
        if self.evenly:
            return self._evenly(there)
        found = seam_row(there / C, springs.k_A, springs.k_B, 1.0, 1.0)
        return np.asarray(found.factor * self._abreast(there))

    def _evenly(self, there: NDArray[np.intp]) -> Array:
        left = there.sum(axis=-1, keepdims=True)
        return np.where(there > 0, self.rivets / left, 0.0)

    def _abreast(self, there: NDArray[np.intp]) -> Array:
        """Share of a place's load that one of the rivets left there has, over that of a whole place."""
        return np.where(there > 0, self.abreast / np.maximum(there, 1), 0.0)


def lines_of(load: RowLoad) -> tuple[RowLine, ...]:
    """Lay the rivets of a row out in lines, numbered as on the map: along one line, then the next beside it.

    Parameters
    ----------
    load : RowLoad
        Worked.

    Returns
    -------
    tuple of RowLine
        One along the pins; one a rib for a row that lies on the ribs.
    """
    return _on_ribs(load) if load.kind in {"rib", "rib-spar"} else (_along(load),)


def _along(load: RowLoad) -> RowLine:
    plan = load.plan
    assert plan.start is not None and plan.end is not None  # noqa: S101, PT018 - rows along the pins have both
    up = np.linspace(plan.start, plan.end, plan.count)
    y = load.effects.span.y
    if load.kind == "doubler":
        y = y[load.effects.span.between(plan.start - 1e-3, plan.end + 1e-3)]

    def at(values: Array) -> Array:
        sides = [_read(up + side, y, values) for side in (-_EDGE, _EDGE)]
        return np.maximum(*sides)

    return RowLine(
        load=load,
        rib=0,
        where="",
        pitch=plan.pitch,
        abreast=plan.lines,
        places=tuple(pretty_place(one) for one in up),
        up=up,
        shear=at(load.shear),
        pull=at(load.tension),
        wrinkle=None if load.wrinkle is None else at(load.wrinkle),
        layers=_by_layer(load, at),
    )


def _read(up: Array, y: Array, values: Array) -> Array:
    """Read loads between stations; a station that stands twice has the value of the side it is asked from."""
    after = np.clip(np.searchsorted(y, up, side="left"), 1, y.size - 1)
    low, high = y[after - 1], y[after]
    part = np.clip((up - low) / np.where(high > low, high - low, 1.0), 0.0, 1.0)
    return np.asarray(values[:, after - 1] * (1.0 - part) + values[:, after] * part)


def _by_layer(load: RowLoad, at: object) -> dict[str, Array]:
    """Read every layer; layers that share an array go on sharing it."""
    found: dict[int, Array] = {}
    for force in load.layers.values():
        if id(force) not in found:
            found[id(force)] = at(force)  # type: ignore[operator]
    return {name: found[id(force)] for name, force in load.layers.items()}


def _on_ribs(load: RowLoad) -> tuple[RowLine, ...]:
    plan, span = load.plan, load.effects.span
    out = []
    for r, (where, b) in enumerate(zip(load.spots, span.ribs, strict=True)):
        count = int(plan.rib_count[r])
        shape = (load.shear.shape[0], count)

        def at(values: Array, r: int = r, shape: tuple[int, int] = shape) -> Array:
            return np.broadcast_to(values[:, [r]], shape)

        line = RowLine(
            load=load,
            rib=r + 1,
            where=where,
            pitch=float(plan.rib_pitch[r]) or 1.0,  # of rivets that share evenly no distance is asked
            abreast=plan.lines,
            places=(where,) * count,
            up=np.full(count, span.breaks[b]),
            shear=at(load.shear),
            pull=at(load.tension),
            wrinkle=None if load.wrinkle is None else at(load.wrinkle),
            layers=_by_layer(load, at),
            evenly=load.kind == "rib-spar",
        )
        out.append(line)
    return tuple(out)
