"""A bare surface to put parts on, and the words that make one. Invented for the tests."""

from __future__ import annotations

from dataclasses import replace

import pytest

from surfacecheck.model import Alloy, BalanceMass, NoseSkin, Outline, OutlinePlace, Sheet, Skin, Surface
from surfacecheck.provenance import UNKNOWN, Basis, Source, Value

G = 9.80665
RHO = 2700.0
INVENTED = Source(Basis.INVENTED)
NONE = Value(None, "none", INVENTED, absent=True)


def v(si, key=""):
    return Value(si, str(si), INVENTED, key)


METAL = {"mine": Alloy(density=v(RHO), name="mine")}


def place(up, nose, web, edge, depth, around=None):
    return OutlinePlace(
        up=v(up),
        nose_ahead=v(nose),
        nose_around=UNKNOWN if around is None else v(around),
        web_behind=v(web),
        edge_behind=v(edge),
        spar_depth=v(depth),
    )


BARE = Sheet(left_skin=Skin(NONE), right_skin=Skin(NONE), nose_skin=NoseSkin(NONE))


@pytest.fixture
def surface():
    """1.1 m, web at 25 mm, edge 0.42 to 0.30 m, spar 60 to 45 mm deep; metal of 2700 kg/m3; nothing in it yet."""
    return Surface(
        outline=Outline(at=(place(0.0, 0.035, 0.025, 0.42, 0.06), place(1.1, 0.03, 0.025, 0.30, 0.045))),
        sheet=BARE,
        alloys=METAL,
        balance_mass=BalanceMass(NONE),
    )


def with_sheet(surface, **parts):
    return replace(surface, sheet=replace(surface.sheet, **parts))


def only(masses, name):
    return next(piece for piece in masses.pieces if piece.name == name)
