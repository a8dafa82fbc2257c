"""The measuring sheet: every line of the file once, every dimension in a drawing, one page of plain HTML."""

from __future__ import annotations

import re
import tomllib
from collections import Counter
from html.parser import HTMLParser
from itertools import combinations

import pytest
from matplotlib.backends.backend_agg import FigureCanvasAgg

from surfacecheck.reading import questions, read_text, starting_file
from surfacecheck.report import measuring_sheet
from surfacecheck.report._how_measured import how_measured
from surfacecheck.report._measuring import _DRAWINGS
from surfacecheck.report._measuring_board import Labels

KINDS = [
    {"kind": "rudder"},
    {"kind": "elevator", "half": "left", "units": "inch", "hinges": 5, "ribs": 9},
    {"kind": "aileron", "half": "right", "hinges": 8, "ribs": 2},
    {"kind": "rudder", "units": "inch", "hinges": 2},
]
NOT_DRAWN = {"rivet.hole_range", "balance_mass.up"}
"""From the packet; and along the pins as the hinges are."""


@pytest.fixture(scope="module", params=KINDS, ids=lambda one: "-".join(map(str, one.values())))
def new(request):
    text = starting_file(**request.param)
    return request.param, text, measuring_sheet(text, "my.toml", request.param.get("units", "metric"))


def unknown(tree, path=()):
    """Find every line of a file whose answer is a question mark, entries of a list or of an edge table as one."""
    for key, value in tree.items():
        if key == "at":
            for place in value[:1]:
                yield from ((*path, key, one) for one, answer in place.items() if answer == "?")
        elif isinstance(value, dict) and key != "edge":
            yield from unknown(value, (*path, key))
        elif "?" in (value.values() if isinstance(value, dict) else value if isinstance(value, list) else [value]):
            yield (*path, key)


def test_every_unknown_line_of_the_file_stands_on_the_sheet_once_with_a_letter_of_its_own(new):
    _, text, page = new
    tree = tomllib.loads(text)
    wanted = [".".join(one) for one in unknown(tree) if one not in {("drawing",), ("who_decides",)}]
    table, shown = "", []
    found = r'<h3>([^<]+)</h3>|<b class="letter">(\w+)</b> <span class="key">(\w+)</span>'
    for head, letter, key in re.findall(found, page):
        table = head or table
        if letter:
            shown.append((letter, f"{table}.{key}"))
    assert Counter(key for _, key in shown) == Counter(wanted)
    assert max(Counter(letter for letter, _ in shown).values()) == 1
    assert len(shown) > 150


def test_the_letter_is_the_one_in_the_comment_of_the_file(new):
    choices, text, _ = new
    for one in questions(text, choices["kind"]):
        line = rf"(?m)^({one.key} = .*|  )# {one.label}( {one.key}:|$| )"
        assert len(re.findall(line, text)) == 1, one.label


def test_there_is_a_line_for_every_answer(new):
    choices, text, page = new
    asked = questions(text, choices["kind"])
    ringed = [one for one in asked if one.spec.enum is not None]
    lines = sum(len(one.answers) for one in asked if one.spec.enum is None)
    assert page.count('<span class="blank">') == lines
    assert page.count('<span class="choices">') == len(ringed)
    ribs = next(one for one in asked if one.where == "sheet.ribs.up")
    assert len(ribs.answers) == choices.get("ribs", 5)


def test_every_dimension_is_lettered_in_a_drawing(new):
    choices, text, page = new
    written = " ".join(re.findall(r"<text[^>]*>([^<]*)</text>", page))
    asked = [one for one in questions(text, choices["kind"]) if one.spec.quantity in {"length", "angle"}]
    missing = {one.where for one in asked if not re.search(rf"\b{one.label}\b", written)}
    assert missing == NOT_DRAWN
    assert "Seen from" in written
    assert written.count("Not to") >= 10


def test_every_number_has_a_tool_and_says_how_well(new):
    choices, text, page = new
    system = choices.get("units", "metric")
    for one in questions(text, choices["kind"]):
        tool, well = how_measured(one, system)
        assert tool
        assert bool(well) == bool(one.spec.quantity), one.where
        assert not re.search(r"\d mm" if system == "inch" else r"\d in\b", well)
    assert "common practice, no published figure" in page


def test_a_flat_half_is_asked_in_its_own_words():
    page = measuring_sheet(starting_file("aileron", "right"))
    words = re.sub(r"<style>.*?</style>", "", page, flags=re.DOTALL)
    for rudders in ("left_skin", "swings_left", "lowest", ">left<", "hinge.bottom"):
        assert rudders not in words
    for flat in ("top_skin", "swings_top", "innermost edge", "hinge.inner", "aft right, top up"):
        assert flat in words


class Page(HTMLParser):
    def __init__(self):
        super().__init__()
        self.tags, self.ids, self.links = Counter(), [], []

    def handle_starttag(self, tag, attrs):
        self.tags[tag] += 1
        self.ids += [value for name, value in attrs if name == "id"]
        self.links += [value for name, value in attrs if name in {"src", "href"}]


def test_one_file_without_script_that_needs_nothing_else(new):
    page = new[2]
    seen = Page()
    seen.feed(page)
    assert not {"script", "link", "img", "iframe", "object"} & set(seen.tags)
    assert len(seen.ids) == len(set(seen.ids))
    assert all(link.startswith("#") for link in seen.links)
    assert "url(http" not in page
    assert 'lang="en"' in page
    assert len(page) < 400_000
    assert seen.tags["svg"] == page.count('role="img"') == 10


def test_it_is_made_to_be_printed(new):
    style = re.search(r"<style>(.*?)</style>", new[2], re.DOTALL)[1]
    assert "@media print" in style
    assert re.search(r"\.line\{[^}]*break-inside:avoid", style)
    assert "no approval" in new[2]


def test_names_are_escaped_and_the_bytes_are_the_same_twice():
    text = starting_file(name='<script>alert("x")</script> & $x_1$')
    first = measuring_sheet(text, "<b>.toml")
    assert "<script" not in first
    assert "&lt;script&gt;" in first
    assert "<b>.toml" not in first
    assert first == measuring_sheet(text, "<b>.toml")


@pytest.mark.parametrize("choices", KINDS[:3], ids=["rudder", "elevator", "aileron"])
def test_no_two_words_of_a_drawing_lie_on_each_other(choices):
    text = starting_file(**choices)
    surface, labels = read_text(text), Labels(questions(text, choices["kind"]))
    for make in (one for part in _DRAWINGS.values() for one in part):
        fig = make(surface, labels)
        renderer = FigureCanvasAgg(fig).get_renderer()
        boxes = []
        for words in (*fig.texts, *(one for ax in fig.axes for one in ax.texts)):
            box = words.get_window_extent(renderer) if words.get_bbox_patch() is None else None
            box = words.get_bbox_patch().get_window_extent(renderer) if box is None else box
            air = 0.2 * box.height / (words.get_text().count("\n") + 1)
            boxes.append((words.get_text(), box.x0 + 3, box.y0 + air, box.x1 - 3, box.y1 - air))
        wide, tall = fig.get_figwidth() * fig.dpi, fig.get_figheight() * fig.dpi
        assert [one for one in boxes if one[1] < -2 or one[3] > wide + 2 or one[2] < -2 or one[4] > tall + 2] == []
        clashes = [
            (a[0], b[0])
            for a, b in combinations(boxes, 2)
            if min(a[3], b[3]) > max(a[1], b[1]) and min(a[4], b[4]) > max(a[2], b[2])
        ]
        assert clashes == [], make.__name__


def test_a_new_file_reads_back_to_the_same_model_with_and_without_its_letters():
    """A letter is a comment: it changes nothing."""
    for choices in KINDS:
        text = starting_file(**choices)
        bare = re.sub(r"# [A-H]\d+ ?", "# ", text)
        assert bare != text
        one, other = read_text(text), read_text(bare)
        assert (one.kind, one.half, one.gaps, [*one.hinges]) == (other.kind, other.half, other.gaps, [*other.hinges])
        assert tomllib.loads(text) == tomllib.loads(bare)
