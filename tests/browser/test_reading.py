"""Who reads it otherwise: by ear, by keyboard, with weak eyes, from a copy in grey."""

from __future__ import annotations

import io
import re
from itertools import combinations, pairwise

import numpy as np
import pytest
from PIL import Image

CONTRAST = 4.5
"""W3C: WCAG 2.2, success criterion 1.4.3 (minimum contrast), text of any size."""
GREY = 1.25
"""Our own: the least contrast of two tones of a picture in grey."""
TINT, DRAWN = 1.1, 0.004
"""Our own: the greatest contrast of a tint with white; the least share of a picture that is no edge of a line."""
HIDE = "svg text, svg text * { fill: transparent !important; stroke: transparent !important; }"


def luminance(colour):
    """Relative luminance of colours of 8 bits, WCAG 2.2, definition of relative luminance."""
    share = np.asarray(colour, dtype=float) / 255
    linear = np.where(share <= 0.04045, share / 12.92, ((share + 0.055) / 1.055) ** 2.4)
    return linear @ np.array([0.2126, 0.7152, 0.0722])


def contrast(one, other):
    """Contrast ratio of two colours, WCAG 2.2, definition of contrast ratio."""
    first, second = luminance(one), luminance(other)
    return (np.maximum(first, second) + 0.05) / (np.minimum(first, second) + 0.05)


def channels(written):
    """Read a computed colour: red, green, blue and how much of it covers."""
    red, green, blue, *cover = map(float, re.fullmatch(r"rgba?\((.*)\)", written).group(1).split(","))
    return np.array([red, green, blue]), (cover or [1.0])[0]


def over(layers):
    """Lay colours over white, the uppermost first."""
    below = np.array([255.0, 255.0, 255.0])
    for written in reversed(layers):
        colour, cover = channels(written)
        below = cover * colour + (1 - cover) * below
    return below


def taken(locator):
    """Take a picture of an element, as an array."""
    return np.asarray(Image.open(io.BytesIO(locator.screenshot())).convert("RGB")).astype(int)


def tones_of(dots):
    """Return the colours of a picture, the commonest first, and the share of each."""
    dots = dots.reshape(-1, 3)
    found, count = np.unique(dots @ np.array([65536, 256, 1]), return_counts=True)
    order = np.argsort(-count)
    return [
        ((tone >> 16, tone >> 8 & 255, tone & 255), share)
        for tone, share in zip(found[order].tolist(), (count[order] / len(dots)).tolist(), strict=True)
    ]


@pytest.fixture(scope="module")
def laptop(opened, look):
    """Open each page once on a laptop, everything unfolded."""
    page = opened(look)
    page.ask("measures.open(true)")
    page.ask("measures.choose()")
    return page


@pytest.fixture(scope="module")
def scratch(opened, sound, tmp_path_factory):
    """Open one page on a laptop, to be written over."""
    path = tmp_path_factory.mktemp("scratch") / "page.html"
    path.write_text(sound, encoding="utf-8")
    return opened(path)


def test_the_formulas_are_those_of_the_standard():
    """The contrast of black and white is 21 to 1, of a colour with itself 1 (WCAG 2.2, note 1 to contrast ratio).

    Grey #767676 is the lightest that meets 4.5 to 1 on white, #777777 does not: W3C, Understanding WCAG 2.2, failure
    F24 and technique G18 give the procedure, the two greys follow from it by hand: (119/255 + 0.055)/1.055 = 0.4945,
    to the power 2.4 is 0.1845, and 1.05 / 0.2345 = 4.478; of 118, 0.1812 and 1.05 / 0.2312 = 4.542.
    """
    assert contrast((0, 0, 0), (255, 255, 255)) == pytest.approx(21.0, abs=1e-12)
    assert contrast((18, 50, 74), (18, 50, 74)) == 1.0
    assert contrast((119, 119, 119), (255, 255, 255)) == pytest.approx(4.478, abs=5e-4)
    assert contrast((118, 118, 118), (255, 255, 255)) == pytest.approx(4.542, abs=5e-4)


def pale_words(opened):
    """Return the words that stand out too little from the ground of the page, with their contrast."""
    pale = {}
    for words, colour, layers in opened.ask("measures.colours()"):
        ratio = float(contrast(over([colour, *layers]), over(layers)))
        if ratio < CONTRAST:
            pale[words] = round(ratio, 2)
    return pale


def pale_labels(opened):
    """Return the words of pictures that stand out too little from what is drawn below them.

    The ground of a word is the commonest colour of the box it stands in, in a picture taken without words.
    """
    pale = {}
    for picture in opened.page.locator("[data-chosen]").all():
        labels = picture.evaluate("one => measures.labels(one)")
        style = opened.page.add_style_tag(content=HIDE)
        drawn = taken(picture)
        style.evaluate("one => one.remove()")
        for words, fill, cover, (x, y, wide, tall) in labels:
            box = drawn[max(int(y), 0) : int(y + tall) + 1, max(int(x), 0) : int(x + wide) + 1].reshape(-1, 3)
            ground = np.array(tones_of(box)[0][0])
            colour, own = channels(fill)
            ratio = float(contrast(own * cover * colour + (1 - own * cover) * ground, ground))
            if ratio < CONTRAST:
                pale[words] = round(ratio, 2)
    return pale


def tones_alike(opened):
    """Return the pairs of tones of a picture that are one tone in grey, as the browser shows it without colour.

    A tint next to white is ground, not a tone: what stands on it has its own edge.
    """
    session = opened.page.context.new_cdp_session(opened.page)
    opened.page.add_style_tag(content=HIDE)
    session.send("Emulation.setEmulatedVisionDeficiency", {"type": "achromatopsia"})
    alike = []
    for number, picture in enumerate(opened.page.locator("[data-chosen]").all()):
        found = [tone for tone, share in tones_of(taken(picture)) if share > DRAWN]
        assert all(max(tone) - min(tone) <= 1 for tone in found)
        tones = [tone for tone in found if contrast(tone, (255, 255, 255)) > TINT]
        alike += [(number, *pair) for pair in combinations(tones, 2) if contrast(*pair) < GREY]
    session.send("Emulation.setEmulatedVisionDeficiency", {"type": "none"})
    return alike


def without_words(opened):
    """Return what is wrong with the names of pictures, as a program that reads aloud gets them."""
    session = opened.page.context.new_cdp_session(opened.page)
    nodes = session.send("Accessibility.getFullAXTree")["nodes"]
    images = [one for one in nodes if not one["ignored"] and one["role"]["value"] in ("image", "img")]
    names = [one.get("name", {}).get("value", "") for one in images]
    drawn = opened.ask("measures.pictures()")
    return [name for name in names if len(name) < 15] + [f"{len(names)} of {drawn}"] * (len(names) != drawn)


def steps_skipped(headings):
    """Return the pairs of headings between which a step is left out; the first is the only one of its kind."""
    levels = [level for level, _ in headings]
    assert (levels[0], levels.count(1)) == (1, 1)
    return [pair for pair in pairwise(headings) if pair[1][0] > pair[0][0] + 1]


def unreached(opened):
    """Go through a page by keyboard; return what it passes by, does not frame or show, or does not let go of."""
    stops = opened.ask("measures.number()")
    reached = []
    for _ in range(stops):
        opened.page.keyboard.press("Tab")
        reached.append(opened.ask("measures.where()"))
    order = [one and one["stop"] for one in reached]
    wrong = [one["what"] for one in reached if one and not (one["framed"] and one["inView"])]
    opened.page.keyboard.press("Tab")  # no trap at the end
    left = opened.ask("measures.where()") in (None, *reached[:1])
    return wrong + [order] * (order != list(range(stops))) + ["held at the end"] * (not left)


def empty_maps(opened):
    """Return how far each small map is filled by the outline it repeats, where that is too little or too much."""
    filled = opened.page.evaluate("""() => [...document.querySelectorAll("svg.mini")].map((map) => {
        const whole = map.getBoundingClientRect(), drawn = map.querySelector("use").getBoundingClientRect();
        const inside = Math.min(drawn.bottom, whole.bottom) - Math.max(drawn.top, whole.top);
        return inside / whole.height; })""")
    return [share for share in filled if not 0.5 < share <= 1]


def deaf_to_enter(opened):
    """Return what the enter key does not open (of the first five folded) and the links that lead nowhere."""
    page, deaf = opened.page, []
    for summary in page.locator("summary").all()[:5]:
        summary.focus()
        before = summary.evaluate("one => one.parentElement.open")
        page.keyboard.press("Enter")
        deaf += [summary.inner_text()] * (summary.evaluate("one => one.parentElement.open") is before)
    for link in page.locator("a[href^='#']").all():
        if not link.is_visible():
            continue
        link.focus()
        page.keyboard.press("Enter")
        goal = link.get_attribute("href")
        top = page.evaluate("goal => document.querySelector(goal)?.getBoundingClientRect().top ?? -9", goal)
        there = opened.ask("location.hash") == goal and -2 <= top < page.viewport_size["height"]
        deaf += [goal] * (not there)
    return deaf


def test_words_stand_out_from_the_page(laptop):
    assert len(laptop.ask("measures.colours()")) > 20
    assert pale_words(laptop) == {}


def test_words_of_pictures_stand_out_from_what_is_drawn_below(laptop):
    assert pale_labels(laptop) == {}


def test_tones_of_pictures_differ_in_grey(laptop):
    assert tones_alike(laptop) == []


def test_every_picture_says_what_it_shows(laptop):
    assert without_words(laptop) == []


def test_a_small_map_draws_the_outline_it_repeats(laptop):
    assert empty_maps(laptop) == []


def test_headings_go_down_one_step_at_a_time(laptop):
    headings = laptop.ask("measures.headings()")
    assert steps_skipped(headings) == []
    assert all(words.strip() for _, words in headings)


def test_the_keyboard_reaches_everything_in_order_and_shows_where_it_is(opened, look):
    assert unreached(opened(look)) == []


def test_enter_opens_what_is_folded_and_follows_links(opened, look):
    assert deaf_to_enter(opened(look)) == []


def test_one_tap_on_the_first_screen_of_a_phone_shows_how_it_was_worked(opened, written):
    page = opened(written("rudder-metric"), "phone").page
    page.get_by_role("link", name="how it was worked").tap()
    formula = page.locator(".low .formula").first
    assert formula.is_visible()
    assert 0 < formula.bounding_box()["y"] < page.viewport_size["height"]


MAP = """<svg id="o" style="display:none"><symbol id="m" viewBox="0 0 9 9"><rect width="9" height="9"/></symbol></svg>
<svg class="mini" role="img" aria-label="Where it is on the outline" width="40" height="40"><use href="#m"/></svg>"""
LINKS = "<p><a href='#a'>one</a> <a href='#b'>two</a></p>"
DARK_ON_DARK = "fill='#224466'/><rect x='60' width='40' height='100' fill='#2b4468'/><text fill='#ffffff' "


@pytest.mark.parametrize(
    ("measure", "old", "new"),
    [
        (pale_words, "<p>", "<p style='color: #777'>"),  # 4.478 to 1
        (pale_words, "<p>", "<p style='color: rgba(0, 0, 0, 0.5)'>"),
        (pale_words, "<p>", "<p style='background: #333'>"),
        (pale_labels, "<text", "<text fill='#777'"),
        (pale_labels, "<text", "<rect y='30' width='100' height='40' fill='#333'/><text"),
        (pale_labels, "<text", "<text fill-opacity='0.5'"),
        (tones_alike, 'fill="#eee"/><text', DARK_ON_DARK),
        (tones_alike, 'fill="#eee"/><text', DARK_ON_DARK.replace("224466", "4a4a4a").replace("2b4468", "a02020")),
        (without_words, 'aria-label="A square of one colour"', ""),
        (without_words, 'aria-label="A square of one colour"', 'aria-label="picture"'),
        (without_words, 'role="img" aria-label="A square of one colour"', 'aria-hidden="true"'),
        (unreached, "<p>", LINKS + "<style>a:focus { outline: none }</style><p>"),
        (unreached, "<p>", LINKS + "<p><a href='#c' tabindex='1'>three</a> "),
        (unreached, "<p>", LINKS + "<p><button tabindex='-1'>four</button> "),
        (unreached, "<p>", LINKS + "<p><button onkeydown='event.preventDefault()'>five</button> <a href='#e'>six</a> "),
        (unreached, "<p>", LINKS + "<p><a href='#d' style='position: fixed; top: -90px'>seven</a> "),
        (empty_maps, "<p>", MAP.replace("<use", "<use y='30'") + "<p>"),
        (deaf_to_enter, "<p>", "<details><summary onkeydown='event.preventDefault()'>x</summary>y</details><p>"),
        (deaf_to_enter, "<p>", "<p><a href='#gone'>to nothing</a> "),
        (deaf_to_enter, "<p>", "<p id='up' style='position: absolute; top: -99px'><a href='#up'>x</a></p><p>"),
        (lambda opened: steps_skipped(opened.ask("measures.headings()")), "<p>", "<h3>Too deep</h3><p>"),
    ],
)
def test_each_of_these_measures_can_fail(scratch, sound, measure, old, new):
    """A sound page has nothing wrong; one fault is planted, and seen by the measure it is for."""

    def wrong(text):
        scratch.page.set_content(text)
        scratch.ask("measures.choose()")
        return measure(scratch)

    assert old in sound
    assert not wrong(sound.replace("<p>", MAP + LINKS.replace("#b", "#a") + "<p id='a'>"))
    assert wrong(sound.replace(old, new))
