"""A pin off line on the demo rudder, against a beam of many members in Pynite.

Bending alone, sideways: the members have the stiffness of the box at their middle, so that agreement is that of the
subdivision. In Pynite a support is displaced; here it is set in by the force method.
"""

from __future__ import annotations

from itertools import pairwise
from pathlib import Path

import numpy as np
import pytest

from surfacecheck.assessment import assess
from surfacecheck.reading import read
from surfacecheck.sections.stiffness import stiffness_of
from surfacecheck.studies import hinges_off_line

Pynite = pytest.importorskip("Pynite", reason="Pynite is the second program of this test: install the test extra")

DATA = Path(__file__).parents[2] / "data"
MOVED = [0.0, 0.8e-3, 0.0]


@pytest.fixture(scope="module")
def rudder():
    return assess(read(DATA / "rudder.toml"))


def frame(rudder, offsets):
    """Reactions of a beam along the pins with supports displaced, from root to tip."""
    y, stiffness = rudder.span.y, stiffness_of(rudder.effects.box)
    assert np.abs(stiffness.b_xz).max() < 1e-9 * np.abs(stiffness.b_xx).max()  # both skins alike
    EI = 1.0 / stiffness.b_xx
    places = np.unique(np.round(np.concatenate([rudder.span.breaks, np.linspace(y[0], y[-1], 221)]), 9))
    model = Pynite.FEModel3D()
    model.add_material("unit", 1.0, 1.0, 0.3, 0.0)
    for i, at in enumerate(places):
        model.add_node(f"n{i}", at, 0.0, 0.0)
        model.def_support(f"n{i}", False, False, True, True, True, False)
    for i, (low, high) in enumerate(pairwise(places)):
        middle = float(np.interp(0.5 * (low + high), y, EI))
        model.add_section(f"s{i}", 1e6, middle, middle, 1.0)
        model.add_member(f"m{i}", f"n{i}", f"n{i + 1}", "unit", f"s{i}")
    pins = [f"n{int(np.argmin(np.abs(places - rudder.span.breaks[b])))}" for b in rudder.span.hinges.values()]
    for node, offset in zip(pins, offsets, strict=True):
        model.def_support(node, node == pins[0], True, True, True, True, False)
        model.def_node_disp(node, "DY", offset)
    model.analyze_linear(check_stability=False)
    return np.array([model.nodes[node].RxnFY["Combo 1"] for node in pins])


def test_middle_pin_off_line(rudder):
    found = hinges_off_line(rudder, MOVED, [0.0] * 3)
    ours = -found.bound[:, 0] * rudder.surface.left_is  # force of the pins on the surface, towards the offset
    assert frame(rudder, MOVED) == pytest.approx(ours, rel=2e-3)
    assert np.abs(ours).max() > 50.0
