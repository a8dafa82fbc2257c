"""An open section takes torque by its walls' own twisting, T t / J; a section with a cell does not."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest

import surfacecheck
from surfacecheck.sections import open_torsion_stress

DATA = Path(__file__).parents[2] / "data"

J_ROOT = (1.016**3 * (54.864 + 2 * 18.542) + 0.508**3 * 2 * np.hypot(330.2, 27.178)) / 3
"""Sum of l t^3 / 3 of web, flanges and skins at the root, middle lines [mm^4]: 61.1 by hand."""


@pytest.fixture(scope="module")
def opened():
    """The demo elevator with its trailing edge open; its nose closes a cell between the openings for the hinges."""
    return surfacecheck.assess(surfacecheck.read(DATA / "elevator_open_edge.toml"))


def test_the_torsion_stress_of_the_web_is_in_its_margin(opened):
    """64.0 N m on 61.1 mm^4 at 1.016 mm: 1064.4 MPa, and 0.8 of flow; F_su is 255.1 MPa."""
    found = opened.find("spar.web:shear")
    assert pytest.approx(61.1, rel=1e-3) == J_ROOT
    assert found.value("J") == pytest.approx(J_ROOT * 1e-12, rel=1e-4)
    assert found.value("T") == pytest.approx(64.01, rel=1e-4)
    assert found.value("f_s") == pytest.approx(1e6 * (0.790 / 1.016 + 64.013e3 * 1.016 / J_ROOT), rel=1e-4)
    assert found.margin == pytest.approx(255.106e6 / (1.5 * found.value("f_s")) - 1.0, rel=1e-6)
    assert (found.outcome, found.case) == ("less than required", "air load to the bottom, even, nose taken as open")


@pytest.mark.parametrize("name", ["top_skin", "bottom_skin", "nose_skin"])
def test_a_skin_twists_with_it(name, opened):
    """The same rate of twist in half the thickness: half the stress of the web, 532 MPa, and what flows through."""
    web, skin = opened.find("spar.web:shear"), opened.find(f"panel.{name}:shear")
    twist = web.value("T") * web.value("t") / web.value("J")
    assert skin.value("T") * skin.value("t") / skin.value("J") == pytest.approx(0.5 * twist, rel=1e-6)
    assert skin.value("f_s") == pytest.approx(skin.value("q") / 0.508e-3 + 0.5 * twist, rel=1e-6)
    assert skin.margin < -0.7


def test_it_is_the_stress_of_the_kernel(opened):
    effects, box = opened.effects.whole, opened.effects.box
    torque, constant = effects.open_twist
    here = torque[len(effects.cases) :] * 1.016e-3 / constant[len(effects.cases) :]
    alone = open_torsion_stress(box.rear_alone, effects._torque(1).T)
    assert here == pytest.approx(alone[..., box.wall("web")].T, rel=1e-12)


def test_where_the_nose_closes_a_cell_nothing_is_left_to_twist(opened):
    effects, closed = opened.effects.whole, opened.effects.box.closed
    cell = closed.J_cells > 100.0 * closed.J_open
    as_it_is = effects.open_twist[0][: len(effects.cases)]
    assert 5 < cell.sum() < cell.size
    assert not as_it_is[:, cell].any()
    assert as_it_is[:, ~cell].any(axis=0).sum() > 5


def test_holes_of_a_bracket_are_read_from_the_same_stress(opened):
    net = opened.find("hinge.inner.bracket.web:net-shear")
    assert net.value("f_s") > 100.0 * 1e6
    assert net.margin < -0.8


@pytest.mark.parametrize("name", ["rudder", "elevator"])
def test_a_closed_box_has_none_of_it(name):
    found = surfacecheck.assess(surfacecheck.read(DATA / f"{name}.toml"))
    assert not found.effects.open_twist[0].any()
    for finding in (f for f in found.findings if f.check.mode == "shear"):
        assert "T" not in finding.check.terms
        assert not finding.check.steps
