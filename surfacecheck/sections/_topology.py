"""Which wall joins which nodes: the part of a section that no dimension changes."""

from __future__ import annotations

from collections import deque
from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from surfacecheck.errors import SurfaceError

if TYPE_CHECKING:
    from numpy.typing import NDArray

__all__ = ["Topology", "TreeStep"]


class TreeStep(NamedTuple):
    """One node of the spanning tree, and the wall that leads from it towards the root."""

    node: int
    parent: int
    wall: int
    leaves: bool
    """Whether the wall starts at ``node`` (it ends there otherwise)."""


@dataclass(frozen=True)
class Topology:
    """Nodes and directed walls of a thin-walled section: open, one cell, or any number of cells.

    A wall that joins two nodes already joined by the walls listed *before* it is a cut wall: it closes a cell with
    them. So the order of the walls says which loops stand for the cells. List the spar first, then the skins, the nose
    last, and cell 0 is the box behind the spar, cell 1 the nose.

    Attributes
    ----------
    nodes : int
        How many nodes; they are numbered from 0.
    walls : tuple of (int, int)
        First and second node of each wall; shear flow is positive from the first to the second.

    Raises
    ------
    SurfaceError
        Where a wall names a node that is not there or joins a node to itself, or the walls are not all connected.

    Examples
    --------
    A spar web, two skins that meet behind it, and a nose ahead of it: two cells.

    >>> box = Topology(3, ((0, 1), (1, 2), (2, 0), (0, 1)))
    >>> box.cells, box.cut_walls
    (2, (2, 3))
    >>> box.loops
    (((2, 1), (0, 1), (1, 1)), ((3, 1), (0, -1)))
    """

    nodes: int
    walls: tuple[tuple[int, int], ...]

    def __post_init__(self) -> None:
        if self.nodes < 2 or not self.walls:
            message = (
                f"a section of {self.nodes} nodes and {len(self.walls)} walls: it needs at least two nodes and a wall"
            )
            raise SurfaceError(message)
        for wall, (first, second) in enumerate(self.walls):
            for node in (first, second):
                if not 0 <= node < self.nodes:
                    message = f"wall {wall} names node {node}: nodes run from 0 to {self.nodes - 1}"
                    raise SurfaceError(message)
            if first == second:
                message = f"wall {wall} joins node {first} to itself: divide it with one more node"
                raise SurfaceError(message)
        loose = sorted(set(range(self.nodes)) - set(self._reached))
        if loose:
            message = (
                f"node {loose[0]} is not connected to node 0 by any wall: a section is one piece; "
                "give the wall that joins it, or work the pieces one by one"
            )
            raise SurfaceError(message)

    @cached_property
    def cut_walls(self) -> tuple[int, ...]:
        """Walls that close a cell with walls listed before them."""
        group = list(range(self.nodes))

        def root(node: int) -> int:
            while group[node] != node:
                node = group[node]
            return node

        cut = []
        for wall, (first, second) in enumerate(self.walls):
            one, other = root(first), root(second)
            if one == other:
                cut.append(wall)
            group[one] = other
        return tuple(cut)

    @cached_property
    def _reached(self) -> dict[int, TreeStep | None]:
        """Nodes in the order in which the tree reaches them from node 0."""
        cut = set(self.cut_walls)
        touching: list[list[TreeStep]] = [[] for _ in range(self.nodes)]
        for wall, (first, second) in enumerate(self.walls):
            if wall not in cut:
                touching[first].append(TreeStep(second, first, wall, leaves=False))
                touching[second].append(TreeStep(first, second, wall, leaves=True))
        reached: dict[int, TreeStep | None] = {0: None}
        queue = deque([0])
        while queue:
            for step in touching[queue.popleft()]:
                if step.node not in reached:
                    reached[step.node] = step
                    queue.append(step.node)
        return reached

    @cached_property
    def tree(self) -> tuple[TreeStep, ...]:
        """Steps of the spanning tree, outermost nodes first: the order in which node equilibrium gives wall flows."""
        return tuple(step for step in reversed(self._reached.values()) if step is not None)

    @property
    def cells(self) -> int:
        """How many cells are closed [-]."""
        return len(self.cut_walls)

    @cached_property
    def loops(self) -> tuple[tuple[tuple[int, int], ...], ...]:
        """For each cell its walls as (wall, +1 or -1), its cut wall first and forwards."""

        def path(node: int) -> list[tuple[int, int]]:
            walls = []
            while (step := self._reached[node]) is not None:
                walls.append((step.wall, 1 if step.leaves else -1))
                node = step.parent
            return walls

        loops = []
        for cut in self.cut_walls:
            first, second = self.walls[cut]
            out, home = path(second), path(first)
            while out and home and out[-1] == home[-1]:
                out.pop()
                home.pop()
            loops.append(((cut, 1), *out, *((wall, -sign) for wall, sign in reversed(home))))
        return tuple(loops)

    @cached_property
    def loop_matrix(self) -> NDArray[np.int8]:
        """The loops as a matrix of 0, +1 and -1, shape (cells, walls)."""
        matrix = np.zeros((self.cells, len(self.walls)), dtype=np.int8)
        for cell, loop in enumerate(self.loops):
            for wall, sign in loop:
                matrix[cell, wall] = sign
        return matrix

    @cached_property
    def in_cell(self) -> NDArray[np.bool_]:
        """Which walls belong to a cell, shape (walls,)."""
        return np.asarray((self.loop_matrix != 0).any(axis=0))

    @cached_property
    def starts(self) -> NDArray[np.intp]:
        """First node of each wall, shape (walls,)."""
        return np.array([first for first, _ in self.walls], dtype=np.intp)

    @cached_property
    def ends(self) -> NDArray[np.intp]:
        """Second node of each wall, shape (walls,)."""
        return np.array([second for _, second in self.walls], dtype=np.intp)
