"""The take-off as a page: every hole once, every name escaped, the same every time."""

from __future__ import annotations

import re
from dataclasses import replace
from html.parser import HTMLParser

import pytest

from surfacecheck.reading import read, read_text, starting_file
from surfacecheck.report import takeoff_page, takeoff_tables
from surfacecheck.studies import takeoff

from .conftest import DATA


@pytest.fixture(scope="module", params=["rudder", "elevator"])
def taken(request):
    return takeoff(read(DATA / f"{request.param}.toml"))


class Reader(HTMLParser):
    """Collects texts and checks that tags close."""

    void = frozenset({"meta", "br", "link", "col", "hr"})

    def __init__(self):
        super().__init__()
        self.open, self.text = [], []

    def handle_starttag(self, tag, attrs):
        if tag not in self.void:
            self.open.append(tag)

    def handle_endtag(self, tag):
        assert self.open.pop() == tag

    def handle_data(self, data):
        self.text.append(data)


def test_a_whole_page_with_every_hole(taken):
    page = takeoff_page(taken)
    reader = Reader()
    reader.feed(page)
    assert reader.open == []
    assert page.count("<li><i>") == taken.holes
    assert "<script" not in page
    assert not re.search(r"(src|href)=\"http", page)
    assert page == takeoff_page(taken)
    assert len(page.encode()) < 500_000


@pytest.mark.parametrize("system", ["metric", "inch"])
def test_both_units_stand_beside_every_station(taken, system):
    page = takeoff_page(taken, system)
    first = re.search(r"<li><i>1</i><span>([\d.]+)</span><span>([\d.]+)</span></li>", page)
    mm, inch = (float(first[at]) for at in ((1, 2) if system == "metric" else (2, 1)))
    assert mm / 25.4 == pytest.approx(inch, abs=0.006)


def test_names_are_escaped():
    surface = replace(read(DATA / "rudder.toml"), name="<b>Rudder</b> & co")
    page = takeoff_page(takeoff(surface))
    assert "&lt;b&gt;Rudder&lt;/b&gt; &amp; co" in page
    assert "<b>Rudder" not in page


def test_an_empty_file_is_a_page_too():
    page = takeoff_page(takeoff(read_text(starting_file())))
    assert "not given" in page
    assert page.count("<li><i>") == 0


def test_tables_carry_what_the_page_carries(taken):
    tables = takeoff_tables(taken)
    assert list(tables) == ["buy", "take-off", "drills", "access", "parts", "holes", "setting"]
    assert sum(int(row[1]) for row in tables["take-off"].rows) == taken.count
    assert sum(int(row[1]) for row in tables["parts"].rows) == taken.holes
