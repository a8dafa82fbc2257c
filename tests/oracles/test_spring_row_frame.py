"""A seam with a missing and a soft rivet, against bars and springs in Pynite.

The frame: two lines of bar members, the flow a distributed axial load on one and the opposite on the other, member by
member (overhangs too), springs for the rivets. The second line stands as much beside the first as further along: there
a spring lies at 45 degrees; nodes move along the lines only, so that it acts with half its stiffness.
"""

from __future__ import annotations

import numpy as np
import pytest

from surfacecheck.statics import lap_joint, seam_row

Pynite = pytest.importorskip("Pynite", reason="Pynite is the second program of this test: install the test extra")

PITCH = np.array([0.025, 0.025, 0.030, 0.025, 0.020, 0.025, 0.025, 0.025, 0.040, 0.025, 0.025])
STIFF = np.array([5.0, 5.0, 5.0, 1.2, 5.0, 5.0, 0.0, 5.0, 5.0, 0.0, 0.0, 8.0]) * 1e6  # N/m: soft, missing, two missing
EA_A, EA_B = 0.85e6, 1.3e6  # N
OVERHANG, FLOW, ASIDE = 0.012, 3500.0, 1.0e-3


def line(model, name, places, EA, aside, flow):
    """Put a line of bars into the model that only moves along itself."""
    model.add_section(name, EA, 1.0, 1.0, 1.0)
    for i, x in enumerate(places):
        model.add_node(f"{name}{i}", x + aside, aside, 0.0)
        model.def_support(f"{name}{i}", False, *(True,) * 5)
    for i in range(len(places) - 1):
        model.add_member(f"{name}{i}", f"{name}{i}", f"{name}{i + 1}", "unit", name)
        if flow:
            model.add_member_dist_load(f"{name}{i}", "FX", flow, flow)


def frame(places, stiff, joints, flow=0.0, pull=0.0):
    """Return the force of each spring; ``joints`` are the node numbers that rivets join."""
    model = Pynite.FEModel3D()
    model.add_material("unit", 1.0, 1.0, 0.3, 0.0)
    line(model, "a", places, EA_A, 0.0, flow)
    line(model, "b", places, EA_B, ASIDE, -flow)
    for i, k in zip(joints, stiff, strict=True):
        if k > 0.0:
            model.add_spring(f"r{i}", f"a{i}", f"b{i}", 2.0 * k)
    last = len(places) - 1
    model.def_support(f"b{last}", *(True,) * 6)
    if pull:
        model.add_node_load("a0", "FX", -pull)
    model.analyze_linear(check_stability=False)
    u = {side: np.array([model.nodes[f"{side}{i}"].DX["Combo 1"] for i in joints]) for side in "ab"}
    return stiff * (u["a"] - u["b"])


def rivets_at():
    return np.concatenate([[0.0], np.cumsum(PITCH)])


def test_seam_under_a_flow():
    """The flow comes in along the bars, not at the rivets: for a uniform one that is the same, to rounding."""
    at = rivets_at()
    places = np.concatenate([[-OVERHANG], at, [at[-1] + OVERHANG]])
    found = frame(places, STIFF, range(1, 13), flow=FLOW)
    ours = seam_row(STIFF, EA_A / PITCH, EA_B / PITCH, FLOW, PITCH, OVERHANG)
    assert ours.loads == pytest.approx(found, abs=1e-6 * np.abs(found).max())
    assert ours.factor[5] > 1.05  # beside the missing one, so that the agreement means something
    assert ours.factor[3] < 0.9


def test_lap_joint():
    """The first bar line is pulled at its first node, the second held at its last."""
    with np.errstate(divide="ignore"):
        ours = lap_joint(1 / STIFF, EA_A / PITCH, EA_B / PITCH, 800.0)
    found = -frame(rivets_at(), STIFF, range(12), pull=800.0)
    assert ours == pytest.approx(found, abs=1e-6 * np.abs(found).max())
    assert ours.max() / ours[STIFF > 0].min() > 5.0
