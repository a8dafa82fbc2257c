"""One force followed, in words: places as a builder says them, what is wrong in one line, text, data."""

from __future__ import annotations

import json
import re

import pytest

from surfacecheck.errors import SurfaceError
from surfacecheck.studies import follow, following_data, following_html, following_text


@pytest.mark.parametrize(
    ("asked", "says"),
    [
        ("trailing edge, at rib 3", "trailing edge, at rib 3"),
        ("  Edge at RIB 3 ", "trailing edge, at rib 3"),
        ("on the trailing edge: ribs 3", "trailing edge, at rib 3"),
        ("trailing edge between rib 3 and rib 2", "trailing edge, between rib 2 and 3"),
        ("spar, at 325 mm", "spar, at 325 mm"),
        ("web at 12.5 in", "spar, at 318 mm"),
        ("leading edge, at hinge middle", "nose, at hinge middle"),
        ("hinge.middle", "spar at the bracket of hinge middle"),
        ("middle hinge", "spar at the bracket of hinge middle"),
        ("horn, right", "horn, right cable bolt"),
    ],
)
def test_places_in_a_builders_words(surfaces, asked, says):
    assert follow(surfaces["rudder"], asked, "1 N").place.words == says


@pytest.mark.parametrize(
    ("place", "load", "direction", "says"),
    [
        (
            "trailing egde, at rib 2",
            "100 N",
            "sideways",
            r"place: no place .*Nearest: trailing edge, at rib 2",
        ),
        ("the hinge upper", "100 N", "sideways", "Places: trailing edge, spar or nose: at rib 2, .*; horn"),
        ("trailing edge", "100 N", "sideways", "Nearest: trailing edge, "),
        ("trailing edge, at rib 8", "100 N", "sideways", "there is no rib 8; there are rib 1 to rib 7"),
        ("trailing edge, between rib 2 and 4", "100 N", "sideways", "no neighbours. Write: between rib 2 and 3"),
        ("spar, at 1200 mm", "100 N", "sideways", "at 1200 mm; the surface goes from 0 to 1100 mm"),
        ("spar, at 0,5 m", "100 N", "sideways", 'has a comma. Write "0.5 m"'),
        ("spar, at 300", "100 N", "sideways", "300 has no unit"),
        ("horn, top", "100 N", "sideways", "Nearest: horn, left or horn, right"),
        ("horn", "10 N m", "torque", "a bolt takes no torque"),
        ("horn", "100", "sideways", 'load: 100 has no unit. Write "100 N"'),
        ("horn", "10 kg", "sideways", "is a mass; a force is asked"),
        ("horn", "10 N m", "sideways", "is a torque; a force is asked"),
        ("horn", "0 N", "sideways", "nothing to follow"),
        ("horn", "100 N", "top", 'direction: "top" is no direction here'),
        ("horn", "100 N", "sidewards", "Nearest: sideways"),
    ],
)
def test_one_line_says_what_is_wrong(surfaces, place, load, direction, says):
    with pytest.raises(SurfaceError, match=says) as caught:
        follow(surfaces["rudder"], place, load, direction)
    assert len(str(caught.value).split("\n")) == 1


def test_what_is_not_known_is_asked_for(surfaces):
    with pytest.raises(SurfaceError, match="web_behind is not given"):
        follow(surfaces["bare"], "spar, at 100 mm", "100 N")
    with pytest.raises(SurfaceError, match=r"horn\.driven_by is not given"):
        follow(surfaces["bare"], "horn", "100 N")
    with pytest.raises(SurfaceError, match="no rib has a place yet"):
        follow(surfaces["bare"], "trailing edge, at rib 1", "100 N")
    with pytest.raises(SurfaceError, match="is no part"):
        follow(surfaces["bare"], "trailing edge, at 1 mm", "100 N").only("lift")


@pytest.mark.parametrize("system", ["metric", "inch"])
@pytest.mark.parametrize("direction", ["sideways", "fore-and-aft", "along", "torque"])
@pytest.mark.parametrize("name", ["rudder", "elevator", "by hand"])
def test_the_text_fits_a_terminal(surfaces, name, direction, system):
    load = "10 N m" if direction == "torque" else "100 N"
    one = follow(surfaces[name], "trailing edge, at rib 3", load, direction)
    text = following_text(one, system)
    assert text.isascii()
    assert max(len(line) for line in text.split("\n")) <= 80
    assert [bool(re.search(rf"\d {unit}\b", text)) for unit in ("lbf", "N")] == [system == "inch", system == "metric"]
    assert "No flight on" in text
    for step in one.steps:
        assert (step.name or step.words.split(",")[0]) in text


def test_data_and_html(surfaces):
    one = follow(surfaces["rudder"], "trailing edge, between rib 2 and 3", "100 N")
    data = json.loads(json.dumps(following_data(one), allow_nan=False))
    assert data["form"] == 1
    assert [s["hands_on"][0]["value"] for s in data["steps"]] == [s.handed[0].value for s in one.steps]
    assert data["cuts"][0]["across"]["torque"] == one.cuts[0].across[4]
    assert "<table>" in following_html(one) == one._repr_html_()
    assert str(one) == following_text(one)
