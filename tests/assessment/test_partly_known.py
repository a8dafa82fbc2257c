"""What is known in part only: one rib without a place, a nose nobody measured at the tip. Nothing else is lost."""

from __future__ import annotations

import re
from pathlib import Path

from surfacecheck.assessment import assess
from surfacecheck.assessment._load import THROUGH_RIBS
from surfacecheck.reading import read, read_text

DATA = Path(__file__).parents[2] / "data"
DEMO = (DATA / "rudder.toml").read_text(encoding="utf-8")


def test_one_rib_without_a_place_hides_the_way_through_the_ribs_only():
    text, count = re.subn(r'(?m)^(up = \["0 mm[^"]*", )"[^"]*"', r'\1"?"', DEMO)
    assert count == 1
    assessment = assess(read_text(text))
    assert not [title for title in assessment.case_titles if THROUGH_RIBS in title]
    assert [title for title in assess(read(DATA / "rudder.toml")).case_titles if THROUGH_RIBS in title]
    (gap,) = [one for one in assessment.gaps if one.key == "sheet.ribs.up[2]"]
    assert "load handed over at ribs" in gap.hides
    assert assessment.find("row.left_skin_to_spar").margin is not None


def test_a_nose_nobody_measured_leaves_the_rear_box():
    text, count = re.subn(r'nose_ahead = "30 mm[^"]*"', 'nose_ahead = "?"', DEMO)
    assert count == 1
    assessment = assess(read_text(text))
    box = assessment.effects.box
    assert box is not None
    assert box.has("skin_plus")
    assert not box.has("nose")
    assert any("nose_ahead" in one for one in assessment.assumptions)
    (gap,) = [one for one in assessment.gaps if one.key == "outline.at[2].nose_ahead"]
    assert "the cell of the nose" in gap.hides


def test_a_panel_has_the_name_of_its_skin_in_the_file():
    names = {one.check.place for one in assess(read(DATA / "elevator.toml")).findings}
    assert {"panel.top_skin", "panel.bottom_skin"} <= names
    assert not names & {"panel.left_skin", "panel.right_skin"}
