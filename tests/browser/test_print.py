"""Printed: the right paper, nothing cut, no heading alone at the foot of a page.

Marks without size are put at the edges of every block before the page is printed; the PDF names the page on which each
of them lies. So it is the browser's own paging that is looked at.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from surfacecheck.reading import read_text
from surfacecheck.report import query_page
from surfacecheck.studies import deviation, fitted, query

DATA = Path(__file__).parents[2] / "data"
PAPERS = {"A4": (210.0, 297.0), "Letter": (215.9, 279.4)}
"""Width and height [mm]: ISO 216:2007 and ANSI/ASME Y14.1, size A."""
MOST = {"measuring-sheet": 6, "map": 2, "follow": 3}
"""Sheets of paper somebody still prints, of a page 20; it was 27, with five workings, before a formula stood once."""
READABLE = 7.0
"""Our own: the least size of printed letters [pt]."""
MARGIN = 11.0
"""Of a printed page [mm], as its style says."""
WHOLE = "figure, .answer, .reply, .caution, details.low, tr"
"""What may not be cut."""


def parted(marked, goals):
    """Return the blocks whose two marks lie on different pages."""
    ends = {name: (goals[f"{name}-a"] + 1, goals[f"{name}-b"] + 1) for name in marked}
    return [f"{marked[name]}: pages {a} and {b}" for name, (a, b) in ends.items() if a != b]


@pytest.mark.parametrize("paper", PAPERS)
def test_on_paper(opened, document, paged, paper):
    page = opened(document)
    page.page.emulate_media(media="print")
    marked = page.ask("what => measures.blocks(what)", WHOLE)
    sheets, goals = paged(page.page.pdf(format=paper))
    assert set(sheets) == {tuple(round(one) for one in PAPERS[paper])}
    assert 1 <= len(sheets) <= MOST.get(document.stem, 20)
    assert len(marked) > 2
    assert parted(marked, goals) == []


HEAVY = ("hinge middle, bracket rivet 3", "hinge bottom, bracket rivet 1", "hinge top, bracket rivet 6",
         "hinge middle, bracket rivet 5", "hinge bottom, bracket rivet 2")  # fmt: skip
EDGE = """[[happened]]
where = "%s"
what = "short edge"
layers = ["bracket"]
edge = "6.0 mm (caliper, 2 tries)"
note = "found when the skin was on already, after the row beside it had been drilled"
done_since = "deburred, nothing else"
reached_from = "behind, with a long nose only"
"""


def heavy_sheet(page):
    """Write the sheet of a chain of five events with notes."""
    text = 'based_on = "rudder.toml"\ntitle = "Five edges"\n' + "".join(EDGE % where for where in HEAVY)
    page.write_text(query_page(fitted(query(deviation(read_text(text, "five.toml", DATA))))), encoding="utf-8")


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("name", ["query", "query-chain", "heavy"])
def test_a_query_sheet_is_one_sheet_of_paper(opened, written, paged, tmp_path, name, paper):
    """In 10 pt, by the browser's own paging; a heavy chain fills the page without the picture."""
    sheet = tmp_path / "heavy.html"
    heavy_sheet(sheet) if name == "heavy" else None
    page = opened(sheet if name == "heavy" else written(name))
    page.page.emulate_media(media="print")
    sheets, _ = paged(page.page.pdf(format=paper))
    assert sheets == [tuple(round(one) for one in PAPERS[paper])]
    assert page.page.evaluate("getComputedStyle(document.querySelector('main p')).fontSize") == f"{10 * 96 / 72:.4f}px"


def test_nothing_is_wider_than_the_paper(opened, document):
    """A browser makes the whole page smaller when one part of it is too wide; then nobody can read it."""
    page = opened(document)
    page.page.emulate_media(media="print")
    for wide, _tall in PAPERS.values():
        across = int((wide - 2 * MARGIN) * 96 / 25.4)
        page.page.set_viewport_size({"width": across, "height": 1000})
        assert page.ask("measures.width()") <= across


def test_a_low_margin_is_printed_open_and_every_check_by_its_formula(opened, written):
    page = opened(written("rudder-metric"))
    shown = "which => [...document.querySelectorAll(which)].map(one => one.checkVisibility())"
    lines = ".shared tbody tr"
    assert set(page.ask(shown, lines)) == {False}
    page.page.emulate_media(media="print")
    assert set(page.ask(shown, "details.low > .in")) == {True}
    assert set(page.ask(shown, "details:not(.low)")) == {False}
    assert set(page.ask(shown, lines)) == {True}
    names = page.ask("() => [...document.querySelectorAll('.shared tbody th')].map(one => one.textContent)")
    every = page.ask(
        "() => [...document.querySelectorAll('details .in > p:last-child .keys')].map(one => one.textContent)"
    )
    assert sorted(names) == sorted(every)
    assert len(names) > 100


def test_printed_words_are_large_enough(opened, document):
    """Words of pictures as they are drawn on the narrower of the two papers."""
    page = opened(document)
    page.page.emulate_media(media="print")
    page.page.set_viewport_size({"width": int((min(PAPERS.values())[0] - 2 * MARGIN) * 96 / 25.4), "height": 1000})
    assert page.ask("least => measures.small(least)", READABLE * 96 / 72 - 0.01) == []
