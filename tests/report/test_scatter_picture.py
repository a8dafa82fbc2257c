"""The pictures and the page of a scatter: hills where the samples lie, bars as long as their shares, words apart."""

from __future__ import annotations

import re
from itertools import combinations
from pathlib import Path

import numpy as np
import pytest
from matplotlib.backends.backend_agg import FigureCanvasAgg

from surfacecheck.errors import SurfaceError
from surfacecheck.reading import read
from surfacecheck.report import driver_picture, scatter_page, scatter_picture
from surfacecheck.report._style import FONT, RAMP, WIDE
from surfacecheck.report._svg import to_svg
from surfacecheck.studies import read_tolerances, scatter

DATA = Path(__file__).parents[2] / "data"


@pytest.fixture(scope="module")
def wide():
    """The demo by its file of tolerances: margins below zero, beyond the picture, and best in between."""
    return scatter(read(DATA / "rudder.toml"), read_tolerances(DATA / "rudder_tolerances.toml").tolerances, samples=256)


@pytest.fixture(scope="module")
def still():
    """One number only: most margins do not move at all."""
    return scatter(read(DATA / "elevator.toml"), {"*": "none", "sheet.ribs.thickness": "0.002 in"}, samples=64)


@pytest.fixture(scope="module")
def drawn(wide, still):
    return {
        "hills": scatter_picture(wide, 12),
        "one hill": scatter_picture(wide, 1),
        "still hills": scatter_picture(still, system="inch"),
        "drivers": driver_picture(wide),
        "drivers of one": driver_picture(wide, "hinge.middle.pin"),
    }


def places(fig, name):
    """Extent of a named shape across, in inches of the picture."""
    (shape,) = [s for ax in fig.axes for s in (*ax.collections, *ax.patches) if s.get_gid() == name]
    points = shape.get_paths()[0].vertices if hasattr(shape, "get_paths") else shape.get_bbox().get_points()
    return float(points[:, 0].min()), float(points[:, 0].max())


def test_a_hill_stands_where_the_samples_lie(wide, drawn):
    """On one scale for all: places of least and largest sample of two hills give it, and a third is found by it."""
    ends = {i: places(drawn["hills"], f"hill-{i}") for i in (1, 2, 5)}
    least = {i: wide.by_part[i - 1].at(0.0) for i in ends}
    most = {i: wide.by_part[i - 1].at(1.0) for i in ends}
    slope = (ends[5][0] - ends[1][0]) / (least[5] - least[1])
    for i, (low, high) in ends.items():
        assert low == pytest.approx(ends[1][0] + slope * (least[i] - least[1]), abs=1e-6)
        assert high == pytest.approx(ends[1][0] + slope * (most[i] - least[1]), abs=1e-6)


def test_bars_are_as_long_as_their_shares(wide, drawn):
    told = wide.lowest.told
    long = [np.diff(places(drawn["drivers"], f"driver-{i}"))[0] for i in range(1, len(told) + 1)]
    assert np.allclose(np.array(long) / long[0], [driver.share / told[0].share for driver in told])


def test_words_say_what_lies_below_zero_and_beyond(wide, drawn):
    words = " ".join(text.get_text() for ax in drawn["hills"].axes for text in ax.texts)
    low = wide.by_part[0]
    assert f"9 in 10: {low.at(0.05):+.2f} to {low.at(0.95):+.2f}; {100 * low.below:.0f} % below 0" in words
    assert "beyond" in words
    assert "best somewhere between" in " ".join(text.get_text() for text in drawn["drivers"].texts)


@pytest.mark.parametrize("name", ["hills", "one hill", "still hills", "drivers", "drivers of one"])
def test_words_do_not_lie_on_each_other_nor_beyond_the_picture(drawn, name):
    fig = drawn[name]
    renderer = FigureCanvasAgg(fig).get_renderer()
    boxes = [t.get_window_extent(renderer) for t in [*fig.texts, *(t for ax in fig.axes for t in ax.texts)]]
    for box in boxes:
        assert box.x0 >= 0.0
        assert box.x1 <= WIDE * fig.dpi
    shrunk = [(b.x0 + 1, b.y0 + 0.25 * b.height, b.x1 - 1, b.y1 - 0.25 * b.height) for b in boxes]
    for a, b in combinations(shrunk, 2):
        assert a[2] <= b[0] or b[2] <= a[0] or a[3] <= b[1] or b[3] <= a[1]
    assert {t.get_fontsize() for ax in fig.axes for t in ax.texts} == {FONT}


@pytest.mark.parametrize("name", ["hills", "drivers"])
def test_it_is_one_hue_and_the_same_every_time(wide, drawn, name):
    svg = to_svg(drawn[name], name)
    colours = set(re.findall(r"#[0-9a-f]{6}\b", svg.casefold()))
    assert colours <= {*(colour.casefold() for colour in RAMP), "#ffffff", "#000000"}
    again = scatter_picture(wide, 12) if name == "hills" else driver_picture(wide)
    assert to_svg(again, name) == svg


def test_what_nothing_moves_has_no_drivers_to_draw(still):
    with pytest.raises(SurfaceError, match="nothing that varies moves it"):
        driver_picture(still, "hinge.inner.pin")


def test_the_page_is_whole_and_says_what_it_is_not(wide):
    page = scatter_page(wide)
    assert page == scatter_page(wide)
    assert page.startswith("<!DOCTYPE html>")
    assert "<script" not in page
    assert len(page) < 300_000
    ids = re.findall(r'\bid="([^"]+)"', page)
    assert len(ids) == len(set(ids))
    for words in ("no chance of failure", "No flight on the strength of this page", "256 samples, seed 1",
                  "hinge.middle.out_of_line_aft", "EN 485-4:1993", "GUM", "common practice"):  # fmt: skip
        assert words in page, words
