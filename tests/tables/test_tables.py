"""Tables as text, HTML and CSV."""

from __future__ import annotations

import csv
import io
import re
from html.parser import HTMLParser

import pytest
from hypothesis import given
from hypothesis import strategies as st

from surfacecheck.errors import SurfaceError
from surfacecheck.tables import Table, escaped, plain, wrapped

LOADS = Table(
    ("pin", "sideways", "case"),
    (("top", "120 N", "side load, straight to zero"), ("bottom", "88 N", "wind at tie-down")),
    "lrl",
    "Loads",
    "at limit",
)


def test_text_lines_up():
    caption, head, top, bottom, note = LOADS.text().split("\n")
    assert (caption, note) == ("Loads", "at limit")
    assert head.index("case") == top.index("side load") == bottom.index("wind")
    assert top.index("120 N") + 5 == bottom.index("88 N") + 4 == head.index("sideways") + 8


def test_words_are_broken_and_numbers_are_not():
    text = LOADS.text(40)
    assert max(len(line) for line in text.split("\n")) <= 40
    assert "120 N" in text
    assert " ".join(text.split()).count("straight") == 1
    assert len(text.split("\n")) > 5


def test_heads_of_numbers_give_way_before_a_word_is_broken():
    heads = ("case", "mean pressure of all", "read for")
    table = Table(heads, (("side load to the left, straight to zero", "1.20 kPa", "everything"),), "lrl")
    for width in (50, 40, 32):
        lines = table.text(width).split("\n")
        assert max(len(line) for line in lines) <= width
        assert any("1.20 kPa" in line for line in lines)
        assert any("everything" in line for line in lines)


def test_a_letter_needs_no_columns():
    assert LOADS.letter(40).split("\n") == [
        "Loads",
        "top: sideways 120 N; case: side load,",
        "  straight to zero",
        "bottom: sideways 88 N; case: wind at",
        "  tie-down",
        "at limit",
    ]


def test_a_letter_leaves_out_what_is_not_there_and_begins_with_the_number():
    table = Table(("", "part", "margin", "case"), (("1", "pin", "+0.10", "-"), ("2", "horn", "", "")), "rlrl")
    assert table.letter() == "1 pin: margin +0.10\n2 horn"


@given(st.lists(st.sampled_from(["1234 N", "12.5 kg mm", "-0.3 mm/kN"]), min_size=1, max_size=9))
def test_a_letter_keeps_number_and_unit_together(cells):
    heads = ("place", *(f"head {i}" for i in range(len(cells))))
    lines = Table(heads, (("tip of the surface", *cells),)).letter(30).split("\n")
    assert max(len(line) for line in lines) <= 30
    assert all(any(cell in line for line in lines) for cell in cells)


@given(st.lists(st.text(max_size=30), min_size=3, max_size=3))
def test_text_is_plain_whatever_is_in_it(cells):
    table = Table(("a", "b", "c"), (tuple(cells),))
    for text in (table.text(), table.letter()):
        assert text.isascii()
        assert all(line.isprintable() for line in text.split("\n"))


def test_an_escape_does_not_reach_the_terminal():
    assert plain("\x1b[2Jrudder\u202e") == "?[2Jrudder?"


def test_signs_of_the_trade_stay_readable():
    assert plain("−0,5 × 25° µm mm²") == "-0,5 x 25 deg um mm2"


class _Reader(HTMLParser):
    def __init__(self):
        super().__init__()
        self.tags, self.texts = [], []

    def handle_starttag(self, tag, attrs):
        self.tags.append((tag, dict(attrs)))

    def handle_data(self, data):
        self.texts.append(data)


@given(st.text(alphabet="<>&\"'ab/=", min_size=1, max_size=12))
def test_html_holds_the_text_and_no_tag_of_it(cell):
    reader = _Reader()
    reader.feed(Table(("head", "value"), (("name", cell),)).html())
    assert {tag for tag, _ in reader.tags} == {"table", "thead", "tbody", "tr", "th", "td"}
    assert "".join(reader.texts) == "headvaluename" + cell


def test_html_says_which_cells_are_heads():
    reader = _Reader()
    reader.feed(LOADS._repr_html_())
    scopes = [attrs.get("scope") for tag, attrs in reader.tags if tag == "th"]
    assert scopes == ["col"] * 3 + ["row"] * 2
    assert "at limit" in reader.texts


def test_csv_comes_back():
    rows = list(csv.reader(io.StringIO(LOADS.csv())))
    assert rows == [list(LOADS.heads), *(list(row) for row in LOADS.rows)]


@pytest.mark.parametrize(("cell", "out"), [("=1+1", "'=1+1"), ("@x", "'@x"), ("+0.51", "+0.51"), ("-cmd", "'-cmd")])
def test_csv_holds_no_formula(cell, out):
    assert list(csv.reader(io.StringIO(Table(("a",), ((cell,),)).csv())))[1] == [out]


def test_a_short_row_is_an_error():
    with pytest.raises(SurfaceError, match=r"a row of 1 under 2 heads \(a, b\)"):
        Table(("a", "b"), (("one",),))


def test_wrapped_keeps_width_and_indent():
    lines = wrapped("word " * 40, 30, "RULES  ", "       ").split("\n")
    assert all(len(line) <= 30 for line in lines)
    assert lines[0].startswith("RULES  word")
    assert all(re.match(r" {7}word", line) for line in lines[1:])
    assert wrapped("", 30, "RULES  ") == "RULES"


def test_escaped_leaves_out_what_steers_a_terminal():
    assert escaped("a\x1b\x00<") == "a&lt;"
