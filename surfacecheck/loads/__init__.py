"""Design airload and load cases: what acts on the surface, before anything holds it.

Axes: y along the hinge line from root to tip, x aft, z = x cross y. A +z pressure aft of the hinge gives a negative
torque about +y. All loads are limit loads, in SI.
"""

from surfacecheck.loads import appendix_a, part23
from surfacecheck.loads._airload import airload, airload_totals
from surfacecheck.loads._apply import apply, apply_ways, each_way, rigging
from surfacecheck.loads._case import (
    AirLoad,
    FigureA7Load,
    Inertia,
    LoadCase,
    MissingCase,
    PilotPull,
    PointInertia,
)
from surfacecheck.loads._case_loads import CaseLoads
from surfacecheck.loads._chordwise import CURVED, EVEN, SHAPES, STRAIGHT, Shape, running_torque
from surfacecheck.loads._from_surface import planform_of, side_word
from surfacecheck.loads._ground_cases import ground_gust_pressure, wind_cases
from surfacecheck.loads._hold import Hands, Hold
from surfacecheck.loads._horn import HornLine, horn_line, horn_needs
from surfacecheck.loads._leading import AT_REST, leading
from surfacecheck.loads._planform import Planform, Start
from surfacecheck.loads._ribs import at_ribs
from surfacecheck.loads._speeds import SpeedRow, speed_rows
from surfacecheck.loads._sums import UnitLoads
from surfacecheck.loads._swing import stop_moment, swing_energy
from surfacecheck.loads._tube import TubeTorque, tube_torques
from surfacecheck.loads.cases import load_cases

__all__ = [
    "AT_REST",
    "CURVED",
    "EVEN",
    "SHAPES",
    "STRAIGHT",
    "AirLoad",
    "CaseLoads",
    "FigureA7Load",
    "Hands",
    "Hold",
    "HornLine",
    "Inertia",
    "LoadCase",
    "MissingCase",
    "PilotPull",
    "Planform",
    "PointInertia",
    "Shape",
    "SpeedRow",
    "Start",
    "TubeTorque",
    "UnitLoads",
    "airload",
    "airload_totals",
    "appendix_a",
    "apply",
    "apply_ways",
    "at_ribs",
    "each_way",
    "ground_gust_pressure",
    "horn_line",
    "horn_needs",
    "leading",
    "load_cases",
    "part23",
    "planform_of",
    "rigging",
    "running_torque",
    "side_word",
    "speed_rows",
    "stop_moment",
    "swing_energy",
    "tube_torques",
    "wind_cases",
]
