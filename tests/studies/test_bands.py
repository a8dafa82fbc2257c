"""What the measurements leave open: tools and repeats, first order by hand, worst corner, rules near their limit."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest

from surfacecheck.assessment import assess
from surfacecheck.provenance import Basis, Value
from surfacecheck.reading import read, read_text, source_of
from surfacecheck.studies import band_lines, deviation
from surfacecheck.studies._readings import REPEATS, TOOLS, TOOLS_SOURCE, reading_of, tries_in

DATA = Path(__file__).parents[2] / "data"
CHANGE = (DATA / "rudder_oversize_hole.toml").read_text(encoding="utf-8")


def reading(said, si=0.008):
    return reading_of(Value(si, "x", source_of(said)))


@pytest.mark.parametrize(
    ("said", "half"),
    [("micrometer", 0.01e-3), ("caliper, 2 tries", 0.05e-3), ("drill shank, 3 tries", 0.05e-3), ("ruler", 0.5e-3),
     ("tape", 1e-3), ("thread", 0.2e-3), ("feeler", 0.02e-3)],
)  # fmt: skip
def test_a_tool_gives_what_the_table_says(said, half):
    assert reading(said).half == half
    assert TOOLS_SOURCE.basis is Basis.COMMON_PRACTICE


def test_a_scale_gives_a_share_of_the_reading():
    assert reading("spring scale", 120.0).half == pytest.approx(6.0)
    assert reading("scale", 2.0).half == pytest.approx(0.02)


def test_repeats_are_counted_and_narrow_nothing():
    once, thrice = reading("caliper"), reading("caliper, 3 tries")
    assert (once.tries, thrice.tries) == (1, 3)
    assert once.half == thrice.half
    assert tries_in("scale, 50 of them") == 1
    assert "do not narrow" in REPEATS


def test_what_was_not_measured_has_no_band():
    for said in ("drawing", "guess", "sheet 7", "packet", None):
        assert reading(said) is None
    assert reading("caliper", None) is None
    assert all(tool.half > 0.0 for tool in TOOLS)


@pytest.fixture(scope="module")
def oversize():
    return deviation(read(DATA / "rudder.toml", DATA / "rudder_oversize_hole.toml"))


def test_first_order_by_hand(oversize):
    """The lowest margin here moves with web_behind alone: the couple of the pin's sideways load.

    As in the test of the group: pull = F_z a / (3 b) + F_x / 6, used = 1.725 hypot(S / 1250, T / 1800). The tape gives
    1 mm, and the load at the pins hardly moves with it (a ten-thousandth), so a of 24 and 26 mm give the ends.
    """
    passes = oversize.passing[0]
    ways = dict(passes.brought[0][1])
    side, aft = ways["to the right"], ways["ahead"]

    def margin(a):
        return 1 / (1.725 * np.hypot(side / 6 / 1250, (side * a / 60 + aft / 6) / 1800)) - 1

    band = oversize.bands.margins[0]
    assert (band.where, band.bound) == ("here", "holds fully")
    low, high = margin(26.0), margin(24.0)
    assert band.margin == pytest.approx(margin(25.0), rel=1e-9)
    assert band.first == pytest.approx((low, high), abs=2e-3)
    assert band.corner == pytest.approx((low, high), abs=2e-3)
    assert oversize.bands.better.value.key == "outline.at[2].web_behind"


def test_the_corner_is_a_surface_that_was_worked(oversize):
    """Pin 0.05 mm thinner: the margin anywhere is that of the file with 5.95 mm, whose load hardly moves."""
    thinner = (DATA / "rudder.toml").read_text(encoding="utf-8").replace('"6.0 mm (caliper)"', '"5.95 mm (caliper)"')
    alone = assess(read_text(thinner)).margins[0].margin
    anywhere = [band for band in oversize.bands.margins if band.where == "anywhere"]
    assert anywhere[0].first[0] == pytest.approx(alone, abs=1e-4)
    assert anywhere[0].corner[0] == pytest.approx(alone, abs=1e-4)


def test_a_rule_near_its_limit_is_told(oversize):
    """Edge 8.0 mm by caliper, 2 D of 4.0 mm asked: 7.95 mm would not meet it."""
    told = [one for one in oversize.bands.rules if one[3] == "happened[1].edge"]
    assert ("meets", "does not meet") in [one[1:3] for one in told]
    assert any("does not meet if edge is off by its tool" in line for line in band_lines(oversize))


def test_a_better_edge_is_no_longer_near_its_limit():
    farther = deviation(read_text(CHANGE.replace('"8.0 mm (caliper, 2 tries)"', '"8.4 mm (caliper)"'), "c.toml", DATA))
    assert [one for one in farther.bands.rules if one[3] == "happened[1].edge"] == []


def test_everything_guessed_has_no_band_and_says_so():
    text = CHANGE
    for tool in ("drill shank, 3 tries", "caliper, 2 tries", "caliper"):
        text = text.replace(f"({tool})", "(guess)")
    found = deviation(read_text(text, "c.toml", DATA)).bands
    assert not [one for one in found.measured if one.value.key.startswith("happened[")]
