"""What every part weighs, the moment about the hinge line, and what would balance it."""

from surfacecheck.masses._after import same_weighing, weigh_after, weigh_as_changed
from surfacecheck.masses._apart import rivets_more
from surfacecheck.masses._bench import inertia_by_swing, level_moment, mean_and_friction
from surfacecheck.masses._criteria import (
    FREE_PLAY,
    FRICTION,
    GATE_MACH,
    GATE_SPEED,
    SCALE_ERROR,
    balance_parameter,
    free_play_share,
    gate_open,
)
from surfacecheck.masses._nose_mass import nose_arm
from surfacecheck.masses._paint import PAINT_RANGE, Painted, painted
from surfacecheck.masses._parts import LeftOut, Piece, Spread
from surfacecheck.masses._rivets import one_rivet, rivet_mass, solid_rivet
from surfacecheck.masses._scales import Readings, read_scales
from surfacecheck.masses._sheet import channel, half_ellipse, strip_law
from surfacecheck.masses._weigh import GRAVITY, Masses, weigh

__all__ = [
    "FREE_PLAY",
    "FRICTION",
    "GATE_MACH",
    "GATE_SPEED",
    "GRAVITY",
    "PAINT_RANGE",
    "SCALE_ERROR",
    "LeftOut",
    "Masses",
    "Painted",
    "Piece",
    "Readings",
    "Spread",
    "balance_parameter",
    "channel",
    "free_play_share",
    "gate_open",
    "half_ellipse",
    "inertia_by_swing",
    "level_moment",
    "mean_and_friction",
    "nose_arm",
    "one_rivet",
    "painted",
    "read_scales",
    "rivet_mass",
    "rivets_more",
    "same_weighing",
    "solid_rivet",
    "strip_law",
    "weigh",
    "weigh_after",
    "weigh_as_changed",
]
