"""Ten questions builders ask about holes and rivets, asked at the command line as a new user would.

The questions are numbers 6 to 14 and 47 of a collection of what users ask; each test has the question on top.
"""

from __future__ import annotations

import re
import shutil
from pathlib import Path

import pytest

from surfacecheck.cli import main

DATA = Path(__file__).parents[2] / "data"


@pytest.fixture(scope="module")
def folder(tmp_path_factory):
    here = tmp_path_factory.mktemp("bench")
    for name in ("rudder.toml", "elevator.toml"):
        shutil.copy(DATA / name, here)
    return here


@pytest.fixture
def ask(folder, capsys, monkeypatch):
    """Ask a question: the words of a command, the answer as one line of words."""
    monkeypatch.chdir(folder)

    def asked(*words):
        assert main([*words]) == 0
        return " ".join(capsys.readouterr().out.split())

    return asked


def rivets(ask, *words):
    return ask("rivets", "rudder.toml", "--row", "left_skin_to_spar", *words, "--no-page")


def test_6_blind_instead_of_solid(ask):
    """No access: pulled instead of solid rivets? Strength of both with its source, number, mass; sharing a row."""
    said = rivets(ask, "--rivet", "AD 1/8", "ISO 15977 H", "--pitch", "25")
    margins = dict(re.findall(r"\*?\d (AD 1/8|ISO) .*?([+-]\d\.\d\d)", said))
    assert float(margins["ISO"]) < float(margins["AD 1/8"])
    assert "shear 750 N, from memory: ISO 15977" in said
    assert "shear 1726 N, from memory: MIL-HDBK-5J" in said
    assert "rivet gives, shear and pull together" in said
    shared = ask("mixed", "rudder.toml", "--row", "left_skin_to_spar", "--at", "11", "--other", "large", "--no-page")
    assert "stiff" in shared


def test_7_one_thick_or_two_thin(ask):
    """One 5/32 or two 1/8? Two 1/8 shear at 1.30 times one 5/32, but count, mass and what really gives stand beside."""
    said = rivets(ask, "--rivet", "AD 5/32", "AD 1/8", "--lines", "1", "2", "--edge", "8")
    assert "AD 5/32 in, 1 line" in said
    assert "AD 1/8 in, 2 lines" in said
    assert "left skin crushes" in said
    assert "gap of lines" in said  # nobody said how far apart the lines would be: not covered


def test_8_a_rivet_forgotten(ask):
    """I forgot a rivet and it is closed up: its neighbours, the sheet at the gap; and what leaving out is worth."""
    said = ask("gone", "rudder.toml", "--row", "left_skin_to_spar", "--out", "12")
    assert "free for 50.5 mm instead of 25.2 mm" in said
    assert "0.25 of" in said
    left = rivets(ask, "--drilled-at", "25")
    assert "Drilled already: only leaving rivets out is real." in left
    assert re.search(r"2 50\.5 every 50\.5 22 .*? second", left)


def test_9_how_many_and_what_pitch(ask):
    """How does one decide? What governs, the limits with their fields, and that strength often sets nothing."""
    said = rivets(ask, "--pitch", "20", "25", "30", "40", "60", "--rivet", "large", "--edge", "8")
    assert "strength does not set this pitch" in said
    assert "at least 12.0 mm, 3 D" in said
    assert "at most 52.2 mm, skin edge lifts between rivets at limit load" in said
    assert "sealing, shown only: at most 12.0 mm, 24 t" in said
    assert "136 mm rivet gives, shear and pull together" in said


def test_10_which_grip(ask):
    """Which grip? The stack of every row, where one row crosses two stacks, and a grip that does not hold it."""
    taken = ask("takeoff", "rudder.toml", "--no-page")
    assert "ribs to spar, rib 1, 2 4 20.0 mm small 2.10 mm" in taken
    assert "ribs to spar, rib 3 to 7 10 20.0 mm small 1.30 mm" in taken
    said = ask("rivets", "rudder.toml", "--row", "trailing_edge", "--rivet", "small", "large", "--no-page")
    assert "2 cannot be: 1.00 mm of sheet is outside the grip of large, 1.20 mm to 6.30 mm" in said


def test_11_which_drill(ask):
    """Which drill? By hole range, with the shanks that go in and must not."""
    taken = ask("takeoff", "rudder.toml", "--no-page")
    assert "#30 (3.26 mm)" in taken
    assert "#29 not" in taken
    assert "3.3 mm goes" in taken


def test_12_the_puller_does_not_reach(ask):
    """The nose sits crooked: which rivets, which wedge, which other tool."""
    said = ask("card", "rudder.toml", "hinge.middle.bracket")
    assert "needs a wedge of 18 degrees (puller); slim puller is clear" in said


def test_13_too_near_the_bend(ask):
    """Hole too near the bend: from which edge distance on, and what that costs."""
    said = rivets(ask, "--edge", "5", "7", "11", "13")
    assert re.search(r" 13\.0 25\.2 43 \S+ \w, \w \S+ bend ", said)
    assert re.search(r"\*2 7\.00 25\.2 43 \S+ \w, \w \S+ - ", said)


def test_14_countersink_or_dimple(ask, folder):
    """Flush in thin sheet: the countersink's depth against two thirds of the sheet, edge 2.5 D, half the fixity."""
    said = rivets(ask, "--head", "protruding", "countersunk", "dimpled")
    assert "countersunk" in said
    assert "depth of the countersink" in said  # not covered: the head's diameter is not given
    assert re.search(r"countersunk 25\.2 43 \S+ \w, \w \S+ edge ", said)  # 7 mm is short of 2.5 D
    assert "at most 36.9 mm, skin edge lifts between rivets at limit load, countersunk heads" in said
    text = (folder / "rudder.toml").read_text(encoding="utf-8")
    flush = text.replace("[rivet.small]\n", '[rivet.small]\nhead_kind = "countersunk"\n', 1)
    (folder / "flush.toml").write_text(flush, encoding="utf-8")
    card = ask("card", "flush.toml", "left_skin_to_spar")
    assert "does not meet depth of the countersink: countersink 0.953 mm deep in 0.500 mm of sheet" in card


def test_47_how_many_to_order_and_how_long(ask):
    """How many do I order, how long will it take? Purchase lines with spares, minutes on a basis that is said."""
    taken = ask("takeoff", "rudder.toml", "--no-page")
    assert "351 rivets, 798 holes" in taken
    assert "95 to 104" in taken
    assert "20 to 50 of each size" in taken
    said = rivets(ask, "--pitch", "25", "30", "--minutes-hole", "1", "--minutes-rivet", "2")
    assert re.search(r"drawn 43 17\.2 g 215 ", said)  # 129 holes at 1 and 43 rivets at 2 minutes
    assert "order lines of the whole surface" in said
