"""The weighing sheet and the list after a storm as pages; the picture of where the mass lies."""

from __future__ import annotations

import re
from dataclasses import replace
from html.parser import HTMLParser
from pathlib import Path

import numpy as np
import pytest
from matplotlib.backends.backend_agg import FigureCanvasAgg

import surfacecheck
from surfacecheck.errors import SurfaceError
from surfacecheck.model import Added, BalanceMass, Surface
from surfacecheck.provenance import Basis, Source, Value
from surfacecheck.report import aftermath_page, balance_picture, weighing_sheet
from surfacecheck.report._balance_picture import discs_of
from surfacecheck.report._bench_drawing import bench_drawing
from surfacecheck.report._surface_map import surface_map
from surfacecheck.studies import aftermath, balance

DATA = Path(__file__).parents[2] / "data"
FILES = ("rudder.toml", "rudder_weighed.toml", "rudder_painted.toml")


def v(si):
    return Value(si, f"{si}", Source(Basis.MEASURED, "scale"))


@pytest.fixture(scope="module")
def study():
    return balance(*(surfacecheck.read(DATA / name) for name in FILES))


@pytest.fixture(scope="module")
def pages(study):
    elevator = surfacecheck.read(DATA / "elevator.toml")
    storm = aftermath(study.surface, 38.6, "none", 0.5, 0.05)
    return {
        "weighing": weighing_sheet(study),
        "weighing-inch": weighing_sheet(balance(elevator), "inch"),
        "empty": weighing_sheet(balance(Surface())),
        "storm": aftermath_page(storm),
        "storm-inch": aftermath_page(aftermath(elevator, 38.6, "held"), "inch"),
    }


class Page(HTMLParser):
    def __init__(self):
        super().__init__()
        self.tags, self.ids, self.links = set(), [], []

    def handle_starttag(self, tag, attrs):
        self.tags.add(tag)
        self.ids += [value for name, value in attrs if name == "id"]
        self.links += [value for name, value in attrs if name in {"src", "href"}]


@pytest.mark.parametrize("name", ["weighing", "weighing-inch", "empty", "storm", "storm-inch"])
def test_one_file_without_script_that_needs_nothing_else_and_carries_the_caution(pages, name):
    seen = Page()
    seen.feed(pages[name])
    assert not {"script", "link", "img", "iframe", "object"} & seen.tags
    assert len(seen.ids) == len(set(seen.ids))
    assert all(link.startswith("#") for link in seen.links)
    assert "No flight on the strength of this page" in pages[name]
    assert len(pages[name]) < 200_000
    words = re.sub(r"<style>.*?</style>", "", pages[name], flags=re.DOTALL)
    assert not re.search(r"(?i)\b(safe|approved|ok|passes|recommend)\b", words)


def test_the_sheet_has_a_line_for_every_key_of_the_scales(pages):
    for key in ("push_behind", "edge", "rising", "sinking", "tipped", "scale_step", "paint_by_area", "what", "mass"):
        assert re.search(rf"\b{key}\b", pages["empty"]), key
    assert pages["weighing"].count("Sources: common practice") == 1  # readings that did not change stand once


def test_the_same_bytes_twice(study, pages):
    assert weighing_sheet(study) == pages["weighing"]


def test_names_are_escaped():
    surface = surfacecheck.read(DATA / "rudder.toml")
    thing = Added('<script>alert("x")</script>', v(0.1), v(0.2), v(0.3))
    odd = replace(surface, name="<b>R</b>", weighed=replace(surface.weighed, added=(thing,)))
    for page in (weighing_sheet(balance(odd)), aftermath_page(aftermath(odd, 30.0, "held"))):
        assert "<script" not in page
        assert "<b>R</b>" not in page


def test_mirror_parts_stand_together(pages):
    assert "left skin to spar and right skin to spar" in pages["storm"]


def test_discs_hold_all_of_the_mass(study):
    column = study.columns[-1]
    discs = discs_of(column)
    assert sum(one.mass for one in discs) == pytest.approx(sum(float(p.mass) for p in column.masses.pieces))
    assert sum(one.mass * one.x for one in discs) == pytest.approx(
        sum(float(p.first) for p in column.masses.pieces), rel=2e-3
    )
    assert set(discs[0].names) == {"left skin", "right skin"}


def drawn(fig, gid):
    return [one for ax in fig.axes for one in (*ax.lines, *ax.patches) if (one.get_gid() or "").startswith(gid)]


def test_areas_of_discs_go_with_their_masses_and_the_cross_is_the_centre_of_gravity(study):
    column = study.columns[0]
    fig = balance_picture(column)
    discs = [one for one in discs_of(column) if one.mass > 0.0]
    areas = []
    for patch in drawn(fig, "disc"):
        x, y = patch.get_path().vertices[:-1].T
        areas.append(0.5 * abs(np.dot(x, np.roll(y, 1)) - np.dot(y, np.roll(x, 1))))
    masses = np.array([one.mass for one in discs])
    assert np.allclose(np.array(areas) / areas[0], masses / masses[0], rtol=1e-9)
    (cross,) = drawn(fig, "cg")
    assert cross.get_xdata()[0] == pytest.approx(float(column.masses.x))
    (nose,) = drawn(fig, "nose mass")
    assert nose.get_xdata()[0] == pytest.approx(-0.03)


def test_the_loads_of_the_nose_mass_stand_beside_it():
    surface = surfacecheck.read(DATA / "rudder.toml")
    lead = replace(surface, balance_mass=BalanceMass(v(0.6), v(1.05), v(0.15)))
    column = balance(lead).columns[0]
    words = "\n".join(text.get_text() for ax in balance_picture(column).axes for text in ax.texts)
    level = column.levelling
    assert f"sideways {24 * 9.80665 * level.whole:.0f} N" in words
    assert f"ahead {12 * 9.80665 * level.whole:.0f} N" in words
    assert "more there" in words
    assert "place along" not in words


def clashes(fig):
    renderer = FigureCanvasAgg(fig).get_renderer()
    words = [*fig.texts, *(one for ax in fig.axes for one in ax.texts)]
    boxes = [(one.get_text(), one.get_window_extent(renderer)) for one in words if one.get_text()]
    wide = fig.get_figwidth() * fig.dpi
    assert [text for text, box in boxes if box.x0 < -2 or box.x1 > wide + 2] == []
    return [
        (a, b)
        for i, (a, one) in enumerate(boxes)
        for b, other in boxes[i + 1 :]
        if min(one.x1, other.x1) - max(one.x0, other.x0) > 3 and min(one.y1, other.y1) - max(one.y0, other.y0) > 4
    ]


@pytest.mark.parametrize("system", ["metric", "inch"])
@pytest.mark.parametrize("at", [0.0, 0.5, 1.0])
def test_no_two_words_of_the_picture_lie_on_each_other(study, system, at):
    place = BalanceMass(Value(0.0, "none", absent=True), v(1.1 * at), v(0.12))
    column = balance(replace(study.surface, balance_mass=place)).columns[0]
    assert clashes(balance_picture(column, system)) == []
    assert clashes(balance_picture(study.columns[-1], system)) == []
    assert clashes(bench_drawing()) == []


def test_nothing_to_draw_is_one_line():
    with pytest.raises(SurfaceError, match=r"outline\.at: to draw where the mass lies"):
        balance_picture(balance(Surface()).columns[0])


def test_the_picture_stands_on_the_outline_of_the_map(study):
    """The same outline as the map draws, in metres."""
    outlines = [
        next(line for line in fig.axes[0].lines if line.get_gid() == "outline")
        for fig in (balance_picture(study.columns[0]), surface_map(study.surface))
    ]
    assert np.array_equal(outlines[0].get_xydata(), outlines[1].get_xydata())
