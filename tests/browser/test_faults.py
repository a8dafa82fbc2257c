"""Each measure sees the fault it is made for: a page with one fault planted is complained of, a sound one is not."""

from __future__ import annotations

import pytest


def faults(page):
    """Return what the measures find."""
    reaching = page.ask("width => measures.reaching(width)", page.width)
    wide = page.ask("measures.width()") > page.width
    return {
        "noise": bool(page.noise), "wide": wide or bool(reaching), "small": bool(page.ask("measures.small(12)")),
    }  # fmt: skip


def test_a_sound_page_has_none(show, sound):
    assert not any(faults(show(sound)).values())


@pytest.mark.parametrize(
    ("what", "old", "new"),
    [
        ("noise", "</body>", "<script>console.error('oh')</script></body>"),
        ("noise", "</body>", "<script>nothing.at.all</script></body>"),
        ("noise", "</body>", "<img alt='x' src='http://127.0.0.1:9/a.png'></body>"),
        ("wide", "<p>", "<p style='width: 700px'>"),
        ("wide", "<p>", "<p style='position: relative; left: 300px; overflow: hidden'>"),
        ("small", "<p>", "<p style='font-size: 11.9px'>"),
        ("small", "<p>", "<p><small><sup>1</sup></small>"),
        ("small", 'width="100" height="100">', 'width="80" height="80">'),
    ],
)
def test_each_fault_is_seen(show, sound, what, old, new):
    assert old in sound
    assert faults(show(sound.replace(old, new)))[what]


def test_a_cut_picture_and_a_lonely_heading_are_seen(show, sound, paged):
    """A picture of more than a page is cut; a heading that may be left alone, and just so fits, is."""
    tall = sound.replace("<p>", "<h2>Next</h2><div style='height: 1500px'>a block</div><p>")
    page = show(tall, "laptop")
    page.page.emulate_media(media="print")
    page.ask("what => measures.blocks(what)", "div")
    _, pages = paged(page.page.pdf(format="A4"))
    assert pages["block-0-a"] != pages["block-0-b"]

    lonely = sound.replace("<p>", "<div style='height: 800px'></div><h2 style='break-after: auto'>Next</h2><p>")
    page = show(lonely.replace("Some words.", "<b style='display: block; height: 500px'>x</b>"), "laptop")
    page.page.add_style_tag(content="p { break-inside: avoid }")
    page.page.emulate_media(media="print")
    marked = page.ask("what => measures.blocks(what)", "figure")
    _, pages = paged(page.page.pdf(format="A4"))
    (name,) = [name for name, words in marked.items() if words == "Next"]
    assert pages[f"{name}-a"] != pages[f"{name}-b"]
