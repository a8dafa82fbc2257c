"""What a rib hands to the web, and what its panels pull: forces of the horn and of weights go to the web alone."""

from __future__ import annotations

import numpy as np
import pytest

import surfacecheck

CASE = "side load to the left, even, through the ribs"


def rudder(root, *lines):
    text = "\n".join(('based_on = "rudder.toml"', 'title = "ribs"', *lines))
    return surfacecheck.assess(surfacecheck.read_text(text, folder=root / "data"))


def row(assessment, name):
    return next(load for load in assessment.rows if load.row.name == name)


@pytest.fixture(scope="module")
def straight(request):
    return rudder(request.config.rootpath)


@pytest.fixture(scope="module")
def inward(request):
    return rudder(request.config.rootpath, 'horn.leaves = "30 deg inward"')


def test_side_force_of_the_horn_goes_through_its_rib(straight, inward):
    """The arm is square to the cable, so the pull that holds the torque stays, 863.3 N; half of it then goes inward."""
    at = straight.effects.cases.index(CASE)
    pull = -straight.effects.horn_force[at, :, 0].sum() - 240.0  # less the rigging pull of two cables
    push = pull * np.sin(np.radians(30.0))
    assert push == pytest.approx(431.6, abs=0.05)
    assert straight.effects.rib_load[at] == pytest.approx(straight.effects.rib_air[at], abs=1e-9)
    more = inward.effects.rib_load[at] - straight.effects.rib_load[at]
    assert more == pytest.approx([push, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0], abs=1e-6)


def test_the_row_of_that_rib_carries_it(inward):
    """252.6 N without the push of the horn, 431.6 N with it: 684.2 N over 2 rivets."""
    load = row(inward, "ribs_to_spar")
    at = load.cases.index(CASE)
    assert load.flow[at, 0] == pytest.approx(252.6 + 431.6, abs=0.1)
    assert load.shear[at, 0] == pytest.approx(load.flow[at, 0] / 2.0)


def test_a_weight_is_no_suction_of_a_panel(straight, request):
    """A mass on the arm of the last rib pushes that rib; its skins pull on their rivets as before."""
    mass = 'balance_mass = { mass = "1.2 kg", up = "1100 mm", ahead = "120 mm" }'
    heavy = rudder(request.config.rootpath, mass)
    pulls = [row(one, "left_skin_to_ribs").tension[:, -1].max() for one in (straight, heavy)]
    assert pulls[1] == pytest.approx(pulls[0], rel=1e-12)
    loads = [np.abs(one.effects.whole.rib_load[:, -1]).max() for one in (straight, heavy)]
    air = [np.abs(one.effects.whole.rib_air[:, -1]).max() for one in (straight, heavy)]
    assert air[1] == pytest.approx(air[0], rel=1e-12)
    assert loads[1] > air[1] == loads[0]
