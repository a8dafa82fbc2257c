"""A rivet that is not the worst of its group has a working of its own."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest

from surfacecheck.assessment import assess
from surfacecheck.errors import SurfaceError
from surfacecheck.reading import read

DATA = Path(__file__).parents[2] / "data"
FACTOR = 1.5 * 1.15
"""14 CFR 23.303 and 23.625, as the demo's margins have them."""


@pytest.fixture(scope="module")
def rudder():
    return assess(read(DATA / "rudder.toml"))


def by_hand(load, strength, rivet):
    """Lowest margin in shear and pull together over the cases: 1 / (FS sqrt(Rs^2 + Rt^2)) - 1."""
    shear, pull = load.shear[..., rivet], np.maximum(load.tension[..., rivet], 0.0)
    return float(np.min(1.0 / (FACTOR * np.hypot(shear / strength.shear.si, pull / strength.pull.si)) - 1.0))


def test_each_rivet_of_a_bracket_has_its_own_margin(rudder):
    load = next(one for one in rudder.brackets if one.hinge.name == "middle")
    strength = rudder.surface.rivets[load.bracket.rivet]
    margins = []
    for rivet in range(load.shear.shape[-1]):
        found = rudder.find(f"hinge.middle.bracket.rivet-{rivet + 1}:rivet-both")
        assert found.name == f"hinge.middle.bracket.rivet-{rivet + 1}:rivet-both"
        assert found.margin == pytest.approx(by_hand(load, strength, rivet), rel=1e-9)
        margins.append(found.margin)
    assert min(margins) == rudder.find("hinge.middle.bracket:rivet-both").margin


def test_each_rivet_of_the_horn_has_its_own_margin(rudder):
    """Over all cases some carry less than others: shear alone, P_s / (FS S) - 1."""
    strength = rudder.surface.rivets[rudder.surface.horn.fixed_with.rivet].shear.si
    worst = rudder.horn.shear.reshape(-1, rudder.horn.shear.shape[-1]).max(axis=0)
    margins = [rudder.find(f"horn.rivets.rivet-{one + 1}:rivet-shear").margin for one in range(worst.size)]
    assert margins == pytest.approx(list(strength / (FACTOR * worst) - 1.0), rel=1e-9)
    assert max(margins) > min(margins) + 0.4


@pytest.mark.parametrize("name", ["hinge.middle.bracket.rivet-3", "middle hinge, bracket rivet 3",
                                  "hinge middle, bracket rivet 3"])  # fmt: skip
def test_without_a_mode_the_lowest_of_that_rivet_is_meant(rudder, name):
    found = rudder.find(name)
    every = [rudder.find(f"hinge.middle.bracket.rivet-3:{one.check.mode}") for one in rudder.findings
             if one.check.place == "hinge.middle.bracket" and one.kind == "margin"]  # fmt: skip
    assert found.spot == "rivet 3"
    assert len(every) > 5
    assert found.margin == min(one.margin for one in every)


def test_what_gives_next_is_of_the_same_rivet(rudder):
    found = rudder.find("horn.rivets.rivet-4")
    after = rudder.next_of(found)
    assert (after.spot, after.check.place) == ("rivet 4", "horn.rivets")
    assert after.margin > found.margin
    assert f"Next to go: {after.gives}" in rudder.show("horn rivet 4")


def test_the_worst_rivet_is_the_finding_on_the_page(rudder):
    worst = rudder.find("horn.rivets:rivet-shear")
    assert rudder.find(f"{worst.place}:rivet-shear") is worst


def test_a_rivet_that_is_not_there(rudder):
    with pytest.raises(SurfaceError, match=r"no number is called .hinge\.middle\.bracket\.rivet-9.; names are such as"):
        rudder.find("hinge.middle.bracket.rivet-9")
