"""The page: complete, self-contained, escaped, the same every time, and replaced only by a complete one."""

from __future__ import annotations

import hashlib
import os
import re
from dataclasses import replace
from html.parser import HTMLParser

import pytest

from surfacecheck.assessment import assess, margin_text
from surfacecheck.errors import SurfaceError
from surfacecheck.reading import read_text
from surfacecheck.report import page, write_page
from surfacecheck.report._blocks import check_blocks
from surfacecheck.report._by_hand import by_hand
from surfacecheck.report._inputs import input_tables
from surfacecheck.working import evaluate

from .conftest import BARE

VOID = {"meta", "br", "img", "link", "input", "hr"}
MEGABYTE = 1_000_000


class Reader(HTMLParser):
    """Collects tags, ids, links and words; notes what is not closed in its order."""

    def __init__(self, text):
        super().__init__()
        self.tags, self.ids, self.links, self.words, self.open, self.wrong = [], [], [], [], [], []
        self.named, self.attributes = {}, []
        self.feed(text)
        self.close()

    def handle_starttag(self, tag, attrs):
        found = dict(attrs)
        self.tags.append(tag)
        self.attributes.append((tag, found))
        self.ids += [found["id"]] if "id" in found else []
        self.links += [found[k] for k in ("href", "xlink:href", "src") if k in found]
        if tag not in VOID:
            self.open.append(tag)

    def handle_startendtag(self, tag, attrs):
        self.handle_starttag(tag, attrs)
        if tag not in VOID:
            self.open.pop()

    def handle_endtag(self, tag):
        if not self.open or self.open.pop() != tag:
            self.wrong.append(tag)

    def handle_data(self, data):
        if "style" not in self.open:
            self.words.append(data)

    @property
    def text(self):
        return re.sub(r"\s+", " ", " ".join(self.words))


def ours(document, surface):
    """The words of a page without the titles, ranges and terms of the texts it names."""
    text = Reader(document).text
    theirs = {str(rule.source) for rule in surface.rules}
    for finding in surface.findings:
        check = finding.check
        theirs |= {str(check.source), check.factors, *check.notes, *(term.means for term in check.terms.values())}
    for words in sorted(theirs - {""}, key=len, reverse=True):
        text = text.replace(re.sub(r"\s+", " ", words), "")
    return text


@pytest.fixture(scope="module")
def whole(surface):
    return page(surface)


def test_it_is_one_well_formed_document(whole):
    read = Reader(whole)
    assert whole.startswith("<!DOCTYPE html>")
    assert read.wrong == []
    assert read.open == []
    assert len(read.ids) == len(set(read.ids))
    assert ("html", {"lang": "en"}) in read.attributes
    assert any(tag == "meta" and a.get("name") == "viewport" for tag, a in read.attributes)
    assert "title" in read.tags


def test_nothing_is_fetched_and_nothing_runs(whole):
    read = Reader(whole)
    assert not {"script", "iframe", "object", "embed", "link", "img", "form"} & set(read.tags)
    assert not re.search(r'\son\w+="|@import|javascript:|url\((?!#)', whole)
    assert all(link.startswith("#") for link in read.links)
    assert {link[1:] for link in read.links} <= set(read.ids)
    assert set(re.findall(r"url\(#([^)]+)\)", whole)) <= set(read.ids)


def test_it_is_small_enough(whole):
    assert len(whole.encode("utf-8")) < MEGABYTE


def test_the_caution_stands_on_top_and_at_the_foot(whole, surface):
    text = Reader(whole).text
    places = [found.start() for found in re.finditer(re.escape(surface.caution), text)]
    assert len(places) == 2
    assert places[0] < 1500
    assert len(text) - places[1] < 400


def test_what_the_page_must_hold(whole):
    ids = set(Reader(whole).ids)
    wanted = "map pins cases along sections rows fittings checks not-given statements rules balance guesses assumptions"
    assert {*wanted.split(), "not-looked-at", "by-hand", "versions"} <= ids


def test_the_answer_stands_first(demo):
    text = Reader(page(demo)).text
    lowest = demo.lowest_by_part[0]
    at = [
        text.index(word) for word in ("LOWEST MARGIN", margin_text(lowest.margin), lowest.gives, "less than required")
    ]
    assert at == sorted(at)
    assert at[-1] < 700
    less = sum(f.margin < 0.0 for f in demo.margins)
    assert f"less than required {less} of {len(demo.margins)}" in text


def test_every_check_has_its_block(demo):
    read = Reader(page(demo))
    blocks = check_blocks(demo, "metric")
    assert len(blocks["margins"]) == len(demo.margins)
    assert read.tags.count("details") == sum(len(part) for part in blocks.values()) + 1 + len(input_tables(demo))
    for block, finding in zip(blocks["margins"], demo.margins, strict=True):
        assert block.name in read.text
        assert block.margin == margin_text(finding.margin)
        assert block.formulas


def test_how_the_lowest_margin_was_worked_stands_open(demo):
    """The first screen leads there: what it promises is not one more thing to open; every other block is folded."""
    text = page(demo)
    (goal,) = re.findall(r'href="#([^"]+)">how it was worked', text)
    opened = [found.get("id") for tag, found in Reader(text).attributes if tag == "details" and "open" in found]
    assert opened == [goal]


@pytest.mark.parametrize("system", ["metric", "inch"])
def test_numbers_on_the_page_give_the_result_on_the_page(demo, system):
    """Every formula as it stands in the HTML, worked again from the numbers that stand in it."""
    text = re.sub(r"</?b>", "", page(demo, system))
    filled = re.findall(r'<p class="formula">margin = (.*?) = ([+-][0-9.]+)</p>', text)
    assert len(filled) == len(demo.margins) + len(demo.bounds)
    for formula, result in filled:
        assert margin_text(evaluate(formula.replace("&#39;", "'"), {})) == result


def test_equilibrium_of_every_case_is_printed(demo):
    text = Reader(page(demo)).text
    for case in demo.cases:
        assert case.title in text
        assert str(case.source) in text
    assert text.count("under 0.01 N") >= len(demo.rests)


def test_unknown_strength_says_what_it_must_carry(rudder):
    assert rudder.not_given
    text = Reader(page(rudder)).text
    assert "What the unknown must carry" in text
    assert re.search(r"each must carry [0-9.]+ N at ultimate", text)


def test_only_words_of_outcome(whole, surface):
    """Titles of texts and words of a regulation (a bearing's approved rating) are not ours to choose."""
    text = ours(whole, surface).casefold()
    assert not re.search(
        r"\b(safe|approved|airworthy|passes|passed|ok|fine|enough|score)\b", text.replace("just enough", "")
    )
    assert not re.search(r"[✓✔✗✘☑]", text)


def test_colours_are_of_the_one_hue(whole):
    style = whole[whole.index("<style>") : whole.index("</style>")]
    colours = {c.lower() for c in re.findall(r"#[0-9a-fA-F]{3,6}\b", style)}
    assert colours <= {"#12324a", "#3f6c8c", "#86a9bf", "#d3dfe7", "#f4f7f9", "#fff"}
    assert not re.search(r"\b(red|green|orange|yellow|amber)\b", style)


def test_letters_are_not_small(whole):
    style = whole[whole.index("<style>") : whole.index("@page")]
    sizes = [16 * float(size) for size in re.findall(r"font-size:([0-9.]+)rem", style)]
    assert min(sizes) >= 12.0
    assert "16px/" in style


def test_pictures_say_what_they_show_and_tables_can_be_scrolled(whole):
    read = Reader(whole)
    for tag, found in read.attributes:
        if tag == "svg" and found.get("aria-hidden") == "true":  # only what the small maps repeat
            assert (found["width"], found["height"]) == ("0", "0")
        elif tag == "svg":
            assert found["role"] == "img"
            assert len(found["aria-label"]) > 20
        if found.get("class") == "box":
            assert found["tabindex"] == "0"
            assert found["aria-label"]
    classes = [found.get("class", "").split() for _, found in read.attributes]
    on_paper = sum("shared" in one for one in classes)  # the workings by formula, which no screen shows
    assert read.tags.count("table") - on_paper <= sum(one == ["box"] for one in classes)


def test_it_prints(whole):
    for rule in ("@page{margin:11mm}", "break-inside:avoid", "thead{display:table-header-group}"):
        assert rule in whole


def test_names_are_escaped():
    nasty = '<script>alert("x")</script> & $x$'
    text = BARE.replace("Half a <b>rudder</b> & $x_1$", nasty.replace('"', '\\"'))
    text = text.replace("form = 1", 'form = 1\ndrawing = "<img src=x>"\nwho_decides = "<u>me</u>"')
    made = page(assess(read_text(text)))
    assert "<script" not in made
    assert not re.search(r"<(img|i|u)[ >]", made)
    assert "&lt;script&gt;alert(" in made
    assert Reader(made).wrong == []


def test_a_half_filled_surface_says_what_hides_the_rest(bare, no_sheet):
    text = Reader(page(no_sheet)).text
    assert "hidden by sheet.spar.thickness" in text
    assert "Load on the pins" in text
    assert any(gap.key == "sheet.spar.thickness" for gap in no_sheet.gaps)
    text = Reader(page(bare)).text
    for gap in bare.gaps:
        assert gap.key in text
    assert "LOWEST MARGIN not given" in text
    for pin in bare.pins:
        assert pin.name in text


def test_the_other_units(demo):
    metric, inch = (ours(page(demo, system), demo).replace("(75 mm + 20 t)", "") for system in ("metric", "inch"))
    assert re.search(r"\d N\b", metric)
    assert "lbf" not in re.sub(r"[^ ]*\([^)]*\)", "", metric.rsplit("Guesses and sources", 1)[0])
    before = inch.rsplit("Guesses and sources", 1)[0]
    assert re.search(r"\d lbf\b", before)
    assert not re.search(r"\d (N|MPa|kPa|N m|mm)\b", before)


def test_it_is_the_same_every_time(demo):
    once, again = (hashlib.sha256(page(demo).encode()).hexdigest() for _ in range(2))
    assert once == again


def test_it_names_file_hash_and_versions(rudder):
    import numpy as np

    import surfacecheck

    text = Reader(page(rudder)).text
    for word in (rudder.surface.sha256, "rudder.toml", surfacecheck.__version__, np.__version__):
        assert word in text


def test_sums_by_hand_agree(demo):
    sums = by_hand(demo, "metric")
    assert sums
    for one in sums:
        assert one.by_hand == pytest.approx(one.here, rel=1e-6)
        assert one.result in Reader(page(demo)).text


def test_the_file_is_written_whole_and_its_size_is_told(rudder, tmp_path):
    path = tmp_path / "new" / "folder" / "page.html"
    size = write_page(rudder, path)
    assert path.stat().st_size == size == len(page(rudder).encode("utf-8"))
    assert [one.name for one in path.parent.iterdir()] == ["page.html"]


@pytest.mark.parametrize("step", ["write", "replace"])
def test_a_page_stays_until_the_new_one_is_complete(bare, tmp_path, monkeypatch, step):
    path = tmp_path / "page.html"
    path.write_text("the old page", encoding="utf-8")

    def full(*_):
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "fsync" if step == "write" else "replace", full)
    with pytest.raises(SurfaceError, match=r"page\.html cannot be written: No space left on device"):
        write_page(bare, path)
    assert path.read_text(encoding="utf-8") == "the old page"
    assert [one.name for one in tmp_path.iterdir()] == ["page.html"]


def test_a_folder_that_cannot_be_made_is_said(bare, tmp_path):
    (tmp_path / "file").write_text("x")
    with pytest.raises(SurfaceError, match="cannot be written"):
        write_page(bare, tmp_path / "file" / "page.html")


def test_a_change_is_named(bare):
    from surfacecheck.model import ChangeLaid

    change = ChangeLaid("Pitch <30>")
    made = page(replace(bare, surface=replace(bare.surface, changes=(change,))))
    assert "Pitch &lt;30&gt;" in made
