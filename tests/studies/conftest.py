"""Surfaces on which a force is followed: by hand, the demos, an edge with a corner, outline and hinges alone."""

from __future__ import annotations

from pathlib import Path

import pytest

from surfacecheck.reading import read, read_text

DATA = Path(__file__).parents[2] / "data"
HAND = Path(__file__).parents[1] / "hand" / "rudder_by_hand.toml"

BARE = """
form = 1
kind = "rudder"
half = "none"
[outline]
at = [
  { up = "0 mm", edge_behind = "420 mm" },
  { up = "1100 mm", edge_behind = "300 mm" },
]
[hinge.bottom]
up = "90 mm"
[hinge.top]
up = "1010 mm"
"""
PLACE = (
    '{{ up = "{} mm", nose_ahead = "{} mm", nose_around = "{} mm", web_behind = "25 mm", '
    'edge_behind = "{} mm", spar_depth = "{} mm" }},\n'
)
KINKED = f"""
based_on = "rudder.toml"
title = "edge with a corner between rib 4 and 5, pins off the middle"
[outline]
pins_off_middle = "5 mm left"
at = [
{PLACE.format(0, 35, 145, 420, 60)}{PLACE.format(600, 35, 145, 420, 60)}{PLACE.format(1100, 30, 125, 300, 45)}]
"""


@pytest.fixture(scope="session")
def surfaces():
    return {
        "by hand": read(HAND),
        "rudder": read(DATA / "rudder.toml"),
        "elevator": read(DATA / "elevator.toml"),
        "open edge": read(DATA / "elevator.toml", DATA / "elevator_open_edge.toml"),
        "kinked": read_text(KINKED, "kinked.toml", DATA),
        "bare": read_text(BARE, "bare.toml"),
    }
