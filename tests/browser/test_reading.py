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


def test_words_stand_out_from_the_page(laptop):
    found = laptop.ask("measures.colours()")
    pale = {}
    for words, colour, layers in found:
        ratio = float(contrast(over([colour, *layers]), over(layers)))
        if ratio < CONTRAST:
            pale[words] = round(ratio, 2)
    assert len(found) > 20
    assert pale == {}


def test_words_of_pictures_stand_out_from_what_is_drawn_below(laptop):
    """The ground of a word is the commonest colour of the box it stands in, in a picture taken without words."""
    pale = {}
    for picture in laptop.page.locator("[data-chosen]").all():
        labels = picture.evaluate("one => measures.labels(one)")
        style = laptop.page.add_style_tag(content=HIDE)
        drawn = taken(picture)
        style.evaluate("one => one.remove()")
        for words, fill, cover, (x, y, wide, tall) in labels:
            box = drawn[max(int(y), 0) : int(y + tall) + 1, max(int(x), 0) : int(x + wide) + 1].reshape(-1, 3)
            ground = np.array(tones_of(box)[0][0])
            colour, own = channels(fill)
            ratio = float(contrast(own * cover * colour + (1 - own * cover) * ground, ground))
            if ratio < CONTRAST:
                pale[words] = round(ratio, 2)
    assert pale == {}


def test_tones_of_pictures_differ_in_grey(laptop):
    """In a copy in grey, as the browser shows it to someone who sees no colour.

    A tint next to white is ground, not a tone: what stands on it has its own edge.
    """
    session = laptop.page.context.new_cdp_session(laptop.page)
    laptop.page.add_style_tag(content=HIDE)
    session.send("Emulation.setEmulatedVisionDeficiency", {"type": "achromatopsia"})
    alike = []
    for number, picture in enumerate(laptop.page.locator("[data-chosen]").all()):
        found = [tone for tone, share in tones_of(taken(picture)) if share > DRAWN]
        assert all(max(tone) - min(tone) <= 1 for tone in found)
        tones = [tone for tone in found if contrast(tone, (255, 255, 255)) > TINT]
        alike += [(number, *pair) for pair in combinations(tones, 2) if contrast(*pair) < GREY]
    session.send("Emulation.setEmulatedVisionDeficiency", {"type": "none"})
    assert alike == []


def test_every_picture_says_what_it_shows(laptop):
    """As the browser hands it to a program that reads aloud: each picture one image, with words of its own."""
    session = laptop.page.context.new_cdp_session(laptop.page)
    nodes = session.send("Accessibility.getFullAXTree")["nodes"]
    images = [one for one in nodes if not one["ignored"] and one["role"]["value"] in ("image", "img")]
    names = [one.get("name", {}).get("value", "") for one in images]
    assert len(names) == laptop.ask("measures.pictures()")
    assert [name for name in names if len(name) < 15] == []


def test_a_small_map_draws_the_outline_it_repeats(laptop):
    filled = laptop.page.evaluate("""() => [...document.querySelectorAll("svg.mini")].map((map) => {
        const whole = map.getBoundingClientRect(), drawn = map.querySelector("use").getBoundingClientRect();
        const inside = Math.min(drawn.bottom, whole.bottom) - Math.max(drawn.top, whole.top);
        return inside / whole.height; })""")
    assert all(0.5 < share <= 1 for share in filled)


def test_headings_go_down_one_step_at_a_time(laptop):
    headings = laptop.ask("measures.headings()")
    levels = [level for level, _ in headings]
    assert levels.count(1) == 1
    assert levels[0] == 1
    assert [pair for pair in pairwise(headings) if pair[1][0] > pair[0][0] + 1] == []
    assert all(words.strip() for _, words in headings)


def test_the_keyboard_reaches_everything_in_order_and_shows_where_it_is(opened, look):
    page = opened(look)
    stops = page.ask("measures.number()")
    reached = []
    for _ in range(stops):
        page.page.keyboard.press("Tab")
        reached.append(page.ask("measures.where()"))
    assert [one and one["stop"] for one in reached] == list(range(stops))
    assert [one["what"] for one in reached if not (one["framed"] and one["inView"])] == []
    page.page.keyboard.press("Tab")  # no trap at the end
    assert page.ask("measures.where()") in (None, *reached[:1])


def test_enter_opens_what_is_folded_and_follows_links(opened, look):
    page = opened(look)
    for number in range(page.page.locator("summary").count()):
        if number >= 5:
            break
        summary = page.page.locator("summary").nth(number)
        summary.focus()
        before = summary.evaluate("one => one.parentElement.open")
        page.page.keyboard.press("Enter")
        assert summary.evaluate("one => one.parentElement.open") is not before
    for link in page.page.locator("a[href^='#']").all():
        if not link.is_visible():
            continue
        link.focus()
        page.page.keyboard.press("Enter")
        goal = link.get_attribute("href")
        assert page.ask("location.hash") == goal
        top = page.ask("goal => document.querySelector(goal).getBoundingClientRect().top", goal)
        assert -2 <= top < page.page.viewport_size["height"], goal
