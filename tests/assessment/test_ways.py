"""How the load comes to the spar: evenly, through the ribs, or both with their difference shown."""

import numpy as np
import pytest

import surfacecheck

FOLDER = "data"
CHANGE = 'based_on = "rudder.toml"\ntitle = "way"\nmethod.load_reaches_spar = "{}"\n'


def assessed(way, root):
    return surfacecheck.assess(surfacecheck.read_text(CHANGE.format(way), folder=root / FOLDER))


@pytest.fixture(scope="module")
def ways(request):
    return {way: assessed(way, request.config.rootpath) for way in ("evenly", "through ribs", "both")}


def test_only_what_was_asked_counts(ways):
    for way, ends in (("evenly", False), ("through ribs", True)):
        cases = {worst.case for pin in ways[way].pins for worst in (pin.sideways, pin.fore_aft)}
        cases |= {finding.case for finding in ways[way].margins}
        assert {case.replace(", nose taken as open", "").endswith("through the ribs") for case in cases} == {ends}


def test_both_takes_the_worse(ways):
    for name in ("hinge.middle.pin:bearing", "spar", "row.left_skin_to_spar"):
        one, other = (ways[way].find(name).margin for way in ("evenly", "through ribs"))
        assert ways["both"].find(name).margin == pytest.approx(min(one, other), rel=1e-12)


def test_the_difference_is_shown(ways):
    assert all(pin.ways is None for pin in ways["evenly"].pins)
    both = ways["both"]
    reactions = both.beam.reactions
    half = reactions.shape[0] // 2
    largest = np.abs(reactions[half:]).max(axis=(-2, -1))
    by_hand = (np.abs(reactions[:half] - reactions[half:]).max(axis=-1) / largest[:, None]).max(axis=0)
    assert [pin.ways.value for pin in both.pins] == pytest.approx(list(by_hand))
