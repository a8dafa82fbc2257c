"""The walls of a section as they are drawn: their words, their paths, the flow along them."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.sections import WallFlow, flow_at, flow_ends

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from surfacecheck.assessment import Assessment
    from surfacecheck.sections.box import Box

    Array = NDArray[np.float64]

__all__ = ["POINTS", "flow_along", "outward", "shown_flow", "wall_path", "wall_words"]

POINTS = 17
"""Points along a drawn wall."""
_WORDS = {
    "web": "web",
    "web_plus": "web",
    "web_minus": "web",
    "flange_plus": "flange",
    "flange_minus": "flange",
    "lip_plus": "lip",
    "lip_minus": "lip",
    "nose": "nose",
}


def wall_words(assessment: Assessment, wall: str) -> str:
    """Name a wall in the builder's words."""
    surface = assessment.surface
    side = wall.rsplit("_", 1)[-1]
    if side not in {"plus", "minus"}:
        return _WORDS.get(wall, wall)
    word = surface.said("left" if (side == "plus") == (surface.left_is > 0) else "right")
    if wall.startswith("skin"):
        return f"{word} skin"
    return f"{_WORDS[wall]}, {word}" if not wall.startswith("web") else "web"


def wall_path(box: Box, wall: str, s: int) -> tuple[Array, Array]:
    """Trace a wall from its first node to its second; the nose as half an ellipse.

    Parameters
    ----------
    box : Box
        Sections.
    wall : str
        Its name.
    s : int
        Station.

    Returns
    -------
    tuple of ndarray, each of shape (17,)
        x and z [m].
    """
    first, second = box.closed.topology.walls[box.wall(wall)]
    x, z = box.closed.x[s], box.closed.z[s]
    along = np.linspace(0.0, 1.0, POINTS)
    if wall != "nose":
        return x[first] + along * (x[second] - x[first]), z[first] + along * (z[second] - z[first])
    middle, half = 0.5 * (z[first] + z[second]), 0.5 * (z[second] - z[first])
    # area between arc and web is a quarter of pi times the two axes of the ellipse, so its reach ahead is known
    swept = 0.5 * (float(box.closed.sweep[s, box.wall(wall)]) - _chord_sweep(box, s, first, second))
    ahead = max(2.0 * swept / (np.pi * half), 0.0)
    turn = np.pi * along
    return x[first] - ahead * np.sin(turn), middle - half * np.cos(turn)


def _chord_sweep(box: Box, s: int, first: int, second: int) -> float:
    x, z = box.closed.x[s] - box.closed.x_c[s], box.closed.z[s] - box.closed.z_c[s]
    return float(
        0.5 * (z[first] + z[second]) * (x[second] - x[first]) - 0.5 * (x[first] + x[second]) * (z[second] - z[first])
    )


def shown_flow(flow: WallFlow, box: Box, wall: str) -> float:
    """Give the figure written at a wall: largest along it, with its sign; from first to second node."""
    i = box.wall(wall)
    ends = [float(part[i]) for part in flow_ends(flow)]
    middle = float(flow_at(flow, 0.5)[i])
    most = float(np.abs(np.concatenate([*flow_ends(flow), flow.mean])).max())
    value = max((*ends, middle), key=abs)
    return value if abs(value) > 1e-9 * most else 0.0


def outward(x: Array, z: Array, centre: tuple[float, float]) -> tuple[Array, Array]:
    """Give unit normals of a path, turned away from a point."""
    dx, dz = np.gradient(x), np.gradient(z)
    size = np.hypot(dx, dz)
    n_x, n_z = dz / size, -dx / size
    if float(((x - centre[0]) * n_x + (z - centre[1]) * n_z).mean()) < 0.0:
        n_x, n_z = -n_x, -n_z
    return n_x, n_z


def flow_along(flow: WallFlow, i: int) -> Array:
    along = np.linspace(0.0, 1.0, POINTS)
    one = WallFlow(*(part[i] for part in flow))
    return np.asarray(flow_at(one, along))
