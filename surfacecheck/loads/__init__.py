"""Design airload and load cases: what acts on the surface, before anything holds it.

Axes: y along the hinge line from root to tip, x aft, z = x cross y. A +z pressure aft of the hinge gives a negative
torque about +y. All loads are limit loads, in SI.
"""

from surfacecheck.loads import appendix_a, part23
from surfacecheck.loads._chordwise import CURVED, EVEN, SHAPES, STRAIGHT, Shape, running_torque
from surfacecheck.loads._planform import Planform, Start
from surfacecheck.loads._ribs import at_ribs

__all__ = [
    "CURVED",
    "EVEN",
    "SHAPES",
    "STRAIGHT",
    "Planform",
    "Shape",
    "Start",
    "appendix_a",
    "at_ribs",
    "part23",
    "running_torque",
]
