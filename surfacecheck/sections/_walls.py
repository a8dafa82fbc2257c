"""What is given for the walls of a section: checked, and laid out for the work.

Inside, walls (or nodes) are the *first* axis and all leading axes are one flat last axis of at least two places. A sum
over walls is then the same sequence of additions for one section as for a thousand, which makes a stack of sections
equal to single ones bit for bit (a sum over a lone axis is grouped in another way by NumPy).
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

import numpy as np

from surfacecheck.errors import SurfaceError

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, NDArray

    from surfacecheck.sections._topology import Topology

__all__ = ["Layout", "Walls", "lay_out", "total"]


def total(parts: NDArray[np.float64]) -> NDArray[np.float64]:
    """Sum over the first axis, one after the other."""
    return np.asarray(np.add.reduce(parts, axis=0))


class Layout:
    """Leading axes of a section, and how arrays go to the flat layout and come back."""

    def __init__(self, shape: tuple[int, ...]) -> None:
        self.shape = shape
        self.size = math.prod(shape)
        self._forth = (len(shape), *range(len(shape)))
        self._back = (*range(1, len(shape) + 1), 0)

    def flat(self, name: str, values: ArrayLike, count: int) -> NDArray[np.float64]:
        """Bring (..., count) to (count, size), with two places where there is one section."""
        array = np.asarray(values, dtype=np.float64)
        if array.shape != (*self.shape, count):
            array = np.broadcast_to(array, (*self.shape, count))
        flat = array.transpose(self._forth).reshape(count, self.size)
        if not np.isfinite(flat).all():
            row, place = (int(index) for index in np.argwhere(~np.isfinite(flat))[0])
            message = f"{name} {row} is {flat[row, place]}: give a number"
            raise SurfaceError(message)
        return np.repeat(flat, 2, axis=1) if self.size == 1 else np.ascontiguousarray(flat)

    def single(self, flat: NDArray[Any]) -> NDArray[Any]:
        """Bring (places,) back to the leading axes."""
        return flat[: self.size].reshape(self.shape)

    def rows(self, flat: NDArray[np.float64]) -> NDArray[np.float64]:
        """Bring (count, places) back to (..., count)."""
        return flat[:, : self.size].reshape((len(flat), *self.shape)).transpose(self._back)


@dataclass(frozen=True, eq=False)
class Walls:
    """Checked input in the flat layout; W walls, N nodes, M sections.

    Attributes
    ----------
    place, step, middle : ndarray, shapes (N, 2, M), (W, 2, M), (W, 2, M)
        x and z of the nodes, from first to second node, and of the middle of each chord [m].
    length, t, shear_ratio : ndarray, shape (W, M)
        Length [m], shear thickness [m], G over reference G [-].
    strip : ndarray, shape (W, M)
        Area that carries direct stress, weighted by E over reference E [m^2].
    boom : ndarray, shape (N, M)
        Areas of the booms, weighted [m^2].
    swept : ndarray, shape (W, M)
        Area between arc and chord, positive clockwise [m^2].
    """

    place: NDArray[np.float64]
    step: NDArray[np.float64]
    middle: NDArray[np.float64]
    length: NDArray[np.float64]
    t: NDArray[np.float64]
    shear_ratio: NDArray[np.float64]
    strip: NDArray[np.float64]
    boom: NDArray[np.float64]
    swept: NDArray[np.float64]


def _require(holds: NDArray[np.bool_], values: NDArray[np.float64], name: str, allowed: str) -> None:
    """Raise for the first wall or node that does not hold what is allowed."""
    if not holds.all():
        row, place = (int(index) for index in np.argwhere(~holds)[0])
        message = f"{name} {row} is {values[row, place]:.6g}: {allowed}"
        raise SurfaceError(message)


def _leading(topology: Topology, given: dict[str, tuple[ArrayLike, int]]) -> tuple[int, ...]:
    """Leading axes that all inputs share."""
    shapes = []
    for name, (values, count) in given.items():
        shape = np.shape(values)
        if shape and shape[-1] not in (1, count):
            message = (
                f"{name} has shape {shape}: its last axis must have {count} values, one for each of the "
                f"{'nodes' if count == topology.nodes else 'walls'} of the topology"
            )
            raise SurfaceError(message)
        shapes.append(shape[:-1])
    try:
        return np.broadcast_shapes(*shapes)
    except ValueError as err:
        named = ", ".join(f"{name} {np.shape(values)}" for name, (values, _) in given.items())
        message = f"leading axes do not go together: {named}"
        raise SurfaceError(message) from err


def lay_out(
    topology: Topology,
    x: ArrayLike,
    z: ArrayLike,
    t: ArrayLike,
    *,
    t_direct: ArrayLike | None,
    boom: ArrayLike | None,
    shear_ratio: ArrayLike | None,
    modulus_ratio: ArrayLike | None,
    length: ArrayLike | None,
    swept: ArrayLike | None,
) -> tuple[Layout, Walls]:
    """Check what is given and lay it out; the arguments are those of :func:`section`."""
    nodes, walls = topology.nodes, len(topology.walls)
    inputs = {
        "place x of node": (x, nodes),
        "place z of node": (z, nodes),
        "thickness of wall": (t, walls),
        "direct-stress thickness of wall": (t_direct, walls),
        "boom at node": (boom, nodes),
        "shear_ratio of wall": (shear_ratio, walls),
        "modulus_ratio of wall": (modulus_ratio, walls),
        "length of wall": (length, walls),
        "swept area of wall": (swept, walls),
    }
    given = {name: (values, count) for name, (values, count) in inputs.items() if values is not None}
    layout = Layout(_leading(topology, given))
    flat = {name: layout.flat(name, values, count) for name, (values, count) in given.items()}

    thick = flat["thickness of wall"]
    _require(
        thick > 0.0,
        thick,
        "thickness of wall",
        "give more than zero; a wall that is not there is left out of the walls",
    )
    direct = flat.get("direct-stress thickness of wall", thick)
    _require(direct >= 0.0, direct, "direct-stress thickness of wall", "zero (shear only) or more")
    ratio = flat.get("shear_ratio of wall", np.ones_like(thick))
    _require(ratio > 0.0, ratio, "shear_ratio of wall", "more than zero (G of the wall over the reference G)")
    area = flat.get("boom at node", np.zeros((nodes, thick.shape[1])))
    _require(area >= 0.0, area, "boom at node", "zero or more [m^2]")

    place = np.stack([flat["place x of node"], flat["place z of node"]], axis=1)
    first, second = place[topology.starts], place[topology.ends]
    step = second - first
    chord = np.sqrt(step[:, 0] * step[:, 0] + step[:, 1] * step[:, 1])
    bulge = flat.get("swept area of wall", np.zeros_like(thick))
    if "length of wall" in flat or "swept area of wall" in flat:
        developed = flat.get("length of wall", chord)
        longer = developed > chord * (1.0 + 1e-9)
        _require(
            (developed == 0.0) | (developed >= chord * (1.0 - 1e-9)),
            developed,
            "length of wall",
            "zero (straight) or at least the distance between its nodes [m]",
        )
        _require(
            ~longer | (direct == 0.0),
            direct,
            "direct-stress thickness of curved wall",
            "a wall longer than its chord works in shear only: t_direct = 0, or several straight walls",
        )
        _require(
            longer | (bulge == 0.0), bulge, "swept area of wall", "a straight wall sweeps nothing: give its length"
        )
        chord = np.where(longer, developed, chord)
    _require(chord > 0.0, chord, "length of wall", "its two nodes lie on one point; move them apart")

    strip = chord * direct
    if "modulus_ratio of wall" in flat:
        modulus = flat["modulus_ratio of wall"]
        _require(modulus > 0.0, modulus, "modulus_ratio of wall", "more than zero (E of the wall over the reference E)")
        strip = strip * modulus
    return layout, Walls(place, step, 0.5 * (first + second), chord, thick, ratio, strip, area, bulge)
