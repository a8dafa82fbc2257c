"""Surfaces that the pictures and the page are tried on: whole, without sheet, with outline, load and hinges alone."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from surfacecheck.assessment import assess
from surfacecheck.reading import read, read_text

DATA = Path(__file__).parents[2] / "data"
DEMO = (DATA / "rudder.toml").read_text(encoding="utf-8")

BARE = """
form = 1
kind = "rudder"
half = "none"
name = "Half a <b>rudder</b> & $x_1$"
[load]
pressure = "1.20 kPa (letter)"
over = "behind pins"
level = "limit"
begins_at = "pins"
fades_aft = ["straight to zero"]
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


def without_sheet(text: str) -> str:
    """The demo with the thickness of its spar not known."""
    changed, count = re.subn(r'(?s)(\[sheet\.spar\]\s*thickness = )"[^"]*"', r'\1"?"', text)
    assert count == 1
    return changed


@pytest.fixture(scope="session")
def rudder():
    return assess(read(DATA / "rudder.toml"))


@pytest.fixture(scope="session")
def elevator():
    return assess(read(DATA / "elevator.toml"))


@pytest.fixture(scope="session")
def no_sheet():
    return assess(read_text(without_sheet(DEMO)))


@pytest.fixture(scope="session")
def bare():
    return assess(read_text(BARE))


@pytest.fixture(scope="session", params=["rudder", "elevator"])
def demo(request):
    return request.getfixturevalue(request.param)


@pytest.fixture(scope="session", params=["rudder", "elevator", "no_sheet", "bare"])
def surface(request):
    return request.getfixturevalue(request.param)
