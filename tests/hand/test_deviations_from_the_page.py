"""Two deviations worked by hand from their pages alone: what is printed there is enough to get the printed margins.

Nothing is read but the words of the page: which force is brought to the group and from where, how far the rivets stand
apart, what one carries, the factor. Printed numbers have three or four digits, so that a margin comes out to 0.01.
"""

from __future__ import annotations

import html
import re
from pathlib import Path

import numpy as np
import pytest

from surfacecheck.reading import read, read_text
from surfacecheck.report import deviation_page
from surfacecheck.studies import deviation

DATA = Path(__file__).parents[2] / "data"
HORN = 'based_on = "rudder.toml"\ntitle = "Forgotten"\n[[happened]]\nwhere = "horn rivet 1"\nwhat = "rivet missing"\n'
TOWARD = {"ahead": (-1, 0), "aft": (1, 0), "left": (0, 1), "right": (0, -1)}
"""Aft and to the left count positive."""


def words(page):
    """The page without its marks, one space between words."""
    bare = re.sub(r"<(style|template)\b.*?</\1>", "", page, flags=re.DOTALL)
    return " ".join(html.unescape(re.sub(r"<[^>]+>", " ", bare)).split())


@pytest.fixture(scope="module")
def hole():
    return words(deviation_page(deviation(read(DATA / "rudder.toml", DATA / "rudder_oversize_hole.toml"))))


@pytest.fixture(scope="module")
def horn():
    return words(deviation_page(deviation(read_text(HORN, "horn.toml", DATA))))


def number(pattern, text):
    found = re.search(pattern, text)
    assert found is not None, pattern
    return float(found[1])


def margins(text, line):
    """The printed cells of one line of the table."""
    cells = re.search(rf"{line}: [a-z, ]+ ((?:[+-][0-9.]+|none|/| )+)", text)
    return [float(one) for one in re.findall(r"[+-][0-9.]+", cells[1])]


def test_the_oversize_hole_at_the_middle_bracket(hole):
    """Rivet 3 of six, upper left, seen from behind: three up by two across; it pulls at its head and is sheared."""
    side = number(r"the pin brings ([0-9.]+) N to the right", hole)
    pull = number(r"the pin brings .*? and ([0-9.]+) N ahead", hole)
    lever = number(r"from ([0-9.]+) mm ahead of their middle", hole)
    across, up = (number(pattern, hole) for pattern in (r"([0-9.]+) mm across", r"across, ([0-9.]+) mm up"))
    factor, shear, head = (number(rf" {letter} ([0-9.]+) ", hole) for letter in ("FS", "P_s", "P_t"))
    six = np.array([(x, y) for x in (-0.5, 0.5) for y in (-1, 0, 1)]) * (across, up)

    def margin(points):
        """Share the pull and its two moments as a plane over the rivets, the shear as a plane turn; equal rivets."""
        middle = points.mean(axis=0)
        x, y = (points - middle).T
        second = np.array([[x @ x, x @ y], [x @ y, y @ y]])
        tilt = np.linalg.solve(second, [-side * lever - pull * middle[0], -pull * middle[1]])
        tension = pull / len(points) + tilt @ [x, y]
        turn = side * middle[1] / (x @ x + y @ y)
        sheared = np.hypot(side / len(points) - turn * y, turn * x)
        used = factor * np.hypot(sheared / shear, np.maximum(tension, 0.0) / head)
        return 1.0 / used.max() - 1.0

    drawn, fully, nothing, *_, without = margins(hole, "middle hinge, bracket")
    assert margin(six) == pytest.approx(drawn, abs=0.01)
    assert fully == drawn  # if it holds fully, a larger hole changes nothing of what rivets carry
    left = six[[0, 1, 3, 4, 5]]  # without the upper left one
    assert margin(left) == pytest.approx(nothing, abs=0.01)
    assert without == nothing


def test_a_rivet_missing_at_the_horn(horn):
    """Eight rivets, four fore and aft by two; each bolt pulls ahead, one cable and the other rigged: force and turn."""
    brought = re.findall(
        r"the (left|right) bolt brings ([0-9.]+) N ahead, from ([0-9.]+) mm (left|right) and ([0-9.]+) mm ahead", horn
    )
    assert [one[0] for one in brought] == [one[3] for one in brought] == ["left", "right"]
    across, up = (number(pattern, horn) for pattern in (r"([0-9.]+) mm across", r"across, ([0-9.]+) mm up"))
    factor, strength = (number(rf" {letter} ([0-9.]+) ", horn) for letter in ("FS", "P_s"))
    eight = np.array([(x, z) for x in (-1.5, -0.5, 0.5, 1.5) for z in (-0.5, 0.5)]) * (across, up)

    def margin(points):
        middle = points.mean(axis=0)
        x, z = (points - middle).T
        force, turn = np.zeros(2), 0.0
        for _, size, off, side, ahead in brought:
            here = float(size) * np.array(TOWARD["ahead"])
            at = float(ahead) * np.array(TOWARD["ahead"]) + float(off) * np.array(TOWARD[side]) - middle
            force, turn = force + here, turn + at[1] * here[0] - at[0] * here[1]
        polar = x @ x + z @ z
        share = np.stack([force[0] / len(points) + turn * z / polar, force[1] / len(points) - turn * x / polar])
        return strength / (factor * np.hypot(*share).max()) - 1.0

    drawn, now, again = margins(horn, "horn")
    assert margin(eight) == pytest.approx(drawn, abs=0.01)
    assert margin(eight[1:]) == pytest.approx(now, abs=0.01)  # without number 1: foremost, to the right
    assert again == drawn
    assert "Seen from the root to the tip; aft right, left side on top" in horn  # so number 1 is ahead, to the right
