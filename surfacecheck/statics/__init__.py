"""Statics: a beam on hinges in two planes with torque, fastener groups and rows; plain arrays in, plain arrays out."""

from surfacecheck.statics._beam import Beam, solve, solve_each
from surfacecheck.statics._deflections import Deflections, deflections
from surfacecheck.statics._grid import Grid, grid, running
from surfacecheck.statics._groups import share_group, share_in_plane
from surfacecheck.statics._heel import heel_bound, prying_bound, shear_and_tension
from surfacecheck.statics._inside import INSIDE, InternalLoads
from surfacecheck.statics._loads import BeamLoads, close_with_couple, close_with_rod, point_force, unloaded
from surfacecheck.statics._mixed import solve_mixed
from surfacecheck.statics._row_lengths import row_reach, tributary_lengths
from surfacecheck.statics._row_pick_up import lap_pick_up, seam_pick_up
from surfacecheck.statics._spring_row import SeamRow, lap_joint, seam_row
from surfacecheck.statics._supports import LEAST_GAP, BeamStiffness, Supports, beam_stiffness

__all__ = [
    "INSIDE",
    "LEAST_GAP",
    "Beam",
    "BeamLoads",
    "BeamStiffness",
    "Deflections",
    "Grid",
    "InternalLoads",
    "SeamRow",
    "Supports",
    "beam_stiffness",
    "close_with_couple",
    "close_with_rod",
    "deflections",
    "grid",
    "heel_bound",
    "lap_joint",
    "lap_pick_up",
    "point_force",
    "prying_bound",
    "row_reach",
    "running",
    "seam_pick_up",
    "seam_row",
    "share_group",
    "share_in_plane",
    "shear_and_tension",
    "solve",
    "solve_each",
    "solve_mixed",
    "tributary_lengths",
    "unloaded",
]
