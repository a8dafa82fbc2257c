"""Cautions chosen by words: every kind of event has one, and none of them reads as permission."""

from __future__ import annotations

import re

import pytest

from surfacecheck.studies import CAUTIONS, TOPICS, cautions_for, topics_for

SMELLS = [
    ("hole too large", {"fatigue", "workmanship"}),
    ("oval hole", {"fatigue", "workmanship"}),
    ("two holes touch: figure eight", {"fatigue", "workmanship"}),
    ("stray hole in the web", {"fatigue", "workmanship"}),
    ("edge short", {"fatigue"}),
    ("rivet missing", {"fatigue"}),
    ("row drifted", {"fatigue"}),
    ("other rivet", {"corrosion"}),
    ("wrong rivet, grip too short", {"workmanship"}),
    ("square inside corner", {"fatigue"}),
    ("nick filed out", {"fatigue", "corrosion"}),
    ("skin crack at the last stiffener rivet", {"fatigue"}),
    ("lightening hole enlarged", {"fatigue", "flutter", "workmanship"}),
    ("doubler short", {"fatigue", "flutter", "corrosion"}),
    ("other alloy", {"fatigue"}),
    ("thicker gauge", {"fatigue", "flutter"}),
    ("shim under a flange", {"corrosion", "workmanship"}),
    ("painted", {"flutter", "corrosion"}),
    ("tab and servo put in", {"flutter"}),
    ("mass at the trailing edge", {"flutter"}),
    ("steel rivets in an aluminium skin (dissimilar metal)", {"corrosion"}),
    ("rivet look: head not seated", {"workmanship"}),
    ("hinge has free play", {"flutter"}),
    ("hinge not in line", {"workmanship"}),
    ("storm at the tie-down", {"workmanship"}),
    ("over-travel", {"workmanship"}),
    ("trailing edge not closed", {"flutter"}),
]


@pytest.mark.parametrize(("what", "topics"), SMELLS, ids=[what for what, _ in SMELLS])
def test_each_kind_of_event_smells_of_its_topics(what, topics):
    assert topics <= set(topics_for(what))
    said = cautions_for(what)
    assert len(said) == len(set(said)) >= len(topics)
    assert {one.partition(":")[0].casefold() for one in said} == set(topics_for(what))


@pytest.mark.parametrize("what", ["", "other pitch", "rivet 3 of the whole row", "8 mm ahead, in cream", "as drawn"])
def test_what_smells_of_nothing_gets_nothing(what):
    assert cautions_for(what) == ()


def test_underscores_and_capitals_do_not_matter():
    assert cautions_for("Hole_Too_Large") == cautions_for("hole too large") != ()


def test_every_sentence_is_reached_and_permits_nothing():
    reached = {one for what, _ in SMELLS for one in cautions_for(what)}
    reached |= {one for what in ("skin oil-cans", "bracket moved") for one in cautions_for(what)}
    every = {f"{one.topic.capitalize()}: {one.says}" for one in CAUTIONS}
    assert every == reached
    assert {one.topic for one in CAUTIONS} == set(TOPICS)
    bad = re.compile(r"\b(safe|ok|fine|passes|approved|airworthy|enough|recommend)\b", re.IGNORECASE)
    assert [one.says for one in CAUTIONS if bad.search(one.says)] == []
    assert all(one.says.isascii() and len(one.says) < 200 for one in CAUTIONS)
