"""What a page keeps of itself, and what changed since an earlier page."""

from __future__ import annotations

import json
import re
from html import unescape

import pytest

from surfacecheck.assessment import assess, margin_text
from surfacecheck.errors import SurfaceError
from surfacecheck.reading import read_text
from surfacecheck.report import page, read_earlier, since
from surfacecheck.report._earlier import FORM, TAG, kept

from .conftest import BARE, DEMO


def kept_data(text):
    (found,) = re.findall(rf'<template id="{TAG}">(.*?)</template>', text, re.DOTALL)
    return json.loads(unescape(found))


def put(tmp_path, text, name="rudder.html"):
    path = tmp_path / name
    path.write_text(text, encoding="utf-8")
    return path


def damaged(text, change):
    """The same page with its kept data changed."""
    data = kept_data(text)
    change(data)
    whole = json.dumps(data).replace("&", "&amp;").replace("<", "&lt;")
    return re.sub(
        rf'(<template id="{TAG}">).*?(</template>)', lambda found: found[1] + whole + found[2], text, flags=re.DOTALL
    )


@pytest.fixture(scope="module")
def old(rudder):
    return page(rudder)


@pytest.fixture(scope="module")
def edited():
    """More pressure, a short edge, and a value with another word how it is known."""
    text = DEMO.replace('"1.20 kPa (designer\'s letter)"', '"1.30 kPa (designer\'s letter)"')
    text = text.replace('edge = { left_skin = "7.0 mm (ruler)", nose', 'edge = { left_skin = "4.0 mm (ruler)", nose')
    text = text.replace('lap = "14 mm (ruler)"', 'lap = "14 mm (guess)"')
    return assess(read_text(text))


def test_a_page_reads_back_what_it_kept(surface, tmp_path):
    found = read_earlier(put(tmp_path, page(surface)), surface.surface)
    want = kept(surface)
    assert (found.sheet, found.title) == (want.sheet, want.title)
    assert (found.rules, found.inputs) == (want.rules, want.inputs)
    assert found.margins.keys() == want.margins.keys()
    for name, (margin, words) in want.margins.items():
        assert found.margins[name] == (margin if margin is None else pytest.approx(margin, rel=1e-5), words)
    assert found.pins == pytest.approx(want.pins, rel=1e-5, abs=1e-9)


def test_nothing_changed_since_the_same_page(surface, tmp_path):
    found = since(surface, read_earlier(put(tmp_path, page(surface)), surface.surface))
    assert (found.margins, found.pins, found.rules, found.inputs) == ((), (), (), ())
    assert found.sentence.endswith("no number changed")
    assert found.tables("metric") == {}
    assert "no number changed" in page(surface, since=found)


def test_names_cannot_break_out_of_what_is_kept(bare, tmp_path):
    text = BARE.replace("Half a <b>rudder</b> & $x_1$", "</template><script>x</script> &amp; --> ]]>")
    nasty = assess(read_text(text))
    made = page(nasty)
    assert made.count("</template>") == 1
    assert "<script" not in made
    assert kept_data(made)["surface"]["name"] == nasty.surface.name
    assert read_earlier(put(tmp_path, made), nasty.surface).sheet == kept(nasty).sheet


def test_what_changed_is_told_before_and_after(rudder, edited, old, tmp_path):
    found = since(edited, read_earlier(put(tmp_path, old), edited.surface))
    assert {key: (before, now) for key, before, now in found.inputs} == {
        "load.pressure": ("1.20 kPa (as said: designer's letter)", "1.30 kPa (as said: designer's letter)"),
        "outline.lap": ("14 mm (measured: ruler)", "14 mm (guess)"),
        "row.left_skin_to_spar.edge.left_skin": ("7.0 mm (measured: ruler)", "4.0 mm (measured: ruler)"),
    }
    assert ("edge distance: row.left_skin_to_spar.edge.left_skin", "meets", "does not meet") in found.rules
    for name, _, before, after in found.margins:
        place, mode = name.rsplit(":", 1)
        for assessment, value in ((rudder, before), (edited, after)):
            want = [f.margin for f in assessment.findings if (f.check.place, f.check.mode) == (place, mode)]
            assert value in [None if one is None else pytest.approx(one, rel=1e-5) for one in want]
        assert before is None or after is None or abs(after - before) >= 0.004
    lowest = [min(v for v in one[2:] if v is not None) for one in found.margins]
    assert lowest == sorted(lowest)


def test_the_page_has_a_section_on_it(edited, old, tmp_path):
    found = since(edited, read_earlier(put(tmp_path, old), edited.surface))
    made = page(edited, since=found)
    section = made[made.index('<h2 id="since">') : made.index('<h2 id="pins">')]
    assert f"Since the earlier page of {found.sheet}" in section
    for table in found.tables("metric").values():
        for row in table.rows:
            assert row[-1] in unescape(section)
    _, words, before, after = found.margins[0]
    assert words in unescape(section)
    assert margin_text(before) in section
    assert margin_text(after) in section
    assert 'href="#since"' in made
    assert '<h2 id="since">' not in old


def test_a_margin_that_comes_or_goes_is_said(rudder, no_sheet, tmp_path, old):
    found = since(no_sheet, read_earlier(put(tmp_path, old), no_sheet.surface))
    assert found.gone
    rows = [row for row in found.tables("metric")["margins"].rows if row[2] == "not there"]
    assert len(rows) == len(found.gone)
    back = since(rudder, read_earlier(put(tmp_path, page(no_sheet)), rudder.surface))
    assert back.new == found.gone
    assert back.gone == found.new


def test_a_terminal_gets_the_start_of_it(edited, old, tmp_path):
    text = since(edited, read_earlier(put(tmp_path, old), edited.surface)).text("metric")
    assert text.startswith("SINCE  the earlier page")
    assert max(map(len, text.split("\n"))) <= 80
    assert text.isascii()
    assert re.search(r"and \d+ more, on the page", text)


def test_it_is_plain_data_too(edited, old, tmp_path):
    data = since(edited, read_earlier(put(tmp_path, old), edited.surface)).data()
    again = json.loads(json.dumps(data, allow_nan=False))
    assert {"name": "outline.lap", "before": "14 mm (measured: ruler)", "after": "14 mm (guess)"} in again["inputs"]


@pytest.mark.parametrize(
    ("change", "says"),
    [
        (lambda data: data.update(form=FORM + 1), rf"newer surfacecheck \(form {FORM + 1}; this one reads up to"),
        (lambda data: data["surface"].update(name="Fin <b>"), r'is the page of "Fin <b>" \(rudder\); this is "Rud'),
        (lambda data: data["surface"].update(kind="aileron", half="left"), r"\(aileron, left half\); this is"),
        (lambda data: data.pop("margins"), "damaged"),
        (lambda data: data.update(margins=[1, 2]), "damaged"),
        (lambda data: data.update(margins={"a": ["+1", "x"]}), "damaged"),
        (lambda data: data.update(pins={"a": True}), "damaged"),
        (lambda data: data.update(surface=3), "damaged"),
        (lambda data: data.update(pins={"a": 10**400}), "damaged"),
        (lambda data: data.update(pins={"a": float("nan")}), "cannot be read as a page"),
    ],
)  # fmt: skip
def test_a_page_of_something_else_is_one_line(rudder, old, tmp_path, change, says):
    path = put(tmp_path, damaged(old, change))
    with pytest.raises(SurfaceError, match=says) as caught:
        read_earlier(path, rudder.surface)
    assert len(caught.value.faults) == 1
    assert str(caught.value).startswith("rudder.html: ")
    assert "\n" not in str(caught.value)


@pytest.mark.parametrize("text", ["", "<html>another page</html>", '<template id="surfacecheck-page">[1]</template>'])
def test_another_file_is_one_line(rudder, tmp_path, text):
    with pytest.raises(SurfaceError, match=r"^rudder\.html: holds no numbers of a page that check wrote"):
        read_earlier(put(tmp_path, text), rudder.surface)


def test_bytes_that_are_no_text_folders_and_nothing_at_all(rudder, tmp_path):
    path = tmp_path / "rudder.html"
    path.write_bytes(b"\xff\xfe\x00 no text")
    with pytest.raises(SurfaceError, match="cannot be read as a page"):
        read_earlier(path, rudder.surface)
    for missing in (tmp_path, tmp_path / "none.html"):
        with pytest.raises(SurfaceError, match="is no file: give the page that check wrote"):
            read_earlier(missing, rudder.surface)
    deep = put(tmp_path, f'<template id="{TAG}">{"[" * 100_000}</template>')
    with pytest.raises(SurfaceError, match="cannot be read as a page"):
        read_earlier(deep, rudder.surface)
