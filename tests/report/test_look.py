"""The look: words do not lie on each other, colours read in grey, bytes are the same, a notebook gets a PNG."""

from __future__ import annotations

import re
import subprocess
import sys
from itertools import combinations, pairwise

import matplotlib as mpl
import pytest
from matplotlib.backends.backend_agg import FigureCanvasAgg

from surfacecheck.report import (
    bracket_forces,
    bracket_map,
    compare_bars,
    diagrams,
    horn_forces,
    margin_bars,
    running_load,
    section_flow,
    surface_map,
)
from surfacecheck.report._marks import round_step, spread_labels
from surfacecheck.report._style import DEEP, FONT, INK, RAMP, WIDE
from surfacecheck.report._svg import to_svg

MAKERS = {
    "map": surface_map, "diagrams": diagrams, "load": running_load, "section": section_flow, "rivets": bracket_map,
    "brackets": bracket_forces, "horn": horn_forces, "bars": margin_bars, "compare": lambda a: compare_bars([a, a]),
}  # fmt: skip


def luminance(colour):
    parts = [int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5)]
    linear = [v / 12.92 if v <= 0.04045 else ((v + 0.055) / 1.055) ** 2.4 for v in parts]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def boxes(fig):
    """Where every word stands, in dots, each shrunk by a dot for the air around letters."""
    renderer = FigureCanvasAgg(fig).get_renderer()
    texts = [*fig.texts]
    for ax in fig.axes:
        texts += [t for t in (*ax.texts, ax.title, ax._left_title) if t.get_visible()]
        if ax.axison:
            texts += [*ax.get_xticklabels(), ax.xaxis.label]
    found = []
    for text in texts:
        if text.get_text().strip():
            # ends of a line without its box; a quarter of the height is air above and below the letters
            box = text.get_window_extent(renderer)
            air = 0.25 * box.height / (text.get_text().count("\n") + 1)
            found.append((text.get_text(), box.x0 + 1, box.y0 + air, box.x1 - 1, box.y1 - air))
    return found


@pytest.mark.parametrize("name", MAKERS)
def test_no_two_words_lie_on_each_other(demo, name):
    fig = MAKERS[name](demo)
    clashes = [
        (a[0], b[0])
        for a, b in combinations(boxes(fig), 2)
        if min(a[3], b[3]) > max(a[1], b[1]) and min(a[4], b[4]) > max(a[2], b[2])
    ]
    assert clashes == []


@pytest.mark.parametrize("name", MAKERS)
def test_words_stay_on_the_picture_and_are_large_enough(demo, name):
    fig = MAKERS[name](demo)
    assert fig.get_figwidth() == WIDE
    wide, tall = fig.get_figwidth() * fig.dpi, fig.get_figheight() * fig.dpi
    outside = [box for box in boxes(fig) if box[1] < -2 or box[3] > wide + 2 or box[2] < -2 or box[4] > tall + 2]
    assert outside == []
    sizes = {text.get_fontsize() for text in (*fig.texts, *(t for ax in fig.axes for t in ax.texts))}
    assert min(sizes) >= FONT >= 9.0


def test_words_are_dark_enough_and_the_ramp_steps_evenly_in_grey():
    for colour in (INK, DEEP):
        assert 1.05 / (luminance(colour) + 0.05) >= 4.5
    steps = [luminance(colour) for colour in RAMP]
    assert steps == sorted(steps)
    assert all((b + 0.05) / (a + 0.05) > 1.5 for a, b in pairwise(steps))


@pytest.mark.parametrize("name", MAKERS)
def test_every_colour_is_of_the_one_hue(rudder, name):
    import re

    colours = {
        c.lower()
        for c in re.findall(
            r"#[0-9a-fA-F]{6}", re.sub(r'(id|href|url)[=(]"?[^" )]*', "", to_svg(MAKERS[name](rudder), "a"))
        )
    }
    assert colours <= {c.lower() for c in RAMP} | {"#ffffff", "#f4f7f9", "#000000"}


def test_a_picture_leaving_the_page_carries_the_caution_and_its_source(rudder):
    texts = " ".join(t.get_text() for t in surface_map(rudder).texts)
    assert "no approval" in texts
    assert "No flight on the strength of this page." in texts
    assert f"sheet {rudder.surface.sha256[:4].upper()}" in texts
    assert "no approval" not in " ".join(t.get_text() for t in surface_map(rudder, alone=False).texts)


def test_views_are_said(demo):
    for make, word in ((surface_map, "trailing edge right"), (bracket_map, "from behind"), (section_flow, "aft right")):
        fig = make(demo)
        assert word in " ".join(t.get_text() for t in fig.texts)
        assert word in to_svg(fig, "a").split(">", 1)[0]


def test_a_flat_half_says_top_and_not_left(elevator):
    for make in (surface_map, bracket_map, section_flow, diagrams):
        assert "left side" not in " ".join(t.get_text() for t in make(elevator).texts)


def test_the_same_bytes_twice_whatever_the_reader_has_set(rudder):
    first = to_svg(section_flow(rudder), "a"), section_flow(rudder).png()
    with mpl.rc_context({"font.size": 30.0, "lines.linewidth": 9.0, "svg.hashsalt": "other", "axes.facecolor": "red"}):
        second = to_svg(section_flow(rudder), "a"), section_flow(rudder).png()
    assert first == second


def test_a_notebook_shows_a_png_and_nothing_else(rudder):
    fig = margin_bars(rudder)
    picture, beside = fig._repr_png_()
    assert picture.startswith(b"\x89PNG")
    assert beside == {"alt": fig.words}
    assert f'aria-label="{fig.words}"' in to_svg(fig, "a")
    assert fig._repr_html_() is None
    assert "Lowest margins" in repr(fig)


def test_a_figure_in_the_picture_is_the_same_text_in_the_svg(rudder):
    """Points lose their third decimal in the SVG; a figure that is written must not."""
    fig = section_flow(rudder)
    svg = to_svg(fig, "a")
    for ax in fig.axes:
        for text in ax.texts:
            assert f">{text.get_text()}</text>" in svg


def test_names_are_escaped_and_no_formula_is_made_of_them(rudder):
    fig = compare_bars([rudder], 1, ["<script> & $x^2$ \x07"])
    svg = to_svg(fig, "a")
    assert "<script" not in svg
    assert ">&lt;script&gt; &amp; $x^2$ </text>" in svg
    assert "\x07" not in svg
    assert fig.png().startswith(b"\x89PNG")


def test_labels_are_spread_and_keep_their_order():
    wanted = [0.0, 0.01, 0.02, 0.5, 0.98, 1.0]
    spread = spread_labels(wanted, 0.1, 0.0, 1.0)
    assert all(b - a >= 0.1 - 1e-9 for a, b in pairwise(spread))
    assert spread[3] == 0.5
    assert spread[0] >= 0.0
    assert spread[-1] <= 1.0 + 1e-9


@pytest.mark.parametrize("length", [0.013, 0.2, 0.5, 1.0, 7.3, 99.0])
def test_a_scale_bar_is_round_and_fits(length):
    step = round_step(length)
    assert 0.4 * length <= step <= length
    assert f"{step:e}"[0] in "125"


def test_the_package_stays_light_until_a_picture_is_asked_for():
    code = "import sys, surfacecheck.report; print('matplotlib' in sys.modules, 'jinja2' in sys.modules)"
    out = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True, timeout=60)
    assert out.stdout.split() == ["False", "False"]


@pytest.mark.parametrize("name", sorted(MAKERS))
def test_a_picture_in_a_page_says_nothing_that_nobody_asks_for(rudder, name):
    """Each class has its rule, each style that stays stands once, each id is pointed at, each group says something."""
    svg = to_svg(MAKERS[name](rudder), "a")
    rules = dict(re.findall(r"\.(s[0-9a-f]{6})\{([^}]*)\}", svg.partition("</style>")[0]))
    assert set(re.findall(r' class="([^"]*)"', svg)) == set(rules)
    left = re.findall(r' style="([^"]*)"', svg)
    assert len(set(left) | set(rules.values())) == len(left) + len(rules)
    pointed = set(re.findall(r'(?:url\(#|href="#)([^")]+)', svg))
    assert set(re.findall(r' id="([^"]*)"', svg)) == pointed
    assert "<g>" not in svg
    assert svg.count("<g ") == svg.count("</g>")
