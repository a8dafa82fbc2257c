"""What every part weighs, the moment about the hinge line, and what would balance it."""

from surfacecheck.masses._parts import LeftOut, Piece, Spread
from surfacecheck.masses._rivets import one_rivet, rivet_mass, solid_rivet
from surfacecheck.masses._sheet import channel, half_ellipse, strip_law
from surfacecheck.masses._weigh import GRAVITY, Masses, weigh

__all__ = [
    "GRAVITY",
    "LeftOut",
    "Masses",
    "Piece",
    "Spread",
    "channel",
    "half_ellipse",
    "one_rivet",
    "rivet_mass",
    "solid_rivet",
    "strip_law",
    "weigh",
]
