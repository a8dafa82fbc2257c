"""A touched rivet of a bracket or of the horn in its group."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.checks import rivet_places
from surfacecheck.report._bracket_map import bracket_outline, frame_of
from surfacecheck.report._deviation_row_scene import row_scene
from surfacecheck.report._deviation_scene import Edge, Scene, edge_now, hole_now, rivet_at, touched_of
from surfacecheck.report._horn_forces import tip_view
from surfacecheck.report._places import behind_view, number
from surfacecheck.report._style import DEEP, PALE
from surfacecheck.studies import group_at, group_name

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from numpy.typing import NDArray

    from surfacecheck.model import Hinge, Surface
    from surfacecheck.report._deviation_scene import Edges
    from surfacecheck.studies import Deviation, Passing

    Array = NDArray[np.float64]

__all__ = ["scene_of"]


def scene_of(deviation: Deviation, passes: Passing) -> Scene | None:
    """Gather what the picture of one touched rivet shows.

    Parameters
    ----------
    deviation : Deviation
        Worked.
    passes : Passing
        One of its places.

    Returns
    -------
    Scene or None
        None where it is no rivet of a bracket, the horn or a row that can be drawn.
    """
    place = passes.place
    group = group_name(place)
    if group == place:
        return None
    surface = deviation.ways[0].fully.surface
    hinge = next((h for h in surface.hinges.values() if group == f"hinge.{h.name}.bracket"), None)
    if hinge is not None:
        return _bracket(deviation, surface, passes, hinge)
    if group == "horn.rivets":
        return _horn(deviation, surface, passes)
    return row_scene(deviation, surface, passes)


def _case(deviation: Deviation, passes: Passing) -> tuple[Array, Array] | None:
    """Share of every rivet in the case of the lowest margin here, and its pull."""
    group = group_at(deviation.ways[0].fully, passes.place)
    if group is None:
        return None
    at = group.cases.index(passes.case)
    return group.share[at], group.tension[at]


def _bracket(deviation: Deviation, surface: Surface, passes: Passing, hinge: Hinge) -> Scene | None:
    loads = _case(deviation, passes)
    if loads is None:
        return None
    bracket, view = surface.brackets[hinge.bracket], behind_view(surface)
    right, up = view.place(*rivet_places(surface, bracket))
    share, pull = loads
    force = np.stack(view.place(share[:, 1], share[:, 2]), axis=-1)
    half = frame_of(surface, (hinge,), view)
    edge = number(bracket.edge["bracket"]) if "bracket" in bracket.edge else None
    at = rivet_at(passes.place)
    edges = _outer(right, up, at, edge)
    return Scene(
        view=view.words,
        frame=half,
        ground=lambda ax: bracket_outline(ax, surface, hinge, view, numbers=False),
        right=right,
        up=up,
        first=1,
        at=at,
        touched=touched_of(deviation, passes.place),
        force=force,
        pull=pull,
        either=False,
        rivet=surface.rivets[bracket.rivet],
        hole=hole_now(deviation, passes.place, flat=view.flat),
        edges=edges,
        edge_now=edge_now(deviation, passes.place),
    )


def _outer(right: Array, up: Array, at: int, edge: float | None) -> Edges:
    """Find the four edges of a plate that reaches one edge distance beyond its outer rivets."""
    if edge is None:
        return (None, None, None, None)
    x, y = float(right[at]), float(up[at])
    return (
        Edge(x - float(right.min()) + edge),
        Edge(float(right.max()) - x + edge),
        Edge(y - float(up.min()) + edge),
        Edge(float(up.max()) - y + edge),
    )


def _horn(deviation: Deviation, surface: Surface, passes: Passing) -> Scene | None:
    loads, load = _case(deviation, passes), deviation.ways[0].fully.horn
    if loads is None or load is None or surface.horn is None:
        return None
    share, pull = loads
    middle = 0.5 * (float(load.x.min()) + float(load.x.max()))
    right, up = load.x - middle, load.z
    edge = number(surface.horn.fixed_with.edge)
    room = edge or 0.008
    half = float(np.abs(right).max()) + room, float(np.abs(up).max()) + room

    def ground(ax: Axes) -> None:
        x, y = half
        ax.fill([-x, x, x, -x], [-y, -y, y, y], facecolor=PALE, edgecolor=DEEP, zorder=0)

    at = rivet_at(passes.place)
    return Scene(
        view=tip_view(surface),
        frame=(1.28 * half[0], 1.28 * half[1]),
        ground=ground,
        right=right,
        up=up,
        first=1,
        at=at,
        touched=touched_of(deviation, passes.place),
        force=share[:, [0, 2]],
        pull=pull,
        either=False,
        rivet=surface.rivets[surface.horn.fixed_with.rivet],
        hole=hole_now(deviation, passes.place, flat=True),
        edges=_outer(right, up, at, edge),
        edge_now=edge_now(deviation, passes.place),
    )
