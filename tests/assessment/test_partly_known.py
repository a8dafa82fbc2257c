"""What is known in part only: one rib without a place, a nose nobody measured at the tip. Nothing else is lost."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from surfacecheck.assessment import as_data, assess
from surfacecheck.assessment._load import THROUGH_RIBS
from surfacecheck.errors import SurfaceError
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


@pytest.mark.parametrize("ways", ['["?", "up", "up", "up", "up", "up", "down"]', '["?", "down"]', '["?"]', '"?"'])
def test_flanges_of_ribs_are_not_known_while_one_is_not(ways):
    """Neither does the rest move up by one, nor does one word that is known hold for all ribs."""
    text, count = re.subn(r'(?m)^flanges_point = \["up".*', f"flanges_point = {ways}", DEMO)
    assert count == 1
    surface = read_text(text)
    assert surface.sheet.ribs.flanges_point == ()
    assert "sheet.ribs.flanges_point" in surface.gaps


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


ODD = {
    'out_of_line = "0 mm (thread)"': 'out_of_line = "0.3 mm left"',
    'out_of_line_aft = "0 mm (thread)"': 'out_of_line_aft = "0.2 mm behind"',
    'gives_sideways = "none"': 'gives_sideways = "0.1 mm/kN"',
    'gives_fore_aft = "none"': 'gives_fore_aft = "0.1 mm/kN"',
    'fin_bends = "none"': 'fin_bends = "0.4 mm left"',
    'pins_off_middle = "0 mm (drawing)"': 'pins_off_middle = "2 mm left"',
    "[hinge.middle]\n": '[hinge.middle]\nout_of_line = "0 mm"\nfin_bends = "1 mm left"\n',
}
"""What the demo has at nought, so that it can be missed."""
TOLD_ELSEWHERE = {"gaps", "counts", "surface", "statements"}
"""What names the value itself."""


def odd_demo():
    text = DEMO
    for old, new in ODD.items():
        assert old in text
        text = text.replace(old, new, 1)
    return text


def answers(text):
    """Give where each answer in quotes begins and ends."""
    at = 0
    for line in text.splitlines(keepends=True):
        for found in re.finditer('"[^"]*"', re.split(r"(?:^|\s)#", line)[0]):
            yield at + found.start(), at + found.end()
        at += len(line)


def told(assessment):
    return repr({key: value for key, value in as_data(assessment).items() if key not in TOLD_ELSEWHERE})


def test_what_a_missing_value_changes_is_said_of_its_gap():
    """Each answer of a file taken out in turn: where anything else comes out then, its gap does not say "nothing"."""
    text = odd_demo()
    whole = assess(read_text(text))
    before, known = told(whole), set(whole.surface.gaps)
    silent, changed, unchanged = {}, 0, 0
    for start, end in answers(text):
        try:
            one = assess(read_text(text[:start] + '"?"' + text[end:]))
        except SurfaceError:
            continue
        new = set(one.surface.gaps) - known
        hides = {gap.key: gap.hides for gap in one.gaps if gap.key in new}
        if new and told(one) == before:
            unchanged += 1
        elif new:
            changed += 1
            silent |= {key: said for key in new if "nothing" in (said := hides.get(key, "nothing at all"))}
    assert silent == {}
    assert changed > 100  # or nothing was tried
    assert changed > unchanged


def test_what_goes_in_as_nothing_is_named():
    words = ("taken as in line", "taken as stiff")
    for whole in (DEMO, odd_demo()):
        assert not [one for one in assess(read_text(whole)).assumptions if any(word in one for word in words)]
    for key, word in (("out_of_line", 0), ("out_of_line_aft", 0), ("gives_fore_aft", 1), ("fin_bends", 1)):
        text, count = re.subn(rf'(?m)^{key} = "[^"]*"', f'{key} = "?"', DEMO)
        assert count == 1
        (found,) = [one for one in assess(read_text(text)).assumptions if any(word in one for word in words)]
        assert words[word] in found
