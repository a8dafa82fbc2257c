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
        airless = {case.title for case in ways[way].cases if case.air is None}
        titles = {case.replace(", nose taken as open", "").replace(", cables as if slack", "") for case in cases}
        assert {title.endswith("through the ribs") for title in titles - airless} == {ends}
        assert titles & airless  # what brings no airload is there whichever way one comes


def test_a_case_without_airload_is_there_once(ways):
    for way, lines in (("evenly", 1), ("through ribs", 2), ("both", 2)):
        titles, cases = ways[way].case_titles, ways[way].cases
        assert len(set(titles)) == len(titles) == sum(1 if case.air is None else lines for case in cases)


def test_both_takes_the_worse(ways):
    for name in ("hinge.middle.pin:bearing", "spar", "row.left_skin_to_spar"):
        one, other = (ways[way].find(name).margin for way in ("evenly", "through ribs"))
        assert ways["both"].find(name).margin == pytest.approx(min(one, other), rel=1e-12)


def test_the_difference_is_shown(ways):
    assert all(pin.ways is None for pin in ways["evenly"].pins)
    both = ways["both"]
    reactions = both.beam.reactions
    titles = both.case_titles
    ribs = [c for c, title in enumerate(titles) if title.endswith(", through the ribs")]
    evenly = [titles.index(titles[c].removesuffix(", through the ribs")) for c in ribs]
    largest = np.abs(reactions[ribs]).max(axis=(-2, -1))
    by_hand = (np.abs(reactions[evenly] - reactions[ribs]).max(axis=-1) / largest[:, None]).max(axis=0)
    assert [pin.ways.value for pin in both.pins] == pytest.approx(list(by_hand))
