"""Each page on each screen: nothing runs off sideways, nothing complains, nothing is fetched, words are large enough.

Text of 12 px is our own lower limit, not a figure of a standard. The narrow screen is that of W3C: Web Content
Accessibility Guidelines (WCAG) 2.2, success criterion 1.4.10 (reflow): 320 CSS pixels without scrolling sideways.
"""

from __future__ import annotations

import pytest

LEAST = 12.0


@pytest.fixture(params=[False, True], ids=["folded", "unfolded"])
def view(request, seen):
    """Give the page with everything folded, then with everything open."""
    seen.ask("open => measures.open(open)", request.param)
    return seen


def test_it_opens_without_a_word_and_asks_for_nothing(view):
    assert view.ask("measures.count()") > 20
    assert view.noise == []


def test_nothing_runs_off_sideways(view):
    """The width of the page is compared with the width asked for: a phone widens its window to what it is given."""
    assert view.ask("measures.width()") <= view.width
    assert view.ask("width => measures.reaching(width)", view.width) == []


def test_words_are_large_enough(view):
    assert view.ask("least => measures.small(least)", LEAST) == []
