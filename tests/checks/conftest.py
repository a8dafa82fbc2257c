"""The demo surfaces, assessed once."""

from __future__ import annotations

from pathlib import Path

import pytest

import surfacecheck

DATA = Path(__file__).parents[2] / "data"


@pytest.fixture(scope="session", params=["rudder", "elevator", "elevator_open_edge"])
def demo(request):
    return surfacecheck.assess(surfacecheck.read(DATA / f"{request.param}.toml"))
