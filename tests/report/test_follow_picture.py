"""The picture and the page of a followed force: arrows as wide as their values, figures at them, words apart."""

from __future__ import annotations

import re
from html.parser import HTMLParser
from itertools import combinations
from pathlib import Path

import numpy as np
import pytest
from matplotlib.backends.backend_agg import FigureCanvasAgg

from surfacecheck.errors import SurfaceError
from surfacecheck.reading import read, read_text
from surfacecheck.report import follow_page, follow_picture
from surfacecheck.report._marks import bare
from surfacecheck.report._style import FONT, RAMP
from surfacecheck.report._svg import to_svg
from surfacecheck.studies import distinct_cuts, follow

DATA = Path(__file__).parents[2] / "data"
CASES = {
    "edge": ("rudder.toml", "trailing edge, between rib 2 and 3", "100 N", "sideways", ""),
    "chordwise": ("rudder.toml", "trailing edge, between rib 2 and 3", "100 N", "sideways", "fore-aft"),
    "torque": ("rudder.toml", "trailing edge, at rib 5", "100 N", "right", "torque"),
    "spar": ("rudder.toml", "spar, at 480 mm", "15 N m", "torque", ""),
    "along": ("rudder.toml", "nose, at 700 mm", "100 N", "down", ""),
    "flat": ("elevator.toml", "nose, at 20 in", "20 lbf", "sideways", ""),
    "tip": ("elevator.toml", "trailing edge, at 44 in", "20 lbf", "bottom", ""),
}


@pytest.fixture(scope="module", params=CASES)
def drawn(request):
    """A force, the part drawn, and its picture."""
    file, place, load, direction, part = CASES[request.param]
    one = follow(read(DATA / file), place, load, direction)
    own = {"z": "sideways", "x": "fore-aft", "y": "along", "torque": "torque"}[one.way.axis]
    system = "inch" if file == "elevator.toml" else "metric"
    return one, part or own, follow_picture(one, part, system), system


def widths(fig):
    """Width of the shaft of every arrow, by name [points]."""
    found = {p.get_gid(): p.get_arrowstyle() for ax in fig.axes for p in ax.patches if p.get_gid()}
    return {name: style.tail_width for name, style in found.items() if hasattr(style, "tail_width")}


def values(one, part):
    """What each arrow must show, from the steps and the cuts."""
    found = {}
    for step in one.steps:
        value = next((abs(h.value) for h in step.handed if h.what == part), 0.0)
        if step.stage == "in":
            found["load"] = value
        elif step.stage == "rib":
            found[f"rib-{step.words.split()[1]}"] = value
        elif step.stage == "pin":
            found[f"pin-{step.name.split('.')[1]}"] = value
        elif step.stage == "hold":
            found["hold"] = value
    for i, (cut, _) in enumerate(distinct_cuts(one, part)):
        found[f"span-{i + 1}"] = abs(cut.of(part)[1])
    return found


def test_arrows_are_as_wide_as_their_values(drawn):
    one, part, fig, _ = drawn
    expected, got = values(one, part), widths(fig)
    most = max(expected.values())
    seen = {name: value for name, value in expected.items() if value > 1e-3 * most}
    assert set(seen) == {name for name in got if not name.startswith("edge-")}
    scale = max(got.values()) / most
    assert [got[name] for name in seen] == pytest.approx([scale * value for value in seen.values()], rel=1e-9)


def test_figures_stand_at_the_arrows(drawn):
    one, part, fig, system = drawn
    quantity = "torque" if part == "torque" else "force"
    words = " ".join(t.get_text() for ax in fig.axes for t in ax.texts).split()
    most = max(values(one, part).values())
    for name, value in values(one, part).items():
        if value > 1e-3 * most:
            assert bare(value, quantity, system) in words, name


def test_arrows_lie_where_they_belong(drawn):
    """To scale: each starts or ends at its own place along the pins."""
    one, _, fig, _ = drawn
    span = one.carried.span
    ends = {p.get_gid(): p._posA_posB for ax in fig.axes for p in ax.patches if p.get_gid() in widths(fig)}
    for name, b in span.hinges.items():
        if f"pin-{name}" in ends:
            assert [y for _, y in ends[f"pin-{name}"]] == pytest.approx([span.breaks[b]] * 2)
    for share in one.place.ribs:
        if f"rib-{share.rib + 1}" in ends:
            (x, y), (_, end) = ends[f"rib-{share.rib + 1}"]
            assert (x, y, end) == pytest.approx((share.x, share.y, share.y), abs=1e-9)
    if "load" in ends:
        assert ends["load"][1] == pytest.approx((one.place.x, one.place.y))


def test_arrows_point_to_where_it_goes():
    """Out of the surface at a pin that takes the force's own way, into it where a pin pushes back."""
    one = follow(read(DATA / "rudder.toml"), "trailing edge, at rib 3", "100 N")
    fig = follow_picture(one)
    ends = {p.get_gid(): p._posA_posB for ax in fig.axes for p in ax.patches if p.get_gid()}
    for step in one.steps:
        if step.stage == "pin":
            (start, _), (end, _) = ends[f"pin-{step.name.split('.')[1]}"]
            sideways = next(h.value for h in step.handed if h.what == "sideways")
            assert (end < start) == (sideways > 0.0)


def test_no_two_words_lie_on_each_other(drawn):
    fig = drawn[2]
    renderer = FigureCanvasAgg(fig).get_renderer()
    wide, tall = fig.get_figwidth() * fig.dpi, fig.get_figheight() * fig.dpi
    boxes = []
    for text in (*fig.texts, *(t for ax in fig.axes for t in ax.texts)):
        box = text.get_window_extent(renderer)
        air = 0.25 * box.height / (text.get_text().count("\n") + 1)
        boxes.append((text.get_text(), box.x0 + 1, box.y0 + air, box.x1 - 1, box.y1 - air))
        assert text.get_fontsize() >= FONT
    clashes = [
        (a[0], b[0])
        for a, b in combinations(boxes, 2)
        if min(a[3], b[3]) > max(a[1], b[1]) and min(a[4], b[4]) > max(a[2], b[2])
    ]
    assert clashes == []
    assert [b[0] for b in boxes if b[1] < -2 or b[2] < -2 or b[3] > wide + 2 or b[4] > tall + 2] == []


def test_one_hue_and_the_same_bytes(drawn):
    one, part, fig, system = drawn
    text = to_svg(fig, "a")
    colours = set(re.findall(r"#[0-9a-f]{6}\b", re.sub(r'(id|href|url)[=(]"?[^" )]*', "", text)))
    assert colours <= {c.lower() for c in RAMP} | {"#ffffff", "#f4f7f9", "#000000"}
    assert text == to_svg(follow_picture(one, part, system), "a")
    assert "The width of an arrow is its value" in text.split(">", 1)[0]
    assert "No flight on the strength of this page." in " ".join(t.get_text() for t in fig.texts)


class _Page(HTMLParser):
    """Tags, texts, ids and links of a page."""

    def __init__(self, text):
        super().__init__()
        self.tags, self.words, self.ids, self.links = [], [], [], []
        self.feed(text)

    def handle_starttag(self, tag, attrs):
        found = dict(attrs)
        self.tags.append(tag)
        self.ids += [found["id"]] if "id" in found else []
        self.links += [found[key] for key in ("href", "src") if key in found]

    def handle_data(self, data):
        self.words.append(data)


def test_the_page_holds_everything_and_needs_nothing():
    one = follow(read(DATA / "rudder.toml"), "trailing edge, between rib 2 and 3", "100 N")
    text = follow_page(one)
    page = _Page(text)
    assert text == follow_page(one)
    assert not {"script", "link", "img", "iframe"} & set(page.tags)
    assert page.tags.count("svg") == len(one.parts) == 3
    assert len(page.ids) == len(set(page.ids))
    assert all(link.startswith("#") for link in page.links)
    words = " ".join(page.words)
    for step in one.steps:
        assert step.words in words
    assert "no approval" in words
    assert len(text) < 200_000
    apart = _Page(follow_page(one.only("torque")))
    assert apart.tags.count("svg") == 1


def test_names_cannot_break_the_page():
    text = (DATA / "rudder.toml").read_text(encoding="utf-8").replace("Rudder, invented", "<b>Rudder</b> & invented")
    page = follow_page(follow(read_text(text, "odd.toml", DATA), "spar, at rib 2", "100 N"))
    assert "<b>" not in page
    assert "&lt;b&gt;Rudder&lt;/b&gt; &amp; invented" in page


def test_without_sheet_the_pins_are_drawn(bare):
    one = follow(bare, "trailing edge, at 550 mm", "100 N")
    assert widths(follow_picture(one))["pin-top"] == pytest.approx(0.5 * widths(follow_picture(one))["load"])
    assert np.isfinite(list(widths(follow_picture(one)).values())).all()
    with pytest.raises(SurfaceError, match='"lift" is no part'):
        follow_picture(one, "lift")
