"""Half-filled files give half the answers: each gap hides its own, says so, and nothing else is lost. Invented."""

import re

import pytest

import surfacecheck
from surfacecheck.reading import read_text

from .conftest import DATA, laid, sound

PARTS = "CDEFGH"


@pytest.fixture(scope="module")
def whole_text():
    return (DATA / "rudder.toml").read_text(encoding="utf-8")


@pytest.mark.parametrize("letter", PARTS)
def test_a_file_filled_up_to_a_part(whole_text, letter):
    """Every part stands for itself: what comes later hides its own answers only."""
    cut = whole_text[: whole_text.index(f"# ---- {letter}")]
    one = surfacecheck.assess(read_text(cut, "half.toml", folder=DATA))
    sound(one)
    assert len(one.pins) == 3
    assert (len(one.rows) > 0) == (letter in "FGH")
    assert (len(one.brackets) > 0) == (letter in "GH")
    assert one.gaps


def test_only_papers_and_tape_give_pin_loads_by_statics(whole_text):
    """Constant stiffness, bending alone, named as an assumption."""
    cut = whole_text[: whole_text.index("# ---- C")]
    one = surfacecheck.assess(read_text(cut, "half.toml", folder=DATA))
    assert "constant stiffness" in one.assumptions[0]
    assert one.horn_pull is not None
    case = one.case_titles.index("side load to the left, even")
    assert one.beam.reactions[case, :, 2].sum() == pytest.approx(-475.2)  # 1.2 kPa x 1.1 m x (0.42 + 0.30) m / 2


def test_without_a_horn_fore_and_aft_loads_are_not_made_up(whole_text):
    cut = re.sub(r"\[horn\].*", "", whole_text[: whole_text.index("# ---- C")], flags=re.S)
    one = surfacecheck.assess(read_text(cut, "half.toml", folder=DATA))
    sound(one)
    assert one.horn_pull is None
    assert any("the horn is not known" in remark for remark in one.remarks)


UNKNOWN = {
    "skin": ({"sheet.left_skin.thickness": '"?"', "sheet.right_skin.thickness": '"?"', "sheet.nose_skin.thickness":
              '"0.5 mm"'}, "sheet.left_skin.thickness", "shear flows"),
    "skin's metal": ({"sheet.left_skin.alloy": '"?"'}, "sheet.left_skin.alloy", "shear flows"),
    "nose": ({"sheet.nose_skin.thickness": '"?"'}, "sheet.nose_skin.thickness", "cell of the nose"),
    "nose's metal": ({"sheet.nose_skin.alloy": '"?"'}, "sheet.nose_skin.alloy", "cell of the nose|nose skin"),
    "openings": ({"sheet.nose_skin.cut_at_hinge": '"?"'}, "sheet.nose_skin.cut_at_hinge", "cell"),
    "ribs": ({"sheet.ribs.up": '"?"', "sheet.ribs.flanges_point": '"?"'}, "sheet.ribs.up", "rib rows"),
    "rivet's figures": ({"rivet.small.shear": '"?"', "rivet.small.pull": '"?"'}, "rivet.small.shear", "rivet shears"),
    "rivet": ({"rivet.small.diameter": '"?"', "rivet.small.hole": '"?"'}, "rivet.small.diameter", "crushes"),
    "rivet of a row": ({"row.trailing_edge.rivet": '"?"'}, "row.trailing_edge.rivet", "that row"),
    "pitch": ({"row.trailing_edge.pitch": '"?"'}, "row.trailing_edge.pitch", "that row"),
    "edge distance": (
        {"row.trailing_edge.edge.left_skin": '"?"'}, "row.trailing_edge.edge.left_skin", "tears to its edge"
    ),
    "bracket's rivet": ({"bracket.plate.rivet": '"?"'}, "bracket.plate.rivet", "rivets of the bottom hinge bracket"),
    "pattern": ({"bracket.plate.along": '"?"'}, "bracket.plate.along", "rivets of the bottom hinge bracket"),
    "face": ({"bracket.plate.on_face": '"?"'}, "bracket.plate.on_face", "rivets of the bottom hinge bracket"),
    "pin": ({"bracket.plate.pin.diameter": '"?"'}, "bracket.plate.pin.diameter", "pin shears"),
    "flanges": ({"sheet.spar.flanges_point": '"?"'}, "sheet.spar.flanges_point", "shear flows"),
    "lap": ({"outline.lap": '"?"'}, "outline.lap", "shear flows"),
    "arm": ({"horn.arm": '"?"'}, "horn.arm", "load case"),
}  # fmt: skip


@pytest.mark.parametrize("what", UNKNOWN)
def test_one_value_unknown_hides_its_own_answers_and_says_so(what):
    changes, key, words = UNKNOWN[what]
    one = laid(changes)
    sound(one)
    hides = [gap.hides for gap in one.gaps if gap.key == key]
    assert len(hides) == 1, [gap.key for gap in one.gaps]
    assert re.search(words, hides[0]), hides
    assert "nothing" not in hides[0]


def test_without_any_rib_the_horn_is_not_silently_fine():
    one = laid(UNKNOWN["ribs"][0])
    assert any("no rib is known" in remark for remark in one.remarks)
